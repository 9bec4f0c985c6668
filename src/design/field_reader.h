// SPDX-License-Identifier: GPL-3.0-or-later
//
// The visitor that fills the document's structs from a tree (field.h says what a visitor is). It
// checks what can be said of one value by itself: its type, its limits, its words, its shape; and
// notes ids, references and attachments for the checks that need the whole design.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "base/problem.h"
#include "design/field.h"
#include "design/fields.h"
#include "design/json_tree.h"
#include "design/words.h"

namespace belvedere::design {

// A file with more problems than this is cut off there, with one that says so.
inline constexpr std::size_t kMostProblems = 1000;

struct Reference {
  std::string where, id;
  std::vector<ObjectKind> kinds;  // empty: any
};
struct Named {
  ObjectKind kind;
  std::string where;
};
struct FoundAttachment {
  std::string where;
  Attachment file;
};

// What reading finds beside the values.
class ReadLog {
 public:
  void problem(std::string code, std::string where, std::string what, std::string hint = {});
  // A value that could not be read: it stands at its default, and nothing more is said of it.
  void unreliable(const std::string& where);
  // A problem of the value at `where` by what it means beside others (`also`): not said where one
  // of them, or what holds or is held by it, could not be read.
  void finding(std::string code, const std::string& where, std::string what, std::string hint = {},
               const std::vector<std::string>& also = {});
  bool usable(const std::string& where) const;
  // In the order of the file; `tree` gives it.
  std::vector<Problem> take(const Json& tree);
  bool clean() const { return problems_.empty(); }
  // No further problem will be shown: looking for a hint is not worth while.
  bool full() const { return problems_.size() >= kMostProblems; }

  std::unordered_map<std::string, Named> ids;
  std::vector<Reference> references;
  std::vector<FoundAttachment> attachments;

 private:
  std::vector<Problem> problems_;
  std::size_t more_ = 0;
  std::unordered_set<std::string> unreliable_, holds_unreliable_;
};

// Reads single values; where() is the JSON pointer of the one in hand.
class ValueReader {
 public:
  ValueReader(ReadLog& log, std::string pointer) : log_(log), pointer_(std::move(pointer)) {}

  void read(const Json& json, double& value, std::string_view key, const Field& field);
  void read(const Json& json, int& value, std::string_view key, const Field& field);
  void read(const Json& json, bool& value, std::string_view key, const Field& field);
  void read(const Json& json, std::string& value, std::string_view key, const Field& field);
  void read(const Json& json, Passage& value, std::string_view key, const Field& field);
  void read(const Json& json, Vec2& value, std::string_view key, const Field& field);
  void read(const Json& json, Vec3& value, std::string_view key, const Field& field);
  template <class T, std::size_t N>
  void read(const Json& json, std::array<T, N>& value, std::string_view key, const Field& field) {
    if (!listOf(json, N, key)) return;
    for (std::size_t i = 0; i < N; ++i)
      within(std::to_string(i), [&] { read((*json.list())[i], value[i], key, field); });
  }
  template <class Tag>
  void read(const Json& json, Id<Tag>& value, std::string_view key, const Field& field) {
    readReference(json, value.text, key, field);
  }
  template <class E>
    requires std::is_enum_v<E>
  void read(const Json& json, E& value, std::string_view key, const Field&) {
    const std::span<const std::string_view> words(Words<E>::list);
    const std::string* text = textOf(json, key);
    if (!text || !oneOf(*text, {words.begin(), words.end()}, key)) return;
    value = *fromWord<E>(*text);
  }
  template <class T>
  void read(const Json& json, std::optional<T>& value, std::string_view key, const Field& field) {
    read(json, value.emplace(), key, field);
  }
  template <class T>
  void read(const Json& json, std::vector<T>& value, std::string_view key, const Field& field) {
    const Json::List* list = json.list();
    if (!list) return wrongType(json, "a list", key);
    value.resize(list->size());
    constexpr bool points = std::is_same_v<T, Vec2> || std::is_same_v<T, Vec3>;
    in_points_ = points;
    number_said_ = false;
    for (std::size_t i = 0; i < list->size(); ++i)
      within(std::to_string(i), [&] { read((*list)[i], value[i], key, field); });
    in_points_ = false;
    if constexpr (points) checkPoints(value, key, field);
  }
  template <class S>
    requires std::is_class_v<S>
  void read(const Json& json, S& value, std::string_view key, const Field& field);

  const std::string& where() const { return pointer_; }

 protected:
  // Calls `body` with the pointer one step further in.
  template <class F>
  void within(std::string_view step, F body) {
    const std::size_t length = pointer_.size();
    pointer_ += '/';
    pointer_ += step;
    body();
    pointer_.resize(length);
  }
  void wrongType(const Json& json, std::string_view expected, std::string_view key);
  const std::string* textOf(const Json& json, std::string_view key);
  bool listOf(const Json& json, std::size_t size, std::string_view key);
  bool oneOf(const std::string& text, const std::vector<std::string_view>& words,
             std::string_view key);
  bool goodId(const std::string& text, std::string_view key);
  void readReference(const Json& json, std::string& id, std::string_view key, const Field& field);
  void checkPoints(const std::vector<Vec2>& points, std::string_view key, const Field& field);
  void checkPoints(const std::vector<Vec3>& points, std::string_view key, const Field& field);
  void checkShape(const std::string& text, std::string_view key, const Field& field);

  ReadLog& log_;
  std::string pointer_;

 private:
  void pointsProblem(std::string code, std::string what, std::string hint = {});

  // A list of points in a wrong unit is one slip, not one for each number.
  bool in_points_ = false, number_said_ = false;
};

// Reads the keys of one object.
class FieldReader : public ValueReader {
 public:
  FieldReader(ReadLog& log, std::string pointer, const Json::Object& members)
      : ValueReader(log, std::move(pointer)), members_(members), known_(members.size()) {}

  void object(std::string_view, std::string_view) {}
  template <class T>
  void constant(std::string_view key, const T&) {
    find(key);  // read.cpp has looked at it
  }
  template <class Tag>
  void id(Id<Tag>& id, ObjectKind kind, bool required = true) {
    readOwnId(id.text, kind, required);
  }
  template <class T>
  void operator()(std::string_view key, T& value, const Field& field) {
    if (const Json* json = present(key, field.required))
      within(pointerPart(key), [&] { read(*json, value, key, field); });
  }
  void any(std::string_view key, std::string& value, const Field& field);
  // Says which keys of the object no field asked for.
  void finish();

 private:
  const Json* find(std::string_view key);
  const Json* present(std::string_view key, bool required);
  void readOwnId(std::string& id, ObjectKind kind, bool required);

  const Json::Object& members_;
  std::vector<bool> known_;
  std::vector<std::string> fields_;
};

template <class S>
  requires std::is_class_v<S>
void ValueReader::read(const Json& json, S& value, std::string_view key, const Field&) {
  const Json::Object* members = json.object();
  if (!members) return wrongType(json, "an object", key);
  FieldReader reader(log_, pointer_, *members);
  describe(reader, value);
  reader.finish();
  if constexpr (std::is_same_v<S, Attachment>) log_.attachments.push_back({pointer_, value});
}

}  // namespace belvedere::design
