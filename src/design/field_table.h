// SPDX-License-Identifier: GPL-3.0-or-later
//
// The field tables as data, for the JSON Schemas and for docs/format.md. The visitor here asks
// every struct's `describe` on an untouched struct, so that defaults are the structs' own.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/field_writer.h"

namespace belvedere::design {

struct FieldRow {
  std::string key;
  std::string takes;   // in words, with links to other tables (Markdown)
  std::string limits;  // "0 to 100 m", "" for none
  std::string absent;  // "required", the default, or what absence means
  std::string says;
  bool required = false;
  Json schema;         // draft-07
};
struct StructTable {
  std::string name, says;
  std::vector<FieldRow> rows;
};

// Tables in the order in which the document first needs them, the whole before its parts.
class TableCollector {
 public:
  // Adds the tables of S and of all that it holds; its name.
  template <class S>
  std::string add() {
    return Visit(*this).run<S>();
  }
  const std::vector<StructTable>& tables() const { return tables_; }

  class Visit {
   public:
    explicit Visit(TableCollector& all) : all_(all) {}

    template <class S>
    std::string run() {
      S untouched{};
      describe(*this, untouched);
      if (!known_) all_.tables_[index_].rows = std::move(rows_);
      return name_;
    }

    void object(std::string_view name, std::string_view says);
    void constant(std::string_view key, std::string_view text);
    void constant(std::string_view key, int number);
    template <class Tag>
    void id(Id<Tag>&, ObjectKind kind, bool required = true) {
      ownId(kind, required);
    }
    template <class T>
    void operator()(std::string_view key, T& untouched, const Field& field) {
      if (known_) return;
      add(key, shapeOf(untouched, field), valueTree(untouched, nullptr, field), field);
    }
    void any(std::string_view key, std::string&, const Field& field) {
      if (known_) return;
      Json::List types;  // all but null
      for (const char* type : {"array", "boolean", "number", "object", "string"})
        types.push_back(Json(std::string(type)));
      add(key, {"any value", Json(Json::Object{{"type", Json(std::move(types))}})}, Json(), field);
    }

   private:
    struct Shaped {
      std::string takes;
      Json schema;
    };
    void add(std::string_view key, Shaped shaped, Json untouched, const Field& field);
    void ownId(ObjectKind kind, bool required);

    Shaped shapeOf(double, const Field& field);
    Shaped shapeOf(int, const Field& field);
    Shaped shapeOf(bool, const Field& field);
    Shaped shapeOf(const std::string&, const Field& field);
    Shaped shapeOf(const Passage&, const Field& field);
    Shaped shapeOf(const Vec2&, const Field& field);
    Shaped shapeOf(const Vec3&, const Field& field);
    Shaped words(const std::vector<std::string_view>& words);
    Shaped numbers(std::string takes, std::size_t count, const Shaped& item);
    Shaped listOf(const Shaped& item, const Field& field, bool points);
    Shaped reference(const Field& field);
    Shaped link(const std::string& name);

    template <class Tag>
    Shaped shapeOf(const Id<Tag>&, const Field& field) {
      return reference(field);
    }
    template <class E>
      requires std::is_enum_v<E>
    Shaped shapeOf(E, const Field&) {
      return words({Words<E>::list.begin(), Words<E>::list.end()});
    }
    template <class T, std::size_t N>
    Shaped shapeOf(const std::array<T, N>&, const Field& field) {
      constexpr std::string_view names[] = {"", "", "[a, b]", "[x, y, z]", "[x0, y0, x1, y1]"};
      return numbers(std::string(names[N]), N, shapeOf(T{}, field));
    }
    template <class T>
    Shaped shapeOf(const std::optional<T>&, const Field& field) {
      return shapeOf(T{}, field);
    }
    template <class T>
    Shaped shapeOf(const std::vector<T>&, const Field& field) {
      return listOf(shapeOf(T{}, field), field,
                    std::is_same_v<T, Vec2> || std::is_same_v<T, Vec3>);
    }
    template <class S>
      requires std::is_class_v<S>
    Shaped shapeOf(const S&, const Field&) {
      return link(all_.add<S>());
    }

    TableCollector& all_;
    std::string name_;
    std::size_t index_ = 0;
    bool known_ = false;
    std::vector<FieldRow> rows_;
  };

 private:
  std::vector<StructTable> tables_;
};

}  // namespace belvedere::design
