// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet while a hand drags and when it rests; what stands at its foot; what the window's widgets
// paint in both palettes.
#include <QAbstractItemView>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPaintEngine>
#include <QPainter>
#include <QProgressDialog>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTimer>

#include <atomic>
#include <cmath>
#include <map>

#include "base/problem.h"
#include "base/units.h"
#include "desk/beside.h"
#include "desk/colours.h"
#include "desk/section_overlay.h"
#include "desk_test_tools.h"
#include "edit/aim.h"

namespace belvedere::desk {
namespace {

// WCAG 2.1, "relative luminance" and "contrast ratio" (W3C, 2018); from memory.
double luminance(QRgb c) {
  const auto part = [](int v) {
    const double share = v / 255.0;
    return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(qRed(c)) + 0.7152 * part(qGreen(c)) + 0.0722 * part(qBlue(c));
}
double contrast(QRgb a, QRgb b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

// Of a widget's picture: its commonest colour, and the greatest contrast to it. The edges of letters
// are mixed with the paper; their stems are not.
double paintedContrast(QWidget& widget) {
  const QImage image = widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
  std::map<QRgb, int> counts;
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) ++counts[image.pixel(x, y)];
  QRgb paper = 0;
  int most = 0;
  for (const auto& [colour, count] : counts)
    if (count > most) {
      most = count;
      paper = colour;
    }
  double best = 1;
  for (const auto& [colour, count] : counts) best = std::max(best, contrast(colour, paper));
  return best;
}

QString wordsIn(const QWidget* widget) {
  if (auto* label = qobject_cast<const QLabel*>(widget)) return label->text();
  if (auto* button = qobject_cast<const QPushButton*>(widget)) return button->text();
  if (auto* box = qobject_cast<const QComboBox*>(widget)) return box->currentText();
  if (auto* field = qobject_cast<const QLineEdit*>(widget))
    return field->text().isEmpty() ? field->placeholderText() : field->text();
  if (auto* row = qobject_cast<const LedgerRowView*>(widget)) return row->accessibleName();
  if (auto* list = qobject_cast<const QAbstractItemView*>(widget))
    return list->model() && list->model()->rowCount() > 0 ? "list" : "";
  return {};
}

// The knob of the first imager on the sheet, selected; px.
std::optional<QPoint> knobOf(MainWindow& window, edit::ImagerRef& imager) {
  const design::Housing& housing = window.workspace().design().housings.front();
  imager = {housing.id, housing.imagers.front().slot, 0};
  window.workspace().select({{edit::ObjectKind::housing, housing.id.text, imager.slot}});
  for (const drawing::Dial& dial : window.sheet().dials())
    if (dial.housing->id == housing.id)
      for (const drawing::Knob& knob : drawing::knobsOf(dial))
        if (knob.slot == imager.slot) {
          const Vec2 px = knob.at / window.sheet().mmPerPx();
          return QPoint(qRound(px.x), qRound(px.y));
        }
  return std::nullopt;
}

void moveTo(QWidget& widget, QPoint at) {
  QMouseEvent move(QEvent::MouseMove, at, widget.mapToGlobal(at), Qt::NoButton, Qt::LeftButton, {});
  QCoreApplication::sendEvent(&widget, &move);
}

// Takes down what is written on it, and in which face.
class Recorder : public QPaintDevice, public QPaintEngine {
 public:
  explicit Recorder(QSize size) : QPaintEngine(AllFeatures), size_(size) {}
  std::vector<std::pair<QString, QFont>> texts;

  QPaintEngine* paintEngine() const override { return const_cast<Recorder*>(this); }
  int metric(PaintDeviceMetric metric) const override {
    switch (metric) {
      case PdmWidth: return size_.width();
      case PdmHeight: return size_.height();
      case PdmWidthMM: return size_.width() * 254 / 960;
      case PdmHeightMM: return size_.height() * 254 / 960;
      case PdmNumColors: return 1 << 24;
      case PdmDepth: return 32;
      case PdmDpiX: case PdmDpiY: case PdmPhysicalDpiX: case PdmPhysicalDpiY: return 96;
      case PdmDevicePixelRatio: return 1;
      case PdmDevicePixelRatioScaled: return static_cast<int>(devicePixelRatioFScale());
    }
    return 0;
  }
  bool begin(QPaintDevice*) override { return true; }
  bool end() override { return true; }
  void updateState(const QPaintEngineState&) override {}
  void drawPixmap(const QRectF&, const QPixmap&, const QRectF&) override {}
  void drawImage(const QRectF&, const QImage&, const QRectF&, Qt::ImageConversionFlags) override {}
  void drawPath(const QPainterPath&) override {}
  void drawPolygon(const QPointF*, int, PolygonDrawMode) override {}
  void drawTextItem(const QPointF&, const QTextItem& item) override {
    texts.emplace_back(item.text(), item.font());
  }
  Type type() const override { return User; }

 private:
  QSize size_;
};

}  // namespace

class SheetTest : public QObject {
  Q_OBJECT

 private Q_SLOTS:
  // Property: what the wash is drawn from is said in the window's own letters, whatever the drawing
  // under it is lettered in.
  void theStateOfTheWashIsInTheWindowsLetters() {
    auto window = windowWith("shop/design.json");
    SheetView& sheet = window->sheet();
    QVERIFY(QTest::qWaitFor([&] { return !sheet.sheet().maps.empty(); }, 20'000));
    window->workspace().setDragging(true);
    Recorder recorder(sheet.size());
    sheet.render(&recorder);
    window->workspace().setDragging(false);
    int said = 0;
    for (const auto& [text, font] : recorder.texts) {
      if (!text.contains("spots")) continue;
      ++said;
      QCOMPARE(font.family(), sheet.font().family());
      QCOMPARE(font.pointSizeF(), sheet.font().pointSizeF());
    }
    QVERIFY(said > 0);
  }

  // Property: a requirement that is selected where it is not asked for says so on the sheet.
  void whatIsNotAskedForHereIsSaid() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    const design::Requirement* day_only = nullptr;
    design::SituationId elsewhere;
    for (const design::Requirement& requirement : workspace.design().brief)
      for (const design::Situation& situation : design::situationsOf(workspace.design())) {
        const auto all = design::situationsOf(workspace.design(), requirement);
        if (requirement.kind == design::RequirementKind::see && !day_only &&
            std::none_of(all.begin(), all.end(), [&](const auto& s) { return s.id == situation.id; })) {
          day_only = &requirement;
          elsewhere = situation.id;
        }
      }
    QVERIFY(day_only);
    workspace.selectRequirement(day_only->id);
    const auto says = [&] {
      Recorder recorder(window->sheet().size());
      window->sheet().render(&recorder);
      return std::any_of(recorder.texts.begin(), recorder.texts.end(),
                         [](const auto& text) { return text.first.contains("not asked for"); });
    };
    QVERIFY(!says());
    workspace.setSituation(elsewhere);
    QVERIFY(says());
  }

  // Property: while the hand is down every row of the brief is a preview of the design as it is at
  // that moment and says so, the wash is painted without areas, and the picture on the sheet follows;
  // once it rests, all is proven, and the areas are those of the maps shown.
  void aDragShowsPreviewThenProof() {
    auto window = windowWith("ferry_terminal/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    QVERIFY(waitForProof(*window));
    edit::ImagerRef imager;
    auto knob = knobOf(*window, imager);
    QVERIFY(knob);
    // The folded section lies on the axis like the knob: the knob is taken all the same.
    auto* section = sheet.findChild<SectionOverlay*>();
    QVERIFY(section);
    QVERIFY(QTest::qWaitFor([&] { return section->section() != nullptr; }, 10'000));
    const double tilt_deg = edit::partsOf(workspace.design(), imager)->aim->tilt_deg;
    QTest::mousePress(&sheet, Qt::LeftButton, {}, *knob);
    const Vec2 middle = sheet.pxAt(workspace.design().housings.front().mount.fixing_m.xy());
    const double start = std::atan2(knob->x() - middle.x, middle.y - knob->y());
    QImage before = sheet.grab().toImage();
    const auto situation = workspace.situation();
    for (int i = 1; i <= 4; ++i) {
      const double angle = start + degToRad(5 * i);
      moveTo(sheet, {qRound(middle.x + 80 * std::sin(angle)), qRound(middle.y - 80 * std::cos(angle))});
      QVERIFY(workspace.isDragging());
      const quint64 version = workspace.version();
      QVERIFY(QTest::qWaitFor(
          [&] {
            const auto now = window->evaluator().now();
            return std::all_of(now->rows.begin(), now->rows.end(), [&](const LedgerRow& row) {
              return row.proof.kind != design::RequirementKind::see || !row.proof.without.empty() ||
                     (row.known == Known::preview && row.version == version);
            });
          },
          20'000));
      const auto now = window->evaluator().now();
      QVERIFY(!now->wholly_proven);
      QVERIFY(!now->areas);
      for (const design::Requirement& requirement : workspace.design().brief)
        if (requirement.kind == design::RequirementKind::see) {
          const QString words = window->ledger().wordsOf(requirement.id, situation);
          if (!words.isEmpty()) QVERIFY2(words.startsWith("preview: "), qPrintable(words));
        }
      const QImage after = sheet.grab().toImage();
      QVERIFY(after != before);
      before = after;
    }
    QCOMPARE(edit::partsOf(workspace.design(), imager)->aim->tilt_deg, tilt_deg);
    QTest::mouseRelease(&sheet, Qt::LeftButton, {}, *knob);
    QVERIFY(!workspace.isDragging());
    QVERIFY(waitForProof(*window));
    for (const design::Requirement& requirement : workspace.design().brief)
      if (requirement.kind == design::RequirementKind::see) {
        const QString words = window->ledger().wordsOf(requirement.id, situation);
        if (!words.isEmpty()) QVERIFY2(!words.startsWith("preview"), qPrintable(words));
      }
    QVERIFY(QTest::qWaitFor([&] { return window->evaluator().now()->areas != nullptr; }, 20'000));
    QCOMPARE(window->evaluator().now()->areas->size(), window->evaluator().now()->maps->size());
  }

  // Property: what is painted from the lattice while a hand drags is what is painted as areas when it
  // rests, but for borders (half a cell) and contour lines: over nine tenths of the judged zone's
  // pixels, tones differ by less than a tenth.
  void theLiveWashIsLikeTheAreas() {
    auto window = windowWith("ferry_terminal/design.json");
    QVERIFY(waitForProof(*window));
    QVERIFY(QTest::qWaitFor([&] { return window->evaluator().now()->areas != nullptr; }, 20'000));
    const drawing::Sheet& sheet = window->sheet().sheet();
    const auto areas = window->evaluator().now()->areas;
    QVERIFY(!sheet.maps.empty());
    const QSize size(900, 600);
    Box2 box = bounds(sheet.maps.front().judged);
    const double mm_per_px = 0.25, mm_per_m =
        std::min(860 * mm_per_px / (box.high.x - box.low.x), 560 * mm_per_px / (box.high.y - box.low.y));
    const drawing::ToPaper to_paper{(box.low + box.high) * 0.5,
                                    {450 * mm_per_px, 300 * mm_per_px}, mm_per_m};
    QImage live(size, QImage::Format_ARGB32_Premultiplied), exact = live;
    live.fill(Qt::white);
    exact.fill(Qt::white);
    drawing::HatchSheets hatches;
    hatches.setPaper(size, mm_per_px, sheet.inks);
    drawing::Occurs in_live, in_exact;
    drawing::paintLiveWash(live, sheet.inks, to_paper, mm_per_px, sheet.maps.front(), hatches, in_live);
    {
      QPainter painter(&exact);
      painter.scale(1 / mm_per_px, 1 / mm_per_px);
      drawing::Canvas canvas(painter);
      drawing::Taken taken;
      drawing::ZoneAreas no_lines = areas->front();
      no_lines.lines.clear();
      drawing::paintZone(canvas, sheet, to_paper, sheet.maps.front(), no_lines, taken, in_exact);
    }
    QVERIFY(in_live.reasons == in_exact.reasons);
    QCOMPARE(in_live.wash, in_exact.wash);
    int inside = 0, alike = 0;
    for (int y = 0; y < size.height(); ++y)
      for (int x = 0; x < size.width(); ++x) {
        const Vec2 mm = Vec2{x + 0.5, y + 0.5} * mm_per_px - to_paper.paper_mm;
        if (!contains(sheet.maps.front().judged,
                      to_paper.site_m + Vec2{mm.x, -mm.y} * (1 / mm_per_m)))
          continue;
        ++inside;
        const QRgb a = live.pixel(x, y), b = exact.pixel(x, y);
        const auto near = [](int p, int q) { return std::abs(p - q) < 26; };
        alike += near(qRed(a), qRed(b)) && near(qGreen(a), qGreen(b)) && near(qBlue(a), qBlue(b));
      }
    QVERIFY(inside > 50'000);
    QVERIFY2(alike > 0.9 * inside, qPrintable(QString("%1 of %2").arg(alike).arg(inside)));
  }

  // Property: scale bar, north and legend stand at the foot of the view wherever the plan goes; what
  // is looked at lies above them; they can be put away.
  void theFurnitureKeepsToTheFoot() {
    auto window = windowWith("ferry_terminal/design.json");
    SheetView& sheet = window->sheet();
    QVERIFY(waitForProof(*window));
    sheet.repaint();
    const QRect area = sheet.furniture().area();
    QVERIFY(area.height() > 20);
    QCOMPARE(area.bottom(), sheet.rect().bottom());
    for (const design::Zone& zone : window->workspace().design().site.zones)
      if (zone.storey == window->workspace().storey())
        for (const Vec2 p : zone.outline) QVERIFY(sheet.pxAt(p).y < area.top() + 2);
    sheet.panBy({120, 40});
    sheet.repaint();
    QCOMPARE(sheet.furniture().area().bottom(), sheet.rect().bottom());
    const QImage shown = sheet.grab().toImage();
    window->command("view.legend")->trigger();
    QVERIFY(sheet.furniture().area().isEmpty());
    QVERIFY(sheet.grab().toImage() != shown);
    window->command("view.legend")->trigger();
    sheet.repaint();
    QVERIFY(!sheet.furniture().area().isEmpty());
  }

  // Property: the light of the shown situation is drawn once the hand rests, with its legend, and by day
  // it is not; an edit that cannot change it leaves the one that is there, a hand that moves a camera
  // takes it away at once and it comes anew at rest; another situation takes it away at once.
  void theLightIsDrawnByNight() {
    auto window = windowWith("winter_yard/design.json");
    Workspace& workspace = window->workspace();
    SheetView& sheet = window->sheet();
    const auto rests = [&] {
      return waitForProof(*window) &&
             QTest::qWaitFor(
                 [&] {
                   const auto now = window->evaluator().now();
                   return now->areas && now->situation == workspace.situation();
                 },
                 20'000);
    };
    const auto foot = [&] {
      sheet.repaint();
      return sheet.grab(sheet.furniture().area()).toImage();
    };
    workspace.setSituation({"day"});
    QVERIFY(rests());
    QVERIFY(window->evaluator().now()->night);
    QVERIFY(!sheet.sheet().night);
    const QImage by_day = foot();
    workspace.setSituation({"night"});
    QVERIFY(QTest::qWaitFor([&] { return sheet.sheet().night != nullptr; }, 30'000));
    const auto night = sheet.sheet().night;
    QVERIFY(!night->lines.empty());
    QVERIFY(!night->luminaires.empty());
    QVERIFY(foot() != by_day);

    design::Design renamed = workspace.design();
    renamed.title += " again";
    workspace.apply("title", std::move(renamed));
    QCOMPARE(sheet.sheet().night, night);
    QVERIFY(waitForProof(*window));
    QCOMPARE(sheet.sheet().night, night);
    QTRY_COMPARE_WITH_TIMEOUT(window->evaluator().now()->night->design->title, workspace.design().title, 30'000);

    const auto turned = [&](double by_deg) {
      design::Design next = workspace.design();
      next.housings.front().mount.base_bearing_deg += by_deg;
      return next;
    };
    workspace.setDragging(true);
    workspace.apply("turn", turned(20));
    QVERIFY(!sheet.sheet().night);
    QTest::qWait(600);
    QVERIFY(!sheet.sheet().night);
    workspace.setDragging(false);
    QVERIFY(QTest::qWaitFor([&] { return sheet.sheet().night != nullptr; }, 30'000));
    QVERIFY(sheet.sheet().night != night);

    workspace.undo();
    workspace.setSituation({"day"});
    QVERIFY(!sheet.sheet().night);
    QVERIFY(rests());
    QVERIFY(!sheet.sheet().night);
    QVERIFY(QTest::qWaitFor([&] { return foot() == by_day; }, 20'000));
  }

  // Property: work beside the window leaves it its events; what it throws comes back; long work shows
  // a small window, and Cancel there leaves it.
  void workBesideTheWindow() {
    auto window = windowWith("shop/design.json");
    std::atomic<int> beats{0};
    QTimer beat;
    connect(&beat, &QTimer::timeout, [&] { ++beats; });
    beat.start(5);
    // The work ends once the window has had its events meanwhile; without them it never would.
    QVERIFY(besideWindow(window.get(), "a moment", CanCancel::no, [&beats] {
      while (beats < 3) QTest::qSleep(5);
    }));
    bool thrown = false;
    try {
      besideWindow(window.get(), "fails", CanCancel::no,
                   [] { throw InputError({{"cannot_save", "", "no room", ""}}); });
    } catch (const InputError& error) {
      thrown = error.problems().front().what == "no room";
    }
    QVERIFY(thrown);
    auto go = std::make_shared<std::atomic<bool>>(false);
    QTimer::singleShot(900, [] {
      if (auto* dialog = qobject_cast<QProgressDialog*>(QApplication::activeModalWidget()))
        QTest::mouseClick(dialog->findChild<QPushButton*>(), Qt::LeftButton);
    });
    QVERIFY(!besideWindow(window.get(), "long", CanCancel::yes, [go] {
      while (!*go) QTest::qSleep(5);
    }));
    *go = true;
  }

  // Published: WCAG 2.1, success criterion 1.4.3 (contrast of text at least 4.5 to 1; widgets that are
  // switched off are exempt), measured on what the widgets paint, in both palettes.
  void whatIsPaintedHasContrast_data() {
    QTest::addColumn<bool>("dark");
    QTest::newRow("light") << false;
    QTest::newRow("dark") << true;
  }
  void whatIsPaintedHasContrast() {
    QFETCH(bool, dark);
    setLook(*qApp, dark);
    auto window = windowWith("ferry_terminal/design.json");
    QVERIFY(waitForProof(*window));
    edit::ImagerRef imager;
    knobOf(*window, imager);
    window->workspace().selectRequirement(window->workspace().design().brief.front().id);
    int looked_at = 0;
    QStringList faint;
    for (const char* page : {"lists.objects", "lists.findings", "lists.alternatives"}) {
      if (QAction* command = window->command(page)) command->trigger();
      QTest::qWait(300);
      for (QWidget* widget : window->findChildren<QWidget*>()) {
        if (!widget->isVisible() || !widget->isEnabled() || widget->width() < 8 ||
            wordsIn(widget).trimmed().isEmpty())
          continue;
        ++looked_at;
        if (const double found = paintedContrast(*widget); found < 4.5)
          faint << QString("%1 %2 \"%3\": %4")
                       .arg(widget->metaObject()->className(), widget->objectName(),
                            wordsIn(widget).left(40))
                       .arg(found, 0, 'f', 2);
      }
    }
    QVERIFY2(faint.isEmpty(), qPrintable(faint.join("\n")));
    QVERIFY2(looked_at > 40, qPrintable(QString::number(looked_at)));
    setLook(*qApp, false);
  }
};

}  // namespace belvedere::desk

QTEST_MAIN(belvedere::desk::SheetTest)
#include "sheet_test.moc"
