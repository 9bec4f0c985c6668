// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/underlays.h"

#include <QAction>
#include <QDropEvent>
#include <QFileDialog>
#include <QImageReader>
#include <QKeyEvent>
#include <QMimeData>
#include <QPainter>
#include <QSvgRenderer>
#include <QTimer>

#include "base/problem.h"
#include "desk/attachments.h"
#include "desk/main_window.h"
#include "desk/shown_units.h"
#include "edit/erase.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

constexpr double kFaded = 0.4;
constexpr int kSvgPx = 2400;  // the longer side of a vector drawing's picture

bool isPicture(const QString& path) {
  for (const char* ending : {".png", ".jpg", ".jpeg", ".svg"})
    if (path.endsWith(ending, Qt::CaseInsensitive)) return true;
  return false;
}

QString droppedPicture(const QMimeData* data) {
  for (const QUrl& url : data->urls())
    if (url.isLocalFile() && isPicture(url.toLocalFile())) return url.toLocalFile();
  return {};
}

}  // namespace

Underlays::Underlays(MainWindow& window)
    : QObject(&window), window_(window), workspace_(window.workspace()), sheet_(window.sheet()) {
  sheet_.addOverlay(this, Level::below);
  sheet_.setAcceptDrops(true);
  sheet_.installEventFilter(this);
  const QString menu = tr("&Draw");
  window.addCommand(menu, "survey.underlay", tr("&Underlay ..."), {}, [this] { choose(); });
  window.addCommand(menu, "survey.scale_underlay", tr("Sc&ale the underlay"), {},
                    [this] { run([this] { scale(); }); });
  window.addCommand(menu, "survey.erase_underlay", tr("&Erase the underlay"), {},
                    [this] { run([this] { erase(); }); });
  QAction* show =
      window.addCommand(tr("&View"), "view.underlay", tr("&Underlay"), {}, [] {});
  show->setCheckable(true);
  show->setChecked(true);
  connect(show, &QAction::toggled, this, [this](bool on) {
    shown_ = on;
    sheet_.refresh();
  });
}

Underlays::~Underlays() = default;  // the sheet goes with the window

void Underlays::run(const std::function<void()>& edit) {
  try {
    edit();
  } catch (const InputError& error) {
    workspace_.complain(sentenceOf(error));
  }
}

const Underlays::Picture& Underlays::pictureOf(const design::Underlay& underlay) const {
  Picture& picture = pictures_[underlay.file.sha256];
  if (picture.width > 0) return picture;
  const QString path =
      QString::fromStdString((workspace_.folder() / underlay.file.path).string());
  if (path.endsWith(".svg", Qt::CaseInsensitive)) {
    QSvgRenderer renderer(path);
    const QSizeF size = renderer.defaultSize();
    if (!renderer.isValid() || size.isEmpty()) return picture;
    picture.width = size.width();
    picture.height = size.height();
    picture.image = QImage((size * (kSvgPx / std::max(size.width(), size.height()))).toSize(),
                           QImage::Format_ARGB32_Premultiplied);
    picture.image.fill(Qt::transparent);
    QPainter painter(&picture.image);
    renderer.render(&painter);
  } else {
    QImageReader reader(path);
    reader.setAutoTransform(true);
    picture.image = reader.read();
    picture.width = picture.image.width();
    picture.height = picture.image.height();
  }
  picture.dark = picture.image;
  picture.dark.invertPixels();  // ink on paper stays ink on paper
  return picture;
}

std::optional<edit::PictureFrame> Underlays::frameOf(const design::Underlay& underlay) const {
  const Picture& picture = pictureOf(underlay);
  if (picture.width <= 0) return std::nullopt;
  return edit::pictureFrame(underlay, picture.width, picture.height);
}

const design::Underlay* Underlays::current() const {
  const design::Underlay* found = nullptr;
  for (const design::Underlay& underlay : workspace_.design().site.underlays)
    if (isShown(underlay)) found = &underlay;
  return found;
}

bool Underlays::isShown(const design::Underlay& underlay) const {
  return underlay.storey.empty() || underlay.storey == workspace_.storey();
}

Box2 Underlays::extentM() const {
  Box2 box;
  if (!shown_) return box;
  for (const design::Underlay& underlay : workspace_.design().site.underlays)
    if (const auto frame = isShown(underlay) ? frameOf(underlay) : std::nullopt) {
      const Picture& picture = pictureOf(underlay);
      for (const Vec2 corner : {Vec2{0, 0}, Vec2{picture.width, 0}, Vec2{0, picture.height},
                                Vec2{picture.width, picture.height}})
        box.add(frame->siteOf(corner));
    }
  return box;
}

void Underlays::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                      const drawing::Inks& inks) {
  if (!shown_) return;
  for (const design::Underlay& underlay : workspace_.design().site.underlays) {
    if (!isShown(underlay)) continue;
    const auto frame = frameOf(underlay);
    if (!frame) continue;
    const Picture& picture = pictureOf(underlay);
    const Vec2 corner = to_paper(frame->corner_m);
    const Vec2 across = to_paper(frame->siteOf({picture.width, 0})) - corner;
    const Vec2 down = to_paper(frame->siteOf({0, picture.height})) - corner;
    const bool dark = inks.paper == drawing::Inks::dark().paper;
    canvas.picture(dark ? picture.dark : picture.image, corner, across, down, kFaded);
  }
}

void Underlays::choose() {
  const QString path = QFileDialog::getOpenFileName(
      &window_, tr("A picture of a plan"), {}, tr("Pictures (*.png *.jpg *.jpeg *.svg)"));
  if (!path.isEmpty()) run([&] { add(path.toStdString()); });
}

void Underlays::add(const std::filesystem::path& file) {
  if (workspace_.folder().empty()) workspace_.setFolder(folderForUnsaved());
  design::Underlay trial;
  trial.file = attach(file, workspace_.folder());
  if (!frameOf(trial))
    refuse(tr("%1 is no picture that can be read").arg(words(file.filename().string())));
  edit::Added added =
      edit::withUnderlay(workspace_.design(), workspace_.storey(), trial.file, 1);
  workspace_.apply(tr("Lay a drawing under the plan"), std::move(added.design));
  sheet_.showAll();
  sheet_.refresh();
  scale();
}

void Underlays::scale() {
  if (!current()) refuse(tr("there is no drawing under this storey"));
  sheet_.setTool(std::make_unique<ScaleTool>(sheet_, *this));
  sheet_.setFocus();
}

void Underlays::erase() {
  const design::Underlay* underlay = current();
  if (!underlay) refuse(tr("there is no drawing under this storey"));
  workspace_.apply(tr("Erase the underlay"),
                   edit::erased(workspace_.design(),
                                {{edit::ObjectKind::underlay, underlay->id.text, 0}})
                       .design);
  sheet_.refresh();
}

bool Underlays::eventFilter(QObject*, QEvent* event) {
  if (event->type() == QEvent::DragEnter || event->type() == QEvent::DragMove) {
    auto* drag = static_cast<QDragMoveEvent*>(event);
    if (droppedPicture(drag->mimeData()).isEmpty()) return false;
    drag->acceptProposedAction();
    return true;
  }
  if (event->type() == QEvent::Drop) {
    auto* drop = static_cast<QDropEvent*>(event);
    const QString path = droppedPicture(drop->mimeData());
    if (path.isEmpty()) return false;
    drop->acceptProposedAction();
    run([&] { add(path.toStdString()); });
    return true;
  }
  return false;
}

// ---- scaling ------------------------------------------------------------------------------------

QString ScaleTool::hint() const {
  if (points_.empty())
    return QObject::tr("Scale the drawing: click one end of a length on it that you know.");
  if (points_.size() == 1) return QObject::tr("Click the other end of that length.");
  return QObject::tr("Type how long it is, or where both ends are: 0;0 to 12;0. Enter scales.");
}

QString ScaleTool::asks() const {
  return points_.size() == 2 ? QObject::tr("distance between them") : QString();
}

void ScaleTool::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton) return;
  if (points_.size() == 2) points_.clear();
  points_.push_back(pointer.at_m);
  setWrong({});
  changed();
}

void ScaleTool::move(const Pointer& pointer) {
  here_ = pointer.at_m;
  view().refreshLive();
}

bool ScaleTool::typed(const QString& text) {
  const design::Underlay* underlay = underlays_.current();
  const auto frame = underlay ? underlays_.frameOf(*underlay) : std::nullopt;
  if (!frame || points_.size() != 2) return false;
  const Vec2 a = frame->pictureOf(points_[0]), b = frame->pictureOf(points_[1]);
  std::vector<design::Pin> pins;
  const QStringList ends = text.split(QObject::tr(" to "));
  if (ends.size() == 2) {
    const Vec2 first = edit::placeFrom(ends[0].toStdString(), shownUnits(), std::nullopt);
    pins = {{a, first}, {b, edit::placeFrom(ends[1].toStdString(), shownUnits(), first)}};
  } else {
    pins = edit::pinsByDistance(*frame, a, b, edit::lengthFrom(text.toStdString(), shownUnits()));
  }
  Workspace& workspace = view().workspace();
  workspace.apply(QObject::tr("Scale the underlay"),
                  edit::withPins(workspace.design(), underlay->id, pins));
  points_.clear();
  here_.reset();
  view().showAll();
  view().refresh();
  SheetView& sheet = view();
  QTimer::singleShot(0, &sheet, [&sheet, mine = serial()] {
    auto* tool = dynamic_cast<DrawTool*>(&sheet.tool());
    if (tool && tool->serial() == mine) sheet.setTool(nullptr);
  });
  return true;
}

bool ScaleTool::key(const QKeyEvent& event) {
  if (event.key() != Qt::Key_Backspace || points_.empty()) return false;
  points_.pop_back();
  changed();
  return true;
}

bool ScaleTool::cancel() {
  if (points_.empty()) return false;
  points_.clear();
  changed();
  return true;
}

void ScaleTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                      const drawing::Inks& inks) {
  const double mm = view().mmPerPx();
  for (const Vec2 p : points_) {
    const Vec2 at = to_paper(p);
    canvas.ring(at, 5 * mm, {inks.accent, 0.3});
    canvas.disc(at, 1.2 * mm, inks.accent);
  }
  if (points_.size() == 2)
    canvas.line(to_paper(points_[0]), to_paper(points_[1]), {inks.accent, 0.3});
  if (points_.size() == 1 && here_)
    canvas.line(to_paper(points_[0]), to_paper(*here_), {inks.accent, 0.2, drawing::Dash::dashed});
}

}  // namespace belvedere::desk
