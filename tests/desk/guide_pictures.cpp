// SPDX-License-Identifier: GPL-3.0-or-later
//
// Makes the guide's pictures of the window (scripts/guide_pictures calls it under a display of its
// own): guide_pictures OUT WIDTHxHEIGHT light|dark
#include <QApplication>
#include <QElapsedTimer>
#include <QScreen>
#include <QTableView>
#include <QTest>

#include <fmt/format.h>

#include <cstdio>

#include "desk/colours.h"
#include "desk_test_tools.h"

using namespace belvedere;
using namespace belvedere::desk;

namespace {

struct Maker {
  QString out, suffix;
  QSize size;
  bool failed = false;

  void keep(QWidget& widget, const QString& name) {
    QTest::qWait(250);
    const QString path = out + "/desk-" + name + suffix + ".png";
    // What the display shows, not what the widget would paint.
    QPixmap shown = widget.screen()->grabWindow(widget.winId());
    if (shown.isNull()) shown = widget.grab();
    if (!shown.toImage().convertToFormat(QImage::Format_RGB888).save(path, "PNG", 0)) {  // smallest
      fmt::print(stderr, "{} cannot be written\n", path.toStdString());
      failed = true;
      return;
    }
    fmt::print("wrote {}\n", path.toStdString());
  }

  std::unique_ptr<MainWindow> window(const std::string& example) {
    auto made = windowWith(example);
    made->resize(size);
    QTest::qWait(50);
    made->sheet().showAll();
    if (!example.empty()) waitForProof(*made);
    QTest::qWait(400);
    return made;
  }
};

void run(MainWindow& window, const char* name) {
  QAction* action = window.command(name);
  if (action) {
    action->trigger();
  } else {
    fmt::print(stderr, "there is no command {}\n", name);
  }
  QTest::qWait(900);
}

// Of those that fall short, the one with most of its zone to show: what is served and what is not.
design::RequirementId tellingOf(MainWindow& window) {
  design::RequirementId telling;
  double most_m2 = 0;
  for (const LedgerRow& row : window.evaluator().now()->rows) {
    const double share = row.proof.share.high;
    if (row.proof.kind == design::RequirementKind::see && row.proof.without.empty() &&
        share < row.proof.asked && share > 0.2 && row.proof.zone_m2 > most_m2) {
      most_m2 = row.proof.zone_m2;
      telling = row.proof.requirement;
    }
  }
  return telling;
}

void selectFirstImager(MainWindow& window) {
  for (const design::Housing& housing : window.workspace().design().housings)
    for (const design::HousingImager& imager : housing.imagers) {
      window.workspace().select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
      QTest::qWait(1200);
      return;
    }
}

}  // namespace

int main(int argc, char** argv) {
  QApplication app(argc, argv);
  if (argc < 4) return 2;
  const QStringList size = QString(argv[2]).split('x');
  const bool dark = QString(argv[3]) == "dark";
  if (size.size() != 2) return 2;
  setLook(app, dark);
  Maker maker{argv[1], dark ? "-dark" : "", {size[0].toInt(), size[1].toInt()}};
  if (maker.size.width() > 2000) maker.suffix += "-large";
  {
    auto window = maker.window("");
    maker.keep(*window, "first");
  }
  {
    auto window = maker.window("ferry_terminal/design.json");
    maker.keep(*window, "layout");
    selectFirstImager(*window);
    maker.keep(*window, "aiming");
  }
  {
    auto window = maker.window("shop/design.json");
    window->workspace().selectRequirement(tellingOf(*window));
    waitForProof(*window);
    QTest::qWait(3000);
    maker.keep(*window, "why-not");
  }
  {
    auto window = maker.window("cold_store/design.json");
    selectFirstImager(*window);
    run(*window, "lists.objects");
    maker.keep(*window, "objects");
    run(*window, "lists.objects");
    run(*window, "lists.findings");
    maker.keep(*window, "findings");
    run(*window, "lists.findings");
    run(*window, "view.orbit");
    for (QWidget* top : QApplication::topLevelWidgets())
      if (top->isVisible() && top != window.get() && top->isWindow()) {
        QTest::qWait(1500);
        maker.keep(*top, "orbit");
        top->close();
        break;
      }
  }
  {
    auto window = maker.window("winter_yard/design.json");
    window->workspace().setStage(Stage::services);
    QTest::qWait(2500);
    if (auto* table = window->findChild<QTableView*>("services.table"))
      table->selectRow(0);
    maker.keep(*window, "services");
  }
  {
    auto window = maker.window("shop/design.json");
    run(*window, "draw.zone");
    maker.keep(*window, "drawing");
  }
  return maker.failed ? 1 : 0;
}
