// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ledger: the brief with its verdicts, words and numbers first, a mark and a bar beside them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/figures.h"
#include "design/task_table.h"
#include "drawing/sheet_parts.h"
#include "proof/part_loss.h"

namespace belvedere::drawing {
namespace {

using proof::RequirementProof;
using proof::Verdict;

constexpr double kPadMm = 5, kIndentMm = 6, kLineMm = 4.6, kBarMm = 2;

struct Row {
  const RequirementProof* proof = nullptr;  // null: it asks for no coverage
  const design::Requirement* requirement = nullptr;
  Verdict verdict = Verdict::met;           // the worst of coverage and of what else it asks for
  // Lines: above the verdict, of it, of what else it asks for, and quiet ones below.
  std::vector<std::string> title, verdicts, notes;
};

// Where another situation's verdict is worse, its words.
std::string worseElsewhere(const Sheet& sheet, const RequirementProof& here) {
  const RequirementProof* worst = nullptr;
  for (const RequirementProof& other : sheet.proof.requirements)
    if (other.requirement == here.requirement && other.without == here.without &&
        badness(other.verdict) > badness(worst ? worst->verdict : here.verdict))
      worst = &other;
  if (!worst) return {};
  std::string title = worst->situation.text;
  for (const design::Situation& situation : design::situationsOf(sheet.design))
    if (situation.id == worst->situation && !situation.title.empty()) title = situation.title;
  return title + ": " + verdictWords(*worst, sheet.unit);
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

std::string titleOf(const Sheet& sheet, const design::Requirement& requirement) {
  const design::Zone* zone = design::findZone(sheet.design, requirement.zone);
  const std::string where = zone ? (zone->title.empty() ? zone->id.text : zone->title) : "";
  std::string asks = asksFor(sheet.design, requirement, sheet.unit);
  if (asks.empty()) asks = requirement.purpose;
  if (where.empty()) return requirement.id.text + "  " + asks;
  return requirement.id.text + "  " + where + ", " +
         (requirement.task.empty() ? asks : said(requirement.task.c_str()));
}

std::vector<Row> rowsOf(const Canvas& canvas, const Sheet& sheet, double width) {
  std::vector<Row> rows;
  const auto titled = [&](const design::Requirement& requirement, const RequirementProof* proof) {
    std::string title = titleOf(sheet, requirement);
    if (proof && !proof->without.empty()) title += fmt::format(fmt::runtime(said(", without {}")), proof->without);
    return Row{proof, &requirement, proof ? proof->verdict : Verdict::met,
               canvas.wrapped(title, {{}, 9, requirement.id == sheet.selected_requirement}, width, 2),
               {}, {}};
  };
  const auto lines = [&](std::vector<std::string>& to, const std::string& words, int most) {
    for (std::string& line : canvas.wrapped(words, {{}, 9}, width, most)) to.push_back(std::move(line));
  };
  const auto addDemands = [&](Row& row) {
    for (const SheetDemand& demand : sheet.demands) {
      if (demand.requirement != row.requirement->id) continue;
      row.verdict = worse(row.verdict, demand.verdict);
      lines(row.verdicts, fmt::format("{}: {}", phrase(demand.verdict), demand.sentence), 3);
    }
  };
  for (const RequirementProof& proof : sheet.proof.requirements) {
    if (proof.situation != sheet.situation) continue;
    const design::Requirement* requirement =
        design::findRequirement(sheet.design, proof.requirement);
    // What may fall counts with others, in a demand.
    if (!requirement || proof::mayFall(sheet.design, proof)) continue;
    Row row = titled(*requirement, &proof);
    row.verdicts = {canvas.fitted(verdictWords(proof, sheet.unit), {{}, 9, true}, width)};
    if (proof.without.empty()) addDemands(row);
    if (proof.verdict != Verdict::met) lines(row.notes, reasonsOf(proof), 2);
    lines(row.notes, worseElsewhere(sheet, proof), 2);
    rows.push_back(std::move(row));
  }
  for (const design::Requirement& requirement : sheet.design->brief) {
    const auto covers = [&](const RequirementProof& proof) {
      return proof.requirement == requirement.id && proof.situation == sheet.situation;
    };
    if (std::any_of(sheet.proof.requirements.begin(), sheet.proof.requirements.end(), covers))
      continue;
    Row row = titled(requirement, nullptr);
    addDemands(row);
    if (!row.verdicts.empty()) rows.push_back(std::move(row));
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
  return kLineMm * static_cast<double>(row.title.size() + row.verdicts.size() + row.notes.size()) +
         (roomy ? (row.proof ? kBarMm + 2.4 : 0) + 4.2 : 1.6);
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

std::string phrase(proof::Reason reason) {
  switch (reason) {
    case proof::Reason::served: return said("served");
    case proof::Reason::out_of_frame: return said("out of frame");
    case proof::Reason::too_coarse: return said("too coarse");
    case proof::Reason::hidden: return said("hidden");
    case proof::Reason::too_steep: return said("too steep");
    case proof::Reason::turned_away: return said("turned away");
    case proof::Reason::unsharp: return said("unsharp");
    case proof::Reason::too_dark: return said("too dark");
    case proof::Reason::masked: return said("masked");
  }
  return "";
}

std::string phrase(Verdict verdict) {
  return verdict == Verdict::met       ? said("met")
         : verdict == Verdict::not_met ? said("not met")
                                       : said("undecided");
}

std::string asksFor(const design::Design& design, const design::Requirement& requirement,
                    const LengthUnit& unit) {
  const auto density = design::statedDensity(design, requirement);
  const std::string figure = density ? fmt::format("{} px/{}", shortNumber(*density * unit.m), unit.name) : "";
  if (requirement.kind == design::RequirementKind::withhold) return fmt::format(fmt::runtime(said("at most {}")), figure);
  if (requirement.task.empty()) return figure;
  const std::string task = said(requirement.task.c_str());
  return figure.empty() ? task : task + ", " + figure;
}

std::string verdictWords(const RequirementProof& proof, const LengthUnit& unit) {
  const std::string verdict = phrase(proof.verdict);
  // Bounds are said outwards.
  const auto between = [](double low, double high, double limit) {
    const std::string from = figureBeside(low, limit, 1, Rounded::down),
                      to = figureBeside(high, limit, 1, Rounded::up);
    return from == to ? from : fmt::format(fmt::runtime(said("{} to {}")), from, to);
  };
  if (proof.densest_px_per_m) {
    const double low = proof.densest_px_per_m->low * unit.m,
                 high = proof.densest_px_per_m->high * unit.m;
    const double most = proof.needed_px_per_m * unit.m;
    const std::string limit = shortNumber(most);
    if (proof.verdict == Verdict::undecided)
      return fmt::format(fmt::runtime(said("{} {} px/{} of {}")), verdict, between(low, high, most),
                         unit.name, limit);
    return fmt::format(fmt::runtime(said("{} {} of at most {} px/{}")), verdict,
                       proof.verdict == Verdict::met ? figureBeside(high, most, 1, Rounded::up)
                                                     : figureBeside(low, most, 1, Rounded::down),
                       limit, unit.name);
  }
  return fmt::format(fmt::runtime(said("{} {} % of {}")), verdict,
                     between(100 * proof.share.low, 100 * proof.share.high, 100 * proof.asked),
                     shortNumber(100 * proof.asked));
}

void paintLedger(Canvas& canvas, const Sheet& sheet, const Box2& box) {
  const Inks& inks = sheet.inks;
  const double left = box.low.x + kPadMm, right = box.high.x - kPadMm;
  canvas.text({left, box.low.y + 8.5}, said("The brief"), {inks.ink, 14, true});
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
      canvas.text({text_left, y}, fmt::format(fmt::runtime(said("and {} more, not shown here")), rows.size() - i),
                  {inks.quiet, 9});
      return;
    }
    const bool selected = row.requirement->id == sheet.selected_requirement;
    const Rgb ink = selected ? inks.accent : inks.ink;
    paintMark(canvas, {left + 1.5, y - 1.1}, row.verdict, ink);
    for (const std::string& line : row.title) {
      canvas.text({text_left, y}, line, {ink, 9, selected});
      y += kLineMm;
    }
    for (std::size_t k = 0; k < row.verdicts.size(); ++k) {
      canvas.text({text_left, y}, row.verdicts[k], {inks.ink, 9, row.proof && k == 0});
      if (roomy && row.proof && k == 0) {
        paintBar(canvas, inks, *row.proof, {{text_left, y + 1.8}, {right, y + 1.8 + kBarMm}});
        y += kBarMm + 2.4;
      }
      y += kLineMm;
    }
    for (const std::string& note : row.notes) {
      canvas.text({text_left, y}, note, {inks.quiet, 9});
      y += kLineMm;
    }
    y += roomy ? 4.2 : 1.6;
  }
}

}  // namespace belvedere::drawing
