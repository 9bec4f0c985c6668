// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sun_page.h"

#include <QHBoxLayout>
#include <QHelpEvent>
#include <QLabel>
#include <QPainter>
#include <QProgressBar>
#include <QPushButton>
#include <QToolTip>
#include <QVBoxLayout>

#include <system_error>

#include "desk/aim_fields.h"
#include "desk/colours.h"
#include "desk/room_sentences.h"
#include "desk/save_file.h"

namespace belvedere::desk {
namespace {

// The imager that is selected, or the only one of the selected housing.
std::string imagerOf(const Workspace& workspace) {
  const std::vector<edit::ImagerRef> imagers = selectedImagers(workspace);
  return imagers.size() == 1 ? edit::nameOf(imagers.front()) : std::string();
}

constexpr double kMmPerInch = 25.4;
constexpr int kLeastHighPx = 260;

QString text(const std::string& words) { return QString::fromStdString(words); }

}  // namespace

// ---- the chart ----------------------------------------------------------------------------------

SunChartView::SunChartView(QWidget* parent) : QWidget(parent) {
  setObjectName("sun.chart");
  setMinimumHeight(kLeastHighPx);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void SunChartView::show(std::shared_ptr<const SunAnswer> answer) {
  answer_ = std::move(answer);
  update();
}

double SunChartView::mmPerPx() const { return kMmPerInch / logicalDpiX(); }

QString SunChartView::wordsAt(QPoint at) const {
  if (!answer_) return {};
  const double mm = mmPerPx();
  const auto words = drawing::sunWordsAt(answer_->sheet, {at.x() * mm, at.y() * mm}, width() * mm, height() * mm);
  return words ? text(*words) : QString();
}

void SunChartView::paintEvent(QPaintEvent*) {
  if (!answer_) return;
  drawing::SunSheet sheet = answer_->sheet;
  sheet.inks = inksOf(palette());
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double mm = mmPerPx();
  painter.scale(1 / mm, 1 / mm);
  drawing::paintSunSheet(painter, sheet, width() * mm, height() * mm);
}

bool SunChartView::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip) return QWidget::event(event);
  const auto* help = static_cast<QHelpEvent*>(event);
  const QString words = wordsAt(help->pos());
  if (words.isEmpty()) QToolTip::hideText();
  else QToolTip::showText(help->globalPos(), words, this);
  return true;
}

// ---- the page -----------------------------------------------------------------------------------

SunPage::SunPage(Workspace& workspace) : workspace_(workspace) {
  setObjectName("sun");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  chart_ = new SunChartView;
  column->addWidget(chart_, 1);
  const auto label = [&](const char* name) {
    auto* made = new QLabel;
    made->setObjectName(name);
    made->setWordWrap(true);
    column->addWidget(made);
    return made;
  };
  words_ = label("sun.words");
  words_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  words_->setAccessibleName(tr("The sun's year in words"));
  state_ = label("sun.state");
  state_->setForegroundRole(QPalette::Dark);
  progress_ = new QProgressBar;
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Progress of the sun's year"));
  column->addWidget(progress_);
  auto* row = new QHBoxLayout;
  const auto button = [&](const QString& words, const char* name) {
    auto* made = new QPushButton(words);
    made->setObjectName(name);
    row->addWidget(made);
    return made;
  };
  file_ = button(tr("To a &file ..."), "sun.file");
  again_ = button(tr("Work it &out"), "sun.again");
  stop_ = button(tr("S&top"), "sun.stop");
  row->addStretch();
  column->addLayout(row);
  column->addStretch();
  setFocusProxy(words_);
  setProperty("help", "findings.md#sun_in_frame");

  connect(file_, &QPushButton::clicked, this, &SunPage::askFile);
  connect(again_, &QPushButton::clicked, this, [this] {
    stopped_ = false;
    wished_version_ = 0;
    wish();
  });
  connect(stop_, &QPushButton::clicked, this, [this] {
    stopped_ = true;
    maker_.cancel();
    take();
  });
  for (const auto signal : {&Workspace::designChanged, &Workspace::draggingChanged,
                            &Workspace::selectionChanged, &Workspace::viewChanged})
    connect(&workspace_, signal, this, &SunPage::wish);
  connect(&maker_, &SunMaker::made, this, &SunPage::take);
  connect(&maker_, &SunMaker::busyChanged, this, &SunPage::take);
  connect(&maker_, &SunMaker::progressed, this,
          [this](double share) { progress_->setValue(static_cast<int>(1000 * share)); });
  connect(&maker_, &SunMaker::failed, this, [this](const QString& sentence) {
    failed_ = sentence;
    take();
  });
}

void SunPage::showEvent(QShowEvent* event) {
  wish();
  take();
  QWidget::showEvent(event);
}

void SunPage::wish() {
  if (!isVisible() || workspace_.isDragging()) return;
  const std::string imager = imagerOf(workspace_);
  const design::Situation situation = workspace_.shownSituation();
  const bool same = wished_version_ == workspace_.version() && wished_imager_ == imager &&
                    wished_situation_ == situation.id;
  if (!same && !imager.empty() && workspace_.design().site.place) {
    stopped_ = false;
    failed_.clear();
    wished_version_ = workspace_.version();
    wished_imager_ = imager;
    wished_situation_ = situation.id;
    maker_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version(), situation, imager});
  }
  take();
}

bool SunPage::isOfWhatIsShown() const {
  const auto answer = maker_.now();
  return answer && answer->imager == imagerOf(workspace_) && workspace_.design().site.place;
}

void SunPage::take() {
  if (!isVisible()) return;
  const bool shown = isOfWhatIsShown();
  const auto answer = shown ? maker_.now() : nullptr;
  chart_->show(answer);
  chart_->setVisible(shown);
  QStringList words;
  if (shown)
    for (const drawing::SunPanel& panel : answer->sheet.panels)
      words << tr("%1: %2.").arg(text(panel.heading), roomSentence(panel.words));
  words_->setText(words.join("\n"));
  words_->setVisible(shown);
  chart_->setAccessibleName(shown ? text(answer->sheet.title) : tr("The sun's year"));
  chart_->setAccessibleDescription(words.join(" "));
  const bool current = shown && answer->version == workspace_.version() &&
                       answer->situation == workspace_.shownSituation().id;
  QString state;
  if (!workspace_.design().site.place)
    state = tr("The site has no place, so that nobody can tell where the sun stands. Its file says so "
               "under site/place: lat_deg, lon_deg and north_deg.");
  else if (imagerOf(workspace_).empty())
    state = tr("Select an imager: its year of sun is drawn here.");
  else if (stopped_)
    state = tr("Stopped.");
  else if (!failed_.isEmpty())
    state = failed_;
  else if (!current && shown)
    state = tr("Of the design before the last changes.");
  else if (!current)
    state = tr("Being worked out.");
  state_->setText(state);
  state_->setVisible(!state.isEmpty());
  const bool busy = maker_.isBusy() && !current;
  if (!busy) progress_->setValue(0);
  stop_->setVisible(busy && !stopped_);
  again_->setVisible(stopped_);
  file_->setVisible(shown);
}

void SunPage::askFile() {
  std::filesystem::path beside = "sun-" + imagerOf(workspace_) + ".pdf";
  if (!workspace_.path().empty()) beside = workspace_.path().parent_path() / beside;
  const std::filesystem::path path = askWhereToWrite(this, tr("The sun's year to a file"), beside,
                                                     tr("PDF (*.pdf);;SVG (*.svg);;PNG (*.png)"));
  if (!path.empty()) writeTo(path);
}

void SunPage::writeTo(const std::filesystem::path& path) {
  if (!isOfWhatIsShown()) return;
  try {
    drawing::writeSunSheet(maker_.now()->sheet, path);
    workspace_.tell(tr("Written: %1").arg(QString::fromStdString(path.string())));
  } catch (const std::system_error& error) {
    workspace_.complain(tr("Not written: %1").arg(QString::fromStdString(error.what())));
  }
}

}  // namespace belvedere::desk
