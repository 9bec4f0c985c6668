// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of the services lies on a storey: cables along their computed ways, risers, and devices; plain
// values in site coordinates, for the sheet and for a window that draws them. plan_services.cpp paints
// them.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"
#include "geometry/vec.h"

namespace belvedere::services {
struct Network;
enum class Media;
}

namespace belvedere::drawing {

struct CableOnPlan {
  design::AnyId link;
  services::Media media{};
  double length_m = 0;                    // of all of it, on whatever storeys
  std::vector<std::vector<Vec2>> runs;    // what of its way lies on the storey
};
// Where cables climb from the storey to another, or come down to it.
struct RiserOnPlan {
  Vec2 at;
  bool up = false, down = false;
  std::vector<design::AnyId> links;
};
struct ContainmentOnPlan {
  design::ContainmentId id;
  std::vector<std::vector<Vec2>> runs;    // what of it lies on the storey, but for what is upright
};
struct DeviceOnPlan {
  design::DeviceId device;
  design::ModelKind kind = design::ModelKind::switch_;
  Vec2 at;
};
struct ServicesOnPlan {
  std::vector<CableOnPlan> cables;        // in the order of the links
  std::vector<RiserOnPlan> risers;
  std::vector<DeviceOnPlan> devices;      // in the order of the file; those with a place
  std::vector<ContainmentOnPlan> containment;  // in the order of the file
  bool empty() const {
    return cables.empty() && risers.empty() && devices.empty() && containment.empty();
  }
};

// A stretch lies on the storey whose floor it is above and whose ceiling it is not, and whose building
// it is in, where it is in any; level containment that names a storey, and cables along it, on that.
ServicesOnPlan servicesOn(const design::Design& design, const services::Network& network,
                          const design::Storey& storey);

}  // namespace belvedere::drawing
