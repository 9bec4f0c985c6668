// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the services of a design come to, and which requirements fall when a part fails, worked out
// beside the window. The newest wish wins.
#pragma once

#include <QObject>

#include <filesystem>
#include <memory>
#include <vector>

#include "base/finding.h"
#include "desk/wish_thread.h"
#include "requirements/failures.h"
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
  // While a hand drags: who sees the rules is taken over from the last answer.
  bool dragging = false;
};

class ServicesMaker : public QObject {
  Q_OBJECT

 public:
  explicit ServicesMaker(QObject* parent = nullptr);
  void wish(ServicesWish wish);
  // The last one made; null before the first.
  std::shared_ptr<const ServicesAnswer> now() const { return now_; }
  bool isBusy() const { return thread_.isBusy(); }

 Q_SIGNALS:
  void made();                          // now() is new
  void rested();                        // nothing is under way
  void failed(const QString& sentence);

 private:
  struct Job {
    ServicesWish wish;
    std::shared_ptr<const ServicesAnswer> before;
  };
  void make(const Job& job);

  std::shared_ptr<const ServicesAnswer> now_;
  WishThread<Job> thread_;
};

// What falls when a part fails: long, so only when asked for.
struct FailuresAnswer {
  quint64 version = 0;
  std::shared_ptr<const design::Design> design;  // sizes of `proven` point into it
  requirements::Answer proven;
  requirements::Failures failures;
};

class FailuresMaker : public QObject {
  Q_OBJECT

 public:
  explicit FailuresMaker(QObject* parent = nullptr);
  void wish(ServicesWish wish);
  void cancel() { thread_.cancel(); }
  std::shared_ptr<const FailuresAnswer> now() const { return now_; }
  bool isBusy() const { return thread_.isBusy(); }

 Q_SIGNALS:
  void made();
  void progressed(double share, const QString& what);
  void rested();
  void failed(const QString& sentence);

 private:
  void make(const ServicesWish& wish);

  std::shared_ptr<const FailuresAnswer> now_;
  WishThread<ServicesWish> thread_;
};

}  // namespace belvedere::desk
