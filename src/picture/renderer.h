// SPDX-License-Identifier: GPL-3.0-or-later
//
// Making a picture, pass by pass. The same scene, view, options and passes give the same bytes at
// any number of threads.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>

#include "base/progress.h"
#include "picture/picture.h"
#include "scene/ray_caster.h"

namespace belvedere::picture {

// One plane of what is seen: coplanar faces of one wall, slab or solid, of however many bodies.
struct Surface {
  Vec3 normal;               // unit, outward; of a triangle either way
  double offset = 0;         // dot(normal, x) on it
  std::uint32_t source = 0;  // of its scene
};

// A scene made ready to be pictured: one for all its pictures. Keeps references: the caster and
// its scene outlive it.
class Subject {
 public:
  explicit Subject(const scene::RayCaster& caster);
  const scene::RayCaster& caster() const { return *caster_; }
  const scene::Scene& scene() const { return caster_->scene(); }
  std::span<const Surface> surfaces() const { return surfaces_; }
  // Per triangle of the caster.
  struct Seen {
    std::uint32_t surface = 0;
    std::int32_t body = 0;
  };
  std::span<const Seen> triangles() const { return triangles_; }

 private:
  const scene::RayCaster* caster_;
  std::vector<Surface> surfaces_;
  std::vector<Seen> triangles_;
};

// Not for two threads at once (one that cancels apart); a pass uses all that TBB gives.
class Renderer {
 public:
  // Keeps a reference to the subject.
  Renderer(const Subject& subject, View view, Options options);
  ~Renderer();
  Renderer(Renderer&&) noexcept;
  Renderer& operator=(Renderer&&) noexcept;

  // One ray for every step-th pixel each way (8, 4, 2, 1 for instance), but for those that earlier
  // passes have; pass(1) also smooths and shades. A step not smaller than the last does nothing.
  // Throws Cancelled within 50 ms of progress.cancel; the pass may be asked for again.
  const Picture& pass(int step, const Progress& progress);
  const Picture& picture() const;
  const View& view() const;
  const Options& options() const;
  // Of Picture::surface: the subject's, then the figures' (their source: the figure).
  Surface surface(std::uint32_t index) const;

  // From the beginning with another view, size as stated at first: quicker than a new renderer.
  void look(View view);

 private:
  friend std::optional<struct Spot> spotAt(const Renderer&, Vec2);
  struct Work;
  std::unique_ptr<Work> work_;
};

// All in one go.
Picture render(const Subject& subject, const View& view, const Options& options,
               const Progress& progress);

// What is seen at a place of the picture (view.h), by a ray of its own that meets the surface in
// doubles. Nothing for sky, masks and outside the image circle. Windows and foliage are seen
// through.
struct Spot {
  Vec3 at_m;
  double distance_m = 0;
  std::int32_t body = kSky;    // of the scene; kGround for the plain; kSky for a figure
  int figure = -1;             // index into Options::figures
  std::string source;          // id of the wall, opening, storey or solid; empty for others
  Vec3 normal;
};
std::optional<Spot> spotAt(const Renderer& renderer, Vec2 place);

}  // namespace belvedere::picture
