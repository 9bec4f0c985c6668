// SPDX-License-Identifier: GPL-3.0-or-later
//
// Published: OpenCV's projectPoints (Bradski, "The OpenCV Library", 2000; camera model of its
// documentation). Corners of known boards lie in a photograph where it puts them, within half a
// pixel: a picture of four times the pixels shows the board half a pixel inside each corner, and
// what is behind half a pixel outside.
#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/calib3d.hpp>
#include <random>

#include "base/units.h"
#include "design/resolve.h"
#include "picture/photo.h"

namespace belvedere::picture {
namespace {

constexpr int kFiner = 4;
constexpr Size kPixels{640, 360};

TEST(SimulatedView, CornersOfBoardsWithinHalfAPixelOfOpenCv) {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> any(-1, 1);
  const scene::Scene nothing;
  const scene::RayCaster caster(nothing);
  const Subject subject(caster);
  const std::array<double, 5> coefficients{-0.21, 0.06, 0.0012, -0.0008, -0.005};
  int corners = 0;
  for (int trial = 0; trial < 40; ++trial) {
    const Vec3 eye{any(random), any(random), 2 + any(random)};
    const Mat3 turn = design::imagerFromSite(180 * any(random), 25 * any(random), 20 * any(random));
    const View view{eye,       turn, optics::makeBrownConrady({520, 510}, {322, 177}, coefficients),
                    kPixels,   {},   {0, 0},
                    {640, 360}};
    // A board somewhere ahead, turned about to the imager.
    const Vec3 ahead{0.8 * any(random), 0.4 * any(random), 1};
    const Vec3 at = eye + transposed(turn) * (ahead * (3 + any(random)));
    const Vec3 back = eye - at;
    Board board{Pattern::chart, at, radToDeg(std::atan2(back.x, back.y)) + 35 * any(random)};
    PhotoOptions options;
    options.ground_m.reset();
    options.size = {kFiner * kPixels[0], kFiner * kPixels[1]};
    options.boards = {board};
    const double facing = degToRad(board.facing_deg);
    const Vec3 aside{std::cos(facing), -std::sin(facing), 0}, up{0, 0, 1};
    std::vector<cv::Point3d> points{{at.x, at.y, at.z}};
    for (const auto& [a, b] : {std::pair{-0.2, -0.2}, {-0.2, 0.2}, {0.2, 0.2}, {0.2, -0.2}}) {
      const Vec3 p = at + aside * a + up * b;
      points.emplace_back(p.x, p.y, p.z);
    }
    const cv::Matx33d rotation(turn.row[0].x, turn.row[0].y, turn.row[0].z, turn.row[1].x,
                               turn.row[1].y, turn.row[1].z, turn.row[2].x, turn.row[2].y,
                               turn.row[2].z);
    cv::Vec3d angles;
    cv::Rodrigues(rotation, angles);
    const cv::Matx31d moved = rotation * cv::Matx31d(eye.x, eye.y, eye.z) * -1.0;
    // OpenCV's (0, 0) is the middle of the first pixel, ours its outer edge.
    const cv::Matx33d camera(520, 0, 322 - 0.5, 0, 510, 177 - 0.5, 0, 0, 1);
    std::vector<cv::Point2d> places;
    cv::projectPoints(points, angles, cv::Vec3d(moved(0), moved(1), moved(2)), camera,
                      std::vector<double>(coefficients.begin(), coefficients.end()), places);
    bool in_frame = true;
    for (const cv::Point2d& p : places)
      in_frame = in_frame && p.x > 2 && p.y > 2 && p.x < 636 && p.y < 356;
    if (!in_frame) continue;
    const Photo photo = photograph(subject, {}, view, options, {});
    const auto showsBoard = [&](Vec2 p_px) {
      const int x = static_cast<int>(p_px.x * kFiner), y = static_cast<int>(p_px.y * kFiner);
      return photo.surface[photo.at(x, y)] < kNoSurface;
    };
    const Vec2 middle{places[0].x + 0.5, places[0].y + 0.5};
    for (std::size_t i = 1; i < places.size(); ++i) {
      const Vec2 corner{places[i].x + 0.5, places[i].y + 0.5};
      const Vec2 outward = (corner - middle) / norm(corner - middle) * 0.5;
      EXPECT_TRUE(showsBoard(corner - outward)) << trial << " " << i;
      EXPECT_FALSE(showsBoard(corner + outward)) << trial << " " << i;
      ++corners;
    }
  }
  EXPECT_GT(corners, 60);
}

}  // namespace
}  // namespace belvedere::picture
