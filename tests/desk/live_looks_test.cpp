// SPDX-License-Identifier: GPL-3.0-or-later
//
// Previews follow what an edit does to the light: other lights, a lamp that turns with its imager,
// another stretch to be focused for.
#include "desk/live_looks.h"

#include <QtTest/QTest>

#include "design/read.h"

namespace belvedere::desk {
namespace {

constexpr const char* kYard = R"({
  "format": "belvedere.design", "version": 1, "title": "A yard",
  "site": {
    "buildings": [{"id": "b", "storeys": [{
      "id": "s", "slab_m": 0.5, "height_m": 8,
      "outline": [[-30, -30], [30, -30], [30, 30], [-30, 30]]}]}],
    "zones": [
      {"id": "near", "storey": "s", "outline": [[-1, 9], [1, 9], [1, 12], [-1, 12]]},
      {"id": "far", "storey": "s", "outline": [[-1, 20], [1, 20], [1, 25], [-1, 25]]}],
    "lights": [{"id": "glow", "kind": "ambient", "lux": 0.01}]},
  "situations": [{"id": "night", "lights": ["glow"]}],
  "brief": [
    {"id": "R1", "purpose": "see", "kind": "see", "zone": "near", "target": {"kind": "person"},
     "task": "detect"},
    {"id": "R2", "purpose": "see", "kind": "see", "zone": "far", "target": {"kind": "person"},
     "task": "detect"}],
  "catalogue": {"models": [{
    "id": "cam", "kind": "housing",
    "imagers": [{"slot": 1, "pixels": [3840, 2160], "pitch_um": 1.45,
                 "lens": {"hfov_deg": [31], "f_number": [1.4]},
                 "pan_deg": [-180, 180], "tilt_deg": [-90, 90], "roll_deg": [0, 0]}],
    "lamps": [{"slot": 1, "carried_by": 1, "range_m": 30, "beam_deg": 40}]}]},
  "housings": [{"id": "C1", "model": "cam", "mount": {"fixing_m": [0, 0, 4]},
                "imagers": [{"slot": 1, "aims": [{"pan_deg": 0, "tilt_deg": 15}]}]}]})";

}  // namespace

class LiveLooksTest : public QObject {
  Q_OBJECT

  const design::Design yard_ = design::readDesignText(kYard, {}).design;
  LiveLooks looks_;

  const proof::Question& asked(const design::Design& design) {
    looks_.setDesign(std::make_shared<const design::Design>(design), {});
    const proof::Question* question =
        looks_.questionOf(design.brief.front(), design.situations.front());
    if (!question || question->views.size() != 1 || !question->lighting) qFatal("no question");
    return *question;
  }

 private Q_SLOTS:
  void init() { looks_.clear(); }

  void otherLights() {
    QCOMPARE(asked(yard_).lighting->light.light.ambient_lux, 0.01);
    design::Design next = yard_;
    next.site.lights.front().lux = 50;
    QCOMPARE(asked(next).lighting->light.light.ambient_lux, 50.0);
  }

  void lampTurnsWithItsImager() {
    const Vec3 before = asked(yard_).lighting->light.lamps.at(0).axis;
    design::Design next = yard_;
    next.housings.front().imagers.front().aims.front().pan_deg = 90;
    const proof::Question& question = asked(next);
    const Vec3 now = question.lighting->light.lamps.at(0).axis;
    QVERIFY(norm(now - before) > 0.1);
    QVERIFY(norm(now - question.views.front().imager_from_site.row[2]) < 1e-9);
  }

  void anotherStretchToFocusFor() {
    const auto far = [&](const design::Design& design) {
      return asked(design).conditions.front().sharp.value().far_m.value_or(1e9);
    };
    const double before = far(yard_);
    design::Design next = yard_;
    next.brief.pop_back();  // nobody asks for the far zone any more
    QVERIFY(far(next) < before);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::LiveLooksTest)
#include "live_looks_test.moc"
