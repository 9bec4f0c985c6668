// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/section.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "optics/lens.h"
#include "proof/blind_floor.h"
#include "scene/presence.h"
#include "scene/sightline.h"

namespace belvedere::edit {
namespace {

constexpr int kHalvings = 60;
constexpr double kLevelRad = 1e-9;   // an axis nearer to the vertical has no bearing
constexpr double kLeastCutM2 = 1e-9; // a cut smaller than this is a touch

Vec2 headingOf(double bearing_deg) {
  const Mat3 axes = design::imagerFromSite(bearing_deg, 0, 0);
  return axes.row[2].xy();
}

// The plane of the section: from its points to the site and back.
struct Plane {
  Vec2 foot, heading;
  Vec2 at(double along_m) const { return foot + heading * along_m; }
  Vec3 site(Vec2 p) const { return withZ(at(p.x), p.y); }
};

// Last place of [good, bad] at which a condition holds that holds at good and not at bad.
template <class Holds>
double lastOf(double good, double bad, Holds holds) {
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (good + bad);
    (holds(middle) ? good : bad) = middle;
  }
  return good;
}

// ---- rays ---------------------------------------------------------------------------------------

Vec2 rayOf(double down_deg) {
  const double down = degToRad(down_deg);
  return {std::cos(down), -std::sin(down)};
}
bool inFrame(const design::PosedImager& view, const Vec3& direction) {
  const auto p = optics::project(view.lens, view.imager_from_site * direction);
  return p && p->x >= view.frame_low_px.x && p->x <= view.frame_high_px.x &&
         p->y >= view.frame_low_px.y && p->y <= view.frame_high_px.y;
}

// The depressions between which the section lies in the frame, from the axis outwards; of a frame
// that leaves out the axis (a crop), the widest stretch.
struct Opening {
  std::optional<double> upper_deg, lower_deg;
};
Opening openingOf(const design::PosedImager& view, const Plane& plane, double axis_deg) {
  constexpr double kStepDeg = 0.25;
  const auto sees = [&](double down_deg) {
    const Vec2 ray = rayOf(down_deg);
    return inFrame(view, withZ(plane.heading * ray.x, ray.y));
  };
  double start = axis_deg;
  if (!sees(start)) {
    double widest = 0, since = 0;
    bool open = false;
    for (double d = axis_deg - 180; d <= axis_deg + 180; d += kStepDeg) {
      if (sees(d) && !open) since = d;
      open = sees(d);
      if (open && d - since >= widest) {
        widest = d - since;
        start = 0.5 * (since + d);
      }
    }
    if (!sees(start)) return {};
  }
  const auto end = [&](double step) -> std::optional<double> {
    for (double d = start; std::abs(d - start) < 180; d += step)
      if (!sees(d + step)) return lastOf(d, d + step, sees);
    return {};
  };
  return {end(-kStepDeg), end(kStepDeg)};
}

SectionRay traced(const proof::Question& question, const Plane& plane, Vec2 lens, double down_deg,
                  const Section& section, double lowest_m) {
  SectionRay ray;
  ray.down_deg = down_deg;
  const Vec2 dir = rayOf(down_deg);
  // Out of the section at its sides, or through its lowest floor.
  double length = 1e3;
  if (dir.x > 0) length = std::min(length, (section.to_m - lens.x) / dir.x);
  if (dir.x < 0) length = std::min(length, (section.from_m - lens.x) / dir.x);
  if (dir.y < 0) length = std::min(length, (lowest_m - lens.y) / dir.y);
  length = std::max(length, 0.0);
  const Vec3 from = plane.site(lens);
  const proof::Place& place = *question.place;
  const auto blocker = [&](double m) {
    return scene::blockerOf(place.scene, place.tree, from, plane.site(lens + dir * m),
                            question.blocking);
  };
  if (const auto body = blocker(length)) {
    double open = 0, shut = length;
    std::uint32_t first = *body;
    for (int i = 0; i < kHalvings && shut - open > 1e-7; ++i) {
      const double middle = 0.5 * (open + shut);
      if (const auto nearer = blocker(middle)) {
        shut = middle;
        first = *nearer;
      } else {
        open = middle;
      }
    }
    length = open;
    ray.stopped_by = place.scene.sources[place.scene.bodies[first].source].id;
  }
  ray.end = lens + dir * length;
  return ray;
}

// ---- floors -------------------------------------------------------------------------------------

// Where the section runs within a region, along.
std::vector<design::Range> within(const Region& region, const Plane& plane, double from_m,
                                  double to_m) {
  std::vector<double> cuts{from_m, to_m};
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i] - plane.foot, b = ring[(i + 1) % ring.size()] - plane.foot;
      const double side_a = cross(plane.heading, a), side_b = cross(plane.heading, b);
      if ((side_a > 0) == (side_b > 0)) continue;
      const Vec2 at = a + (b - a) * (side_a / (side_a - side_b));
      const double along = dot(plane.heading, at);
      if (along > from_m && along < to_m) cuts.push_back(along);
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  std::sort(cuts.begin(), cuts.end());
  std::vector<design::Range> found;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
    if (cuts[i + 1] - cuts[i] > 1e-9 && contains(region, plane.at(0.5 * (cuts[i] + cuts[i + 1]))))
      found.push_back({cuts[i], cuts[i + 1]});
  return found;
}

std::vector<SectionLine> floorAlong(const design::Design& design, const proof::Question& question,
                                    const Plane& plane, const Section& section) {
  struct Stretch {
    design::Range along;
    double z_from = 0, z_to = 0;
    double at(double s) const {
      return z_from + (z_to - z_from) * (s - along[0]) / (along[1] - along[0]);
    }
  };
  std::vector<Stretch> all;
  if (section.lens_z_m >= 0) all.push_back({{section.from_m, section.to_m}, 0, 0});
  for (const proof::Slab& slab : proof::slabsOf(design))
    if (slab.storey->floor_m <= section.lens_z_m)
      for (const design::Range& along : within(slab.outline, plane, section.from_m, section.to_m))
        all.push_back({along, slab.storey->floor_m, slab.storey->floor_m});
  const scene::Presence presence(design, question.situation);
  for (const design::Solid& solid : design.site.solids) {
    if (solid.kind != design::SolidKind::ramp && solid.kind != design::SolidKind::stair) continue;
    if (solid.outline.size() < 3 || !presence.holds(solid.id.text)) continue;
    design::Zone top;
    top.surface = solid.id;
    const scene::Floor floor = scene::floorOf(design, top);
    const Region outline{{anticlockwise(solid.outline), {}}};
    for (const design::Range& along : within(outline, plane, section.from_m, section.to_m))
      all.push_back({along, floor.at(plane.at(along[0])), floor.at(plane.at(along[1]))});
  }
  std::vector<double> ends;
  for (const Stretch& s : all) ends.insert(ends.end(), {s.along[0], s.along[1]});
  std::sort(ends.begin(), ends.end());
  std::vector<SectionLine> lines;
  std::size_t last = all.size();
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    if (ends[i + 1] - ends[i] < 1e-9) continue;
    const double middle = 0.5 * (ends[i] + ends[i + 1]);
    std::size_t best = all.size();
    for (std::size_t k = 0; k < all.size(); ++k)
      if (middle > all[k].along[0] && middle < all[k].along[1] &&
          all[k].at(middle) <= section.lens_z_m &&
          (best == all.size() || all[k].at(middle) > all[best].at(middle)))
        best = k;
    if (best == all.size()) continue;
    const Vec2 to{ends[i + 1], all[best].at(ends[i + 1])};
    if (best == last && lines.back().to.x >= ends[i] - 1e-9) lines.back().to = to;
    else lines.push_back({{ends[i], all[best].at(ends[i])}, to});
    last = best;
  }
  return lines;
}

// ---- bodies -------------------------------------------------------------------------------------

std::vector<SectionBody> cutBodies(const scene::Scene& scene, const Plane& plane, double from_m,
                                   double to_m) {
  std::vector<SectionBody> cuts;
  const Vec2 across = perpLeft(plane.heading);
  for (const scene::Body& body : scene.bodies) {
    // Both sides of the plane, and within its run?
    const Vec2 middle = (body.box.low.xy() + body.box.high.xy()) * 0.5 - plane.foot;
    const Vec2 half = (body.box.high.xy() - body.box.low.xy()) * 0.5;
    const auto spans = [&](Vec2 axis) {
      return std::abs(axis.x) * half.x + std::abs(axis.y) * half.y;
    };
    if (std::abs(dot(across, middle)) > spans(across)) continue;
    const double along = dot(plane.heading, middle), reach = spans(plane.heading);
    if (along + reach < from_m || along - reach > to_m) continue;
    SectionBody cut;
    cut.id = scene.sources[body.source].id;
    cut.light = scene.sources[body.source].light;
    if (body.triangle()) {
      const Vec3* v = &scene.vertices[body.first_vertex];
      for (int i = 0; i < 3; ++i) {
        const Vec3 &a = v[i], &b = v[(i + 1) % 3];
        const double side_a = dot(across, a.xy() - plane.foot);
        const double side_b = dot(across, b.xy() - plane.foot);
        if ((side_a > 0) == (side_b > 0)) continue;
        const Vec3 at = a + (b - a) * (side_a / (side_a - side_b));
        cut.line.push_back({dot(plane.heading, at.xy() - plane.foot), at.z});
      }
      if (cut.line.size() == 2) cuts.push_back(std::move(cut));
      continue;
    }
    const double low = body.box.low.z - 1, high = body.box.high.z + 1;
    Ring ring{{from_m, low}, {to_m, low}, {to_m, high}, {from_m, high}};
    for (std::uint32_t i = 0; i < body.plane_count && !ring.empty(); ++i) {
      const scene::Plane& face = scene.planes[body.first_plane + i];
      const Vec2 normal{dot(face.normal.xy(), plane.heading), face.normal.z};
      const double limit = face.offset - dot(face.normal.xy(), plane.foot);
      if (norm(normal) > 1e-12) ring = clipHalfPlane(ring, normal, limit);
      else if (limit < 0) ring.clear();
    }
    if (ring.size() < 3 || signedArea(ring) < kLeastCutM2) continue;
    cut.outline = std::move(ring);
    cuts.push_back(std::move(cut));
  }
  return cuts;
}

// ---- the band -----------------------------------------------------------------------------------

// Frame and density along the section, by the judge: with nothing that hides.
void judgeBand(const proof::Question& question, std::size_t view, const Plane& plane,
               Section& section) {
  constexpr int kHeights = 9, kSteps = 400;
  static const auto nothing = std::make_shared<const proof::Place>();
  proof::Question open = question;
  open.place = nothing;
  open.facings.clear();
  open.every_facing = false;
  proof::replaceViews(open, {question.views[view]});
  const auto reason = [&](double along) {
    return proof::answerOf(open, 0, plane.at(along), kHeights).reason;
  };
  const auto out = [&](double s) { return reason(s) == proof::Reason::out_of_frame; };
  const auto dense = [&](double s) {
    const proof::Reason r = reason(s);
    return r != proof::Reason::out_of_frame && r != proof::Reason::too_coarse;
  };
  const double far_m = section.to_m;
  double start = 0;
  if (out(0)) {
    int i = 1;
    while (i <= kSteps && out(far_m * i / kSteps)) ++i;
    if (i > kSteps) {
      section.blind_m = design::Range{0, far_m};
      section.blind_ends = false;
      return;
    }
    const double seen = far_m * i / kSteps;
    section.blind_m = design::Range{0, lastOf(far_m * (i - 1) / kSteps, seen, out)};
    start = lastOf(seen, (*section.blind_m)[1], [&](double s) { return !out(s); });
  }
  if (!dense(start)) return;
  double last = start;
  for (int i = 1; i <= kSteps; ++i) {
    const double next = start + (far_m - start) * i / kSteps;
    if (!dense(next)) {
      section.far_m = lastOf(last, next, dense);
      return;
    }
    last = next;
  }
  section.far_m = far_m;
  section.far_ends = false;
}

}  // namespace

Section sectionOf(const design::Design& design, const proof::Question& question, std::size_t index,
                  double from_m, double to_m) {
  const design::PosedImager& view = question.views[index];
  Section section;
  section.foot = view.lens_m.xy();
  section.lens_z_m = view.lens_m.z;
  section.from_m = std::min(from_m, 0.0);
  section.to_m = std::max(to_m, 0.1);
  const Vec3 forward = view.imager_from_site.row[2];
  Vec2 towards = forward.xy();
  if (norm(towards) < kLevelRad) towards = -view.imager_from_site.row[1].xy();
  section.bearing_deg = wrap360(radToDeg(std::atan2(towards.x, towards.y)));
  const Plane plane{section.foot, headingOf(section.bearing_deg)};
  const double axis_deg =
      radToDeg(std::atan2(-forward.z, dot(forward.xy(), plane.heading)));

  section.floor = floorAlong(design, question, plane, section);
  section.bodies = cutBodies(question.place->scene, plane, section.from_m, section.to_m);
  const auto bandLine = [&](double height_m) {
    const auto at = [&](double s) {
      return Vec2{s, question.floor.at(plane.at(s)) + height_m};
    };
    return SectionLine{at(section.from_m), at(section.to_m)};
  };
  section.band_low = bandLine(question.low_m);
  section.band_high = bandLine(question.high_m);

  double lowest = std::min(section.band_low.from.y, section.band_low.to.y) - question.low_m;
  for (const SectionLine& line : section.floor)
    lowest = std::min({lowest, line.from.y, line.to.y});
  const Vec2 lens{0, section.lens_z_m};
  const auto ray = [&](double down_deg) {
    return traced(question, plane, lens, down_deg, section, lowest);
  };
  section.axis = ray(axis_deg);
  const Opening opening = openingOf(view, plane, axis_deg);
  if (opening.upper_deg) section.upper = ray(*opening.upper_deg);
  if (opening.lower_deg) section.lower = ray(*opening.lower_deg);
  judgeBand(question, index, plane, section);
  return section;
}

proof::Question sectionQuestion(std::shared_ptr<const proof::Place> place,
                                const design::PosedImager& view, design::Range band_m,
                                double needed_px_per_m, const scene::Floor& floor) {
  proof::Question question;
  question.place = std::move(place);
  question.low_m = band_m[0];
  question.high_m = band_m[1];
  question.needed_px_per_m = needed_px_per_m;
  question.floor = floor;
  proof::replaceViews(question, {view});
  return question;
}

Vec3 siteOf(const Section& section, Vec2 p) {
  return Plane{section.foot, headingOf(section.bearing_deg)}.site(p);
}
Vec2 inSection(const Section& section, const Vec3& site) {
  return {dot(headingOf(section.bearing_deg), site.xy() - section.foot), site.z};
}

}  // namespace belvedere::edit
