// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/photometry_reader.h"

#include <algorithm>
#include <cmath>

namespace belvedere::light {

std::string_view PhotometryText::takeWord(bool commas) {
  const std::string_view blank = commas ? " \t\r\f\v\x1a,;" : " \t\r\f\v\x1a";
  for (;;) {
    const std::size_t begin = rest_.find_first_not_of(blank);
    if (begin != std::string_view::npos) {
      rest_.remove_prefix(begin);
      const std::size_t end = std::min(rest_.find_first_of(blank), rest_.size());
      const std::string_view word = rest_.substr(0, end);
      rest_.remove_prefix(end);
      return word;
    }
    const auto next = takeLine();
    if (!next) return {};
    rest_ = *next;
  }
}

std::optional<double> photometryNumber(std::string_view word) {
  if (const auto plain = scene::numberOf<double>(word)) return plain;
  if (word.size() > 64 || word.find(',') == std::string_view::npos) return {};
  std::string pointed(word);
  std::replace(pointed.begin(), pointed.end(), ',', '.');
  return scene::numberOf<double>(pointed);
}

double PhotometryText::takeNumber(PhotometryProblems& problems, std::string_view what,
                                  bool commas) {
  const std::string_view word = takeWord(commas);
  if (word.empty())
    problems.stop(line_, fmt::format("the file ends where {} should stand", what),
                  "the counts are too high, or the file is cut off");
  const auto number = photometryNumber(word);
  if (!number || std::fabs(*number) > 1e12)
    problems.stop(line_, fmt::format("\"{}\" stands where {} should be", readableText(word.substr(0, 40)),
                                     what),
                  "a number is wanted here; a count before it may be wrong");
  return *number;
}

int PhotometryText::takeCount(PhotometryProblems& problems, std::string_view what, int least,
                              int most, bool commas) {
  const double number = takeNumber(problems, what, commas);
  if (number != std::floor(number) || number < least || number > most)
    problems.stop(line_, fmt::format("{} is {:g}", what, number),
                  fmt::format("a whole number from {} to {} is wanted", least, most));
  return static_cast<int>(number);
}

namespace {

// Length of the UTF-8 sequence that starts at bytes[i]; 0 where none does.
std::size_t sequenceAt(std::string_view bytes, std::size_t i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(bytes[k]); };
  const unsigned char lead = byte(i);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xf0 && lead < 0xf5 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 0;
  if (lead >= 0xf5 || length == 0 || i + length > bytes.size()) return 0;
  for (std::size_t k = 1; k < length; ++k)
    if ((byte(i + k) & 0xc0) != 0x80) return 0;
  // Not shortest, surrogates, beyond the last character.
  if ((lead == 0xe0 && byte(i + 1) < 0xa0) || (lead == 0xed && byte(i + 1) > 0x9f) ||
      (lead == 0xf0 && byte(i + 1) < 0x90) || (lead == 0xf4 && byte(i + 1) > 0x8f))
    return 0;
  return length;
}

}  // namespace

bool isTiltLine(std::string_view line) {
  constexpr std::string_view kTilt = "TILT", kBlanks = " \t";
  const auto withoutBlanks = [&](std::string_view text) {
    return text.substr(std::min(text.find_first_not_of(kBlanks), text.size()));
  };
  line = withoutBlanks(line);
  return line.starts_with(kTilt) && withoutBlanks(line.substr(kTilt.size())).starts_with('=');
}

std::string readableText(std::string_view bytes) {
  bool utf8 = true;
  for (std::size_t i = 0; i < bytes.size() && utf8;) {
    const std::size_t length = sequenceAt(bytes, i);
    utf8 = length > 0;
    i += length;
  }
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7f) text += ' ';
    else if (byte < 0x80 || utf8) text += c;
    else if (byte < 0xa0) text += ' ';  // Latin-1 has control characters there
    else {
      text += static_cast<char>(0xc0 | (byte >> 6));
      text += static_cast<char>(0x80 | (byte & 0x3f));
    }
  }
  const std::size_t begin = text.find_first_not_of(' '), end = text.find_last_not_of(' ');
  return begin == std::string::npos ? std::string{} : text.substr(begin, end - begin + 1);
}

void checkTable(const RawTable& table, PhotometryProblems& problems) {
  const auto ascending = [&](const std::vector<double>& angles, int line, const char* which,
                             double least, double most) {
    for (std::size_t i = 0; i < angles.size(); ++i) {
      if (angles[i] < least || angles[i] > most) {
        problems.add(line, fmt::format("the {} angle {:g} deg is not between {:g} and {:g}", which,
                                       angles[i], least, most),
                     "see which system of planes the file says it has");
        return;
      }
      if (i > 0 && angles[i] <= angles[i - 1]) {
        problems.add(line, fmt::format("the {} angles do not ascend: {:g} deg comes after {:g}",
                                       which, angles[i], angles[i - 1]),
                     "a count before them may be wrong");
        return;
      }
    }
  };
  const bool c = table.planes == Planes::c;
  ascending(table.across_deg, table.across_line, c ? "plane" : "horizontal", c ? 0 : -90,
            c ? 360 : 90);
  ascending(table.along_deg, table.along_line, c ? "gamma" : "vertical", c ? 0 : -90, c ? 180 : 90);
  if (table.along_deg.size() < 2)
    problems.add(table.along_line, "there is only one vertical angle",
                 "intensities at two or more are needed");
  const auto negative = std::find_if(table.candela.begin(), table.candela.end(),
                                     [](double i) { return i < 0; });
  if (negative != table.candela.end()) {
    const std::size_t at = static_cast<std::size_t>(negative - table.candela.begin());
    problems.add(table.candela_line,
                 fmt::format("the intensity at plane {:g} deg, angle {:g} deg is negative: {:g} cd",
                             table.across_deg[at / table.along_deg.size()],
                             table.along_deg[at % table.along_deg.size()], *negative),
                 "no lamp takes light away: ask for another file");
  }
}

namespace {

// Mirrors the table's planes about one horizontal angle and puts the mirrored ones behind.
void mirror(RawTable& table, double about_deg) {
  const std::size_t along = table.along_deg.size(), planes = table.across_deg.size();
  std::vector<std::pair<double, std::size_t>> all;
  for (std::size_t i = 0; i < planes; ++i) {
    all.emplace_back(table.across_deg[i], i);
    const double other = 2 * about_deg - table.across_deg[i];
    if (other != table.across_deg[i]) all.emplace_back(other, i);
  }
  std::stable_sort(all.begin(), all.end());
  RawTable out = table;
  out.across_deg.clear();
  out.candela.clear();
  for (const auto& [angle, from] : all) {
    out.across_deg.push_back(angle);
    const auto row = table.candela.begin() + static_cast<std::ptrdiff_t>(from * along);
    out.candela.insert(out.candela.end(), row, row + static_cast<std::ptrdiff_t>(along));
  }
  table = std::move(out);
}

// Brings planes into 0 to 360, both ends there.
void wrapPlanes(RawTable& table) {
  const std::size_t along = table.along_deg.size();
  std::vector<std::pair<double, std::size_t>> all;
  for (std::size_t i = 0; i < table.across_deg.size(); ++i) {
    double angle = std::fmod(table.across_deg[i], 360);
    if (angle < 0) angle += 360;
    all.emplace_back(angle, i);
  }
  std::stable_sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end(),
                        [](const auto& a, const auto& b) { return a.first == b.first; }),
            all.end());
  // A table that starts late is closed over the gap, by the straight line that interpolation takes.
  std::vector<double> across, candela;
  const auto push = [&](double angle, std::size_t from) {
    across.push_back(angle);
    const auto row = table.candela.begin() + static_cast<std::ptrdiff_t>(from * along);
    candela.insert(candela.end(), row, row + static_cast<std::ptrdiff_t>(along));
  };
  if (all.front().first != 0) {
    const double before = all.back().first - 360, after = all.front().first;
    const double t = -before / (after - before);
    across.push_back(0);
    for (std::size_t j = 0; j < along; ++j)
      candela.push_back((1 - t) * table.candela[all.back().second * along + j] +
                        t * table.candela[all.front().second * along + j]);
  }
  for (const auto& [angle, from] : all) push(angle, from);
  across.push_back(360);
  const std::vector<double> first(candela.begin(), candela.begin() + static_cast<std::ptrdiff_t>(along));
  candela.insert(candela.end(), first.begin(), first.end());
  table.across_deg = std::move(across);
  table.candela = std::move(candela);
}

}  // namespace

void unfold(RawTable&& table, Photometry& out, PhotometryProblems& problems) {
  const double first = table.across_deg.front(), last = table.across_deg.back();
  if (table.planes != Planes::c) {
    if (first == 0 && last > 0) mirror(table, 0);
    if (table.across_deg.size() < 2)
      problems.stop(table.across_line, "there is only one horizontal angle",
                    "types A and B need two or more");
  } else if (table.across_deg.size() == 1) {
    if (first != 0)
      out.notes.push_back(fmt::format("its only plane is C = {:g}; taken to hold all round", first));
    wrapPlanes(table);
  } else if (first == 0 && last == 90) {
    mirror(table, 90);
    mirror(table, 180);
    wrapPlanes(table);
  } else if (first == 0 && last == 180) {
    mirror(table, 180);
    wrapPlanes(table);
  } else if (first == 90 && last == 270) {
    mirror(table, 270);
    wrapPlanes(table);
  } else if (first == 0 && last > 180) {
    if (last < 360)
      out.notes.push_back(fmt::format("its planes end at C = {:g}; taken to go on to 360", last));
    wrapPlanes(table);
  } else {
    problems.stop(table.across_line,
                  fmt::format("planes from {:g} to {:g} deg tell of no symmetry", first, last),
                  "planes go from 0 to 0, 90, 180 or 360, or from 90 to 270");
  }
  out.planes = table.planes;
  out.across_deg = std::move(table.across_deg);
  out.along_deg = std::move(table.along_deg);
  out.candela = std::move(table.candela);
}

Photometry readPhotometry(std::string_view text) {
  PhotometryProblems problems;
  if (text.size() > kMostPhotometryBytes)
    problems.stop(1, fmt::format("the file has more than {} MB", kMostPhotometryBytes >> 20),
                  "no luminaire needs so much: it is another kind of file");
  if (text.substr(0, 3) == "\xef\xbb\xbf") text.remove_prefix(3);
  // Without line feeds, lines end in carriage returns alone.
  std::string turned;
  if (text.find('\n') == std::string_view::npos && text.find('\r') != std::string_view::npos) {
    turned = std::string(text);
    std::replace(turned.begin(), turned.end(), '\r', '\n');
    text = turned;
  }
  std::string_view rest = text;
  while (const auto line = scene::takeLine(rest)) {
    if (isTiltLine(*line)) return readLm63(text);
  }
  if (text.substr(0, 3) == "IES")
    problems.stop(1, "an LM-63 file without a line TILT=", "the file is cut off, or damaged");
  return readEulumdat(text);
}

}  // namespace belvedere::light
