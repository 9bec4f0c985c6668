// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/resolve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/problem.h"
#include "base/units.h"
#include "design/degrees.h"
#include "design/lens_setting.h"
#include "optics/trig.h"

namespace belvedere::design {
namespace {

namespace trig = optics::trig;

// The angle of (along, across) from `along` towards `across`, degrees in (-180, 180].
double angleDeg(double across, double along) {
  if (across == 0 && along == 0) return 0;
  const double deg = radToDeg(trig::angleOf(std::abs(across), along));
  return across < 0 ? -deg : deg;
}

// The housing's axes in the site's frame.
struct HousingAxes {
  Vec3 forward, right, up;
};
HousingAxes axesOf(const Mount& mount) {
  const auto [sb, cb] = sineCosine(mount.base_bearing_deg);
  const auto [st, ct] = sineCosine(mount.base_tilt_deg);
  const Vec3 forward{ct * sb, ct * cb, -st}, right{cb, -sb, 0};
  return {forward, right, cross(right, forward)};
}

Vec3 direction(const HousingAxes& axes, PanTilt aim) {
  const auto [sp, cp] = sineCosine(aim.pan_deg);
  const auto [st, ct] = sineCosine(aim.tilt_deg);
  return axes.forward * (ct * cp) + axes.right * (ct * sp) - axes.up * st;
}
PanTilt aimOf(const HousingAxes& axes, const Vec3& dir) {
  const double f = dot(axes.forward, dir), r = dot(axes.right, dir), u = dot(axes.up, dir);
  const double level = std::sqrt(f * f + r * r);
  const bool square = level < 1e-12;
  return {square ? 0 : angleDeg(r, f), angleDeg(-u, level)};
}
constexpr HousingAxes kSiteAxes{{0, 1, 0}, {1, 0, 0}, {0, 0, 1}};

[[noreturn]] void fail(const ModelImager& imager, std::string code, std::string what,
                       std::string hint) {
  throw InputError(
      {{std::move(code), "", fmt::format("the lens of imager {}: {}", imager.slot, what),
        std::move(hint)}});
}

bool calibrated(const LensData& lens) {
  return lens.family == "brown_conrady" || lens.family == "kannala_brandt";
}

optics::Lens calibratedLens(const ModelImager& imager) {
  const LensData& data = imager.lens;
  if (!data.focal_x_px || !(*data.focal_x_px > 0))
    fail(imager, "lens_incomplete", "a calibrated lens needs focal_x_px", "state it, above 0");
  const Vec2 f_px{*data.focal_x_px, data.focal_y_px.value_or(*data.focal_x_px)};
  const Vec2 centre_px{data.centre_x_px.value_or(0.5 * imager.pixels[0]),
                       data.centre_y_px.value_or(0.5 * imager.pixels[1])};
  const bool brown = data.family == "brown_conrady";
  if (data.coefficients.size() > (brown ? 5 : 4))
    fail(imager, "lens_incomplete", "too many coefficients",
         brown ? "k1 k2 p1 p2 k3" : "k1 k2 k3 k4");
  if (brown) {
    std::array<double, 5> k{};
    std::ranges::copy(data.coefficients, k.begin());
    return optics::makeBrownConrady(f_px, centre_px, k);
  }
  std::array<double, 4> k{};
  std::ranges::copy(data.coefficients, k.begin());
  return optics::makeKannalaBrandt(f_px, centre_px, k);
}

// What a design's lens is made of, before the aim's zoom: the costly part, kept per model imager.
struct Resolved {
  optics::Lens fixed;
  std::vector<optics::LensFit> fits;
  std::optional<optics::Zoom> zoom;
};
Resolved resolved(const ModelImager& imager) {
  if (calibrated(imager.lens)) return {calibratedLens(imager), {}, {}};
  Resolved result;
  result.fits = lensFits(imager);
  result.fixed = result.fits.front().lens;
  if (result.fits.size() == 2) {
    result.zoom = optics::Zoom{result.fits[0].lens, result.fits[1].lens, {}};
    if (imager.lens.focal_mm.size() == 2)
      result.zoom->focal_mm = {imager.lens.focal_mm[0], imager.lens.focal_mm[1]};
  }
  return result;
}

double hfovOf(const optics::Lens& lens, const ModelImager& imager) {
  return optics::fieldsOfView(lens, imager.pixels).hfov_deg.value_or(0);
}

struct AtZoom {
  optics::Lens lens;
  std::optional<double> focal_mm;
  double share = 0;  // of the way from wide to tele
};
AtZoom atZoom(const Resolved& lens, const ModelImager& imager, const Aim& aim) {
  if (!lens.zoom) {
    const auto& focal = imager.lens.focal_mm;
    return {lens.fixed, focal.empty() ? std::nullopt : std::optional(focal.front()),
            0};
  }
  std::optional<double> share = 0;
  if (aim.hfov_deg) {
    share = optics::shareAtHfov(*lens.zoom, imager.pixels[0], *aim.hfov_deg);
    if (!share)
      fail(imager, "zoom_out_of_range",
           fmt::format("its zoom does not reach a horizontal field of {} deg: it has {:.2f} (wide) to "
                       "{:.2f} deg (tele)", *aim.hfov_deg, hfovOf(lens.zoom->wide, imager),
                       hfovOf(lens.zoom->tele, imager)),
           "take a field between these");
  } else if (aim.focal_mm) {
    share = optics::shareAtFocal(*lens.zoom, *aim.focal_mm);
    if (!share)
      fail(imager, "zoom_out_of_range",
           lens.zoom->focal_mm
               ? fmt::format("its zoom does not reach a focal length of {} mm: it has {:g} (wide) to "
                             "{:g} mm (tele)", *aim.focal_mm, (*lens.zoom->focal_mm)[0],
                             (*lens.zoom->focal_mm)[1])
               : fmt::format("its model states no focal lengths, so that {} mm is no place of its "
                             "zoom, of {:.2f} (wide) to {:.2f} deg (tele)", *aim.focal_mm,
                             hfovOf(lens.zoom->wide, imager), hfovOf(lens.zoom->tele, imager)),
           lens.zoom->focal_mm ? "take one between these, or state the field of view"
                               : "state hfov_deg");
  }
  return {optics::lensAtShare(*lens.zoom, *share), optics::focalAtShare(*lens.zoom, *share),
          *share};
}

// ---- streams ------------------------------------------------------------------------------------

bool has(const Stream& stream, int slot) {
  return std::ranges::find(stream.from, slot) != stream.from.end();
}

// Where an unrolled or stitched view's span lies: around the aim of the imager it comes from; of
// several imagers, around the middle of their aims (the aim of the same number, or the first).
ViewSpan spanOf(const Housing& housing, const Stream& stream, std::size_t aim) {
  std::vector<double> pans_deg;
  double least_deg = 90, most_deg = -90;
  for (const HousingImager& imager : housing.imagers) {
    if (!has(stream, imager.slot) || imager.aims.empty()) continue;
    const Aim& one = imager.aims[aim < imager.aims.size() ? aim : 0];
    pans_deg.push_back(one.pan_deg);
    least_deg = std::min(least_deg, one.tilt_deg);
    most_deg = std::max(most_deg, one.tilt_deg);
  }
  return viewSpan(middleBearingDeg(std::move(pans_deg)), 0.5 * (least_deg + most_deg),
                  *stream.span_deg);
}

// The judged picture of a posed imager through a stream, `tile` of whose pixels (share) are shown.
PosedImager through(PosedImager posed, const Housing& housing, const Stream& stream, double tile,
                    double margin_px) {
  const double width = posed.pixels[0], height = posed.pixels[1];
  Vec2 low{0, 0}, high{width, height};
  posed.stream = stream.id.text;
  if (stream.view == StreamView::crop && stream.region) {
    const auto& [x0, y0, x1, y1] = *stream.region;
    low = {x0 * width, y0 * height};
    high = {x1 * width, y1 * height};
  }
  if (stream.view == StreamView::whole || stream.view == StreamView::crop) {
    // An enlarged picture shows no more than was captured.
    posed.scale_x = std::min(1.0, tile * stream.size_px[0] / (high.x - low.x));
    posed.scale_y = std::min(1.0, tile * stream.size_px[1] / (high.y - low.y));
  } else {
    const double span_deg =
        stream.span_deg ? (*stream.span_deg)[0]
                        : std::min(360.0, posed.hfov_deg * static_cast<double>(stream.from.size()));
    posed.px_per_rad = tile * stream.size_px[0] / degToRad(span_deg);
    if (stream.span_deg) posed.span = spanOf(housing, stream, posed.aim);
  }
  posed.frame_low_px = low + Vec2{margin_px, margin_px};
  posed.frame_high_px = high - Vec2{margin_px, margin_px};
  return posed;
}

std::vector<PosedImager> judgedPictures(const Design& design, const Housing& housing,
                                        const PosedImager& captured, JudgedOn judged_on,
                                        double margin_px) {
  std::vector<PosedImager> pictures;
  if (judged_on == JudgedOn::viewed) {
    for (const Screen& screen : design.services.screens)
      for (const Stream& stream : housing.streams)
        if (screen.stream == stream.id && has(stream, captured.slot)) {
          const double tile = std::min(static_cast<double>(screen.tile_px[0]) / stream.size_px[0],
                                       static_cast<double>(screen.tile_px[1]) / stream.size_px[1]);
          pictures.push_back(through(captured, housing, stream, std::min(1.0, tile), margin_px));
        }
  }
  if (judged_on != JudgedOn::captured && pictures.empty()) {
    for (const Stream& stream : housing.streams)
      if (has(stream, captured.slot) &&
          std::ranges::find(stream.use, "recorded") != stream.use.end())
        pictures.push_back(through(captured, housing, stream, 1, margin_px));
  }
  if (pictures.empty()) pictures.push_back(captured);
  return pictures;
}

using LensCache = std::map<const ModelImager*, Resolved>;

void addHousing(const Design& design, const Housing& housing, JudgedOn judged_on, LensCache& cache,
                std::vector<PosedImager>& out) {
  const auto unknown = [&](const ModelId& id) {
    throw InputError({{"unknown_model", "",
                       fmt::format("housing {} names a model {} that is not in the catalogue",
                                   housing.id.text, id.text),
                       ""}});
  };
  const Model* model = findModel(design, housing.model);
  if (model == nullptr) unknown(housing.model);
  const Model* mount_model = nullptr;
  if (!housing.mount.model.empty()) {
    mount_model = findModel(design, housing.mount.model);
    if (mount_model == nullptr) unknown(housing.mount.model);
  }
  for (const HousingImager& written : housing.imagers) {
    const ModelImager* imager = findImager(*model, written.slot);
    if (imager == nullptr)
      throw InputError({{"unknown_slot", "",
                         fmt::format("housing {} has an imager {} that its model has not",
                                     housing.id.text, written.slot),
                         ""}});
    auto found = cache.find(imager);
    if (found == cache.end()) found = cache.emplace(imager, resolved(*imager)).first;
    for (std::size_t i = 0; i < written.aims.size(); ++i) {
      const Aim& aim = written.aims[i];
      const PanTilt in_housing = housingFromSite(housing.mount, {aim.pan_deg, aim.tilt_deg});
      const AtZoom zoomed = atZoom(found->second, *imager, aim);
      PosedImager posed;
      posed.housing = housing.id;
      posed.slot = written.slot;
      posed.imager = fmt::format("{}.{}", housing.id.text, written.slot);
      posed.name =
          written.aims.size() > 1 ? fmt::format("{} aim {}", posed.imager, i + 1) : posed.imager;
      posed.aim = i;
      posed.time_share = aim.time_share;
      posed.remote = imager->remote;
      posed.lens_m = lensPoint(housing.mount, mount_model, *imager, in_housing);
      posed.imager_from_site = imagerFromSite(aim.pan_deg, aim.tilt_deg, aim.roll_deg);
      posed.lens = zoomed.lens;
      posed.pixels = imager->pixels;
      const optics::FieldOfView field = optics::fieldsOfView(zoomed.lens, imager->pixels);
      const double widest = radToDeg(2 * optics::largestAngleRad(zoomed.lens));
      posed.hfov_deg =
          field.hfov_deg.value_or(widest);  // the picture's circle ends inside the frame
      posed.vfov_deg = field.vfov_deg.value_or(widest);
      posed.focal_mm = zoomed.focal_mm;
      posed.housing_pan_deg = in_housing.pan_deg;
      posed.housing_tilt_deg = in_housing.tilt_deg;
      posed.delivered = imager->delivered;
      posed.mode = written.mode;
      posed.widest_f_number = widestFNumber(*imager, zoomed.share);
      posed.f_number = fNumberOf(*imager, zoomed.share, written.f_number);
      posed.focus = focusOf(*imager, zoomed.lens, zoomed.share, written.f_number);
      posed.focused_at_m = aim.focus_m;
      if (imager->lens.infrared_shift_um)
        posed.infrared_shift_m = umToM(*imager->lens.infrared_shift_um);
      posed.exposure_s = written.exposure_s;
      posed.least_light = imager->least_light;
      for (const std::vector<Vec2>& mask : written.masks) {
        Ring ring;
        for (const Vec2& p : mask)
          ring.push_back({p.x * imager->pixels[0], p.y * imager->pixels[1]});
        posed.masks_px.push_back(std::move(ring));
      }
      const double margin = written.margin_px;
      posed.frame_low_px = {margin, margin};
      posed.frame_high_px = {imager->pixels[0] - margin, imager->pixels[1] - margin};
      std::vector<JudgedPicture> pictures;
      for (const JudgedOn on : {JudgedOn::captured, JudgedOn::recorded, JudgedOn::viewed})
        for (const PosedImager& picture : judgedPictures(design, housing, posed, on, margin))
          pictures.push_back({on, picture.frame_low_px, picture.frame_high_px, picture.scale_x,
                              picture.scale_y, picture.px_per_rad});
      posed.pictures = std::move(pictures);
      for (PosedImager& picture : judgedPictures(design, housing, posed, judged_on, margin))
        out.push_back(std::move(picture));
    }
  }
}

}  // namespace

Mat3 imagerFromSite(double pan_deg, double tilt_deg, double roll_deg) {
  const auto [sp, cp] = sineCosine(pan_deg);
  const auto [st, ct] = sineCosine(tilt_deg);
  const auto [sr, cr] = sineCosine(roll_deg);
  const Vec3 forward{ct * sp, ct * cp, -st}, right{cp, -sp, 0}, down = cross(forward, right);
  return {{right * cr + down * sr, down * cr - right * sr, forward}};
}

PanTilt housingFromSite(const Mount& mount, PanTilt aim_in_site) {
  if (mount.base_tilt_deg == 0)  // a turn about the vertical: nothing is lost to rounding
    return {wrap180(aim_in_site.pan_deg - mount.base_bearing_deg), aim_in_site.tilt_deg};
  return aimOf(axesOf(mount), direction(kSiteAxes, aim_in_site));
}

PanTilt siteFromHousing(const Mount& mount, PanTilt aim_in_housing) {
  if (mount.base_tilt_deg == 0)
    return {wrap180(aim_in_housing.pan_deg + mount.base_bearing_deg), aim_in_housing.tilt_deg};
  return aimOf(kSiteAxes, direction(axesOf(mount), aim_in_housing));
}

Vec3 lensPoint(const Mount& mount, const Model* mount_model, const ModelImager& imager,
               PanTilt aim_in_housing) {
  const HousingAxes axes = axesOf(mount);
  const auto [sb, cb] = sineCosine(mount.base_bearing_deg);
  const auto [sp, cp] = sineCosine(aim_in_housing.pan_deg);
  Vec3 origin = mount.fixing_m;
  if (mount_model != nullptr)
    origin = origin + Vec3{sb, cb, 0} * mount_model->reach_m - Vec3{0, 0, mount_model->drop_m};
  const Vec3 outward = axes.forward * cp + axes.right * sp;
  const Vec3 sideways = axes.right * cp - axes.forward * sp;
  return origin + outward * imager.offset_m.x + sideways * imager.offset_m.y +
         axes.up * imager.offset_m.z;
}

std::vector<optics::LensFit> lensFits(const ModelImager& imager) {
  const LensData& data = imager.lens;
  if (calibrated(data)) return {};
  const std::size_t fields = (data.hfov_deg.empty() ? 0U : 1U) + (data.vfov_deg.empty() ? 0U : 1U) +
                             (data.dfov_deg.empty() ? 0U : 1U);
  const std::vector<double>* lists[] = {&data.hfov_deg, &data.vfov_deg, &data.dfov_deg,
                                        &data.focal_mm};
  std::size_t ends = 1;
  for (const auto* list : lists) ends = std::max(ends, list->size());
  for (const auto* list : lists)
    if (ends > 2 || (!list->empty() && list->size() != ends))
      fail(imager, "lens_incomplete", "its fields of view and focal lengths differ in number",
           "one value each for a fixed lens, [wide, tele] each for a varifocal one");

  const bool fitted = data.family == "fitted" || (data.family.empty() && fields > 1);
  const double k = optics::familyK(data.family).value_or(1);
  std::vector<optics::LensFit> fits;
  for (std::size_t end = 0; end < ends; ++end) {
    const auto at = [&](const std::vector<double>& list) {
      return list.empty() ? std::nullopt : std::optional(list[end]);
    };
    const optics::FieldOfView stated{at(data.hfov_deg), at(data.vfov_deg), at(data.dfov_deg)};
    std::optional<optics::LensFit> fit;
    if (fitted) {
      fit = optics::fitFocalAndK(imager.pixels, stated);
      if (!fit)
        fail(imager, "lens_incomplete", "a fitted lens needs two fields of view below 360 deg",
             "state vfov_deg or dfov_deg beside hfov_deg, or a family");
    } else if (fields > 0) {
      fit = optics::fitFocal(imager.pixels, stated, k);
      if (!fit)
        fail(imager, "lens_incomplete", "its family does not reach the stated field of view",
             "a rectilinear lens stays under 180 deg: try equidistant, or state two fields");
    } else if (!data.focal_mm.empty() && imager.pitch_um) {
      fit = optics::LensFit{{mmToM(data.focal_mm[end]) / umToM(*imager.pitch_um),
                             k,
                             {0.5 * imager.pixels[0], 0.5 * imager.pixels[1]}},
                            {}};
    } else {
      fail(imager, "lens_incomplete", "it states no field of view",
           "state hfov_deg, or focal_mm and the imager's pitch_um");
    }
    fits.push_back(*fit);
  }
  return fits;
}

std::optional<optics::Zoom> zoomOf(const ModelImager& imager) { return resolved(imager).zoom; }

optics::Lens lensAt(const ModelImager& imager, const Aim& aim) {
  return atZoom(resolved(imager), imager, aim).lens;
}

std::vector<PosedImager> posedImagersOf(const Design& design, const Housing& housing,
                                        JudgedOn judged_on) {
  LensCache cache;
  std::vector<PosedImager> out;
  addHousing(design, housing, judged_on, cache, out);
  return out;
}

std::vector<PosedImager> posedImagers(const Design& design, JudgedOn judged_on) {
  LensCache cache;
  std::vector<PosedImager> out;
  std::vector<Problem> problems;
  for (std::size_t i = 0; i < design.housings.size(); ++i) {
    const Housing& housing = design.housings[i];
    if (housing.life == Life::removed) continue;
    try {
      addHousing(design, housing, judged_on, cache, out);
    } catch (const InputError& error) {
      for (Problem problem : error.problems()) {
        problem.where = fmt::format("/housings/{}{}", i, problem.where);
        problems.push_back(std::move(problem));
      }
    }
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return out;
}

}  // namespace belvedere::design
