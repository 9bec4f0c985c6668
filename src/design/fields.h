// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field tables of the services, of what follows the design, and of the document as a whole (see
// field.h). Include this one; it brings the others.
#pragma once

#include "design/design.h"
#include "design/field.h"
#include "design/fields_brief.h"
#include "design/fields_catalogue.h"
#include "design/fields_housing.h"
#include "design/fields_site.h"

namespace belvedere::design {

inline constexpr std::string_view kDesignFormat = "belvedere.design";
inline constexpr std::string_view kCatalogueFormat = "belvedere.catalogue";
inline constexpr int kDesignVersion = 1;
inline constexpr int kCatalogueVersion = 1;

template <class V>
void describe(V& v, Person& s) {
  v.object("person", "Somebody who takes part.");
  v.id(s.id, ObjectKind::person);
  v("role", s.role, {.says = "such as client, designer, installer"});
  v("name", s.name, {.says = "name", .required = true});
}

template <class V>
void describe(V& v, Revision& s) {
  v.object("revision", "An issue of the design.");
  v.id(s.id, ObjectKind::revision);
  v("date", s.date, {.says = "of issue", .required = true, .shape = Shape::date});
  v("by", s.by, {.says = "who issued it"});
  v("says", s.says, {.says = "what changed"});
  v("sha256", s.sha256, {.says = "of what was issued", .shape = Shape::sha256});
}

template <class V>
void describe(V& v, Setting& s) {
  v.object("setting", "A setting of a device.");
  v("key", s.key, {.says = "its name", .required = true});
  v("value", s.value, {.says = "its value, as text", .required = true});
}

template <class V>
void describe(V& v, Disks& s) {
  v.object("disks", "The disks of a recorder.");
  v("model", s.model, {.says = "of the catalogue", .required = true, .kinds = {ObjectKind::model}});
  v("count", s.count, {.says = "in all, hot spares among them", .least = 1, .most = 1000});
  v("raid", s.raid,
    {.says = "how they are joined",
     .words = {"single", "jbod", "0", "1", "5", "6", "10", "50", "60"},
     .fallback = "jbod"});
  v("groups", s.groups, {.says = "of raid 50 and 60", .least = 1, .most = 100});
  v("spares", s.spares, {.says = "hot spares", .least = 0, .most = 100});
  v("reserve", s.reserve,
    {.says = "share that the file system keeps free (practice)", .least = 0, .most = 0.9});
}

template <class V>
void describe(V& v, Device& s) {
  v.object("device", "A switch, supply, recorder, disk or other part of the services.");
  v.id(s.id, ObjectKind::device);
  v("title", s.title, {.says = "name in schedules"});
  v("model", s.model, {.says = "of the catalogue", .required = true, .kinds = {ObjectKind::model}});
  v("at_m", s.at_m, {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM});
  v("settings", s.settings, {.says = "as set"});
  v("disks", s.disks, {.says = "of a recorder"});
  v("standby_hours", s.standby_hours,
    {.says = "of a supply or switch: to be bridged by its battery", .least = 0, .most = 1000,
     .unit = "h"});
}

template <class V>
void describe(V& v, Link& s) {
  v.object("link", "A cable between two parts.");
  v.id(s.id, ObjectKind::link);
  v("from", s.from,
    {.says = "one end", .required = true, .kinds = {ObjectKind::housing, ObjectKind::device}});
  v("to", s.to,
    {.says = "other end", .required = true, .kinds = {ObjectKind::housing, ObjectKind::device}});
  v("cable", s.cable,
    {.says = "a cable of the catalogue", .kinds = {ObjectKind::model}, .fallback = "not chosen"});
  v("route", s.route, {.says = "along these", .kinds = {ObjectKind::containment}});
  v("path", s.path,
    {.says = "its own way, which wins over a route: where it bends between its ends, site "
             "coordinates; empty: the way is found",
     .least = -kMostSiteM, .most = kMostSiteM, .unit = "m"});
  v("slack_m", s.slack_m, {.says = "added to the computed length", .least = 0, .most = 1000});
  v("temperature_c", s.temperature_c, {.says = "mean along the cable", .least = -60, .most = 120});
}

template <class V>
void describe(V& v, Recording& s) {
  v.object("recording", "Which stream is kept where, and how long.");
  v.id(s.id, ObjectKind::recording);
  v("stream", s.stream, {.says = "which", .required = true, .kinds = {ObjectKind::stream}});
  v("device", s.device,
    {.says = "where", .kinds = {ObjectKind::device}, .fallback = "the housing's card"});
  v("days", s.days, {.says = "how long", .least = 0, .most = 3660, .required = true});
  v("schedule", s.schedule,
    {.says = "always, activity, or hours such as 07:00-19:00", .fallback = "always"});
  v("active_share", s.active_share,
    {.says = "of the time, when by activity; of the hours, when by hours", .least = 0, .most = 1});
}

template <class V>
void describe(V& v, Screen& s) {
  v.object("screen", "A tile on an operator's screen.");
  v.id(s.id, ObjectKind::screen);
  v("stream", s.stream, {.says = "what it shows", .required = true, .kinds = {ObjectKind::stream}});
  v("device", s.device,
    {.says = "the viewer that shows it", .kinds = {ObjectKind::device}, .fallback = "not said"});
  v("tile_px", s.tile_px,
    {.says = "width and height", .least = 16, .most = 100'000, .required = true});
}

template <class V>
void describe(V& v, Services& s) {
  v.object("services", "How pictures are carried, powered and kept.");
  v("devices", s.devices, {.says = "switches, supplies, recorders"});
  v("links", s.links, {.says = "cables"});
  v("recording", s.recording, {.says = "what is kept where"});
  v("screens", s.screens, {.says = "what is shown where"});
}

template <class V>
void describe(V& v, Tolerance& s) {
  v.object("tolerance", "How well something will be known or hung.");
  v.id(s.id, ObjectKind::tolerance);
  v("of", s.of,
    {.says = "of what", .required = true, .words = {"all"},
     .kinds = {ObjectKind::housing, ObjectKind::wall, ObjectKind::solid, ObjectKind::storey,
               ObjectKind::building}});
  v("aim_deg", s.aim_deg, {.says = "of pan and tilt", .least = 0, .most = 90});
  v("height_m", s.height_m, {.says = "of the lens", .least = 0, .most = 10});
  v("field_share", s.field_share, {.says = "of the field of view", .least = 0, .most = 1});
  v("place_m", s.place_m, {.says = "in plan", .least = 0, .most = 10});
  v("known_by", s.known_by,
    {.says = "where the figure comes from", .words = {"measured", "drawing", "assumed"},
     .fallback = "assumed"});
}

template <class V>
void describe(V& v, Test& s) {
  v.object("test", "A point that is tried on site.");
  v.id(s.id, ObjectKind::test);
  v("requirement", s.requirement,
    {.says = "which it tries", .required = true, .kinds = {ObjectKind::requirement}});
  v("imager", s.imager, {.says = "housing and slot, such as C1.2", .fallback = "any"});
  v("at_m", s.at_m,
    {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM, .required = true});
  v("height_m", s.height_m, {.says = "of the target above the floor", .least = -5, .most = 50});
  v("expects", s.expects, {.says = "the computed value", .least = 0, .most = 1e6});
  v("pass", s.pass, {.says = "least value that passes", .least = 0, .most = 1e6});
  v("issued_in", s.issued_in,
    {.says = "id of a revision", .fallback = "not issued"});
}

template <class V>
void describe(V& v, Reading& s) {
  v.object("reading", "What was read at a test.");
  v("test", s.test, {.says = "at which", .required = true, .kinds = {ObjectKind::test}});
  v("value", s.value, {.says = "what was read", .required = true});
  v("unit", s.unit, {.says = "of the value"});
}

template <class V>
void describe(V& v, Match& s) {
  v.object("match", "A point of a picture and its place on the site.");
  v("picture_px", s.picture_px,
    {.says = "in the picture, y down", .least = -1e5, .most = 1e5, .required = true});
  v("at_m", s.at_m,
    {.says = "site coordinates", .least = -kMostSiteM, .most = kMostSiteM, .required = true});
}

template <class V>
void describe(V& v, ClipFigures& s) {
  v.object("clip", "What was measured in a clip.");
  v("codec", s.codec, {.says = "such as h264, hevc"});
  v("size_px", s.size_px,
    {.says = "width and height", .least = 1, .most = 100'000, .required = true});
  v("frames_per_s", s.frames_per_s, {.says = "frame rate", .least = 0, .most = 1000});
  v("seconds", s.seconds, {.says = "how long it is", .least = 0, .most = 1e7, .unit = "s"});
  v("mean_mbps", s.mean_mbps,
    {.says = "mean bit rate", .least = 0, .most = 10'000, .above = true, .required = true});
  v("p95_mbps", s.p95_mbps,
    {.says = "95th percentile over windows of one second", .least = 0, .most = 10'000});
  v("gop_frames", s.gop_frames,
    {.says = "frames from one key frame to the next, at most", .least = 0, .most = 1e6});
}

template <class V>
void describe(V& v, Evidence& s) {
  v.object("evidence", "What was brought back from the site or from a maker.");
  v.id(s.id, ObjectKind::evidence);
  v("kind", s.kind,
    {.says = "what it is", .required = true,
     .words = {"clip", "snapshot", "sheet", "light", "data_sheet"}});
  v("file", s.file, {.says = "the thing itself", .required = true});
  v("on", s.on, {.says = "when", .shape = Shape::date});
  v("by", s.by, {.says = "who took it"});
  v("of", s.of, {.says = "of what, such as a housing or an imager C1.2", .fallback = "the site"});
  v("situation", s.situation,
    {.says = "in which", .kinds = {ObjectKind::situation}, .fallback = "not said"});
  v("readings", s.readings, {.says = "values of a test sheet"});
  v("matches", s.matches, {.says = "matched points of a snapshot"});
  v("clip", s.clip, {.says = "figures of a clip; `of` then names the stream"});
}

template <class V>
void describe(V& v, Accepted& s) {
  v.object("accepted", "A finding that somebody has agreed to live with.");
  v.id(s.id, ObjectKind::accepted);
  v("code", s.code, {.says = "of the finding", .required = true});
  v("of", s.of, {.says = "what it speaks of", .fallback = "the design"});
  v("reason", s.reason, {.says = "why", .required = true});
  v("by", s.by, {.says = "who agreed", .required = true});
  v("on", s.on, {.says = "when", .shape = Shape::date});
}

template <class V>
void describe(V& v, Edit& s) {
  v.object("edit", "One change of an alternative.");
  v("id", s.id, {.says = "of the object that changes", .required = true});
  v("key", s.key, {.says = "its key, such as mount/fixing_m", .required = true});
  v.any("value", s.value, {.says = "the new value", .required = true});
}

template <class V>
void describe(V& v, Alternative& s) {
  v.object("alternative", "Another design, as changes to this one.");
  v.id(s.id, ObjectKind::alternative);
  v("name", s.name, {.says = "name in comparisons", .required = true});
  v("edits", s.edits, {.says = "what changes"});
}

template <class V>
void describe(V& v, Design& s) {
  v.object("design", "The document as a whole.");
  v.constant("format", kDesignFormat);
  v.constant("version", kDesignVersion);
  v("title", s.title, {.says = "of the project"});
  v("task_table", s.task_table, {.says = "which density a task asks for"});
  v("money", s.money, {.says = "currency of all prices", .shape = Shape::currency});
  v("people", s.people, {.says = "who takes part"});
  v("revisions", s.revisions, {.says = "issues of the design"});
  v("site", s.site, {.says = "what stands where"});
  v("situations", s.situations, {.says = "states of the site; empty: day and night"});
  v("brief", s.brief, {.says = "what the design must do"});
  v("catalogue", s.catalogue, {.says = "products to choose from"});
  v("housings", s.housings, {.says = "the cameras"});
  v("services", s.services, {.says = "network, power, recording"});
  v("tolerances", s.tolerances, {.says = "how well things will be known or hung"});
  v("tests", s.tests, {.says = "points that are tried on site"});
  v("evidence", s.evidence, {.says = "what was brought back"});
  v("accepted", s.accepted, {.says = "findings that are lived with"});
  v("alternatives", s.alternatives, {.says = "other designs, as changes"});
}

// A catalogue file.
struct CatalogueFile {
  std::string title;
  std::vector<Model> models;
  bool operator==(const CatalogueFile&) const = default;
};
template <class V>
void describe(V& v, CatalogueFile& s) {
  v.object("catalogue_file", "A file of products that several designs share.");
  v.constant("format", kCatalogueFormat);
  v.constant("version", kCatalogueVersion);
  v("title", s.title, {.says = "of the catalogue"});
  v("models", s.models, {.says = "products", .required = true});
}

}  // namespace belvedere::design
