// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QPushButton>

#include <algorithm>
#include <filesystem>

#include "desk/colours.h"
#include "desk/sun_page.h"
#include "desk_test_tools.h"

namespace belvedere::desk {
namespace {

SunPage* pageOf(MainWindow& window) { return window.findChild<SunPage*>("sun"); }
QString said(MainWindow& window, const char* label) {
  auto* found = window.findChild<QLabel*>(label);
  return found->isVisible() ? found->text() : QString();
}
bool waitForSun(MainWindow& window) {
  return QTest::qWaitFor(
      [&] {
        const auto now = pageOf(window)->maker().now();
        return now && now->version == window.workspace().version() &&
               now->imager == window.workspace().selectedImager() && !pageOf(window)->maker().isBusy();
      },
      60'000);
}
void selectFirstImager(Workspace& workspace, std::size_t housing = 0) {
  const design::Housing& of = workspace.design().housings[housing];
  workspace.select({{edit::ObjectKind::housing, of.id.text, of.imagers.front().slot}});
}

}  // namespace

class SunTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: the page says of the selected imager what the engine says, in words and as a chart, and
  // follows the selection.
  void thePageSaysWhatTheEngineSays() {
    auto window = windowWith("solar_farm/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.sun")->trigger();
    QVERIFY(pageOf(*window)->isVisible());
    workspace.select({});
    QVERIFY(said(*window, "sun.state").contains("Select an imager"));
    for (const std::size_t housing : {0u, 3u}) {
      selectFirstImager(workspace, housing);
      QVERIFY(waitForSun(*window));
      const design::Design& design = workspace.design();
      const auto place = proof::makePlace(design, workspace.shownSituation(), workspace.folder());
      const light::SunYear year =
          light::sunYear(*design.site.place, proof::kFindingsYear);
      const auto of = proof::sunOfImagers(design, *place, year, Progress{}, workspace.selectedImager());
      QCOMPARE(of.size(), std::size_t{1});
      const QString words = said(*window, "sun.words");
      QVERIFY2(words.contains(QString::fromStdString(proof::frameWords(year, of.front().chart))),
               qPrintable(words));
      auto* chart = window->findChild<SunChartView*>();
      QVERIFY(chart->isVisible());
      QVERIFY(chart->accessibleName().contains(QString::fromStdString(workspace.selectedImager())));
      QVERIFY(chart->accessibleDescription().contains(" h in the picture") ||
              chart->accessibleDescription().contains("never in or near the picture"));
      QVERIFY(chart->wordsAt(chart->rect().center()).contains(", "));
      QVERIFY(said(*window, "sun.state").isEmpty());
    }
  }

  // Property: of a housing with one imager it is plain whose year is meant; of one with several it is not.
  void aHousingWithOneImagerIsEnough() {
    auto window = windowWith("solar_farm/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.sun")->trigger();
    const std::vector<design::Housing>& housings = workspace.design().housings;
    const auto single = std::find_if(housings.begin(), housings.end(),
                                     [](const design::Housing& h) { return h.imagers.size() == 1; });
    const auto several = std::find_if(housings.begin(), housings.end(),
                                      [](const design::Housing& h) { return h.imagers.size() > 1; });
    QVERIFY(single != housings.end());
    workspace.select({{edit::ObjectKind::housing, single->id.text, 0}});
    QVERIFY(!said(*window, "sun.state").contains("Select an imager"));
    QVERIFY(window->findChild<SunChartView*>());
    if (several == housings.end()) return;
    workspace.select({{edit::ObjectKind::housing, several->id.text, 0}});
    QVERIFY(said(*window, "sun.state").contains("Select an imager"));
  }

  // Property: without a place nobody can tell, and the page says what to do.
  void aSiteWithoutAPlaceIsSaid() {
    auto window = windowWith("shop/design.json");
    window->command("lists.sun")->trigger();
    selectFirstImager(window->workspace());
    QVERIFY(said(*window, "sun.state").contains("lat_deg"));
    QVERIFY(!window->findChild<SunChartView*>()->isVisible());
    QVERIFY(!window->findChild<QPushButton*>("sun.file")->isVisible());
  }

  // Property: the chart is painted in the window's inks, light and dark, and written in the file's.
  void lightDarkAndAsAFile() {
    auto window = windowWith("solar_farm/design.json");
    window->command("lists.sun")->trigger();
    selectFirstImager(window->workspace());
    QVERIFY(waitForSun(*window));
    auto* chart = window->findChild<SunChartView*>();
    for (const bool dark : {false, true}) {
      const drawing::Inks inks = dark ? drawing::Inks::dark() : drawing::Inks::light();
      chart->setPalette(paletteOf(inks));
      const QImage image = chart->grab().toImage();
      QCOMPARE(image.pixelColor(2, 2), colourOf(inks.paper));
      int accent = 0;
      for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) accent += image.pixelColor(x, y) == colourOf(inks.accent);
      QVERIFY(accent > 0);  // the legend's sample at least
    }
    const std::filesystem::path file = std::filesystem::temp_directory_path() / "belvedere_sun_test.svg";
    std::filesystem::remove(file);
    pageOf(*window)->writeTo(file);
    QVERIFY(std::filesystem::file_size(file) > 10'000);
    std::filesystem::remove(file);
  }

  // Property: what is stopped stays stopped until it is asked for again.
  void itCanBeStopped() {
    auto window = windowWith("solar_farm/design.json");
    window->command("lists.sun")->trigger();
    selectFirstImager(window->workspace());
    window->findChild<QPushButton*>("sun.stop")->click();
    QVERIFY(QTest::qWaitFor([&] { return !pageOf(*window)->maker().isBusy(); }, 60'000));
    QTest::qWait(200);
    if (pageOf(*window)->maker().now()) QSKIP("it was done before it could be stopped");
    QCOMPARE(said(*window, "sun.state"), QString("Stopped."));
    window->findChild<QPushButton*>("sun.again")->click();
    QVERIFY(waitForSun(*window));
    QVERIFY(said(*window, "sun.state").isEmpty());
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::SunTest)
#include "sun_test.moc"
