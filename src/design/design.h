// SPDX-License-Identifier: GPL-3.0-or-later
//
// design: the document. Plain structs that hold what people decided and measured, never a result:
// what the file holds and nothing else. Its sections have headers of their own: site.h, brief.h,
// catalogue.h, housing.h, services.h. Reading, writing and checking are in read.h, write.h and
// check.h; docs/format.md is the page for people; what a field means is said there once.
// resolve.h turns the written cameras into posed imagers; task_table.h holds the task scales.
//
// Units are in the names. Lists keep the order of the file. An optional that is absent is absent
// in the file; a member with a default is written only when it differs or was written before.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "design/brief.h"
#include "design/catalogue.h"
#include "design/housing.h"
#include "design/ids.h"
#include "design/services.h"
#include "design/site.h"
#include "geometry/vec.h"

namespace belvedere::design {

struct Tolerance {
  AnyId id, of;                          // housing, wall, "all"
  std::optional<double> aim_deg, height_m, field_share, place_m;
  std::string known_by;                  // measured, drawing, assumed
  bool operator==(const Tolerance&) const = default;
};
struct Test {
  AnyId id;
  RequirementId requirement;
  std::string imager;                    // "C1.2"
  Vec3 at_m;
  std::optional<double> height_m, expects, pass;
  std::string issued_in;                 // revision
  bool operator==(const Test&) const = default;
};
struct Reading {
  AnyId test;
  double value = 0;
  std::string unit;
  bool operator==(const Reading&) const = default;
};
struct Match {
  Vec2 picture_px;
  Vec3 at_m;
  bool operator==(const Match&) const = default;
};
// What was measured in a clip (belvedere measure).
struct ClipFigures {
  std::string codec;
  std::array<int, 2> size_px{0, 0};
  double frames_per_s = 0, seconds = 0, mean_mbps = 0;
  std::optional<double> p95_mbps;        // 95th percentile over windows of one second
  std::optional<double> gop_frames;      // frames from one key frame to the next, at most
  bool operator==(const ClipFigures&) const = default;
};
struct Evidence {
  AnyId id;
  std::string kind;                      // clip snapshot sheet light data_sheet
  Attachment file;
  std::string on, by;
  AnyId of;
  SituationId situation;
  std::vector<Reading> readings;
  std::vector<Match> matches;
  std::optional<ClipFigures> clip;       // of a clip; `of` names the stream
  bool operator==(const Evidence&) const = default;
};
struct Accepted {
  AnyId id;
  std::string code;
  AnyId of;
  std::string reason, by, on;
  bool operator==(const Accepted&) const = default;
};
struct Edit {
  AnyId id;                              // of the object that changes
  std::string key;                       // its key, for instance "mount/fixing_m"
  std::string value;                     // JSON text of the new value
  bool operator==(const Edit&) const = default;
};
struct Alternative {
  AnyId id;
  std::string name;
  std::vector<Edit> edits;
  bool operator==(const Alternative&) const = default;
};

struct Design {
  std::string title;
  TaskTable task_table;
  std::string money;                     // ISO 4217 word, "EUR"
  std::vector<Person> people;
  std::vector<Revision> revisions;
  Site site;
  std::vector<Situation> situations;     // empty: day and night
  std::vector<Requirement> brief;
  Catalogue catalogue;
  std::vector<Model> library;            // models read from catalogue.files; not written back
  std::vector<Housing> housings;
  Services services;
  std::vector<Tolerance> tolerances;
  std::vector<Test> tests;
  std::vector<Evidence> evidence;
  std::vector<Accepted> accepted;
  std::vector<Alternative> alternatives;
  bool operator==(const Design&) const = default;
};

// Look-ups by id; null when there is none.
const Model* findModel(const Design& design, const ModelId& id);   // own models, then the library
const Storey* findStorey(const Design& design, const StoreyId& id);
const Building* findBuildingOf(const Design& design, const StoreyId& id);
const Zone* findZone(const Design& design, const ZoneId& id);
const Housing* findHousing(const Design& design, const HousingId& id);
const Requirement* findRequirement(const Design& design, const RequirementId& id);
// Where an end of a link is: a housing's fixing, a device's place; nothing for a device without one.
std::optional<Vec3> placeOf(const Design& design, const AnyId& end);
const Solid* findSolid(const Design& design, const SolidId& id);
const ModelImager* findImager(const Model& model, int slot);

// The design's situations, or day and night when it names none.
std::vector<Situation> situationsOf(const Design& design);
// Those in which a requirement must hold.
std::vector<Situation> situationsOf(const Design& design, const Requirement& requirement);

// The band of heights of a target, m above what it stands on (handbook 5).
Range bandOf(const Target& target);

// The site's coordinates of a point in a building's.
Vec2 siteFromBuilding(const Building& building, Vec2 p_in_building);

}  // namespace belvedere::design
