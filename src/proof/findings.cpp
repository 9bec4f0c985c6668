// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/figures.h"
#include "design/resolve.h"
#include "design/task_table.h"
#include "optics/lens_fit.h"
#include "proof/part_loss.h"
#include "scene/presence.h"

namespace belvedere::proof {
namespace {

using design::Requirement;

// Bounds of a share beside what is asked for, in percent: said outwards, so that a rounded figure
// claims no more than is proven.
std::string percentBelow(double share, double asked) {
  return figureBeside(100 * share, 100 * asked, 1, Rounded::down);
}
std::string percentAbove(double share, double asked) {
  return figureBeside(100 * share, 100 * asked, 1, Rounded::up);
}

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

// Does the solid that a requirement's targets stand on stand in the situation?
bool surfaceStands(const design::Design& design, const RequirementProof& r) {
  const Requirement* requirement = design::findRequirement(design, r.requirement);
  const design::Zone* zone = requirement ? design::findZone(design, requirement->zone) : nullptr;
  if (!zone || zone->surface.empty()) return true;
  for (const design::Situation& situation : design::situationsOf(design))
    if (situation.id == r.situation)
      return scene::Presence(design, situation).holds(zone->surface.text);
  return true;
}

// Nothing was judged where there is no place for a target.
void nowhereToStand(const design::Design& design, const RequirementProof& r,
                    std::vector<Finding>& out) {
  if (!r.without.empty()) return;  // said of the whole design
  if (surfaceStands(design, r))
    out.push_back({"zone_without_area", Severity::shortfall, {r.requirement.text, r.situation.text},
                   {}, {},
                   fmt::format("{} ({}): nothing is left of its zone once what stands on the floor is "
                               "taken off, so that nothing was judged.", r.requirement.text,
                               r.situation.text), "19"});
  else
    out.push_back({"surface_absent", Severity::shortfall, {r.requirement.text, r.situation.text}, {}, {},
                   fmt::format("{} ({}): the solid on which its targets stand is not there, so that "
                               "nothing was judged.", r.requirement.text, r.situation.text), "19"});
}

void verdicts(const design::Design& design, const Proof& proof, std::vector<Finding>& out) {
  for (const RequirementProof& r : proof.requirements) {
    if (!(r.zone_m2 > 0)) {
      nowhereToStand(design, r, out);
      continue;
    }
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
                     fmt::format("{} ({}): {} reaches {} px/m where at most {:g} is allowed.",
                                 r.requirement.text, r.situation.text, r.densest_imager,
                                 figureBeside(over ? r.densest_px_per_m->low
                                                   : r.densest_px_per_m->high,
                                              r.needed_px_per_m, 1),
                                 r.needed_px_per_m),
                     "5"});
      continue;
    }
    const bool lost = !r.without.empty(), may_fall = mayFall(design, r);
    if (r.verdict == Verdict::undecided) {
      out.push_back({"share_undecided", may_fall ? Severity::note : Severity::caution, about, Quantity{100 * r.asked, "%"},
                     Quantity{100 * r.share.high, "%"},
                     fmt::format("{} ({}){}: between {} and {} % of the zone; {:g} % is asked "
                                 "for and lies between.", r.requirement.text, r.situation.text,
                                 without, percentBelow(r.share.low, r.asked),
                                 percentAbove(r.share.high, r.asked),
                                 100 * r.asked),
                     "5"});
    } else {
      out.push_back({lost ? "lost_with_part" : "share_short",
                     may_fall ? Severity::note : Severity::shortfall, about,
                     Quantity{100 * r.asked, "%"}, Quantity{100 * r.share.high, "%"},
                     fmt::format("{} ({}){}: at most {} % of the zone where {:g} % is asked for.",
                                 r.requirement.text, r.situation.text, without,
                                 percentAbove(r.share.high, r.asked),
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

// What a requirement asks that is not judged of its kind: say so.
void notJudged(const design::Design& design, std::vector<Finding>& out) {
  for (const Requirement& r : design.brief) {
    std::vector<std::string> keys;
    if (r.kind == design::RequirementKind::see) continue;  // judged, all of them
    if (r.largest_gap_m) keys.push_back("largest_gap_m");
    if (r.seconds_in_view && r.kind != design::RequirementKind::rule)
      keys.push_back("seconds_in_view");
    for (const design::AfterLoss& loss : r.after_loss)
      if (loss.zones_lost_max) keys.push_back("zones_lost_max");
    if (keys.empty()) continue;
    out.push_back({"not_judged", Severity::caution, {r.id.text}, {}, {},
                   fmt::format("{}: asks for {}, which is judged of kind see alone.", r.id.text,
                               fmt::join(keys, ", ")), "5"});
  }
}

bool judged(const Requirement& r) {
  return r.kind == design::RequirementKind::see || r.kind == design::RequirementKind::withhold;
}

// What would be met only because it is never asked.
void neverAsked(const design::Design& design, const std::vector<design::RequirementId>& only,
                std::vector<Finding>& out) {
  if (design.brief.empty())
    out.push_back({"nothing_asked", Severity::shortfall, {}, {}, {},
                   "The brief asks for nothing, so that nothing is proven.", "5"});
  for (const Requirement& r : design.brief) {
    if (!judged(r) || !(only.empty() || std::find(only.begin(), only.end(), r.id) != only.end()))
      continue;
    const std::vector<design::Situation> situations = design::situationsOf(design, r);
    if (std::none_of(situations.begin(), situations.end(), [&](const design::Situation& s) {
          return scene::Presence(design, s).holds(r.zone.text);
        }))
      out.push_back({"zone_never_there", Severity::shortfall, {r.id.text, r.zone.text}, {}, {},
                     fmt::format("{}: its zone {} is there in none of its situations, so that it was "
                                 "never judged.", r.id.text, r.zone.text), "5"});
    for (const design::AfterLoss& loss : r.after_loss) {
      const design::Housing* housing = design::findHousing(design, {loss.of.text});
      if (housing && housing->life == design::Life::removed)
        out.push_back({"loss_of_removed", Severity::shortfall, {r.id.text, loss.of.text}, {}, {},
                       fmt::format("{}: asks what is left without {}, which the design removes, so "
                                   "that no loss was judged.", r.id.text, loss.of.text), "5"});
    }
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
                   without.size() == 1
                       ? fmt::format("{}: {} gives no stream that is recorded or viewed as it asks, and is judged "
                                     "on its captured pixels.", r.id.text, without.front())
                       : fmt::format("{}: {} imagers give no stream that is recorded or viewed as it "
                                     "asks, and are judged on their captured pixels.", r.id.text,
                                     without.size()), "4"});
  }
}

// Streams with more pixels than the part of the sensor they are taken from, or of another shape.
constexpr double kSqueezed = 0.01;
void streamSizes(const design::Design& design, std::vector<Finding>& out) {
  for (const design::Housing& housing : design.housings) {
    const design::Model* model = design::findModel(design, housing.model);
    if (!model) continue;
    for (const design::Stream& stream : housing.streams) {
      const bool crop = stream.view == design::StreamView::crop && stream.region;
      if ((!crop && stream.view != design::StreamView::whole) || stream.from.empty()) continue;
      const design::ModelImager* imager = design::findImager(*model, stream.from.front());
      if (!imager) continue;
      const std::array<double, 4> part = crop ? *stream.region : std::array<double, 4>{0, 0, 1, 1};
      const double width = (part[2] - part[0]) * imager->pixels[0];
      const double height = (part[3] - part[1]) * imager->pixels[1];
      const double across = stream.size_px[0] / width, down = stream.size_px[1] / height;
      const std::vector<std::string> about{housing.id.text, stream.id.text};
      if (std::max(across, down) > 1 + 1e-3)
        out.push_back({"stream_enlarged", Severity::caution, about, {}, {},
                       fmt::format("{}: {} x {} of {:.0f} x {:.0f} captured pixels: enlarging adds nothing, and "
                                   "the captured ones are judged.", stream.id.text, stream.size_px[0],
                                   stream.size_px[1], width, height), "4"});
      if (std::fabs(across / down - 1) > kSqueezed)
        out.push_back({"stream_squeezed", Severity::note, about, {}, {},
                       fmt::format("{}: {} x {} is of another shape than its {:.0f} x {:.0f} captured pixels: "
                                   "taken as squeezed. If the camera cuts instead, state view crop with its region.",
                                   stream.id.text, stream.size_px[0], stream.size_px[1], width, height), "4"});
    }
  }
}

// Judged on what a screen shows, where no screen shows anything of an imager's.
void viewedNowhere(const design::Design& design, std::vector<Finding>& out) {
  for (const Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see || r.judged_on != design::JudgedOn::viewed) continue;
    std::vector<std::string> unseen;
    for (const design::Housing& housing : design.housings) {
      if (housing.life == design::Life::removed) continue;
      for (const design::HousingImager& imager : housing.imagers) {
        const bool shown = std::any_of(
            design.services.screens.begin(), design.services.screens.end(), [&](const design::Screen& s) {
              return std::any_of(housing.streams.begin(), housing.streams.end(),
                                 [&](const design::Stream& stream) {
                                   return stream.id == s.stream &&
                                          std::find(stream.from.begin(), stream.from.end(),
                                                    imager.slot) != stream.from.end();
                                 });
            });
        if (!shown) unseen.push_back(fmt::format("{}.{}", housing.id.text, imager.slot));
      }
    }
    if (unseen.empty()) continue;
    std::vector<std::string> about{r.id.text};
    about.insert(about.end(), unseen.begin(), unseen.end());
    out.push_back({"viewed_nowhere", Severity::caution, about, {}, {},
                   fmt::format("{}: is judged as viewed, and no screen of the services shows {} imager{}: "
                               "judged on what of {} is recorded, or as captured.", r.id.text,
                               unseen.size(), unseen.size() == 1 ? "" : "s",
                               unseen.size() == 1 ? "it" : "them"), "4"});
  }
}

// Shares over the year are weighed by hours: those of a year, where situations state them at all.
void hoursOfTheYear(const design::Design& design, std::vector<Finding>& out) {
  constexpr double kYearH = 8760, kLeapYearH = 8784;
  double hours = 0;
  for (const design::Situation& situation : design.situations) {
    if (!situation.hours_per_year) return;
    hours += *situation.hours_per_year;
  }
  if (design.situations.empty() || std::abs(hours - kYearH) < 0.5 || std::abs(hours - kLeapYearH) < 0.5)
    return;
  out.push_back({"hours_not_a_year", Severity::note, {}, Quantity{kYearH, "h"}, Quantity{hours, "h"},
                 fmt::format("The situations last {:g} h together, a year has {:g}: {}.", hours, kYearH,
                             hours < kYearH ? "of the rest nothing is proven"
                                            : "some of them overlap, or their hours are too many"), "5"});
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

std::vector<Finding> designFindings(const design::Design& design,
                                    const std::vector<design::RequirementId>& only) {
  std::vector<Finding> out;
  neverAsked(design, only, out);
  scaleFromMemory(design, out);
  facesWithoutFacing(design, out);
  someAimsOnly(design, out);
  lensResiduals(design, out);
  notJudged(design, out);
  capturedInstead(design, out);
  streamSizes(design, out);
  viewedNowhere(design, out);
  hoursOfTheYear(design, out);
  return out;
}

std::vector<Finding> findingsOf(const design::Design& design, const Proof& proof,
                                const std::vector<design::RequirementId>& only) {
  std::vector<Finding> out;
  verdicts(design, proof, out);
  idleImagers(design, proof, out);
  const auto own = designFindings(design, only);
  out.insert(out.end(), own.begin(), own.end());
  return out;
}

}  // namespace belvedere::proof
