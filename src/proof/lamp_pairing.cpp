// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/lamp_pairing.h"

#include <algorithm>
#include <cmath>

#include "light/lighting.h"
#include "light/pairing.h"
#include "optics/lens.h"
#include "proof/preview.h"

namespace belvedere::proof {
namespace {

constexpr double kPoints = 1500;  // about so many to a zone

struct Standing {
  std::vector<design::RequirementId> held, short_of;
  double value = 0;
};

// How a brief stands in a situation, by previews.
class Brief {
 public:
  Brief(const design::Design& design, const design::Situation& situation,
        const std::filesystem::path& folder, const Progress& progress)
      : design_(design), situation_(situation), progress_(progress),
        place_(std::make_shared<PreviewPlace>(makePlace(design, situation, folder))) {
    for (const design::Requirement& r : design.brief) {
      if (r.kind != design::RequirementKind::see) continue;
      const std::vector<design::Situation> in = design::situationsOf(design, r);
      if (std::any_of(in.begin(), in.end(), [&](const auto& s) { return s.id == situation.id; }))
        asked_.push_back(&r);
    }
  }
  const light::Solids solids() const { return {&place_->place()->scene, &place_->place()->tree}; }

  Standing of(const design::Design& changed) const {
    Standing standing;
    for (const design::Requirement* r : asked_) {
      const Question question = makeQuestion(changed, *r, situation_, place_->place());
      PreviewOptions options;
      options.spacing_m = std::max(0.05, std::sqrt(question.region_m2 / kPoints));
      const Preview seen = Previewer(place_).look(question, options, progress_);
      const bool held = seen.share >= r->share;
      (held ? standing.held : standing.short_of).push_back(r->id);
      standing.value += std::min(seen.share / std::max(r->share, 1e-9), 1.0) / kMany;
    }
    standing.value += static_cast<double>(standing.held.size());
    return standing;
  }

 private:
  static constexpr double kMany = 1e4;  // of requirements: shares only break ties
  const design::Design& design_;
  const design::Situation& situation_;
  const Progress& progress_;
  std::shared_ptr<const PreviewPlace> place_;
  std::vector<const design::Requirement*> asked_;
};

// How much of a lamp's beam lies in an imager's picture: its share towards the picture's directions, on
// average, over a grid of them and over the aims.
double beamInPicture(const light::Lamp& lamp, const std::vector<design::PosedImager>& aims) {
  constexpr int kColumns = 12, kRows = 8;
  double sum = 0;
  int asked = 0;
  for (const design::PosedImager& view : aims) {
    const Mat3 site_from_imager = transposed(view.imager_from_site);
    for (int row = 0; row < kRows; ++row)
      for (int column = 0; column < kColumns; ++column) {
        const auto ray = optics::unproject(view.lens, {view.pixels[0] * (column + 0.5) / kColumns,
                                                       view.pixels[1] * (row + 0.5) / kRows});
        if (!ray) continue;
        const Vec3 way = site_from_imager * *ray;
        sum += light::beamShare(std::atan2(norm(cross(lamp.axis, way)), dot(lamp.axis, way)), lamp.half_beam_rad);
        ++asked;
      }
  }
  return asked > 0 ? sum / asked : 0;
}

}  // namespace

std::optional<LampPairing> bestLamps(const design::Design& design, const design::Housing& housing,
                                     const design::Situation& situation,
                                     const std::filesystem::path& folder, const Progress& progress) {
  const design::Model* model = design::findModel(design, housing.model);
  if (!model || model->lamps.empty() || situation.lights.empty()) return {};
  const Brief brief(design, situation, folder, progress);
  const light::Lighting lighting = light::lightingOf(design, situation, folder, brief.solids());
  std::vector<int> slots;  // imagers in mono
  for (const light::ImagerState& state : lighting.states)
    if (state.housing == housing.id && state.mode == light::Mode::mono) slots.push_back(state.slot);
  if (slots.empty()) return {};

  design::Design changed = design;
  const auto own = std::find_if(changed.housings.begin(), changed.housings.end(),
                                [&](const design::Housing& h) { return h.id == housing.id; });
  if (own == changed.housings.end()) return {};
  const auto pair = [&](std::span<const int> imager_of) {
    own->lamps.clear();
    for (std::size_t i = 0; i < imager_of.size(); ++i) {
      const int follows = imager_of[i] == light::kNoImager
                              ? 0 : slots[static_cast<std::size_t>(imager_of[i])];
      own->lamps.push_back({model->lamps[i].slot, follows});
    }
  };
  // Where the brief fares alike, a lamp goes with the imager into whose picture it shines: lamps of several imagers
  // in mono all burn, whoever they follow.
  constexpr double kTie = 1e-9;  // below what a spot of a zone counts in Brief::of
  std::vector<std::vector<double>> in_picture;  // per lamp and imager
  {
    design::Housing all = *own;
    all.lamps.clear();
    const std::vector<design::PosedImager> views = design::posedImagers(design, design::JudgedOn::captured);
    for (const light::Lamp& lamp : light::lampsOf(design, all)) {
      in_picture.emplace_back();
      for (const int slot : slots) {
        std::vector<design::PosedImager> aims;
        for (const design::PosedImager& view : views)
          if (view.housing == housing.id && view.slot == slot) aims.push_back(view);
        in_picture.back().push_back(beamInPicture(lamp, aims));
      }
    }
  }
  const auto tie = [&](std::span<const int> imager_of) {
    double sum = 0;
    for (std::size_t i = 0; i < imager_of.size() && i < in_picture.size(); ++i)
      if (imager_of[i] != light::kNoImager) sum += in_picture[i][static_cast<std::size_t>(imager_of[i])];
    return kTie * sum;
  };
  LampPairing answer;
  answer.housing = housing.id;
  answer.situation = situation.id;
  answer.model_runs_together = std::ranges::any_of(model->shared, [](const design::Shared& shared) {
    return shared.what == "lamps" && shared.rule == "together";
  });
  answer.held_as_written = brief.of(design).held.size();
  const auto best = light::bestPairing(
      static_cast<int>(model->lamps.size()), static_cast<int>(slots.size()),
      [&](std::span<const int> imager_of) {
        progress.throwIfCancelled();
        ++answer.tried;
        pair(imager_of);
        return brief.of(changed).value + tie(imager_of);
      },
      kPairingsMost);
  if (!best) return {};
  pair(best->imager_of);
  const Standing standing = brief.of(changed);
  answer.lamps = own->lamps;
  for (const int i : best->without) answer.without.push_back(slots[static_cast<std::size_t>(i)]);
  answer.held = standing.held;
  answer.short_of = standing.short_of;
  return answer;
}

}  // namespace belvedere::proof
