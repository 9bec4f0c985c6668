// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/side_effects.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/units.h"
#include "optics/lens.h"

namespace belvedere::light {
namespace {

std::optional<Vec2> inPicture(const design::PosedImager& view, const Vec3& at_m) {
  const Vec3 sight = at_m - view.lens_m;
  if (!(norm(sight) > 0)) return {};
  const auto px = optics::project(view.lens, view.imager_from_site * sight);
  if (!px || px->x < 0 || px->y < 0 || px->x > view.pixels[0] || px->y > view.pixels[1]) return {};
  return px;
}

double offBeamDeg(const Lamp& lamp, const Vec3& at_m) {
  const Vec3 ray = at_m - lamp.at_m;
  return radToDeg(std::atan2(norm(cross(lamp.axis, ray)), dot(lamp.axis, ray)));
}

// Two unit vectors square to a third and to each other.
std::array<Vec3, 2> squareTo(const Vec3& axis) {
  const Vec3 helper = std::fabs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  const Vec3 u = normalized(cross(axis, helper));
  return {u, cross(axis, u)};
}

// What the sources of a scene are made of, as far as mirrors and panes go.
class Faces {
 public:
  explicit Faces(const design::Design& design) {
    std::map<std::string, double> of_material;
    for (const design::Material& m : design.site.materials) of_material[m.id.text] = m.mirror.share;
    const auto add = [&](const std::string& id, const design::MaterialId& material) {
      if (const auto at = of_material.find(material.text); at != of_material.end()) share_[id] = at->second;
    };
    for (const design::Building& building : design.site.buildings)
      for (const design::Storey& storey : building.storeys)
        for (const design::Wall& wall : storey.walls) {
          add(wall.id.text, wall.material);
          for (const design::Opening& opening : wall.openings) {
            add(opening.id.text, opening.material);
            fillings_.insert(opening.id.text);
          }
        }
    for (const design::Solid& solid : design.site.solids) {
      add(solid.id.text, solid.material);
      if (solid.kind == design::SolidKind::foliage) leaves_.insert(solid.id.text);
    }
  }
  bool isPane(const scene::Source& source) const {
    if (fillings_.contains(source.id)) return source.light > 0;
    return source.light >= kPaneLets && !leaves_.contains(source.id);
  }
  // How much a thing throws back like a mirror.
  double mirrors(const scene::Source& source) const {
    const auto stated = share_.find(source.id);
    const double mirror = stated == share_.end() ? 0 : stated->second;
    return isPane(source) ? std::max(mirror, kPaneReflects) : mirror;
  }

 private:
  std::map<std::string, double> share_;
  std::set<std::string> fillings_, leaves_;
};

}  // namespace

std::vector<LampInFrame> lampsInFrame(const std::vector<Lamp>& lamps,
                                      const std::vector<design::PosedImager>& views,
                                      const Solids& solids, double least_share) {
  std::vector<LampInFrame> out;
  for (std::size_t v = 0; v < views.size(); ++v) {
    const design::PosedImager& view = views[v];
    for (const Lamp& lamp : lamps) {
      if (lamp.housing == view.housing) continue;
      const auto px = inPicture(view, lamp.at_m);
      const double open = shareFrom(lamp, view.lens_m);
      if (!px || open < least_share) continue;
      const double share = open * solids.passes(lamp.at_m, view.lens_m, lamp.band());
      if (share >= least_share)
        out.push_back({lamp.name, view.imager, v, *px, norm(lamp.at_m - view.lens_m),
                       offBeamDeg(lamp, view.lens_m), share});
    }
  }
  return out;
}

std::optional<SpotInPicture> brightestInPicture(const std::vector<NearSpot>& spots, const design::PosedImager& view,
                                                const Solids& solids, scene::Band band) {
  std::optional<SpotInPicture> brightest;
  for (const NearSpot& spot : spots) {
    if (brightest && spot.share <= brightest->spot.share) continue;
    const auto px = inPicture(view, spot.at_m);
    if (!px) continue;
    // Up to just before the surface, which would hide its own spot.
    constexpr double kBefore = 1 - 1e-6;
    const Vec3 before = view.lens_m + (spot.at_m - view.lens_m) * kBefore;
    if (solids.passes(before, view.lens_m, band) > 0)
      brightest = SpotInPicture{view.imager, 0, *px, spot};
  }
  return brightest;
}

std::vector<NearSurface> nearSurfaces(const std::vector<Lamp>& lamps,
                                      const std::vector<design::PosedImager>& views,
                                      const Solids& solids) {
  std::vector<NearSurface> out;
  if (!solids.scene) return out;
  const scene::Scene& scene = *solids.scene;
  for (const Lamp& lamp : lamps) {
    const double edge = std::min(lamp.half_beam_rad * std::sqrt(-std::log2(kBeamEdgeShare)), kPi);
    const auto [u, v] = squareTo(lamp.axis);
    std::map<std::uint32_t, NearSurface> found;  // by source
    for (int i = 0; i < kBeamRays; ++i) {
      // Evenly over the cap (a spiral of the golden angle), its middle first.
      const double cosine = 1 - (1 - std::cos(edge)) * i / (kBeamRays - 1.0);
      const double sine = std::sqrt(std::max(0.0, 1 - cosine * cosine));
      const double turn = i * kPi * (3 - std::sqrt(5.0));
      const Vec3 ray = lamp.axis * cosine + u * (sine * std::cos(turn)) + v * (sine * std::sin(turn));
      const auto hit =
          scene::firstHit(scene, *solids.tree, lamp.at_m, lamp.at_m + ray * kNearM, lamp.band());
      if (!hit) continue;
      const double distance_m = hit->share * kNearM;
      const Vec3 at = lamp.at_m + ray * distance_m;
      const double share = shareFrom(lamp, at) * std::max(0.0, -dot(hit->normal, ray));
      const std::uint32_t source = scene.bodies[hit->body].source;
      NearSurface& surface =
          found.try_emplace(source, NearSurface{lamp.name, scene.sources[source].id, distance_m, {}, {}})
              .first->second;
      surface.nearest_m = std::min(surface.nearest_m, distance_m);
      surface.spots.push_back({at, distance_m, share});
    }
    for (auto& [source, surface] : found) {
      for (std::size_t i = 0; i < views.size(); ++i) {
        if (views[i].housing != lamp.housing) continue;
        auto seen = brightestInPicture(surface.spots, views[i], solids, lamp.band());
        if (!seen) continue;
        seen->view = i;
        surface.in_picture_of.push_back(std::move(*seen));
      }
      out.push_back(std::move(surface));
    }
  }
  return out;
}

std::vector<Mirrored> mirroredLamps(const design::Design& design, const std::vector<Lamp>& lamps,
                                    const std::vector<design::PosedImager>& views,
                                    const Solids& solids, double within_m) {
  std::vector<Mirrored> out;
  if (!solids.scene) return out;
  const scene::Scene& scene = *solids.scene;
  const Faces faces(design);
  for (const scene::Body& body : scene.bodies) {
    const double thrown_back = faces.mirrors(scene.sources[body.source]);
    if (thrown_back <= 0 || body.triangle()) continue;
    for (std::uint32_t k = 0; k < body.plane_count; ++k) {
      const scene::Plane& plane = scene.planes[body.first_plane + k];
      for (std::size_t v = 0; v < views.size(); ++v) {
        const design::PosedImager& view = views[v];
        const double lens_off = dot(plane.normal, view.lens_m) - plane.offset;
        if (lens_off <= scene::kTouchM || lens_off > within_m) continue;
        for (const Lamp& lamp : lamps) {
          const double lamp_off = dot(plane.normal, lamp.at_m) - plane.offset;
          if (lamp_off <= scene::kTouchM || lamp_off > within_m) continue;
          // The lamp's image behind the face, and where the line to it passes the face.
          const Vec3 image = lamp.at_m - plane.normal * (2 * lamp_off);
          const double path_m = norm(image - view.lens_m);
          const Vec3 at = view.lens_m + (image - view.lens_m) * (lens_off / (lens_off + lamp_off));
          bool on_face = true;
          for (std::uint32_t j = 0; j < body.plane_count && on_face; ++j) {
            const scene::Plane& other = scene.planes[body.first_plane + j];
            on_face = j == k || dot(other.normal, at) <= other.offset;
          }
          const auto px = on_face ? inPicture(view, image) : std::nullopt;
          if (!px || path_m > 2 * within_m) continue;
          const double off = degToRad(offBeamDeg(lamp, at));
          const double share = lamp.range_m * lamp.range_m / (path_m * path_m) *
                               beamShare(off, lamp.half_beam_rad) * thrown_back;
          const double passes = solids.passes(lamp.at_m, at, lamp.band()) *
                                solids.passes(at, view.lens_m, lamp.band());
          if (share * passes < kDazzleShare) continue;
          out.push_back({lamp.name, view.imager, v, scene.sources[body.source].id, at, *px, path_m,
                         radToDeg(off), thrown_back, share * passes});
        }
      }
    }
  }
  return out;
}

std::vector<ThroughGlass> lampsThroughGlass(const design::Design& design,
                                            const std::vector<Lamp>& lamps,
                                            const std::vector<design::PosedImager>& views,
                                            const Solids& solids, double within_m) {
  std::vector<ThroughGlass> out;
  if (!solids.scene) return out;
  const scene::Scene& scene = *solids.scene;
  const Faces faces(design);
  for (std::size_t v = 0; v < views.size(); ++v) {
    const design::PosedImager& view = views[v];
    const bool lit = std::any_of(lamps.begin(), lamps.end(),
                                 [&](const Lamp& lamp) { return lamp.housing == view.housing; });
    if (!lit) continue;
    const Vec3 to = view.lens_m + view.imager_from_site.row[2] * within_m;
    const auto hit = scene::firstHit(scene, *solids.tree, view.lens_m, to, scene::Band::infrared);
    if (!hit) continue;
    const scene::Source& source = scene.sources[scene.bodies[hit->body].source];
    if (faces.isPane(source))
      out.push_back({view.imager, v, source.id, hit->share * within_m, source.infrared * source.infrared});
  }
  return out;
}

std::vector<Vec3> coverReflections(const Vec3& lens_m, const Vec3& lamp_m, const Vec3& centre_m,
                                   double radius_m) {
  // In the plane of lens, lamp and centre: at angle a on the circle, the light comes back to the
  // lens where both directions lie alike on either side of the radius.
  const Vec3 lens = lens_m - centre_m, lamp = lamp_m - centre_m;
  const Vec3 along = norm(lens) > 1e-9 ? normalized(lens)
                     : norm(lamp) > 1e-9 ? normalized(lamp) : Vec3{0, 1, 0};
  Vec3 beside = lamp - along * dot(along, lamp);
  beside = norm(beside) > 1e-9 ? normalized(beside) : squareTo(along)[0];
  const Vec2 e{dot(along, lens), dot(beside, lens)}, l{dot(along, lamp), dot(beside, lamp)};
  const auto error = [&](double a) {
    const Vec2 radial{std::cos(a), std::sin(a)}, p = radial * radius_m;
    const Vec2 to_lens = e - p, to_lamp = l - p;
    return cross(radial, to_lens) / norm(to_lens) + cross(radial, to_lamp) / norm(to_lamp);
  };
  std::vector<Vec3> out;
  constexpr int kSteps = 720;
  for (int i = 0; i < kSteps; ++i) {
    // Off the round angles, so that a root on one is not met at an end.
    double low = 2 * kPi * (i + 0.37) / kSteps, high = 2 * kPi * (i + 1.37) / kSteps;
    if (error(low) * error(high) > 0) continue;
    const bool rises = error(high) > 0;
    for (int k = 0; k < 60; ++k) {
      const double middle = 0.5 * (low + high);
      ((error(middle) > 0) == rises ? high : low) = middle;
    }
    const double a = 0.5 * (low + high);
    out.push_back(centre_m + along * (radius_m * std::cos(a)) + beside * (radius_m * std::sin(a)));
  }
  return out;
}

std::optional<Cover> coverOf(const design::Design& design, const design::Housing& housing) {
  const design::Model* model = design::findModel(design, housing.model);
  if (!model || !model->cover_radius_mm) return {};
  const design::Model* mount =
      housing.mount.model.empty() ? nullptr : design::findModel(design, housing.mount.model);
  return Cover{design::lensPoint(housing.mount, mount, design::ModelImager{}, {}),
               mmToM(*model->cover_radius_mm)};
}

namespace {
// Where lens and lamp lie in line with the centre, places beside that line are rings about it.
std::vector<Vec3> mirrorPlaces(const Vec3& lens_m, const Vec3& lamp_m, const Cover& cover) {
  std::vector<Vec3> places = coverReflections(lens_m, lamp_m, cover.centre_m, cover.radius_m);
  const Vec3 lens = lens_m - cover.centre_m, lamp = lamp_m - cover.centre_m;
  const Vec3 line = norm(lens) > norm(lamp) ? lens : lamp;
  if (norm(cross(lens, lamp)) > 1e-9 * norm(line)) return places;
  const Vec3 axis = normalized(line);
  constexpr int kRound = 72;
  const std::size_t first = places.size();
  for (std::size_t i = 0; i < first; ++i) {
    const Vec3 from = places[i] - cover.centre_m;
    const Vec3 along = axis * dot(axis, from), out = from - along;
    if (norm(out) < 1e-6 * cover.radius_m) continue;
    for (int k = 1; k < kRound; ++k) {
      const double turn = 2 * kPi * k / kRound;
      places.push_back(cover.centre_m + along + out * std::cos(turn) + cross(axis, out) * std::sin(turn));
    }
  }
  return places;
}
}  // namespace

std::vector<InCover> lampsInCover(const design::Design& design, const std::vector<Lamp>& lamps,
                                  const std::vector<design::PosedImager>& views) {
  constexpr double kOneM = 1e-6;  // lens and lamp both in the centre: every place throws back
  std::vector<InCover> out;
  for (const design::PosedImager& view : views) {
    const design::Housing* housing = design::findHousing(design, view.housing);
    const auto cover = housing ? coverOf(design, *housing) : std::nullopt;
    if (!cover || !cover->holds(view.lens_m)) continue;
    for (const Lamp& lamp : lamps) {
      if (lamp.housing != view.housing || !cover->holds(lamp.at_m)) continue;
      InCover found{lamp.name, view.imager, {}, {}, cover->radius_m, norm(view.lens_m - cover->centre_m),
                    norm(lamp.at_m - cover->centre_m), 0};
      const std::vector<Vec3> places =
          found.lens_off_m < kOneM && found.lamp_off_m < kOneM
              ? std::vector{cover->centre_m + view.imager_from_site.row[2] * cover->radius_m}
              : mirrorPlaces(view.lens_m, lamp.at_m, *cover);
      for (const Vec3& at : places) {
        const auto px = inPicture(view, at);
        const double path_m = norm(at - lamp.at_m) + norm(at - view.lens_m);
        const double share = lamp.range_m * lamp.range_m / (path_m * path_m) * kPaneReflects *
                             beamShare(degToRad(offBeamDeg(lamp, at)), lamp.half_beam_rad);
        if (!px || share <= found.share) continue;
        found.at_m = at;
        found.at_px = *px;
        found.share = share;
      }
      if (found.share >= kDazzleShare) out.push_back(std::move(found));
    }
  }
  return out;
}

double eyeLimitWPerM2(double exposure_s) {
  return exposure_s > 1000 ? 100 : 18000 * std::pow(exposure_s, -0.75);
}

std::vector<EyeExposure> eyeExposures(const std::vector<Lamp>& lamps) {
  std::vector<EyeExposure> out;
  for (const Lamp& lamp : lamps) {
    if (!lamp.infrared()) continue;
    auto of = std::find_if(out.begin(), out.end(),
                           [&](const EyeExposure& e) { return e.housing == lamp.housing.text; });
    if (of == out.end()) {
      out.push_back({lamp.housing.text, {}, 0.0, {}, {}});
      of = out.end() - 1;
    }
    of->lamps.push_back(lamp.name);
    if (!lamp.intensity_w_per_sr) of->intensity_w_per_sr.reset();
    else if (of->intensity_w_per_sr) *of->intensity_w_per_sr += *lamp.intensity_w_per_sr;
  }
  for (EyeExposure& e : out) {
    if (!e.intensity_w_per_sr) continue;
    const double intensity = *e.intensity_w_per_sr;
    e.lasting_from_m = std::sqrt(intensity / eyeLimitWPerM2(1e9));
    const double at = intensity / (kClassifiedAtM * kClassifiedAtM);
    e.group = at <= 100 ? RiskGroup::exempt : at <= 570 ? RiskGroup::one
              : at <= 3200 ? RiskGroup::two : RiskGroup::three;
  }
  return out;
}

}  // namespace belvedere::light
