#include "geometry/reeving/plane.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace fairlead::reeving {
namespace {

// Source PLANE [own]: four points 12 mm off alternately: normal (2, 2, 1)/3, centroid (2.5, .5, 3). Points are
// printed to 1 mm.
TEST(Plane, FourPointsHaveTheirKnownPlane) {
  const std::vector<Point3> points{
      {1.008, 2.008, 3.004}, {1.992, -.008, 4.996}, {4.008, -.992, 3.004}, {2.992, .992, .996}};
  const auto plane = best_plane(points);
  ASSERT_TRUE(plane);
  EXPECT_NEAR(std::abs(dot(plane->normal, Vec3{2, 2, 1})) / 3, 1, 1e-6);
  EXPECT_NEAR(norm(plane->centroid - Point3{2.5, .5, 3}), 0, 1e-12);
  EXPECT_NEAR(plane->thickness_m, 0.024, 1e-12);
}

// Source PLANE [own]: five points, n = (-.000281696, .001254869, .999999173), peak to valley .0720973.
TEST(Plane, FivePointsHaveTheirKnownPlaneAndThickness) {
  const std::vector<Point3> points{
      {11.5, 7, 1.1}, {18.5, 6.9, 1.03}, {4.5, 13, 1.02}, {25.5, 30, 1.03}, {11.5, 37.5, 1.02}};
  const auto plane = best_plane(points);
  ASSERT_TRUE(plane);
  const double sign = plane->normal.z < 0 ? -1 : 1;
  EXPECT_NEAR(sign * plane->normal.x, -.000281696, 5e-10);
  EXPECT_NEAR(sign * plane->normal.y, .001254869, 5e-10);
  EXPECT_NEAR(plane->thickness_m, .0720973, 5e-8);
}

TEST(Plane, ThreePointsOrALineOfPointsNameNone) {
  EXPECT_FALSE(best_plane(std::vector<Point3>{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}));
  EXPECT_FALSE(best_plane(std::vector<Point3>{}));
  std::vector<Point3> line;
  for (int i = 0; i < 20; ++i) line.push_back(Point3{500, -300, 800} + 0.7 * i * Vec3{0.6, 0.8, 0.1});
  EXPECT_FALSE(best_plane(line));
  line.push_back(line.back() + Vec3{0.01, 0, 0});
  EXPECT_TRUE(best_plane(line));
}

TEST(Plane, APointOfWeightTwoCountsAsTwoPoints) {
  std::vector<Point3> points{{0, 0, 0}, {9, 0, 0.02}, {0, 1, -0.01}, {8, 2, 0.01}, {4, 1, 0.03}};
  const auto weighed = best_plane(points, std::vector<double>{1, 1, 2, 1, 1});
  points.push_back(points[2]);
  const auto twice = best_plane(points);
  EXPECT_NEAR(std::abs(dot(weighed->normal, twice->normal)), 1, 1e-12);
  EXPECT_NEAR(weighed->thickness_m, twice->thickness_m, 1e-12);
}

TEST(Plane, ItGoesWithThePointsWhereverTheyAre) {
  std::vector<Point3> points{{0, 0, 0}, {9, 0, 0.02}, {0, 1, -0.01}, {8, 2, 0.01}, {4, 1, 0.03}};
  const auto here = best_plane(points);
  for (Point3& p : points) p = p + Vec3{4e5, 5e6, 1200};
  const auto there = best_plane(points);
  EXPECT_NEAR(there->thickness_m, here->thickness_m, 1e-8) << "a coordinate of 5e6 m keeps a nanometre";
}

}  // namespace
}  // namespace fairlead::reeving
