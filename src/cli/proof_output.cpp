// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/proof_output.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/figures.h"
#include "cli/blind_output.h"
#include "cli/camera_table.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/task_table.h"
#include "design/words.h"
#include "proof/over_year.h"
#include "proof/part_loss.h"

namespace belvedere::cli {

using proof::RequirementProof;
using proof::Verdict;

namespace {
constexpr std::size_t kIndent = 4;      // of what is said under a requirement
constexpr std::size_t kLabel = 10;      // "why not", "worst", ...

const char* plainWord(Verdict verdict) {
  return verdict == Verdict::met ? "met" : verdict == Verdict::not_met ? "not met" : "undecided";
}
Ink inkOf(Verdict verdict) {
  return verdict == Verdict::met ? Ink::good : verdict == Verdict::not_met ? Ink::bad : Ink::open;
}
std::string placeText(const Vec3& at) { return fmt::format("({:.2f}, {:.2f})", at.x, at.y); }

// Where in space, as a height above what the zone's heights count from; on a slope, site z.
std::string spaceText(const design::Design& design, const design::Requirement* requirement,
                      const Vec3& at) {
  const design::Zone* zone =
      requirement != nullptr ? design::findZone(design, requirement->zone) : nullptr;
  const design::Storey* storey =
      zone != nullptr ? design::findStorey(design, zone->storey) : nullptr;
  if (storey == nullptr || !zone->surface.empty())
    return fmt::format("{}, {:.2f} m up on the site", placeText(at), at.z);
  return fmt::format("{}, {:.2f} m above {}", placeText(at),
                     at.z - storey->floor_m - zone->base_m, footText(design, requirement));
}

// What is asked for, in a sentence.
std::string askedText(const design::Requirement& requirement, double needed_px_per_m) {
  if (requirement.kind == design::RequirementKind::withhold)
    return fmt::format("at most {:g} px/m anywhere in zone {}, whatever can be aimed and zoomed "
                       "from afar", needed_px_per_m, printable(requirement.zone.text));
  std::string target(design::word(requirement.target.kind));
  std::replace(target.begin(), target.end(), '_', ' ');
  std::string text = (requirement.task.empty() ? std::string("see") : printable(requirement.task)) +
                     " a " + target;
  const design::Range band = design::bandOf(requirement.target);
  text += fmt::format(" ({:.2f} to {:.2f} m up) at {:g} px/m or more, as {}, on {:g} % of zone {}",
                      band[0], band[1], needed_px_per_m, design::word(requirement.judged_on),
                      100 * requirement.share, printable(requirement.zone.text));
  if (requirement.imagers > 1) text += fmt::format(", by {} imagers at once", requirement.imagers);
  if (!requirement.facings.empty()) {
    text += requirement.facing_rule == design::FacingRule::each && requirement.facings.size() > 1
                ? ", facing each of"
                : ", facing";
    for (const design::Facing& facing : requirement.facings)
      text += fmt::format(" {:g}", facing.bearing_deg);
    text += " deg";
  }
  return text;
}

std::string labelled(std::string_view label, std::string_view text) {
  return std::string(kIndent + 2, ' ') + padRight(label, kLabel) +
         wrapped(text, kIndent + 2 + kLabel, kIndent + 2 + kLabel).substr(kIndent + 2 + kLabel);
}

// A row's first line: the verdict, in which situation and without what.
std::string headText(const design::Design& design, const RequirementProof& row, std::string when) {
  if (!row.without.empty())
    when += fmt::format(", without {}{}", printable(row.without), proof::mayFall(design, row) ? " (may fall)" : "");
  const std::string verdict = verdictText(row), area = fmt::format(", {:.2f} m2", row.zone_m2);
  const std::size_t taken = kIndent + columnsOf(verdict) + columnsOf("  in ") + columnsOf(area);
  const std::size_t room = std::max<std::size_t>(pageColumns(), taken + 12) - taken;
  return std::string(kIndent, ' ') + inked(inkOf(row.verdict), verdict) + "  in " +
         cut(when, std::min<std::size_t>(40, room)) + area + '\n';
}

// What is said below that line.
std::string bodyText(const design::Design& design, const RequirementProof& row,
                     double design_needs_px_per_m, const std::vector<proof::Keep>& keeps) {
  const design::Requirement* requirement = design::findRequirement(design, row.requirement);
  std::string text;
  if (!row.without.empty() && row.needed_px_per_m != design_needs_px_per_m)
    text += labelled("asked", fmt::format("{:g} px/m", row.needed_px_per_m));
  if (!row.reasons.empty() && row.share.high < 1) {
    std::string why;
    for (const proof::ReasonShare& reason : row.reasons)
      why += fmt::format("{}{} {:.1f} %", why.empty() ? "" : ", ", word(reason.reason),
                         100 * reason.share);
    text += labelled("why not", why);
  }
  if (row.worst) {
    const proof::WorstSpot& worst = *row.worst;
    text += labelled("worst",
                     placeText(worst.at) + ": " +
                         failureText(worst.reason, worst.name, worst.measure, worst.height_m,
                                     footText(design, requirement)));
  }
  if (!row.undecided_because.empty()) text += labelled("open", row.undecided_because);
  if (row.densest_px_per_m && row.densest_at)
    text += labelled("densest", fmt::format("{} {} px/m reached at {}",
                                            printable(row.densest_imager),
                                            figureBeside(row.densest_px_per_m->low,
                                                         row.needed_px_per_m, 2, Rounded::down),
                                            spaceText(design, requirement, *row.densest_at)));
  for (const proof::Keep& keep : keeps) text += labelled("keep it", keepText(keep));
  if (!row.imagers.empty()) {
    constexpr double kShown = 0.0005;  // 0.1 % as it is printed
    const auto hangsOn = [](const proof::Contribution& one) { return one.alone >= kShown; };
    std::string by;
    for (const proof::Contribution& one : row.imagers)
      by += fmt::format("{}{} {:.1f} %{}", by.empty() ? "" : ", ", printable(one.imager), 100 * one.serves,
                        hangsOn(one) ? fmt::format(" (alone {:.1f} %)", 100 * one.alone) : "");
    text += labelled("served by", by + (std::ranges::any_of(row.imagers, hangsOn) ? "" : "; nothing hangs on one of them"));
  }
  return text;
}

// The rows of one requirement in one situation, from `i`, said of `when`: as the design stands, then after each
// loss. Losses that leave the same answer share a row; those that change nothing are named under
// the design's own.
struct Loss {
  const RequirementProof* row;
  std::string body;
  std::vector<std::string> alike;  // names of others with the same answer
};
std::string situationText(const design::Design& design, const Proven& proven, std::size_t i,
                          double design_needs_px_per_m, const std::string& when,
                          std::size_t& next) {
  const auto& rows = proven.answer.proof.requirements;
  const auto keepsOf = [&](std::size_t k) {
    return k < proven.keeps.size() ? proven.keeps[k] : std::vector<proof::Keep>();
  };
  std::vector<Loss> said;
  for (next = i; next < rows.size() && rows[next].requirement == rows[i].requirement &&
                 rows[next].situation == rows[i].situation &&
                 (next == i || !rows[next].without.empty());
       ++next) {
    const RequirementProof& row = rows[next];
    std::string body = bodyText(design, row, design_needs_px_per_m, keepsOf(next));
    const auto same = std::find_if(said.begin(), said.end(), [&](const Loss& other) {
      return !row.without.empty() && other.body == body &&
             verdictText(*other.row) == verdictText(row);
    });
    if (same != said.end())
      same->alike.push_back(printable(row.without));
    else
      said.push_back({&row, std::move(body), {}});
  }
  std::string text;
  for (const Loss& loss : said) {
    text += headText(design, *loss.row, when) + loss.body;
    if (!loss.alike.empty())
      text += labelled("alike", fmt::format("after the loss of {}", fmt::join(loss.alike, ", ")));
  }
  return text;
}

// What a requirement asks of services, and what was found.
std::string demandText(const requirements::Demand& demand) {
  static constexpr const char* labels[] = {"rule", "kept", "frames", "money",
                                         "gap", "in view", "lost"};
  return labelled(labels[static_cast<std::size_t>(demand.asks)],
                  fmt::format("{}: {}", plainWord(demand.verdict), printable(demand.sentence)));
}
std::string demandsText(const std::vector<requirements::Demand>& demands,
                        const design::RequirementId& id) {
  std::string text;
  for (const requirements::Demand& demand : demands)
    if (demand.requirement == id) text += demandText(demand);
  return text;
}

bool asksCoverage(const design::Requirement& r) {
  return r.kind == design::RequirementKind::see || r.kind == design::RequirementKind::withhold;
}
// A requirement that asks for nothing to be seen.
std::string ruleAskedText(const design::Requirement& r) {
  if (r.kind == design::RequirementKind::money)
    return r.amount_most ? fmt::format("to be had for {:.2f} at most", *r.amount_most)
                         : std::string("money, and no amount is stated");
  return fmt::format("{} {}, run by {} imager{}", r.rule.empty() ? "rule" : printable(r.rule),
                     r.zone.empty() ? "over a line" : "in zone " + printable(r.zone.text), r.imagers,
                     r.imagers == 1 ? "" : "s");
}

// What is said of a requirement in its situations; where every printed figure is the same, once.
struct Situations {
  struct Said {
    std::size_t first = 0;               // row
    std::vector<std::string> situations;
    std::string text;                    // without their names
  };
  std::vector<Said> said;
  std::size_t count = 0, next = 0;       // of situations; the row after them
};
Situations situationsFrom(const design::Design& design, const Proven& proven, std::size_t first,
                          double needed_px_per_m) {
  const auto& rows = proven.answer.proof.requirements;
  Situations out;
  for (std::size_t i = first; i < rows.size() && rows[i].requirement == rows[first].requirement;
       i = out.next) {
    std::string text = situationText(design, proven, i, needed_px_per_m, "", out.next);
    ++out.count;
    const auto same = std::ranges::find(out.said, text, &Situations::Said::text);
    if (same == out.said.end())
      out.said.push_back({i, {printable(rows[i].situation.text)}, std::move(text)});
    else
      same->situations.push_back(printable(rows[i].situation.text));
  }
  return out;
}

std::string countText(const design::Design& design, const requirements::Answer& answer) {
  int met = 0, not_met = 0, undecided = 0;
  const auto count = [&](Verdict verdict) {
    ++(verdict == Verdict::met ? met : verdict == Verdict::not_met ? not_met : undecided);
  };
  for (const RequirementProof& row : answer.proof.requirements)
    if (!proof::mayFall(design, row)) count(row.verdict);  // those count together, as a demand
  for (const requirements::Demand& demand : answer.demands) count(demand.verdict);
  const int all = met + not_met + undecided;
  return fmt::format("{} verdict{}: {} met, {} not met, {} undecided.", all, all == 1 ? "" : "s", met,
                     not_met, undecided);
}
// In which situations light is judged.
std::string lightSentence(const design::Design& design) {
  std::vector<std::string> lit, unsaid;
  for (const design::Situation& situation : design::situationsOf(design))
    (situation.lights.empty() ? unsaid : lit).push_back(printable(situation.id.text));
  if (unsaid.empty()) return "Light is judged too, by the lights that each situation names.";
  if (lit.empty())
    return "Light is not judged: no situation names lights, so that every zone is taken to be lit well "
           "enough.";
  return fmt::format("Light is judged in {}; {} names no lights and is taken to be lit well enough.",
                     fmt::join(lit, ", "), fmt::join(unsaid, ", "));
}

}  // namespace

std::string verdictText(const RequirementProof& row) {
  if (row.kind == design::RequirementKind::withhold) {
    if (!row.densest_px_per_m) return plainWord(row.verdict);
    const double most = row.needed_px_per_m;
    return fmt::format("{} {} to {} px/m of at most {:g}", plainWord(row.verdict),
                       figureBeside(row.densest_px_per_m->low, most, 2, Rounded::down),
                       figureBeside(row.densest_px_per_m->high, most, 2, Rounded::up), most);
  }
  const double asked = 100 * row.asked;
  return fmt::format("{} {} to {} % of {:g}", plainWord(row.verdict),
                     figureBeside(100 * row.share.low, asked, 1, Rounded::down),
                     figureBeside(100 * row.share.high, asked, 1, Rounded::up), asked);
}

std::string measureText(proof::Reason reason, const proof::Measure& measure) {
  if (measure.unit.empty()) return {};
  const auto found = [&](int decimals) {
    return figureBeside(measure.found, measure.needed, decimals);
  };
  if (reason == proof::Reason::unsharp && !std::isfinite(measure.needed))
    return "its lens, set so, is sharp nowhere";
  if (reason == proof::Reason::unsharp)
    return fmt::format("{} m along the axis, sharp {} {:.3g}", found(2),
                       measure.found < measure.needed ? "from" : "to", measure.needed);
  if (reason == proof::Reason::too_dark && measure.unit == "lx" && measure.found > 0) {
    // Three digits that count, of light however little.
    const int decimals = std::clamp(2 - static_cast<int>(std::floor(std::log10(measure.found))), 0, 6);
    return fmt::format("{} lx where {:g} is needed", found(decimals), measure.needed);
  }
  if (reason == proof::Reason::served || reason == proof::Reason::too_coarse ||
      reason == proof::Reason::too_dark)
    return fmt::format("{} {} where {:g} is needed", found(1), measure.unit, measure.needed);
  if (reason == proof::Reason::out_of_frame)
    return measure.needed > 0
               ? fmt::format("{} px from the picture's middle, its edge is {:.0f}",
                             figureBeside(measure.found, std::round(measure.needed), 0),
                             measure.needed)
               : std::string("behind the lens");
  return fmt::format("{} {} where at most {:g} is allowed", found(1), measure.unit, measure.needed);
}

std::string footText(const design::Design& design, const design::Requirement* requirement) {
  const design::Zone* zone =
      requirement != nullptr ? design::findZone(design, requirement->zone) : nullptr;
  if (zone == nullptr || (zone->surface.empty() && zone->base_m == 0)) return "the floor";
  if (zone->base_m != 0) return "the zone's base";
  return "the top of " + printable(zone->surface.text);
}

std::string failureText(proof::Reason reason, const std::string& imager,
                        const proof::Measure& measure, double height_m, const std::string& above) {
  if (imager.empty()) return "no imager comes near";
  const std::string found = measureText(reason, measure);
  return fmt::format("{} {}{}, {:.2f} m above {}", printable(imager), word(reason),
                     found.empty() ? found : ": " + found, height_m, above);
}

std::string keepText(const proof::Keep& keep) {
  std::string text = fmt::format(
      "{}: a mask over {:.3f} {:.3f} to {:.3f} {:.3f} (shares of the picture)",
      printable(keep.imager), keep.mask[0], keep.mask[1], keep.mask[2], keep.mask[3]);
  if (keep.turn_deg)
    text += fmt::format(", or turn it {:.1f} deg to the {}", std::abs(*keep.turn_deg),
                        *keep.turn_deg < 0 ? "left" : "right");
  return text;
}

std::string worstSituation(const proof::Proof& proof, const design::RequirementId& requirement) {
  // Ordered by verdict, then by how far from what is asked for.
  const auto how_bad = [](const RequirementProof& row) {
    return std::pair(badness(row.verdict), row.densest_px_per_m ? row.densest_px_per_m->high : -row.share.low);
  };
  const RequirementProof* worst = nullptr;
  int situations = 0;
  for (const RequirementProof& row : proof.requirements) {
    if (row.requirement != requirement || !row.without.empty()) continue;
    ++situations;
    if (worst == nullptr || how_bad(row) > how_bad(*worst)) worst = &row;
  }
  return situations > 1 ? worst->situation.text : std::string();
}

std::string proofLines(const design::Design& design, const requirements::Answer& answer) {
  std::string text;
  for (const RequirementProof& row : answer.proof.requirements)
    text += fmt::format("{}  {}{}  {}\n", cut(printable(row.requirement.text), 20),
                        cut(printable(row.situation.text), 20),
                        row.without.empty() ? ""
                                            : " without " + cut(printable(row.without), 12) +
                                                  (proof::mayFall(design, row) ? " (may fall)" : ""),
                        inked(inkOf(row.verdict), verdictText(row)));
  for (const requirements::Demand& demand : answer.demands)
    text += fmt::format("{}  {}  {}  {}\n", cut(printable(demand.requirement.text), 20),
                        requirements::word(demand.asks),
                        inked(inkOf(demand.verdict), plainWord(demand.verdict)),
                        printable(demand.sentence));
  return text;
}

std::string proofText(const Loaded& loaded, const Proven& proven) {
  const proof::Proof& proof = proven.answer.proof;
  const design::Design& design = loaded.design;
  std::string text = wrapped(printable(design.title), 0, 0);
  const bool from_memory = std::any_of(
      proof.findings.begin(), proof.findings.end(),
      [](const Finding& finding) { return finding.code == "scale_unconfirmed"; });
  text +=
      wrapped("Judged by " + printable(proof.edition) +
                  (from_memory ? "; figures from memory, unconfirmed (see the findings)." : "."),
              0, 2);
  text += wrapped(lightSentence(design), 0, 2);
  text += wrapped(countText(design, proven.answer), 0, 2);
  text += wrapped("The shares beside each verdict are proven bounds. What stands under why not, "
                  "worst and served by comes from a lattice of spots, proves nothing, and may "
                  "differ from the bounds by about a point.", 0, 2);

  text += heading("Requirements");
  for (std::size_t i = 0, next = 0; i < proof.requirements.size(); i = next) {
    const RequirementProof& row = proof.requirements[i];
    const double needed_px_per_m = row.needed_px_per_m;  // as the brief has it
    const Situations situations = situationsFrom(design, proven, i, needed_px_per_m);
    next = situations.next;
    const design::Requirement* requirement = design::findRequirement(design, row.requirement);
    if (i > 0) text += '\n';
    text += wrapped(printable(row.requirement.text) + "  " +
                        (requirement != nullptr ? printable(requirement->purpose) : ""),
                    2, kIndent);
    if (requirement != nullptr)
      text += wrapped(askedText(*requirement, row.needed_px_per_m), kIndent, kIndent);
    const std::string worst = worstSituation(proof, row.requirement);
    if (!worst.empty())
      text += wrapped(situations.said.size() == 1 ? "alike in every situation"
                                                  : "worst situation: " + printable(worst),
                      kIndent, kIndent);
    if (const auto year = proof::overYear(design, proof, row.requirement))
      text += wrapped(fmt::format("over the year met for {:.0f} of {:.0f} h, {:.1f} to {:.1f} % of the "
                                  "zone by hours", year->met_hours, year->hours,
                                  std::floor(1000 * year->share.low) / 10,
                                  std::ceil(1000 * year->share.high) / 10),
                      kIndent, kIndent);
    for (const Situations::Said& one : situations.said) {
      const std::string when = situations.said.size() == 1 && situations.count > 1
                                   ? std::string("every situation")
                                   : fmt::format("{}", fmt::join(one.situations, " and "));
      std::size_t end = 0;
      text += situationText(design, proven, one.first, needed_px_per_m, when, end);
    }
    text += demandsText(proven.answer.demands, row.requirement);
  }
  for (const design::Requirement& r : design.brief) {
    const bool has_row = std::ranges::find(proof.requirements, r.id,
                                           &RequirementProof::requirement) != proof.requirements.end();
    const std::string demands = has_row ? "" : demandsText(proven.answer.demands, r.id);
    if (demands.empty()) continue;
    text += '\n' + wrapped(printable(r.id.text) + "  " + printable(r.purpose), 2, kIndent);
    if (!asksCoverage(r)) text += wrapped(ruleAskedText(r), kIndent, kIndent);
    text += demands;
  }

  if (!proof.blind_zones.empty())
    text += heading("Blind zones at the foot, m2, for each height of a target") +
            blindTable(proof.blind_zones);
  if (!proof.rings.empty())
    text += heading("Gaps in the rings, as bearings in degrees; \"belvedere blind\" lists every angle") +
            ringSummary(proof.rings);
  if (!proof.findings.empty()) text += heading("Findings") + findingsText(proof.findings);
  text +=
      heading("Cameras, in the site's frame and in the housing's, degrees") + cameraTable(design);
  text += '\n' +
          wrapped(
              "This is a computed aid: walk-test at the worst light before anybody relies "
              "on it.",
              0, 0) +
          wrapped("Local codes and licensed practice come first.", 0, 0);
  return text;
}

}  // namespace belvedere::cli
