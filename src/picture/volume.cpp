// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/volume.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace belvedere::picture {
namespace {

constexpr int kSideSamples = 24;     // of the frame's border
constexpr double kStretchPx = 5;     // lines are cut into pieces about so long
constexpr int kMostHalvings = 12;
constexpr double kOpenJump = 1.6;    // border rays' ends farther apart than this ratio: not joined
// A line on a surface is not behind it.
constexpr double kBehindShare = 0.01, kBehindM = 0.03;

// The border's direction towards a place of the frame (lens pixels), or the last one that the lens
// maps on the way there from its middle.
std::optional<Vec3> borderRay(const View& view, Vec2 place) {
  if (auto ray = rayOf(view, view.pixels, place)) return ray;
  const Vec2 middle{0.5 * view.pixels[0], 0.5 * view.pixels[1]};
  double inside = 0, outside = 1;
  for (int step = 0; step < 40; ++step) {
    const double share = 0.5 * (inside + outside);
    (rayOf(view, view.pixels, middle + (place - middle) * share) ? inside : outside) = share;
  }
  return rayOf(view, view.pixels, middle + (place - middle) * inside);
}

}  // namespace

std::vector<Line3> viewVolume(const View& imager, const Subject& subject, double range_m) {
  const double w = imager.pixels[0], h = imager.pixels[1];
  const std::array<Vec2, 5> corners{Vec2{0, 0}, {w, 0}, {w, h}, {0, h}, {0, 0}};
  std::vector<Vec3> rays;
  std::vector<std::size_t> spokes;
  for (std::size_t side = 0; side < 4; ++side)
    for (int i = 0; i < kSideSamples; ++i) {
      const double share = static_cast<double>(i) / kSideSamples;
      const auto ray =
          borderRay(imager, corners[side] * (1 - share) + corners[side + 1] * share);
      if (!ray) continue;
      if (i == 0) spokes.push_back(rays.size());
      rays.push_back(*ray);
    }
  if (rays.empty()) return {};
  std::vector<double> ends;
  for (std::size_t at = 0; at < rays.size(); at += scene::kPacketRays) {
    scene::RayPacket packet;
    scene::HitPacket hit;
    packet.near_m.fill(0.01f);
    packet.far_m.fill(static_cast<float>(range_m));
    for (std::size_t k = 0; k < scene::kPacketRays && at + k < rays.size(); ++k) {
      packet.x[k] = static_cast<float>(rays[at + k].x);
      packet.y[k] = static_cast<float>(rays[at + k].y);
      packet.z[k] = static_cast<float>(rays[at + k].z);
      packet.traced[k] = -1;
    }
    subject.caster().nearest(imager.eye_m, packet, scene::StopsAt::opaque, hit);
    for (std::size_t k = 0; k < scene::kPacketRays && at + k < rays.size(); ++k)
      ends.push_back(std::min(range_m, static_cast<double>(hit.distance_m[k])));
  }
  const auto end = [&](std::size_t i) { return imager.eye_m + rays[i] * ends[i]; };
  std::vector<Line3> lines;
  for (const std::size_t spoke : spokes) lines.push_back({imager.eye_m, end(spoke)});
  Line3 border{end(0)};
  // What lies beyond an opening narrower than a side of the frame is a stroke by itself: not drawn.
  bool beyond = false;  // the present piece lies behind what was before it
  const auto take = [&](bool comes_back) {
    const bool glimpse = beyond && comes_back && border.size() < kSideSamples;
    if (border.size() > 1 && !glimpse) lines.push_back(border);
  };
  for (std::size_t i = 1; i <= rays.size(); ++i) {
    const std::size_t a = i - 1, b = i % rays.size();
    if (std::max(ends[a], ends[b]) > kOpenJump * std::min(ends[a], ends[b])) {
      take(ends[b] < ends[a]);
      beyond = ends[b] > ends[a];
      border.clear();
    }
    border.push_back(end(b));
  }
  take(false);
  return lines;
}

std::vector<LineStretch> drawnOver(const View& view, const Picture& picture,
                                   std::span<const Line3> lines) {
  const Size size{picture.width, picture.height};
  std::vector<LineStretch> out;
  const auto hiddenAt = [&](const Vec3& p, Vec2 place) {
    const int x = std::clamp(static_cast<int>(place.x), 0, picture.width - 1);
    const int y = std::clamp(static_cast<int>(place.y), 0, picture.height - 1);
    const double d = norm(p - view.eye_m);
    // The farthest of the pixels around, so that a line along an edge is seen.
    float far = 0;
    for (int v = std::max(0, y - 1); v <= std::min(picture.height - 1, y + 1); ++v)
      for (int u = std::max(0, x - 1); u <= std::min(picture.width - 1, x + 1); ++u)
        far = std::max(far, picture.distance_m[picture.at(u, v)]);
    return d > static_cast<double>(far) * (1 + kBehindShare) + kBehindM;
  };
  for (std::size_t l = 0; l < lines.size(); ++l) {
    bool open = false;  // the last stretch ends where the next piece begins
    const auto piece = [&](Vec2 a, Vec2 b, const Vec3& middle) {
      const bool hidden = hiddenAt(middle, (a + b) * 0.5);
      if (open && out.back().hidden == hidden) {
        out.back().places.push_back(b);
      } else {
        out.push_back({{a, b}, hidden, l});
      }
      open = true;
    };
    // Halved until short in the picture; a piece of which an end is not in frame is left out when
    // it is short or has been halved often.
    const std::function<void(const Vec3&, const Vec3&, int)> draw = [&](const Vec3& a,
                                                                        const Vec3& b, int depth) {
      const auto pa = placeOf(view, size, a), pb = placeOf(view, size, b);
      const bool drawable = pa && pb;
      if ((drawable && norm(*pa - *pb) <= kStretchPx) || depth >= kMostHalvings) {
        if (drawable) piece(*pa, *pb, (a + b) * 0.5);
        else open = false;
        return;
      }
      const Vec3 middle = (a + b) * 0.5;
      // Neither end nor middle in frame, and short as seen from the eye: no part is worth it.
      if (!pa && !pb && depth >= 6 && !placeOf(view, size, middle)) {
        open = false;
        return;
      }
      draw(a, middle, depth + 1);
      draw(middle, b, depth + 1);
    };
    for (std::size_t i = 1; i < lines[l].size(); ++i) draw(lines[l][i - 1], lines[l][i], 0);
  }
  return out;
}

}  // namespace belvedere::picture
