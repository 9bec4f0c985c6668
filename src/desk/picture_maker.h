// SPDX-License-Identifier: GPL-3.0-or-later
//
// A picture made beside the window, coarse first, then finer, then, where it is wished for, as a
// photograph by the situation's light; the newest wish wins, but its first pass is always shown, so
// that a hand that aims sees something. One thread a picture, asleep while nothing is wished for.
#pragma once

#include <QImage>
#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/wish_thread.h"
#include "drawing/inks.h"
#include "picture/renderer.h"
#include "picture/studio.h"
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

// A studio and the design that it speaks of. The same for the same design and situation, as long as
// somebody keeps it. Throws InputError like picture::Studio. From any thread.
struct LitScene {
  std::shared_ptr<const design::Design> design;
  picture::Studio studio;  // of that design
  LitScene(std::shared_ptr<const design::Design> of, const design::Situation& situation,
           const std::filesystem::path& folder)
      : design(std::move(of)), studio(*design, situation, folder) {}
};
std::shared_ptr<const LitScene> litScene(std::shared_ptr<const design::Design> design,
                                         const design::Situation& situation,
                                         const std::filesystem::path& folder);

// What a photograph is of; its figures are those of the flat picture.
struct PhotoWish {
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  design::Situation situation;
  design::PosedImager imager;
};

struct PictureWish {
  std::shared_ptr<const proof::PreviewPlace> place;
  picture::View view;
  picture::Options options;
  std::vector<int> steps{8, 4, 2, 1};
  std::optional<PhotoWish> photo;      // once the steps are done
  std::vector<picture::View> volumes;  // of imagers, to be drawn over it
  double volume_range_m = 30;
  std::vector<std::string> tinted;     // ids of bodies' sources that are shown in accent
};

struct MadePicture {
  QImage image;                        // opaque
  int step = 0;                        // 1: the finest
  bool lit = false;                    // a photograph
  std::string taken;                   // of a photograph: "mono, 1/25 s, too little light"
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
  void wish(PictureWish wish);
  // The last one made; null before the first.
  std::shared_ptr<const MadePicture> now() const { return now_; }
  bool isBusy() const { return thread_.isBusy(); }

 Q_SIGNALS:
  void made();   // now() is new

 private:
  void make(const PictureWish& wish);
  void shoot(const PictureWish& wish, const MadePicture& flat);
  void tell(std::shared_ptr<const MadePicture> made);

  std::shared_ptr<const MadePicture> now_;
  // The thread's own.
  std::shared_ptr<const PictureScene> scene_;
  std::optional<picture::Renderer> renderer_;
  std::shared_ptr<const LitScene> lit_;
  WishThread<PictureWish> thread_;
};

// What is seen at a place of a picture (its pixels), as spotAt says it.
std::optional<picture::Spot> spotIn(const MadePicture& picture, Vec2 place);

}  // namespace belvedere::desk
