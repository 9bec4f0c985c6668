// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <functional>

#include "base/units.h"
#include "light/photometry_reader.h"

namespace belvedere::light {
namespace {

struct Header {
  std::string format = "LM-63-1986";
  std::string title;
  std::string_view tilt;
};

// Label and keyword lines up to TILT=. Keywords are free (unknown ones hold no figure that we
// need), so nothing in them is refused.
Header readHeader(PhotometryText& text, PhotometryProblems& problems) {
  Header header;
  bool named = false;
  while (const auto line = text.takeLine()) {
    const std::string shown = readableText(*line);
    if (text.line() == 1 && shown.starts_with("IES")) {
      const auto at = shown.find("LM-63-");
      header.format = at == std::string::npos ? "LM-63-1991" : shown.substr(at, 10);
      continue;
    }
    if (isTiltLine(*line)) {
      header.tilt = line->substr(line->find('=') + 1);
      return header;
    }
    if (shown.starts_with("[LUMINAIRE]")) {
      if (!named) header.title = readableText(std::string_view(shown).substr(11));
      named = true;
    } else if (header.title.empty() && !shown.starts_with("[")) {
      header.title = shown;
    }
  }
  problems.stop(text.line(), "there is no line TILT=", "the file is cut off, or damaged");
}

TiltFactor readTilt(PhotometryText& text, PhotometryProblems& problems) {
  text.takeNumber(problems, "how the lamp lies in the luminaire", true);
  const int count = text.takeCount(problems, "the number of tilt angles", 1, kMostAngles, true);
  TiltFactor tilt;
  for (int i = 0; i < count; ++i)
    tilt.angles_deg.push_back(text.takeNumber(problems, "a tilt angle", true));
  const int line = text.line();
  for (int i = 0; i < count; ++i)
    tilt.factors.push_back(text.takeNumber(problems, "a tilt factor", true));
  if (std::adjacent_find(tilt.angles_deg.begin(), tilt.angles_deg.end(), std::greater_equal<>()) !=
      tilt.angles_deg.end())
    problems.add(line, "the tilt angles do not ascend", "their count may be wrong");
  if (std::any_of(tilt.factors.begin(), tilt.factors.end(), [](double f) { return f < 0; }))
    problems.add(text.line(), "a tilt factor is negative", "its count may be wrong");
  return tilt;
}

std::string inCapitals(std::string_view word) {
  std::string upper = readableText(word);
  std::transform(upper.begin(), upper.end(), upper.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return upper;
}

std::vector<double> readAngles(PhotometryText& text, PhotometryProblems& problems, int count,
                               const char* what) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) angles.push_back(text.takeNumber(problems, what, true));
  return angles;
}

}  // namespace

Photometry readLm63(std::string_view bytes) {
  PhotometryProblems problems;
  PhotometryText text(bytes);
  const Header header = readHeader(text, problems);
  Photometry out;
  out.format = header.format;
  out.title = header.title;
  const std::string tilt = inCapitals(header.tilt);
  if (tilt == "INCLUDE") out.tilt = readTilt(text, problems);
  else if (tilt != "NONE" && !tilt.empty())
    problems.stop(text.line(),
                  fmt::format("the lamp's tilt is in another file, \"{}\"",
                              readableText(header.tilt.substr(0, 80))),
                  "put its figures into this file, after TILT=INCLUDE");

  const double lamps = text.takeNumber(problems, "the number of lamps", true);
  const double lumens_per_lamp = text.takeNumber(problems, "the lumens of a lamp", true);
  const double multiplier = text.takeNumber(problems, "the multiplier of the intensities", true);
  const int along = text.takeCount(problems, "the number of vertical angles", 1, kMostAngles, true);
  const int across =
      text.takeCount(problems, "the number of horizontal angles", 1, kMostAngles, true);
  const int type = text.takeCount(problems, "the photometric type", 1, 3, true);
  const int units = text.takeCount(problems, "the kind of units", 1, 2, true);
  double opening = 0;
  for (const char* what : {"the width", "the length", "the height"})
    opening = std::max(opening, std::fabs(text.takeNumber(problems, what, true)));
  out.opening_m = units == 1 ? feetToM(opening) : opening;
  const double ballast = text.takeNumber(problems, "the ballast factor", true);
  // 1986 and 1991: a ballast-lamp photometric factor. Then kept for the future, and since 2019 how
  // the file was made: no factor.
  const double other = text.takeNumber(problems, "the figure after the ballast factor", true);
  const int factors_line = text.line();
  const double input_w = text.takeNumber(problems, "the input watts", true);
  const bool old = header.format == "LM-63-1986" || header.format == "LM-63-1991";
  const double factor = multiplier * ballast * (old ? other : 1);
  if (!(multiplier > 0) || !(ballast > 0) || (old && !(other > 0)))
    problems.add(factors_line,
                 fmt::format("a factor is not above zero: multiplier {:g}, ballast {:g}{}", multiplier,
                             ballast, old ? fmt::format(", ballast-lamp {:g}", other) : ""),
                 "1 where there is nothing to say");
  if (input_w > 0) out.input_w = input_w;
  if (lumens_per_lamp > 0 && lamps > 0) out.lamp_lumens = lamps * lumens_per_lamp;

  // Two bytes at least for each number: a count that the file cannot hold takes no memory.
  if (static_cast<double>(along) * across * 2 > static_cast<double>(text.bytesLeft()) + 2)
    problems.stop(factors_line,
                  fmt::format("{} times {} intensities are more than the file holds", along, across),
                  "one of the two counts is wrong, or the file is cut off");
  RawTable table;
  table.planes = type == 1 ? Planes::c : type == 2 ? Planes::b : Planes::a;
  table.along_line = text.line() + 1;
  table.along_deg = readAngles(text, problems, along, "a vertical angle");
  table.across_line = text.line() + 1;
  table.across_deg = readAngles(text, problems, across, "a horizontal angle");
  table.candela_line = text.line() + 1;
  const std::size_t count = static_cast<std::size_t>(along) * static_cast<std::size_t>(across);
  for (std::size_t i = 0; i < count; ++i)
    table.candela.push_back(factor * text.takeNumber(problems, "an intensity", true));
  const std::string_view more = text.takeWord(true);
  if (!more.empty())
    problems.add(text.line(),
                 fmt::format("\"{}\" stands after the last of {} times {} intensities",
                             readableText(more.substr(0, 40)), along, across),
                 "one of the two counts is wrong");
  // Below it nothing would be known, which is not the same as dark.
  if (const double first = table.along_deg.front();
      table.planes == Planes::c && first > 0 && std::fabs(first - 90) > 1e-6)
    problems.add(table.along_line, fmt::format("the vertical angles begin at {:g} deg", first),
                 "in type C they begin at 0, straight down, or at 90");
  checkTable(table, problems);
  problems.throwIfAny();
  unfold(std::move(table), out, problems);
  return out;
}

}  // namespace belvedere::light
