// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "design/check.h"

namespace belvedere::design {
namespace {

bool among(ObjectKind kind, const std::vector<ObjectKind>& kinds) {
  return kinds.empty() || std::ranges::find(kinds, kind) != kinds.end();
}

std::string listed(const std::vector<ObjectKind>& kinds) {
  std::string text;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    text += (i == 0 ? "" : i + 1 == kinds.size() ? " or " : ", ") + std::string(word(kinds[i]));
  return text.empty() ? "object" : text;
}

// "C1.2" where C1 is a housing and any object will do.
bool namesImager(const Reference& reference, const ReadLog& log) {
  const std::size_t dot = reference.id.rfind('.');
  if (!reference.kinds.empty() || dot == std::string::npos) return false;
  const auto found = log.ids.find(reference.id.substr(0, dot));
  return found != log.ids.end() && found->second.kind == ObjectKind::housing;
}

}  // namespace

void checkReferences(const Design& design, ReadLog& log) {
  const std::vector<Reference> references = std::move(log.references);
  for (const Reference& reference : references) {
    const bool may_be_model = among(ObjectKind::model, reference.kinds);
    if (may_be_model && findModel(design, {reference.id})) continue;
    const auto found = log.ids.find(reference.id);
    if (found != log.ids.end()) {
      if (!among(found->second.kind, reference.kinds))
        log.problem("wrong_kind_of_id", reference.where,
                    fmt::format("\"{}\" is a {}, here stands a {}", shown(reference.id),
                                word(found->second.kind), listed(reference.kinds)));
      continue;
    }
    std::vector<std::string> known;
    if (reference.kinds == std::vector{ObjectKind::situation} && design.situations.empty())
      known = {"day", "night"};
    if (std::ranges::find(known, reference.id) != known.end()) continue;
    if (namesImager(reference, log)) continue;
    // What is named may be the one that stands under an id which is taken.
    if (std::ranges::any_of(reference.kinds, [&](ObjectKind kind) {
          return !log.usable(fmt::format("ids of {}", word(kind)));
        }))
      continue;
    std::string near;
    if (!log.full()) {
      for (const auto& [id, named] : log.ids)
        if (among(named.kind, reference.kinds)) known.push_back(id);
      if (may_be_model)
        for (const Model& model : design.library) known.push_back(model.id.text);
      std::ranges::sort(known);  // the same nearest word in every run
      near = nearestWord(reference.id, known);
    }
    log.problem("unknown_id", reference.where,
                fmt::format("there is no {} \"{}\"", listed(reference.kinds), shown(reference.id)),
                near.empty() ? "" : fmt::format("did you mean \"{}\"?", shown(near)));
  }
}

void checkRange(const Range& range, const std::string& where, ReadLog& log) {
  if (range[0] > range[1])
    log.finding("range_reversed", where,
                fmt::format("the least, {}, is above the most, {}", printNumber(range[0]),
                            printNumber(range[1])),
                "write the smaller number first");
}

}  // namespace belvedere::design
