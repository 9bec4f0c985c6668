// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drawing: new objects. Every function takes a usable design and gives a usable one with the object
// in it, last in its list, and what to select next. All points are in site metres, also those of
// walls and slabs, which the file keeps in building coordinates; heights count as in the file, from
// the storey's floor (a housing's fixing and a tray's path are in site coordinates with z).
//
// Throws InputError, and changes nothing, where what would come out could not be read back: a
// self-crossing outline, a zone beside its slab, an opening wider than its wall. Its problems are
// those of docs/problems.md, with pointers into the design that would have been.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

struct Added {
  design::Design design;
  ObjectRef ref;
};

// The first free id of a prefix: "W1", or "W12" where W1 to W11 are taken. No id of the design or
// of a model of its library is given again.
std::string newId(const design::Design& design, std::string_view prefix);

// A building with one storey over an outline; its coordinates are the site's. `ref` is the storey.
Added withBuilding(const design::Design& design, const std::vector<Vec2>& outline, double floor_m,
                   double height_m);
// Another storey on top of one, with its outline and height; a roof above moves up. Throws
// storey_in_the_way where its building has one above already.
Added withStoreyAbove(const design::Design& design, const design::StoreyId& below);

// A wall on a storey. height_m absent: the storey's height.
Added withWall(const design::Design& design, const design::StoreyId& storey,
               const std::vector<Vec2>& path, double thickness_m, std::optional<double> height_m);
// An opening in a wall, from_m from the start of its path (nearLine in trace.h finds it).
struct NewOpening {
  double from_m = 0, width_m = 1, sill_m = 0, head_m = 2.1;
  design::MaterialId material;  // what fills it; empty: nothing
};
Added withOpening(const design::Design& design, const design::WallId& wall,
                  const NewOpening& opening);

Added withSolid(const design::Design& design, const design::StoreyId& storey,
                design::SolidKind kind, const std::vector<Vec2>& outline, double base_m,
                double top_m);
// A zone of the floor; `use` is one of the file's words ("" is floor).
Added withZone(const design::Design& design, const design::StoreyId& storey,
               const std::vector<Vec2>& outline, const std::string& title,
               const std::string& use = {});
// A mounting line; `on`: ceiling, wall, pole, beam or column. A pole may have one point.
Added withMounting(const design::Design& design, const design::StoreyId& storey,
                   const std::string& on, const std::vector<Vec2>& path,
                   const design::Range& heights_m);
Added withContainment(const design::Design& design, const design::StoreyId& storey,
                      const std::vector<Vec3>& path);
// A cable with a way of its own: where it bends between its ends, without them; empty: the shortest
// that is found. Throws unknown_id.
design::Design withWay(const design::Design& design, const design::AnyId& link,
                       const std::vector<Vec3>& path);

// A drawing under the plan. `file` is an attachment as the file names it (design/attachment.h); it
// is not looked at here.
Added withUnderlay(const design::Design& design, const design::StoreyId& storey,
                   const design::Attachment& file, int page);
// Its pins: two or more points of the drawing (in its own units) and their places, or none. Throws
// too_few_points for one, pins_same_place where they do not scale it.
design::Design withPins(const design::Design& design, const design::UnderlayId& underlay,
                        const std::vector<design::Pin>& pins);

// A housing, with all imagers and lamps of its model, at its default aims.
struct NewHousing {
  design::ModelId model;
  design::Mount mount;      // fixing_m is the site's, with z
  design::StoreyId storey;  // on whose plan it is drawn; empty: by height
};
Added withHousing(const design::Design& design, const NewHousing& housing);
// One aim per imager of a model within its limits, as mounted: those with the same range of pan are
// spread evenly over it (a whole ring from the base bearing on), further apart where the model says
// so; kDefaultTiltDeg below the base plane or as near to it as the limits let; widest zoom.
std::vector<design::HousingImager> defaultImagers(const design::Model& model,
                                                  const design::Mount& mount);
inline constexpr double kDefaultTiltDeg = 30;  // practice, no source: a start for the hand

// A requirement for a zone: see, by a task of the design's table.
struct AddedRequirement {
  design::Design design;
  design::RequirementId id;
};
AddedRequirement withRequirement(const design::Design& design, const design::ZoneId& zone,
                                 const std::string& task, design::TargetKind target);

}  // namespace belvedere::edit
