// CGAL, a general geometry library, as judge of our geometry: planes, distances, circles. With clearance_test.cpp the
// only files that include it.
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Simple_cartesian.h>
#include <CGAL/linear_least_squares_fitting_3.h>
#include <CGAL/squared_distance_3.h>
#include <gtest/gtest.h>

#include <random>

#include "geometry/reeving/contact.hpp"
#include "geometry/reeving/plane.hpp"

namespace fairlead {
namespace {

using Kernel = CGAL::Simple_cartesian<double>;
using Exact = CGAL::Exact_predicates_exact_constructions_kernel;

/// Random points within a slab of a random plane: clouds like those of a braking line, 10 km from the datum at times.
std::vector<Point3> slab(std::mt19937_64& random, double thickness_m, double datum_m) {
  std::uniform_real_distribution<double> spread(-10, 10), off(-thickness_m / 2, thickness_m / 2), part(-1, 1);
  const Vec3 normal = unit(Vec3{part(random), part(random), part(random) + 1.5});
  const Vec3 one = unit(cross(normal, Vec3{0.3, -0.8, 0.1})), other = cross(normal, one);
  std::vector<Point3> points;
  for (int i = 0; i < 60; ++i) {
    const double a = spread(random), b = 0.2 * spread(random), c = off(random);
    points.push_back(Point3{datum_m, -datum_m, datum_m / 10} + a * one + b * other + c * normal);
  }
  return points;
}

TEST(CgalOracle, TheBestPlaneIsTheOneOfPrincipalComponents) {
  std::mt19937_64 random(20261125);
  for (const double datum_m : {0.0, 10e3})
    for (int i = 0; i < 50; ++i) {
      const std::vector<Point3> ours = slab(random, 0.2, datum_m);
      const auto plane = reeving::best_plane(ours);
      ASSERT_TRUE(plane.has_value());
      // CGAL sums squares of coordinates, so it is given the points about their first one.
      std::vector<Kernel::Point_3> theirs;
      for (const Point3& p : ours) theirs.emplace_back(p.x - ours[0].x, p.y - ours[0].y, p.z - ours[0].z);
      Kernel::Plane_3 fitted;
      Kernel::Point_3 centroid;
      CGAL::linear_least_squares_fitting_3(theirs.begin(), theirs.end(), fitted, centroid, CGAL::Dimension_tag<0>());
      const Vec3 n =
          unit(Vec3{fitted.orthogonal_vector().x(), fitted.orthogonal_vector().y(), fitted.orthogonal_vector().z()});
      // Its covariance squares the condition: sqrt(1e-16) x (10 / 0.06)^2 would be the worst; a thousandth of a degree
      // is far inside.
      EXPECT_NEAR(std::abs(dot(n, plane->normal)), 1, 1e-10);
      double least = 0, greatest = 0;
      for (std::size_t k = 0; k < ours.size(); ++k) {
        const double squared = CGAL::squared_distance(theirs[k], fitted);
        const double distance = fitted.has_on_positive_side(theirs[k]) ? std::sqrt(squared) : -std::sqrt(squared);
        least = std::min(least, distance);
        greatest = std::max(greatest, distance);
      }
      EXPECT_NEAR(greatest - least, plane->thickness_m, 1e-7);
    }
}

/// The leg of a weightless line touches its sheave's circle: its distance from the axle's line, exactly computed, is
/// the radius, and the circle's own plane holds the contact.
TEST(CgalOracle, AWeightlessLegInTheGroovesPlaneTouchesItsCircle) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> part(-1, 1), away(0.5, 30);
  for (int i = 0; i < 300; ++i) {
    const Vec3 axle = unit(Vec3{part(random), part(random), part(random) + 2});
    const Vec3 one = unit(cross(axle, Vec3{1, 0.2, -0.3})), other = cross(axle, one);
    const double radius_m = 0.05 + 0.1 * std::abs(part(random));
    const reeving::Sheave sheave{{100, 200, 30}, axle, radius_m, i % 2 ? 1 : -1};
    const double angle = 3 * part(random);
    const Point3 end = sheave.centre + away(random) * (std::cos(angle) * one + std::sin(angle) * other);
    const auto leg = reeving::meet(reeving::point_end(end), reeving::arriving(sheave), {1000, end.z, 0});
    ASSERT_TRUE(leg.has_value());
    const Point3 contact = sheave.centre + radius_m * leg->to_e;
    const auto exact = [](Point3 p) { return Exact::Point_3(p.x, p.y, p.z); };
    const Exact::Line_3 axle_line(exact(sheave.centre), Exact::Vector_3(axle.x, axle.y, axle.z));
    const Exact::Line_3 leg_line(exact(end), exact(contact));
    // Coordinates of 200 m round to 3e-14 m, over legs from 0.5 m; the square of the distance to a touching line hides
    // nothing at 1e-12.
    EXPECT_NEAR(std::sqrt(CGAL::to_double(CGAL::squared_distance(leg_line, axle_line))), radius_m, 1e-11);
    EXPECT_NEAR(std::sqrt(CGAL::to_double(CGAL::squared_distance(exact(contact), axle_line))), radius_m, 1e-12);
  }
}

}  // namespace
}  // namespace fairlead
