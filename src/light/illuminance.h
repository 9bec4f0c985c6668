// SPDX-License-Identifier: GPL-3.0-or-later
//
// Illuminance at a point of the site: ambient level plus luminaires by inverse square and cosine
// (handbook 9), each with a shadow line in doubles. A luminaire is taken for a point: nearer than
// kFarOpenings times its opening that is too bright by more than a few per cent.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "design/design.h"
#include "light/photometry.h"
#include "scene/sightline.h"

namespace belvedere::light {

// The five-times rule of photometry: common practice.
inline constexpr double kFarOpenings = 5;

struct Luminaire {
  std::string id;
  Vec3 at_m;                   // site
  Mat3 luminaire_from_site;    // see luminaireFromSite
  std::shared_ptr<const Photometry> photometry;
  double factor = 1;           // dimming, maintenance, and the lamp's tilt
};

// What burns in a situation, apart from the lamps of cameras (lamps.h).
struct SituationLight {
  bool stated = false;         // the situation names lights; else nobody has said how bright it is
  double ambient_lux = 0;      // the same on every plane, everywhere; nothing shades it
  std::vector<Luminaire> luminaires;
};

// The lights that a situation names. `folder`: where attachments lie.
// Throws InputError (pointers into /site/lights) for photometry that cannot be read.
SituationLight lightOf(const design::Design& design, const design::Situation& situation,
                       const std::filesystem::path& folder);

// Rows are the luminaire's x, y and z in the site's frame. z lies along pan and tilt.
//   type C      x is square to it on the upper side: with tilt 90 (hanging straight down) the
//               half-plane C = 0 points to pan_deg and C = 90 a quarter turn anticlockwise from it,
//               seen from above
//   types A, B  of floodlights and vehicle lamps, which stand as they were measured, level: x to the
//               right as one looks along z, so that horizontal angles go sideways; y square to both
//               on the upper side, so that vertical angles go up
Mat3 luminaireFromSite(double pan_deg, double tilt_deg, Planes planes = Planes::c);

// The solids that throw shadows: a scene and its tree, which outlive this.
struct Solids {
  const scene::Scene* scene = nullptr;
  const scene::BodyTree* tree = nullptr;
  double passes(const Vec3& a, const Vec3& b, scene::Band band,
                std::optional<std::uint32_t>* blocked_by = nullptr) const {
    return scene ? scene::passingShare(*scene, *tree, a, b, band, blocked_by) : 1;
  }
};

inline constexpr Vec3 kUp{0, 0, 1};  // normal of a horizontal plane

// Normal (unit) of an upright plane that looks in a bearing; of the one that looks towards a lens:
// what a face that is turned to it shows. Straight below the lens, where that is undefined, the
// bearing 0 is taken.
Vec3 facingBearing(double bearing_deg);
Vec3 facingInPlan(const Vec3& at_m, const Vec3& lens_m);

// Illuminance on a plane at a point, lux: light from behind the plane counts nothing.
//   normal  unit, site: kUp for horizontal, facingInPlan for vertical towards the camera,
//           normalized(lens - at) for the plane square to the line of sight
double illuminanceFrom(const Luminaire& luminaire, const Vec3& at_m, const Vec3& normal);
//   blockers  if given, of each luminaire the body that hid the last place: neighbours mostly lie in the same shadow
using Blockers = std::vector<std::optional<std::uint32_t>>;
double illuminanceAt(const SituationLight& light, const Solids& solids, const Vec3& at_m,
                     const Vec3& normal, Blockers* blockers = nullptr);
// Whether that is so much, asking for no more shadows than it takes, the brightest first.
bool illuminanceReaches(const SituationLight& light, const Solids& solids, const Vec3& at_m,
                        const Vec3& normal, double lux, Blockers* blockers = nullptr);

// ---- evenness of a zone -------------------------------------------------------------------------
struct Evenness {
  double least_lux = 0, most_lux = 0, mean_lux = 0;
  double uniformity = 1;                 // least over mean, U0
  std::optional<double> ratio;           // most over least; nothing where the least is 0
};
Evenness evennessOf(std::span<const double> lux);  // at least one value

// Lightest to darkest in a camera's scene: 4:1 wanted, 6:1 good, 8:1 marginal
// (UFC 4-021-02NF, 2006, table 4-3).
enum class RatioClass { wanted, good, marginal, worse };
RatioClass ratioClass(const Evenness& evenness);
inline constexpr double kRatioWanted = 4, kRatioGood = 6, kRatioMarginal = 8;

// ---- levels by scene ----------------------------------------------------------------------------
// Orders of magnitude on a horizontal plane; tables disagree by factors of two to ten.
struct SceneLevel {
  const char* scene;
  double low_lux, high_lux;
  const char* source;
};
std::span<const SceneLevel> sceneLevels();

}  // namespace belvedere::light
