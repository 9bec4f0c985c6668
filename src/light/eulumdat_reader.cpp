// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cmath>

#include "light/photometry_reader.h"

namespace belvedere::light {
namespace {

// One line of the head, by its number in the description of the format.
class Lines {
 public:
  Lines(PhotometryText& text, PhotometryProblems& problems) : text_(text), problems_(problems) {}
  std::string_view words(const char* what) {
    const auto line = text_.takeLine();
    if (!line)
      problems_.stop(text_.line(), fmt::format("the file ends where {} should stand", what),
                     "it is cut off, or no photometry file: LM-63 and EULUMDAT are read");
    return *line;
  }
  double number(const char* what, std::optional<double> where_empty = {}) {
    const std::string_view line = words(what);
    const std::size_t begin = line.find_first_not_of(" \t");
    if (begin == std::string_view::npos && where_empty) return *where_empty;
    const std::size_t end = line.find_last_not_of(" \t");
    const auto value = begin == std::string_view::npos
                           ? std::nullopt
                           : photometryNumber(line.substr(begin, end - begin + 1));
    if (!value || std::fabs(*value) > 1e12)
      problems_.stop(text_.line(),
                     fmt::format("\"{}\" stands where {} should be", readableText(line.substr(0, 40)),
                                 what),
                     "EULUMDAT has one value a line, a number here; a line may be missing");
    return *value;
  }
  int count(const char* what, int least, int most) {
    const double value = number(what);
    if (value != std::floor(value) || value < least || value > most)
      problems_.stop(text_.line(), fmt::format("{} is {:g}", what, value),
                     fmt::format("a whole number from {} to {} is wanted", least, most));
    return static_cast<int>(value);
  }

 private:
  PhotometryText& text_;
  PhotometryProblems& problems_;
};

}  // namespace

Photometry readEulumdat(std::string_view bytes) {
  PhotometryProblems problems;
  PhotometryText text(bytes);
  Lines lines(text, problems);
  Photometry out;
  out.format = "EULUMDAT";
  lines.words("the maker");                                             // 1
  lines.count("the kind of luminaire", 0, 3);                           // 2
  const int symmetry = lines.count("the kind of symmetry", 0, 4);       // 3
  const int planes = lines.count("the number of planes", 1, kMostAngles);  // 4
  const int planes_line = text.line();
  lines.number("the step between planes", 0.0);                         // 5
  const int angles = lines.count("the number of angles in a plane", 2, kMostAngles);  // 6
  lines.number("the step between angles", 0.0);                         // 7
  lines.words("the number of the report");                              // 8
  out.title = readableText(lines.words("the luminaire's name"));        // 9
  for (const char* what : {"the luminaire's number", "the file's name", "date and user"})  // 10-12
    lines.words(what);
  for (const char* what : {"the luminaire's length", "its width", "its height"})           // 13-15
    lines.number(what, 0.0);
  double opening_mm = lines.number("the length of the luminous area", 0.0);                // 16
  opening_mm = std::max(opening_mm, lines.number("the width of the luminous area", 0.0));  // 17
  for (int i = 0; i < 4; ++i)                                                              // 18-21
    opening_mm = std::max(opening_mm, lines.number("the height of the luminous area", 0.0));
  out.opening_m = opening_mm * 1e-3;
  lines.number("the share of the flux that goes down", 0.0);            // 22
  lines.number("the light output ratio", 0.0);                          // 23
  double conversion = lines.number("the factor of the intensities", 1.0);  // 24
  const int conversion_line = text.line();
  if (conversion == 0) {
    out.notes.push_back("its factor of the intensities is 0; taken for 1");
    conversion = 1;
  }
  if (conversion < 0)
    problems.add(conversion_line, fmt::format("the factor of the intensities is {:g}", conversion),
                 "1 where there is nothing to say");
  lines.number("the tilt when measured", 0.0);                          // 25
  const int sets = lines.count("the number of sets of lamps", 1, 20);   // 26
  std::optional<double> lumens;
  bool absolute = false;
  for (int i = 0; i < sets; ++i) {
    const double count = lines.number("the number of lamps");           // 26a
    lines.words("the type of lamp");                                    // 26b
    const double flux = lines.number("the flux of the lamps");          // 26c
    const int flux_line = text.line();
    lines.words("the colour of the light");                             // 26d
    lines.words("the colour rendering");                                // 26e
    const double watts = lines.number("the watts", 0.0);                // 26f
    if (i > 0) continue;
    if (!(flux > 0))
      problems.add(flux_line, fmt::format("the flux of the lamps is {:g} lm", flux),
                   "intensities are given for each thousand lumens: without the flux they say nothing");
    lumens = flux;
    absolute = count < 0;
    if (watts > 0) out.input_w = watts;
  }
  if (sets > 1) out.notes.push_back(fmt::format("it names {} sets of lamps; the first is taken", sets));
  if (!absolute) out.lamp_lumens = lumens;
  for (int i = 0; i < 10; ++i) text.takeNumber(problems, "a direct ratio", false);  // 27

  // Which planes are stored follows from the symmetry.
  const bool quarter = symmetry == 4, half = symmetry == 2 || symmetry == 3;
  if ((quarter && planes % 4 != 0) || (half && planes % 2 != 0))
    problems.stop(planes_line,
                  fmt::format("{} planes do not go with symmetry {}", planes, symmetry),
                  quarter ? "their number is a multiple of 4" : "their number is even");
  if (symmetry == 3 && planes % 4 != 0)
    problems.stop(planes_line, fmt::format("{} planes do not go with symmetry 3", planes),
                  "their number is a multiple of 4");
  const int stored = symmetry == 0 ? planes : symmetry == 1 ? 1 : half ? planes / 2 + 1 : planes / 4 + 1;
  const int first = symmetry == 3 ? 3 * planes / 4 : 0;
  if ((static_cast<double>(stored) * angles + planes + angles) * 2 >
      static_cast<double>(text.bytesLeft()) + 2)
    problems.stop(planes_line,
                  fmt::format("{} planes of {} angles are more than the file holds", planes, angles),
                  "one of the two counts is wrong, or the file is cut off");
  std::vector<double> across;
  RawTable table;
  table.across_line = text.line() + 1;
  for (int i = 0; i < planes; ++i) across.push_back(text.takeNumber(problems, "a plane's angle", false));
  table.along_line = text.line() + 1;
  for (int i = 0; i < angles; ++i)
    table.along_deg.push_back(text.takeNumber(problems, "an angle", false));
  table.candela_line = text.line() + 1;
  const double scale = lumens.value_or(0) / 1000 * conversion;
  const std::size_t count = static_cast<std::size_t>(stored) * static_cast<std::size_t>(angles);
  for (std::size_t i = 0; i < count; ++i)
    table.candela.push_back(scale * text.takeNumber(problems, "an intensity", false));
  for (int i = 0; i < stored; ++i)
    table.across_deg.push_back(across[static_cast<std::size_t>((first + i) % planes)]);
  if (symmetry == 3) {
    // Stored from 270 by way of 360 to 90; I(C) = I(180 - C) gives the half from 90 to 270, which
    // unfold wants, in the other order.
    for (int i = 0; i < stored; ++i) {
      double& angle = table.across_deg[static_cast<std::size_t>(i)];
      angle = 540 - (first + i >= planes ? angle + 360 : angle);
    }
    std::reverse(table.across_deg.begin(), table.across_deg.end());
    const std::size_t row = table.along_deg.size();
    for (std::size_t i = 0, j = static_cast<std::size_t>(stored) - 1; i < j; ++i, --j)
      std::swap_ranges(table.candela.begin() + static_cast<std::ptrdiff_t>(i * row),
                       table.candela.begin() + static_cast<std::ptrdiff_t>((i + 1) * row),
                       table.candela.begin() + static_cast<std::ptrdiff_t>(j * row));
  }
  if (symmetry == 1) table.across_deg = {0};
  const std::string_view more = text.takeWord(false);
  if (!more.empty())
    problems.add(text.line(),
                 fmt::format("\"{}\" stands after the last of {} intensities",
                             readableText(more.substr(0, 40)), count),
                 "one of the counts, or the symmetry, is wrong");
  checkTable(table, problems);
  problems.throwIfAny();
  const auto spans = [&](double low, double high) {
    if (std::fabs(table.across_deg.front() - low) > 1e-6 || std::fabs(table.across_deg.back() - high) > 1e-6)
      problems.stop(table.across_line,
                    fmt::format("the stored planes do not go with symmetry {}", symmetry),
                    "planes are written from 0 up to just before 360, evenly or not");
    table.across_deg.front() = low;
    table.across_deg.back() = high;
  };
  if (symmetry == 4) spans(0, 90);
  if (symmetry == 2) spans(0, 180);
  if (symmetry == 3) spans(90, 270);
  unfold(std::move(table), out, problems);
  return out;
}

}  // namespace belvedere::light
