// SPDX-License-Identifier: GPL-3.0-or-later
//
// Previews, for whoever is dragging an imager: the judge's tests (judge.h, in the same order) at
// points of a lattice and at the sampled heights, with sightlines traced in single precision, in a
// stated time. An estimate that says that it is one: what decides is prove.h, and where a point's
// exact answer is wanted, spots.h.
//
//   const auto place = std::make_shared<PreviewPlace>(makePlace(design, situation, folder));
//   Previewer previewer(place);
//   Preview first = previewer.look(question, {.budget_ms = 100}, progress);
//   replaceViews(question, views_with_one_imager_moved);
//   Preview next = previewer.look(question, {.budget_ms = 16}, progress);  // only its part is new
//
// Points agree with answerAt (judge.h) but for sightlines and edges within single precision.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "proof/judge.h"
#include "proof/proof.h"
#include "scene/ray_caster.h"

namespace belvedere::proof {

// What every preview is shown with.
inline constexpr const char* kPreviewNotice = "preview, not a proof";

// A place with its rays, built once and shared by all previews in situations with the same solids.
// About as long to build as the place itself: no part of a preview's time.
class PreviewPlace {
 public:
  explicit PreviewPlace(std::shared_ptr<const Place> place)
      : place_(std::move(place)), caster_(place_->scene) {}
  const std::shared_ptr<const Place>& place() const { return place_; }
  const scene::RayCaster& caster() const { return caster_; }

 private:
  std::shared_ptr<const Place> place_;
  scene::RayCaster caster_;
};

// Lattices are finer by halves: 0.0125 m times a power of two, so that what is kept of imagers that
// stand still fits the next look.
inline constexpr double kPreviewFinestM = 0.0125;
inline constexpr std::size_t kPreviewFirstPoints = 500;  // a first lattice has at most about so many

struct PreviewOptions {
  // Wall clock, ms. Lattices are passed from coarse to fine; one that is not done in time goes on
  // in the next look, so looks at what stands still, or moves one imager at a time, get finer. The
  // first is always finished, and the look says how long it took.
  double budget_ms = 100;
  // This lattice and no other, m, however long it takes: the same answer every time.
  std::optional<double> spacing_m{};
};

struct Preview {
  design::RequirementId requirement;
  design::SituationId situation;
  double share = 0;                   // estimate: share of the points that are served
  double asked = 0;                   // share asked for
  double needed_px_per_m = 0;
  double spacing_m = 0;               // of the lattice
  std::size_t points = 0;             // in the zone as judged, each at `heights` heights
  int heights = 0;
  std::size_t rays = 0;               // traced in this look
  double used_ms = 0;                 // wall clock of this look
  std::vector<ReasonShare> reasons;   // of what is not served, largest share first
  std::vector<Contribution> imagers;  // those that serve anywhere
  // For drawing. A spot's margin is that of density, lowest over the band's judged heights, where
  // it is served or too coarse, else 0; px_per_m likewise (where each of several facings is asked
  // for, an imager's for the facing that it serves most densely). Where imagers fare alike and
  // neither has a margin, the first in the file is named.
  SpotMap map;
};

// Previews of one requirement in one situation, again and again. Keeps, for each lattice, what each
// imager answers, until something that it depends on changes: an imager's own views, or the
// question (then all of it). Not for two threads at once; a look uses all that TBB gives.
class Previewer {
 public:
  explicit Previewer(std::shared_ptr<const PreviewPlace> place);
  ~Previewer();
  Previewer(Previewer&&) noexcept;
  Previewer& operator=(Previewer&&) noexcept;

  // `question`: of kind see, in this place. Throws Cancelled; what is kept stays whole.
  Preview look(const Question& question, const PreviewOptions& options, const Progress& progress);

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

// A first look at each requirement of kind see (those of `only`, unless it is empty) in each
// situation, each in the time of its options; in the order of the file.
std::vector<Preview> previews(const design::Design& design, const std::filesystem::path& folder,
                              const std::vector<design::RequirementId>& only,
                              const PreviewOptions& options, const Progress& progress);

}  // namespace belvedere::proof
