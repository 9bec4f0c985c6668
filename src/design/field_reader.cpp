// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/field_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/polygon.h"

namespace belvedere::design {
namespace {

// Units that are mistaken for one another, and what turns the one into the other.
struct Slip {
  std::string_view unit, mistaken_for;
  double factor;
};
constexpr std::array kSlips{
    Slip{"m", "millimetres", 0.001},     Slip{"m", "centimetres", 0.01},
    Slip{"mm", "metres", 1000},          Slip{"um", "millimetres", 1000},
    Slip{"um", "metres", 1e6},           Slip{"nm", "micrometres", 1000},
    Slip{"s", "milliseconds", 0.001},    Slip{"Mbit/s", "kbit/s", 0.001},
    Slip{"Mbit/s", "bit/s", 1e-6},       Slip{"kg", "grams", 0.001},
    Slip{"m/s", "km/h", 1 / 3.6},        Slip{"share", "percent", 0.01},
    Slip{"TB", "gigabytes", 0.001}};

// A list of points longer than this is no outline drawn by hand: it belongs in a mesh file.
constexpr std::size_t kMostPoints = 10'000;

bool inside(double value, const Field& field) {
  return (field.above ? value > field.least : value >= field.least) && value <= field.most;
}

std::string_view unitOf(std::string_view key, const Field& field) {
  if (!field.unit.empty()) return field.unit;
  return unitOfKey(key);
}

bool hasControl(std::string_view text, bool lines_allowed) {
  return std::ranges::any_of(text, [&](char c) {
    const auto u = static_cast<unsigned char>(c);
    return (u < 0x20 && !(lines_allowed && (c == '\n' || c == '\t'))) || u == 0x7f;
  });
}

bool isDate(const std::string& t) {
  if (t.size() != 10 || t[4] != '-' || t[7] != '-') return false;
  for (const std::size_t i : {0u, 1u, 2u, 3u, 5u, 6u, 8u, 9u})
    if (t[i] < '0' || t[i] > '9') return false;
  const auto two = [&](std::size_t i) { return (t[i] - '0') * 10 + (t[i + 1] - '0'); };
  const int year = two(0) * 100 + two(2), month = two(5), day = two(8);
  const std::array<int, 13> days{0, 31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12 || day < 1 || day > days[static_cast<std::size_t>(month)])
    return false;
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return leap || month != 2 || day < 29;
}

std::string joined(const std::vector<std::string_view>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace

void ValueReader::wrongType(const Json& json, std::string_view expected, std::string_view key) {
  log_.unreliable(where());
  if (json.isNull())
    return log_.problem("null_value", where(), fmt::format("\"{}\" is null", key),
                        "leave the key out where there is no value");
  std::string hint;
  if (json.text() && expected.find("number") != std::string_view::npos)
    hint = "write it without quotes";
  else if (expected == "a list")
    hint = "put it into square brackets";
  log_.problem("wrong_type", where(),
               fmt::format("\"{}\" takes {}, here is {}", key, expected, kindOf(json)), hint);
}

void ValueReader::read(const Json& json, double& value, std::string_view key, const Field& field) {
  const double* number = json.number();
  if (!number) return wrongType(json, "a number", key);
  value = *number;
  if (inside(value, field)) return;
  log_.unreliable(where());
  const std::string_view unit = unitOf(key, field);
  const std::string_view printed = unit.empty() ? "" : " ";
  const std::string what =
      fmt::format("\"{}\" is {}{}{}, outside {}{} to {}{}{}", key, printNumber(value), printed,
                  unit, field.above ? "above " : "", printNumber(field.least),
                  printNumber(field.most), printed, unit);
  if (in_points_ && std::exchange(number_said_, true)) return;
  const bool share = unit.empty() && field.most == 1;
  const bool on_site = unit == "m" && field.most == kMostSiteM;
  const std::string map =
      on_site ? "map coordinates go into site/place/origin_m, the site counts from its own zero"
              : "";
  for (const Slip& slip : kSlips) {
    const double meant = value * slip.factor;
    if (slip.unit != (share ? "share" : unit) || !inside(meant, field) || meant == 0) continue;
    return log_.problem("wrong_unit", where(), what,
                        fmt::format("if these are {}, write {}{}{}", slip.mistaken_for,
                                    printNumber(std::round(meant * 1e9) / 1e9),
                                    on_site ? "; " : "", map));
  }
  log_.problem("out_of_range", where(), what, map);
}

void ValueReader::read(const Json& json, int& value, std::string_view key, const Field& field) {
  const double* number = json.number();
  if (!number) return wrongType(json, "a whole number", key);
  if (*number != std::floor(*number)) {
    log_.unreliable(where());
    return log_.problem("wrong_type", where(),
                        fmt::format("\"{}\" takes a whole number, here is {}", key,
                                    printNumber(*number)));
  }
  Field whole = field;
  whole.least = std::max(field.least, -2e9);  // an int holds these
  whole.most = std::min(field.most, 2e9);
  double real = 0;
  read(json, real, key, whole);
  if (inside(real, whole)) value = static_cast<int>(real);
}

void ValueReader::read(const Json& json, bool& value, std::string_view key, const Field&) {
  if (const bool* b = json.boolean()) value = *b;
  else wrongType(json, "true or false", key);
}

const std::string* ValueReader::textOf(const Json& json, std::string_view key) {
  if (!json.text()) wrongType(json, "a text", key);
  return json.text();
}

bool ValueReader::oneOf(const std::string& text, const std::vector<std::string_view>& words,
                        std::string_view key) {
  if (std::ranges::find(words, text) != words.end()) return true;
  log_.unreliable(where());
  const std::string near =
      log_.full() ? "" : nearestWord(text, {words.begin(), words.end()});
  log_.problem(
      "unknown_word", where(), fmt::format("\"{}\" is no word for \"{}\"", shown(text), key),
      near.empty() ? "one of: " + joined(words) : fmt::format("did you mean \"{}\"?", near));
  return false;
}

void ValueReader::read(const Json& json, std::string& value, std::string_view key,
                       const Field& field) {
  const std::string* text = textOf(json, key);
  if (!text) return;
  if (!field.words.empty() && !oneOf(*text, field.words, key)) return;
  value = *text;
  if (hasControl(value, true) || value.size() > 10'000) {
    log_.unreliable(where());
    return log_.problem("bad_text", where(),
                        fmt::format("\"{}\" holds a control character or is too long", key),
                        "10,000 bytes at most; of control characters only line feeds and tabs");
  }
  checkShape(value, key, field);
}

void ValueReader::checkShape(const std::string& text, std::string_view key, const Field& field) {
  const auto say = [&](std::string_view takes) {
    log_.unreliable(where());
    log_.problem("bad_text", where(),
                 fmt::format("\"{}\" is not what \"{}\" takes", shown(text), key),
                 std::string(takes));
  };
  switch (field.shape) {
    case Shape::date:
      if (!isDate(text)) say("a date such as 2026-03-31");
      break;
    case Shape::sha256:
      if (text.size() != 64 || text.find_first_not_of("0123456789abcdef") != std::string::npos)
        say("64 hexadecimal digits in lower case, as sha256sum prints them");
      break;
    case Shape::currency:
      if (text.size() != 3 ||
          !std::ranges::all_of(text, [](char c) { return c >= 'A' && c <= 'Z'; }))
        say("three capitals of ISO 4217, such as EUR");
      break;
    default: break;
  }
}

void ValueReader::read(const Json& json, Passage& value, std::string_view key, const Field& field) {
  if (const std::string* text = json.text()) {
    if (oneOf(*text, {"passes", "blocks"}, key)) value.share = *text == "passes" ? 1 : 0;
    return;
  }
  if (!json.number()) return wrongType(json, "\"passes\", \"blocks\" or a number", key);
  read(json, value.share, key, field);
}

bool ValueReader::listOf(const Json& json, std::size_t size, std::string_view key) {
  const Json::List* list = json.list();
  if (!list) {
    wrongType(json, fmt::format("a list of {} numbers", size), key);
    return false;
  }
  if (list->size() == size) return true;
  log_.unreliable(where());
  log_.problem("wrong_length", where(),
               fmt::format("\"{}\" takes {} numbers here, found {}", key, size, list->size()));
  return false;
}

void ValueReader::read(const Json& json, Vec2& value, std::string_view key, const Field& field) {
  std::array<double, 2> xy{};
  read(json, xy, key, field);
  value = {xy[0], xy[1]};
}
void ValueReader::read(const Json& json, Vec3& value, std::string_view key, const Field& field) {
  std::array<double, 3> xyz{};
  read(json, xyz, key, field);
  value = {xyz[0], xyz[1], xyz[2]};
}

bool ValueReader::goodId(const std::string& text, std::string_view key) {
  const bool blank = text.find_first_not_of(' ') == std::string::npos;
  if (!blank && text.size() <= 100 && !hasControl(text, false)) return true;
  log_.unreliable(where());
  log_.problem("bad_id", where(), fmt::format("\"{}\" is no id for \"{}\"", shown(text), key),
               text.empty() ? "leave the key out where there is nothing to name"
                            : "1 to 100 bytes, not blank, no control characters");
  return false;
}

void ValueReader::readReference(const Json& json, std::string& id, std::string_view key,
                                const Field& field) {
  const std::string* text = textOf(json, key);
  if (!text || !goodId(*text, key)) return;
  id = *text;
  if (std::ranges::find(field.words, id) == field.words.end())
    log_.references.push_back({where(), id, field.kinds});
}

void ValueReader::pointsProblem(std::string code, std::string what, std::string hint) {
  log_.finding(std::move(code), where(), std::move(what), std::move(hint));
  log_.unreliable(where());
}

void ValueReader::checkPoints(const std::vector<Vec3>& points, std::string_view key,
                              const Field& field) {
  if (field.shape == Shape::line && points.size() < 2)
    pointsProblem("too_few_points", fmt::format("\"{}\" has {} points, a line takes two or more",
                                                key, points.size()));
  if (points.size() > kMostPoints)
    pointsProblem("too_many_points",
                  fmt::format("\"{}\" has {} points, {} at most", key, points.size(), kMostPoints));
}

void ValueReader::checkPoints(const std::vector<Vec2>& points, std::string_view key,
                              const Field& field) {
  if (points.size() > kMostPoints)
    return pointsProblem(
        "too_many_points",
        fmt::format("\"{}\" has {} points, {} at most", key, points.size(), kMostPoints),
        "put it into a mesh or terrain file");
  const bool line = field.shape == Shape::line, outline = field.shape == Shape::outline;
  if ((line && points.size() < 2) || (outline && points.size() < 3))
    return pointsProblem("too_few_points",
                         fmt::format("\"{}\" has {} points, {} or more", key, points.size(),
                                     line ? "a line takes two" : "an outline takes three"));
  if (line) {
    double length_m = 0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) length_m += norm(points[i + 1] - points[i]);
    if (length_m < 1e-9)
      pointsProblem("zero_length", fmt::format("\"{}\" has no length", key),
                    "its points are the same");
  }
  if (!outline || !log_.usable(where())) return;
  const Ring hull = convexHull(points);
  if (hull.size() < 3 || std::abs(signedArea(hull)) < 1e-9)
    return pointsProblem("zero_area", fmt::format("\"{}\" encloses no area", key),
                         "its points lie on one line");
  if (points.front() == points.back())
    return pointsProblem("self_crossing",
                         fmt::format("the last point of \"{}\" repeats the first", key),
                         "an outline closes of itself: leave the last point out");
  if (const std::optional<Crossing> crossing = selfCrossing(points))
    pointsProblem("self_crossing",
                  fmt::format("\"{}\" crosses or touches itself: the edges after points {} and {} "
                              "meet at [{}, {}]",
                              key, crossing->edge_a, crossing->edge_b,
                              printNumber(std::round(crossing->at.x * 1e3) / 1e3),
                              printNumber(std::round(crossing->at.y * 1e3) / 1e3)),
                  "points count from 0");
}

const Json* FieldReader::find(std::string_view key) {
  fields_.emplace_back(key);
  for (std::size_t i = 0; i < members_.size(); ++i) {
    if (members_[i].key != key) continue;
    known_[i] = true;
    return &members_[i].value;
  }
  return nullptr;
}

const Json* FieldReader::present(std::string_view key, bool required) {
  const Json* json = find(key);
  if (!json && required) {
    within(key, [&] { log_.unreliable(where()); });
    log_.problem("missing_key", where(), fmt::format("\"{}\" is missing", key));
  }
  return json;
}

void FieldReader::readOwnId(std::string& id, ObjectKind kind, bool required) {
  const Json* json = present("id", required);
  if (!json) return;
  within("id", [&] {
    const std::string* text = textOf(*json, "id");
    if (!text || !goodId(*text, "id")) return;
    id = *text;
    if (id == "all" || id == "any_housing")
      return log_.problem("bad_id", where(), fmt::format("\"{}\" has a meaning of its own", id),
                          "take another id");
    const auto [first, is_new] = log_.ids.try_emplace(id, Named{kind, where()});
    if (is_new) return;
    log_.unreliable(fmt::format("ids of {}", word(kind)));  // what is one of them in truth, nobody knows
    log_.problem("duplicate_id", where(),
                 fmt::format("the id \"{}\" is taken by the {} at {}", shown(id),
                             word(first->second.kind), first->second.where),
                 "ids are unique in the file");
  });
}

void FieldReader::any(std::string_view key, std::string& value, const Field& field) {
  if (const Json* json = present(key, field.required)) {
    if (json->isNull()) within(key, [&] { wrongType(*json, "a value", key); });
    else value = printJsonLine(*json);
  }
}

void FieldReader::finish() {
  for (std::size_t i = 0; i < members_.size(); ++i) {
    if (known_[i]) continue;
    const std::string& key = members_[i].key;
    const std::string near = log_.full() ? "" : nearestWord(key, fields_);
    within(pointerPart(shown(key)), [&] {
      log_.problem("unknown_key", where(),
                   fmt::format("the key \"{}\" is not known here", shown(key)),
                   near.empty() ? "known are: " + fmt::format("{}", fmt::join(fields_, ", "))
                                : fmt::format("did you mean \"{}\"?", near));
    });
  }
}

}  // namespace belvedere::design
