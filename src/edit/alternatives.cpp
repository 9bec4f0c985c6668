// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/alternatives.h"

#include <fmt/format.h>

#include "base/problem.h"
#include "design/alternatives.h"
#include "edit/ids.h"

namespace belvedere::edit {
namespace {

using design::Alternative;
using design::AnyId;
using design::Design;

Alternative said(const Design& base, const Design& changed, const AnyId& id,
                 const std::string& name) {
  design::Difference difference = design::differenceAs(base, changed, name);
  if (!difference.unsaid.empty()) {
    std::vector<Problem> problems;
    for (std::string& sentence : difference.unsaid)
      problems.push_back({"alternative_unsaid", "", std::move(sentence),
                          "an alternative changes objects that the base has too: what is only in "
                          "one can stand in both, as new or as removed"});
    throw InputError(std::move(problems));
  }
  difference.alternative.id = id;
  return std::move(difference.alternative);
}

}  // namespace

Design keptAsAlternative(const Design& base, const Design& present, const std::string& name) {
  Design next = base;
  next.alternatives = present.alternatives;
  const AnyId id{FreeIds(present).next("alternative")};
  next.alternatives.push_back(said(base, present, id, name));
  return next;
}

Design goneOverTo(const Design& now, const AnyId& alternative, const std::string& base_name) {
  const Alternative* chosen = nullptr;
  for (const Alternative& one : now.alternatives)
    if (one.id == alternative) chosen = &one;
  if (!chosen)
    throw InputError({{"unknown_id", "",
                       fmt::format("there is no alternative \"{}\"", alternative.text), ""}});
  Design next = design::applied(now, *chosen);
  next.alternatives.clear();
  for (const Alternative& one : now.alternatives) {
    if (one.id != alternative) {
      next.alternatives.push_back(said(next, design::applied(now, one), one.id, one.name));
    } else if (!base_name.empty()) {
      const AnyId id{FreeIds(now).next("alternative")};
      next.alternatives.push_back(said(next, now, id, base_name));
    }
  }
  return next;
}

Design withoutAlternative(const Design& now, const AnyId& alternative) {
  Design next = now;
  std::erase_if(next.alternatives, [&](const Alternative& one) { return one.id == alternative; });
  return next;
}

}  // namespace belvedere::edit
