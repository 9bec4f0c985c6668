// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed text read; lengths_text.cpp writes it.
#include "edit/lengths.h"

#include <fmt/format.h>

#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "edit/measure.h"

namespace belvedere::edit {
namespace {

constexpr double kFeetM = feetToM(1), kInchM = kFeetM / 12;

struct Unit {
  std::string_view word;
  double m;
};
// Longer words first: "mm" before "m".
constexpr Unit kUnits[] = {{"feet", kFeetM},  {"foot", kFeetM},  {"inches", kInchM},
                           {"inch", kInchM},  {"mm", 0.001},     {"cm", 0.01},
                           {"km", 1000},      {"ft", kFeetM},    {"in", kInchM},
                           {"m", 1}};
// Marks as keyboards and typesetters write them.
constexpr std::string_view kFootMarks[] = {"'", "\u2032", "\u2019"};
constexpr std::string_view kInchMarks[] = {"\"", "\u2033", "\u201d", "''"};

// What would do, of exposures and apertures.
constexpr const char *kExposures = "1/25, 0.04 or 40 ms", *kApertures = "f/4 or 4";

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// A number, or a length in metres.
struct Value {
  double number = 0;
  bool length = false;
};

// Reads a calculation from left to right. `plain_m`: metres in a number without a unit; 0 where
// only numbers are taken.
class Calculation {
 public:
  Calculation(std::string_view text, std::size_t from, std::size_t to, double plain_m,
              std::string_view code)
      : text_(text), at_(from), end_(to), plain_m_(plain_m), code_(code) {}

  double result() {
    skip();
    if (at_ == end_) fail(at_, "a number is missing", "");
    const Value value = sum();
    skip();
    if (at_ < end_) fail(at_, fmt::format("\"{}\" is not understood here", rest()), hint());
    const double made = plain_m_ > 0 ? asLength(value).number : value.number;
    if (!std::isfinite(made)) fail(at_, "the number is too large", "");
    return made;
  }

 private:
  std::string hint() const {
    if (code_ == "bad_exposure") return kExposures;
    if (code_ == "bad_aperture") return kApertures;
    return plain_m_ > 0 ? "3.2, 320 cm, 12' 6 1/2\", 2*1.2+0.4" : "90, 22.5, 180-30";
  }
  std::string rest() const {
    return std::string(text_.substr(at_, std::min<std::size_t>(end_ - at_, 12)));
  }
  [[noreturn]] void fail(std::size_t at, std::string what, std::string hint) const {
    throw InputError({{std::string(code_), "",
                       fmt::format("at character {} of \"{}\": {}", at + 1, text_, what),
                       std::move(hint)}});
  }
  void skip() {
    while (at_ < end_ && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
  }
  bool next(char c) {
    skip();
    if (at_ >= end_ || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  template <std::size_t N>
  bool nextOf(const std::string_view (&marks)[N]) {
    const std::size_t before = at_;
    skip();
    const std::string_view left = text_.substr(at_, end_ - at_);
    for (const std::string_view mark : marks)
      if (left.starts_with(mark)) {
        at_ += mark.size();
        return true;
      }
    at_ = before;
    return false;
  }
  bool nextInchMark() { return nextOf(kInchMarks); }
  bool nextFootMark() {
    const std::size_t before = at_;
    if (nextInchMark()) {  // two single marks are one double mark
      at_ = before;
      return false;
    }
    return nextOf(kFootMarks);
  }

  Value asLength(Value v) const {
    return v.length || plain_m_ == 0 ? v : Value{v.number * plain_m_, true};
  }

  Value sum() {
    Value value = product();
    while (true) {
      const bool plus = next('+');
      if (!plus && !next('-')) return value;
      Value other = product();
      if (value.length || other.length) {
        value = asLength(value);
        other = asLength(other);
      }
      value.number += plus ? other.number : -other.number;
    }
  }

  Value product() {
    Value value = factor();
    while (true) {
      const bool times = next('*');
      if (!times && !next('/')) return value;
      const std::size_t at = at_;
      const Value other = factor();
      if (times && value.length && other.length)
        fail(at, "a length times a length is no length", "leave out the unit of one of them");
      if (!times && other.length && !value.length)
        fail(at, "a number over a length is no length", "leave out its unit");
      if (!times && other.number == 0) fail(at, "nothing can be divided by zero", "");
      value = times ? Value{value.number * other.number, value.length || other.length}
                    : Value{value.number / other.number, value.length && !other.length};
    }
  }

  Value factor() {
    if (++depth_ > 100) fail(at_, "too many brackets", "");
    Value value;
    if (next('-')) {
      value = factor();
      value.number = -value.number;
    } else if (next('+')) {
      value = factor();
    } else if (next('(')) {
      const std::size_t at = at_;
      value = sum();
      if (!next(')')) fail(at - 1, "the bracket is not closed", "");
      value = withUnit(value);
    } else {
      value = withUnit({number(), false});
    }
    --depth_;
    return value;
  }

  // Digits, point or comma, digits.
  double number() {
    skip();
    const std::size_t start = at_;
    double value = 0;
    while (at_ < end_ && digit(text_[at_])) value = value * 10 + (text_[at_++] - '0');
    bool any = at_ > start;
    if (at_ < end_ && (text_[at_] == '.' || text_[at_] == ',')) {
      const std::size_t point = at_++;
      double scale = 1, decimals = 0;
      while (at_ < end_ && digit(text_[at_])) {
        decimals = decimals * 10 + (text_[at_++] - '0');
        scale *= 10;
      }
      any = any || at_ > point + 1;
      value += decimals / scale;
      if (at_ < end_ && (text_[at_] == '.' || text_[at_] == ','))
        fail(at_, "a second decimal point",
             "no mark between thousands; a semicolon between coordinates");
    }
    if (!any)
      fail(start, at_ < end_ ? fmt::format("a number is missing before \"{}\"", rest())
                             : "a number is missing",
           hint());
    return value;
  }

  bool digitNext() const { return at_ < end_ && digit(text_[at_]); }

  // "1/2" at hand, whole numbers both: its value, if an inch mark or unit follows somewhere after
  // it (a fraction, not a quotient).
  std::optional<double> fractionOfInch() {
    const std::size_t before = at_;
    double over = 0, under = 0;
    skip();
    while (digitNext()) over = over * 10 + (text_[at_++] - '0');
    const bool has_over = at_ > before && digit(text_[at_ - 1]);
    if (has_over && next('/')) {
      skip();
      const std::size_t start = at_;
      while (digitNext()) under = under * 10 + (text_[at_++] - '0');
      if (at_ > start && under > 0) return over / under;
    }
    at_ = before;
    return std::nullopt;
  }
  bool nextInchWord() {
    if (nextInchMark()) return true;
    const std::size_t before = at_;
    const std::string_view word = nextWord();
    if (word == "in" || word == "inch" || word == "inches") return true;
    at_ = before;
    return false;
  }
  std::string_view nextWord() {
    skip();
    const std::size_t start = at_;
    while (at_ < end_ && letter(text_[at_])) ++at_;
    return text_.substr(start, at_ - start);
  }

  // Inches after feet: 6, 6 1/2, 1/2, 6.5, with or without their mark; nothing where none follow.
  // After "-" (12'-6") the mark is needed: without it, it is a difference.
  double inchesAfterFeet() {
    const std::size_t before = at_;
    const bool joined = at_ + 1 < end_ && text_[at_] == '-' && digit(text_[at_ + 1]);
    if (joined) ++at_;
    skip();
    if (!digitNext()) {
      at_ = before;
      return 0;
    }
    double inches = 0;
    if (const auto fraction = fractionOfInch()) {
      inches = *fraction;
    } else {
      inches = number();
      if (const auto after = fractionOfInch()) inches += *after;
    }
    const bool marked = nextInchWord();
    const std::size_t behind = at_;
    if (!marked && (joined || nextFootMark() || !nextWord().empty())) {
      at_ = before;  // 3' 4 m: not inches
      return 0;
    }
    at_ = behind;
    return inches;
  }

  // What stands behind a number.
  Value withUnit(Value value) {
    if (plain_m_ == 0) return value;
    if (value.length) return value;
    const std::size_t before = at_;
    // 6 1/2" and 1/2"
    if (const auto fraction = fractionOfInch(); fraction && nextInchWord())
      return {(value.number + *fraction) * kInchM, true};
    at_ = before;
    if (next('/')) {
      skip();
      const std::size_t start = at_;
      double under = 0;
      while (digitNext()) under = under * 10 + (text_[at_++] - '0');
      if (at_ > start && under > 0 && nextInchWord()) return {value.number / under * kInchM, true};
      at_ = before;
    }
    if (nextInchMark()) return {value.number * kInchM, true};
    if (nextFootMark())
      return {value.number * kFeetM + inchesAfterFeet() * kInchM, true};
    const std::string_view word = nextWord();
    if (word.empty()) {
      at_ = before;
      return value;
    }
    for (const Unit& unit : kUnits)
      if (word == unit.word)
        return {value.number * unit.m + (unit.m == kFeetM ? inchesAfterFeet() * kInchM : 0), true};
    skip();
    fail(at_ - word.size(), fmt::format("\"{}\" is no unit of length", word),
         "m, cm, mm, km, ft, in");
  }

  std::string_view text_;
  std::size_t at_, end_;
  double plain_m_;
  std::string_view code_;
  int depth_ = 0;
};

double plainM(Units units) { return units == Units::metric ? 1 : kFeetM; }

// Where an angle's text ends: before "deg" or a degree sign at its end.
std::size_t endOfAngle(std::string_view text, std::size_t from) {
  std::size_t end = text.size();
  const auto trim = [&] {
    while (end > from && (text[end - 1] == ' ' || text[end - 1] == '\t')) --end;
  };
  trim();
  for (const std::string_view unit : {std::string_view("deg"), std::string_view("\u00b0")})
    if (end >= from + unit.size() && text.substr(end - unit.size(), unit.size()) == unit) {
      end -= unit.size();
      break;
    }
  trim();
  return end;
}

}  // namespace

double lengthFrom(std::string_view text, Units units) {
  return Calculation(text, 0, text.size(), plainM(units), "bad_length").result();
}

double angleFrom(std::string_view text) {
  return Calculation(text, 0, endOfAngle(text, 0), 0, "bad_angle").result();
}

Vec2 placeFrom(std::string_view text, Units units, std::optional<Vec2> from) {
  constexpr std::string_view kCode = "bad_place";
  const auto fail = [&](std::size_t at, std::string_view what, std::string_view hint) {
    throw InputError({{"bad_place", "",
                       fmt::format("at character {} of \"{}\": {}", at + 1, text, what),
                       std::string(hint)}});
  };
  constexpr std::string_view kForms =
      "4.5;3 from the site's zero, @2;1 or @5<90 from the last point";
  std::size_t start = 0;
  while (start < text.size() && (text[start] == ' ' || text[start] == '\t')) ++start;
  const bool relative = start < text.size() && text[start] == '@';
  const std::size_t at = start;
  if (relative) ++start;
  const std::size_t middle = text.find_first_of(";<", start);
  if (middle == std::string_view::npos)
    fail(text.size(), "a place has two parts", kForms);
  const bool polar = text[middle] == '<';
  if (polar && !relative) fail(at, "a distance and a bearing count from the last point", kForms);
  if (relative && !from)
    fail(at, "there is no last point to count from", "4.5;3 from the site's zero");
  if (const std::size_t more = text.find_first_of(";<", middle + 1);
      more != std::string_view::npos)
    fail(more, "a place has two parts", kForms);
  const double first = Calculation(text, start, middle, plainM(units), kCode).result();
  if (polar) {
    const double bearing_deg =
        Calculation(text, middle + 1, endOfAngle(text, middle + 1), 0, kCode).result();
    return placeAt(*from, bearing_deg, first);
  }
  const double second = Calculation(text, middle + 1, text.size(), plainM(units), kCode).result();
  return (relative ? *from : Vec2{}) + Vec2{first, second};
}

double exposureFrom(std::string_view text) {
  std::string_view number = text;
  const auto drop = [&](std::string_view end) {
    const bool there = number.ends_with(end);
    if (there) number.remove_suffix(end.size());
    return there;
  };
  while (drop(" ")) {
  }
  const double unit_s = drop("ms") ? 1e-3 : (drop("s"), 1.0);
  const double s = Calculation(number, 0, number.size(), 0, "bad_exposure").result() * unit_s;
  if (s > 0) return s;
  throw InputError({{"bad_exposure", "", fmt::format("\"{}\" is no exposure time", text),
                     kExposures}});
}

double apertureFrom(std::string_view text) {
  std::string_view number = text;
  while (number.starts_with(' ')) number.remove_prefix(1);
  for (const std::string_view start : {"f/", "F/", "1:", "f", "F"})
    if (number.starts_with(start)) {
      number.remove_prefix(start.size());
      break;
    }
  const double f_number = Calculation(number, 0, number.size(), 0, "bad_aperture").result();
  if (f_number > 0) return f_number;
  throw InputError({{"bad_aperture", "", fmt::format("\"{}\" is no aperture", text), kApertures}});
}

}  // namespace belvedere::edit
