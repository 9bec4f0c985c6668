// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/part_loss.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <functional>
#include <map>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "base/check.h"

namespace belvedere::proof {

namespace {

bool isDark(const PartLoss& loss, const design::HousingId& housing) {
  return std::ranges::find(loss.dark, housing) != loss.dark.end();
}

// Do lamps that burn in the question's situation go out with the loss?
bool takesLamps(const Question& q, const PartLoss& loss) {
  if (!q.lighting) return false;
  const light::Lighting& light = q.lighting->light;
  for (std::size_t i = 0; i < light.lamps.size(); ++i) {
    if (!light.burns[i]) continue;
    const light::Lamp& lamp = light.lamps[i];
    if (isDark(loss, lamp.housing) ||
        (loss.lamp && loss.lamp->housing == lamp.housing && loss.lamp->slot == lamp.slot))
      return true;
  }
  return false;
}

void keepOnly(Question& q, const std::function<bool(const design::PosedImager&)>& keeps) {
  std::vector<design::PosedImager> views;
  std::ranges::copy_if(q.views, std::back_inserter(views), keeps);
  replaceViews(q, std::move(views));
}

}  // namespace

const std::vector<std::string>& lostImagers(const PartLoss& loss, design::JudgedOn judged_on) {
  return judged_on == design::JudgedOn::recorded ? loss.unrecorded
         : judged_on == design::JudgedOn::viewed ? loss.unviewed
                                                 : loss.cut;
}

design::Design withoutPart(const design::Design& design, const PartLoss& loss) {
  design::Design without = design;
  for (design::Housing& housing : without.housings) {
    if (isDark(loss, housing.id)) housing.life = design::Life::removed;
    if (!loss.lamp || loss.lamp->housing != housing.id) continue;
    if (housing.lamps.empty())
      if (const design::Model* model = design::findModel(design, housing.model))
        for (const design::ModelLamp& lamp : model->lamps) housing.lamps.push_back({lamp.slot, {}});
    for (design::HousingLamp& lamp : housing.lamps)
      if (lamp.slot == loss.lamp->slot) lamp.follows = 0;
  }
  return without;
}

Question questionAfter(const design::Design& design, const Question& whole, const PartLoss& loss) {
  Question q = takesLamps(whole, loss)
                   ? makeQuestion(withoutPart(design, loss), *whole.requirement, whole.situation,
                                  whole.place, {loss.dark})
                   : whole;
  const std::vector<std::string>& lost = lostImagers(loss, whole.requirement->judged_on);
  const std::unordered_set<std::string_view> names(lost.begin(), lost.end());
  keepOnly(q, [&](const design::PosedImager& view) {
    return !isDark(loss, view.housing) && !names.contains(view.imager);
  });
  return q;
}

std::vector<std::string> burningLamps(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::filesystem::path& folder) {
  std::vector<std::string> names;
  if (situation.lights.empty()) return names;
  const auto place = makePlace(design, situation, folder);
  const auto lighting = makeLighting(design, situation, *place, folder);
  for (std::size_t i = 0; i < lighting->light.lamps.size(); ++i)
    if (lighting->light.burns[i]) names.push_back(lighting->light.lamps[i].name);
  return names;
}

namespace {

// Which losses take an imager, or a housing's lamps; each list in order.
struct Takers {
  std::array<std::unordered_map<std::string, std::vector<std::size_t>>, 3> imager;  // by judged_on
  std::vector<std::size_t> lamps;                                 // may put some out
  const std::vector<std::size_t>* of(design::JudgedOn on, const std::string& name) const {
    const auto& by = imager[static_cast<std::size_t>(on)];
    const auto at = by.find(name);
    return at == by.end() ? nullptr : &at->second;
  }
};

Takers takersOf(std::span<const PartLoss> losses) {
  Takers takers;
  for (std::size_t i = 0; i < losses.size(); ++i) {
    for (const design::JudgedOn on :
         {design::JudgedOn::captured, design::JudgedOn::recorded, design::JudgedOn::viewed})
      for (const std::string& name : lostImagers(losses[i], on))
        takers.imager[static_cast<std::size_t>(on)][name].push_back(i);
    if (losses[i].lamp || !losses[i].dark.empty()) takers.lamps.push_back(i);
  }
  return takers;
}

double distanceTo(const Box2& box, Vec2 p) {
  return norm(Vec2{std::max({box.low.x - p.x, p.x - box.high.x, 0.0}),
                   std::max({box.low.y - p.y, p.y - box.high.y, 0.0})});
}

// Does a burning lamp near enough to the zone go out?
bool takesLampsNear(const Question& q, const PartLoss& loss, const Box2& zone) {
  const light::Lighting& light = q.lighting->light;
  for (std::size_t i = 0; i < light.lamps.size(); ++i) {
    const light::Lamp& lamp = light.lamps[i];
    const bool out = isDark(loss, lamp.housing) ||
                     (loss.lamp && loss.lamp->housing == lamp.housing &&
                      loss.lamp->slot == lamp.slot);
    if (out && light.burns[i] && distanceTo(zone, lamp.at_m.xy()) <= kLampReach * lamp.range_m)
      return true;
  }
  return false;
}

// One row of the proof.
class Row {
 public:
  Row(const design::Design& design, const RequirementProof& row, const ProveOptions& options,
      const Progress& progress)
      : design_(design), whole_(*row.settled->question), row_(row), options_(options),
        progress_(progress) {
    for (std::size_t i = 0; i < whole_.imagers.size(); ++i) imager_of_[whole_.imagers[i]] = i;
  }

  void after(std::span<const PartLoss> losses, const Takers& takers, std::size_t index,
             std::vector<ShareAfter>& out) {
    std::set<std::size_t> which;
    const design::JudgedOn on = whole_.requirement->judged_on;
    for (const std::string& name : whole_.imagers)
      if (const auto* by = takers.of(on, name)) which.insert(by->begin(), by->end());
    const Box2 zone = bounds(whole_.region);
    std::set<std::size_t> lamps;
    if (!whole_.situation.lights.empty() && whole_.lighting)
      for (const std::size_t loss : takers.lamps)
        if (takesLampsNear(whole_, losses[loss], zone)) lamps.insert(loss);
    which.insert(lamps.begin(), lamps.end());
    for (const std::size_t loss : which) {
      progress_.throwIfCancelled();
      const ShareAfter after = lamps.contains(loss)
                                   ? ofShare(prove(questionAfter(design_, whole_, losses[loss])))
                                   : without(losses[loss], on);
      out.push_back({index, loss, after.share, after.verdict});
    }
  }

 private:
  static ShareAfter ofShare(const ShareProof& proof) { return {0, 0, proof.share, proof.verdict}; }

  ShareProof prove(const Question& q) const {
    ProveOptions options = sizedFor(q, options_);
    options.keep_settled = false;
    return proveShare(q, row_.asked, options, progress_);
  }

  // The same for all losses that take the same imagers of those near enough. Most losses leave a
  // verdict as it is, which is soon shown; the share is proven of the others alone.
  ShareAfter without(const PartLoss& loss, design::JudgedOn on) {
    std::vector<bool> lost(whole_.imagers.size());
    for (const std::string& name : lostImagers(loss, on))
      if (const auto at = imager_of_.find(name); at != imager_of_.end()) lost[at->second] = true;
    const auto known = proven_.find(lost);
    if (known != proven_.end()) return known->second;
    ShareAfter& after = proven_[lost];
    if (row_.verdict == Verdict::met) {
      after.verdict =
          verdictWithout(*row_.settled, lost, row_.asked, sizedFor(whole_, options_), progress_);
      if (after.verdict == Verdict::met) return after;
    }
    Question q = whole_;
    keepOnly(q, [&](const design::PosedImager& view) { return !lost[imager_of_.at(view.imager)]; });
    return after = ofShare(prove(q));
  }

  const design::Design& design_;
  const Question& whole_;
  const RequirementProof& row_;
  const ProveOptions& options_;
  const Progress& progress_;
  std::unordered_map<std::string, std::size_t> imager_of_;
  std::map<std::vector<bool>, ShareAfter> proven_;
};

}  // namespace

std::vector<ShareAfter> sharesAfter(const design::Design& design, const Proof& proof,
                                    std::span<const PartLoss> losses, const ProveOptions& options,
                                    const Progress& progress) {
  const Takers takers = takersOf(losses);
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < proof.requirements.size(); ++i) {
    const RequirementProof& row = proof.requirements[i];
    if (row.kind != design::RequirementKind::see || !row.without.empty() ||
        row.verdict == Verdict::not_met || !(row.zone_m2 > 0))
      continue;
    BELVEDERE_CHECK(row.settled != nullptr, "losses are asked of a proof that kept who settles what");
    rows.push_back(i);
  }

  std::vector<std::vector<ShareAfter>> found(rows.size());
  std::vector<std::exception_ptr> thrown(rows.size());
  std::atomic<std::size_t> done{0};
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, rows.size(), 1), [&](const auto& range) {
    for (std::size_t k = range.begin(); k < range.end(); ++k) {
      if (progress.cancel.load(std::memory_order_relaxed)) return;
      try {
        tbb::this_task_arena::isolate([&] {
          const RequirementProof& row = proof.requirements[rows[k]];
          const Progress quiet(progress, [](double, std::string_view) {});
          Row one(design, row, options, quiet);
          one.after(losses, takers, rows[k], found[k]);
        });
      } catch (...) {
        thrown[k] = std::current_exception();
      }
      progress.say(static_cast<double>(++done) / static_cast<double>(rows.size()), "failures");
    }
  }, tbb::simple_partitioner());
  progress.throwIfCancelled();
  std::vector<ShareAfter> all;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    if (thrown[k]) std::rethrow_exception(thrown[k]);
    all.insert(all.end(), found[k].begin(), found[k].end());
  }
  return all;
}

namespace {
bool namesPart(const design::Design& design, const design::AfterLoss& loss, const std::string& part) {
  return loss.of.text == part ||
         (loss.of.text == "any_housing" && design::findHousing(design, {part}) != nullptr);
}
}  // namespace

bool countsZones(const design::Design& design, const design::AfterLoss& loss, const std::string& part) {
  return loss.zones_lost_max && namesPart(design, loss, part);
}

bool mayFall(const design::Design& design, const RequirementProof& row) {
  const design::Requirement* r = design::findRequirement(design, row.requirement);
  if (!r || row.without.empty()) return false;
  bool counts = false;
  for (const design::AfterLoss& loss : r->after_loss) {
    if (!namesPart(design, loss, row.without)) continue;
    if (!loss.zones_lost_max) return false;
    counts = true;
  }
  return counts;
}

}  // namespace belvedere::proof
