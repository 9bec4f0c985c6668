// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/services_on_plan.h"

#include <algorithm>
#include <cmath>

#include "geometry/polygon.h"
#include "services/network.h"

namespace belvedere::drawing {
namespace {

constexpr double kSlackM = 0.1;    // of a cable under the ceiling's line, or along the floor
constexpr double kSamePlaceM = 0.3;

// Heights of a storey: to the floor above it in its building, or to its own ceiling.
struct Level {
  double low_m = 0, high_m = 0;
  Ring outline;
};
Level levelOf(const design::Building& building, const design::Storey& storey) {
  Level level{storey.floor_m - kSlackM, storey.floor_m + storey.height_m + kSlackM, {}};
  for (const Vec2 p : storey.outline) level.outline.push_back(siteFromBuilding(building, p));
  return level;
}

class Levels {
 public:
  Levels(const design::Design& design, const design::Storey& storey) {
    for (const design::Building& building : design.site.buildings)
      for (const design::Storey& other : building.storeys) {
        if (other.id == storey.id) own_ = levels_.size();
        levels_.push_back(levelOf(building, other));
      }
  }
  // Is it on the storey? What is within no outline of its height is on all storeys of that height.
  bool on(Vec3 p) const {
    const auto at_height = [&](const Level& l) { return p.z >= l.low_m && p.z <= l.high_m; };
    if (own_ == levels_.size() || !at_height(levels_[own_])) return false;
    if (contains(levels_[own_].outline, p.xy())) return true;
    return std::ranges::none_of(levels_, [&](const Level& l) {
      return at_height(l) && contains(l.outline, p.xy());
    });
  }
  double low() const { return levels_[own_].low_m; }
  double high() const { return levels_[own_].high_m; }

 private:
  std::vector<Level> levels_;
  std::size_t own_ = 0;
};

// Level containment that names a storey, whatever its height: a duct under a yard is the yard's.
class Named {
 public:
  explicit Named(const design::Design& design) {
    for (const design::Containment& containment : design.site.containment) {
      if (!design::findStorey(design, containment.storey)) continue;
      for (std::size_t k = 0; k + 1 < containment.path.size(); ++k)
        if (isLevel(containment.path[k], containment.path[k + 1]))
          pieces_.push_back({containment.path[k], containment.path[k + 1], &containment.storey});
    }
  }
  // The storey of what a stretch lies in; null: in none.
  const design::StoreyId* storeyOf(Vec3 a, Vec3 b) const {
    for (const Piece& piece : pieces_)
      if (piece.holds(a) && piece.holds(b)) return piece.storey;
    return nullptr;
  }

 private:
  static bool isLevel(Vec3 a, Vec3 b) { return std::abs(a.z - b.z) <= kSlackM; }
  struct Piece {
    Vec3 a, b;
    const design::StoreyId* storey;
    bool holds(Vec3 p) const {
      const Vec3 along = b - a;
      const double t = std::clamp(dot(p - a, along) / std::max(dot(along, along), 1e-12), 0.0, 1.0);
      return norm(p - (a + along * t)) <= 0.01;
    }
  };
  std::vector<Piece> pieces_;
};

void addRiser(Vec2 at, bool up, bool down, const design::AnyId& link, ServicesOnPlan& out) {
  auto riser = std::ranges::find_if(out.risers, [&](const RiserOnPlan& r) {
    return norm(r.at - at) <= kSamePlaceM;
  });
  if (riser == out.risers.end()) riser = out.risers.insert(riser, RiserOnPlan{at, false, false, {}});
  riser->up = riser->up || up;
  riser->down = riser->down || down;
  if (riser->links.empty() || riser->links.back() != link) riser->links.push_back(link);
}

}  // namespace

ServicesOnPlan servicesOn(const design::Design& design, const services::Network& network,
                          const design::Storey& storey) {
  const Levels levels(design, storey);
  const Named named(design);
  const auto here_on = [&](Vec3 a, Vec3 b) {
    const design::StoreyId* own = named.storeyOf(a, b);
    return own ? *own == storey.id : levels.on((a + b) * 0.5);
  };
  ServicesOnPlan out;
  for (const design::Containment& containment : design.site.containment) {
    ContainmentOnPlan here{containment.id, {}};
    bool joined = false;
    for (std::size_t i = 0; i + 1 < containment.path.size(); ++i) {
      const Vec3 a = containment.path[i], b = containment.path[i + 1];
      if (!here_on(a, b)) {
        joined = false;
        continue;
      }
      if (norm((b - a).xy()) <= 1e-6) continue;
      if (!joined) here.runs.push_back({a.xy()});
      here.runs.back().push_back(b.xy());
      joined = true;
    }
    if (!here.runs.empty()) out.containment.push_back(std::move(here));
  }
  for (const services::Cable& cable : network.cables) {
    if (!cable.way) continue;
    CableOnPlan here{cable.link, cable.media, cable.length_m, {}};
    const std::vector<Vec3>& path = cable.way->path;
    bool joined = false;  // the last run goes on
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
      const Vec3 a = path[i], b = path[i + 1];
      if (std::abs(b.z - a.z) > 1e-6) {
        const bool from = levels.on(a), to = levels.on(b);
        const double top = std::max(a.z, b.z), bottom = std::min(a.z, b.z);
        if ((from || to) && (top > levels.high() || bottom < levels.low()))
          addRiser((from ? a : b).xy(), top > levels.high(), bottom < levels.low(), cable.link, out);
      }
      if (!here_on(a, b)) {
        joined = false;
        continue;
      }
      if (norm((b - a).xy()) <= 1e-6) continue;  // upright: nothing on a plan
      if (!joined) here.runs.push_back({a.xy()});
      here.runs.back().push_back(b.xy());
      joined = true;
    }
    if (!here.runs.empty()) out.cables.push_back(std::move(here));
  }
  for (const design::Device& device : design.services.devices)
    if (const design::Model* model = design::findModel(design, device.model);
        model && device.at_m && levels.on(*device.at_m))
      out.devices.push_back({device.id, model->kind, device.at_m->xy()});
  return out;
}

}  // namespace belvedere::drawing
