// SPDX-License-Identifier: GPL-3.0-or-later
//
// What reading finds, kept in order and within bounds.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "design/field_reader.h"

namespace belvedere::design {

void ReadLog::problem(std::string code, std::string where, std::string what, std::string hint) {
  if (full()) ++more_;
  else
    problems_.push_back({std::move(code), std::move(where), std::move(what), std::move(hint)});
}

namespace {
// The pointer of what holds the value at `pointer`; false at the top.
bool goUp(std::string& pointer) {
  const std::size_t slash = pointer.rfind('/');
  if (slash == std::string::npos) return false;
  pointer.resize(slash);
  return true;
}
}  // namespace

void ReadLog::unreliable(const std::string& where) {
  if (full() || !unreliable_.insert(where).second) return;
  std::string up = where;
  while (goUp(up) && holds_unreliable_.insert(up).second) {
  }
}

bool ReadLog::usable(const std::string& where) const {
  if (full()) return false;  // nothing more will be shown: nothing more is judged
  if (unreliable_.empty()) return true;
  if (holds_unreliable_.contains(where)) return false;
  std::string up = where;
  do {
    if (unreliable_.contains(up)) return false;
  } while (goUp(up));
  return true;
}

void ReadLog::finding(std::string code, const std::string& where, std::string what,
                      std::string hint, const std::vector<std::string>& also) {
  if (!usable(where)) return;
  for (const std::string& other : also)
    if (!usable(other)) return;
  problem(std::move(code), where, std::move(what), std::move(hint));
}

namespace {
// The place of a pointer in the file, as the position of each of its steps.
std::vector<std::size_t> placeOf(const Json& tree, const std::string& pointer) {
  std::vector<std::size_t> place;
  const Json* json = &tree;
  std::size_t from = 0;
  while (json && from < pointer.size()) {
    const std::size_t to = std::min(pointer.find('/', from + 1), pointer.size());
    const std::string part = pointer.substr(from + 1, to - from - 1);
    from = to;
    const Json* next = nullptr;
    if (const Json::List* list = json->list()) {
      std::size_t i = 0;
      std::from_chars(part.data(), part.data() + part.size(), i);
      place.push_back(i);
      if (i < list->size()) next = &(*list)[i];
    } else if (const Json::Object* object = json->object()) {
      std::size_t i = 0;
      while (i < object->size() && pointerPart(shown((*object)[i].key)) != part) ++i;
      place.push_back(i);
      if (i < object->size()) next = &(*object)[i].value;
    }
    json = next;
  }
  return place;
}
}  // namespace

std::vector<Problem> ReadLog::take(const Json& tree) {
  std::vector<std::pair<std::vector<std::size_t>, Problem>> placed;
  for (Problem& p : problems_) placed.emplace_back(placeOf(tree, p.where), std::move(p));
  std::ranges::stable_sort(placed, {}, [](const auto& p) -> const auto& { return p.first; });
  problems_.clear();
  for (auto& [place, p] : placed) problems_.push_back(std::move(p));
  if (more_)
    problems_.push_back({"more_problems", "", fmt::format("{} more problems are not shown", more_),
                         "mend those above first"});
  return std::move(problems_);
}

}  // namespace belvedere::design
