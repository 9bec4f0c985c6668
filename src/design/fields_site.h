// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field tables of the site (see field.h).
#pragma once

#include "design/design.h"
#include "design/field.h"

namespace belvedere::design {

// Limits that several tables share. A site reaches 20 km each way; its map coordinates belong in
// place.origin_m. Heights count from a floor or from the site's zero.
inline constexpr double kMostSiteM = 20'000;
inline constexpr double kMostHeightM = 400;
inline constexpr double kMostTurnDeg = 360;

template <class V>
void describe(V& v, Attachment& s) {
  v.object("attachment", "A file beside the design.");
  v("path", s.path,
    {.says = "relative to the design's folder, with /", .required = true, .shape = Shape::path});
  v("sha256", s.sha256,
    {.says = "of the file's bytes", .required = true, .shape = Shape::sha256});
}

template <class V>
void describe(V& v, Place& s) {
  v.object("place", "Where on Earth the site lies.");
  v("lat_deg", s.lat_deg, {.says = "latitude", .least = -90, .most = 90, .required = true});
  v("lon_deg", s.lon_deg,
    {.says = "longitude, east positive", .least = -180, .most = 180, .required = true});
  v("crs", s.crs, {.says = "coordinate system of the map, such as EPSG:25832"});
  v("origin_m", s.origin_m,
    {.says = "the site's (0, 0, 0) in that system", .least = -1e8, .most = 1e8});
  v("north_deg", s.north_deg,
    {.says = "bearing of true north on the drawing", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("time_zone", s.time_zone, {.says = "by its name in the IANA database, such as Europe/Berlin; absent: as the longitude suggests"});
}

template <class V>
void describe(V& v, Material& s) {
  v.object("material",
           "What a wall, a filling or a solid lets pass: \"passes\", \"blocks\" or a share.");
  v.id(s.id, ObjectKind::material);
  v("title", s.title, {.says = "name on drawings"});
  v("light", s.light, {.says = "of visible light", .least = 0, .most = 1});
  v("infrared", s.infrared, {.says = "of near infrared", .least = 0, .most = 1});
  v("mirror", s.mirror, {.says = "thrown back as by a mirror", .least = 0, .most = 1});
}

template <class V>
void describe(V& v, Opening& s) {
  v.object("opening", "A door, window or gap in a wall.");
  v.id(s.id, ObjectKind::opening);
  v("title", s.title, {.says = "name on drawings"});
  v("from_m", s.from_m,
    {.says = "from the start of the wall's path to the opening", .least = 0, .most = kMostSiteM,
     .required = true});
  v("width_m", s.width_m,
    {.says = "along the wall", .least = 0, .most = 200, .above = true, .required = true});
  v("sill_m", s.sill_m, {.says = "its lower edge above the floor", .least = -20, .most = 100});
  v("head_m", s.head_m,
    {.says = "its upper edge above the floor", .least = -20, .most = 100, .required = true});
  v("material", s.material,
    {.says = "what fills it", .kinds = {ObjectKind::material}, .fallback = "nothing"});
}

template <class V>
void describe(V& v, Wall& s) {
  v.object("wall", "An upright wall along a centre line.");
  v.id(s.id, ObjectKind::wall);
  v("title", s.title, {.says = "name on drawings"});
  v("path", s.path,
    {.says = "centre line, building coordinates", .least = -kMostSiteM, .most = kMostSiteM,
     .required = true, .shape = Shape::line, .unit = "m"});
  v("thickness_m", s.thickness_m, {.says = "thickness", .least = 0, .most = 5, .above = true});
  v("height_m", s.height_m,
    {.says = "of its top above the floor; absent: the storey's height", .least = -20, .most = 100});
  v("base_m", s.base_m, {.says = "of its foot above the floor", .least = -20, .most = 100});
  v("material", s.material,
    {.says = "what it is made of", .kinds = {ObjectKind::material}, .fallback = "blocks"});
  v("openings", s.openings, {.says = "doors, windows, gaps"});
}

template <class V>
void describe(V& v, Surroundings& s) {
  v.object("surroundings", "What a device has to stand where it hangs.");
  v("place", s.place,
    {.says = "under a roof and within walls, under a roof, or neither", .required = true,
     .words = {"indoors", "sheltered", "open"}});
  v("temperature_c", s.temperature_c,
    {.says = "least and most of the air over the years", .least = -100, .most = 100});
  v("corrosion", s.corrosion,
    {.says = "corrosivity category of the place (ISO 12944)",
     .words = {"C1", "C2", "C3", "C4", "C5", "CX"}});
  v("wind_mps", s.wind_mps, {.says = "gust that is designed for", .least = 0, .most = 120});
  v("reach_m", s.reach_m,
    {.says = "of hands above the floor; 2.5 where absent (practice)", .least = 0, .most = 20});
}

template <class V>
void describe(V& v, Storey& s) {
  v.object("storey", "One floor of a building.");
  v.id(s.id, ObjectKind::storey);
  v("title", s.title, {.says = "name on drawings"});
  v("floor_m", s.floor_m,
    {.says = "finished floor, site z", .least = -kMostHeightM, .most = kMostHeightM});
  v("slab_m", s.slab_m,
    {.says = "thickness of the floor slab, below floor_m; 0: none", .least = 0, .most = 5});
  v("height_m", s.height_m,
    {.says = "floor to the underside of what is above", .least = 1, .most = 100});
  v("roof_m", s.roof_m, {.says = "thickness of a slab on top; 0: open", .least = 0, .most = 5});
  v("outline", s.outline,
    {.says = "of the slab, building coordinates", .least = -kMostSiteM, .most = kMostSiteM,
     .required = true, .shape = Shape::outline, .unit = "m"});
  v("voids", s.voids,
    {.says = "stair wells and atria cut out of the slab", .least = -kMostSiteM, .most = kMostSiteM,
     .shape = Shape::outline, .unit = "m"});
  v("walls", s.walls, {.says = "walls that stand on this floor"});
  v("surroundings", s.surroundings, {.says = "what devices on it have to stand"});
}

template <class V>
void describe(V& v, Building& s) {
  v.object("building", "A building with coordinates of its own.");
  v.id(s.id, ObjectKind::building);
  v("title", s.title, {.says = "name on drawings"});
  v("origin_m", s.origin_m,
    {.says = "of building coordinates, on the site", .least = -kMostSiteM, .most = kMostSiteM});
  v("turn_deg", s.turn_deg,
    {.says = "clockwise, site from building", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("storeys", s.storeys, {.says = "floors, lowest first"});
}

template <class V>
void describe(V& v, Slope& s) {
  v.object("slope", "How the top of a solid rises.");
  v("toward_deg", s.toward_deg,
    {.says = "bearing on the site in which it rises", .least = -kMostTurnDeg, .most = kMostTurnDeg,
     .required = true});
  v("rise_m", s.rise_m,
    {.says = "over the whole outline in that bearing; top_m is the low end",
     .least = 0,
     .most = 100,
     .required = true});
}

template <class V>
void describe(V& v, Solid& s) {
  v.object("solid", "Stock, columns, ramps, vehicles, meshes: a prism over an outline, or a file.");
  v.id(s.id, ObjectKind::solid);
  v("title", s.title, {.says = "name on drawings"});
  v("storey", s.storey,
    {.says = "whose floor the heights count from", .kinds = {ObjectKind::storey},
     .fallback = "site z = 0"});
  v("kind", s.kind, {.says = "what it is"});
  v("outline", s.outline,
    {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM,
     .shape = Shape::outline, .unit = "m"});
  v("file", s.file, {.says = "OBJ or glTF, in metres, instead of an outline"});
  v("place_m", s.place_m,
    {.says = "of the file's origin on the site, height above the storey's floor",
     .least = -kMostSiteM, .most = kMostSiteM});
  v("turn_deg", s.turn_deg,
    {.says = "of the file, clockwise", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("base_m", s.base_m, {.says = "above the floor", .least = -kMostHeightM, .most = kMostHeightM});
  v("top_m", s.top_m, {.says = "above the floor", .least = -kMostHeightM, .most = kMostHeightM});
  v("slope", s.slope, {.says = "of a ramp's or a stair's top"});
  v("material", s.material,
    {.says = "what it is made of", .kinds = {ObjectKind::material}, .fallback = "blocks"});
}

template <class V>
void describe(V& v, Terrain& s) {
  v.object("terrain", "The ground outside, as a grid of heights.");
  v.id(s.id, ObjectKind::terrain, false);
  v("file", s.file, {.says = "text grid (ESRI ASCII)", .required = true});
  v("cell_m", s.cell_m,
    {.says = "side of a cell; absent: the file's own", .least = 0, .most = 1000, .above = true});
  v("material", s.material,
    {.says = "what it is made of", .kinds = {ObjectKind::material}, .fallback = "blocks"});
}

template <class V>
void describe(V& v, Light& s) {
  v.object("light", "Light of the site: an even level, or a luminaire.");
  v.id(s.id, ObjectKind::light);
  v("title", s.title, {.says = "name on drawings"});
  v("kind", s.kind,
    {.says = "an even level everywhere, or one lamp with photometry", .required = true,
     .words = {"ambient", "luminaire"}});
  v("at_m", s.at_m, {.says = "of a luminaire, site", .least = -kMostSiteM, .most = kMostSiteM});
  v("pan_deg", s.pan_deg,
    {.says = "bearing of its axis", .least = -kMostTurnDeg, .most = kMostTurnDeg});
  v("tilt_deg", s.tilt_deg, {.says = "of its axis; 90 shines down", .least = -90, .most = 90});
  v("lux", s.lux, {.says = "of an ambient level", .least = 0, .most = 200'000});
  v("photometry", s.photometry, {.says = "LM-63 or EULUMDAT file of a luminaire"});
  v("factor", s.factor, {.says = "dimming and maintenance", .least = 0, .most = 10});
}

template <class V>
void describe(V& v, Zone& s) {
  v.object("zone", "A stretch of floor (or of what stands on it) that requirements speak of.");
  v.id(s.id, ObjectKind::zone);
  v("title", s.title, {.says = "name on drawings"});
  v("storey", s.storey,
    {.says = "on which it lies", .required = true, .kinds = {ObjectKind::storey}});
  v("outline", s.outline,
    {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM, .required = true,
     .shape = Shape::outline, .unit = "m"});
  v("holes", s.holes,
    {.says = "cut out of the outline", .least = -kMostSiteM, .most = kMostSiteM,
     .shape = Shape::outline, .unit = "m"});
  v("use", s.use,
    {.says = "what the target stands on", .words = {"floor", "counter_top", "window", "outside"},
     .fallback = "floor"});
  v("surface", s.surface,
    {.says = "solid on whose top the target stands", .kinds = {ObjectKind::solid},
     .fallback = "the floor"});
  v("base_m", s.base_m,
    {.says = "height of what the target stands on above that", .least = -20, .most = 200});
}

template <class V>
void describe(V& v, Mounting& s) {
  v.object("mounting", "A line along which cameras may be fixed.");
  v.id(s.id, ObjectKind::mounting);
  v("title", s.title, {.says = "name on drawings"});
  v("on", s.on,
    {.says = "what it runs along", .required = true,
     .words = {"ceiling", "wall", "pole", "beam", "column"}});
  v("storey", s.storey,
    {.says = "whose floor the heights count from", .kinds = {ObjectKind::storey},
     .fallback = "site z = 0"});
  v("path", s.path,
    {.says = "site coordinates; one point for a pole or column", .least = -kMostSiteM,
     .most = kMostSiteM, .required = true, .unit = "m"});
  v("heights_m", s.heights_m,
    {.says = "least and most height of the fixing point above the floor", .least = -20, .most = 200,
     .required = true});
  v("excluded", s.excluded,
    {.says = "stretches of the path, m from its start",
     .least = 0,
     .most = kMostSiteM,
     .unit = "m"});
  v("width_m", s.width_m,
    {.says = "of the pole, column or beam, as the wind meets it", .least = 0, .most = 10});
}

template <class V>
void describe(V& v, Containment& s) {
  v.object("containment", "A tray, trunking or duct that cables may follow.");
  v.id(s.id, ObjectKind::containment);
  v("title", s.title, {.says = "name on drawings"});
  v("storey", s.storey,
    {.says = "on whose plan it is drawn", .kinds = {ObjectKind::storey}, .fallback = "by height"});
  v("path", s.path,
    {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM, .required = true,
     .shape = Shape::line, .unit = "m"});
}

template <class V>
void describe(V& v, Pin& s) {
  v.object("pin", "A point of a drawing and its place on the site.");
  v("picture", s.picture, {.says = "in the file's own units", .required = true});
  v("site_m", s.site_m,
    {.says = "on the site", .least = -kMostSiteM, .most = kMostSiteM, .required = true});
}

template <class V>
void describe(V& v, Underlay& s) {
  v.object("underlay", "A drawing shown under the plan.");
  v.id(s.id, ObjectKind::underlay);
  v("file", s.file, {.says = "picture or PDF", .required = true});
  v("storey", s.storey,
    {.says = "under whose plan", .kinds = {ObjectKind::storey}, .fallback = "every plan"});
  v("page", s.page, {.says = "of the file, from 1", .least = 1, .most = 10'000});
  v("pins", s.pins, {.says = "two or more, to scale and turn it"});
}

template <class V>
void describe(V& v, Site& s) {
  v.object("site", "What stands where.");
  v("place", s.place, {.says = "where on Earth"});
  v("buildings", s.buildings, {.says = "storeys with their walls"});
  v("solids", s.solids, {.says = "whatever else stands in the way"});
  v("terrain", s.terrain, {.says = "the ground outside"});
  v("materials", s.materials, {.says = "what lets light pass"});
  v("lights", s.lights, {.says = "light of the site"});
  v("mains_hz", s.mains_hz,
    {.says = "frequency of the mains on which the lights burn: they pulse at twice that", .least = 16, .most = 70});
  v("zones", s.zones, {.says = "where something must be seen, or not seen"});
  v("mounting", s.mounting, {.says = "where cameras may be fixed"});
  v("containment", s.containment, {.says = "where cables may run"});
  v("underlays", s.underlays, {.says = "drawings under the plan"});
}

}  // namespace belvedere::design
