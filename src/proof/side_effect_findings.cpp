// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/side_effect_findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "proof/cover_findings.h"

namespace belvedere::proof {

void SideEffects::sayAll() const {
  if (lamps.empty() || seen_by.empty()) return;
  inFrame();
  nearSurfaces();
  mirrored();
  for (const design::PosedImager& view : seen_by)
    for (Finding& found : mirroredInCovers(design, situation, lamps, {view}, turns, progress))
      sayer.say(std::move(found), view.name);
  throughGlass();
}

std::vector<light::Lamp> SideEffects::lampsOf(const design::PosedImager& view, bool own) const {
  std::vector<light::Lamp> some;
  for (const light::Lamp& lamp : lamps)
    if ((lamp.housing == view.housing) == own) some.push_back(lamp);
  return some;
}

std::string SideEffects::turnFor(const char* what, const design::PosedImager& view, const Sees& sees,
                                 const char* else_do) const {
  // What stands between decides too, and with it the situation.
  const std::string key = fmt::format("{} in {}", what, situation.id.text);
  return turnSentence(turns.of(key, design, view, lamps, sees, progress), view, else_do);
}

void SideEffects::inFrame() const {
  for (const light::LampInFrame& found : light::lampsInFrame(lamps, seen_by, solids)) {
    const design::PosedImager& view = seen_by[found.view];
    const std::vector<std::string> about{found.imager, found.lamp};
    if (sayer.said("lamp_in_frame", about, view.name)) continue;
    const std::vector<light::Lamp> others = lampsOf(view, false);
    const Sees sees = [&](const design::Design&, const design::PosedImager& turned, const std::vector<light::Lamp>&) {
      return !light::lampsInFrame(others, {turned}, solids).empty();
    };
    sayer.say({"lamp_in_frame", Severity::caution, about, {}, Quantity{found.distance_m, "m"},
               fmt::format("{} ({}): {}{} shines into its picture from {:.1f} m, at {:.0f}, {:.0f} px, with {:.1f} "
                           "times what lights a target at the lamp's range, {:.0f} deg off the lamp's axis; {}.",
                           view.name, situation.id.text, found.lamp, lamps_in, found.distance_m, found.at_px.x,
                           found.at_px.y, found.share, found.off_beam_deg,
                           turnFor("frame", view, sees, "turn or screen the lamp")),
               "9"}, view.name);
  }
}

void SideEffects::nearSurfaces() const {
  std::vector<light::Lamp> own;
  for (const light::Lamp& lamp : lamps)
    if (std::ranges::find(seen_by, lamp.housing, &design::PosedImager::housing) != seen_by.end())
      own.push_back(lamp);
  const std::vector<light::NearSurface> all = light::nearSurfaces(own, seen_by, solids);
  // Of a lamp that stays where it is while an imager turns, only who sees its spots is anew.
  const auto sees = [&](const design::Design&, const design::PosedImager& turned,
                        const std::vector<light::Lamp>& lamps_now) {
    return std::ranges::any_of(lamps_now, [&](const light::Lamp& now) {
      const auto was = std::ranges::find(own, now.name, &light::Lamp::name);
      const bool stays = was != own.end() && norm(was->at_m - now.at_m) < 1e-9 && norm(was->axis - now.axis) < 1e-9;
      if (!stays) {
        const std::vector<light::NearSurface> anew = light::nearSurfaces({now}, {turned}, solids);
        return std::ranges::any_of(anew, [](const auto& surface) { return !surface.in_picture_of.empty(); });
      }
      return std::ranges::any_of(all, [&](const light::NearSurface& surface) {
        return surface.lamp == now.name && light::brightestInPicture(surface.spots, turned, solids, now.band());
      });
    });
  };
  for (const light::NearSurface& found : all)
    for (const light::SpotInPicture& seen : found.in_picture_of) {
      const design::PosedImager& view = seen_by[seen.view];
      const std::vector<std::string> about{seen.imager, found.lamp, found.of};
      if (sayer.said("lamp_near_surface", about, view.name)) continue;
      sayer.say({"lamp_near_surface", Severity::caution, about, Quantity{light::kNearM, "m"},
                 Quantity{found.nearest_m, "m"},
                 fmt::format("{} ({}): sees {} lit from near by: it stands {:.2f} m off {} in its beam, and shows "
                             "at {:.0f}, {:.0f} px, {:.2f} m off the lamp, with {:.0f} times what lights a target at "
                             "the lamp's range; {}.",
                             view.name, situation.id.text, found.of, found.nearest_m, found.lamp, seen.at_px.x,
                             seen.at_px.y, seen.spot.distance_m, seen.spot.share,
                             turnFor("near", view, sees, "move the housing or the lamp off it, or switch the lamp off")),
                 "9"}, view.name);
    }
}

void SideEffects::mirrored() const {
  for (const light::Mirrored& found : light::mirroredLamps(design, lamps, seen_by, solids)) {
    const design::PosedImager& view = seen_by[found.view];
    const std::vector<std::string> about{found.imager, found.lamp, found.of};
    if (sayer.said("lamp_mirrored", about, view.name)) continue;
    const std::vector<light::Lamp> others = lampsOf(view, false);
    const Sees sees = [&](const design::Design&, const design::PosedImager& turned, const std::vector<light::Lamp>& own) {
      std::vector<light::Lamp> now = others;
      now.insert(now.end(), own.begin(), own.end());
      return !light::mirroredLamps(design, now, {turned}, solids).empty();
    };
    sayer.say({"lamp_mirrored", Severity::caution, about, {}, Quantity{found.path_m, "m"},
               fmt::format("{} ({}): sees {} mirrored in {}, at {:.0f}, {:.0f} px: {:.1f} m there and back, {:.0f} % "
                           "thrown back, with {:.1f} times what lights a target at the lamp's range; {}.",
                           view.name, situation.id.text, found.lamp, found.of, found.at_px.x, found.at_px.y,
                           found.path_m, 100 * found.thrown_back, found.share,
                           turnFor("mirror", view, sees, "move it aside, or light the scene from elsewhere")),
               "6"}, view.name);
  }
}

void SideEffects::throughGlass() const {
  for (const light::ThroughGlass& found : light::lampsThroughGlass(design, lamps, seen_by, solids)) {
    const std::string& name = seen_by[found.view].name;
    sayer.say({"lamp_behind_glass", Severity::caution, {found.imager, found.of}, {},
               Quantity{100 * found.infrared_twice, "%"},
               fmt::format("{} ({}): looks through {} {:.2f} m ahead with a lamp of its own on: the pane lights up, "
                           "and {:.0f} % of the infrared is left there and back. Hang it on the other side, or "
                           "switch its lamps off and light that side from there.",
                           name, situation.id.text, found.of, found.distance_m, 100 * found.infrared_twice),
               "6"}, name);
  }
}

}  // namespace belvedere::proof
