// SPDX-License-Identifier: GPL-3.0-or-later
//
// Services on a plan: containment as a light trough; cables as thin lines by what they carry, each with
// its length in the line; risers; devices as small boxes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/units.h"
#include "drawing/plan_words.h"
#include "services/network.h"

namespace belvedere::drawing {
namespace {

using design::ModelKind;
using services::Media;

constexpr double kHalfMm = 1.5;  // of a device's box
// Containment between its edges, and the light beside a cable that keeps it apart from what it runs in:
// a wall is solid.
constexpr double kTroughMm = 1.1, kEdgeMm = 0.15, kBesideMm = 0.8;

Stroke strokeOf(const Inks& inks, Media media) {
  switch (media) {
    case Media::twisted_pair: return {inks.ink, 0.22, Dash::none};
    case Media::fibre: return {inks.ink, 0.22, Dash::dashed};
    case Media::power: return {inks.ink, 0.3, Dash::dotted};
  }
  return {inks.ink, 0.22, Dash::none};
}

ServiceMark markOf(Media media) {
  return media == Media::fibre   ? ServiceMark::fibre
         : media == Media::power ? ServiceMark::power_cable
                                 : ServiceMark::network_cable;
}

std::optional<ServiceMark> markOf(ModelKind kind) {
  switch (kind) {
    case ModelKind::switch_: return ServiceMark::switch_;
    case ModelKind::injector: return ServiceMark::injector;
    case ModelKind::supply: return ServiceMark::supply;
    case ModelKind::recorder: return ServiceMark::recorder;
    case ModelKind::viewer: return ServiceMark::viewer;
    default: return {};
  }
}

// A stretch of the plan, whichever way it is gone along, to a centimetre.
using Key = std::array<long, 4>;
Key keyOf(Vec2 a, Vec2 b) {
  const auto cm = [](double v) { return std::lround(v * 100); };
  std::array<long, 2> p{cm(a.x), cm(a.y)}, q{cm(b.x), cm(b.y)};
  if (q < p) std::swap(p, q);
  return {p[0], p[1], q[0], q[1]};
}

// Edges of all runs first, then what is between them, so that runs open into each other.
void paintTroughs(Canvas& canvas, const Inks& inks, const std::vector<std::vector<Vec2>>& runs) {
  for (const double width : {kTroughMm + 2 * kEdgeMm, kTroughMm})
    for (const std::vector<Vec2>& run : runs)
      canvas.path(run, false, {width > kTroughMm ? inks.quiet : inks.paper, width});
}

void box(Canvas& canvas, const Inks& inks, Vec2 at) {
  const Vec2 half{kHalfMm, kHalfMm};
  canvas.fillBox({at - half, at + half}, inks.paper);
  canvas.box({at - half, at + half}, {inks.ink, 0.25});
}

// "k1  23.0 m", along the line and in it.
bool nameCable(Canvas& canvas, const Inks& inks, const std::string& words, Vec2 a, Vec2 b,
               const Box2& plan, Taken& taken) {
  const Lettering lettering{inks.ink, 9, false, Align::middle};
  const double width = canvas.width(words, lettering), high = 9 * kMmPerPt * kCapitalHeight;
  const double length = norm(b - a);
  if (length < width + 3) return false;
  Vec2 along = (b - a) / length;
  if (along.x < 0 || (along.x == 0 && along.y > 0)) along = along * -1;
  const Vec2 side{-along.y, along.x};  // down the page
  for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
    const double from_end = std::min(share, 1 - share) * length;
    if (from_end < 0.5 * width + 1) continue;
    const Vec2 middle = a + (b - a) * share;
    const Vec2 u = along * (0.5 * width + 0.6), v = side * (0.5 * high + 0.5);
    const Ring ring{middle - u - v, middle + u - v, middle + u + v, middle - u + v};
    const Box2 around = bounds(ring);
    if (norm(nearestIn(plan, around.low) - around.low) > 0 ||
        norm(nearestIn(plan, around.high) - around.high) > 0 || !taken.isFree(around))
      continue;
    canvas.fill({{ring, {}}}, inks.paper);
    Lettering turned = lettering;
    turned.turn_deg = radToDeg(std::atan2(along.y, along.x));
    canvas.text(middle + side * (0.5 * high), words, turned);
    taken.add(around);
    return true;
  }
  return false;
}

}  // namespace

void paintServiceMark(Canvas& canvas, const Inks& inks, Vec2 at, ServiceMark mark) {
  const Stroke thin{inks.ink, 0.2};
  const double h = kHalfMm;
  switch (mark) {
    case ServiceMark::network_cable:
    case ServiceMark::fibre:
    case ServiceMark::power_cable:
      canvas.line(at - Vec2{3.5, 0}, at + Vec2{3.5, 0},
                  strokeOf(inks, mark == ServiceMark::fibre         ? Media::fibre
                                 : mark == ServiceMark::power_cable ? Media::power
                                                                    : Media::twisted_pair));
      return;
    case ServiceMark::riser_up:
    case ServiceMark::riser_down: {
      const double tip = mark == ServiceMark::riser_up ? -1 : 1;
      canvas.fill({{{at + Vec2{0, 1.3 * tip}, at + Vec2{1.1, -0.6 * tip}, at + Vec2{-1.1, -0.6 * tip}},
                    {}}},
                  inks.ink);
      return;
    }
    case ServiceMark::containment:
      paintTroughs(canvas, inks, {{at - Vec2{3.5, 0}, at + Vec2{3.5, 0}}});
      return;
    case ServiceMark::switch_:  // a comb
      box(canvas, inks, at);
      for (const double x : {-0.5, 0.0, 0.5})
        canvas.line(at + Vec2{x * h * 1.2, -0.2 * h}, at + Vec2{x * h * 1.2, h}, thin);
      canvas.line(at + Vec2{-0.6 * h, -0.2 * h}, at + Vec2{0.6 * h, -0.2 * h}, thin);
      return;
    case ServiceMark::injector:  // one tooth
      box(canvas, inks, at);
      canvas.line(at + Vec2{-h, 0}, at + Vec2{h, 0}, thin);
      canvas.line(at + Vec2{0, -h}, at, thin);
      return;
    case ServiceMark::supply:  // a step
      box(canvas, inks, at);
      canvas.path({at + Vec2{-0.7 * h, 0.5 * h}, at + Vec2{0, 0.5 * h}, at + Vec2{0, -0.5 * h},
                   at + Vec2{0.7 * h, -0.5 * h}},
                  false, thin);
      return;
    case ServiceMark::recorder:  // shelves
      box(canvas, inks, at);
      for (const double y : {-0.4, 0.4})
        canvas.line(at + Vec2{-0.6 * h, y * h}, at + Vec2{0.6 * h, y * h}, {inks.ink, 0.45});
      return;
    case ServiceMark::viewer:  // a frame within
      box(canvas, inks, at);
      canvas.box({at - Vec2{0.6 * h, 0.5 * h}, at + Vec2{0.6 * h, 0.5 * h}}, thin);
      return;
  }
}

std::string phrase(ServiceMark mark) {
  switch (mark) {
    case ServiceMark::network_cable: return said("network cable");
    case ServiceMark::fibre: return said("fibre");
    case ServiceMark::power_cable: return said("power cable");
    case ServiceMark::riser_up: return said("cables go up");
    case ServiceMark::riser_down: return said("cables go down");
    case ServiceMark::switch_: return said("switch");
    case ServiceMark::injector: return said("injector");
    case ServiceMark::supply: return said("supply");
    case ServiceMark::recorder: return said("recorder");
    case ServiceMark::viewer: return said("viewer");
    case ServiceMark::containment: return said("containment");
  }
  return "";
}

void keepClearOfDevices(const ServicesOnPlan& services, const ToPaper& to_paper, Taken& taken) {
  const auto add = [&](Vec2 site) {
    const Vec2 at = to_paper(site);
    taken.add(grownBox({at, at}, kHalfMm + 0.5));
  };
  for (const DeviceOnPlan& device : services.devices) add(device.at);
  for (const RiserOnPlan& riser : services.risers) add(riser.at);
}

void paintCables(Canvas& canvas, const Inks& inks, const ServicesOnPlan& services,
                 const ToPaper& to_paper, Occurs& occurs) {
  std::vector<std::vector<Vec2>> troughs;
  for (const ContainmentOnPlan& containment : services.containment)
    for (const std::vector<Vec2>& run : containment.runs) {
      troughs.emplace_back();
      for (const Vec2 p : run) troughs.back().push_back(to_paper(p));
      occurs.services.insert(ServiceMark::containment);
    }
  for (const CableOnPlan& cable : services.cables)
    for (const std::vector<Vec2>& run : cable.runs)
      for (std::size_t i = 0; i + 1 < run.size(); ++i)
        canvas.line(to_paper(run[i]), to_paper(run[i + 1]), {inks.paper, kBesideMm});
  paintTroughs(canvas, inks, troughs);
  std::map<std::pair<Key, Media>, bool> drawn;
  for (const CableOnPlan& cable : services.cables)
    for (const std::vector<Vec2>& run : cable.runs)
      for (std::size_t i = 0; i + 1 < run.size(); ++i) {
        // A stretch that several share is one line: dashes that lie over dashes would close up.
        if (!drawn.try_emplace({keyOf(run[i], run[i + 1]), cable.media}, true).second) continue;
        canvas.line(to_paper(run[i]), to_paper(run[i + 1]), strokeOf(inks, cable.media));
        occurs.services.insert(markOf(cable.media));
      }
}

void paintDevices(Canvas& canvas, const Inks& inks, const ServicesOnPlan& services,
                  const Layout& layout, Taken& taken, Occurs& occurs) {
  const ToPaper& to_paper = layout.to_paper;
  // A cable is named where it runs alone, on its longest stretch that has room.
  std::map<Key, int> shared;
  for (const CableOnPlan& cable : services.cables)
    for (const std::vector<Vec2>& run : cable.runs)
      for (std::size_t i = 0; i + 1 < run.size(); ++i) ++shared[keyOf(run[i], run[i + 1])];
  for (const CableOnPlan& cable : services.cables) {
    struct Stretch {
      Vec2 a, b;
      int by;
    };
    std::vector<Stretch> stretches;
    for (const std::vector<Vec2>& run : cable.runs)
      for (std::size_t i = 0; i + 1 < run.size(); ++i)
        stretches.push_back({to_paper(run[i]), to_paper(run[i + 1]),
                             shared.at(keyOf(run[i], run[i + 1]))});
    std::ranges::stable_sort(stretches, [](const Stretch& s, const Stretch& t) {
      return std::pair(s.by, -norm(s.b - s.a)) < std::pair(t.by, -norm(t.b - t.a));
    });
    const std::string words =
        fmt::format("{}  {} m", cable.link.text, shortNumber(cable.length_m, 1));
    const bool named = std::ranges::any_of(stretches, [&](const Stretch& stretch) {
      return nameCable(canvas, inks, words, stretch.a, stretch.b, layout.plan, taken);
    });
    // Else beside the stretch that it has most to itself, where there is room.
    if (named || stretches.empty() || stretches.front().by > 1) continue;
    const Words beside{{words}, inks.ink, 0};
    const Vec2 size = sizeOf(canvas, beside);
    const Vec2 middle = (stretches.front().a + stretches.front().b) * 0.5;
    for (const Vec2 low : {Vec2{0.8, -0.5 * size.y}, Vec2{-0.8 - size.x, -0.5 * size.y},
                           Vec2{-0.5 * size.x, 0.8}, Vec2{-0.5 * size.x, -0.8 - size.y}}) {
      const Box2 place = boxAt(middle + low, size);
      if (!taken.isFree(place) || norm(nearestIn(layout.plan, place.low) - place.low) > 0 ||
          norm(nearestIn(layout.plan, place.high) - place.high) > 0)
        continue;
      write(canvas, inks, place, beside);
      taken.add(place);
      break;
    }
  }
  for (const RiserOnPlan& riser : services.risers)
    for (const ServiceMark mark : {ServiceMark::riser_up, ServiceMark::riser_down}) {
      const bool up = mark == ServiceMark::riser_up;
      if (!(up ? riser.up : riser.down)) continue;
      // Both side by side, where cables go both ways.
      const double aside = riser.up && riser.down ? (up ? -1.2 : 1.2) : 0;
      // Off what stands at its foot.
      const Vec2 at = to_paper(riser.at);
      const bool stands = std::ranges::any_of(services.devices, [&](const DeviceOnPlan& device) {
        return norm(to_paper(device.at) - at) < 2 * kHalfMm;
      });
      paintServiceMark(canvas, inks, at + Vec2{aside + (stands ? -2 * kHalfMm : 0), 0}, mark);
      occurs.services.insert(mark);
    }
  for (const DeviceOnPlan& device : services.devices) {
    const auto mark = markOf(device.kind);
    if (!mark) continue;
    const Vec2 at = to_paper(device.at);
    paintServiceMark(canvas, inks, at, *mark);
    occurs.services.insert(*mark);
    const Words words{{device.device.text}, inks.ink, 0};
    const Vec2 size = sizeOf(canvas, words);
    double order = 0;
    const Box2 place = choose({at + Vec2{kHalfMm + 0.4, -0.5 * size.y},
                               at + Vec2{-kHalfMm - 0.4 - size.x, -0.5 * size.y},
                               at + Vec2{-0.5 * size.x, kHalfMm + 0.4},
                               at + Vec2{-0.5 * size.x, -kHalfMm - 0.4 - size.y}},
                              size, layout.plan, taken, [&](const Box2&) { return order += 0.1; });
    write(canvas, inks, place, words);
    taken.add(place);
  }
}

}  // namespace belvedere::drawing
