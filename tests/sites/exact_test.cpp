// One item against one shape, judged by CGAL's rational arithmetic.
#include "geometry/sites/exact.hpp"

#include <gtest/gtest.h>

#include "tests/sites/draws.hpp"
#include "tests/sites/oracle.hpp"

namespace fairlead::sites {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double errors = 1e-12;  ///< of the sizes together, as exact.hpp says
const Draws::Kind kinds[] = {Draws::Kind::any, Draws::Kind::grid, Draws::Kind::near_grid};

/// A place's coordinates are rounded once more, by half a unit of their last digit each.
double places(Point3 p) { return 2 * std::numeric_limits<double>::epsilon() * norm(p - Point3{}); }

void expect_answer(const Apart& ours, double theirs, double size, const std::string& what) {
  EXPECT_NEAR(ours.distance, theirs, errors * size) << what;
  EXPECT_NEAR(norm(ours.on_shape - ours.on_item), ours.distance, errors * size + places(ours.on_item)) << what;
}

/// The distance of a point from a hull, which is none where it is one of its points.
void expect_within(Point3 p, std::span<const Point3> hull, double size, const std::string& what) {
  EXPECT_LE(exact_distance(std::span(&p, 1), hull), errors * size + places(p)) << what;
}

TEST(ExactDistance, OfSegmentsAndTrianglesIsWithinATrillionthOfTheirSizes) {
  for (const double datum_m : {0., 5e5})
    for (const Draws::Kind kind : kinds) {
      Draws draws{std::mt19937_64(17), datum_m, kind};
      for (int i = 0; i < 48; ++i) {
        const Triangle t = draws.triangle();
        std::array<Point3, 2> s{draws.point(), draws.point()};
        if (i % 4 == 0) s[1] = draws.point_of(t);                          // touches it
        if (i % 4 == 1) s[1] = draws.between(s[0], draws.point_of(t), 2);  // passes through it
        if (i % 8 == 3) s = {draws.point_of(t), draws.point_of(t)};        // lies in it
        if (i % 16 == 7) s[1] = s[0];
        const double size = size_of({s, t});
        const Apart ours = segment_to_item(s[0], s[1], t);
        const std::string what = "draw " + std::to_string(i) + " at " + std::to_string(datum_m);
        expect_answer(ours, exact_distance(s, t), size, what);
        if (i % 3 == 0) expect_within(ours.on_shape, s, size, what);
        if (i % 3 == 1) expect_within(ours.on_item, t, size, what);
        if (exactly_meet(s[0], s[1], t)) {
          EXPECT_EQ(ours.distance, 0) << what;
        }
      }
    }
}

TEST(ExactDistance, OfHullsAndTrianglesIsWithinATrillionthOfTheirSizes) {
  for (const double datum_m : {0., 5e5})
    for (const Draws::Kind kind : kinds) {
      Draws draws{std::mt19937_64(18), datum_m, kind};
      for (int i = 0; i < 48; ++i) {
        const Triangle t = draws.triangle();
        std::vector<Point3> hull;
        const int points = draws.whole(1, 32);
        const Vec3 away = std::ldexp(1., draws.whole(-40, 5)) * (draws.point() - draws.point());
        for (int k = 0; k < points; ++k) {
          hull.push_back(draws.point() + away);
          if (k > 2 && i % 5 == 0)
            hull.back() = draws.between(hull[0], draws.between(hull[1], hull[2], draws.any(0, 1)), draws.any(0, 1));
        }
        if (i % 4 == 0) hull.push_back(draws.point_of(t));
        const double size = size_of({hull, t});
        const Apart ours = hull_to_item(hull, t, infinite);
        const std::string what = "draw " + std::to_string(i) + " at " + std::to_string(datum_m);
        expect_answer(ours, exact_distance(hull, t), size, what);
        const Apart bounded = hull_to_item(hull, t, ours.distance / 2);
        EXPECT_TRUE(bounded.distance == ours.distance ||
                    (bounded.distance > ours.distance / 2 && bounded.distance <= ours.distance * (1 + errors)))
            << what;
      }
    }
}

TEST(ExactDistance, OfPointsIsThatOfFlatTriangles) {
  Draws draws{std::mt19937_64(19)};
  for (int i = 0; i < 60; ++i) {
    const Point3 p = draws.point();
    std::vector<Point3> hull;
    for (int k = draws.whole(1, 12); k > 0; --k) hull.push_back(draws.point() + Vec3{4, 0, 0});
    const std::array one{p};
    expect_answer(hull_to_item(hull, one, infinite), exact_distance(hull, one), 30, "draw " + std::to_string(i));
    const std::array s{draws.point(), draws.point()};
    expect_answer(segment_to_item(s[0], s[1], one), exact_distance(s, one), 30, "draw " + std::to_string(i));
  }
}

TEST(ExactDistance, OfAHullOfTwoPointsIsThatOfTheSegment) {
  for (const Draws::Kind kind : kinds) {
    Draws draws{std::mt19937_64(20), 0, kind};
    for (int i = 0; i < 2000; ++i) {
      const Triangle t = draws.triangle();
      const std::array s{draws.point(), i % 3 == 0 ? draws.point_of(t) : draws.point()};
      EXPECT_NEAR(hull_to_item(s, t, infinite).distance, segment_to_item(s[0], s[1], t).distance,
                  errors * size_of({s, t}))
          << i;
    }
  }
}

// By hand: a unit box from the datum, and a triangle in the plane x = 3 whose shadow covers its face.
TEST(ExactDistance, OfABoxFromATriangleBesideItIsTheGap) {
  std::vector<Point3> box;
  for (int i = 0; i < 8; ++i) box.push_back({double(i & 1), double(i >> 1 & 1), double(i >> 2)});
  const Triangle t{Point3{3, -9, -9}, {3, 9, -9}, {3, 0, 9}};
  EXPECT_EQ(hull_to_item(box, t, infinite).distance, 2);
  EXPECT_GT(hull_to_item(box, t, 1).distance, 1);
  for (Point3& p : box) p = p + Vec3{2.5, 0, 0};
  const Apart within = hull_to_item(box, t, infinite);
  EXPECT_EQ(within.distance, 0);
  EXPECT_EQ(within.on_shape, within.on_item);
  EXPECT_NEAR(within.on_item.x, 3, 1e-14);
}

}  // namespace
}  // namespace fairlead::sites
