// Hulls against the closed forms of boxes, and laws. CGAL judges them too: tests/oracles.
#include "geometry/solids/hull.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <vector>

namespace fairlead::solids {
namespace {

using Corners = std::vector<Vec3>;

/// From the box's centre.
Corners corners_of(const Box& box) {
  Corners all;
  for (const double x : {-1., 1.})
    for (const double y : {-1., 1.})
      for (const double z : {-1., 1.})
        all.push_back(x * box.half_m.x * box.x + y * box.half_m.y * box.y + z * box.half_m.z * box.z);
  return all;
}

class Scene {
 public:
  explicit Scene(unsigned seed) : random_(seed) {}
  double number(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  Point3 place(double reach = 4) { return {number(-reach, reach), number(-reach, reach), number(-reach, reach)}; }
  Box box() {
    const Vec3 x = unit(place() - Point3{}), y = unit(cross(x, place() - Point3{})), z = cross(x, y);
    const auto half = [&] { return number(0, 1) < 0.2 ? 0. : number(0, 1.5); };  // sheets and rods too
    return {place(), x, y, z, {half(), half(), half()}};
  }

 private:
  std::mt19937_64 random_;
};

// Both are right to a few units of rounding of 10 m; the box's own errors are like ours.
constexpr double close_m = 1e-12;

TEST(Hull, OfABoxsCornersIsTheBox) {
  Scene scene(20261126);
  for (int i = 0; i < 2000; ++i) {
    const Box a = scene.box(), b = scene.box();
    const Corners corners = corners_of(b), others = corners_of(a);
    const Hull hull{b.centre, corners}, other{a.centre, others};
    EXPECT_NEAR(nearest(a, hull).distance_m, nearest(a, b).distance_m, close_m);
    EXPECT_NEAR(nearest(hull, a).distance_m, nearest(a, b).distance_m, close_m);
    EXPECT_NEAR(nearest(other, hull).distance_m, nearest(a, b).distance_m, close_m);
    const Segment line{scene.place(), scene.place()};
    EXPECT_NEAR(nearest(line, hull).distance_m, nearest(line, b).distance_m, close_m);
    const Plane plane{scene.place(), unit(scene.place() - Point3{})};
    EXPECT_NEAR(nearest(hull, plane).distance_m, nearest(b, plane).distance_m, close_m);
    const Post post{scene.place(), scene.place(), scene.number(0.01, 1)};
    EXPECT_NEAR(nearest(hull, post).distance_m, nearest(b, post).distance_m, hull_precision_round * 30)
        << "30 m: more than both together measure";
  }
}

TEST(Hull, TheTwoPlacesAreAsFarApartAsIsTold) {
  Scene scene(7);
  for (int i = 0; i < 500; ++i) {
    const Box a = scene.box(), b = scene.box();
    const Corners corners = corners_of(b);
    const Nearest met = nearest(a, Hull{b.centre, corners});
    EXPECT_NEAR(norm(met.on_b - met.on_a), met.distance_m, close_m);
    EXPECT_NEAR(nearest(Segment{met.on_a, met.on_a}, a).distance_m, 0, close_m);
    EXPECT_NEAR(nearest(Segment{met.on_b, met.on_b}, b).distance_m, 0, close_m);
  }
}

TEST(Hull, CornersInsideItOrTwiceChangeNothing) {
  Scene scene(11);
  for (int i = 0; i < 500; ++i) {
    const Box a = scene.box(), b = scene.box();
    Corners corners = corners_of(b);
    const double plain_m = nearest(a, Hull{b.centre, corners}).distance_m;
    const Corners once = corners;
    corners.insert(corners.end(), once.begin(), once.end());
    corners.push_back({});
    corners.push_back(once[0] + 0.5 * (once[1] - once[0]));
    std::reverse(corners.begin(), corners.end());
    EXPECT_NEAR(nearest(a, Hull{b.centre, corners}).distance_m, plain_m, close_m);
  }
}

TEST(Hull, FarFromTheDatumIsAsFarApart) {
  Scene scene(13);
  const Vec3 far{500e3, -300e3, 2e3};
  for (int i = 0; i < 500; ++i) {
    Box a = scene.box(), b = scene.box();
    const Corners corners = corners_of(b);
    const double here_m = nearest(a, Hull{b.centre, corners}).distance_m;
    a.centre = a.centre + far;
    b.centre = b.centre + far;
    EXPECT_NEAR(nearest(a, Hull{b.centre, corners}).distance_m, here_m, 4 * 5.9e-11)
        << "the coordinates' own rounding there";
  }
}

// Of a line of kilometres rounding leaves more of a common point than the precision asks for.
TEST(Hull, ThatALongLineRunsThroughIsMetByIt) {
  Scene scene(17);
  for (int i = 0; i < 2000; ++i) {
    Corners corners;
    Vec3 middle;
    for (int n = 0; n < 8; ++n) {
      corners.push_back(scene.place() - Point3{});
      middle += 0.125 * corners.back();
    }
    const Point3 at = scene.place(5e3);
    const Vec3 half = scene.place(5e3) - Point3{};
    EXPECT_LE(nearest(Segment{at + middle - half, at + middle + half}, Hull{at, corners}).distance_m, 1e-11)
        << "10 km are known to 2e-12 m";
  }
}

TEST(Hull, OfOneOrTwoCornersIsAPlaceOrASegment) {
  const Corners place{{}}, stretch{{0, 0, 0}, {1, 0, 0}};
  EXPECT_NEAR(nearest(Segment{{1, 2, 5}, {4, 2, 5}}, Hull{{1, 2, 3}, place}).distance_m, 2, close_m);
  const Hull line{{0, 0, 2}, stretch};
  EXPECT_NEAR(nearest(Segment{{0.5, -1, 0}, {0.5, 1, 0}}, line).distance_m, 2, close_m);
  EXPECT_EQ(nearest(Segment{{0.5, -1, 2}, {0.5, 1, 2}}, line).distance_m, 0);
}

TEST(Hull, FlatOnesThatTouchAreNoWayApart) {
  const Corners below{{0, 0, 0}, {2, 0, 0}, {0, 2, 0}, {2, 2, 0}}, above{{0, 0, 0}, {2, 0, 0}, {0, 2, 0.5}};
  EXPECT_EQ(nearest(Hull{{0, 0, 0}, below}, Hull{{1, 1, 0}, above}).distance_m, 0);
  EXPECT_NEAR(nearest(Hull{{0, 0, 0}, below}, Plane{{0, 0, -3}, {0, 0, 1}}).distance_m, 3, close_m);
}

}  // namespace
}  // namespace fairlead::solids
