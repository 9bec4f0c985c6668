// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ledger: the brief with its verdicts, words and numbers first, a mark and a bar beside them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/figures.h"
#include "design/task_table.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

using proof::RequirementProof;
using proof::Verdict;

constexpr double kPadMm = 5, kIndentMm = 6, kLineMm = 4.6, kBarMm = 2;

// A figure rounded so that a bound stays one: down, or up.

struct Row {
  const RequirementProof* proof = nullptr;
  const design::Requirement* requirement = nullptr;
  std::vector<std::string> title, notes;  // lines above and quiet ones below the verdict
};

// Where another situation's verdict is worse, its words.
std::string worseElsewhere(const Sheet& sheet, const RequirementProof& here) {
  const RequirementProof* worst = nullptr;
  const auto rank = [](Verdict v) { return v == Verdict::met ? 0 : v == Verdict::undecided ? 1 : 2; };
  for (const RequirementProof& other : sheet.proof.requirements)
    if (other.requirement == here.requirement && other.without == here.without &&
        rank(other.verdict) > rank(worst ? worst->verdict : here.verdict))
      worst = &other;
  if (!worst) return {};
  std::string title = worst->situation.text;
  for (const design::Situation& situation : design::situationsOf(sheet.design))
    if (situation.id == worst->situation && !situation.title.empty()) title = situation.title;
  return title + ": " + verdictWords(*worst);
}

std::string reasonsOf(const RequirementProof& row) {
  std::string words;
  int count = 0;
  for (const proof::ReasonShare& part : row.reasons) {
    if (part.reason == proof::Reason::served || part.share < 0.0005 || ++count > 3) continue;
    words += fmt::format("{}{} {:.1f} %", words.empty() ? "" : ", ", phrase(part.reason),
                         100 * part.share);
  }
  return words;
}

std::vector<Row> rowsOf(const Canvas& canvas, const Sheet& sheet, double width) {
  std::vector<Row> rows;
  for (const RequirementProof& proof : sheet.proof.requirements) {
    if (proof.situation != sheet.situation) continue;
    const design::Requirement* requirement =
        design::findRequirement(sheet.design, proof.requirement);
    if (!requirement) continue;
    const design::Zone* zone = design::findZone(sheet.design, requirement->zone);
    std::string what = zone ? (zone->title.empty() ? zone->id.text : zone->title) : "";
    what = what.empty() ? asksFor(sheet.design, *requirement)
                        : what + ", " + (requirement->task.empty()
                                             ? asksFor(sheet.design, *requirement)
                                             : requirement->task);
    std::string title = requirement->id.text + "  " + what;
    if (!proof.without.empty()) title += ", without " + proof.without;
    Row row{&proof, requirement,
            canvas.wrapped(title, {{}, 9, requirement->id == sheet.selected_requirement}, width, 2),
            {}};
    const auto note = [&](const std::string& words) {
      for (std::string& line : canvas.wrapped(words, {{}, 9}, width, 2))
        row.notes.push_back(std::move(line));
    };
    if (proof.verdict != Verdict::met) note(reasonsOf(proof));
    note(worseElsewhere(sheet, proof));
    rows.push_back(std::move(row));
  }
  return rows;
}

// Filled, open or half disc.
void paintMark(Canvas& canvas, Vec2 at, Verdict verdict, Rgb ink) {
  constexpr double kRadius = 1.35;
  if (verdict == Verdict::met) canvas.disc(at, kRadius, ink);
  canvas.ring(at, kRadius, {ink, 0.3});
  if (verdict != Verdict::undecided) return;
  Ring half;
  for (int i = 0; i <= 24; ++i) {
    const double angle = 3.14159265358979 * (0.5 + i / 24.0);
    half.push_back(at + Vec2{std::cos(angle), std::sin(angle)} * kRadius);
  }
  canvas.fill({{half, {}}}, ink);
}

void paintBar(Canvas& canvas, const Inks& inks, const RequirementProof& proof, const Box2& box) {
  double low = proof.share.low, high = proof.share.high, tick = proof.asked;
  if (proof.densest_px_per_m) {
    // The limit at two thirds of the bar.
    const double full = 1.5 * proof.needed_px_per_m;
    if (full <= 0) return;
    low = proof.densest_px_per_m->low / full;
    high = proof.densest_px_per_m->high / full;
    tick = 1 / 1.5;
  }
  const double width = box.high.x - box.low.x;
  const auto part = [&](double from, double to) {
    return Box2{{box.low.x + width * std::clamp(from, 0.0, 1.0), box.low.y},
                {box.low.x + width * std::clamp(to, 0.0, 1.0), box.high.y}};
  };
  canvas.fillBox(box, inks.rules);
  canvas.fillBox(part(0, low), inks.wash[3]);
  if (high > low) canvas.fillBox(part(low, high), inks.wash[1]);
  const double x = box.low.x + width * std::clamp(tick, 0.0, 1.0);
  canvas.line({x, box.low.y - 0.9}, {x, box.high.y + 0.9}, {inks.ink, 0.4});
}

double heightOf(const Row& row, bool roomy) {
  return kLineMm * static_cast<double>(row.title.size() + 1 + row.notes.size()) +
         (roomy ? kBarMm + 6.6 : 1.6);
}

}  // namespace

namespace {
std::string shortened(std::string words) {
  if (words.find('.') != std::string::npos) {
    words.erase(words.find_last_not_of('0') + 1);
    if (words.back() == '.') words.pop_back();
  }
  return words == "-0" ? "0" : words;
}
}  // namespace

std::string shortNumber(double value, int decimals) {
  return shortened(fmt::format("{:.{}f}", value, decimals));
}
std::string shortNumberBeside(double value, double limit) {
  return shortened(figureBeside(value, limit, 1));
}

const char* phrase(proof::Reason reason) {
  switch (reason) {
    case proof::Reason::served: return "served";
    case proof::Reason::out_of_frame: return "out of frame";
    case proof::Reason::too_coarse: return "too coarse";
    case proof::Reason::hidden: return "hidden";
    case proof::Reason::too_steep: return "too steep";
    case proof::Reason::turned_away: return "turned away";
    case proof::Reason::unsharp: return "unsharp";
    case proof::Reason::too_dark: return "too dark";
    case proof::Reason::masked: return "masked";
  }
  return "";
}

const char* phrase(Verdict verdict) {
  return verdict == Verdict::met ? "met" : verdict == Verdict::not_met ? "not met" : "undecided";
}

std::string asksFor(const design::Design& design, const design::Requirement& requirement) {
  const auto density = design::statedDensity(design, requirement);
  const std::string figure = density ? shortNumber(*density) + " px/m" : "";
  if (requirement.kind == design::RequirementKind::withhold) return "at most " + figure;
  if (requirement.task.empty()) return figure;
  return figure.empty() ? requirement.task : requirement.task + ", " + figure;
}

std::string verdictWords(const RequirementProof& proof) {
  const std::string verdict = phrase(proof.verdict);
  // Bounds are said outwards.
  const auto between = [](double low, double high, double limit) {
    const std::string from = figureBeside(low, limit, 1, Rounded::down),
                      to = figureBeside(high, limit, 1, Rounded::up);
    return from == to ? from : from + " to " + to;
  };
  if (proof.densest_px_per_m) {
    const double low = proof.densest_px_per_m->low, high = proof.densest_px_per_m->high;
    const double most = proof.needed_px_per_m;
    const std::string limit = shortNumber(most);
    if (proof.verdict == Verdict::undecided)
      return fmt::format("{} {} px/m of {}", verdict, between(low, high, most), limit);
    return fmt::format("{} {} of at most {} px/m", verdict,
                       proof.verdict == Verdict::met ? figureBeside(high, most, 1, Rounded::up)
                                                     : figureBeside(low, most, 1, Rounded::down),
                       limit);
  }
  return fmt::format("{} {} % of {}", verdict,
                     between(100 * proof.share.low, 100 * proof.share.high, 100 * proof.asked),
                     shortNumber(100 * proof.asked));
}

void paintLedger(Canvas& canvas, const Sheet& sheet, const Box2& box) {
  const Inks& inks = sheet.inks;
  const double left = box.low.x + kPadMm, right = box.high.x - kPadMm;
  canvas.text({left, box.low.y + 8.5}, "The brief", {inks.ink, 14, true});
  const std::string& situation = situationOf(sheet).title;
  canvas.text({left, box.low.y + 13.6},
              canvas.fitted(situation.empty() ? sheet.situation.text : situation, {inks.quiet, 9},
                            right - left),
              {inks.quiet, 9});

  const double text_left = left + kIndentMm, width = right - text_left;
  const std::vector<Row> rows = rowsOf(canvas, sheet, width);
  const double top = box.low.y + 22, bottom = box.high.y - 6;
  double whole = 0;
  for (const Row& row : rows) whole += heightOf(row, true);
  const bool roomy = whole <= bottom - top;
  double y = top;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& row = rows[i];
    const bool last = i + 1 == rows.size();
    if (y + heightOf(row, roomy) + (last ? 0 : kLineMm) > bottom) {
      canvas.text({text_left, y}, fmt::format("and {} more, not shown here", rows.size() - i),
                  {inks.quiet, 9});
      return;
    }
    const bool selected = row.requirement->id == sheet.selected_requirement;
    const Rgb ink = selected ? inks.accent : inks.ink;
    paintMark(canvas, {left + 1.5, y - 1.1}, row.proof->verdict, ink);
    for (const std::string& line : row.title) {
      canvas.text({text_left, y}, line, {ink, 9, selected});
      y += kLineMm;
    }
    canvas.text({text_left, y}, canvas.fitted(verdictWords(*row.proof), {inks.ink, 9, true}, width),
                {inks.ink, 9, true});
    if (roomy) {
      paintBar(canvas, inks, *row.proof, {{text_left, y + 1.8}, {right, y + 1.8 + kBarMm}});
      y += kBarMm + 2.4;
    }
    for (const std::string& note : row.notes) {
      y += kLineMm;
      canvas.text({text_left, y}, note, {inks.quiet, 9});
    }
    y += kLineMm + (roomy ? 4.2 : 1.6);
  }
}

}  // namespace belvedere::drawing
