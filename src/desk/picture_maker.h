// SPDX-License-Identifier: GPL-3.0-or-later
//
// A picture made beside the window, coarse first, then finer; the newest wish wins, but its first
// pass is always shown, so that a hand that aims sees something. One thread a picture, asleep while
// nothing is wished for.
#pragma once

#include <QImage>
#include <QObject>

#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "base/progress.h"
#include "drawing/inks.h"
#include "picture/renderer.h"
#include "picture/volume.h"
#include "proof/preview.h"

namespace belvedere::desk {

// A scene with what pictures of it share.
struct PictureScene {
  std::shared_ptr<const proof::PreviewPlace> place;
  picture::Subject subject;
  explicit PictureScene(std::shared_ptr<const proof::PreviewPlace> of)
      : place(std::move(of)), subject(place->caster()) {}
};
// The same for the same place, as long as somebody keeps it. From any thread.
std::shared_ptr<const PictureScene> pictureScene(std::shared_ptr<const proof::PreviewPlace> place);

picture::Tones tonesOf(const drawing::Inks& inks);

struct PictureWish {
  std::shared_ptr<const proof::PreviewPlace> place;
  picture::View view;
  picture::Options options;
  std::vector<int> steps{8, 4, 2, 1};
  std::vector<picture::View> volumes;  // of imagers, to be drawn over it
  double volume_range_m = 30;
  std::vector<std::string> tinted;     // ids of bodies' sources that are shown in accent
};

struct MadePicture {
  QImage image;                        // opaque
  int step = 0;                        // 1: the finest
  bool last = false;                   // nothing finer comes
  std::shared_ptr<const PictureScene> scene;
  picture::View view;
  picture::Options options;
  // Per view of `volumes`: stretches in pixels of the image.
  std::vector<std::vector<picture::LineStretch>> volumes;
};

class PictureMaker : public QObject {
  Q_OBJECT

 public:
  explicit PictureMaker(QObject* parent = nullptr);
  ~PictureMaker() override;
  void wish(PictureWish wish);
  // The last one made; null before the first.
  std::shared_ptr<const MadePicture> now() const { return now_; }
  bool isBusy() const { return busy_; }

 Q_SIGNALS:
  void made();   // now() is new

 private:
  void loop();
  void make(const PictureWish& wish);

  std::shared_ptr<const MadePicture> now_;
  std::atomic<bool> busy_{false};
  std::mutex mutex_;
  std::condition_variable wake_;
  std::optional<PictureWish> wish_;
  bool quit_ = false;
  std::atomic<bool> first_pass_{false};
  Progress progress_;
  // The thread's own.
  std::shared_ptr<const PictureScene> scene_;
  std::optional<picture::Renderer> renderer_;
  std::thread thread_;
};

// What is seen at a place of a picture (its pixels), as spotAt says it.
std::optional<picture::Spot> spotIn(const MadePicture& picture, Vec2 place);

}  // namespace belvedere::desk
