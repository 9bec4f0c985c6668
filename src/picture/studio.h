// SPDX-License-Identifier: GPL-3.0-or-later
//
// A design in one of its situations, made ready for photographs: one for all pictures of it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "light/lighting.h"
#include "picture/develop.h"
#include "picture/photo.h"
#include "picture/sensor.h"
#include "picture/volume.h"
#include "proof/conditions.h"

namespace belvedere::picture {

struct SunAt {
  double bearing_deg = 215, elevation_deg = 38;  // site's frame; a plausible afternoon, practice
  bool operator==(const SunAt&) const = default;
};

// What an imager has to see by, and how it is set.
struct Settings {
  std::vector<PointLight> lights;
  bool mono = false;
  std::optional<Sensor> sensor;        // where the situation says what burns
  double aperture_m = 0, focus_m = 0;  // as PhotoOptions has them; 0: sharp all over, or not known
  std::vector<std::string> notes;      // what was taken where the design says nothing
};
// Where a data sheet states no least illuminance: 0.1 lx at the exposure as set. Practice.
inline constexpr double kAssumedNeededLux = 0.1;

// A picture as the camera gives it out.
struct Shot {
  Photo photo;  // what shoot() was told to keep of it; the rest is empty
  Developed picture;
  Exposed exposed;
};
enum class Keep : std::uint8_t {
  picture,    // nothing but that
  distances,  // of the photo
  light       // and its surfaces; instead of the picture
};

class Studio {
 public:
  // Keeps a reference to the design. Throws InputError like scene::buildScene.
  Studio(const design::Design& design, const design::Situation& situation,
         const std::filesystem::path& folder);

  const design::Design& design() const { return design_; }
  const design::Situation& situation() const { return situation_; }
  const Subject& subject() const { return *subject_; }
  const std::vector<Coat>& coats() const { return coats_; }
  const light::Lighting& lightingOfSituation() const { return lighting_; }
  std::vector<double> floorsM() const;  // heights of all storeys' floors

  // The situation's light, with the sun there where it is day.
  Lighting lighting(const SunAt& sun = {}) const;
  // Height of what one stands on there, looked for downwards from `under_m`: the first that is
  // nearly level, else the plain at 0.
  double standsOnM(Vec2 at_m, double under_m) const;
  // By the situation's lights and lamps, the imager's mode, aperture and focus.
  Settings settingsOf(const design::PosedImager& imager) const;
  // Of one's own choice of light and blur.
  Photo photograph(const View& view, const PhotoOptions& options, const Progress& progress) const;
  // As its settings have it: exposed by the whole of its picture, whatever part is asked for.
  // options: what stands there, which part, at what size; light and blur are the settings'. Holds no
  // more than what it keeps and a few rows of tiles.
  Shot shoot(const design::PosedImager& imager, PhotoOptions options, const Progress& progress,
             Keep keep = Keep::picture) const;

  // Outlines of zones on their floors, and where their names go (over their middle). Zones that
  // the situation takes away are left out.
  struct ZoneMark {
    std::string name;
    Line3 outline;
    Vec3 middle_m;
  };
  std::vector<ZoneMark> zoneMarks() const;

 private:
  void takeLight(const design::PosedImager& imager, Settings& settings) const;

  const design::Design& design_;
  design::Situation situation_;
  scene::Scene scene_;
  std::unique_ptr<scene::RayCaster> caster_;
  std::unique_ptr<Subject> subject_;
  std::vector<Coat> coats_;
  scene::BodyTree tree_;
  light::Lighting lighting_;
  std::vector<proof::FocusTarget> focus_targets_;
};

// What a stream shows of its imager, whole or a part: how photograph() is asked for it. Nothing for
// an unrolled or stitched one.
struct Framing {
  Size size{0, 0};  // of the whole picture at the stream's pixels
  Vec2 part_at;
  Size part{0, 0};
};
std::optional<Framing> framingOf(const design::Stream& stream, Size captured);

// The part of the imager's picture, at `scale` times its captured pixels, that shows all of some
// points, as far as the picture goes: whole pixels on the picture's own lattice, at most so many along
// each side, around the middle. Nothing where the lens does not show the middle.
std::optional<Framing> framingOf(const View& view, Vec2 scale, const Vec3& middle_m,
                                 std::span<const Vec3> points_m, int most_px);
// Every pixel a square of so many.
Developed enlarged(const Developed& picture, int factor);

// For drawnOver(), which speaks of the whole picture: what lines are hidden behind. photo: the whole,
// or the part of it at `part_at`; elsewhere nothing hides.
Picture depthOf(Photo photo, Size whole, Vec2 part_at);

}  // namespace belvedere::picture
