// SPDX-License-Identifier: GPL-3.0-or-later
//
// The visitor that turns the document's structs back into a tree (field.h says what a visitor
// is). Beside the value it is given what was read, whose order of keys and ways of writing it
// keeps. A null stands for "absent": it is never written.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/check.h"
#include "design/field.h"
#include "design/fields.h"
#include "design/json_tree.h"
#include "design/words.h"

namespace belvedere::design {

template <class S>
Json treeOf(const S& value, const Json* source);

// One key's value as a tree. `source`: what was read there, or null.
inline Json valueTree(double value, const Json*, const Field&) {
  BELVEDERE_CHECK(std::isfinite(value), "a design holds finite numbers");
  return Json(value);
}
inline Json valueTree(int value, const Json*, const Field&) {
  return Json(static_cast<double>(value));
}
inline Json valueTree(bool value, const Json*, const Field&) { return Json(value); }
inline Json valueTree(const std::string& value, const Json*, const Field& field) {
  // An empty text is no word, date or path: it means that there is none.
  if (value.empty() && (!field.words.empty() || field.shape != Shape::plain)) return Json();
  return Json(value);
}
inline Json valueTree(const Vec2& v, const Json*, const Field&) {
  return Json(Json::List{Json(v.x), Json(v.y)});
}
inline Json valueTree(const Vec3& v, const Json*, const Field&) {
  return Json(Json::List{Json(v.x), Json(v.y), Json(v.z)});
}
inline Json valueTree(const Passage& value, const Json* source, const Field&) {
  if (source && source->number() && *source->number() == value.share) return *source;
  if (value.share == 1) return Json(std::string("passes"));
  if (value.share == 0) return Json(std::string("blocks"));
  return Json(value.share);
}
template <class Tag>
Json valueTree(const Id<Tag>& id, const Json*, const Field&) {
  return id.empty() ? Json() : Json(id.text);
}
template <class E>
  requires std::is_enum_v<E>
Json valueTree(E value, const Json*, const Field&) {
  return Json(std::string(word(value)));
}
template <class S>
  requires std::is_class_v<S>
Json valueTree(const S& value, const Json* source, const Field&) {
  return treeOf(value, source);
}
template <class T, std::size_t N>
Json valueTree(const std::array<T, N>& values, const Json*, const Field& field) {
  Json::List list;
  for (const T& value : values) list.push_back(valueTree(value, nullptr, field));
  return Json(std::move(list));
}
template <class T>
Json valueTree(const std::optional<T>& value, const Json* source, const Field& field) {
  return value ? valueTree(*value, source, field) : Json();
}
// Objects of a list are recognised by their id, others by their place.
template <class T>
Json valueTree(const std::vector<T>& values, const Json* source, const Field& field) {
  const Json::List* old = source ? source->list() : nullptr;
  std::unordered_map<std::string_view, const Json*> by_id;
  if constexpr (requires(const T& t) { t.id.text; })
    if (old)
      for (const Json& item : *old)
        if (const Json* id = item.find("id"); id && id->text()) by_id.emplace(*id->text(), &item);
  Json::List list;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Json* before = nullptr;
    if constexpr (requires(const T& t) { t.id.text; }) {
      const auto found = by_id.find(values[i].id.text);
      if (found != by_id.end()) before = found->second;
    } else if (old && i < old->size()) {
      before = &(*old)[i];
    }
    list.push_back(valueTree(values[i], before, field));
  }
  return Json(std::move(list));
}

class FieldWriter {
 public:
  struct Entry {
    std::string_view key;
    Json value;  // null: absent
    bool always = false;
  };

  explicit FieldWriter(const Json* source) : source_(source) {}

  void object(std::string_view, std::string_view) {}
  void constant(std::string_view key, std::string_view text) {
    entries_.push_back({key, Json(std::string(text)), true});
  }
  void constant(std::string_view key, int number) {
    entries_.push_back({key, Json(static_cast<double>(number)), true});
  }
  template <class Tag>
  void id(Id<Tag>& id, ObjectKind, bool required = true) {
    entries_.push_back({"id", id.empty() ? Json() : Json(id.text), required});
  }
  template <class T>
  void operator()(std::string_view key, T& value, const Field& field) {
    entries_.push_back(
        {key, valueTree(value, source_ ? source_->find(key) : nullptr, field), field.required});
  }
  void any(std::string_view key, std::string& text, const Field& field);

  const std::vector<Entry>& entries() const { return entries_; }
  // The object: keys that were there in their order, the others behind the key that comes before
  // them in the table. `defaults`: entries of a struct in which nothing was set.
  Json take(const std::vector<Entry>& defaults);

 private:
  const Json* source_;
  std::vector<Entry> entries_;
};

template <class S>
Json treeOf(const S& value, const Json* source) {
  static const std::vector<FieldWriter::Entry> defaults = [] {
    FieldWriter writer(nullptr);
    S untouched{};
    describe(writer, untouched);
    return writer.entries();
  }();
  FieldWriter writer(source);
  // `describe` takes what a reader fills; a writer only looks.
  describe(writer, const_cast<S&>(value));
  return writer.take(defaults);
}

}  // namespace belvedere::design
