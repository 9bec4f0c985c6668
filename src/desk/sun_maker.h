// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sun's year of one imager, worked out beside the window. The newest wish wins; a year that is laid
// out for a place is kept for the next.
#pragma once

#include <QObject>

#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/progress.h"
#include "drawing/sun_chart.h"

namespace belvedere::desk {

struct SunWish {
  std::shared_ptr<const design::Design> design;  // of a site with a place
  std::filesystem::path folder;
  quint64 version = 0;
  design::Situation situation;                   // whose solids throw shadows
  std::string imager;                            // "C1.2"
};

// A value that nobody changes.
struct SunAnswer {
  quint64 version = 0;
  design::SituationId situation;
  std::string imager;
  drawing::SunSheet sheet;
};

class SunMaker : public QObject {
  Q_OBJECT

 public:
  explicit SunMaker(QObject* parent = nullptr);
  ~SunMaker() override;
  void wish(SunWish wish);
  void cancel();
  // The last one made; null before the first.
  std::shared_ptr<const SunAnswer> now() const { return now_; }
  bool isBusy() const { return busy_; }

 Q_SIGNALS:
  void made();                          // now() is new
  void busyChanged();
  void progressed(double share);
  void failed(const QString& sentence);

 private:
  void loop();
  void make(const SunWish& wish);
  template <class Action>
  void inWindow(Action action);

  std::shared_ptr<const SunAnswer> now_;
  bool busy_ = false;
  std::mutex mutex_;
  std::condition_variable wake_;
  std::optional<SunWish> wish_;
  bool quit_ = false;
  Progress progress_;
  // The thread's own.
  std::optional<design::Place> year_of_;
  light::SunYear year_;
  std::thread thread_;
};

}  // namespace belvedere::desk
