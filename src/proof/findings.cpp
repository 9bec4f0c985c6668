// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "design/resolve.h"
#include "design/task_table.h"
#include "optics/lens_fit.h"

namespace belvedere::proof {
namespace {

using design::Requirement;

// Bounds are said outwards, so that a rounded figure claims no more than is proven.
double tenthBelow(double share) { return std::floor(1000 * share + 1e-6) / 10; }
double tenthAbove(double share) { return std::ceil(1000 * share - 1e-6) / 10 + 0.0; }  // never -0

void facesWithoutFacing(const design::Design& design, std::vector<Finding>& out) {
  for (const Requirement& r : design.brief) {
    const bool face = r.target.kind == design::TargetKind::face ||
                      r.target.kind == design::TargetKind::face_child ||
                      r.target.kind == design::TargetKind::face_seated;
    if (r.kind != design::RequirementKind::see || !face || !r.facings.empty()) continue;
    out.push_back({"no_facing", Severity::caution, {r.id.text, r.zone.text}, {}, {},
                   fmt::format("{}: faces are asked for without the direction in which they look; a "
                               "camera behind people's backs would count.", r.id.text),
                   "5"});
  }
}

void scaleFromMemory(const design::Design& design, std::vector<Finding>& out) {
  const auto scale = design::taskScale(design.task_table);
  if (!scale || scale->note.empty()) return;
  // Only where the brief leans on a row that was not read in a text.
  const bool leans = std::any_of(design.brief.begin(), design.brief.end(), [&](const Requirement& r) {
    const design::TaskLine* line = r.task.empty() ? nullptr : design::findTask(*scale, r.task);
    return line && !line->confirmed;
  });
  if (leans)
    out.push_back({"scale_unconfirmed", Severity::note, {}, {}, {},
                   scale->note, "4"});
}

void verdicts(const Proof& proof, std::vector<Finding>& out) {
  for (const RequirementProof& r : proof.requirements) {
    if (r.verdict == Verdict::met) continue;
    const std::string without = r.without.empty() ? "" : " without " + r.without;
    std::vector<std::string> about{r.requirement.text, r.situation.text};
    if (!r.without.empty()) about.push_back(r.without);
    if (r.kind == design::RequirementKind::withhold) {
      const bool over = r.verdict == Verdict::not_met;
      out.push_back({over ? "seen_too_well" : "withhold_undecided",
                     over ? Severity::shortfall : Severity::caution, about,
                     Quantity{r.needed_px_per_m, "px/m"},
                     Quantity{over ? r.densest_px_per_m->low : r.densest_px_per_m->high, "px/m"},
                     fmt::format("{} ({}): {} reaches {:.1f} px/m where at most {:g} is allowed.",
                                 r.requirement.text, r.situation.text, r.densest_imager,
                                 over ? r.densest_px_per_m->low : r.densest_px_per_m->high,
                                 r.needed_px_per_m),
                     "5"});
      continue;
    }
    const bool lost = !r.without.empty();
    if (r.verdict == Verdict::undecided) {
      out.push_back({"share_undecided", Severity::caution, about, Quantity{100 * r.asked, "%"},
                     Quantity{100 * r.share.high, "%"},
                     fmt::format("{} ({}){}: between {:.1f} and {:.1f} % of the zone; {:g} % is asked "
                                 "for and lies between.", r.requirement.text, r.situation.text,
                                 without, tenthBelow(r.share.low), tenthAbove(r.share.high),
                                 100 * r.asked),
                     "5"});
    } else {
      out.push_back({lost ? "lost_with_part" : "share_short", Severity::shortfall, about,
                     Quantity{100 * r.asked, "%"}, Quantity{100 * r.share.high, "%"},
                     fmt::format("{} ({}){}: at most {:.1f} % of the zone where {:g} % is asked for.",
                                 r.requirement.text, r.situation.text, without, tenthAbove(r.share.high),
                                 100 * r.asked),
                     "5"});
    }
  }
}

// Shares are from the lattice of spots; `alone` nowhere means that others serve all it serves.
void idleImagers(const design::Design& design, const Proof& proof, std::vector<Finding>& out) {
  const bool judged = std::any_of(proof.requirements.begin(), proof.requirements.end(),
                                  [](const auto& r) { return !r.imagers.empty(); });
  // Where only part of the brief was proven, an imager may serve what was left out.
  const bool whole = std::all_of(
      design.brief.begin(), design.brief.end(), [&](const Requirement& r) {
        return r.kind != design::RequirementKind::see ||
               std::any_of(proof.requirements.begin(), proof.requirements.end(),
                           [&](const RequirementProof& p) { return p.requirement == r.id; });
      });
  if (!judged || !whole) return;
  std::map<std::string, std::array<double, 2>> best;  // serves, alone, greatest over the brief
  for (const RequirementProof& r : proof.requirements)
    for (const Contribution& c : r.imagers) {
      best[c.imager][0] = std::max(best[c.imager][0], c.serves);
      best[c.imager][1] = std::max(best[c.imager][1], c.alone);
    }
  std::vector<std::string> seen;
  for (const design::PosedImager& v : design::posedImagers(design, design::JudgedOn::captured)) {
    if (std::find(seen.begin(), seen.end(), v.imager) != seen.end()) continue;
    seen.push_back(v.imager);
    const auto at = best.find(v.imager);
    if (at == best.end())
      out.push_back({"imager_serves_nothing", Severity::caution, {v.imager}, {}, {},
                     fmt::format("{} serves no spot of any requirement.", v.imager), "5"});
    else if (at->second[1] == 0)
      out.push_back({"imager_not_needed", Severity::note, {v.imager}, {}, {},
                     fmt::format("{} serves nothing that others do not serve as well.", v.imager),
                     "5"});
  }
}

void someAimsOnly(const design::Design& design, std::vector<Finding>& out) {
  for (const design::Housing& housing : design.housings)
    for (const design::HousingImager& imager : housing.imagers)
      if (imager.aims.size() > 1 && housing.life != design::Life::removed)
        out.push_back({"served_by_turns", Severity::caution,
                       {fmt::format("{}.{}", housing.id.text, imager.slot)}, {}, {},
                       fmt::format("{}.{} has {} aims: what only one of them serves is seen a share of "
                                   "the time.", housing.id.text, imager.slot, imager.aims.size()),
                       "5"});
}

// What a requirement asks beyond coverage is read and checked, and not judged yet: say so.
void notJudged(const design::Design& design, std::vector<Finding>& out) {
  for (const Requirement& r : design.brief) {
    std::vector<std::string> keys;
    if (r.kind == design::RequirementKind::rule) keys.push_back("rule");
    if (r.kind == design::RequirementKind::money) keys.push_back("amount_most");
    if (r.largest_gap_m) keys.push_back("largest_gap_m");
    if (r.frames_per_s) keys.push_back("frames_per_s");
    if (r.seconds_in_view) keys.push_back("seconds_in_view");
    if (r.keep_days) keys.push_back("keep_days");
    for (const design::AfterLoss& loss : r.after_loss) {
      if (loss.zones_lost_max) keys.push_back("zones_lost_max");
      if (loss.of.text != "any_housing" && !design::findHousing(design, {loss.of.text}))
        keys.push_back("after_loss of " + loss.of.text);
    }
    if (keys.empty()) continue;
    out.push_back({"not_judged", Severity::caution, {r.id.text}, {}, {},
                   fmt::format("{}: asks for {}, which this version does not judge.", r.id.text,
                               fmt::join(keys, ", ")), "5"});
  }
}

// A requirement judged on a stream that an imager does not give is judged on its captured picture.
void capturedInstead(const design::Design& design, std::vector<Finding>& out) {
  for (const Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see || r.judged_on == design::JudgedOn::captured) continue;
    std::vector<std::string> without;
    for (const design::PosedImager& v : design::posedImagers(design, r.judged_on))
      if (v.stream.empty() && (without.empty() || without.back() != v.imager))
        without.push_back(v.imager);
    if (without.empty()) continue;
    std::vector<std::string> about{r.id.text};
    about.insert(about.end(), without.begin(), without.end());
    out.push_back({"judged_as_captured", Severity::caution, about, {}, {},
                   fmt::format("{}: {} imagers give no stream that is recorded or viewed as it "
                               "asks, and are judged on their captured pixels.", r.id.text,
                               without.size()), "4"});
  }
}

// Data sheets whose fields of view contradict each other, or the stated family. Below
// kResidualDeg nobody could tell by looking.
constexpr double kResidualDeg = 0.1;
void lensResiduals(const design::Design& design, std::vector<Finding>& out) {
  std::vector<std::string> said;
  for (const design::Housing& housing : design.housings) {
    const design::Model* model = design::findModel(design, housing.model);
    if (!model || std::find(said.begin(), said.end(), model->id.text) != said.end()) continue;
    said.push_back(model->id.text);
    double most = 0;
    for (const design::ModelImager& imager : model->imagers)
      for (const optics::LensFit& fit : design::lensFits(imager))
        most = std::max(most, fit.largest_residual_deg());
    if (most > kResidualDeg)
      out.push_back({"lens_residual", Severity::note, {model->id.text, housing.id.text},
                     Quantity{kResidualDeg, "deg"}, Quantity{most, "deg"},
                     fmt::format("{}: its stated fields of view do not fit one lens; that used here "
                                 "misses one of them by {:.2f} deg.", model->id.text, most), "3"});
  }
}

}  // namespace

std::vector<Finding> designFindings(const design::Design& design) {
  std::vector<Finding> out;
  scaleFromMemory(design, out);
  facesWithoutFacing(design, out);
  someAimsOnly(design, out);
  lensResiduals(design, out);
  notJudged(design, out);
  capturedInstead(design, out);
  return out;
}

std::vector<Finding> findingsOf(const design::Design& design, const Proof& proof) {
  std::vector<Finding> out;
  verdicts(proof, out);
  idleImagers(design, proof, out);
  const auto own = designFindings(design);
  out.insert(out.end(), own.begin(), own.end());
  return out;
}

}  // namespace belvedere::proof
