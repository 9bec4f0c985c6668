// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field tables of the catalogue (see field.h).
#pragma once

#include "design/design.h"
#include "design/field.h"
#include "design/fields_site.h"

namespace belvedere::design {

template <class V>
void describe(V& v, LensData& s) {
  v.object("lens", "A lens as a data sheet states it: one value for a fixed lens, [wide, tele] for "
                   "a varifocal one.");
  v("family", s.family,
    {.says = "projection; fitted: from the fields of view",
     .words = {"rectilinear", "stereographic", "equidistant", "equisolid", "orthographic", "fitted",
               "brown_conrady", "kannala_brandt"},
     .fallback = "rectilinear; fitted where two or more fields of view are stated"});
  v("focal_mm", s.focal_mm, {.says = "focal length", .least = 0.3, .most = 3000});
  v("hfov_deg", s.hfov_deg,
    {.says = "field of view across the width", .least = 0.05, .most = 360});
  v("vfov_deg", s.vfov_deg,
    {.says = "field of view across the height", .least = 0.05, .most = 360});
  v("dfov_deg", s.dfov_deg,
    {.says = "field of view across the diagonal", .least = 0.05, .most = 360});
  v("f_number", s.f_number, {.says = "aperture", .least = 0.5, .most = 64});
  v("focal_x_px", s.focal_x_px,
    {.says = "of a calibrated lens", .least = 0, .most = 1e6, .above = true});
  v("focal_y_px", s.focal_y_px,
    {.says = "of a calibrated lens", .least = 0, .most = 1e6, .above = true});
  v("centre_x_px", s.centre_x_px,
    {.says = "principal point of a calibrated lens", .least = -1e5, .most = 1e5});
  v("centre_y_px", s.centre_y_px,
    {.says = "principal point of a calibrated lens", .least = -1e5, .most = 1e5});
  v("coefficients", s.coefficients,
    {.says = "k1 k2 p1 p2 k3 (brown_conrady) or k1 k2 k3 k4 (kannala_brandt)", .least = -1000,
     .most = 1000});
  v("infrared_shift_um", s.infrared_shift_um,
    {.says = "how far behind the image of visible light that of infrared lies; 0: corrected",
     .least = -1000, .most = 1000});
}

template <class V>
void describe(V& v, Delivered& s) {
  v.object("delivered", "Resolved detail over pixel density.");
  v("centre", s.centre, {.says = "of the picture", .least = 0, .most = 1, .above = true});
  v("corner", s.corner, {.says = "of the picture", .least = 0, .most = 1, .above = true});
}

template <class V>
void describe(V& v, LeastLight& s) {
  v.object("least_light", "The least illuminance that a data sheet states, and at what.");
  v("lux", s.lux, {.says = "illuminance", .least = 0, .most = 10'000, .required = true});
  v("f_number", s.f_number, {.says = "at this aperture", .least = 0.5, .most = 64});
  v("exposure_s", s.exposure_s,
    {.says = "at this exposure time", .least = 0, .most = 60, .above = true});
  v("contrast", s.contrast, {.says = "for this contrast", .least = 0, .most = 1});
  v("reflectance", s.reflectance,
    {.says = "of the test target", .least = 0, .most = 1, .above = true});
}

template <class V>
void describe(V& v, ModelImager& s) {
  v.object("model_imager",
           "One imager of a housing, with the limits of its aim in the housing's frame.");
  v("slot", s.slot, {.says = "its number in the housing", .least = 1, .most = 64});
  v("pixels", s.pixels,
    {.says = "width and height", .least = 16, .most = 100'000, .required = true});
  v("pitch_um", s.pitch_um,
    {.says = "pixel pitch", .least = 0.2, .most = 100});
  v("lens", s.lens, {.says = "its lens", .required = true});
  v("delivered", s.delivered, {.says = "resolved detail over pixel density"});
  v("least_light", s.least_light, {.says = "least illuminance"});
  v("offset_m", s.offset_m,
    {.says = "of the lens from the housing's origin: outward along its own pan, right, up",
     .least = -5, .most = 5});
  v("pan_deg", s.pan_deg,
    {.says = "least and most, clockwise from the housing's zero", .least = -720, .most = 720});
  v("tilt_deg", s.tilt_deg,
    {.says = "least and most, below the base plane", .least = -180, .most = 180});
  v("roll_deg", s.roll_deg, {.says = "least and most", .least = -360, .most = 360});
  v("remote", s.remote, {.says = "aim and zoom can be set from afar"});
}

template <class V>
void describe(V& v, ModelLamp& s) {
  v.object("model_lamp", "An infrared or white lamp of a housing.");
  v("slot", s.slot, {.says = "its number in the housing", .least = 1, .most = 64});
  v("bearing_deg", s.bearing_deg,
    {.says = "of its axis, housing's frame; of one that an imager carries: to the right of that axis",
     .least = -kMostTurnDeg,
     .most = kMostTurnDeg});
  v("tilt_deg", s.tilt_deg,
    {.says = "of its axis, housing's frame; of one that an imager carries: below that axis",
     .least = -180,
     .most = 180});
  v("carried_by", s.carried_by,
    {.says = "imager slot with whose aim it turns; absent: fixed to the housing", .least = 1, .most = 64});
  v("offset_m", s.offset_m,
    {.says = "ahead, right, up in the housing's frame from its origin; of one that an imager carries: "
             "in that imager's frame from its lens",
     .least = -5, .most = 5});
  v("beam_deg", s.beam_deg,
    {.says = "full angle between the half-power directions",
     .least = 0,
     .most = 360,
     .above = true});
  v("range_m", s.range_m, {.says = "stated range on the axis", .least = 0, .most = 2000});
  v("wave_nm", s.wave_nm, {.says = "wavelength", .least = 300, .most = 2000});
  v("intensity_w_per_sr", s.intensity_w_per_sr,
    {.says = "radiant intensity", .least = 0, .most = 10'000});
}

template <class V>
void describe(V& v, Shared& s) {
  v.object("shared", "What the imagers of one housing share, and the rule that bounds it.");
  v("what", s.what,
    {.says = "what is shared", .required = true,
     .words = {"ring", "lamps", "analytics", "supply", "link", "card", "pixels"}});
  v("slots", s.slots,
    {.says = "imagers (or lamps) that share it; empty: all", .least = 1, .most = 64});
  v("rule", s.rule,
    {.says = "how", .required = true,
     .words = {"apart_deg", "at_most_n", "one_of_sets", "sum_at_most", "together"}});
  v("value", s.value, {.says = "of the rule", .least = 0, .most = 1e12});
  v("sets", s.sets, {.says = "of one_of_sets: the slots that go together", .least = 1, .most = 64});
}

template <class V>
void describe(V& v, Feed& s) {
  v.object("feed", "A way of supplying a device.");
  v("kind", s.kind, {.says = "what supplies it", .required = true, .words = {"poe", "dc", "ac"}});
  v("poe_class", s.poe_class, {.says = "of a powered device", .least = 0, .most = 8});
  v("least_v", s.least_v, {.says = "least voltage", .least = 0, .most = 1000});
  v("nominal_v", s.nominal_v, {.says = "nominal voltage", .least = 0, .most = 1000});
  v("most_v", s.most_v, {.says = "highest voltage", .least = 0, .most = 1000});
}

template <class V>
void describe(V& v, ModelPower& s) {
  v.object("power", "What a device draws.");
  v("idle_w", s.idle_w, {.says = "at rest", .least = 0, .most = 10'000});
  v("lamps_w", s.lamps_w, {.says = "added by its lamps", .least = 0, .most = 10'000});
  v("heater_w", s.heater_w, {.says = "added by its heater", .least = 0, .most = 10'000});
  v("start_w", s.start_w, {.says = "while starting", .least = 0, .most = 10'000});
  v("power_factor", s.power_factor,
    {.says = "of a load on alternating current; 1 where absent", .least = 0, .most = 1,
     .above = true});
  v("feeds", s.feeds, {.says = "ways of supplying it"});
}

template <class V>
void describe(V& v, Ratings& s) {
  v.object("ratings", "What surroundings a device stands.");
  v("ip", s.ip, {.says = "ingress protection (IEC 60529), such as IP66"});
  v("ik", s.ik, {.says = "impact protection (IEC 62262), such as IK10"});
  v("corrosion", s.corrosion, {.says = "corrosivity category (ISO 12944), such as C5"});
  v("temperature_c", s.temperature_c, {.says = "least and most", .least = -100, .most = 150});
}

template <class V>
void describe(V& v, Capacity& s) {
  v.object("capacity", "What a switch, supply, recorder, disk, card or cable states.");
  v("media", s.media,
    {.says = "of a cable", .words = {"twisted_pair", "fibre", "power"},
     .fallback = "twisted_pair; power where it states ohm_per_km alone"});
  v("current", s.current,
    {.says = "that a supply gives", .words = {"dc", "ac"}, .fallback = "dc"});
  v("screened", s.screened, {.says = "of a cable"});
  v("repeats", s.repeats, {.says = "of an injector: a new channel starts behind it (extender)"});
  v("ports", s.ports, {.says = "ports for devices", .least = 0, .most = 1000});
  v("uplinks", s.uplinks, {.says = "ports towards the network", .least = 0, .most = 1000});
  v("poe_class", s.poe_class, {.says = "highest class a port supplies", .least = 0, .most = 8});
  v("channels", s.channels, {.says = "streams a recorder takes", .least = 0, .most = 100'000});
  v("bays", s.bays, {.says = "disks a recorder takes", .least = 0, .most = 1000});
  v("port_mbps", s.port_mbps, {.says = "of a port", .least = 0, .most = 1e6});
  v("uplink_mbps", s.uplink_mbps,
    {.says = "of an uplink, or into a recorder", .least = 0, .most = 1e6});
  v("poe_budget_w", s.poe_budget_w, {.says = "of all ports together", .least = 0, .most = 100'000});
  v("out_v", s.out_v, {.says = "of a supply", .least = 0, .most = 1000});
  v("out_w", s.out_w, {.says = "of a supply", .least = 0, .most = 100'000});
  v("size_tb", s.size_tb, {.says = "of a disk or card, decimal", .least = 0, .most = 10'000});
  v("write_mb_per_s", s.write_mb_per_s, {.says = "sustained", .least = 0, .most = 100'000});
  v("workload_tb_per_year", s.workload_tb_per_year,
    {.says = "read and written", .least = 0, .most = 1e6});
  v("ohm_per_km", s.ohm_per_km, {.says = "of one conductor at 20 C", .least = 0, .most = 10'000});
  v("pixels_per_s", s.pixels_per_s,
    {.says = "encoded or analysed together", .least = 0, .most = 1e13});
  v("streams_per_imager", s.streams_per_imager, {.says = "at most", .least = 0, .most = 100});
  v("longest_m", s.longest_m, {.says = "longest run of a cable", .least = 0, .most = 200'000});
  v("battery_ah", s.battery_ah, {.says = "of a supply's battery", .least = 0, .most = 100'000});
}

template <class V>
void describe(V& v, Model& s) {
  v.object("model", "A product: a housing with its imagers, a mount, or a part of the services.");
  v.id(s.id, ObjectKind::model);
  v("title", s.title, {.says = "name in schedules"});
  v("maker", s.maker, {.says = "who makes it"});
  v("kind", s.kind, {.says = "what it is"});
  v("price", s.price, {.says = "in the design's money; of a cable, of a metre", .least = 0, .most = 1e9});
  v("mass_kg", s.mass_kg, {.says = "mass", .least = 0, .most = 10'000});
  v("ratings", s.ratings, {.says = "surroundings it stands"});
  v("power", s.power, {.says = "what it draws"});
  v("imagers", s.imagers, {.says = "of a housing"});
  v("lamps", s.lamps, {.says = "of a housing or a lamp"});
  v("shared", s.shared, {.says = "what its imagers share"});
  v("capacity", s.capacity, {.says = "of a part of the services"});
  v("reach_m", s.reach_m,
    {.says = "of a mount: from the fixing point along the base bearing", .least = -10, .most = 10});
  v("drop_m", s.drop_m,
    {.says = "of a mount: downwards from the fixing point", .least = -30, .most = 30});
  v("fits", s.fits,
    {.says = "of a mount: surfaces it can be fixed to",
     .words = {"ceiling", "wall", "pole", "corner", "beam", "column"}});
  v("takes", s.takes,
    {.says = "of a mount: housings that it takes; empty: any", .kinds = {ObjectKind::model}});
  v("carries_kg", s.carries_kg, {.says = "of a mount: at most", .least = 0, .most = 10'000});
  v("heights_m", s.heights_m,
    {.says = "of a housing: height of its fixing above the floor that its maker advises",
     .least = 0,
     .most = 200});
  v("wind_area_m2", s.wind_area_m2,
    {.says = "of a housing: largest face", .least = 0, .most = 20, .unit = "m2"});
  v("cover_radius_mm", s.cover_radius_mm,
    {.says = "of a housing: of the clear sphere (dome, bubble) about its origin that its imagers look "
             "through, and lamps within it shine through",
     .least = 10, .most = 1000});
}

template <class V>
void describe(V& v, Catalogue& s) {
  v.object("catalogue", "The products that the design chooses from.");
  v("files", s.files, {.says = "catalogue files beside the design"});
  v("models", s.models, {.says = "the design's own; they go before those of the files"});
}

}  // namespace belvedere::design
