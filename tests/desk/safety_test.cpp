// SPDX-License-Identifier: GPL-3.0-or-later
//
// Work is safe: what a kill would lose is offered again, other programs' changes are asked about,
// broken files show all that is wrong, and the person's file is written by saving alone.
#include <signal.h>

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QMessageBox>
#include <QProcess>
#include <QPushButton>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QThread>
#include <QTimer>

#include <atomic>
#include <fstream>

#include "desk/beside.h"
#include "desk/notice_bar.h"
#include "desk/problems_dialog.h"
#include "desk/recovery.h"
#include "desk/safety_parts.h"
#include "desk_test_tools.h"
#include "edit/transform.h"

namespace belvedere::desk {
namespace {

QByteArray bytesOf(const std::filesystem::path& path) {
  QFile file(QString::fromStdString(path.string()));
  return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void retitle(Workspace& workspace, const std::string& title) {
  design::Design next = workspace.design();
  next.title = title;
  workspace.apply("Title", std::move(next));
}

void press(MainWindow& window, const QString& name) {
  auto* button = window.findChild<QPushButton*>(name);
  QVERIFY2(button, qPrintable(name));
  QTest::mouseClick(button, Qt::LeftButton);
}

int journals() { return static_cast<int>(QDir(stateFolder()).entryList({"*.journal"}).size()); }

constexpr int kSoonMs = 5000;  // a change is kept within so long
const std::string kEdited = "Edited and never saved";

// What the killed process does: opens a design, edits it, works on.
int childMain(int argc, char** argv) {
  QApplication app(argc, argv);
  MainWindow window;
  window.show();
  window.openFile(argv[2]);
  retitle(window.workspace(), kEdited);
  std::ofstream(argv[3]) << window.workspace().text();
  return QApplication::exec();
}

}  // namespace

class SafetyTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  void init() {
    folder_ = std::make_unique<QTemporaryDir>();
    qputenv("XDG_STATE_HOME", folder_->path().toUtf8() + "/state");
    path_ = std::filesystem::path(folder_->path().toStdString()) / "design.json";
    std::filesystem::copy_file(examplePath("shop/design.json"), path_);
  }

  // Property: killed without warning within seconds of an edit, the next start offers the very text,
  // not saved, to be saved where it came from; the person's file has not been touched.
  void aKillLosesNothing() {
    const QByteArray before = bytesOf(path_);
    const std::filesystem::path said = path_.parent_path() / "said.txt";
    QProcess child;
    child.start(QCoreApplication::applicationFilePath(),
                {"--child", QString::fromStdString(path_.string()),
                 QString::fromStdString(said.string())});
    QVERIFY(child.waitForStarted());
    QVERIFY(QTest::qWaitFor([&] { return !bytesOf(said).isEmpty(); }, 60'000));
    QVERIFY(QTest::qWaitFor([&] { return journals() == 1; }, kSoonMs));

    auto window = windowWith("");
    auto* notices = window->findChild<NoticeBar*>();
    offerLeftWork(*window);
    QVERIFY2(notices->sentence().isEmpty(), "offered while its process lives");

    ::kill(static_cast<pid_t>(child.processId()), SIGKILL);
    QVERIFY(child.waitForFinished());
    QCOMPARE(bytesOf(path_), before);
    offerLeftWork(*window);
    QVERIFY(notices->isVisible());
    QVERIFY2(notices->sentence().contains(QString::fromStdString(kEdited)),
             qPrintable(notices->sentence()));
    press(*window, "notice.recover");
    Workspace& workspace = window->workspace();
    QCOMPARE(QByteArray::fromStdString(workspace.text()), bytesOf(said));
    QVERIFY(!workspace.isSaved());
    QCOMPARE(workspace.path(), path_);
    QCOMPARE(bytesOf(path_), before);
    QCOMPARE(journals(), 1);  // and is kept on
    workspace.save(workspace.path());
    QCOMPARE(bytesOf(path_), bytesOf(said));
    QVERIFY(QTest::qWaitFor([&] { return journals() == 0; }, kSoonMs));
  }

  // Property: put off, it is offered again; thrown away, never.
  void leftWorkIsKeptUntilItIsThrownAway() {
    {
      Workspace workspace;
      auto recovery = std::make_unique<Recovery>(workspace);
      workspace.open(path_);
      retitle(workspace, kEdited);
      QVERIFY(QTest::qWaitFor([&] { return journals() == 1; }, kSoonMs));
      const QDir state(stateFolder());
      const QString kept = state.filePath(state.entryList({"*.journal"}).front());
      QFile::copy(kept, state.filePath("left.journal"));  // as a process that is gone would
    }
    QCOMPARE(journals(), 1);
    auto window = windowWith("");
    offerLeftWork(*window);
    press(*window, "notice.later");
    QVERIFY(window->findChild<NoticeBar*>()->sentence().isEmpty());
    QCOMPARE(journals(), 1);
    offerLeftWork(*window);
    press(*window, "notice.throw_away");
    QCOMPARE(journals(), 0);
  }

  // Property: undone to what is saved, or closed, nothing is left to offer.
  void journalsGoWithTheirReason() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    retitle(window->workspace(), kEdited);
    QVERIFY(QTest::qWaitFor([&] { return journals() == 1; }, kSoonMs));
    window->command("edit.undo")->trigger();
    QVERIFY(QTest::qWaitFor([&] { return journals() == 0; }, kSoonMs));
    retitle(window->workspace(), kEdited);
    QVERIFY(QTest::qWaitFor([&] { return journals() == 1; }, kSoonMs));
    window.reset();
    QCOMPARE(journals(), 0);
  }

  // Property: closing asks while there is something to lose, and stays when told to.
  void closingAsks() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    retitle(window->workspace(), kEdited);
    QString asked;
    QTimer::singleShot(200, [&] {
      if (auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget())) {
        asked = box->text();
        box->button(QMessageBox::Cancel)->click();
      }
    });
    QVERIFY(!window->close());
    QVERIFY(!asked.isEmpty());
    QVERIFY(window->isVisible());
  }

  // Property: what another program wrote is asked about; theirs can be taken and undone.
  void anotherProgramsChangeIsAskedAbout() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    Workspace& workspace = window->workspace();
    retitle(workspace, "Mine");
    auto* notices = window->findChild<NoticeBar*>();
    Workspace other;
    other.open(path_);
    retitle(other, "Theirs");
    other.save(path_);
    QVERIFY(QTest::qWaitFor([&] { return notices->isVisible(); }, kSoonMs));
    QCOMPARE(workspace.design().title, std::string("Mine"));
    press(*window, "notice.theirs");
    QCOMPARE(workspace.design().title, std::string("Theirs"));
    QVERIFY(workspace.isSaved());
    window->command("edit.undo")->trigger();
    QCOMPARE(workspace.design().title, std::string("Mine"));
    QVERIFY(!workspace.isSaved());
  }

  // Property: kept, mine is not asked about again and is what saving writes.
  void mineCanBeKept() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    Workspace& workspace = window->workspace();
    auto* notices = window->findChild<NoticeBar*>();
    std::ofstream(path_, std::ios::app) << "\n";
    QVERIFY(QTest::qWaitFor([&] { return notices->isVisible(); }, kSoonMs));
    press(*window, "notice.mine");
    QVERIFY(!workspace.isSaved());
    QVERIFY(!workspace.changedOnDisk());
    window->command("file.save")->trigger();  // asks nothing
    QCOMPARE(bytesOf(path_), QByteArray::fromStdString(workspace.text()));
    QVERIFY(!notices->isVisible());
  }

  // Property: theirs that cannot be used shows its problems, and mine stays.
  void brokenTheirsChangesNothing() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    const std::string before = window->workspace().text();
    auto* notices = window->findChild<NoticeBar*>();
    std::ofstream(path_) << "{";
    QVERIFY(QTest::qWaitFor([&] { return notices->isVisible(); }, kSoonMs));
    bool shown = false;
    QTimer::singleShot(200, [&] {
      if (auto* box = qobject_cast<ProblemsDialog*>(QApplication::activeModalWidget())) {
        shown = true;
        box->accept();
      }
    });
    press(*window, "notice.theirs");
    QVERIFY(shown);
    QCOMPARE(QString::fromStdString(window->workspace().text()), QString::fromStdString(before));
  }

  // Property: the first save of a session keeps the file as it was; later ones leave that copy.
  void theFirstSaveKeepsTheFileAsItWas() {
    const QByteArray before = bytesOf(path_);
    Workspace workspace;
    workspace.open(path_);
    retitle(workspace, "Once");
    workspace.save(path_);
    retitle(workspace, "Twice");
    workspace.save(path_);
    QCOMPARE(bytesOf(path_.string() + "~"), before);
    QVERIFY(bytesOf(path_) != before);
  }

  // Property: what is edited or undone while a file is written is not in it and not saved.
  void aSaveMarksOnlyWhatItWrote() {
    Workspace workspace;
    workspace.open(path_);
    retitle(workspace, "Written");
    const std::string written = workspace.text();
    workspace.save(path_, [&](const std::function<void()>& work) {
      work();
      workspace.undo();
    });
    QCOMPARE(bytesOf(path_), QByteArray::fromStdString(written));
    QVERIFY(!workspace.isSaved());
    retitle(workspace, "Again");
    workspace.save(path_);
    QVERIFY(workspace.isSaved());
  }

  // Property: neither Escape nor closing takes the window from work that cannot be cancelled.
  void workThatCannotBeCancelledKeepsItsWindow() {
    auto window = windowWith("");
    std::atomic<bool> go_on{true};
    int seen = 0, stayed = 0;
    QTimer hands;
    connect(&hands, &QTimer::timeout, [&] {
      QWidget* box = QApplication::activeModalWidget();
      if (!box || box->objectName() != "beside") return;
      ++seen;
      QTest::keyClick(box, Qt::Key_Escape);
      box->close();
      stayed += box->isVisible() && QApplication::activeModalWidget() == box;
      if (seen == 3) go_on = false;
    });
    hands.start(50);
    QTimer::singleShot(20'000, this, [&] { go_on = false; });
    QVERIFY(besideWindow(window.get(), "Writing", CanCancel::no, [&] {
      while (go_on) QThread::msleep(10);
    }));
    QVERIFY(seen >= 3);
    QCOMPARE(stayed, seen);
  }

  // Property: the program's own save is not taken for another program's, however long it takes;
  // another's that comes meanwhile is told once it is written.
  void ourOwnSaveIsNobodyElses() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    Workspace& workspace = window->workspace();
    auto* notices = window->findChild<NoticeBar*>();
    retitle(workspace, "Mine");
    bool asked = false;
    workspace.save(path_, [&](const std::function<void()>& work) {
      work();
      QTest::qWait(1000);  // a slow disk
      asked = notices->isVisible();
    });
    QVERIFY(!asked);
    QTest::qWait(600);
    QVERIFY(!notices->isVisible());
    retitle(workspace, "Mine again");
    workspace.save(path_, [&](const std::function<void()>& work) {
      work();
      std::ofstream(path_, std::ios::app) << "\n";
      QTest::qWait(600);
    });
    QVERIFY(QTest::qWaitFor([&] { return notices->isVisible(); }, kSoonMs));
  }

  // Property: saved all the same, but said: that there is no copy of the file as it was.
  void aBackupThatCouldNotBeKeptIsSaid() {
    auto window = windowWith("");
    QVERIFY(window->openFile(path_));
    std::filesystem::create_directory(path_.string() + "~");
    retitle(window->workspace(), "Mine");
    window->command("file.save")->trigger();
    QVERIFY(window->workspace().isSaved());
    const QString hint = window->findChild<QLabel*>("hint")->text();
    QVERIFY2(hint.contains("no copy"), qPrintable(hint));
    window->command("file.save")->trigger();
    QCOMPARE(window->findChild<QLabel*>("hint")->text(), QString("Saved."));
  }

  // Property: every problem has its row with place, sentence and hint, and all can be copied.
  void problemsAreListedAndCanBeCopied() {
    auto window = windowWith("");
    std::ofstream(path_) << R"({"format": "belvedere.design", "version": 1, "titel": "x",
      "housings": [{"id": "C1", "model": "nobody"}]})";
    int rows = 0;
    std::size_t problems = 0;
    try {
      design::readDesign(path_);
    } catch (const InputError& error) {
      problems = error.problems().size();
    }
    QVERIFY(problems >= 2);
    QString copied, first;
    QTimer look;  // the file is read beside the window: until its problems are shown
    connect(&look, &QTimer::timeout, [&] {
      auto* box = qobject_cast<ProblemsDialog*>(QApplication::activeModalWidget());
      if (!box) return;
      auto* table = box->findChild<QTableWidget*>();
      rows = table->rowCount();
      first = table->item(0, 0)->text();
      QTest::keyClick(box, Qt::Key_C, Qt::ControlModifier);
      copied = QApplication::clipboard()->text();
      box->accept();
    });
    look.start(50);
    QVERIFY(!window->openFile(path_));
    QCOMPARE(static_cast<std::size_t>(rows), problems);
    QVERIFY2(first.startsWith('/'), qPrintable(first));
    QVERIFY2(copied.contains("titel") && copied.contains("nobody"), qPrintable(copied));
  }

 private:
  std::unique_ptr<QTemporaryDir> folder_;
  std::filesystem::path path_;
};

}  // namespace belvedere::desk

int main(int argc, char** argv) {
  if (argc == 4 && std::string(argv[1]) == "--child") return belvedere::desk::childMain(argc, argv);
  QApplication app(argc, argv);
  belvedere::desk::SafetyTest test;
  return QTest::qExec(&test, argc, argv);
}
#include "safety_test.moc"
