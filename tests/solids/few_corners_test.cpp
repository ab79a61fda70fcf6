#include "geometry/solids/few_corners.hpp"

#include <gtest/gtest.h>

#include <random>

#include "geometry/solids/hull.hpp"

namespace fairlead::solids {
namespace {

double outside_m(const FewCorners& few, Vec3 p) {
  const Point3 at = Point3{} + p;
  return nearest(Segment{at, at}, Hull{{}, few.corners}).distance_m;
}

std::vector<Vec3> ball(int count, double radius_m) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  std::vector<Vec3> points;
  for (int i = 0; i < count; ++i)
    points.push_back(radius_m * unit(Vec3{normal(random), normal(random), normal(random)}));
  return points;
}

TEST(FewCorners, OfABoxFullOfPointsAreItsEight) {
  std::vector<Vec3> points;
  for (int x = 0; x <= 4; ++x)
    for (int y = 0; y <= 4; ++y)
      for (int z = 0; z <= 4; ++z) points.push_back({x / 4., y / 2., z / 1.});
  const FewCorners few = few_corners(points, 1e-9, 40);
  EXPECT_LE(few.beyond_m, 1e-9);
  for (const double x : {0., 1.})
    for (const double y : {0., 2.})
      for (const double z : {0., 4.})
        EXPECT_NE(std::find(few.corners.begin(), few.corners.end(), Vec3{x, y, z}), few.corners.end());
}

TEST(FewCorners, LeaveNoPointFartherOutsideThanTheySay) {
  const std::vector<Vec3> points = ball(4000, 1.2);
  for (const std::size_t most : {26u, 48u, 100u}) {
    const FewCorners few = few_corners(points, 2e-3, most);
    EXPECT_LE(few.corners.size(), most);
    double farthest_m = 0;
    for (const Vec3& p : points) farthest_m = std::max(farthest_m, outside_m(few, p));
    EXPECT_NEAR(few.beyond_m, farthest_m, 1e-9) << most;
    EXPECT_GT(farthest_m, 2e-3) << "a ball has no few corners";
  }
}

TEST(FewCorners, AreEnoughWhereThatTakesNoMore) {
  const FewCorners few = few_corners(ball(4000, 0.02), 2e-3, 500);
  EXPECT_LE(few.beyond_m, 2e-3);
  EXPECT_LT(few.corners.size(), 100u);
}

TEST(FewCorners, OfOnePointIsThat) {
  const std::vector<Vec3> one{{1, 2, 3}};
  EXPECT_EQ(few_corners(one, 0, 26).corners, one);
}

}  // namespace
}  // namespace fairlead::solids
