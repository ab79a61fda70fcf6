// CGAL as judge of the distances between solids: exact kernels, on draws meant to hurt. With cgal_test.cpp the only
// files that include it.
#include <CGAL/Cartesian.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Gmpzf.h>
#include <CGAL/Polytope_distance_d.h>
#include <CGAL/Polytope_distance_d_traits_3.h>
#include <CGAL/squared_distance_3.h>
#include <gtest/gtest.h>

#include <random>

#include "geometry/solids/distance.hpp"
#include "geometry/solids/hull.hpp"

namespace fairlead::solids {
namespace {

using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
using Plain = CGAL::Cartesian<double>;
using Polytopes = CGAL::Polytope_distance_d<CGAL::Polytope_distance_d_traits_3<Plain, CGAL::Gmpzf, double>>;
using Points = std::vector<Point3>;

/// Distance of two convex hulls: exact to the last step, a division and a root.
double hull_distance(const Points& a, const Points& b) {
  const auto theirs = [](const Points& ours) {
    std::vector<Plain::Point_3> points;
    for (const Point3& p : ours) points.emplace_back(p.x, p.y, p.z);
    return points;
  };
  const auto p = theirs(a), q = theirs(b);
  const Polytopes distance(p.begin(), p.end(), q.begin(), q.end());
  return std::sqrt(CGAL::to_double(distance.squared_distance_numerator()) /
                   CGAL::to_double(distance.squared_distance_denominator()));
}

Points corners(const Box& box) {
  Points points;
  for (const double x : {-1., 1.})
    for (const double y : {-1., 1.})
      for (const double z : {-1., 1.})
        points.push_back(box.centre + x * box.half_m.x * box.x + y * box.half_m.y * box.y + z * box.half_m.z * box.z);
  return points;
}

/// The post as a prism of that many sides, as wide as `radius_m` at its corners.
Points prism(const Post& post, double radius_m, int sides) {
  const Vec3 axis = unit(post.to - post.from);
  const Vec3 out = unit(cross(axis, std::abs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0})), aside = cross(axis, out);
  Points points;
  for (int i = 0; i < sides; ++i) {
    const double turn = 2 * std::numbers::pi * i / sides;
    const Vec3 corner = radius_m * (std::cos(turn) * out + std::sin(turn) * aside);
    points.push_back(post.from + corner);
    points.push_back(post.to + corner);
  }
  return points;
}

/// Scenes in which things touch, line up, or are needles, about a place that may be far away.
class Trouble {
 public:
  explicit Trouble(double datum_m) : datum_{datum_m, -datum_m / 2, datum_m / 500} {}

  double within(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  int one_of(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }

  /// On a grid of quarters three times out of four, so that points and directions coincide.
  Point3 point() {
    const auto coordinate = [&] { return one_of(4) ? 0.25 * (one_of(33) - 16) : within(-4, 4); };
    const double x = coordinate(), y = coordinate(), z = coordinate();
    return datum_ + Vec3{x, y, z};
  }
  Segment segment() {
    const Point3 from = point();
    switch (one_of(4)) {
      case 0:
        return {from, from};
      case 1:
        return {from, from + 1e-9 * (point() - datum_)};
      default:
        return {from, point()};
    }
  }
  /// Beside the given one: parallel to it, as good as parallel, or from one of its ends.
  Segment beside(const Segment& s) {
    const Vec3 run = s.to - s.from, aside = point() - datum_;
    switch (one_of(4)) {
      case 0:
        return {s.from + aside, s.from + aside + within(-2, 2) * run};
      case 1:
        return {s.from + aside, s.from + aside + run + 1e-10 * (point() - datum_)};
      case 2:
        return {s.to, s.to + aside};
      default:
        return {s.from + 0.5 * run - aside, s.from + 0.5 * run + aside};
    }
  }
  Box box() {
    Box b{.centre = point()};
    if (one_of(2)) {
      b.x = unit(Vec3{within(-1, 1), within(-1, 1), within(-1, 1)});
      b.z = unit(cross(b.x, Vec3{0.3, -0.5, 0.8}));
      b.y = cross(b.z, b.x);
    }
    const auto half = [&] { return one_of(3) ? 0.25 * one_of(9) : within(0, 1e-6); };
    b.half_m = {half(), half(), half()};
    return b;
  }
  Post post() {
    const Point3 from = point();
    Point3 to = point();
    if (to == from || one_of(2)) to = from + Vec3{0, 0, 1.25};
    return {from, to, one_of(3) ? 0.25 * (1 + one_of(4)) : 1e-3};
  }

 private:
  std::mt19937_64 random_{20261125};
  Point3 datum_;
};

/// What rounding of the coordinates leaves of a distance in scenes of 10 m: 1e-12 of it, and a few ulp of where it is.
double tolerance(double distance_m, double datum_m) { return 1e-12 * distance_m + 1e-14 + 4e-16 * datum_m; }

class Distances : public ::testing::TestWithParam<double> {};
INSTANTIATE_TEST_SUITE_P(AtTheDatumAndFarFromIt, Distances, ::testing::Values(0., 500e3));

TEST_P(Distances, BetweenSegmentsAreCgals) {
  Trouble trouble(GetParam());
  const auto exact = [](const Segment& s) {
    return Exact::Segment_3({s.from.x, s.from.y, s.from.z}, {s.to.x, s.to.y, s.to.z});
  };
  for (int i = 0; i < 4000; ++i) {
    const Segment a = trouble.segment(), b = i % 2 ? trouble.beside(a) : trouble.segment();
    if (a.from == a.to && b.from == b.to) continue;  // CGAL wants a direction
    const double distance = std::sqrt(CGAL::to_double(CGAL::squared_distance(exact(a), exact(b))));
    EXPECT_NEAR(nearest(a, b).distance_m, distance, tolerance(distance, GetParam())) << i;
  }
}

TEST_P(Distances, OfSegmentsToBoxesAreThoseOfTheirHulls) {
  Trouble trouble(GetParam());
  for (int i = 0; i < 1000; ++i) {
    const Segment s = trouble.segment();
    const Box box = trouble.box();
    const double distance = hull_distance({s.from, s.to}, corners(box));
    EXPECT_NEAR(nearest(s, box).distance_m, distance, tolerance(distance, GetParam())) << i;
  }
}

TEST_P(Distances, BetweenBoxesAreThoseOfTheirHulls) {
  Trouble trouble(GetParam());
  for (int i = 0; i < 600; ++i) {
    const Box a = trouble.box(), b = trouble.box();
    const double distance = hull_distance(corners(a), corners(b));
    EXPECT_NEAR(nearest(a, b).distance_m, distance, tolerance(distance, GetParam())) << i;
  }
}

TEST_P(Distances, BetweenHullsAreCgals) {
  Trouble trouble(GetParam());
  const auto from = [](const Points& points) {
    std::vector<Vec3> corners;
    for (const Point3& p : points) corners.push_back(p - points.front());
    return corners;
  };
  for (int i = 0; i < 400; ++i) {
    Points a, b;
    for (Points* points : {&a, &b})
      for (int n = 1 + trouble.one_of(9); n > 0; --n) points->push_back(trouble.point());
    if (i % 3 == 0) b.push_back(a.front());  // they touch at least
    const double distance = hull_distance(a, b);
    const std::vector<Vec3> from_a = from(a), from_b = from(b);
    const Hull hull{a.front(), from_a};
    EXPECT_NEAR(nearest(hull, Hull{b.front(), from_b}).distance_m, distance,
                10 * hull_precision + tolerance(distance, GetParam()))
        << i;
    const Segment s = trouble.segment();
    const Box box = trouble.box();
    const double to_segment = hull_distance({s.from, s.to}, a), to_box = hull_distance(corners(box), a);
    EXPECT_NEAR(nearest(s, hull).distance_m, to_segment, 10 * hull_precision + tolerance(to_segment, GetParam())) << i;
    EXPECT_NEAR(nearest(hull, box).distance_m, to_box, 10 * hull_precision + tolerance(to_box, GetParam())) << i;
  }
}

// A prism within the post is no nearer than the post, one about it no farther.
TEST_P(Distances, ToPostsLieBetweenThoseOfAPrismWithinAndAPrismAbout) {
  Trouble trouble(GetParam());
  constexpr int sides = 24;
  const double about = 1 / std::cos(std::numbers::pi / sides);
  for (int i = 0; i < 300; ++i) {
    const Post post = trouble.post();
    const Points within = prism(post, post.radius_m, sides), outside = prism(post, about * post.radius_m, sides);
    const auto held = [&](double ours, const Points& other, const char* what) {
      const double most = hull_distance(other, within), least = hull_distance(other, outside);
      EXPECT_LE(ours, most + tolerance(most, GetParam())) << what << " " << i;
      EXPECT_GE(ours, least - tolerance(least, GetParam())) << what << " " << i;
    };
    const Segment s = trouble.segment();
    const Box box = trouble.box();
    held(nearest(s, post).distance_m, {s.from, s.to}, "segment");
    held(nearest(box, post).distance_m, corners(box), "box");
  }
}

TEST_P(Distances, ToPlanesAreCgals) {
  Trouble trouble(GetParam());
  for (int i = 0; i < 1000; ++i) {
    const Point3 through = trouble.point();
    const Plane plane{through, unit(trouble.point() - trouble.point() + Vec3{1e-3, 2e-3, 1e-3})};
    const Exact::Plane_3 exact({through.x, through.y, through.z},
                               Exact::Vector_3(plane.normal.x, plane.normal.y, plane.normal.z));
    const Box box = trouble.box();
    double least = std::numeric_limits<double>::infinity();
    for (const Point3& p : corners(box)) {
      const Exact::Point_3 corner(p.x, p.y, p.z);
      const double height = std::sqrt(CGAL::to_double(CGAL::squared_distance(corner, exact)));
      least = std::min(least, exact.has_on_negative_side(corner) ? -height : height);
    }
    EXPECT_NEAR(nearest(box, plane).distance_m, least, tolerance(std::abs(least), GetParam())) << i;
  }
}

}  // namespace
}  // namespace fairlead::solids
