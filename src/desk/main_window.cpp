// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/main_window.h"

#include <QAction>
#include <QCloseEvent>
#include <QComboBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <QProgressBar>
#include <QPushButton>
#include <QScreen>
#include <QSplitter>
#include <QVBoxLayout>

#include "base/problem.h"
#include "desk/beside.h"
#include "desk/colours.h"
#include "desk/problems_dialog.h"
#include "desk/room_sentences.h"
#include "desk/save_file.h"
#include "desk/shown_units.h"

namespace belvedere::desk {
namespace {

constexpr int kStagePad = 10;  // beside a stage's name
constexpr int kBriefWide = 320;

}  // namespace

MainWindow::MainWindow(QWidget* parent) : QMainWindow(parent) {
  setObjectName("main_window");
  sheet_ = new SheetView(workspace_, evaluator_);
  sheet_->setObjectName("sheet");
  ledger_ = new LedgerView(workspace_, evaluator_);
  ledger_->setObjectName("ledger");
  rule_ = new BearingRule(workspace_);
  makeBars();

  auto* left = new QWidget;
  beside_brief_ = new QVBoxLayout(left);
  beside_brief_->setContentsMargins(0, 0, 0, 0);
  beside_brief_->setSpacing(0);
  beside_brief_->addWidget(ledger_, 1);
  across_ = new QSplitter(Qt::Horizontal);
  across_->setHandleWidth(1);
  across_->addWidget(left);
  across_->addWidget(sheet_);
  across_->setStretchFactor(1, 1);
  across_->setChildrenCollapsible(false);

  auto* foot = new QWidget;
  auto* foot_row = new QHBoxLayout(foot);
  foot_row->setContentsMargins(14, 2, 14, 3);
  hint_ = new QLabel;
  hint_->setObjectName("hint");
  place_ = new QLabel;
  place_->setObjectName("place");
  foot_row->addWidget(hint_, 1);
  foot_row->addWidget(place_);

  auto* whole = new QWidget;
  auto* column = new QVBoxLayout(whole);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(bars_);
  column->addWidget(progress_);
  column->addWidget(across_, 1);
  column->addWidget(rule_);
  column->addWidget(foot);
  setCentralWidget(whole);
  makeCommands();
  makeParts();
  // What stands beside the brief comes and goes with what is selected; the plan stays where it is.
  int wide = kBriefWide;
  for (int i = 0; i < beside_brief_->count(); ++i)
    if (const QWidget* part = beside_brief_->itemAt(i)->widget())
      wide = std::max(wide, part->minimumSizeHint().width() + kStagePad);
  left->setMinimumWidth(wide);
  across_->setSizes({wide, 1000});
  resize(QSize(1280, 800).boundedTo(screen()->availableGeometry().size()));

  // The letters of the tools are the sheet's: they work at once.
  sheet_->setFocus();
  connect(&workspace_, &Workspace::opened, sheet_, [this] { sheet_->setFocus(); });
  connect(&workspace_, &Workspace::designChanged, this, &MainWindow::sendWish);
  connect(&workspace_, &Workspace::designChanged, this, &MainWindow::takeStoreys);
  connect(&workspace_, &Workspace::viewChanged, this, &MainWindow::sendWish);
  connect(&workspace_, &Workspace::viewChanged, this, &MainWindow::takeStoreys);
  connect(&workspace_, &Workspace::requirementChanged, this, &MainWindow::sendWish);
  connect(&workspace_, &Workspace::selectionChanged, this, &MainWindow::sendWish);
  connect(&workspace_, &Workspace::draggingChanged, this, [this] {
    if (!workspace_.isDragging()) sendWish();
  });
  connect(&workspace_, &Workspace::savedChanged, this, &MainWindow::takeTitle);
  connect(&workspace_, &Workspace::designChanged, this, &MainWindow::takeTitle);
  // A complaint stands until something is done after it.
  connect(&workspace_, &Workspace::complained, this, [this](const QString& sentence) {
    tell(sentence);
    QMetaObject::invokeMethod(
        this, [this, said = hint_->text()] { complaint_ = said; }, Qt::QueuedConnection);
  });
  connect(&workspace_, &Workspace::designChanged, this, [this] {
    if (!complaint_.isEmpty() && hint_->text() == complaint_) hint_->setText(sheet_->tool().hint());
    complaint_.clear();
  });
  connect(&workspace_, &Workspace::told, this, &MainWindow::tell);
  connect(&evaluator_, &Evaluator::failed, this, &MainWindow::tell);
  connect(&evaluator_, &Evaluator::progressed, this, [this](double share, const QString& what) {
    progress_->setValue(static_cast<int>(1000 * share));
    state_->setText(roomSentence(what.toStdString()));
  });
  connect(&evaluator_, &Evaluator::busyChanged, this, [this](bool busy) {
    progress_->setValue(0);
    stop_->setEnabled(busy);
    stop_->setVisible(busy);
    const bool proven = evaluator_.now()->wholly_proven && !evaluator_.now()->rows.empty();
    if (!busy) state_->setText(proven ? tr("proven") : QString());
  });
  connect(sheet_, &SheetView::toolChanged, this,
          [this] { hint_->setText(sheet_->tool().hint()); });
  connect(&workspace_, &Workspace::selectionChanged, this,
          [this] { hint_->setText(sheet_->tool().hint()); });
  connect(sheet_, &SheetView::pointed, this, [this](Vec2 at) {
    place_->setText(QString::fromStdString(edit::placeText(at, shownUnits())));
  });
  connect(ledger_, &LedgerView::showSpot, this, [this](Vec2 at) {
    sheet_->showBox({at - Vec2{4, 4}, at + Vec2{4, 4}});
  });
  hint_->setText(sheet_->tool().hint());
  takeTitle();
  takeStoreys();
  sendWish();
}

// Widgets with something half typed finish while the workspace still is.
MainWindow::~MainWindow() { delete takeCentralWidget(); }

void MainWindow::makeBars() {
  bars_ = new QWidget;
  auto* row = new QHBoxLayout(bars_);
  row->setContentsMargins(14, 4, 14, 4);
  row->setSpacing(4);
  const struct {
    Stage stage;
    QString name;
  } stages[] = {{Stage::survey, tr("Survey")},     {Stage::brief, tr("Brief")},
                {Stage::layout, tr("Layout")},     {Stage::services, tr("Services")},
                {Stage::proof, tr("Proof")},       {Stage::handover, tr("Handover")}};
  for (const auto& [stage, name] : stages) {
    auto* button = new QPushButton(name);
    button->setFlat(true);
    button->setCheckable(true);
    button->setAutoExclusive(true);
    button->setChecked(stage == workspace_.stage());
    button->setObjectName("stage." + name.toLower());
    QFont bold = button->font();  // as it is when chosen
    bold.setBold(true);
    button->setMinimumWidth(QFontMetrics(bold).horizontalAdvance(name) + 2 * kStagePad);
    connect(button, &QPushButton::clicked, this, [this, s = stage] { workspace_.setStage(s); });
    row->addWidget(button);
    stages_.push_back(button);
  }
  connect(&workspace_, &Workspace::stageChanged, this, [this] {
    stages_[static_cast<std::size_t>(workspace_.stage())]->setChecked(true);
  });
  row->addStretch();
  state_ = new QLabel;
  state_->setObjectName("state");
  state_->setForegroundRole(QPalette::Dark);
  row->addWidget(state_);
  stop_ = new QPushButton(tr("Stop"));
  stop_->setFlat(true);
  stop_->setObjectName("stop");
  stop_->hide();
  connect(stop_, &QPushButton::clicked, &evaluator_, &Evaluator::cancel);
  row->addWidget(stop_);
  const auto labelled = [&](const QString& words, const QString& name) {
    auto* label = new QLabel(words);
    auto* box = new QComboBox;
    box->setObjectName(name);
    box->setFrame(false);
    box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    label->setBuddy(box);
    row->addSpacing(10);
    row->addWidget(label);
    row->addWidget(box);
    return box;
  };
  storey_ = labelled(tr("s&torey:"), "storey");
  situation_ = labelled(tr("s&ituation:"), "situation");
  connect(storey_, &QComboBox::activated, this, [this](int index) {
    workspace_.setStorey({storey_->itemData(index).toString().toStdString()});
  });
  connect(situation_, &QComboBox::activated, this, [this](int index) {
    workspace_.setSituation({situation_->itemData(index).toString().toStdString()});
  });
  progress_ = new QProgressBar;
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Progress of the proof"));
}

QMenu* MainWindow::menuOf(const QString& menu) {
  for (QAction* action : menuBar()->actions())
    if (action->text() == menu) return action->menu();
  return menuBar()->addMenu(menu);
}

QAction* MainWindow::addCommand(const QString& menu, const QString& name, const QString& text,
                                const QKeySequence& shortcut, std::function<void()> run) {
  auto* action = new QAction(text, this);
  action->setObjectName(name);
  action->setShortcut(shortcut);
  connect(action, &QAction::triggered, this, std::move(run));
  menuOf(menu)->addAction(action);
  addAction(action);
  return action;
}

QAction* MainWindow::command(const QString& name) const { return findChild<QAction*>(name); }

void MainWindow::makeCommands() {
  const QString file = tr("&File"), edit = tr("&Edit"), view = tr("&View");
  addCommand(file, "file.open", tr("&Open ..."), QKeySequence::Open, [this] { open(); });
  addCommand(file, "file.save", tr("&Save"), QKeySequence::Save, [this] { save(); });
  addCommand(file, "file.save_as", tr("Save &as ..."), QKeySequence::SaveAs, [this] { saveAs(); });
  addCommand(file, "file.quit", tr("&Quit"), QKeySequence::Quit, [this] { close(); });
  QAction* undo = addCommand(edit, "edit.undo", tr("&Undo"), QKeySequence::Undo,
                             [this] { workspace_.undo(); });
  QAction* redo = addCommand(edit, "edit.redo", tr("&Redo"), QKeySequence::Redo,
                             [this] { workspace_.redo(); });
  const auto names = [this, undo, redo] {
    undo->setEnabled(workspace_.canUndo());
    redo->setEnabled(workspace_.canRedo());
    undo->setText(workspace_.canUndo() ? tr("&Undo: %1").arg(workspace_.undoName()) : tr("&Undo"));
    redo->setText(workspace_.canRedo() ? tr("&Redo: %1").arg(workspace_.redoName()) : tr("&Redo"));
  };
  connect(&workspace_, &Workspace::designChanged, this, names);
  names();
  addCommand(view, "view.all", tr("Show &all"), QKeySequence(tr("Home")),
             [this] { sheet_->showAll(); });
  addCommand(view, "view.nearer", tr("&Nearer"), QKeySequence::ZoomIn,
             [this] { sheet_->zoomAt({0.5 * sheet_->width(), 0.5 * sheet_->height()}, 1.4); });
  addCommand(view, "view.farther", tr("&Farther"), QKeySequence::ZoomOut,
             [this] { sheet_->zoomAt({0.5 * sheet_->width(), 0.5 * sheet_->height()}, 1 / 1.4); });
  QAction* blind = addCommand(view, "view.blind_zones", tr("&Blind zones"), {}, [] {});
  blind->setCheckable(true);
  blind->setChecked(true);
  connect(blind, &QAction::toggled, sheet_, &SheetView::setShowsBlindZones);
  QAction* ghosts = addCommand(view, "view.other_storeys", tr("&Other storeys"), {}, [] {});
  ghosts->setCheckable(true);
  ghosts->setChecked(true);
  connect(ghosts, &QAction::toggled, sheet_, &SheetView::setShowsGhosts);
  QAction* legend = addCommand(view, "view.legend", tr("&Legend, scale and north"), {}, [] {});
  legend->setCheckable(true);
  legend->setChecked(true);
  connect(legend, &QAction::toggled, sheet_, &SheetView::setShowsFurniture);
}

// What the rooms say by themselves is English until here.
void MainWindow::tell(const QString& sentence) {
  hint_->setText(roomSentence(sentence.toStdString()));
}

void MainWindow::takeTitle() {
  const QString title = QString::fromStdString(workspace_.design().title);
  const QString file = QString::fromStdString(workspace_.path().filename().string());
  setWindowTitle(tr("%1[*] — Belvedere")
                     .arg(!title.isEmpty()  ? title
                          : !file.isEmpty() ? file
                                            : tr("New design")));
  setWindowModified(!workspace_.isSaved());
}

void MainWindow::takeStoreys() {
  const auto fill = [](QComboBox* box, const std::vector<std::pair<QString, QString>>& items,
                       const QString& current) {
    bool same = box->count() == static_cast<int>(items.size());
    for (int i = 0; same && i < box->count(); ++i)
      same = box->itemText(i) == items[static_cast<std::size_t>(i)].second &&
             box->itemData(i).toString() == items[static_cast<std::size_t>(i)].first;
    if (!same) {
      box->clear();
      for (const auto& [id, words] : items) box->addItem(words, id);
    }
    box->setCurrentIndex(box->findData(current));
  };
  const auto words = [](const std::string& title, const std::string& id) {
    return QString::fromStdString(title.empty() ? id : title);
  };
  std::vector<std::pair<QString, QString>> storeys, situations;
  for (const design::Building& building : workspace_.design().site.buildings)
    for (const design::Storey& storey : building.storeys)
      storeys.emplace_back(QString::fromStdString(storey.id.text),
                           words(storey.title, storey.id.text));
  for (const design::Situation& situation : design::situationsOf(workspace_.design()))
    situations.emplace_back(QString::fromStdString(situation.id.text),
                            words(situation.title, situation.id.text));
  fill(storey_, storeys, QString::fromStdString(workspace_.storey().text));
  fill(situation_, situations, QString::fromStdString(workspace_.situation().text));
}

void MainWindow::sendWish() {
  Wish wish;
  wish.design = workspace_.shareDesign();
  wish.folder = workspace_.folder();
  wish.version = workspace_.version();
  wish.storey = workspace_.storey();
  wish.situation = workspace_.situation();
  wish.requirement = workspace_.requirement();
  wish.imager = workspace_.selectedImager();
  wish.aim = workspace_.selectedAim();
  wish.dragging = workspace_.isDragging();
  evaluator_.wish(std::move(wish));
}

// ---- files --------------------------------------------------------------------------------------

bool MainWindow::openFile(const std::filesystem::path& path) {
  Q_EMIT fileLeft();
  const QString name = QString::fromStdString(path.filename().string());
  try {
    auto file = std::make_shared<design::DesignFile>();
    const std::filesystem::path whole = std::filesystem::absolute(path);
    if (!besideWindow(this, tr("Reading and checking %1 ...").arg(name), CanCancel::yes,
                      [file, whole] { *file = design::readDesign(whole); })) {
      tell(tr("%1 was not opened; what was open before still is.").arg(name));
      return false;
    }
    workspace_.open(std::move(*file));
    Q_EMIT fileOpened();
    return true;
  } catch (const InputError& error) {
    showProblems(tr("%1 has %n problems. Nothing was opened; what was open before still is.",
                    nullptr, static_cast<int>(error.problems().size()))
                     .arg(name),
                 error);
    return false;
  }
}

void MainWindow::showProblems(const QString& heading, const InputError& error) {
  ProblemsDialog(heading, error.problems(), this).exec();
}

void MainWindow::open() {
  if (!maySave()) return;
  const QString path = QFileDialog::getOpenFileName(
      this, tr("Open a design"), QString::fromStdString(workspace_.path().parent_path().string()),
      tr("Designs (*.json);;All files (*)"));
  if (!path.isEmpty()) openFile(path.toStdString());
}

bool MainWindow::save() {
  if (workspace_.path().empty()) return saveAs();
  if (workspace_.changedOnDisk()) {
    const auto answer = QMessageBox::question(
        this, tr("Changed on disk"),
        tr("Another program has changed %1 since it was opened. Save over it?")
            .arg(QString::fromStdString(workspace_.path().string())),
        QMessageBox::Save | QMessageBox::Cancel, QMessageBox::Cancel);
    if (answer != QMessageBox::Save) return false;
  }
  return saveTo(workspace_.path());
}

bool MainWindow::saveTo(const std::filesystem::path& path) {
  try {
    workspace_.save(path, [&](const std::function<void()>& work) {
      besideWindow(this,
                   tr("Writing %1 ...").arg(QString::fromStdString(path.filename().string())),
                   CanCancel::no, work);
    });
  } catch (const InputError& error) {
    QMessageBox::warning(this, tr("Not saved"),
                         QString::fromStdString(error.problems().front().what));
    return false;
  }
  return true;
}

bool MainWindow::saveAs() {
  const std::filesystem::path path =
      askWhereToWrite(this, tr("Save the design"),
                      workspace_.path().empty() ? "design.json" : workspace_.path(), tr("Designs (*.json)"));
  return !path.empty() && saveTo(path);
}

bool MainWindow::maySave() {
  if (workspace_.isSaved()) return true;
  const auto answer = QMessageBox::question(
      this, tr("Not saved"), tr("The design has changes that are not saved."),
      QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, QMessageBox::Save);
  if (answer == QMessageBox::Save) return save();
  return answer == QMessageBox::Discard;
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (maySave()) {
    Q_EMIT fileLeft();
    event->accept();
  } else {
    event->ignore();
  }
}

}  // namespace belvedere::desk
