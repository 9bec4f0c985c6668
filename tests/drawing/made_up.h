// SPDX-License-Identifier: GPL-3.0-or-later
//
// A made-up storey of 20 x 14 m with one zone of 10 x 5 m, one head of two imagers, and spots as no
// judge ever gave them: for tests of what is drawn of them.
#pragma once

#include <cmath>

#include "base/units.h"
#include "drawing/sheet.h"

namespace belvedere::drawing {

// Spots every 0.1 m over the zone whose south-west corner is given; a lens stands over that corner
// with 1000 px/m at 1 m. Where the reason is `served` and the density too low, it is too_coarse.
template <class ReasonAt>
ZoneMap madeUpMap(Vec2 corner, double needed_px_per_m, ReasonAt reason_at) {
  ZoneMap map;
  map.judged = {{{corner, corner + Vec2{10, 0}, corner + Vec2{10, 5}, corner + Vec2{0, 5}}, {}}};
  proof::SpotMap& spots = map.spots;
  spots.requirement.text = "R1";
  spots.situation.text = "day";
  spots.origin = corner;
  spots.cell_m = 0.1;
  spots.columns = 100;
  spots.rows = 50;
  spots.imagers = {"C1.1", "C1.2"};
  spots.needed_px_per_m = needed_px_per_m;
  for (int row = 0; row < spots.rows; ++row)
    for (int column = 0; column < spots.columns; ++column) {
      const Vec2 p{(column + 0.5) * 0.1, (row + 0.5) * 0.1};
      proof::Spot spot;
      spot.inside = true;
      spot.imager = 0;
      spot.px_per_m = static_cast<float>(1000 / norm(p));
      spot.margin = static_cast<float>(1000 / norm(p) / needed_px_per_m);
      spot.reason = reason_at(p);
      if (spot.reason == proof::Reason::served && spot.margin < 1)
        spot.reason = proof::Reason::too_coarse;
      spots.spots.push_back(spot);
    }
  return map;
}

// The same zone turned clockwise about the site's origin.
inline ZoneMap turnedMap(ZoneMap map, double turn_deg) {
  const double turn = degToRad(turn_deg);
  const auto turned = [&](Vec2 p) {
    return Vec2{std::cos(turn) * p.x + std::sin(turn) * p.y,
                -std::sin(turn) * p.x + std::cos(turn) * p.y};
  };
  for (Polygon& polygon : map.judged)
    for (Vec2& p : polygon.outer) p = turned(p);
  map.spots.origin = turned(map.spots.origin);
  map.spots.turn_deg = turn_deg;
  return map;
}

inline design::Design madeUpDesign() {
  design::Design design;
  design.title = "Made-up hall";
  design.revisions.push_back({{}, "2026-03-04", "A. Body", "first issue", ""});
  design::Storey storey;
  storey.id.text = "ground";
  storey.title = "Ground floor";
  storey.outline = {{0, 0}, {20, 0}, {20, 14}, {0, 14}};
  design::Wall wall;
  wall.id.text = "W1";
  wall.path = {{0.1, 0.1}, {19.9, 0.1}, {19.9, 13.9}};
  wall.thickness_m = 0.2;
  wall.openings.push_back({{"door"}, "", 3, 1.2, 0, 2.1, {"glass"}});
  storey.walls = {wall};
  design::Building building;
  building.id.text = "hall";
  building.storeys = {storey};
  design.site.buildings = {building};
  design::Zone zone;
  zone.id.text = "floor";
  zone.title = "By the door";
  zone.storey.text = "ground";
  zone.outline = {{4, 5}, {14, 5}, {14, 10}, {4, 10}};
  design.site.zones = {zone};
  design::Requirement requirement;
  requirement.id.text = "R1";
  requirement.zone.text = "floor";
  requirement.task = "recognise";
  design.brief = {requirement};
  design::Model model;
  model.id.text = "head";
  model.imagers.resize(2);
  model.imagers[0].pan_deg = {-170, 170};
  model.imagers[1].slot = 2;
  model.imagers[1].pan_deg = {-170, 170};
  design.catalogue.models = {model};
  design::Housing housing;
  housing.id.text = "C1";
  housing.model.text = "head";
  housing.storey.text = "ground";
  housing.mount.fixing_m = {4, 5, 3};
  design.housings = {housing};
  return design;
}

// Served near the lens, too coarse far from it, hidden at the east end.
inline Sheet madeUpSheet() {
  Sheet sheet;
  sheet.design = madeUpDesign();
  for (int slot = 1; slot <= 2; ++slot) {
    design::PosedImager view;
    view.housing.text = "C1";
    view.slot = slot;
    view.imager = view.name = slot == 1 ? "C1.1" : "C1.2";
    view.lens_m = {4, 5, 3};
    view.hfov_deg = 95;
    view.vfov_deg = 60;
    view.imager_from_site = design::imagerFromSite(slot == 1 ? 45 : 120, 20, 0);
    sheet.imagers.push_back(view);
  }
  sheet.maps.set({madeUpMap({4, 5}, 125, [](Vec2 p) {
    return p.x > 9 ? proof::Reason::hidden : proof::Reason::served;
  })});
  proof::RequirementProof row;
  row.requirement.text = "R1";
  row.situation.text = "day";
  row.verdict = proof::Verdict::not_met;
  row.asked = 0.95;
  row.share = {0.7812, 0.7849};
  row.reasons = {{proof::Reason::too_coarse, 0.118}, {proof::Reason::hidden, 0.1}};
  row.worst = proof::WorstSpot{{13.9, 9.9, 0}, proof::Reason::too_coarse, "C1.1",
                               {90.2, 125, "px/m", 0.72}, 0.2};
  sheet.proof.requirements = {row};
  sheet.proof.edition = "IEC 62676-4:2014";
  proof::BlindZone blind;
  blind.housing.text = "C1";
  blind.outline = {{{{3.4, 4.4}, {4.8, 4.4}, {4.8, 5.7}, {3.4, 5.7}}, {}}};
  blind.area_m2 = 1.82;
  blind.target_height_m = 0.2;
  sheet.blind_zones = {blind};
  sheet.storey.text = "ground";
  sheet.situation.text = "day";
  sheet.design_sha256 = "3f9a01c2deadbeef";
  return sheet;
}

}  // namespace belvedere::drawing
