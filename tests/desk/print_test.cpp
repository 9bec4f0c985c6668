// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QFileDialog>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/units.h"
#include "desk/housing_prints.h"
#include "desk/prints.h"
#include "desk_test_tools.h"
#include "picture/view.h"

namespace belvedere::desk {
namespace {

struct Shown {
  std::unique_ptr<MainWindow> window;
  edit::ImagerRef imager;
  Prints* prints = nullptr;
  PrintView* print = nullptr;
};

// A window with the print of the first imager, finely drawn.
Shown shown() {
  Shown s;
  s.window = windowWith("ferry_terminal/design.json");
  const design::Housing& housing = s.window->workspace().design().housings.front();
  s.imager = {housing.id, housing.imagers.front().slot, 0};
  s.window->workspace().select({{edit::ObjectKind::housing, housing.id.text, s.imager.slot}});
  s.prints = s.window->sheet().findChild<Prints*>("prints");
  const bool there = QTest::qWaitFor(
      [&] {
        s.print = s.prints->printOf(edit::nameOf(s.imager));
        return s.print && s.print->isVisible() && s.print->picture() &&
               s.print->picture()->step == 1;
      },
      30'000);
  if (!there) s.print = nullptr;
  return s;
}

// A place in the print's picture where the floor is seen, and what is seen there.
std::optional<std::pair<QPoint, Vec3>> floorIn(const Shown& s) {
  const QRect area = s.print->pictureArea();
  const double floor_m = s.window->workspace().shownStorey()->floor_m;
  for (double down = 0.75; down > 0.4; down -= 0.05)
    for (double across = 0.35; across < 0.7; across += 0.05) {
      const QPoint at(area.left() + static_cast<int>(across * area.width()),
                      area.top() + static_cast<int>(down * area.height()));
      const auto spot = s.print->spotAt(at);
      if (spot && std::abs(spot->at_m.z - floor_m) < 1e-6) return std::pair{at, spot->at_m};
    }
  return std::nullopt;
}

}  // namespace

class PrintTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the print shows something: more than a few tones, and no single one nearly
  // everywhere.
  void thePrintIsNotBlank() {
    const Shown s = shown();
    QVERIFY(s.print);
    const QImage image = s.print->picture()->image;
    std::map<QRgb, int> tones;
    for (int y = 0; y < image.height(); ++y)
      for (int x = 0; x < image.width(); ++x) ++tones[image.pixel(x, y)];
    QVERIFY(tones.size() > 20);
    const int most =
        std::max_element(tones.begin(), tones.end(), [](const auto& a, const auto& b) {
          return a.second < b.second;
        })->second;
    QVERIFY(most < 0.95 * image.width() * image.height());
    // And the widget shows that picture.
    const QImage grabbed = s.print->grab().toImage();
    QVERIFY(grabbed.size() == s.print->size() * grabbed.devicePixelRatio());
  }

  // Property: a click in the print marks, on the plan, the place whose image lies where the click
  // was: the imager's own lens brings it back to within 5 cm on the floor.
  void aClickMarksTheSpot() {
    const Shown s = shown();
    QVERIFY(s.print);
    const auto place = floorIn(s);
    QVERIFY(place);
    QTest::mouseClick(s.print, Qt::LeftButton, {}, place->first);
    QVERIFY(s.prints->mark());
    // Independently: the pixel's ray by the lens's inverse, down to the floor.
    const auto posed = edit::posedOf(s.window->workspace().design(), s.imager,
                                     design::JudgedOn::captured);
    const QRect area = s.print->pictureArea();
    const Vec2 px{(place->first.x() - area.left()) * posed->pixels[0] / double(area.width()),
                  (place->first.y() - area.top()) * posed->pixels[1] / double(area.height())};
    const auto ray = optics::unproject(posed->lens, px);
    QVERIFY(ray);
    const Vec3 way = transposed(posed->imager_from_site) * *ray;
    const double floor_m = s.window->workspace().shownStorey()->floor_m;
    const Vec3 at = posed->lens_m + way * ((floor_m - posed->lens_m.z) / way.z);
    QVERIFY2(norm(at.xy() - s.prints->mark()->xy()) < 0.05,
             qPrintable(QString::number(norm(at.xy() - s.prints->mark()->xy()))));
    QVERIFY(!s.window->workspace().canUndo());
  }

  // Property: a drag in the picture aims: what was under the hand is then under it.
  void aDragInThePictureAims() {
    const Shown s = shown();
    QVERIFY(s.print);
    Workspace& workspace = s.window->workspace();
    const std::string before = workspace.text();
    const auto place = floorIn(s);
    QVERIFY(place);
    const QPoint to = place->first + QPoint(30, 14);
    dragOn(s.print, place->first, to);
    QVERIFY(workspace.canUndo());
    const auto posed =
        edit::posedOf(workspace.design(), s.imager, design::JudgedOn::captured);
    const QRect area = s.print->pictureArea();
    const auto at = picture::placeOf(picture::viewOf(*posed), {area.width(), area.height()},
                                     place->second);
    QVERIFY(at);
    QVERIFY2(
        norm(*at - Vec2{1.0 * (to.x() - area.left()), 1.0 * (to.y() - area.top())}) < 2,
        qPrintable(
            QString("%1 %2").arg(at->x + area.left() - to.x()).arg(at->y + area.top() - to.y())));
    QVERIFY(QTest::qWaitFor([&] { return s.print->picture()->step == 1 &&
                                         s.print->picture()->view.view_from_site ==
                                             posed->imager_from_site; }, 30'000));
    workspace.undo();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
    QVERIFY(!workspace.canUndo());
  }

  // Property: prints that a hand has moved stay; others go with the selection; put away is away.
  void movedPrintsStay() {
    const Shown s = shown();
    QVERIFY(s.print);
    Workspace& workspace = s.window->workspace();
    const QPoint before = s.print->pos();
    const QPoint grip(20, s.print->height() - 8);
    dragOn(s.print, grip, grip + QPoint(-40, -25), {}, 1);
    QVERIFY(s.print->pos() != before);
    workspace.select({});
    const std::string name = edit::nameOf(s.imager);
    QVERIFY(s.prints->printOf(name));
    QTest::keyClick(s.print, Qt::Key_Delete);
    QVERIFY(!s.prints->printOf(name));
    workspace.select({{edit::ObjectKind::housing, s.imager.housing.text, s.imager.slot}});
    QVERIFY(s.prints->printOf(name));
    workspace.select({});
    QVERIFY(!s.prints->printOf(name));
  }

  // Regression: a print lay where the drawer opened, and ended up beside the sheet that was left.
  // One that a hand has put there too: it stays whole on the sheet, and all of it is seen.
  void theDrawerTakesNoPrintAway() {
    const Shown s = shown();
    QVERIFY(s.print);
    SheetView& sheet = s.window->sheet();
    const QPoint grip(20, s.print->height() - 8);
    dragOn(s.print, grip, grip + QPoint(sheet.width() - s.print->geometry().right() - 6, 0), {}, 1);
    QVERIFY(s.print->isPinned());
    const int wide = sheet.width();
    for (const char* page : {"lists.objects", "lists.findings"}) {
      s.window->command(page)->trigger();
      QVERIFY(QTest::qWaitFor([&] { return sheet.width() < wide - 200; }, 5000));
      QVERIFY(QTest::qWaitFor([&] { return sheet.rect().contains(s.print->geometry()); }, 5000));
      s.window->command(page)->trigger();
      QVERIFY(QTest::qWaitFor([&] { return sheet.width() == wide; }, 5000));
    }
    QVERIFY(sheet.rect().contains(s.print->geometry()));
  }

  // Property: the page of prints is saved as a PNG that holds what the page shows, at twice its
  // width; the first eight bytes are the format's (ISO/IEC 15948:2004, 5.2, PNG signature).
  void savesThePageAsPng() {
    const Shown s = shown();
    QVERIFY(s.print);
    s.window->command("aim.all_prints")->trigger();
    auto* page = s.window->findChild<HousingPrints*>("housing_prints");
    QVERIFY(page);
    QVERIFY(QTest::qWaitFor([&] { return page->isWhole(); }, 60'000));
    QTemporaryDir folder;
    const QString path = folder.filePath("prints.png");  // typed without its ending
    QTimer::singleShot(300, [&] {
      auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
      if (!dialog) return;
      dialog->findChild<QLineEdit*>("fileNameEdit")->setText(folder.filePath("prints"));
      QMetaObject::invokeMethod(dialog, "accept");
    });
    QTest::mouseClick(page->findChild<QPushButton*>("save_page"), Qt::LeftButton);
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadOnly));
    QCOMPARE(file.read(8), QByteArray("\x89PNG\r\n\x1a\n", 8));
    const QImage saved(path);
    QCOMPARE(saved.width(), 2 * page->width());
    QVERIFY(saved == page->page(2 * page->width()).convertToFormat(saved.format()));
    std::set<QRgb> tones;
    for (int y = 0; y < saved.height(); y += 3)
      for (int x = 0; x < saved.width(); x += 3) tones.insert(saved.pixel(x, y));
    QVERIFY(tones.size() > 20);
  }

  // Property: once the flat picture is fine, the print becomes a photograph by the situation's light,
  // of the same size; switched off, it is the flat picture again.
  void thePrintIsTakenByLight() {
    const Shown s = shown();
    QVERIFY(s.print);
    QVERIFY(QTest::qWaitFor([&] { return s.print->picture()->lit; }, 60'000));
    const auto lit = s.print->picture();
    QVERIFY(lit->last);
    QCOMPARE(lit->image.width(), lit->options.size[0]);
    QCOMPARE(lit->image.height(), lit->options.size[1]);
    s.prints->setLit(false);
    QVERIFY(QTest::qWaitFor(
        [&] { return !s.print->picture()->lit && s.print->picture()->step == 1; }, 30'000));
    QVERIFY(s.print->picture()->image != lit->image);
  }

  // Property: all prints of a housing stand on one page.
  void allOfAHousing() {
    const Shown s = shown();
    QVERIFY(s.print);
    s.window->command("aim.all_prints")->trigger();
    auto* page = s.window->findChild<HousingPrints*>("housing_prints");
    QVERIFY(page);
    QVERIFY(QTest::qWaitFor([&] { return page->isWhole(); }, 60'000));
    const QImage image = page->page(1200);
    std::set<QRgb> tones;
    for (int y = 0; y < image.height(); y += 3)
      for (int x = 0; x < image.width(); x += 3) tones.insert(image.pixel(x, y));
    QVERIFY(tones.size() > 20);
    for (const design::HousingImager& imager :
         s.window->workspace().selectedHousing()->imagers)
      QVERIFY(page->accessibleName().contains(
          QString::fromStdString(s.imager.housing.text + "." + std::to_string(imager.slot))));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::PrintTest)
#include "print_test.moc"
