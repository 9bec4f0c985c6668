// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the window's tests share: examples, waiting, and the pointer as a person moves it.
#pragma once

#include <QSignalSpy>
#include <QTest>

#include <filesystem>
#include <string>

#include "desk/main_window.h"

namespace belvedere::desk {

inline std::filesystem::path examplePath(const std::string& name) {
  return std::filesystem::path(BELVEDERE_SOURCE_DIR) / "examples" / name;
}

// A window with an example open, shown and laid out.
inline std::unique_ptr<MainWindow> windowWith(const std::string& example) {
  auto window = std::make_unique<MainWindow>();
  window->resize(1280, 800);
  window->show();
  if (!QTest::qWaitFor([&] { return window->isVisible(); }, 5000)) return nullptr;
  if (!example.empty()) window->workspace().open(examplePath(example));
  QTest::qWait(20);
  return window;
}

inline bool waitForProof(MainWindow& window, int ms = 120'000) {
  return QTest::qWaitFor(
      [&] {
        const auto now = window.evaluator().now();
        return now->wholly_proven && now->version == window.workspace().version();
      },
      ms);
}

inline QPoint pointOn(const SheetView& sheet, Vec2 site_m) {
  const Vec2 px = sheet.pxAt(site_m);
  return {static_cast<int>(px.x + 0.5), static_cast<int>(px.y + 0.5)};
}

// Press, a few moves, release.
inline void dragOn(QWidget* widget, QPoint from, QPoint to, Qt::KeyboardModifiers keys = {},
                   int steps = 8) {
  QTest::mouseMove(widget, from);
  QTest::mousePress(widget, Qt::LeftButton, keys, from);
  for (int i = 1; i <= steps; ++i) {
    const QPoint at = from + (to - from) * i / steps;
    QMouseEvent move(QEvent::MouseMove, at, widget->mapToGlobal(at), Qt::NoButton, Qt::LeftButton,
                     keys);
    QCoreApplication::sendEvent(widget, &move);
  }
  QTest::mouseRelease(widget, Qt::LeftButton, keys, to);
}

}  // namespace belvedere::desk
