// SPDX-License-Identifier: GPL-3.0-or-later
//
// JSON text to tree: the only place that knows the JSON library (its event parser does not
// recurse, so that no depth of nesting can overflow the stack).
#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "design/json_tree.h"

namespace belvedere::design {
namespace {

bool isSpace(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

class TreeBuilder final : public nlohmann::json_sax<nlohmann::json> {
 public:
  TreeBuilder(std::string_view text, std::vector<Problem>& problems)
      : text_(text), problems_(problems) {}

  Json take() { return std::move(root_); }

  bool null() override { return add(Json{}); }
  bool boolean(bool v) override { return add(Json{v}); }
  bool number_integer(number_integer_t v) override { return add(Json{static_cast<double>(v)}); }
  bool number_unsigned(number_unsigned_t v) override { return add(Json{static_cast<double>(v)}); }
  bool number_float(number_float_t v, const string_t&) override { return add(Json{v}); }
  bool string(string_t& v) override { return add(Json{std::move(v)}); }
  bool binary(binary_t&) override { return false; }  // no such thing in a text
  bool start_object(std::size_t) override { return open(Json{Json::Object{}}); }
  bool start_array(std::size_t) override { return open(Json{Json::List{}}); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& v) override {
    Level& level = levels_.back();
    level.twice = !level.keys.insert(v).second;
    if (level.twice)
      problems_.push_back({"duplicate_key", where() + "/" + pointerPart(shown(v)),
                           fmt::format("the key \"{}\" stands twice in this object", shown(v)),
                           "keep one of them"});
    level.key = std::move(v);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& error) override {
    syntaxProblem(position, error.id == 406);
    return false;
  }

 private:
  struct Level {
    Json* json;
    std::string key;
    bool twice = false;  // the key stood before: its value is dropped
    std::unordered_set<std::string> keys;
  };

  std::string where() const {
    std::string pointer;
    for (std::size_t i = 0; i + 1 < levels_.size(); ++i) pointer += "/" + step(levels_[i], 1);
    return pointer;
  }
  // started: how many of a list's items that count have been added already
  static std::string step(const Level& level, std::size_t started) {
    const Json::List* list = level.json->list();
    return list ? std::to_string(list->size() - started) : pointerPart(shown(level.key));
  }

  Json* put(Json&& value) {
    if (++values_ > kMostValues) {
      problems_.push_back({"too_many_values", "",
                           fmt::format("the file holds more than {} values", kMostValues),
                           "put meshes and terrain into files of their own"});
      return nullptr;
    }
    if (levels_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Level& level = levels_.back();
    if (Json::List* list = level.json->list()) {
      list->push_back(std::move(value));
      return &list->back();
    }
    if (level.twice) {
      dropped_.push_back(std::make_unique<Json>(std::move(value)));
      return dropped_.back().get();
    }
    Json::Object& object = *level.json->object();
    object.push_back({level.key, std::move(value)});
    return &object.back().value;
  }
  bool add(Json&& value) { return put(std::move(value)) != nullptr; }
  bool open(Json&& value) {
    if (levels_.size() >= kMostDepth) {
      problems_.push_back(
          {"too_deep", "",
           fmt::format("lists and objects are nested more than {} deep", kMostDepth),
           "a design needs no more than about twelve"});
      return false;
    }
    Json* json = put(std::move(value));
    if (json) levels_.push_back({json, {}, false, {}});
    return json != nullptr;
  }
  bool close() {
    levels_.pop_back();
    return true;
  }

  void syntaxProblem(std::size_t position, bool overflow) {
    const std::size_t at = std::min(position > 0 ? position - 1 : 0, text_.size());
    std::size_t line = 1, column = 1;
    for (std::size_t i = 0; i < at; ++i) {
      if (text_[i] == '\n') {
        ++line;
        column = 1;
      } else if ((static_cast<unsigned char>(text_[i]) & 0xC0) != 0x80) {
        ++column;
      }
    }
    std::string pointer = where();
    if (!levels_.empty() && (levels_.back().json->list() || !levels_.back().key.empty()))
      pointer += "/" + step(levels_.back(), 0);
    const std::string place = fmt::format("line {}, column {}", line, column);
    if (overflow) {
      problems_.push_back(
          {"number_too_large", pointer,
           fmt::format("the number that ends at {} is too large for any use", place),
           "check for a slip of the exponent"});
      return;
    }
    for (const std::string_view word : {"NaN", "nan", "Infinity", "inf"}) {
      // The parser stops at the first letter, or after it.
      const std::size_t from = text_.substr(at > 0 ? at - 1 : 0, word.size() + 1).find(word);
      if (from == std::string_view::npos) continue;
      problems_.push_back({"not_a_number", pointer,
                           fmt::format("\"{}\" at {} is no number of a design", word, place),
                           "leave the key out where there is no value"});
      return;
    }
    problems_.push_back({"not_json", pointer, fmt::format("not JSON at {}: {}", place, guess(at)),
                         "the text up to this place can be read"});
  }

  std::string guess(std::size_t at) const {
    if (at >= text_.size()) return text_.empty() ? "the file is empty" : "the text ends too early";
    const char c = text_[at];
    if (static_cast<unsigned char>(c) >= 0x80) return "a character that does not belong here";
    if (c == '/' || c == '#') return "JSON has no comments";
    if (c == '\'') return "texts stand in double quotes";
    if (c == '}' || c == ']') {
      std::size_t before = at;
      while (before > 0 && isSpace(text_[before - 1])) --before;
      if (before > 0 && text_[before - 1] == ',') return "a comma before a closing bracket";
      return fmt::format("\"{}\" is not expected here", c);
    }
    if (c == '"') return "a comma or a colon is missing before this text";
    if (static_cast<unsigned char>(c) < 0x20) return "a line or a control character within a text";
    return fmt::format("\"{}\" is not expected here", c);
  }

  std::string_view text_;
  std::vector<Problem>& problems_;
  Json root_;
  std::vector<Level> levels_;
  std::vector<std::unique_ptr<Json>> dropped_;
  std::size_t values_ = 0;
};

}  // namespace

Json parseJson(std::string_view text, std::vector<Problem>& problems) {
  TreeBuilder builder(text, problems);
  if (!nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) return Json{};
  return builder.take();
}

}  // namespace belvedere::design
