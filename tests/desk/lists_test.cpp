// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lists beside the sheet: everything on the plan stands in a table, in step with the sheet;
// findings lead to their cause; alternatives are kept, taken up, compared.
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QTableWidget>

#include <algorithm>

#include "design/alternatives.h"
#include "desk/alternatives_list.h"
#include "desk/drawer.h"
#include "desk/findings_list.h"
#include "desk/objects_list.h"
#include "desk_test_tools.h"
#include "drawing/sheet_parts.h"
#include "edit/aim.h"
#include "requirements/prove.h"

namespace belvedere::desk {
namespace {

void press(MainWindow& window, const char* name) {
  auto* button = window.findChild<QPushButton*>(name);
  QVERIFY2(button && button->isEnabled(), name);
  QTest::mouseClick(button, Qt::LeftButton);
}

// Turns the first housing's first imager's view by some degrees.
void turn(Workspace& workspace, double by_deg) {
  design::Design next = workspace.design();
  next.housings.front().imagers.front().aims.front().pan_deg += by_deg;
  workspace.apply("Turn", std::move(next));
}

// A window with the shop and none of its alternatives.
std::unique_ptr<MainWindow> plainShop() {
  auto window = windowWith("shop/design.json");
  design::Design design = window->workspace().design();
  design.alternatives.clear();
  window->workspace().start(std::move(design), window->workspace().folder());
  return window;
}

double pan(const design::Design& design) {
  return design.housings.front().imagers.front().aims.front().pan_deg;
}

}  // namespace

class ListsTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: hidden until asked for; its command opens it with the keys in it, Escape puts it away.
  void theDrawerOpensAndGoes() {
    auto window = windowWith("shop/design.json");
    auto* drawer = window->findChild<Drawer*>();
    QVERIFY(!drawer->isVisible());
    QTest::keyClick(window.get(), Qt::Key_F2);
    QVERIFY(drawer->isVisible());
    QVERIFY(drawer->isAncestorOf(window->focusWidget()));
    QTest::keyClick(window.get(), Qt::Key_F3);
    QCOMPARE(drawer->page()->objectName(), QString("findings"));
    QTest::keyClick(window->focusWidget(), Qt::Key_Escape);
    QVERIFY(!drawer->isVisible());
  }

  // Property: the table holds every object of the design, and selections follow each other.
  void objectsAndSheetAreInStep() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.objects")->trigger();
    auto* list = window->findChild<ObjectsList*>();
    auto* table = window->findChild<QTableView*>("objects.table");
    const auto objects = edit::objectsOf(workspace.design(), {});
    QCOMPARE(static_cast<std::size_t>(table->model()->rowCount()), objects.size());

    const edit::ObjectRef housing{edit::ObjectKind::housing,
                                  workspace.design().housings.front().id.text, 0};
    workspace.select({housing});
    const QModelIndexList rows = table->selectionModel()->selectedRows();
    QCOMPARE(rows.size(), 1);
    QCOMPARE(rows.front().siblingAtColumn(ObjectsModel::id).data().toString(),
             QString::fromStdString(housing.id));

    table->selectRow(0);
    QCOMPARE(workspace.selection().size(), std::size_t{1});
    QVERIFY(workspace.selection().front() == list->model().lines().front().ref);
    QTest::keyClick(table, Qt::Key_Down);
    QVERIFY(workspace.selection().front() == list->model().lines()[1].ref);
  }

  // Property: the filter leaves what has the word in any column.
  void theFilterFinds() {
    auto window = windowWith("shop/design.json");
    window->command("lists.objects")->trigger();
    auto* table = window->findChild<QTableView*>("objects.table");
    QTest::keyClicks(window->findChild<QLineEdit*>("objects.filter"), "ZONE");
    const auto& zones = window->workspace().design().site.zones;
    QVERIFY(static_cast<std::size_t>(table->model()->rowCount()) >= zones.size());
    for (int row = 0; row < table->model()->rowCount(); ++row) {
      QString all;
      for (int c = 0; c < ObjectsModel::column_count; ++c)
        all += table->model()->index(row, c).data().toString() + " ";
      QVERIFY2(all.contains("zone", Qt::CaseInsensitive), qPrintable(all));
    }
  }

  // Property: a name typed in place is the title from then on, the id stays; undo takes it back.
  void renamingInPlace() {
    auto window = windowWith("shop/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.objects")->trigger();
    auto* table = window->findChild<QTableView*>("objects.table");
    const std::string before = workspace.text();
    const design::Housing housing = workspace.design().housings.front();
    workspace.select({{edit::ObjectKind::housing, housing.id.text, 0}});
    QTest::keyClick(table, Qt::Key_F2);
    auto* field = table->viewport()->findChild<QLineEdit*>();
    QVERIFY(field);
    field->selectAll();
    QTest::keyClicks(field, "North eye");
    QTest::keyClick(field, Qt::Key_Return);
    QTRY_COMPARE(workspace.design().housings.front().title, std::string("North eye"));
    QVERIFY(workspace.design().housings.front().id == housing.id);
    window->command("edit.undo")->trigger();
    QCOMPARE(QString::fromStdString(workspace.text()), QString::fromStdString(before));
  }

  // Property: once proven, a zone's row says what the proof says of its requirements.
  void resultsAreTheProofs() {
    auto window = windowWith("shop/design.json");
    window->command("lists.objects")->trigger();
    QVERIFY(waitForProof(*window));
    auto* list = window->findChild<ObjectsList*>();
    int told = 0;
    for (const LedgerRow& row : window->evaluator().now()->rows) {
      if (row.proof.situation != window->workspace().situation() || !row.proof.without.empty())
        continue;
      const auto* requirement =
          design::findRequirement(window->workspace().design(), row.proof.requirement);
      const QString says =
          list->model().resultOf({edit::ObjectKind::zone, requirement->zone.text, 0});
      QVERIFY2(says.contains(QString::fromStdString(drawing::verdictWords(row.proof))),
               qPrintable(says));
      ++told;
      for (const proof::Contribution& part : row.proof.imagers) {
        const std::size_t dot = part.imager.rfind('.');
        const QString serves = list->model().resultOf(
            {edit::ObjectKind::housing, part.imager.substr(0, dot),
             std::stoi(part.imager.substr(dot + 1))});
        QVERIFY2(serves.contains(QString::fromStdString(row.proof.requirement.text)),
                 qPrintable(serves));
      }
    }
    QVERIFY(told > 0);
  }

  // Property: findings are those of the proof, and choosing one selects what it is about.
  void findingsLeadToTheirCause() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.findings")->trigger();
    QVERIFY(waitForProof(*window));
    auto* table = window->findChild<QTableView*>("findings.table");
    auto* list = window->findChild<FindingsList*>();
    QCOMPARE(static_cast<std::size_t>(table->model()->rowCount()),
             window->evaluator().now()->findings.size());
    QVERIFY(table->model()->rowCount() > 0);
    int led = 0;
    for (int row = 0; row < table->model()->rowCount(); ++row) {
      workspace.select({});
      workspace.selectRequirement({});
      table->setCurrentIndex({});
      table->setCurrentIndex(table->model()->index(row, 0));
      const Finding& finding = list->model().lines()[static_cast<std::size_t>(row)].finding;
      for (const std::string& id : finding.about) {
        if (design::findRequirement(workspace.design(), {id}))
          QVERIFY(!workspace.requirement().empty());
        if (design::findHousing(workspace.design(), {id}) ||
            design::findZone(workspace.design(), {id}))
          QVERIFY2(!workspace.selection().empty(), id.c_str());
        ++led;
      }
    }
    QVERIFY(led > 0);
  }

  // Property: accepted with a reason it is written to the design; taken back it is gone.
  void aFindingIsAcceptedWithAReason() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    window->command("lists.findings")->trigger();
    QVERIFY(waitForProof(*window));
    auto* table = window->findChild<QTableView*>("findings.table");
    auto* list = window->findChild<FindingsList*>();
    table->setCurrentIndex(table->model()->index(0, 0));
    const Finding finding = list->model().lines().front().finding;
    auto* accept = window->findChild<QPushButton*>("findings.accept");
    QVERIFY2(!accept->isEnabled(), "without a reason");
    window->findChild<QLineEdit*>("findings.by")->clear();
    QTest::keyClicks(window->findChild<QLineEdit*>("findings.by"), "A. Person");
    QTest::keyClicks(window->findChild<QLineEdit*>("findings.reason"), "the gate is locked");
    const std::size_t before = workspace.design().accepted.size();
    press(*window, "findings.accept");
    QCOMPARE(workspace.design().accepted.size(), before + 1);
    const design::Accepted& accepted = workspace.design().accepted.back();
    QCOMPARE(accepted.code, finding.code);
    QCOMPARE(accepted.of.text, finding.about.front());
    QCOMPARE(accepted.reason, std::string("the gate is locked"));
    design::readDesignText(workspace.text(), workspace.folder());  // can be read back
    const int last = table->model()->rowCount() - 1;
    QCOMPARE(table->model()->index(last, 0).data().toString(), QString("accepted"));
    table->setCurrentIndex(table->model()->index(last, 0));
    press(*window, "findings.take_back");
    QCOMPARE(workspace.design().accepted.size(), before);
  }

  // Property: kept, the base is back and the change stands beside it; gone over and back, nothing is
  // lost; each step can be undone.
  void alternativesAreKeptAndTakenUp() {
    auto window = plainShop();
    Workspace& workspace = window->workspace();
    const double base = pan(workspace.design());
    window->command("lists.alternatives")->trigger();
    turn(workspace, 3);
    QTest::keyClicks(window->findChild<QLineEdit*>("alternatives.name"), "Turned");
    press(*window, "alternatives.keep");
    QCOMPARE(pan(workspace.design()), base);
    QCOMPARE(workspace.design().alternatives.size(), std::size_t{1});
    QCOMPARE(pan(design::applied(workspace.design(), workspace.design().alternatives[0])), base + 3);

    auto* table = window->findChild<QTableWidget*>("alternatives.table");
    QCOMPARE(table->rowCount(), 2);
    table->setCurrentCell(1, 0);
    press(*window, "alternatives.switch");
    QCOMPARE(pan(workspace.design()), base + 3);
    QCOMPARE(table->item(0, 0)->text(), QString("Turned"));
    QCOMPARE(table->item(1, 0)->text(), QString("Base"));
    table->setCurrentCell(1, 0);
    press(*window, "alternatives.switch");
    QCOMPARE(pan(workspace.design()), base);
    QCOMPARE(table->item(0, 0)->text(), QString("Base"));
    QCOMPARE(table->item(1, 0)->text(), QString("Turned"));
    window->command("edit.undo")->trigger();
    QCOMPARE(pan(workspace.design()), base + 3);
    QCOMPARE(table->item(0, 0)->text(), QString("Turned"));
    window->command("edit.redo")->trigger();

    table->setCurrentCell(1, 0);
    press(*window, "alternatives.base");
    QCOMPARE(pan(workspace.design()), base + 3);
    QVERIFY(workspace.design().alternatives.empty());
    window->command("edit.undo")->trigger();
    table->setCurrentCell(1, 0);
    press(*window, "alternatives.delete");
    QVERIFY(workspace.design().alternatives.empty());
    QCOMPARE(pan(workspace.design()), base);
    design::readDesignText(workspace.text(), workspace.folder());
  }

  // Property: what is edited while an alternative is kept is not written over.
  void anEditMeanwhileIsNotWrittenOver() {
    auto window = plainShop();
    Workspace& workspace = window->workspace();
    window->command("lists.alternatives")->trigger();
    turn(workspace, 3);
    QTest::keyClicks(window->findChild<QLineEdit*>("alternatives.name"), "Turned");
    QMetaObject::invokeMethod(window.get(), [&] { turn(workspace, 5); }, Qt::QueuedConnection);
    const double before = pan(workspace.design());
    QSignalSpy complaints(&workspace, &Workspace::complained);
    window->findChild<QPushButton*>("alternatives.keep")->click();
    QCOMPARE(pan(workspace.design()), before + 5);
    QVERIFY(workspace.design().alternatives.empty());
    QCOMPARE(complaints.size(), 1);
  }

  // Property: what no alternative can say is refused with the reason, and nothing changes.
  void whatCannotBeSaidIsRefused() {
    auto window = plainShop();
    Workspace& workspace = window->workspace();
    window->command("lists.alternatives")->trigger();
    design::Design next = workspace.design();
    design::Housing twin = next.housings.front();
    twin.id = {"twin"};
    twin.streams.clear();
    next.housings.push_back(twin);
    workspace.apply("Copy", std::move(next));
    QSignalSpy complaints(&workspace, &Workspace::complained);
    QTest::keyClicks(window->findChild<QLineEdit*>("alternatives.name"), "With a twin");
    press(*window, "alternatives.keep");
    QCOMPARE(complaints.size(), 1);
    QVERIFY2(complaints.front().front().toString().contains("twin"),
             qPrintable(complaints.front().front().toString()));
    QVERIFY(workspace.design().alternatives.empty());
  }

  // Property: the comparison's words are those of a proof of each alternative; it can be stopped.
  void comparedSideBySide() {
    auto window = plainShop();
    Workspace& workspace = window->workspace();
    window->command("lists.alternatives")->trigger();
    turn(workspace, 3);
    QTest::keyClicks(window->findChild<QLineEdit*>("alternatives.name"), "Turned");
    press(*window, "alternatives.keep");
    auto* list = window->findChild<AlternativesList*>();
    QSignalSpy done(list, &AlternativesList::compared);
    press(*window, "alternatives.compare");
    QVERIFY(list->isComparing());
    press(*window, "alternatives.stop");
    QVERIFY(done.wait(20'000));
    auto* results = window->findChild<QTableWidget*>("alternatives.results");
    QVERIFY(!list->isComparing());
    press(*window, "alternatives.compare");
    QVERIFY(done.wait(120'000));
    QCOMPARE(results->columnCount(), 3);
    const requirements::Answer answer = requirements::prove(
        design::applied(workspace.design(), workspace.design().alternatives[0]),
        workspace.folder(), {}, Progress{});
    const proof::Proof& proof = answer.proof;
    // Rules, days, frames and money too.
    QVERIFY(!answer.demands.empty());
    for (const requirements::Demand& demand : answer.demands) {
      int rows = 0;
      for (int r = 0; r < results->rowCount(); ++r)
        rows += results->item(r, 0)->text().startsWith(
                    QString::fromStdString(demand.requirement.text + ", ")) &&
                results->item(r, 2)->text().endsWith(QString::fromStdString(demand.sentence));
      QCOMPARE(rows, 1);
    }
    for (const proof::RequirementProof& row : proof.requirements) {
      const QString name =
          QString::fromStdString(row.requirement.text + ", " + row.situation.text);
      if (!row.without.empty()) continue;
      bool found = false;
      for (int r = 0; r < results->rowCount(); ++r)
        if (results->item(r, 0)->text() == name) {
          found = true;
          QCOMPARE(results->item(r, 2)->text(),
                   QString::fromStdString(drawing::verdictWords(row)));
        }
      QVERIFY2(found, qPrintable(name));
    }
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::ListsTest)
#include "lists_test.moc"
