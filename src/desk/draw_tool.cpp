// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/draw_tool.h"

#include <QKeyEvent>
#include <QRegularExpression>
#include <QTimer>

#include "base/problem.h"
#include "desk/room_words.h"
#include "desk/says.h"
#include "desk/sheet_view.h"
#include "desk/shown_units.h"
#include "edit/measure.h"

namespace belvedere::desk {
namespace {

constexpr double kClosePx = 9;      // of the first place, to close
constexpr double kRectanglePx = 6;  // a drag, no click

std::vector<Vec2> rectangle(Vec2 a, Vec2 b) { return {a, {b.x, a.y}, b, {a.x, b.y}}; }

}  // namespace

QString words(const std::string& text) { return QString::fromStdString(text); }

QString sentenceOf(const InputError& error) {
  const Problem& problem = error.problems().front();
  QString sentence = words(problem.what);
  if (!sentence.isEmpty()) sentence[0] = sentence[0].toUpper();
  if (!problem.hint.empty()) sentence += ": " + words(problem.hint);
  return sentence + ".";
}

void refuse(const QString& sentence) {
  throw InputError({{"bad_input", "", sentence.toStdString(), ""}});
}

void putDown(SheetView& view, int serial) {
  QTimer::singleShot(0, &view, [&view, serial] {
    auto* tool = dynamic_cast<DrawTool*>(&view.tool());
    if (tool && tool->serial() == serial) view.setTool(nullptr);
  });
}

// ---- what draws ---------------------------------------------------------------------------------

DrawTool::DrawTool(SheetView& view) : Tool(view) {
  static int last = 0;
  serial_ = ++last;
}

void DrawTool::changed() {
  Q_EMIT view().toolChanged();
  view().refreshLive();
}

bool DrawTool::attempt(const std::function<void()>& edit) {
  try {
    wrong_.clear();
    edit();
    return true;
  } catch (const InputError& error) {
    wrong_ = sentenceOf(error);
    return false;
  }
}

void DrawTool::paintWords(drawing::Canvas& canvas, Vec2 at, const std::string& text,
                          const drawing::Inks& inks) {
  paintSays(canvas, at - Vec2{4, -3}, words(text), inks);  // which keeps off the hand by as much
}

void DrawTool::paintSnap(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                         const drawing::Inks& inks, const edit::Snap& snap) const {
  const double mm = view().mmPerPx();
  const Vec2 at = to_paper(snap.at_m);
  if (snap.kind == edit::SnapKind::free) return;
  const drawing::Stroke stroke{inks.accent, 0.25};
  switch (snap.kind) {
    case edit::SnapKind::end:
    case edit::SnapKind::intersection:
      canvas.box({at - Vec2{4 * mm, 4 * mm}, at + Vec2{4 * mm, 4 * mm}}, stroke);
      break;
    case edit::SnapKind::middle: canvas.ring(at, 4 * mm, stroke); break;
    default:
      canvas.line(at - Vec2{4 * mm, 0}, at + Vec2{4 * mm, 0}, stroke);
      canvas.line(at - Vec2{0, 4 * mm}, at + Vec2{0, 4 * mm}, stroke);
  }
  if (!snap.says.empty()) paintWords(canvas, at + Vec2{10 * mm, -8 * mm}, snapWords(snap).toStdString(), inks);
}

// ---- places -------------------------------------------------------------------------------------

QString PointsTool::hint() const {
  if (points_.empty()) return firstHint();
  if (gives() == Gives::outline && points_.size() < least())
    return QObject::tr("Next corner: click, or type a length, 8 x 6, @2;1 or @5<90. Backspace "
                       "takes the last one back.");
  if (gives() == Gives::line)
    return QObject::tr("Next place: click or type. Enter ends, Backspace takes the last one back.");
  return QObject::tr("Next place: click or type. Enter ends, C or the first place closes, "
                     "Backspace takes the last one back.");
}

QString PointsTool::asks() const {
  return points_.empty() ? QObject::tr("place") : QObject::tr("length or place");
}

edit::Snap PointsTool::placeOf(const Pointer& pointer) const {
  const std::optional<Vec2> start =
      points_.empty() ? std::nullopt : std::optional(points_.back());
  edit::Snap snap = view().snap(pointer, start);
  if (snap.kind == edit::SnapKind::free)  // a file that can be read
    snap.at_m = {edit::tidyLength(snap.at_m.x), edit::tidyLength(snap.at_m.y)};
  if (start && pointer.keys.testFlag(Qt::ShiftModifier)) {
    const design::Building* building =
        design::findBuildingOf(view().workspace().design(), view().workspace().storey());
    std::vector<double> axes_deg{building ? building->turn_deg : 0};
    if (points_.size() > 1)
      axes_deg.insert(axes_deg.begin(),
                      edit::bearingDeg(points_[points_.size() - 2], points_.back()));
    snap.at_m = edit::squareFrom(*start, snap.at_m, axes_deg);
    snap.kind = edit::SnapKind::right_angle;
    snap.says = edit::word(snap.kind);
  }
  return snap;
}

bool PointsTool::closes(Vec2 px) const {
  return points_.size() >= 3 && gives() != Gives::line &&
         norm(view().pxAt(points_.front()) - px) <= kClosePx;
}

void PointsTool::press(const Pointer& pointer) {
  if (pointer.button == Qt::RightButton && !points_.empty()) {
    end(false);
    return;
  }
  if (pointer.button != Qt::LeftButton) return;
  if (pointer.doubled) {
    end(false);
    return;
  }
  if (closes(pointer.at_px)) {
    end(true);
    return;
  }
  here_ = placeOf(pointer);
  if (points_.empty() && gives() == Gives::outline) pressed_px_ = pointer.at_px;
  add(here_->at_m);
}

void PointsTool::move(const Pointer& pointer) {
  if (pressed_px_ && norm(pointer.at_px - *pressed_px_) > kRectanglePx) rectangle_ = true;
  if (rectangle_) {
    Pointer plain = pointer;
    plain.keys &= ~Qt::KeyboardModifiers(Qt::ShiftModifier);
    here_ = placeOf(plain);
  } else {
    here_ = placeOf(pointer);
  }
  look();
}

void PointsTool::release(const Pointer&) {
  pressed_px_.reset();
  if (!rectangle_) return;
  rectangle_ = false;
  const std::vector<Vec2> corners = rectangle(points_.front(), here_->at_m);
  if (!attempt([&] { finish(corners); })) {
    changed();
    return;
  }
  clear();
}

void PointsTool::add(Vec2 at) {
  if (!points_.empty() && points_.back() == at) return;
  points_.push_back(at);
  if (most() > 0 && points_.size() >= most()) {
    end(false);
    return;
  }
  look();
  changed();
}

std::vector<Vec2> PointsTool::withPointer() const {
  if (rectangle_) return rectangle(points_.front(), here_->at_m);
  std::vector<Vec2> all = points_;
  if (here_ && (all.empty() || all.back() != here_->at_m)) all.push_back(here_->at_m);
  return all;
}

// While one draws: what would be wrong with it as it is.
void PointsTool::look() {
  const QString before = wrong();
  const std::vector<Vec2> all = withPointer();
  if (all.size() >= least()) {
    attempt([&] { rehearse(all); });
  } else {
    setWrong({});
  }
  if (wrong() != before) Q_EMIT view().toolChanged();
  view().refreshLive();
}

bool PointsTool::end(bool ring) {
  if (points_.size() < least()) {
    setWrong(QObject::tr("%n places at least are needed.", nullptr, static_cast<int>(least())));
    changed();
    return false;
  }
  std::vector<Vec2> all = points_;
  if (ring && gives() == Gives::line_or_ring) all.push_back(all.front());
  if (!attempt([&] { finish(all); })) {
    changed();
    return false;
  }
  clear();
  return true;
}

void PointsTool::clear() {
  points_.clear();
  pressed_px_.reset();
  rectangle_ = false;
  setWrong({});
  changed();
}

bool PointsTool::key(const QKeyEvent& event) {
  switch (event.key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (points_.empty()) return false;
      end(false);
      return true;
    case Qt::Key_C:
      if (points_.size() < 3 || gives() == Gives::line || event.modifiers() != Qt::NoModifier)
        return false;
      end(true);
      return true;
    case Qt::Key_Backspace:
      if (points_.empty()) return false;
      points_.pop_back();
      look();
      changed();
      return true;
    default: return false;
  }
}

bool PointsTool::typed(const QString& text) {
  const edit::Units units = shownUnits();
  const std::string line = text.trimmed().toStdString();
  const std::optional<Vec2> last =
      points_.empty() ? std::nullopt : std::optional(points_.back());
  if (line.find(';') != std::string::npos || line.starts_with("@")) {
    add(edit::placeFrom(line, units, last));
    return true;
  }
  static const QRegularExpression by("^(.+?)\\s*[xX×]\\s*(.+)$");
  if (const auto size = by.match(text.trimmed()); size.hasMatch() && points_.size() == 1 &&
                                                  gives() == Gives::outline) {
    const Vec2 across{edit::lengthFrom(size.captured(1).toStdString(), units),
                      edit::lengthFrom(size.captured(2).toStdString(), units)};
    finish(rectangle(points_.front(), points_.front() + across));
    clear();
    return true;
  }
  const double length_m = edit::lengthFrom(line, units);
  if (!last) refuse(QObject::tr("the first place is a click, or typed like 4.5;3"));
  if (!here_ || here_->at_m == *last)
    refuse(QObject::tr("point in the direction first, or type it too: @5<90"));
  add(edit::placeAt(*last, edit::bearingDeg(*last, here_->at_m), length_m));
  return true;
}

bool PointsTool::cancel() {
  if (points_.empty()) return false;
  clear();
  return true;
}

void PointsTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                       const drawing::Inks& inks) {
  const double mm = view().mmPerPx();
  const std::vector<Vec2> all = withPointer();
  if (!points_.empty()) {
    const bool outline = gives() == Gives::outline && all.size() > 2;
    canvas.path(to_paper(all), rectangle_, {inks.accent, 0.35});
    if (outline && !rectangle_)
      canvas.line(to_paper(all.back()), to_paper(all.front()),
                  {inks.accent, 0.2, drawing::Dash::dashed});
    for (const Vec2 p : points_) canvas.disc(to_paper(p), 2.5 * mm, inks.accent);
    if (here_ && here_->at_m != points_.back()) {
      const Vec2 from = points_.back(), to = here_->at_m;
      const edit::Units units = shownUnits();
      std::string says;
      if (rectangle_) {
        says = edit::lengthText(std::abs(to.x - from.x), units) + " x " +
               edit::lengthText(std::abs(to.y - from.y), units);
      } else {
        says = edit::lengthText(norm(to - from), units) + "  " +
               edit::angleText(edit::bearingDeg(from, to));
      }
      const Vec2 middle = (to_paper(from) + to_paper(to)) * 0.5;
      paintWords(canvas, middle + Vec2{8 * mm, 14 * mm}, says, inks);
    }
  }
  paintMore(canvas, to_paper, inks);
  if (here_) paintSnap(canvas, to_paper, inks, *here_);
}

}  // namespace belvedere::desk
