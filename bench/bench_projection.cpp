// SPDX-License-Identifier: GPL-3.0-or-later
//
// Projection of many directions at once, against OpenCV's functions for the same model on the same
// points: cv::projectPoints (pinhole with five coefficients) and cv::fisheye::projectPoints. Both
// sides in one run, turn about; medians; the ratio is what counts. Prints; people judge.
//
//   bench_projection [points] [rounds]
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <opencv2/calib3d.hpp>
#include <random>
#include <vector>

#include "optics/lens.h"

namespace {

using belvedere::Vec2;
using belvedere::Vec3;
namespace optics = belvedere::optics;

// Processor time: both sides run on one thread, and the machine may have other work.
double secondsOf(const std::function<void()>& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}
double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

struct Points {
  std::vector<Vec3> ours;
  std::vector<cv::Point3d> theirs;
};

Points pointsInFront(std::size_t count) {
  std::mt19937_64 engine(1);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1p-53;
  };
  Points points;
  for (std::size_t i = 0; i < count; ++i) {
    const Vec3 p{between(-8, 8), between(-4, 4), between(6, 40)};
    points.ours.push_back(p);
    points.theirs.emplace_back(p.x, p.y, p.z);
  }
  return points;
}

void compare(const char* what, const Points& points, int rounds, const optics::Lens& lens,
             const std::function<void(std::vector<cv::Point2d>&)>& peer) {
  std::vector<Vec2> ours(points.ours.size());
  std::vector<cv::Point2d> theirs(points.ours.size());
  std::vector<double> ours_s, theirs_s;
  for (int round = 0; round < rounds; ++round) {
    ours_s.push_back(secondsOf([&] { optics::projectMany(lens, points.ours, ours); }));
    theirs_s.push_back(secondsOf([&] { peer(theirs); }));
  }
  double apart = 0;
  for (std::size_t i = 0; i < ours.size(); ++i)
    apart = std::max({apart, std::abs(ours[i].x - theirs[i].x), std::abs(ours[i].y - theirs[i].y)});
  const double count = static_cast<double>(points.ours.size());
  std::printf("%-44s %8.1f M/s   peer %6.1f M/s   ratio %5.1f   apart %.1e px\n", what,
              count / median(ours_s) / 1e6, count / median(theirs_s) / 1e6,
              median(theirs_s) / median(ours_s), apart);
}

}  // namespace

int main(int argument_count, char** arguments) {
  const std::size_t count = argument_count > 1 ? std::strtoull(arguments[1], nullptr, 10) : 100'000;
  const int rounds = argument_count > 2 ? std::atoi(arguments[2]) : 61;
  cv::setNumThreads(1);
  const Points points = pointsInFront(count);
  const cv::Matx33d matrix(1100, 0, 960, 0, 1105, 540, 0, 0, 1);
  const Vec2 f_px{1100, 1105}, centre_px{960, 540};
  const std::vector<double> five{-0.21, 0.04, 8e-4, -6e-4, -0.003};
  const cv::Vec4d four(0.03, -0.01, 0.002, -0.0004);

  std::printf("%zu points, one thread, processor time, median of %d rounds, turn about\n", count,
              rounds);
  compare("pinhole, five coefficients", points, rounds,
          optics::makeBrownConrady(f_px, centre_px, {five[0], five[1], five[2], five[3], five[4]}),
          [&](std::vector<cv::Point2d>& out) {
            cv::projectPoints(points.theirs, cv::Vec3d(), cv::Vec3d(), matrix, five, out);
          });
  compare("rectilinear, against pinhole without any", points, rounds,
          optics::RadialLens{1100, 1, centre_px}, [&](std::vector<cv::Point2d>& out) {
            cv::projectPoints(points.theirs, cv::Vec3d(), cv::Vec3d(),
                              cv::Matx33d(1100, 0, 960, 0, 1100, 540, 0, 0, 1), cv::noArray(), out);
          });
  compare("fisheye, four coefficients", points, rounds,
          optics::makeKannalaBrandt(f_px, centre_px, {four[0], four[1], four[2], four[3]}),
          [&](std::vector<cv::Point2d>& out) {
            cv::fisheye::projectPoints(points.theirs, out, cv::Vec3d(), cv::Vec3d(), matrix, four);
          });
  compare("equidistant, against fisheye without any", points, rounds,
          optics::RadialLens{1100, 0, centre_px}, [&](std::vector<cv::Point2d>& out) {
            cv::fisheye::projectPoints(points.theirs, out, cv::Vec3d(), cv::Vec3d(),
                                       cv::Matx33d(1100, 0, 960, 0, 1100, 540, 0, 0, 1),
                                       cv::Vec4d());
          });
  const optics::Lens fitted = optics::RadialLens{1100, 0.4, centre_px};
  std::vector<Vec2> out(points.ours.size());
  std::vector<double> many_s, one_s;
  for (int round = 0; round < rounds; ++round) {
    many_s.push_back(secondsOf([&] { optics::projectMany(fitted, points.ours, out); }));
    one_s.push_back(secondsOf([&] {
      for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = optics::project(fitted, points.ours[i]).value_or(Vec2{});
    }));
  }
  std::printf("%-44s %8.1f M/s   one at a time %6.1f M/s\n", "radial, k = 0.4",
              static_cast<double>(count) / median(many_s) / 1e6,
              static_cast<double>(count) / median(one_s) / 1e6);
  return 0;
}
