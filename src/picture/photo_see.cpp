// SPDX-License-Identifier: GPL-3.0-or-later
//
// What rays meet: surfaces with their albedo, figures and boards, the plain, the sky.
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "picture/photo_work.h"
#include "picture/portrait.h"

namespace belvedere::picture {
namespace {

using scene::HitPacket;
using scene::kNoTriangle;
using scene::kPacketRays;
using scene::RayPacket;
using scene::StopsAt;

constexpr int kMostSteps = 12;

float behind(float distance_m) { return distance_m * 1.000002f + 1e-4f; }

// Lines at whole metres, stronger every fifth.
double gridAt(const Vec3& p, double along_m, double across_m) {
  const auto line = [](double at, double pixel) {
    const auto one = [&](double pitch, double wide) {
      const double off = std::abs(at - pitch * std::round(at / pitch));
      return std::clamp((0.5 * (wide + pixel) - off) / std::min(wide, pixel), 0.0, 1.0) *
             std::min(1.0, wide / pixel) * std::clamp(2 - 4 * pixel / pitch, 0.0, 1.0);
    };
    return std::max(0.75 * one(1, 0.012), one(5, 0.03));
  };
  return std::max(line(p.x, along_m), line(p.y, across_m));
}

}  // namespace

Stage::Stage(std::span<const Figure> f, std::span<const Board> b, double seconds)
    : figures(f.begin(), f.end()), boards(b.begin(), b.end()) {
  const auto moved = [&](Vec2 mps) { return Vec3{mps.x * seconds, mps.y * seconds, 0}; };
  for (Figure& figure : figures) figure.at_m = figure.at_m + moved(figure.moves_mps);
  for (Board& board : boards) board.middle_m = board.middle_m + moved(board.moves_mps);
  scene = std::make_unique<scene::Scene>(figureScene(figures));
  const scene::Scene more = boardScene(boards);
  const auto vertex = static_cast<std::uint32_t>(scene->vertices.size());
  const auto plane = static_cast<std::uint32_t>(scene->planes.size());
  const auto edge = static_cast<std::uint32_t>(scene->edges.size());
  const auto source = static_cast<std::uint32_t>(scene->sources.size());
  scene->vertices.insert(scene->vertices.end(), more.vertices.begin(), more.vertices.end());
  scene->planes.insert(scene->planes.end(), more.planes.begin(), more.planes.end());
  scene->sources.insert(scene->sources.end(), more.sources.begin(), more.sources.end());
  for (const scene::Edge& e : more.edges) scene->edges.push_back({e.a + vertex, e.b + vertex});
  for (scene::Body body : more.bodies) {
    body.first_vertex += vertex;
    body.first_plane += plane;
    body.first_edge += edge;
    body.source += source;
    scene->bodies.push_back(body);
  }
  caster = std::make_unique<scene::RayCaster>(*scene);
  subject = std::make_unique<Subject>(*caster);
}

// The nearer of what the scene's and the stage's rays hit.
void Photographing::hits(std::uint32_t moment, const Vec3& from, const RayPacket& rays,
                         StopsAt stops, HitPacket& out) const {
  const Stage& stage = stageOf(moment);
  subject.caster().nearest(from, rays, stops, out);
  if (stage.scene->bodies.empty()) return;
  RayPacket shorter = rays;
  shorter.far_m = out.distance_m;
  HitPacket on_stage;
  stage.caster->nearest(from, shorter, stops, on_stage);
  const auto first = static_cast<std::uint32_t>(subject.triangles().size());
  for (std::size_t k = 0; k < kPacketRays; ++k)
    if (on_stage.triangle[k] != kNoTriangle) {
      out.distance_m[k] = on_stage.distance_m[k];
      out.triangle[k] = first + on_stage.triangle[k];
      out.leaves[k] = on_stage.leaves[k];
    }
}

void Photographing::see(std::uint32_t moment, const Vec3& eye, const RayPacket& packet,
                        double pixel_rad, bool colours, std::array<Lit, kPacketRays>& lit,
                        std::array<Colour, kPacketRays>& veil,
                        std::array<float, kPacketRays>& passes) const {
  const Stage& stage = stageOf(moment);
  RayPacket rays = packet;
  HitPacket hit;
  const auto scene_triangles = static_cast<std::uint32_t>(subject.triangles().size());
  const scene::Scene& scene = subject.scene();
  veil.fill({});
  passes.fill(1);
  for (Lit& of : lit) of = {};
  for (std::size_t k = 0; k < kPacketRays; ++k) lit[k].surface = kSkySurface;
  const float glass =
      static_cast<float>(0.04 * (options.lighting.sky_lux + options.lighting.fill_lux));
  for (int step = 0; step <= kMostSteps; ++step) {
    const bool last = step == kMostSteps;  // behind so many panes those left tint nothing
    hits(moment, eye, rays, last ? StopsAt::opaque : StopsAt::all, hit);
    bool any = false;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (rays.traced[k] == 0) continue;
      rays.traced[k] = 0;
      Lit& of = lit[k];
      of.distance_m = kForeverM;
      if (hit.triangle[k] == kNoTriangle) continue;
      const bool on_stage = hit.triangle[k] >= scene_triangles;
      const Subject::Seen seen = on_stage
                                     ? stage.subject->triangles()[hit.triangle[k] - scene_triangles]
                                     : subject.triangles()[hit.triangle[k]];
      const scene::Scene& its = on_stage ? *stage.scene : scene;
      const scene::Body& body = its.bodies[static_cast<std::size_t>(seen.body)];
      const double light = its.sources[body.source].light;
      const bool leaves = hit.leaves[k] != 0 && !body.triangle();
      // What lets light pass tints once, where one enters it. A lens on a surface looks out of it.
      if (!last && (light > 0 || leaves)) {
        if (light > 0 && !leaves && colours) {
          const Coat& coat = coats[body.source];
          const bool leafy = coat.finish == Finish::foliage;
          const float covers = std::max(0.08f, static_cast<float>(1 - light));
          const double around = options.lighting.fill_lux + 0.7 * options.lighting.sky_lux;
          const Colour own = leafy
                                 ? scaled(albedoAt(coat,
                                                   eye + rayOfLane(rays, k) *
                                                             static_cast<double>(hit.distance_m[k]),
                                                   {0, 0, 1}, 0.01),
                                          around)
                                 : Colour{glass, 1.04f * glass, 1.08f * glass};
          veil[k] = veil[k] + own * (leafy ? passes[k] * covers : passes[k]);
          passes[k] *= 1 - covers;
        }
        rays.near_m[k] = behind(hit.distance_m[k]);
        rays.traced[k] = -1;
        any = true;
        continue;
      }
      const Surface& surface = (on_stage ? *stage.subject : subject).surfaces()[seen.surface];
      const Vec3 dir = rayOfLane(rays, k);
      of.distance_m = hit.distance_m[k];
      const auto far = static_cast<double>(of.distance_m);
      of.at_m = eye + dir * far;
      of.normal = dot(surface.normal, dir) > 0 ? -surface.normal : surface.normal;
      const double facing = std::max(0.08, -dot(of.normal, dir));
      const double pixel_m = far * pixel_rad / std::sqrt(facing);
      of.surface = on_stage ? stage_first + seen.surface : seen.surface;
      if (!colours) continue;
      if (!on_stage) {
        of.albedo = albedoAt(coats[body.source], of.at_m, of.normal, pixel_m);
        if (surface.normal.z > 0.9)
          for (const double floor : options.grid_m)
            if (std::abs(of.at_m.z - floor) < 2e-3 + 2e-6 * far) {
              const double stretch = far * pixel_rad / facing;
              of.albedo =
                  mix(of.albedo, Colour{0.92f, 0.92f, 0.9f},
                      static_cast<float>(0.6 * gridAt(of.at_m, 0.7 * stretch, 0.7 * stretch)));
            }
        continue;
      }
      if (body.source < stage.figures.size()) {
        const Figure& figure = stage.figures[body.source];
        const auto parts = figureBodies();
        const FigureBody& limb = parts[static_cast<std::size_t>(seen.body) % parts.size()];
        of.is_figure = true;
        of.normal = roundNormal(figure, limb, of.at_m, surface.normal);
        of.albedo = figureAlbedo(limb, inFigure(figure, of.at_m), body.source);
      } else {
        const Board& board = stage.boards[body.source - stage.figures.size()];
        const double turn = degToRad(board.facing_deg), s = std::sin(turn), c = std::cos(turn);
        const Vec3 from = of.at_m - board.middle_m;
        of.is_figure = true;
        of.albedo = dot(surface.normal, Vec3{s, c, 0}) > 0.9
                        ? boardAlbedo(board.pattern, {-c * from.x + s * from.y, from.z})
                        : Colour{0.3f, 0.3f, 0.3f};
      }
    }
    if (!any) break;
  }
  // Rays that nothing stopped: the plain, or the sky.
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    Lit& of = lit[k];
    if (packet.traced[k] == 0 || of.surface != kSkySurface) continue;
    const Vec3 dir = rayOfLane(packet, k);
    if (options.ground_m && eye.z > *options.ground_m && dir.z < 0) {
      const double far = (eye.z - *options.ground_m) / -dir.z;
      if (far < 40 * kHazeM) {
        of.surface = kPlainSurface;
        of.distance_m = static_cast<float>(far);
        of.at_m = eye + dir * far;
        of.normal = {0, 0, 1};
        if (!colours) continue;
        const double stretch = far * pixel_rad / std::max(0.02, -dir.z);
        of.albedo = albedoAt(ground, of.at_m, of.normal, std::sqrt(stretch * far * pixel_rad));
        for (const double floor : options.grid_m)
          if (std::abs(floor - *options.ground_m) < 1e-3)
            of.albedo =
                mix(of.albedo, Colour{0.92f, 0.92f, 0.9f},
                    static_cast<float>(0.6 * gridAt(of.at_m, 0.7 * stretch, 0.7 * stretch)));
        continue;
      }
    }
    if (colours) veil[k] = veil[k] + skyAt(dir, true) * passes[k];
  }
}

}  // namespace belvedere::picture
