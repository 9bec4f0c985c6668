// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field tables of the situations and the brief (see field.h).
#pragma once

#include "design/design.h"
#include "design/field.h"
#include "design/fields_site.h"

namespace belvedere::design {

template <class V>
void describe(V& v, Situation& s) {
  v.object("situation", "A state of the site: day, night, market day, stock full, shutters down.");
  v.id(s.id, ObjectKind::situation);
  v("title", s.title, {.says = "name in reports"});
  v("hours_per_year", s.hours_per_year, {.says = "how long it lasts", .least = 0, .most = 8784});
  v("lights", s.lights, {.says = "lights that burn", .kinds = {ObjectKind::light}});
  v("present", s.present,
    {.says = "solids and zones that hold only where they are named so",
     .kinds = {ObjectKind::solid, ObjectKind::zone}});
  v("absent", s.absent,
    {.says = "solids, fillings of openings and zones that are taken away",
     .kinds = {ObjectKind::solid, ObjectKind::opening, ObjectKind::zone}});
  v("people_per_m2", s.people_per_m2, {.says = "how many stand about", .least = 0, .most = 10});
}

template <class V>
void describe(V& v, Target& s) {
  v.object("target", "What must be seen.");
  v("kind", s.kind, {.says = "each has a band of heights of its own"});
  v("band_m", s.band_m,
    {.says = "lowest and highest height above what it stands on; absent: the kind's own",
     .least = -5, .most = 50});
  v("height_share", s.height_share,
    {.says = "of the band that must be met; absent: the task's", .least = 0, .most = 1,
     .above = true});
  v("speed_mps", s.speed_mps, {.says = "how fast it moves", .least = 0, .most = 150});
}

template <class V>
void describe(V& v, Facing& s) {
  v.object("facing", "A direction in which the target looks, and how far from it still serves.");
  v("bearing_deg", s.bearing_deg,
    {.says = "in which the target looks", .least = -kMostTurnDeg, .most = kMostTurnDeg,
     .required = true});
  v("yaw_max_deg", s.yaw_max_deg,
    {.says = "largest angle sideways (practice)", .least = 0, .most = 180, .above = true});
  v("elevation_max_deg", s.elevation_max_deg,
    {.says = "largest angle up or down (practice)", .least = 0, .most = 90, .above = true});
}

template <class V>
void describe(V& v, AfterLoss& s) {
  v.object("after_loss", "What must still hold when a part has failed.");
  v("of", s.of,
    {.says = "the part that fails", .required = true, .words = {"any_housing"},
     .kinds = {ObjectKind::housing, ObjectKind::device}});
  v("still_task", s.still_task, {.says = "task that must still be met", .fallback = "the same"});
  v("still_share", s.still_share,
    {.says = "share that must still be met; absent: the same", .least = 0, .most = 1});
  v("zones_lost_max", s.zones_lost_max,
    {.says = "zones that may fall below it", .least = 0, .most = 100'000});
}

template <class V>
void describe(V& v, Requirement& s) {
  v.object("requirement", "One thing that the design must do, or must not.");
  v.id(s.id, ObjectKind::requirement);
  v("purpose", s.purpose, {.says = "why, in the client's words"});
  v("kind", s.kind,
    {.says = "see: at least; withhold: at most; rule: analytics; money: the price"});
  v("zone", s.zone, {.says = "where", .kinds = {ObjectKind::zone}, .fallback = "none"});
  v("line", s.line,
    {.says = "of a rule, site coordinates", .least = -kMostSiteM, .most = kMostSiteM,
     .shape = Shape::line, .unit = "m"});
  v("target", s.target, {.says = "what"});
  v("task", s.task, {.says = "a row of the task table, or", .fallback = "none"});
  v("px_per_m", s.px_per_m,
    {.says = "the density itself: at least (see), at most (withhold)", .least = 0, .most = 20'000,
     .above = true});
  v("judged_on", s.judged_on, {.says = "which picture is judged"});
  v("share", s.share,
    {.says = "of the zone's area, at least", .least = 0, .most = 1, .above = true});
  v("imagers", s.imagers, {.says = "that serve each point, at least", .least = 1, .most = 100});
  v("facings", s.facings, {.says = "directions in which targets look; empty: not asked"});
  v("facing_rule", s.facing_rule, {.says = "whether each of them must be served, or any"});
  v("situations", s.situations,
    {.says = "in which it must hold; empty: in every one", .kinds = {ObjectKind::situation}});
  v("largest_gap_m", s.largest_gap_m,
    {.says = "longest way across any unserved patch", .least = 0, .most = 1000});
  v("frames_per_s", s.frames_per_s,
    {.says = "at least", .least = 0, .most = 1000, .above = true});
  v("seconds_in_view", s.seconds_in_view, {.says = "at least", .least = 0, .most = 86'400});
  v("keep_days", s.keep_days, {.says = "pictures are kept, at least", .least = 0, .most = 3660});
  v("amount_most", s.amount_most,
    {.says = "of kind money: the price, at most", .least = 0, .most = 1e12});
  v("rule", s.rule,
    {.says = "of kind rule", .words = {"cross", "enter", "leave", "loiter"}, .fallback = "none"});
  v("after_loss", s.after_loss, {.says = "what must still hold when a part has failed"});
}

template <class V>
void describe(V& v, TaskRow& s) {
  v.object("task_row", "A task of an own table.");
  v("task", s.task, {.says = "its word", .required = true});
  v("px_per_m", s.px_per_m,
    {.says = "least density", .least = 0, .most = 20'000, .above = true, .required = true});
  v("height_share", s.height_share,
    {.says = "of a person's band that must be met", .least = 0, .most = 1, .above = true});
}

template <class V>
void describe(V& v, TaskTable& s) {
  v.object("task_table", "Which pixel density a task asks for.");
  v("edition", s.edition,
    {.says = "of IEC 62676-4, or the design's own", .words = {"2014", "2025", "own"}});
  v("title", s.title, {.says = "of an own table"});
  v("rows", s.rows, {.says = "of an own table, coarsest first"});
}

}  // namespace belvedere::design
