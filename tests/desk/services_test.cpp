// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QLineEdit>
#include <QTableView>
#include <QTableWidget>

#include <algorithm>
#include <set>

#include "desk/ledger_view.h"
#include "desk/services_page.h"
#include "desk_test_tools.h"
#include "proof/rules.h"
#include "services/findings.h"

namespace belvedere::desk {
namespace {

ServicesPage* pageOf(MainWindow& window) { return window.findChild<ServicesPage*>("services"); }

bool waitForSizes(MainWindow& window) {
  return QTest::qWaitFor(
      [&] {
        const auto now = pageOf(window)->maker().now();
        return now && now->version == window.workspace().version();
      },
      60'000);
}

}  // namespace

class ServicesTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: what the brief asks of services stands in the ledger once it is proven, and is gone when
  // the design changes.
  void theLedgerSaysWhatComesOfRulesAndDays() {
    auto window = windowWith("winter_yard/design.json");
    const auto linesOf = [&](const char* requirement) {
      for (const LedgerRowView* row : window->findChildren<LedgerRowView*>())
        if (row->requirement().text == requirement) return row->demandLines();
      return QStringList();
    };
    QCOMPARE(linesOf("R2"), QStringList("not proven yet"));
    QVERIFY(linesOf("R1").empty());
    QTRY_VERIFY_WITH_TIMEOUT(!linesOf("R1").empty(), 60'000);
    QCOMPARE(linesOf("R2"), QStringList("met: runs on C1.3"));
    QCOMPARE(linesOf("R1").size(), 1);
    QVERIFY(linesOf("R1").front().startsWith("undecided: 13.6 days"));
    design::Design fewer = window->workspace().design();
    for (design::Requirement& requirement : fewer.brief)
      if (requirement.id.text == "R1") requirement.keep_days = 7;
    window->workspace().apply("fewer days", fewer);
    QVERIFY(linesOf("R1").empty());
    QTRY_VERIFY_WITH_TIMEOUT(!linesOf("R1").empty(), 60'000);
    QVERIFY(linesOf("R1").front().startsWith("met: "));
  }

  // Property: the stage opens the tables, which say what the engine says, each cable a row with its
  // length; what a finding calls a shortfall is marked; leaving the stage puts them away.
  void theStageOpensWhatTheEngineSays() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    ServicesPage* page = pageOf(*window);
    QVERIFY(page && page->isVisible());
    QVERIFY(waitForSizes(*window));

    const design::DesignFile file = design::readDesign(examplePath("winter_yard/design.json"));
    services::Seen seen;
    proof::ProveOptions options;
    options.blind_zones = false;
    for (const proof::RuleSight& sight :
         proof::ruleSights(file.design, file.path.parent_path(), options, Progress{}))
      seen.rules.push_back({sight.requirement, sight.imagers_asked, sight.imagers});
    const services::Sizes sizes = services::sizesOf(file.design, seen);
    auto* table = window->findChild<QTableView*>("services.table");
    QVERIFY(!sizes.network.cables.empty());
    QCOMPARE(table->model()->rowCount(), static_cast<int>(sizes.network.cables.size()));
    for (int row = 0; row < table->model()->rowCount(); ++row) {
      const services::Cable& cable = sizes.network.cables[static_cast<std::size_t>(row)];
      QVERIFY(table->model()->index(row, 0).data().toString().endsWith(
          QString::fromStdString(cable.link.text)));
      if (cable.placed && cable.way)
        QCOMPARE(table->model()->index(row, 4).data().toString(),
                 QString::number(cable.length_m, 'f', 1));
    }

    std::set<std::string> short_of;
    for (const Finding& finding : services::findingsOf(file.design, sizes, seen))
      if (finding.severity == Severity::shortfall)
        short_of.insert(finding.about.begin(), finding.about.end());
    int marked = 0, expected = 0;
    for (int part = 0; part < kServicesParts; ++part)
      for (const ServicesTable::Row& row :
           tableOf(static_cast<ServicesPart>(part), *page->maker().now()).rows) {
        marked += row.short_of;
        expected += short_of.contains(row.about.front());
        QCOMPARE(row.cells.isEmpty(), false);
      }
    QCOMPARE(marked, expected);
    QVERIFY(marked > 0);  // the yard's winter night is too much for a switch

    workspace.setStage(Stage::layout);
    QVERIFY(!page->isVisible());
  }

  // Property: a row leads to what it came from: a cable to the camera at its end, which is shown.
  void aRowLeadsToItsCause() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    auto* table = window->findChild<QTableView*>("services.table");
    int led = 0;
    for (int row = 0; row < table->model()->rowCount(); ++row) {
      workspace.select({});
      Q_EMIT table->activated(table->model()->index(row, 0));
      led += !workspace.selection().empty();
    }
    QVERIFY(led > 0);
    QVERIFY(!window->workspace().canUndo());
  }

  // Property: the catalogue is filtered by any property, shows models side by side, and leads to what
  // is of a model.
  void theCatalogueIsFilteredAndCompared() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.catalogue")->trigger();
    auto* table = window->findChild<QTableWidget*>("catalogue.models");
    QVERIFY(table && table->isVisible());
    const design::Design& design = workspace.design();
    const auto models = design.catalogue.models.size() + design.library.size();
    QCOMPARE(table->rowCount(), static_cast<int>(models));
    auto* filter = window->findChild<QLineEdit*>("catalogue.filter");
    filter->setText("kind=housing");
    QVERIFY(table->rowCount() > 0 && table->rowCount() < static_cast<int>(models));
    for (int row = 0; row < table->rowCount(); ++row)
      QCOMPARE(table->item(row, 1)->text(), QString("housing"));
    filter->clear();
    table->selectAll();
    auto* compared = window->findChild<QTableWidget*>("catalogue.compared");
    QVERIFY(compared->isVisible());
    QCOMPARE(compared->columnCount(), static_cast<int>(models) + 1);
    QVERIFY(compared->rowCount() > 3);
    int selected = 0;
    for (int row = 0; row < table->rowCount(); ++row) {
      workspace.select({});
      Q_EMIT table->cellActivated(row, 0);
      for (const edit::ObjectRef& ref : workspace.selection())
        selected += ref.kind == edit::ObjectKind::housing;
    }
    QVERIFY(selected >= static_cast<int>(design.housings.size()));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::ServicesTest)
#include "services_test.moc"
