// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/first_page.h"

#include <QAction>
#include <QCoreApplication>
#include <QDir>
#include <QEvent>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "desk/main_window.h"
#include "desk/new_design.h"
#include "desk/recent_files.h"

namespace belvedere::desk {
namespace {

constexpr int kFoldersUp = 5;      // from the binary to the sources' folder
constexpr int kRecentMost = 5, kColumnPx = 560;

QString titleOf(const std::filesystem::path& path) {
  QFile file(QString::fromStdString(path.string()));
  if (!file.open(QIODevice::ReadOnly)) return {};
  return QJsonDocument::fromJson(file.readAll()).object().value("title").toString();
}

QLabel* heading(const QString& words, double size_pt) {
  auto* label = new QLabel(words);
  QFont font = label->font();
  font.setPointSizeF(size_pt);
  label->setFont(font);
  return label;
}

}  // namespace

std::vector<std::filesystem::path> examples() {
  QStringList folders{"../share/belvedere/examples"};
  QString up;
  for (int i = 0; i < kFoldersUp; ++i, up += "../") folders << up + "examples";
  const QDir binary(QCoreApplication::applicationDirPath());
  for (const QString& folder : folders) {
    const QDir dir(binary.absoluteFilePath(folder));
    std::vector<std::filesystem::path> all;
    for (const QString& name : dir.entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
      const QString file = QDir::cleanPath(dir.absoluteFilePath(name + "/design.json"));
      if (QFileInfo::exists(file)) all.push_back(file.toStdString());
    }
    if (!all.empty()) return all;
  }
  return {};
}

FirstPage::FirstPage(MainWindow& window) : QScrollArea(&window.sheet()), window_(window) {
  setObjectName("first_page");
  setAccessibleName(tr("Start"));
  setFrameShape(QFrame::NoFrame);
  setWidgetResizable(true);
  window_.sheet().installEventFilter(this);
  // Whatever one does without choosing here is done to a design with models to begin with.
  window_.workspace().start(newDesign());
  connect(&window_.workspace(), &Workspace::designChanged, this, &FirstPage::leave);
  connect(&window_.sheet(), &SheetView::toolChanged, this, [this] {
    if (isVisible() && !window_.sheet().tool().asks().isEmpty()) leave();
  });
  setGeometry(window_.sheet().rect());
  takeWhetherNeeded();
}

bool FirstPage::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &window_.sheet() && event->type() == QEvent::Resize)
    setGeometry(window_.sheet().rect());
  if (watched == &window_.sheet() && event->type() == QEvent::Show) takeWhetherNeeded();
  return QScrollArea::eventFilter(watched, event);
}

void FirstPage::takeWhetherNeeded() {
  if (wanted_ && (isHidden() || !content_)) fill();
  setVisible(wanted_);
}

void FirstPage::choice(QVBoxLayout& column, const QString& name, const QString& words,
                       const QString& about, std::function<void()> take) {
  auto* button = new QPushButton(words);
  button->setObjectName(name);
  button->setFlat(true);
  button->setStyleSheet("text-align: left; padding: 3px 0px; color: palette(window-text);");
  button->setToolTip(about);
  button->setAccessibleDescription(about);
  connect(button, &QPushButton::clicked, this, std::move(take));
  column.addWidget(button);
}

void FirstPage::leave() {
  wanted_ = false;
  hide();
}

void FirstPage::fill() {
  content_ = new QWidget;
  auto* outer = new QHBoxLayout(content_);
  outer->addStretch();
  auto* narrow = new QWidget;
  narrow->setMaximumWidth(kColumnPx);
  narrow->setMinimumWidth(kColumnPx * 2 / 3);
  outer->addWidget(narrow, 1);
  outer->addStretch();
  auto* column = new QVBoxLayout(narrow);
  column->setContentsMargins(20, 40, 20, 40);
  column->setSpacing(2);
  column->addWidget(heading(tr("No design is open"), 20));
  auto* first = new QLabel(tr("Draw a site, say what must be seen, and place what sees it. "
                              "Begin with one of these."));
  first->setWordWrap(true);
  column->addWidget(first);
  column->addSpacing(18);
  column->addWidget(heading(tr("New"), 11));
  for (const char* name : {"survey.underlay", "file.new_from_picture"})
    if (QAction* command = window_.command(name))
      choice(*column, "first.picture", tr("From a picture of a plan ..."),
             tr("A drawing or photograph of the plan, brought to scale by two points"),
             [command] { command->trigger(); });
  choice(*column, "first.empty", tr("An empty sheet"), tr("Draw the site yourself"), [this] {
    leave();
    window_.sheet().setFocus();
  });
  choice(*column, "first.open", tr("Open a file ..."), {},
         [this] { window_.command("file.open")->trigger(); });
  const QStringList recent = RecentFiles::paths();
  int told = 0;
  for (const QString& path : recent) {
    if (!QFileInfo::exists(path) || told == kRecentMost) continue;
    if (told++ == 0) {
      column->addSpacing(14);
      column->addWidget(heading(tr("Worked on lately"), 11));
    }
    choice(*column, "first.recent", QFileInfo(path).fileName() + "   " + QFileInfo(path).path(),
           path, [this, path] { window_.openFile(path.toStdString()); });
  }
  const auto all = examples();
  if (!all.empty()) {
    column->addSpacing(14);
    column->addWidget(heading(tr("Examples"), 11));
  }
  for (const std::filesystem::path& path : all) {
    const QString title = titleOf(path);
    choice(*column, "first.example",
           title.isEmpty() ? QString::fromStdString(path.parent_path().filename().string()) : title,
           QString::fromStdString(path.string()), [this, path] { window_.openFile(path); });
  }
  column->addStretch();
  setWidget(content_);
}

}  // namespace belvedere::desk
