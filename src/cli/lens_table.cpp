// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/lens_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "design/resolve.h"

namespace belvedere::cli {

namespace {
struct FittedEnd {
  std::string model;
  int slot = 1;
  const char* end = "fixed";
  optics::LensFit fit;
};

std::vector<FittedEnd> fittedEnds(const design::Design& design) {
  std::vector<FittedEnd> ends;
  std::vector<std::string> done;
  for (const design::Housing& housing : design.housings) {
    const design::Model* model = design::findModel(design, housing.model);
    if (model == nullptr || std::find(done.begin(), done.end(), model->id.text) != done.end())
      continue;
    done.push_back(model->id.text);
    for (const design::ModelImager& imager : model->imagers) {
      const std::vector<optics::LensFit> fits = design::lensFits(imager);
      for (std::size_t i = 0; i < fits.size(); ++i)
        ends.push_back({model->id.text, imager.slot,
                        fits.size() == 1 ? "fixed" : i == 0 ? "wide" : "tele", fits[i]});
    }
  }
  return ends;
}

std::string missText(const std::optional<double>& deg) {
  if (!deg) return "-";
  const std::string text = fmt::format("{:+.2f}", *deg);
  return text == "-0.00" ? "+0.00" : text;
}

Json orNull(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }
}  // namespace

std::string lensTable(const design::Design& design) {
  Table table;
  table.align = "lrlrrrrr";
  table.head = {"", "", "", "", "", "misses:", "", ""};
  table.rows.push_back({"model", "imager", "end", "F px", "k", "across", "upright", "corners"});
  const std::vector<FittedEnd> ends = fittedEnds(design);
  for (const FittedEnd& one : ends) {
    const optics::FieldOfView& miss = one.fit.residual_deg;
    table.rows.push_back({printable(one.model), fmt::format("{}", one.slot), one.end,
                          fmt::format("{:.1f}", one.fit.lens.f_px),
                          fmt::format("{:.3f}", one.fit.lens.k), missText(miss.hfov_deg),
                          missText(miss.vfov_deg), missText(miss.dfov_deg)});
  }
  if (ends.empty()) return {};
  return table.text(2) +
         wrapped("F: pixels a radian in the middle of the picture. k: family of the lens, 1 "
                 "rectilinear, 0.5 stereographic, 0 equidistant, -0.5 equisolid, -1 orthographic. "
                 "Misses: the lens's own field of view less the one that the data sheet states, "
                 "deg; - where it states none.", 2, 2);
}

Json residualJson(const optics::FieldOfView& residual_deg) {
  return {{"hfov", orNull(residual_deg.hfov_deg)},
          {"vfov", orNull(residual_deg.vfov_deg)},
          {"dfov", orNull(residual_deg.dfov_deg)}};
}

Json lensJson(const design::Design& design) {
  Json list = Json::array();
  for (const FittedEnd& one : fittedEnds(design))
    list.push_back({{"model", one.model},
                    {"slot", one.slot},
                    {"end", one.end},
                    {"focal_px", number(one.fit.lens.f_px)},
                    {"k", number(one.fit.lens.k)},
                    {"residual_deg", residualJson(one.fit.residual_deg)}});
  return list;
}

}  // namespace belvedere::cli
