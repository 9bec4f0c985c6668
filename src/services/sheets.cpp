// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "design/resolve.h"
#include "optics/lens_fit.h"
#include "services/poe.h"
#include "services/power.h"
#include "services/surroundings.h"

namespace belvedere::services {
namespace {

using design::Model;

void lenses(const Model& model, std::vector<Finding>& out) {
  for (const design::ModelImager& imager : model.imagers) {
    const std::string name = fmt::format("{}.{}", model.id.text, imager.slot);
    const std::vector<optics::LensFit> fits = design::lensFits(imager);
    for (std::size_t i = 0; i < fits.size(); ++i) {
      const char* end = fits.size() == 1 ? "" : i == 0 ? " at the wide end" : " at the tele end";
      const double miss = fits[i].largest_residual_deg();
      if (miss > kFieldMissDeg)
        out.push_back({"lens_residual", Severity::note, {model.id.text}, Quantity{kFieldMissDeg, "deg"},
                       Quantity{miss, "deg"},
                       fmt::format("{}{}: its stated fields of view do not fit one lens; the one that "
                                   "is used misses one of them by {:.2f} deg.", name, end, miss),
                       "3"});
      // F by focal length and pitch, against F by the fields of view.
      if (!imager.pitch_um || i >= imager.lens.focal_mm.size() || imager.lens.hfov_deg.empty()) continue;
      const double by_focal_px = imager.lens.focal_mm[i] * 1000 / *imager.pitch_um;
      const double off = by_focal_px / fits[i].lens.f_px - 1;
      if (std::abs(off) > kFocalMissShare)
        out.push_back({"focal_contradicts_field", Severity::note, {model.id.text},
                       Quantity{fits[i].lens.f_px, "px"}, Quantity{by_focal_px, "px"},
                       fmt::format("{}{}: focal length and pixel pitch make F {:.0f} px, its field of "
                                   "view {:.0f} px ({:+.0f} %). The field of view is used.", name, end,
                                   by_focal_px, fits[i].lens.f_px, 100 * off),
                       "3"});
    }
  }
}

void power(const Model& model, std::vector<Finding>& out) {
  if (!model.power) return;
  const design::ModelPower& p = *model.power;
  const std::optional<Watts> draw = drawOf(model);
  const double most = draw ? *std::ranges::max_element(*draw) : 0;
  for (const design::Feed& feed : p.feeds) {
    if (feed.poe_class && p.idle_w && most > poeClass(*feed.poe_class).device_w + 1e-9)
      out.push_back({"class_contradicts_draw", Severity::caution, {model.id.text},
                     Quantity{poeClass(*feed.poe_class).device_w, "W"}, Quantity{most, "W"},
                     fmt::format("{}: class {} lets it draw {:g} W, and its stated figures come to {:.1f} "
                                 "W. The larger is used; with lamps and heater on, the class may not "
                                 "hold.", model.id.text, *feed.poe_class,
                                 poeClass(*feed.poe_class).device_w, most),
                     "11"});
    const auto above = [](std::optional<double> low, std::optional<double> high) {
      return low && high && *low > *high;
    };
    if (above(feed.least_v, feed.nominal_v) || above(feed.nominal_v, feed.most_v))
      out.push_back({"volts_out_of_order", Severity::caution, {model.id.text}, {}, {},
                     fmt::format("{}: the nominal voltage of a feed ({}) lies outside its own least and "
                                 "most. The least is what is judged by.", model.id.text, feed.kind),
                     "11"});
  }
  if (p.start_w && p.idle_w && *p.start_w < *p.idle_w)
    out.push_back({"start_below_rest", Severity::note, {model.id.text}, Quantity{*p.idle_w, "W"},
                   Quantity{*p.start_w, "W"},
                   fmt::format("{}: draws {:g} W while it starts and {:g} W at rest, it says. The larger "
                               "is used.", model.id.text, *p.start_w, *p.idle_w),
                   "11"});
}

void codes(const Model& model, std::vector<Finding>& out) {
  if (!model.ratings) return;
  const std::string& ip = model.ratings->ip;
  const bool dips = ipCovers(ip, "IP67") || ipCovers(ip, "IP68");
  if (dips && !ipCovers(ip, "IP65"))
    out.push_back({"ip_without_jets", Severity::note, {model.id.text}, {}, {},
                   fmt::format("{}: {} stands immersion and says nothing of jets. It is not counted as "
                               "IP65 or IP66.", model.id.text, ip),
                   "14"});
}

}  // namespace

std::vector<Finding> sheetFindings(std::span<const Model> models) {
  std::vector<Finding> out;
  for (const Model& model : models) {
    lenses(model, out);
    power(model, out);
    codes(model, out);
  }
  return out;
}

}  // namespace belvedere::services
