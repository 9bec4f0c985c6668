// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands on a storey, in ink: slab and voids below everything, walls and solids above the
// zones.
#include <algorithm>

#include "drawing/sheet_parts.h"

namespace belvedere::drawing {

void paintShapes(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper,
                 const PlanShapes& shapes, Occurs& occurs) {
  const Inks& inks = sheet.inks;
  for (const PlanShape& solid : shapes.solids) {
    const Region paper = to_paper(solid.area);
    if (solid.look == Look::cut) {
      canvas.fill(paper, inks.ink);
    } else if (solid.look == Look::low) {
      canvas.outline(paper, {inks.ink, 0.22});
      occurs.low = true;
    }
  }
  for (const PlanShape& wall : shapes.walls) {
    const Region paper = to_paper(wall.area);
    if (wall.look == Look::cut) {
      canvas.fill(paper, inks.ink);
      canvas.outline(paper, {inks.ink, 0.18});  // thin walls stay visible at small scales
    } else if (wall.look == Look::low) {
      canvas.fill(paper, inks.solid);
      canvas.outline(paper, {inks.ink, 0.22});
      occurs.low = true;
    }
  }
  for (const OpeningShape& opening : shapes.openings) {
    const Vec2 a = to_paper(opening.from), b = to_paper(opening.to);
    const double length = norm(b - a);
    if (length == 0) continue;
    const Vec2 side = perpLeft(b - a) / length *
                      (0.5 * std::max(opening.thickness_m * to_paper.mm_per_m, 0.3));
    const Stroke thin{inks.ink, 0.15};
    if (!opening.door) {  // the wall below it, seen from above
      canvas.line(a + side, b + side, thin);
      canvas.line(a - side, b - side, thin);
    }
    if (opening.filled) canvas.line(a, b, {inks.ink, 0.3});
    occurs.openings = occurs.openings || opening.filled;
  }
  for (const auto* list : {&shapes.solids, &shapes.walls})
    for (const PlanShape& shape : *list)
      if (shape.look == Look::overhead) {
        canvas.outline(to_paper(shape.area), {inks.quiet, 0.15, Dash::dashed});
        occurs.overhead = true;
      }
  for (const RiseArrow& rise : shapes.rises) {
    const Vec2 a = to_paper(rise.from), b = to_paper(rise.to), d = b - a;
    if (norm(d) < 3) continue;
    const Vec2 along = d / norm(d), side = perpLeft(along);
    canvas.line(a, b, {inks.ink, 0.18});
    canvas.path({b - along * 1.8 + side * 0.7, b, b - along * 1.8 - side * 0.7}, false,
                {inks.ink, 0.18});
  }
}

void paintGround(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper,
                 const PlanShapes& shapes) {
  canvas.outline(to_paper(shapes.slab), {sheet.inks.quiet, 0.18});
  for (const Region& hole : shapes.voids) {
    const Box2 box = bounds(to_paper(hole));
    canvas.line(box.low, box.high, {sheet.inks.quiet, 0.13});
    canvas.line({box.low.x, box.high.y}, {box.high.x, box.low.y}, {sheet.inks.quiet, 0.13});
  }
  for (const PlanShape& solid : shapes.solids)
    if (solid.look == Look::low) canvas.fill(to_paper(solid.area), sheet.inks.solid);
}

}  // namespace belvedere::drawing
