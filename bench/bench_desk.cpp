// SPDX-License-Identifier: GPL-3.0-or-later
//
// How quick the window feels: an imager turned by its knob through pointer events.
//
//   bench_desk DESIGN [MOVES]      (QT_QPA_PLATFORM=offscreen, or under a real display)
//   bench_desk --site DESIGN       a large one: how long the window's thread is held up by opening,
//                                  checking, saving, going to another storey; panning
//
// (a) From the event to the plan painted with the preview of that very design: median and 95th
//     percentile, milliseconds by the clock; and the same as a multiple of raw rays: the moved
//     imager's sightlines to the preview's points at all heights, traced in the same run.
// (b) From the event to the dial painted at its new place (the plan follows, its wash as it was).
// (c) Panning: milliseconds a frame.  (d) Opening: to the first paint, and to the first preview.
// (e) The window thread's own processor time for a move, all painting included: what a loaded
//     machine does not change.
#include <QApplication>
#include <QElapsedTimer>
#include <QMouseEvent>
#include <QTimer>
#include <QWindow>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <string_view>
#include <utility>

#include "base/units.h"
#include "desk/colours.h"
#include "desk/main_window.h"
#include "drawing/sheet_parts.h"
#include "proof/preview.h"

using namespace belvedere;
using namespace belvedere::desk;

namespace {

double shareOf(std::vector<double> v, double share) {
  std::sort(v.begin(), v.end());
  return v[std::min(v.size() - 1, static_cast<std::size_t>(share * static_cast<double>(v.size())))];
}

template <class Condition>
bool waitFor(Condition condition, int ms) {
  QElapsedTimer timer;
  timer.start();
  QTimer wakes;  // so that waiting for events costs no processor and still ends
  wakes.start(50);
  while (!condition()) {
    if (timer.elapsed() > ms) return false;
    QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
  }
  return true;
}

void send(QWidget& widget, QEvent::Type type, Vec2 px, Qt::MouseButton button) {
  const QPointF at(px.x, px.y);
  QMouseEvent event(type, at, widget.mapToGlobal(at), button,
                    type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton, {});
  QCoreApplication::sendEvent(&widget, &event);
}

// The moved imager's sightlines to a preview's points, as raw rays: milliseconds, best of several.
double rawMs(const design::Design& design, const Evaluation& evaluation,
             const std::filesystem::path& folder, const std::string& imager) {
  const std::vector<design::Situation> all = design::situationsOf(design);
  const auto situation = std::find_if(all.begin(), all.end(), [&](const design::Situation& s) {
    return s.id == evaluation.situation;
  });
  if (situation == all.end()) return 0;
  const auto place = proof::makePlace(design, *situation, folder);
  const scene::RayCaster caster(place->scene);
  double best = 1e300;
  std::vector<Vec3> targets;
  Vec3 lens;
  for (const design::PosedImager& view : design::posedImagers(design, design::JudgedOn::captured))
    if (view.imager == imager) lens = view.lens_m;
  for (const drawing::ZoneMap& map : *evaluation.maps) {
    const design::Requirement* requirement =
        design::findRequirement(design, map.spots.requirement);
    if (!requirement) continue;
    const proof::Question q = proof::makeQuestion(design, *requirement, *situation, place);
    const int heights = proof::sampledHeights(requirement->target);
    for (int row = 0; row < map.spots.rows; ++row)
      for (int column = 0; column < map.spots.columns; ++column) {
        if (!map.spots.at(column, row).inside) continue;
        for (int h = 0; h < heights; ++h)
          targets.push_back(withZ(map.spots.centre(column, row),
                                  q.floor.at(map.spots.centre(column, row)) + q.low_m +
                                      (q.high_m - q.low_m) * h / std::max(1, heights - 1)));
      }
  }
  std::vector<std::uint8_t> hidden(targets.size());
  for (int round = 0; round < 20; ++round) {
    QElapsedTimer timer;
    timer.start();
    caster.hiddenFrom(lens, targets, scene::Blocking::see, scene::Band::light, hidden);
    best = std::min(best, 1e-6 * static_cast<double>(timer.nsecsElapsed()));
  }
  fmt::print("raw: {} sightlines in {:.3f} ms\n", targets.size(), best);
  return best;
}

// Processor time of the calling thread, ms.
double threadMs() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

// Tells how long the window's thread was ever away from its events.
class Heart {
 public:
  Heart() {
    beat_.setInterval(2);
    beat_.setTimerType(Qt::PreciseTimer);
    QObject::connect(&beat_, &QTimer::timeout, &beat_, [this] { take(); });
    since_.start();
    beat_.start();
  }
  double longestMs() {
    take();
    return std::exchange(longest_ms_, 0.0);
  }

 private:
  void take() {
    longest_ms_ = std::max(longest_ms_, 1e-6 * static_cast<double>(since_.nsecsElapsed()));
    since_.start();
  }
  QTimer beat_;
  QElapsedTimer since_;
  double longest_ms_ = 0;
};

void pan(SheetView& sheet, const char* what) {
  std::vector<double> frames;
  for (int i = 0; i < 90; ++i) {
    QElapsedTimer timer;
    timer.start();
    sheet.panBy({i % 2 == 0 ? 9.0 : -7.0, 4});
    sheet.repaint();
    frames.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
    QCoreApplication::processEvents();
  }
  fmt::print("pan, {}: median {:.1f} ms a frame, 95 % {:.1f} ms\n", what, shareOf(frames, 0.5),
             shareOf(frames, 0.95));
}

int benchSite(MainWindow& window, const char* path) {
  Heart heart;
  QElapsedTimer timer;
  bool painted = false;
  QObject::connect(&window.sheet(), &SheetView::painted, &window, [&] { painted = true; });
  const auto tell = [&](const char* what) {
    fmt::print("{} {:.0f} ms, window's thread held up at most {:.0f} ms\n", what,
               1e-6 * static_cast<double>(timer.nsecsElapsed()), heart.longestMs());
    timer.start();
  };
  timer.start();
  heart.longestMs();
  if (!window.openFile(path)) return 1;
  tell("read and checked");
  painted = false;
  waitFor([&] { return painted; }, 60'000);
  tell("then painted");
  waitFor([&] { return !window.evaluator().now()->maps->empty(); }, 300'000);
  tell("then first preview");
  pan(window.sheet(), "whole storey");
  const Vec2 middle{0.5 * window.sheet().width(), 0.5 * window.sheet().height()};
  window.sheet().zoomAt(middle, 0.08);
  waitFor([] { return false; }, 300);
  pan(window.sheet(), "whole site");
  window.sheet().showAll();
  heart.longestMs();
  timer.start();
  const auto& buildings = window.workspace().design().site.buildings;
  window.workspace().setStorey(buildings.back().storeys.back().id);
  painted = false;
  waitFor([&] { return painted; }, 60'000);
  tell("another storey painted");
  const design::Housing& housing = window.workspace().design().housings.front();
  window.workspace().select({{edit::ObjectKind::housing, housing.id.text, 1}});
  painted = false;
  waitFor([&] { return painted; }, 60'000);
  tell("a housing selected");
  design::Design changed = window.workspace().design();
  changed.title += " ";
  window.workspace().apply("Rename", std::move(changed));
  painted = false;
  waitFor([&] { return painted; }, 60'000);
  tell("an edit painted");
  window.command("file.save")->trigger();
  tell("saved");
  const bool proven = waitFor([&] { return window.evaluator().now()->wholly_proven; }, 900'000);
  tell(proven ? "proven" : "NOT proven in");
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QApplication app(argc, argv);
  if (argc < 2) {
    fmt::print(stderr, "bench_desk [--site] DESIGN [MOVES]\n");
    return 2;
  }
  const bool site = std::string_view(argv[1]) == "--site" && argc > 2;
  const int moves = argc > 2 ? std::atoi(argv[2]) : 200;
  setLook(app, false);
  QElapsedTimer opening;
  opening.start();
  MainWindow window;
  window.resize(1366, 768);
  window.show();
  bool painted = false;
  QObject::connect(&window.sheet(), &SheetView::painted, &window, [&] { painted = true; });
  waitFor([&] { return window.windowHandle() && window.windowHandle()->isExposed(); }, 20'000);
  fmt::print("first window {} ms\n", opening.restart());
  if (site) return benchSite(window, argv[2]);
  painted = false;
  window.workspace().open(argv[1]);
  waitFor([&] { return painted; }, 60'000);
  fmt::print("design's first paint {} ms\n", opening.elapsed());
  waitFor([&] { return !window.evaluator().now()->maps->empty(); }, 60'000);
  fmt::print("first preview {} ms\n", opening.elapsed());

  Workspace& workspace = window.workspace();
  SheetView& sheet = window.sheet();
  // The first imager that turns.
  const design::Design design = workspace.design();
  const design::Housing* housing = nullptr;
  std::optional<Vec2> knob;
  int slot = 0;
  for (const design::Housing& candidate : design.housings) {
    if (knob) break;
    for (const design::HousingImager& imager : candidate.imagers) {
      workspace.select({{edit::ObjectKind::housing, candidate.id.text, imager.slot}});
      for (const drawing::Dial& dial : sheet.dials())
        if (dial.housing->id == candidate.id)
          for (const drawing::Knob& k : drawing::knobsOf(dial))
            if (k.slot == imager.slot && !knob) {
              knob = k.at / sheet.mmPerPx();
              housing = &candidate;
              slot = imager.slot;
            }
      if (knob) break;
    }
  }
  if (!knob) {
    fmt::print("no imager to turn\n");
    return 1;
  }
  const std::string name = housing->id.text + "." + std::to_string(slot);
  workspace.select({{edit::ObjectKind::housing, housing->id.text, slot}});
  waitFor([&] { return !window.evaluator().isBusy(); }, 2000);
  const Vec2 middle = sheet.pxAt(housing->mount.fixing_m.xy());
  const double start = std::atan2(knob->x - middle.x, middle.y - knob->y);

  std::vector<double> live, whole, look, own;
  quint64 evaluated_version = 0;
  bool evaluated_painted = false;
  QObject::connect(&window.evaluator(), &Evaluator::evaluated, &window, [&] {
    if (!window.evaluator().now()->maps->empty())
      evaluated_version = window.evaluator().now()->version;
    painted = false;
    evaluated_painted = true;
  });
  send(sheet, QEvent::MouseButtonPress, *knob, Qt::LeftButton);
  for (int i = 0; i < moves; ++i) {
    const double angle = start + degToRad(20 * std::sin(0.13 * i));
    QElapsedTimer timer;
    timer.start();
    const double own_before = threadMs();
    painted = evaluated_painted = false;
    const quint64 before = workspace.version();
    send(sheet, QEvent::MouseMove, middle + Vec2{std::sin(angle), -std::cos(angle)} * 70.0,
         Qt::NoButton);
    if (workspace.version() == before) continue;
    waitFor([&] { return painted; }, 2000);
    live.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
    waitFor([&] { return evaluated_painted && evaluated_version == workspace.version() && painted; },
            5000);
    whole.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
    own.push_back(threadMs() - own_before);
    look.push_back(window.evaluator().now()->look_ms);
  }
  const auto evaluation = window.evaluator().now();
  send(sheet, QEvent::MouseButtonRelease, middle, Qt::LeftButton);
  double load[1] = {0};
  if (getloadavg(load, 1) == 1) fmt::print("load average {:.1f}\n", load[0]);
  if (whole.empty()) {
    fmt::print("the imager did not turn\n");
    return 1;
  }
  const double raw =
      rawMs(workspace.design(), *evaluation, workspace.folder(), name);
  fmt::print("{} moves of {}: event to repainted preview median {:.1f} ms, 95 % {:.1f} ms; {:.0f} "
             "times the raw rays; look itself {:.1f} ms\n",
             whole.size(), name, shareOf(whole, 0.5), shareOf(whole, 0.95),
             shareOf(whole, 0.5) / raw, shareOf(look, 0.5));
  fmt::print("event to repainted dial median {:.1f} ms, 95 % {:.1f} ms\n", shareOf(live, 0.5),
             shareOf(live, 0.95));

  fmt::print("the window thread's processor time for a move: median {:.1f} ms, 95 % {:.1f} ms\n",
             shareOf(own, 0.5), shareOf(own, 0.95));
  waitFor([&] { return window.evaluator().now()->wholly_proven; }, 60'000);
  pan(sheet, "the design");
  return 0;
}
