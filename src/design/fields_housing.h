// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field tables of the housings (see field.h).
#pragma once

#include "design/design.h"
#include "design/field.h"
#include "design/fields_site.h"

namespace belvedere::design {

template <class V>
void describe(V& v, Mount& s) {
  v.object("mount", "Where and how a housing is fixed.");
  v("model", s.model,
    {.says = "a mount of the catalogue", .kinds = {ObjectKind::model},
     .fallback = "none: the housing's origin is the fixing point"});
  v("on", s.on,
    {.says = "what it is fixed to",
     .kinds = {ObjectKind::mounting, ObjectKind::wall, ObjectKind::solid, ObjectKind::storey},
     .fallback = "not said"});
  v("fixing_m", s.fixing_m,
    {.says = "fixing point, site coordinates", .least = -kMostSiteM, .most = kMostSiteM,
     .required = true});
  v("base_bearing_deg", s.base_bearing_deg,
    {.says = "site bearing of the housing's zero", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("base_tilt_deg", s.base_tilt_deg,
    {.says = "of the base plane, forwards below the horizontal", .least = -180, .most = 180});
}

template <class V>
void describe(V& v, Aim& s) {
  v.object("aim", "Where an imager looks, in the site's frame.");
  v("pan_deg", s.pan_deg,
    {.says = "bearing of the optical axis", .least = -kMostTurnDeg, .most = kMostTurnDeg,
     .required = true});
  v("tilt_deg", s.tilt_deg,
    {.says = "of the axis below the horizontal", .least = -90, .most = 90, .required = true});
  v("roll_deg", s.roll_deg,
    {.says = "clockwise seen from behind", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("hfov_deg", s.hfov_deg,
    {.says = "zoom of a varifocal lens, or", .least = 0.05, .most = 360});
  v("focal_mm", s.focal_mm, {.says = "its focal length", .least = 0.3, .most = 3000});
  v("focus_m", s.focus_m,
    {.says = "distance that is sharpest", .least = 0, .most = 100'000, .above = true});
  v("time_share", s.time_share,
    {.says = "of the time, where there are several aims", .least = 0, .most = 1});
}

template <class V>
void describe(V& v, HousingImager& s) {
  v.object("housing_imager", "One imager of a housing, as set.");
  v("slot", s.slot, {.says = "of the model", .least = 1, .most = 64});
  v("mode", s.mode, {.says = "colour, mono, or as the light asks"});
  v("locked", s.locked, {.says = "no proposal may turn it"});
  v("margin_px", s.margin_px,
    {.says = "captured pixels along each edge of what is judged that do not count", .least = 0, .most = 10'000});
  v("masks", s.masks,
    {.says = "privacy masks: outlines in shares of the picture, y down", .least = 0, .most = 1,
     .shape = Shape::outline});
  v("aims", s.aims, {.says = "one, or several with time shares", .required = true});
  v("exposure_s", s.exposure_s,
    {.says = "longest exposure time", .least = 0, .most = 60, .above = true});
  v("f_number", s.f_number,
    {.says = "to which the lens is stopped down; wider than it opens at its zoom counts for nothing",
     .least = 0.5, .most = 64, .fallback = "as wide as the lens opens"});
}

template <class V>
void describe(V& v, HousingLamp& s) {
  v.object("housing_lamp", "One lamp of a housing, as set.");
  v("slot", s.slot, {.says = "of the model", .least = 1, .most = 64});
  v("follows", s.follows,
    {.says = "imager slot when paired, 0: it stays off; absent: with the group", .least = 0, .most = 64});
}

template <class V>
void describe(V& v, Rate& s) {
  v.object("rate", "How much a stream carries.");
  v("kind", s.kind,
    {.says = "how it is known", .required = true, .words = {"constant", "capped", "measured"}});
  v("mbps", s.mbps, {.says = "bit rate", .least = 0, .most = 10'000, .above = true});
}

template <class V>
void describe(V& v, Stream& s) {
  v.object("stream", "A view that leaves the housing: whole, crop, unrolled or stitched.");
  v.id(s.id, ObjectKind::stream);
  v("from", s.from, {.says = "imager slots", .least = 1, .most = 64, .required = true});
  v("view", s.view, {.says = "what of the picture it shows"});
  v("region", s.region,
    {.says = "of a crop: x0 y0 x1 y1 in shares of the picture, y down", .least = 0, .most = 1});
  v("span_deg", s.span_deg,
    {.says = "of an unrolled or stitched view: bearings and depressions that it shows, about its aim", .least = 0, .most = 360,
     .above = true});
  v("size_px", s.size_px,
    {.says = "width and height", .least = 16, .most = 100'000, .required = true});
  v("frames_per_s", s.frames_per_s,
    {.says = "frame rate", .least = 0, .most = 1000, .above = true});
  v("codec", s.codec, {.says = "such as H.264, H.265"});
  v("rate", s.rate, {.says = "bit rate; absent: estimated"});
  v("activity", s.activity,
    {.says = "in the picture, for an estimate of the rate", .words = {"low", "medium", "high"},
     .fallback = "medium"});
  v("quality", s.quality,
    {.says = "of the picture, for an estimate of the rate", .words = {"low", "medium", "high"},
     .fallback = "medium"});
  v("delivery", s.delivery,
    {.says = "one copy for each taker, or one for all", .words = {"unicast", "multicast"},
     .fallback = "unicast"});
  v("use", s.use,
    {.says = "what it is for", .words = {"recorded", "viewed", "phone", "analytics"}});
}

template <class V>
void describe(V& v, Housing& s) {
  v.object("housing", "A camera: one housing with one cable and one or more imagers.");
  v.id(s.id, ObjectKind::housing);
  v("title", s.title, {.says = "name on drawings"});
  v("model", s.model, {.says = "of the catalogue", .required = true, .kinds = {ObjectKind::model}});
  v("life", s.life, {.says = "what happens to it"});
  v("storey", s.storey,
    {.says = "on whose plan it is drawn", .kinds = {ObjectKind::storey}, .fallback = "by height"});
  v("mount", s.mount, {.says = "where and how it is fixed", .required = true});
  v("imagers", s.imagers, {.says = "those in use; absent: all of the model's, as a group"});
  v("lamps", s.lamps, {.says = "those in use; absent: all of the model's, as a group"});
  v("streams", s.streams, {.says = "views that leave it"});
  v("card", s.card,
    {.says = "in it, shared by its imagers", .kinds = {ObjectKind::model}, .fallback = "none"});
  v("fed_by", s.fed_by,
    {.says = "which of several supplies carries it", .words = {"poe", "dc", "ac"},
     .fallback = "the only one that is linked"});
  v("surroundings", s.surroundings, {.says = "what it has to stand, instead of its storey's"});
}

}  // namespace belvedere::design
