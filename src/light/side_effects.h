// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a lamp does besides lighting the zone (handbook 6 and 9): a neighbour's lamp in the picture,
// the lamp thrown back by a near wall, ledge or canopy, by glass, by the camera's own cover; and what
// it means for an eye at close range. Values with the geometry that causes them, and how bright it is
// on the lamp's own scale: 1 is what the lamp gives on its axis at its stated range.
// Who burns is for the caller to know; an infrared lamp shows to imagers in mono only. What light
// does inside a lens, on drops, fog or dust in the air is not computed. An imager with several aims is
// a view for each: `view` is the index of the one that is spoken of.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"

namespace belvedere::light {

// ---- another camera's lamp ----------------------------------------------------------------------
struct LampInFrame {
  std::string lamp, imager;   // "C2 lamp 1", "C1.1"
  std::size_t view = 0;
  Vec2 at_px;                 // captured pixels
  double distance_m = 0;
  double off_beam_deg = 0;    // how far the lens is off the lamp's axis
  double share = 0;           // of its light at the lens
};
// A lamp that shines on a lens with less than this hardly dazzles: common practice, no source.
inline constexpr double kDazzleShare = 0.1;
// Lamps of other housings that an imager has in its captured picture, in the line of sight, and that
// shine on its lens with at least `least_share`.
std::vector<LampInFrame> lampsInFrame(const std::vector<Lamp>& lamps,
                                      const std::vector<design::PosedImager>& views,
                                      const Solids& solids, double least_share = kDazzleShare);

// ---- thrown back by what is near ----------------------------------------------------------------
// A spot that a lamp lights from near by.
struct NearSpot {
  Vec3 at_m;
  double distance_m = 0;      // from the lamp
  double share = 0;           // of the lamp's light there, on the surface as it lies
};
struct SpotInPicture {
  std::string imager;         // of the lamp's own housing
  std::size_t view = 0;
  Vec2 at_px;                 // captured pixels
  NearSpot spot;              // the brightest that it sees
};
struct NearSurface {
  std::string lamp;
  std::string of;             // id of the wall, solid, storey ... that throws it back
  double nearest_m = 0;       // from the lamp to the nearest spot in the beam
  std::vector<NearSpot> spots;               // where rays of the beam meet it
  std::vector<SpotInPicture> in_picture_of;  // at most one for each view
};
inline constexpr double kNearM = 1;  // "within a metre"
// What stands within kNearM of a lamp and in its beam, out to where that falls to kBeamEdgeShare of
// its middle: one entry for each thing. Found along kBeamRays rays: a rod thinner than they lie apart
// (at 1 m a few centimetres) may slip through.
std::vector<NearSurface> nearSurfaces(const std::vector<Lamp>& lamps,
                                      const std::vector<design::PosedImager>& views,
                                      const Solids& solids);
// The brightest of these spots that a view has in its captured picture and in sight of that light.
std::optional<SpotInPicture> brightestInPicture(const std::vector<NearSpot>& spots, const design::PosedImager& view,
                                                const Solids& solids, scene::Band band);
inline constexpr double kBeamEdgeShare = 0.1;
inline constexpr int kBeamRays = 1200;

// ---- glass --------------------------------------------------------------------------------------
struct Mirrored {
  std::string lamp, imager;
  std::size_t view = 0;
  std::string of;             // id of the pane
  Vec3 at_m;                  // where on it
  Vec2 at_px;                 // of the lamp's image, captured pixels
  double path_m = 0;          // lamp, pane, lens
  double off_beam_deg = 0;
  double thrown_back = 0;     // share of the light that the pane throws back
  double share = 0;           // of the lamp's light at the lens
};
// Lamps that an imager sees mirrored in a flat face: of what its material says is a mirror, and of
// panes, which throw back at least kPaneReflects: what fills an opening and lets light pass, and what
// lets at least kPaneLets of it pass and is no foliage. The mirror ray is followed
// there and back; faces farther than `within_m` are not asked, nor what passes all light and all
// infrared (a scene leaves it out) or is a mesh's triangle.
std::vector<Mirrored> mirroredLamps(const design::Design& design, const std::vector<Lamp>& lamps,
                                    const std::vector<design::PosedImager>& views,
                                    const Solids& solids, double within_m = 30);
// One uncoated pane, two surfaces of about 4 % (Fresnel, near normal incidence).
inline constexpr double kPaneReflects = 0.08;
inline constexpr double kPaneLets = 0.6;

// An imager whose axis passes through glass while a lamp of its own housing burns: whatever it is
// tilted, drops and dirt on the pane light up, and the lamp's light is weakened twice.
struct ThroughGlass {
  std::string imager;
  std::size_t view = 0;
  std::string of;
  double distance_m = 0;      // to the pane, along the axis
  double infrared_twice = 0;  // share of infrared that is left after both passages
};
std::vector<ThroughGlass> lampsThroughGlass(const design::Design& design,
                                            const std::vector<Lamp>& lamps,
                                            const std::vector<design::PosedImager>& views,
                                            const Solids& solids, double within_m = 5);

// ---- the camera's own cover ---------------------------------------------------------------------
// The places on a spherical cover at which a lamp inside it is mirrored to a lens inside it (one to
// four, in the plane of both and the centre). Wet or dusty, the cover scatters light to the lens from
// wherever lamp and lens both look through it: a lamp under the same dome is always a caution.
//   all in metres, in any one frame; lens and lamp within the sphere
std::vector<Vec3> coverReflections(const Vec3& lens_m, const Vec3& lamp_m, const Vec3& centre_m,
                                   double radius_m);

// The clear sphere about a housing's origin that its model states; nothing where it states none.
struct Cover {
  Vec3 centre_m;              // site
  double radius_m = 0;
  bool holds(const Vec3& at_m) const { return norm(at_m - centre_m) < radius_m; }
};
std::optional<Cover> coverOf(const design::Design& design, const design::Housing& housing);

struct InCover {
  std::string lamp, imager;
  Vec3 at_m;                  // where on the cover the ray from the lamp is thrown to the lens
  Vec2 at_px;                 // of that place, captured pixels
  double radius_m = 0, lens_off_m = 0, lamp_off_m = 0;  // of the cover, and off its centre
  double share = 0;           // of the lamp's light at the lens
};
// Lamps that an imager sees mirrored in its own housing's cover, both within it: of each, the brightest
// of its places in the captured picture. As bright as a flat pane would make it (kPaneReflects); the
// sphere may gather it to more.
std::vector<InCover> lampsInCover(const design::Design& design, const std::vector<Lamp>& lamps,
                                  const std::vector<design::PosedImager>& views);

// ---- eyes ---------------------------------------------------------------------------------------
// Infrared on cornea and lens of the eye, 780 to 3000 nm, W/m2: 18000 t^-0.75 up to 1000 s (Directive
// 2006/25/EC, annex I; IEC 62471:2006), 100 beyond (IEC 62471, from memory).
double eyeLimitWPerM2(double exposure_s);

// IEC 62471:2006, clause 6, from memory: at 0.2 m, 100 W/m2 are not passed (exempt), 570, 3200.
enum class RiskGroup { exempt, one, two, three };
inline constexpr double kClassifiedAtM = 0.2;

struct EyeExposure {
  std::string housing;
  std::vector<std::string> lamps;              // its infrared lamps
  // Where every lamp states its intensity, all of them together, as if their axes were one:
  std::optional<double> intensity_w_per_sr;
  std::optional<double> lasting_from_m;        // beyond it one may look for as long as one likes
  std::optional<RiskGroup> group;
};
// Of every housing with infrared lamps in use; without intensities there is a caution and no figure.
// Only cornea and lens are computed; the retina asks for the source's size, which models do not state.
std::vector<EyeExposure> eyeExposures(const std::vector<Lamp>& lamps);

}  // namespace belvedere::light
