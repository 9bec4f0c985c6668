// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the services of a design come to, worked out beside the window. The newest wish wins.
#pragma once

#include <QObject>

#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "services/size.h"

namespace belvedere::desk {

// A value that nobody changes; sizes point into its design.
struct ServicesAnswer {
  quint64 version = 0;
  std::shared_ptr<const design::Design> design;
  services::Seen seen;
  services::Sizes sizes;
  std::vector<Finding> findings;
};

struct ServicesWish {
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  quint64 version = 0;
};

class ServicesMaker : public QObject {
  Q_OBJECT

 public:
  explicit ServicesMaker(QObject* parent = nullptr);
  ~ServicesMaker() override;
  void wish(ServicesWish wish);
  // The last one made; null before the first.
  std::shared_ptr<const ServicesAnswer> now() const { return now_; }
  bool isBusy() const { return busy_; }

 Q_SIGNALS:
  void made();                          // now() is new
  void busyChanged();
  void failed(const QString& sentence);

 private:
  void loop();
  void make(const ServicesWish& wish);
  template <class Action>
  void inWindow(Action action);

  std::shared_ptr<const ServicesAnswer> now_;
  bool busy_ = false;
  std::mutex mutex_;
  std::condition_variable wake_;
  std::optional<ServicesWish> wish_;
  bool quit_ = false;
  Progress progress_;
  std::thread thread_;
};

}  // namespace belvedere::desk
