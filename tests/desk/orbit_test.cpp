// SPDX-License-Identifier: GPL-3.0-or-later
#include <QWheelEvent>

#include <cmath>
#include <set>

#include "base/units.h"
#include "desk/orbit_view.h"
#include "desk_test_tools.h"

namespace belvedere::desk {
namespace {

OrbitView* opened(MainWindow& window) {
  window.command("view.orbit")->trigger();
  auto* orbit = window.findChild<OrbitView*>("orbit");
  if (!orbit) return nullptr;
  const bool there = QTest::qWaitFor(
      [&] { return orbit->picture() && orbit->picture()->step == 1; }, 60'000);
  return there ? orbit : nullptr;
}

}  // namespace

class OrbitTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: it shows the storey, with a view volume for each of its imagers.
  void showsTheStoreyAndVolumes() {
    auto window = windowWith("ferry_terminal/design.json");
    OrbitView* orbit = opened(*window);
    QVERIFY(orbit);
    const QImage image = orbit->picture()->image;
    std::set<QRgb> tones;
    for (int y = 0; y < image.height(); y += 2)
      for (int x = 0; x < image.width(); x += 2) tones.insert(image.pixel(x, y));
    QVERIFY(tones.size() > 20);
    std::size_t imagers = 0;
    for (const design::Housing& housing : window->workspace().design().housings)
      imagers += housing.imagers.size();
    QCOMPARE(orbit->picture()->volumes.size(), imagers);
    std::size_t stretches = 0;
    for (const auto& volume : orbit->picture()->volumes) stretches += volume.size();
    QVERIFY(stretches > 0);
  }

  // Property: a drag goes round the target and stays as far; with Shift the target moves; the wheel
  // goes nearer and keeps what is under the pointer; a double click takes it as the target.
  void handsMoveTheEye() {
    auto window = windowWith("ferry_terminal/design.json");
    OrbitView* orbit = opened(*window);
    QVERIFY(orbit);
    const picture::OrbitEye start = orbit->eye();
    dragOn(orbit, {400, 300}, {460, 320});
    QVERIFY(std::abs(wrap180(orbit->eye().bearing_deg - start.bearing_deg)) > 5);
    QVERIFY(orbit->eye().elevation_deg != start.elevation_deg);
    QVERIFY(orbit->eye().target_m == start.target_m);
    QCOMPARE(orbit->eye().distance_m, start.distance_m);
    const picture::OrbitEye turned = orbit->eye();
    dragOn(orbit, {400, 300}, {440, 300}, Qt::ShiftModifier);
    QVERIFY(norm(orbit->eye().target_m - turned.target_m) > 0.1);
    QCOMPARE(orbit->eye().bearing_deg, turned.bearing_deg);
    QVERIFY(QTest::qWaitFor([&] { return orbit->picture()->step == 1; }, 30'000));
    const QPointF at(430, 330);
    const double before = orbit->eye().distance_m;
    QWheelEvent wheel(at, orbit->mapToGlobal(at), {}, {0, 240}, Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(orbit, &wheel);
    QVERIFY(orbit->eye().distance_m < before);
    QTest::qWait(500);
    const Vec3 target = orbit->eye().target_m;
    QTest::mouseDClick(orbit, Qt::LeftButton, {}, {500, 380});
    QVERIFY(norm(orbit->eye().target_m - target) > 0.01);
  }

  // Property: keys do what the hand does, and Home brings all back.
  void keysMoveTheEye() {
    auto window = windowWith("ferry_terminal/design.json");
    OrbitView* orbit = opened(*window);
    QVERIFY(orbit);
    const picture::OrbitEye start = orbit->eye();
    QTest::keyClick(orbit, Qt::Key_Left);
    QVERIFY(orbit->eye().bearing_deg != start.bearing_deg);
    QTest::keyClick(orbit, Qt::Key_Plus);
    QVERIFY(orbit->eye().distance_m < start.distance_m);
    QTest::keyClick(orbit, Qt::Key_Home);
    QVERIFY(orbit->eye() == start);
  }

  // Property: a click on a lens selects its imager; what is selected is drawn in accent.
  void aClickSelects() {
    auto window = windowWith("ferry_terminal/design.json");
    OrbitView* orbit = opened(*window);
    QVERIFY(orbit);
    const design::PosedImager& imager = window->sheet().sheet().imagers.front();
    const auto at = picture::placeOf(orbit->picture()->view, {orbit->width(), orbit->height()},
                                     imager.lens_m);
    QVERIFY(at);
    QTest::mouseClick(orbit, Qt::LeftButton, {}, {qRound(at->x), qRound(at->y)});
    QVERIFY(window->workspace().selectedHousing());
    QCOMPARE(window->workspace().selectedHousing()->id.text, imager.housing.text);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::OrbitTest)
#include "orbit_test.moc"
