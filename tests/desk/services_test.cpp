// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QTableWidget>

#include <algorithm>
#include <set>

#include "desk/ledger_view.h"
#include "services_test_tools.h"
#include "proof/rules.h"
#include "requirements/failures.h"
#include "requirements/prove.h"
#include "services/findings.h"

namespace belvedere::desk {
namespace {

// What the window would be told of an example.
ServicesAnswer answerOf(const std::string& example) {
  const design::DesignFile file = design::readDesign(examplePath(example));
  ServicesAnswer answer;
  answer.design = std::make_shared<const design::Design>(file.design);
  answer.seen.rules = requirements::ruleDemands(*answer.design, file.path.parent_path(), {}, {});
  answer.sizes = services::sizesOf(*answer.design, answer.seen);
  answer.findings = services::findingsOf(*answer.design, answer.sizes, answer.seen);
  return answer;
}

QTableView* tableIn(MainWindow& window) { return window.findChild<QTableView*>("services.table"); }

}  // namespace

class ServicesTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: what the brief asks of services stands in the ledger once it is proven; when the design
  // changes it says that it was so, until it is known anew.
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
    QVERIFY(linesOf("R1").front().startsWith("was undecided: 13.6 days"));
    QTRY_VERIFY_WITH_TIMEOUT(linesOf("R1").front().startsWith("met: "), 60'000);
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
        expected += !row.about.empty() && short_of.contains(row.about.front());
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

  // Property: the bill says what the engine says, line by line, with its total; a line selects on the
  // plan what it counts.
  void theBillSelectsWhatItCounts() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    pageOf(*window)->choose(ServicesPart::bill);
    const services::Bill& bill = pageOf(*window)->maker().now()->sizes.bill;
    QVERIFY(bill.lines.size() > 3);
    QTableView* table = tableIn(*window);
    QCOMPARE(table->model()->rowCount(),
             static_cast<int>(bill.lines.size() + 1 + pageOf(*window)->maker().now()->sizes.money.size()));
    for (std::size_t i = 0; i < bill.lines.size(); ++i) {
      const services::BillLine& line = bill.lines[i];
      const int row = static_cast<int>(i);
      QCOMPARE(table->model()->index(row, 2).data().toDouble(), line.quantity);
      if (line.amount)
        QCOMPARE(table->model()->index(row, 5).data().toString(), QString::number(*line.amount, 'f', 2));
      table->setCurrentIndex(table->model()->index(row, 2));
      std::set<std::string> selected, counted(line.of.begin(), line.of.end());
      for (const edit::ObjectRef& ref : workspace.selection()) selected.insert(ref.id);
      QCOMPARE(selected, counted);
    }
    QCOMPARE(table->model()->index(static_cast<int>(bill.lines.size()), 5).data().toString(),
             QString::number(bill.total, 'f', 2));
    QVERIFY(!workspace.canUndo());
  }

  // Property: parts are ranked when asked for, as the engine ranks them; a row selects its part and
  // names what falls with the share left.
  void failuresAreRankedWhenAskedFor() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    workspace.setStage(Stage::services);
    ServicesPage* page = pageOf(*window);
    QVERIFY(waitForSizes(*window));
    page->choose(ServicesPart::failures);
    auto* rank = window->findChild<QPushButton*>("services.rank");
    QVERIFY(rank->isVisible() && !page->failures().now());
    QSignalSpy progressed(&page->failures(), &FailuresMaker::progressed);
    rank->click();
    QVERIFY(window->findChild<QPushButton*>("services.stop")->isVisible());
    QTRY_VERIFY_WITH_TIMEOUT(page->failures().now() && !page->failures().isBusy(), 300'000);
    QVERIFY(progressed.count() > 0);

    const design::DesignFile file = design::readDesign(examplePath("winter_yard/design.json"));
    proof::ProveOptions options;
    options.blind_zones = false;
    options.keep_settled = true;
    const requirements::Answer answer =
        requirements::size(file.design, file.path.parent_path(), true, options, {});
    const requirements::Failures expected =
        requirements::failuresOf(file.design, file.path.parent_path(), answer, options, {});
    QTableView* table = tableIn(*window);
    QCOMPARE(table->model()->rowCount(), static_cast<int>(expected.ranked.size()));
    int named = 0;
    for (int row = 0; row < table->model()->rowCount(); ++row) {
      const requirements::Failure& failure = expected.ranked[static_cast<std::size_t>(row)];
      QVERIFY(table->model()->index(row, 0).data().toString().endsWith(
          QString::fromStdString(failure.loss.part)));
      table->setCurrentIndex(table->model()->index(row, 0));
      const QString found = window->findChild<QPlainTextEdit*>("services.found")->toPlainText();
      for (const requirements::Fall& fall : failure.falls) {
        QVERIFY2(found.contains(QString::fromStdString(fall.requirement.text)), qPrintable(found));
        if (!fall.share_after) continue;
        QVERIFY2(found.contains(" % of "), qPrintable(found));
        ++named;
      }
      // A cable is drawn in accent.
      if (failure.loss.kind != services::PartKind::link) QVERIFY(!workspace.selection().empty());
    }
    QVERIFY(named > 0);
  }

  // Property: a ranking that is under way can be stopped.
  void aRankingCanBeStopped() {
    auto window = windowWith("ferry_terminal/design.json");
    window->workspace().setStage(Stage::services);
    ServicesPage* page = pageOf(*window);
    page->choose(ServicesPart::failures);
    window->findChild<QPushButton*>("services.rank")->click();
    QTest::qWait(50);
    window->findChild<QPushButton*>("services.stop")->click();
    QTRY_VERIFY_WITH_TIMEOUT(!page->failures().isBusy(), 30'000);
    QVERIFY(!page->failures().now());
    QTRY_VERIFY(window->findChild<QPushButton*>("services.rank")->isVisible());
  }

  // Property: of no example is there a cell in any table that does not say what it came from.
  void noCellIsWithoutItsSource() {
    int cells = 0;
    for (const char* example : {"winter_yard/design.json", "ferry_terminal/design.json",
                                "solar_farm/design.json", "shop/design.json", "car_park_deck/design.json"}) {
      const ServicesAnswer answer = answerOf(example);
      for (int part = 0; part < kServicesParts; ++part) {
        if (static_cast<ServicesPart>(part) == ServicesPart::failures) continue;
        const ServicesTable table = tableOf(static_cast<ServicesPart>(part), answer);
        QCOMPARE(table.figures.size(), static_cast<std::size_t>(table.headings.size()));
        for (const ServicesTable::Row& row : table.rows) {
          QCOMPARE(row.cells.size(), table.headings.size());
          QCOMPARE(row.sources.size(), row.cells.size());
          for (qsizetype i = 0; i < row.cells.size(); ++i) {
            if (row.cells[i].isEmpty()) continue;
            QVERIFY2(!row.sources[i].isEmpty() && !row.sources[i].contains("%1"),
                     qPrintable(titleOf(static_cast<ServicesPart>(part)) + ": " + table.headings[i] +
                                " " + row.cells[i] + ": " + row.sources[i]));
            ++cells;
          }
        }
      }
    }
    QVERIFY(cells > 500);
  }

  // Property: the chosen cell's source is said below the table, to the ear too, and changes with the
  // arrow keys.
  void aCellSaysWhatItCameFrom() {
    auto window = windowWith("winter_yard/design.json");
    window->workspace().setStage(Stage::services);
    QVERIFY(waitForSizes(*window));
    QTableView* table = tableIn(*window);
    auto* source = window->findChild<QLabel*>("services.source");
    table->setCurrentIndex(table->model()->index(0, 4));
    QVERIFY2(source->text().contains("slack"), qPrintable(source->text()));
    const QString said = table->currentIndex().data(Qt::AccessibleDescriptionRole).toString();
    QVERIFY(!said.isEmpty() && source->text().contains(said));
    table->setFocus();
    QTest::keyClick(table, Qt::Key_Right);
    QVERIFY2(source->text().startsWith("may be"), qPrintable(source->text()));
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::ServicesTest)
#include "services_test.moc"
