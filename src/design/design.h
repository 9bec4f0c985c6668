// SPDX-License-Identifier: GPL-3.0-or-later
//
// design: the document. Plain structs that hold what people decided and measured, never a result:
// what the file holds and nothing else. Reading, writing and checking are in read.h, write.h and
// check.h; docs/format.md is the page for people; what a field means is said there once.
// resolve.h turns the written cameras into posed imagers; task_table.h holds the task scales.
//
// Units are in the names. Lists keep the order of the file. An optional that is absent is absent
// in the file; a member with a default is written only when it differs or was written before.
#pragma once

#include <array>
#include <compare>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "geometry/vec.h"

namespace belvedere::design {

template <class Tag>
struct Id {
  std::string text;
  auto operator<=>(const Id&) const = default;
  bool empty() const { return text.empty(); }
};
using BuildingId = Id<struct BuildingTag>;
using StoreyId = Id<struct StoreyTag>;
using WallId = Id<struct WallTag>;
using OpeningId = Id<struct OpeningTag>;
using SolidId = Id<struct SolidTag>;
using MaterialId = Id<struct MaterialTag>;
using LightId = Id<struct LightTag>;
using ZoneId = Id<struct ZoneTag>;
using MountingId = Id<struct MountingTag>;
using ContainmentId = Id<struct ContainmentTag>;
using UnderlayId = Id<struct UnderlayTag>;
using SituationId = Id<struct SituationTag>;
using RequirementId = Id<struct RequirementTag>;
using ModelId = Id<struct ModelTag>;
using HousingId = Id<struct HousingTag>;
using StreamId = Id<struct StreamTag>;
using DeviceId = Id<struct DeviceTag>;
using AnyId = Id<struct AnyTag>;  // whatever the key says it may name

using Range = std::array<double, 2>;  // [least, most], or [wide, tele]

// ---- people and paper ---------------------------------------------------------------------------
struct Person {
  AnyId id;
  std::string role, name;
  bool operator==(const Person&) const = default;
};
struct Revision {
  AnyId id;
  std::string date, by, says, sha256;
  bool operator==(const Revision&) const = default;
};
struct Attachment {
  std::string path;    // relative to the design's folder
  std::string sha256;  // of the file's bytes, lower-case hex
  bool operator==(const Attachment&) const = default;
};

// ---- site ---------------------------------------------------------------------------------------
struct Place {
  double lat_deg = 0, lon_deg = 0;
  std::string crs;                      // "EPSG:25832", empty: none
  std::array<double, 3> origin_m{};     // of the site's (0,0,0) in that system
  double north_deg = 0;                 // bearing on the drawing of true north
  std::string time_zone;                // "Europe/Berlin"
  bool operator==(const Place&) const = default;
};

// How much of a band of light passes: "passes", "blocks", or a share in (0,1) of the rays.
struct Passage {
  double share = 0;  // 0 blocks, 1 passes
  bool operator==(const Passage&) const = default;
};
struct Material {
  MaterialId id;
  std::string title;
  Passage light, infrared, mirror;  // mirror: share thrown back like a mirror
  bool operator==(const Material&) const = default;
};

struct Opening {
  OpeningId id;
  std::string title;
  double from_m = 0;   // along the wall's path from its start
  double width_m = 0;
  double sill_m = 0;   // above the storey's floor
  double head_m = 0;   // above the storey's floor
  MaterialId material;  // what fills it; empty: nothing
  bool operator==(const Opening&) const = default;
};
struct Wall {
  WallId id;
  std::string title;
  std::vector<Vec2> path;               // centre line, building coordinates
  double thickness_m = 0.1;
  std::optional<double> height_m;       // above the floor; absent: the storey's height
  double base_m = 0;                    // above the floor (a parapet on a kerb, a hanging beam)
  MaterialId material;                  // empty: blocks
  std::vector<Opening> openings;
  bool operator==(const Wall&) const = default;
};
// What a device has to stand where it hangs; of a storey, or of one housing instead.
struct Surroundings {
  std::string place;                    // "indoors", "sheltered", "open"
  std::optional<Range> temperature_c;   // least and most of the air over the years
  std::string corrosion;                // ISO 12944 category of the place, such as C3
  std::optional<double> wind_mps;       // gust that is designed for
  std::optional<double> reach_m;        // of hands above the floor
  bool operator==(const Surroundings&) const = default;
};
struct Storey {
  StoreyId id;
  std::string title;
  double floor_m = 0;                   // finished floor, site z
  double slab_m = 0.2;                  // thickness of the floor slab, below floor_m; 0: none
  double height_m = 3.0;                // floor to the underside of what is above
  double roof_m = 0;                    // thickness of a slab on top (last storey); 0: open
  std::vector<Vec2> outline;            // of the slab, building coordinates
  std::vector<std::vector<Vec2>> voids; // stair wells and atria cut out of the slab
  std::vector<Wall> walls;
  std::optional<Surroundings> surroundings;
  bool operator==(const Storey&) const = default;
};
struct Building {
  BuildingId id;
  std::string title;
  Vec2 origin_m;                        // of building coordinates, on the site
  double turn_deg = 0;                  // clockwise, site from building
  std::vector<Storey> storeys;
  bool operator==(const Building&) const = default;
};

enum class SolidKind {
  stock, column, counter, furniture, ramp, stair, beam, canopy, vehicle, foliage, sign, mesh, other
};
// A prism over an outline, from base to top, with a sloped top if `slope` is given; or a mesh file.
struct Slope {
  double toward_deg = 0;   // bearing on the site in which the top rises
  double rise_m = 0;       // over the whole extent of the outline in that bearing; top_m is its low end
  bool operator==(const Slope&) const = default;
};
struct Solid {
  SolidId id;
  std::string title;
  StoreyId storey;                       // whose floor base_m and top_m count from; empty: site z = 0
  SolidKind kind = SolidKind::other;
  std::vector<Vec2> outline;             // site coordinates
  std::optional<Attachment> file;        // OBJ or glTF, metres; with place_m and turn_deg
  std::optional<Vec3> place_m;           // of the file's origin, above the storey's floor
  double turn_deg = 0;                   // of the file, clockwise
  double base_m = 0, top_m = 0;          // above the storey's floor
  std::optional<Slope> slope;
  MaterialId material;                   // empty: blocks
  bool operator==(const Solid&) const = default;
};
struct Terrain {
  AnyId id;
  Attachment file;                       // text grid (ESRI ASCII)
  std::optional<double> cell_m;
  MaterialId material;
  bool operator==(const Terrain&) const = default;
};

struct Light {
  LightId id;
  std::string title;
  std::string kind;                      // "ambient" or "luminaire"
  std::optional<Vec3> at_m;              // site
  double pan_deg = 0, tilt_deg = 90;     // of its axis; tilt 90 shines down
  std::optional<double> lux;             // ambient
  std::optional<Attachment> photometry;
  double factor = 1;                     // dimming and maintenance
  bool operator==(const Light&) const = default;
};
struct Zone {
  ZoneId id;
  std::string title;
  StoreyId storey;                       // required
  std::vector<Vec2> outline;             // site coordinates
  std::vector<std::vector<Vec2>> holes;
  std::string use;                       // "floor" (default), "counter_top", "window", "outside"
  SolidId surface;                       // whose (sloped) top the target stands on; empty: the floor
  double base_m = 0;                     // height of what the target stands on above that surface
  bool operator==(const Zone&) const = default;
};
struct Mounting {
  MountingId id;
  std::string title, on;                 // "ceiling", "wall", "pole", "beam", "column"
  StoreyId storey;
  std::vector<Vec2> path;                // site coordinates
  Range heights_m{0, 0};                 // of the fixing point above the storey's floor
  std::vector<Range> excluded;           // stretches of the path, m from its start
  std::optional<double> width_m;         // of the pole, column or beam, as the wind meets it
  bool operator==(const Mounting&) const = default;
};
struct Containment {
  ContainmentId id;
  std::string title;
  StoreyId storey;
  std::vector<Vec3> path;
  bool operator==(const Containment&) const = default;
};
struct Pin {
  Vec2 picture;                          // in the file's own units
  Vec2 site_m;
  bool operator==(const Pin&) const = default;
};
struct Underlay {
  UnderlayId id;
  Attachment file;
  StoreyId storey;
  int page = 1;
  std::vector<Pin> pins;
  bool operator==(const Underlay&) const = default;
};
struct Site {
  std::optional<Place> place;
  std::vector<Building> buildings;
  std::vector<Solid> solids;
  std::optional<Terrain> terrain;
  std::vector<Material> materials;
  std::vector<Light> lights;
  std::vector<Zone> zones;
  std::vector<Mounting> mounting;
  std::vector<Containment> containment;
  std::vector<Underlay> underlays;
  bool operator==(const Site&) const = default;
};

// ---- situations and brief -----------------------------------------------------------------------
struct Situation {
  SituationId id;
  std::string title;
  std::optional<double> hours_per_year;
  std::vector<LightId> lights;
  std::vector<AnyId> present;            // solids and zones that hold only where they are named so
  std::vector<AnyId> absent;             // solids, walls' openings' fillings and zones taken away here
  double people_per_m2 = 0;
  bool operator==(const Situation&) const = default;
};

enum class RequirementKind { see, withhold, rule, money };
enum class TargetKind { face, face_child, face_seated, person, plate, floor, custom };
enum class JudgedOn { captured, recorded, viewed };
enum class FacingRule { each, any };
struct Target {
  TargetKind kind = TargetKind::person;
  std::optional<Range> band_m;           // above what it stands on; absent: the kind's own band
  std::optional<double> height_share;    // of the band; absent: the task row's
  std::optional<double> speed_mps;
  bool operator==(const Target&) const = default;
};
struct Facing {
  double bearing_deg = 0;                // in which the target looks
  double yaw_max_deg = 45;               // practice, editable
  double elevation_max_deg = 30;         // practice, editable
  bool operator==(const Facing&) const = default;
};
struct AfterLoss {
  AnyId of;                              // housing, "any_housing", device
  std::string still_task;
  std::optional<double> still_share;
  std::optional<int> zones_lost_max;
  bool operator==(const AfterLoss&) const = default;
};
struct Requirement {
  RequirementId id;
  std::string purpose;
  RequirementKind kind = RequirementKind::see;
  ZoneId zone;
  std::vector<Vec2> line;                // of a rule
  Target target;
  std::string task;                      // a row of the design's task table, or
  std::optional<double> px_per_m;        // the density itself: at least (see), at most (withhold)
  JudgedOn judged_on = JudgedOn::recorded;
  double share = 0.95;
  int imagers = 1;
  std::vector<Facing> facings;
  FacingRule facing_rule = FacingRule::any;
  std::vector<SituationId> situations;   // empty: every situation
  std::optional<double> largest_gap_m;
  std::optional<double> frames_per_s;
  std::optional<double> seconds_in_view;
  std::optional<double> keep_days;
  std::optional<double> amount_most;     // of kind money
  std::string rule;                      // of kind rule: "cross", "enter", "leave", "loiter"
  std::vector<AfterLoss> after_loss;
  bool operator==(const Requirement&) const = default;
};
struct TaskRow {
  std::string task;
  double px_per_m = 0;
  double height_share = 1;               // of a person's band
  bool operator==(const TaskRow&) const = default;
};
struct TaskTable {
  std::string edition = "2014";          // "2014", "2025" (IEC 62676-4) or "own"
  std::string title;                     // of an own table
  std::vector<TaskRow> rows;             // of an own table
  bool operator==(const TaskTable&) const = default;
};

// ---- catalogue ----------------------------------------------------------------------------------
// Lens words: see optics/lens.h and docs/format.md. One value: a fixed lens; two: [wide, tele].
struct LensData {
  std::string family;                    // "rectilinear" (default), "equidistant", ..., "fitted",
                                         // "brown_conrady", "kannala_brandt"
  std::vector<double> focal_mm, hfov_deg, vfov_deg, dfov_deg, f_number;
  std::optional<double> focal_x_px, focal_y_px, centre_x_px, centre_y_px;  // of a calibrated lens
  std::vector<double> coefficients;      // k1 k2 p1 p2 k3, or k1 to k4
  std::optional<double> infrared_shift_um;  // how far behind that of light infrared's image lies
  bool operator==(const LensData&) const = default;
};
struct Delivered {
  double centre = 1, corner = 1;         // resolved over pixel density
  bool operator==(const Delivered&) const = default;
};
struct LeastLight {
  double lux = 0;
  std::optional<double> f_number, exposure_s, contrast, reflectance;
  bool operator==(const LeastLight&) const = default;
};
struct ModelImager {
  int slot = 1;
  std::array<int, 2> pixels{0, 0};
  std::optional<double> pitch_um;
  LensData lens;
  Delivered delivered;
  std::optional<LeastLight> least_light;
  Vec3 offset_m;                         // of the lens: outward along the imager's own pan, right, up
  Range pan_deg{0, 0}, tilt_deg{0, 0}, roll_deg{0, 0};  // limits in the housing's frame
  bool remote = false;                   // aim and zoom can be set from afar
  bool operator==(const ModelImager&) const = default;
};
struct ModelLamp {
  int slot = 1;
  double bearing_deg = 0, tilt_deg = 0;  // housing's frame, or off the axis of the imager
  double beam_deg = 60, range_m = 30, wave_nm = 850;
  std::optional<double> intensity_w_per_sr{};
  std::optional<int> carried_by{};       // imager slot whose aim it turns with
  bool operator==(const ModelLamp&) const = default;
};
struct Shared {
  std::string what;                      // ring lamps analytics supply link card pixels
  std::vector<int> slots;
  std::string rule;                      // apart_deg at_most_n one_of_sets sum_at_most together
  std::optional<double> value;
  std::vector<std::vector<int>> sets;    // of one_of_sets
  bool operator==(const Shared&) const = default;
};
struct Feed {
  std::string kind;                      // "poe", "dc", "ac"
  std::optional<int> poe_class;
  std::optional<double> least_v, nominal_v, most_v;
  bool operator==(const Feed&) const = default;
};
struct ModelPower {
  std::optional<double> idle_w, lamps_w, heater_w, start_w;
  std::optional<double> power_factor;    // of a load on alternating current
  std::vector<Feed> feeds;
  bool operator==(const ModelPower&) const = default;
};
struct Ratings {
  std::string ip, ik, corrosion;
  std::optional<Range> temperature_c;
  bool operator==(const Ratings&) const = default;
};
// What a switch, supply, recorder, disk, card or cable states.
struct Capacity {
  std::optional<int> ports, uplinks, poe_class, channels, bays;
  std::string media;                     // of a cable: "twisted_pair", "fibre", "power"
  std::string current;                   // of a supply: "dc" (default), "ac"
  bool screened = false;                 // of a cable
  bool repeats = false;                  // of an injector: a new channel starts behind it (extender)
  std::optional<double> port_mbps, uplink_mbps, poe_budget_w, out_v, out_w, size_tb, write_mb_per_s,
      workload_tb_per_year, ohm_per_km, pixels_per_s, streams_per_imager, longest_m, battery_ah;
  bool operator==(const Capacity&) const = default;
};
enum class ModelKind {
  housing, mount, lamp, switch_, injector, supply, cable, recorder, disk, card, viewer
};
struct Model {
  ModelId id;
  std::string title, maker;
  ModelKind kind = ModelKind::housing;
  std::optional<double> price, mass_kg;
  std::optional<Ratings> ratings;
  std::optional<ModelPower> power;
  std::vector<ModelImager> imagers;
  std::vector<ModelLamp> lamps;
  std::vector<Shared> shared;
  std::optional<Capacity> capacity;
  // of a mount: from the fixing point to the housing's origin
  double reach_m = 0;                    // along the base bearing
  double drop_m = 0;                     // downwards
  std::vector<std::string> fits;         // surfaces: ceiling, wall, pole, corner, beam, column
  std::vector<ModelId> takes;            // housings that it takes; empty: any
  std::optional<double> carries_kg;      // at most
  // of a housing
  std::optional<Range> heights_m;        // of the fixing above the floor, as its maker advises
  std::optional<double> wind_area_m2;    // largest face
  bool operator==(const Model&) const = default;
};
struct Catalogue {
  std::vector<Attachment> files;         // belvedere.catalogue files; read beside the design
  std::vector<Model> models;             // the design's own
  bool operator==(const Catalogue&) const = default;
};

// ---- housings -----------------------------------------------------------------------------------
enum class Life { existing, new_, removed };
struct Mount {
  ModelId model;                         // a mount of the catalogue; empty: none (fixing = origin)
  AnyId on;                              // mounting line, wall, solid or storey
  Vec3 fixing_m;                         // site
  double base_bearing_deg = 0;           // site bearing of the housing's zero
  double base_tilt_deg = 0;              // of the base plane, forwards below the horizontal
  bool operator==(const Mount&) const = default;
};
struct Aim {
  double pan_deg = 0, tilt_deg = 0, roll_deg = 0;  // site frame
  std::optional<double> hfov_deg, focal_mm;        // of a varifocal lens, at most one
  std::optional<double> focus_m;
  double time_share = 1;
  bool operator==(const Aim&) const = default;
};
enum class ImagerMode { by_light, colour, mono };
struct HousingImager {
  int slot = 1;
  ImagerMode mode = ImagerMode::by_light;
  bool locked = false;
  double margin_px = 0;                  // captured pixels along each edge that do not count
  std::vector<std::vector<Vec2>> masks;  // outlines in shares of the picture, y down
  std::vector<Aim> aims;                 // one, or several with time shares
  std::optional<double> exposure_s;
  bool operator==(const HousingImager&) const = default;
};
struct HousingLamp {
  int slot = 1;
  std::optional<int> follows;            // imager slot when paired, 0: off; absent: with the group
  bool operator==(const HousingLamp&) const = default;
};
enum class StreamView { whole, crop, unrolled, stitched };
struct Rate {
  std::string kind;                      // "constant", "capped", "measured"
  std::optional<double> mbps;
  bool operator==(const Rate&) const = default;
};
struct Stream {
  StreamId id;
  std::vector<int> from;                 // imager slots
  StreamView view = StreamView::whole;
  std::optional<std::array<double, 4>> region;   // crop: x0 y0 x1 y1 in shares of the picture
  std::optional<std::array<double, 2>> span_deg; // unrolled and stitched: width and height in degrees
  std::array<int, 2> size_px{0, 0};
  std::optional<double> frames_per_s;
  std::string codec;
  std::optional<Rate> rate;
  std::string activity, quality;         // for an estimate of the rate: low, medium, high
  std::string delivery;                  // "unicast" (default), "multicast"
  std::vector<std::string> use;          // "recorded", "viewed", "phone", "analytics"
  bool operator==(const Stream&) const = default;
};
struct Housing {
  HousingId id;
  std::string title;
  ModelId model;
  Life life = Life::new_;
  StoreyId storey;                       // on whose plan it is drawn; empty: by height
  Mount mount;
  std::vector<HousingImager> imagers;
  std::vector<HousingLamp> lamps;
  std::vector<Stream> streams;
  ModelId card;                          // in it, shared by its imagers; empty: none
  std::string fed_by;                    // "poe", "dc", "ac": which of several supplies carries it
  std::optional<Surroundings> surroundings;  // instead of the storey's
  bool operator==(const Housing&) const = default;
};

// ---- services and the rest ----------------------------------------------------------------------
struct Setting {
  std::string key, value;
  bool operator==(const Setting&) const = default;
};
struct Disks {
  ModelId model;
  int count = 1;                         // in all, hot spares among them
  std::string raid;                      // "single", "jbod", "0", "1", "5", "6", "10", "50", "60"
  int groups = 1;                        // of 50 and 60
  int spares = 0;                        // hot spares
  double reserve = 0.1;                  // share kept free by the file system (practice)
  bool operator==(const Disks&) const = default;
};
struct Device {
  DeviceId id;
  std::string title;
  ModelId model;
  std::optional<Vec3> at_m;
  std::vector<Setting> settings;
  std::optional<Disks> disks;            // of a recorder
  std::optional<double> standby_hours;   // of a supply or switch: to be bridged by its battery
  bool operator==(const Device&) const = default;
};
struct Link {
  AnyId id, from, to;                    // housings and devices
  ModelId cable;
  std::vector<AnyId> route;              // containment
  double slack_m = 0;
  std::optional<double> temperature_c;
  bool operator==(const Link&) const = default;
};
struct Recording {
  AnyId id;
  StreamId stream;
  DeviceId device;
  double days = 0;
  std::string schedule;                  // "always", "activity", or hours "07:00-19:00"
  std::optional<double> active_share;
  bool operator==(const Recording&) const = default;
};
struct Screen {
  AnyId id;
  StreamId stream;
  DeviceId device;                       // the viewer that shows it; empty: not said
  std::array<int, 2> tile_px{0, 0};
  bool operator==(const Screen&) const = default;
};
struct Services {
  std::vector<Device> devices;
  std::vector<Link> links;
  std::vector<Recording> recording;
  std::vector<Screen> screens;
  bool operator==(const Services&) const = default;
};
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
