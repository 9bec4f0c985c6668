// SPDX-License-Identifier: GPL-3.0-or-later
//
// proof: is this spot served by this imager, and if not, what fails first and by how much (the
// judge, judge.h: the only definition of it in the program); the same lifted to boxes and so to
// shares of zones that are proven, not sampled (prove.h); spots on a lattice for reasons, margins
// and drawings (spots.h); densities that may not be reached (withhold.h); blind zones (blind.h);
// what is nearest to serving and the least change that would (explain.h).
//
// This header holds what a proof says: plain results, no way of getting them.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "design/design.h"
#include "geometry/polygon.h"
#include "geometry/vec.h"

namespace belvedere::proof {

// Why a spot is not served, in the order in which the tests are made (handbook 5).
enum class Reason : std::uint8_t {
  served, out_of_frame, too_coarse, hidden, too_steep, turned_away, unsharp, too_dark, masked
};
inline constexpr int kReasonCount = 9;
const char* word(Reason reason);

enum class Verdict : std::uint8_t { met, not_met, undecided };
const char* word(Verdict verdict);
// 0 met, 1 undecided, 2 not met; and of two the worse.
constexpr int badness(Verdict verdict) {
  return verdict == Verdict::met ? 0 : verdict == Verdict::undecided ? 1 : 2;
}
constexpr Verdict worse(Verdict a, Verdict b) { return badness(a) < badness(b) ? b : a; }

// A share between proven bounds, in [0, 1]; or another quantity between bounds.
struct Bounds {
  double low = 0, high = 0;
  bool operator==(const Bounds&) const = default;
};

// A figure beside its limit. margin = found over needed for what must be at least (density), needed
// over found for what must be at most (elevation, yaw, the distance from the middle of the frame):
// at least 1 when the test passes. 0 when it fails without a measure (hidden, masked).
struct Measure {
  double found = 0, needed = 0;
  std::string unit;
  double margin = 0;
};

struct ReasonShare {
  Reason reason = Reason::served;
  double share = 0;  // of the zone, from the lattice of spots
};

// What an imager does for a requirement; shares of the zone, from the lattice of spots.
struct Contribution {
  std::string imager;
  double serves = 0;   // where it serves
  double alone = 0;    // where fewer than the needed number would be left without it
};

// The spot of the zone with the least margin.
struct WorstSpot {
  Vec3 at;             // on the floor, site
  Reason reason = Reason::served;
  std::string imager;  // nearest to serving
  Measure measure;     // of the failing test, or of density where served
  double height_m = 0; // above the floor, where it was measured
  std::string name{};  // of the view nearest to serving: "C1.2 aim 3" where the imager has several aims
};

struct Settled;
struct RequirementProof {
  design::RequirementId requirement;
  design::SituationId situation;
  design::RequirementKind kind = design::RequirementKind::see;
  Verdict verdict = Verdict::undecided;
  double needed_px_per_m = 0;
  double asked = 0;                  // share asked for (see)
  Bounds share;                      // proven (see)
  double zone_m2 = 0;                // judged area: less what stands on the floor
  std::vector<ReasonShare> reasons;  // of what is not served, largest first
  std::vector<Contribution> imagers; // those that serve anywhere
  std::optional<WorstSpot> worst;
  std::vector<std::string> judged_on_streams;  // the streams' ids; empty: captured pixels
  // withhold: densest picture that can be had anywhere in the zone, proven from above and reached
  // from below; px/m
  std::optional<Bounds> densest_px_per_m;
  std::string densest_imager;
  std::optional<Vec3> densest_at;
  std::string undecided_because;     // (withhold) what kept the verdict open, empty otherwise
  // after_loss: what was taken away, empty for the design as it stands
  std::string without;
  double finest_m = 0;               // side of the smallest cell looked at
  std::size_t boxes = 0;             // boxes judged
  std::shared_ptr<const Settled> settled;  // (see) where it was to be kept: prove.h
};

// Of one imager or of a whole housing (slot 0), for one target height (handbook 7).
struct BlindZone {
  design::HousingId housing;
  int slot = 0;
  design::SituationId situation;
  double target_height_m = 0;
  bool foot_is_seen = false;         // then there is no blind zone at the foot
  Region outline;                    // site
  double area_m2 = 0;                // of the outline
};

// Where the ring of a housing looks, at one depression angle below the horizon.
struct RingArc {
  std::string imager;
  double from_deg = 0, to_deg = 0;   // bearings, clockwise
};
struct RingAt {
  design::HousingId housing;
  double depression_deg = 0;
  std::vector<RingArc> arcs;
  std::vector<std::array<double, 2>> gaps_deg, overlaps_deg;  // bearings from, to
};

struct Proof {
  std::string edition;               // of the task table, as printed
  std::string design_sha256;
  std::vector<RequirementProof> requirements;
  std::vector<BlindZone> blind_zones;
  std::vector<RingAt> rings;
  std::vector<Finding> findings;
  double seconds = 0;                // spent; never part of what is compared or printed in JSON
};

// One spot of a lattice.
struct Spot {
  Reason reason = Reason::out_of_frame;  // served, or the first test that fails (nearest imager)
  float margin = 0;                      // of density where served (found over needed, worst over
                                         // the band), else of the failing test
  float px_per_m = 0;                    // density of the best imager there, lowest over the band
  std::int16_t imager = -1;              // index into SpotMap::imagers, -1: none came near
  bool inside = false;                   // of the zone as judged
};
// Spots at the centres of square cells, row by row from the south-west corner of the zone's box in
// a frame turned by turn_deg clockwise.
struct SpotMap {
  design::RequirementId requirement;
  design::SituationId situation;
  Vec2 origin;                           // site, corner of cell (0,0)
  double turn_deg = 0, cell_m = 0;
  int columns = 0, rows = 0;
  std::vector<Spot> spots;               // rows * columns
  std::vector<std::string> imagers;
  double needed_px_per_m = 0;
  Vec2 centre(int column, int row) const;
  const Spot& at(int column, int row) const {
    return spots[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                 static_cast<std::size_t>(column)];
  }
};

}  // namespace belvedere::proof
