// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet: the plan as drawing board. Painted by the drawing room in layers, so that a drag
// repaints only what moves:
//   below   paper, underlay, other storeys as ghosts, slab             kept as a picture
//   wash    margin and reasons of the shown requirements               kept; anew with each look:
//           from the lattice at once, as areas with contour lines when the hand rests
//   above   light by night, walls, solids, zones' outlines and names,  kept as a picture
//           blind zones, dials of what is not selected
//   live    served outlines, overlays (sections, threads of prints), dials, the tool's own
// At the foot of the view scale bar, north and legend (sheet_furniture.h).
// Words keep off whatever lies on the sheet. While a hand drags, what moved waits a few milliseconds
// for the look at it, so that most moves are painted once.
// Space or the middle button pans, the wheel zooms at the pointer.
#pragma once

#include <QImage>
#include <QPixmap>
#include <QTimer>
#include <QWidget>

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "desk/evaluator.h"
#include "desk/sheet_furniture.h"
#include "desk/tool.h"
#include "desk/workspace.h"
#include "drawing/live_wash.h"
#include "drawing/sheet_parts.h"
#include "edit/snap.h"

namespace belvedere::desk {

// Something that lies on the sheet and paints itself with it: folded sections, prints, underlays.
// Of several under the pointer the last added gets it first.
class Overlay {
 public:
  virtual ~Overlay() = default;
  virtual void paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                     const drawing::Inks& inks) = 0;
  // The pointer: press says whether it is taken; then moves and the release come here too.
  virtual bool press(const Pointer&) { return false; }
  virtual void move(const Pointer&) {}
  virtual void release(const Pointer&) {}
  // What of the site it lies on and no object says: shown whole, the plan brings it into view.
  virtual Box2 extentM() const { return {}; }
  // What of the paper it lies on: words keep off.
  virtual std::vector<Ring> covers(const drawing::ToPaper&) const { return {}; }
  // Shape over it; nothing where the pointer is not its.
  virtual std::optional<Qt::CursorShape> cursorAt(const Pointer&) { return std::nullopt; }
};
// Below the sheet's kept pictures; folded onto it, below the dials; or on top of all.
enum class Level { below, folded, above };

class SheetView : public QWidget {
  Q_OBJECT

 public:
  SheetView(Workspace& workspace, Evaluator& evaluator, QWidget* parent = nullptr);
  ~SheetView() override;

  static constexpr double kSelectedDialMm = 9;  // radius; a hand takes its knobs
  Workspace& workspace() const { return workspace_; }
  Evaluator& evaluator() const { return evaluator_; }

  // ---- tools and overlays
  void setTool(std::unique_ptr<Tool> tool);  // null: the pointer (select, move, aim)
  Tool& tool() const { return *tool_; }
  void addOverlay(Overlay* overlay, Level level);  // not owned; remove before it goes
  void removeOverlay(Overlay* overlay);

  // ---- where one looks
  double pxPerM() const { return px_per_m_; }
  Vec2 siteAt(Vec2 px) const;
  Vec2 pxAt(Vec2 site_m) const;
  double metres(double px) const { return px / px_per_m_; }
  Box2 shownM() const;
  void zoomAt(Vec2 px, double factor);
  void panBy(Vec2 px);
  void showBox(const Box2& site_m);    // all of it, with a margin
  void showAll();                      // the shown storey
  void showObject(const edit::ObjectRef& ref);
  drawing::ToPaper toPaper() const;
  double mmPerPx() const;

  // ---- snapping
  edit::Snap snap(const Pointer& pointer, std::optional<Vec2> start = std::nullopt,
                  const edit::Selection& except = {}) const;
  bool snapping() const { return snapping_; }
  void setSnapping(bool on);
  double gridM() const { return grid_m_; }
  void setGridM(double grid_m);

  // ---- what is drawn
  const drawing::Sheet& sheet() const { return sheet_; }  // as drawn now
  bool dark() const;
  // Of the shown storey, widget mm. Good until the design, the view or the selection changes.
  const std::vector<drawing::Dial>& dials() const;
  bool showsBlindZones() const { return blind_zones_; }
  void setShowsBlindZones(bool on);
  // Cables can be taken by the hand only while their ways are shown.
  bool showsCables() const { return cables_; }
  void setShowsCables(bool on) { cables_ = on; }
  bool showsGhosts() const { return ghosts_; }
  void setShowsGhosts(bool on);
  const SheetFurniture& furniture() const { return furniture_; }
  void setShowsFurniture(bool on);

  // Kept pictures are painted anew.
  void refresh();
  // Only what is live.
  void refreshLive();
  // What lies on the sheet moved: words find their places anew.
  void refreshWords();
  // Milliseconds of the last paint, for the bench.
  double lastPaintMs() const { return last_paint_ms_; }

 Q_SIGNALS:
  void toolChanged();
  void pointed(Vec2 site_m);           // the pointer is there; for the line under the sheet
  void rested(Vec2 site_m);            // for a while
  void viewMoved();                    // pan or zoom
  void footChanged();                  // what stands at the foot got another height
  void painted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
  void leaveEvent(QEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool event(QEvent* event) override;

 private:
  void poseImagers(const design::Design& before);
  bool isLive(const drawing::Dial& dial) const;
  Pointer pointerOf(const QMouseEvent& event, bool doubled = false) const;
  drawing::Layout layout() const;
  void takeDesign();
  void takeEvaluation();
  void takeNight();
  void paintBelow(QPainter& painter);
  void paintAbove(QPainter& painter);
  void paintLive(QPainter& painter);
  template <class Paint>
  void keep(QPixmap& pixmap, Paint paint);
  void keepWash();
  void drawWash(QPainter& painter) const;
  void keepOffAll(const drawing::ToPaper& to_paper, drawing::Taken& taken) const;
  void paintInMm(QPainter& painter, const std::function<void(drawing::Canvas&)>& paint) const;
  const drawing::PlanShapes* knownShapes(const design::StoreyId& storey) const;
  const drawing::PlanShapes& shapesOf(const design::Storey& storey);
  void shapeGhosts();
  void viewChanged();
  void takeFoot();
  bool handIsBusy() const;
  void updateCursor(const Pointer& pointer);
  QString stateOfWash() const;

  Workspace& workspace_;
  Evaluator& evaluator_;
  std::unique_ptr<Tool> tool_;
  struct Laid {
    Overlay* overlay = nullptr;
    Level level = Level::above;
  };
  std::vector<Laid> overlays_;
  Overlay* taken_by_ = nullptr;        // the overlay that has the pointer

  Vec2 centre_m_;
  double px_per_m_ = 40;
  bool fitted_ = false;                // shows all until a hand moves the view
  int foot_px_ = 0, fitted_foot_px_ = 0;  // of the furniture: as painted last; as shown whole
  bool resized_ = false;               // and the legend has not been laid out since
  QPoint corner_px_;                   // of the sheet in its window
  QSize window_px_;
  bool panning_ = false, space_ = false;
  Vec2 pan_from_px_;
  bool snapping_ = true, blind_zones_ = true, ghosts_ = true, cables_ = false;
  double grid_m_ = 0;

  drawing::Sheet sheet_;
  std::shared_ptr<const Evaluation> evaluation_;
  std::shared_ptr<const std::vector<drawing::ZoneMap>> shown_maps_;  // that sheet_ holds
  struct KnownShapes {
    design::StoreyId storey;
    drawing::PlanShapes shapes;
  };
  std::vector<KnownShapes> shapes_;
  mutable std::optional<edit::SnapSet> snap_set_;

  SheetFurniture furniture_;
  struct KnownDials {
    Vec2 centre_m;
    double px_per_m = 0;
    QSize size;
    std::vector<drawing::Dial> dials;
  };
  mutable std::optional<KnownDials> dials_;
  std::vector<design::HousingId> moving_;  // not selected, and changed in this drag

  QPixmap below_, above_;
  QImage wash_;
  QRect wash_box_;                     // what of it is painted, device px
  drawing::HatchSheets hatches_;
  drawing::Taken written_;             // places of the words in above_, which dials' names keep off
  drawing::Occurs wash_shows_, above_shows_;
  bool below_stale_ = true, wash_stale_ = true, above_stale_ = true;
  Vec2 kept_centre_m_;                 // the kept pictures' view
  double kept_px_per_m_ = 0;
  QTimer settle_, rest_, ghosts_due_, live_due_;
  double last_paint_ms_ = 0, last_kept_ms_ = 0;  // of the last paint; of all kept pictures
};

}  // namespace belvedere::desk
