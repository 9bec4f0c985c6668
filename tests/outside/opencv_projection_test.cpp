// SPDX-License-Identifier: GPL-3.0-or-later
//
// Published: OpenCV 4.6, calib3d: projectPoints with five coefficients and fisheye::projectPoints,
// as installed, on random lenses and rays. Within 1e-6 px where the picture is within 20000 px.
#include <gtest/gtest.h>

#include <opencv2/calib3d.hpp>
#include <vector>

#include "../optics/random_lens.h"

namespace belvedere::optics {
namespace {

constexpr double kAgreePx = 1e-6;

cv::Matx33d cameraMatrix(Vec2 f_px, Vec2 centre_px) {
  return {f_px.x, 0, centre_px.x, 0, f_px.y, centre_px.y, 0, 0, 1};
}

// Rays within the lens's angle and in front of it, at any distance.
std::vector<Vec3> rays(RandomLenses& random, double largest_rad, int count) {
  std::vector<Vec3> list;
  for (int i = 0; i < count; ++i)
    list.push_back(random.directionAt(random.between(0, std::min(largest_rad, 1.45))) *
                   random.between(0.2, 200));
  return list;
}
std::vector<cv::Point3d> pointsOf(const std::vector<Vec3>& list) {
  std::vector<cv::Point3d> points;
  for (const Vec3& p : list) points.emplace_back(p.x, p.y, p.z);
  return points;
}

void expectAgreement(const Lens& lens, const std::vector<Vec3>& list,
                     const std::vector<cv::Point2d>& theirs, int& compared) {
  std::vector<Vec2> ours(list.size());
  projectMany(lens, list, ours);
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Vec2 other{theirs[i].x, theirs[i].y};
    if (norm(other) > 20000) continue;
    ++compared;
    ASSERT_NEAR(ours[i].x, other.x, kAgreePx);
    ASSERT_NEAR(ours[i].y, other.y, kAgreePx);
    // And back, as far as the radius still grows: the same direction.
    const auto back = unproject(lens, other);
    ASSERT_TRUE(back);
    const auto again = project(lens, *back);
    ASSERT_TRUE(again);
    ASSERT_NEAR(again->x, other.x, kAgreePx);
    ASSERT_NEAR(again->y, other.y, kAgreePx);
  }
}

TEST(OpenCv, PinholeWithFiveCoefficients) {
  RandomLenses random(41);
  int compared = 0;
  for (int i = 0; i < 500; ++i) {
    const BrownConradyLens lens = random.brownConrady();
    const auto list = rays(random, 0.98 * lens.largest_angle_rad, 200);
    std::vector<cv::Point2d> theirs;
    cv::projectPoints(
        pointsOf(list), cv::Vec3d(), cv::Vec3d(), cameraMatrix(lens.f_px, lens.centre_px),
        std::vector<double>(lens.coefficients.begin(), lens.coefficients.end()), theirs);
    expectAgreement(lens, list, theirs, compared);
  }
  EXPECT_GT(compared, 80000);
}

TEST(OpenCv, PinholeWithoutDistortionIsTheRectilinearFamily) {
  RandomLenses random(42);
  int compared = 0;
  for (int i = 0; i < 200; ++i) {
    RadialLens lens = random.radial();
    lens.k = 1;
    const auto list = rays(random, 1.4, 200);
    std::vector<cv::Point2d> theirs;
    cv::projectPoints(pointsOf(list), cv::Vec3d(), cv::Vec3d(),
                      cameraMatrix({lens.f_px, lens.f_px}, lens.centre_px), cv::noArray(), theirs);
    expectAgreement(lens, list, theirs, compared);
  }
  EXPECT_GT(compared, 30000);
}

TEST(OpenCv, Fisheye) {
  RandomLenses random(43);
  int compared = 0;
  for (int i = 0; i < 500; ++i) {
    const KannalaBrandtLens lens = random.kannalaBrandt();
    const auto list = rays(random, 0.98 * lens.largest_angle_rad, 200);
    std::vector<cv::Point2d> theirs;
    cv::fisheye::projectPoints(pointsOf(list), theirs, cv::Vec3d(), cv::Vec3d(),
                               cameraMatrix(lens.f_px, lens.centre_px),
                               cv::Vec4d(lens.coefficients.data()));
    expectAgreement(lens, list, theirs, compared);
  }
  EXPECT_GT(compared, 90000);
}

// The equidistant family is the fisheye model without coefficients.
TEST(OpenCv, FisheyeWithoutCoefficientsIsEquidistant) {
  RandomLenses random(44);
  int compared = 0;
  for (int i = 0; i < 200; ++i) {
    RadialLens lens = random.radial();
    lens.k = 0;
    const auto list = rays(random, 1.45, 200);
    std::vector<cv::Point2d> theirs;
    cv::fisheye::projectPoints(pointsOf(list), theirs, cv::Vec3d(), cv::Vec3d(),
                               cameraMatrix({lens.f_px, lens.f_px}, lens.centre_px), cv::Vec4d());
    expectAgreement(lens, list, theirs, compared);
  }
  EXPECT_GT(compared, 30000);
}

}  // namespace
}  // namespace belvedere::optics
