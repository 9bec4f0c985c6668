// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/picture_maker.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "base/problem.h"
#include "base/trade_figures.h"

namespace belvedere::desk {
namespace {

bool same(const picture::Tones& a, const picture::Tones& b) {
  return a.paper == b.paper && a.ink == b.ink && a.sky == b.sky && a.masked == b.masked &&
         a.accent == b.accent;
}
bool same(const picture::Options& a, const picture::Options& b) {
  return a.size == b.size && same(a.tones, b.tones) && a.lines == b.lines &&
         a.smooth == b.smooth && a.contact_shade == b.contact_shade && a.grid_m == b.grid_m &&
         a.ground_m == b.ground_m && a.cut_m == b.cut_m && a.figures == b.figures &&
         a.masks == b.masks && a.judged_frame == b.judged_frame;
}

// Bodies that are selected, half in accent.
void tint(QImage& image, const picture::Picture& picture, const scene::Scene& scene,
          const PictureWish& wish) {
  std::vector<bool> tinted(scene.sources.size());
  for (std::size_t i = 0; i < scene.sources.size(); ++i)
    tinted[i] = std::find(wish.tinted.begin(), wish.tinted.end(), scene.sources[i].id) !=
                wish.tinted.end();
  const picture::Rgb accent = wish.options.tones.accent;
  for (int y = 0; y < picture.height; ++y) {
    auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
    for (int x = 0; x < picture.width; ++x) {
      const std::int32_t body = picture.body[picture.at(x, y)];
      if (body < 0 || static_cast<std::size_t>(body) >= scene.bodies.size() ||
          !tinted[scene.bodies[static_cast<std::size_t>(body)].source])
        continue;
      line[x] = qRgb((qRed(line[x]) + accent.red) / 2, (qGreen(line[x]) + accent.green) / 2,
                     (qBlue(line[x]) + accent.blue) / 2);
    }
  }
}

// "mono, 1/25 s, too little light"; of a situation that says nothing of its light, nothing.
std::string takenBy(const picture::Settings& settings, const picture::Exposed& exposed) {
  if (!settings.sensor) return {};
  std::string words = (settings.mono ? QObject::tr("mono") : QObject::tr("colour")).toStdString();
  if (exposed.exposure_s > 0) words += ", " + belvedere::exposureText(exposed.exposure_s);
  if (exposed.gain_at_most) words += QObject::tr(", too little light").toStdString();
  return words;
}

picture::Rgb toned(drawing::Rgb c) { return {c.red, c.green, c.blue}; }

}  // namespace

std::shared_ptr<const PictureScene> pictureScene(
    std::shared_ptr<const proof::PreviewPlace> place) {
  static std::mutex mutex;
  static std::vector<std::weak_ptr<const PictureScene>> known;
  const std::lock_guard lock(mutex);
  std::erase_if(known, [](const auto& scene) { return scene.expired(); });
  for (const auto& weak : known)
    if (auto scene = weak.lock(); scene && scene->place == place) return scene;
  auto made = std::make_shared<const PictureScene>(std::move(place));
  known.push_back(made);
  return made;
}

std::shared_ptr<const LitScene> litScene(std::shared_ptr<const design::Design> design,
                                         const design::Situation& situation,
                                         const std::filesystem::path& folder) {
  static std::mutex mutex;
  static std::vector<std::weak_ptr<const LitScene>> known;
  const auto find = [&]() -> std::shared_ptr<const LitScene> {
    std::erase_if(known, [](const auto& scene) { return scene.expired(); });
    for (const auto& weak : known)
      if (auto scene = weak.lock();
          scene && scene->design == design && scene->studio.situation() == situation)
        return scene;
    return nullptr;
  };
  {
    const std::lock_guard lock(mutex);
    if (auto scene = find()) return scene;
  }
  // Long on a large site: others do not wait for it, and at worst make their own.
  auto made = std::make_shared<const LitScene>(std::move(design), situation, folder);
  const std::lock_guard lock(mutex);
  known.push_back(made);
  return made;
}

picture::Tones tonesOf(const drawing::Inks& inks) {
  picture::Tones tones;
  const bool dark = inks.paper.red < 128;
  tones.paper = toned(inks.paper);
  tones.ink = toned(inks.ink);
  tones.masked = toned(inks.masked);
  tones.accent = toned(inks.accent);
  if (dark) tones.sky = {0x2C, 0x35, 0x44};
  return tones;
}

PictureMaker::PictureMaker(QObject* parent)
    : QObject(parent),
      thread_(
          [this](const PictureWish& wish) {
            try {
              make(wish);
            } catch (const InputError&) {
              // A design that cannot be posed has been complained of where it was made.
            }
          },
          {}, WishThread<PictureWish>::Begun::is_held) {}

void PictureMaker::wish(PictureWish wish) {
  if (wish.place) thread_.wish(std::move(wish));
}

void PictureMaker::make(const PictureWish& wish) {
  if (!scene_ || scene_->place != wish.place) {
    renderer_.reset();
    scene_ = pictureScene(wish.place);
  }
  if (renderer_ && same(renderer_->options(), wish.options)) {
    renderer_->look(wish.view);
  } else {
    renderer_.reset();
    renderer_.emplace(scene_->subject, wish.view, wish.options);
  }
  std::vector<std::vector<picture::Line3>> lines;
  for (const picture::View& imager : wish.volumes)
    lines.push_back(picture::viewVolume(imager, scene_->subject, wish.volume_range_m));
  for (const int step : wish.steps) {
    const picture::Picture& picture = renderer_->pass(step, thread_.progress);
    auto made = std::make_shared<MadePicture>();
    // The renderer's own bytes go on changing: a copy.
    made->image = QImage(reinterpret_cast<const uchar*>(picture.argb.data()), picture.width,
                         picture.height, QImage::Format_RGB32)
                      .copy();
    if (!wish.tinted.empty()) tint(made->image, picture, scene_->subject.scene(), wish);
    made->step = step;
    made->last = step == wish.steps.back() && !wish.photo;
    made->scene = scene_;
    made->view = wish.view;
    made->options = wish.options;
    for (const auto& of_imager : lines)
      made->volumes.push_back(picture::drawnOver(wish.view, picture, of_imager));
    tell(made);
    thread_.letGo();
    if (thread_.isOvertaken()) return;
    if (wish.photo && step == wish.steps.back()) shoot(wish, *made);
  }
}

// Of a large picture, a small one first.
void PictureMaker::shoot(const PictureWish& wish, const MadePicture& flat) {
  constexpr int kLargePx = 500, kSmaller = 3;
  const PhotoWish& photo = *wish.photo;
  lit_ = litScene(photo.design, photo.situation, photo.folder);
  const picture::Size whole = wish.options.size;
  for (const int smaller : {kSmaller, 1}) {
    if (smaller > 1 && whole[0] < kLargePx) continue;
    picture::PhotoOptions options;
    options.size = {std::max(1, whole[0] / smaller), std::max(1, whole[1] / smaller)};
    options.lighting = lit_->studio.lighting();
    options.figures = wish.options.figures;
    const picture::Shot shot = lit_->studio.shoot(photo.imager, options, thread_.progress);
    auto made = std::make_shared<MadePicture>(flat);
    const QImage taken(reinterpret_cast<const uchar*>(shot.picture.argb.data()),
                       shot.picture.width, shot.picture.height, QImage::Format_RGB32);
    // The shot's own bytes go with it: a copy.
    made->image = smaller == 1 ? taken.copy()
                               : taken.scaled(whole[0], whole[1], Qt::IgnoreAspectRatio,
                                              Qt::SmoothTransformation);
    made->lit = true;
    made->last = smaller == 1;
    made->taken = takenBy(lit_->studio.settingsOf(photo.imager), shot.exposed);
    tell(std::move(made));
  }
}

void PictureMaker::tell(std::shared_ptr<const MadePicture> made) {
  inWindowOf(this, [this, made = std::move(made)] {
    now_ = made;
    Q_EMIT this->made();
  });
}

std::optional<picture::Spot> spotIn(const MadePicture& picture, Vec2 place) {
  const picture::Renderer renderer(picture.scene->subject, picture.view, picture.options);
  return picture::spotAt(renderer, place);
}

}  // namespace belvedere::desk
