// Closed forms and laws of the distances between simple solids. CGAL judges them too: tests/oracles.
#include "geometry/solids/distance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace fairlead::solids {
namespace {

constexpr double rounding = 1e-14;  // a few units of it, for sizes of metres

Box unit_box() { return {.centre = {0, 0, 0}, .half_m = {1, 1, 1}}; }

TEST(Distance, ABarOverABoxIsAsFarAsItIsHigh) {
  const Nearest met = nearest(Segment{{-5, 0.25, 3}, {5, 0.25, 3}}, unit_box());
  EXPECT_NEAR(met.distance_m, 2, rounding);
  EXPECT_NEAR(met.on_b.z, 1, rounding);
  EXPECT_NEAR(met.on_a.z, 3, rounding);
}

TEST(Distance, ABarThatPassesABoxesEdgeIsMeasuredSquareToIt) {
  // From (3, 0) to (0, 3) in plan: its middle (1.5, 1.5) is the nearest to the edge at (1, 1).
  const Nearest met = nearest(Segment{{3, 0, 0.5}, {0, 3, 0.5}}, unit_box());
  EXPECT_NEAR(met.distance_m, std::sqrt(0.5), rounding);
  EXPECT_NEAR(met.on_a.x, 1.5, rounding);
  EXPECT_NEAR(met.on_b.y, 1, rounding);
}

TEST(Distance, ABarThroughABoxMeetsItHoweverThinTheBoxIs) {
  const Box sheet{.centre = {0, 0, 0}, .half_m = {1, 1, 0}};
  EXPECT_EQ(nearest(Segment{{0.3, 0.2, -4}, {0.3, 0.2, 4}}, sheet).distance_m, 0);
  EXPECT_EQ(nearest(Segment{{0, 0, 0}, {0.1, 0, 0}}, unit_box()).distance_m, 0) << "wholly inside";
}

TEST(Distance, ABarOverTheFlatEndOfAPostIsAsFarAsItIsHigh) {
  const Post post{{0, 0, 0}, {0, 0, 10}, 0.2};
  EXPECT_NEAR(nearest(Segment{{-5, 0.19, 10.5}, {5, 0.19, 10.5}}, post).distance_m, 0.5, rounding)
      << "round ends would say 0.436 here";
  EXPECT_NEAR(nearest(Segment{{-5, 1.2, 5}, {5, 1.2, 5}}, post).distance_m, 1, rounding);
  const Nearest rim = nearest(Segment{{-5, 0.5, 10.4}, {5, 0.5, 10.4}}, post);
  EXPECT_NEAR(rim.distance_m, std::hypot(0.3, 0.4), rounding);
  EXPECT_NEAR(rim.on_b.z, 10, rounding);
  EXPECT_NEAR(rim.on_b.y, 0.2, rounding);
}

TEST(Distance, ABarAlongAPostsAxisIsInIt) {
  const Post post{{0, 0, 0}, {0, 0, 10}, 0.2};
  EXPECT_EQ(nearest(Segment{{0, 0, 2}, {0, 0, 3}}, post).distance_m, 0);
  EXPECT_NEAR(nearest(Segment{{0, 0, 12}, {0, 0, 11}}, post).distance_m, 1, rounding);
}

TEST(Distance, GroundSaysHowDeepABoxStandsInIt) {
  const Plane ground{{0, 0, -0.25}, {0, 0, 1}};
  EXPECT_NEAR(nearest(unit_box(), ground).distance_m, -0.75, rounding);
  const Plane slope{{0, 0, -4}, unit(Vec3{1, 0, 1})};
  EXPECT_NEAR(nearest(unit_box(), slope).distance_m, (4 - 2) / std::sqrt(2), rounding);
  EXPECT_NEAR(nearest(Segment{{0, 0, 2}, {5, 0, 1}}, ground).distance_m, 1.25, rounding);
}

TEST(Distance, CornerToCornerEdgeToEdgeAndFaceToFaceOfTwoBoxes) {
  Box other = unit_box();
  other.centre = {4, 5, 8};
  EXPECT_NEAR(nearest(unit_box(), other).distance_m, std::sqrt(4. + 9 + 36), rounding);
  other.centre = {4, 0.5, 5};
  EXPECT_NEAR(nearest(unit_box(), other).distance_m, std::hypot(2, 3), rounding);
  other.centre = {0.7, 0.5, 5};
  EXPECT_NEAR(nearest(unit_box(), other).distance_m, 3, rounding);
  // Turned on its edge by 45 degrees: the edge is sqrt 2 from its middle.
  const double h = std::sqrt(0.5);
  other = {.centre = {0, 0, 5}, .x = {h, 0, h}, .y = {0, 1, 0}, .z = {-h, 0, h}, .half_m = {1, 1, 1}};
  EXPECT_NEAR(nearest(unit_box(), other).distance_m, 4 - std::sqrt(2), rounding);
}

TEST(Distance, SolidsWithinOneAnotherMeet) {
  Box small = unit_box();
  small.half_m = {0.1, 0.1, 0.1};
  EXPECT_EQ(nearest(unit_box(), small).distance_m, 0);
  EXPECT_EQ(nearest(small, unit_box()).distance_m, 0);
  EXPECT_EQ(nearest(small, Post{{0, 0, -1}, {0, 0, 1}, 0.5}).distance_m, 0);
  EXPECT_EQ(nearest(unit_box(), Post{{0, 0, -0.1}, {0, 0, 0.1}, 0.5}).distance_m, 0);
}

TEST(Distance, AThinWideDiscThatPokesThroughFourFacesAndNoEdgeMeetsTheBox) {
  const Post disc{{0, -0.05, 0}, {0, 0.05, 0}, 1.2};
  EXPECT_EQ(nearest(Box{.centre = {0, 0, 0}, .half_m = {1, 5, 1}}, disc).distance_m, 0);
}

TEST(Distance, ARodThroughAFaceOfABoxMeetsIt) {
  const Post rod{{0.3, 0.2, 0.5}, {0.4, 0.1, 9}, 0.02};
  EXPECT_EQ(nearest(unit_box(), rod).distance_m, 0);
  const Post through{{0.3, 0.2, -9}, {0.4, 0.1, 9}, 0.02};
  EXPECT_EQ(nearest(unit_box(), through).distance_m, 0);
}

TEST(Distance, AFlatPostOverAFaceIsAsFarAsItsFlatEnd) {
  EXPECT_NEAR(nearest(unit_box(), Post{{0.2, 0.1, 1.5}, {0.2, 0.1, 3}, 0.3}).distance_m, 0.5, rounding);
  EXPECT_NEAR(nearest(unit_box(), Post{{0.2, 0.1, 1.5}, {0.2, 0.1, 3}, 30}).distance_m, 0.5, 30 * rounding)
      << "wider than the face";
  EXPECT_NEAR(nearest(unit_box(), Post{{-8, 0.1, 2}, {8, 0.1, 2}, 0.3}).distance_m, 0.7, rounding) << "lying over it";
  // Leaning by atan(3/4): its rim's lowest point is 0.5 x 0.8 under the lower end of its axis.
  EXPECT_NEAR(nearest(unit_box(), Post{{0, 0, 2}, {4, 0, 5}, 0.5}).distance_m, 1 - 0.4, rounding);
}

TEST(Distance, HowMuchOfABarLiesInABox) {
  EXPECT_NEAR(length_within(Segment{{-3, 0, 0}, {3, 0, 0}}, unit_box()), 2, rounding);
  EXPECT_NEAR(length_within(Segment{{0, 0, 0.5}, {0, 4, 0.5}}, unit_box()), 1, rounding);
  EXPECT_EQ(length_within(Segment{{-3, 0, 1.5}, {3, 0, 1.5}}, unit_box()), 0);
}

// Laws, on shapes drawn at random within a few metres of a place that may be far from the datum.

class Scenes {
 public:
  double within(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  Point3 point(double size) { return {within(-size, size), within(-size, size), within(-size, size)}; }
  Box box() {
    const Vec3 x = unit(point(1) - Point3{}), z = unit(cross(x, Vec3{0.3, -0.5, 0.8}));
    return {point(4), x, cross(z, x), z, {within(0, 2), within(0, 2), within(0, 2)}};
  }
  Post post() { return {point(4), point(4), within(0.01, 1)}; }
  Segment segment() { return {point(4), point(4)}; }

 private:
  std::mt19937_64 random_{20261125};
};

/// Right-handed turn about z and a shift.
struct Move {
  double angle_rad;
  Vec3 shift;
  Vec3 operator()(Vec3 v) const {
    const double c = std::cos(angle_rad), s = std::sin(angle_rad);
    return {c * v.x - s * v.y, s * v.x + c * v.y, v.z};
  }
  Point3 operator()(Point3 p) const { return Point3{} + (*this)(p - Point3{}) + shift; }
  Box operator()(const Box& b) const { return {(*this)(b.centre), (*this)(b.x), (*this)(b.y), (*this)(b.z), b.half_m}; }
  Post operator()(const Post& p) const { return {(*this)(p.from), (*this)(p.to), p.radius_m}; }
  Segment operator()(const Segment& s) const { return {(*this)(s.from), (*this)(s.to)}; }
};

/// Mirror in the plane across.
Vec3 mirrored(Vec3 v) { return {v.x, -v.y, v.z}; }
Point3 mirrored(Point3 p) { return {p.x, -p.y, p.z}; }
Box mirrored(const Box& b) { return {mirrored(b.centre), mirrored(b.x), mirrored(b.y), mirrored(b.z), b.half_m}; }
Post mirrored(const Post& p) { return {mirrored(p.from), mirrored(p.to), p.radius_m}; }
Segment mirrored(const Segment& s) { return {mirrored(s.from), mirrored(s.to)}; }

TEST(Distance, TurningShiftingAndMirroringChangeNoDistance) {
  Scenes scenes;
  // Half an ulp of 5e5 m, in both shapes' points: 6e-11 m.
  const Move far{0.7, {500e3, -300e3, 900}};
  const double far_rounding = 4 * 6e-11;
  for (int i = 0; i < 500; ++i) {
    const Box a = scenes.box(), b = scenes.box();
    const Post post = scenes.post();
    const Segment s = scenes.segment(), t = scenes.segment();
    const auto law = [&](const auto& one, const auto& other, const char* what) {
      const double distance = nearest(one, other).distance_m;
      EXPECT_NEAR(nearest(far(one), far(other)).distance_m, distance, far_rounding) << what << " " << i;
      EXPECT_NEAR(nearest(mirrored(one), mirrored(other)).distance_m, distance, rounding) << what << " " << i;
    };
    law(a, b, "boxes");
    law(a, post, "box and post");
    law(s, a, "segment and box");
    law(s, post, "segment and post");
    law(s, t, "segments");
    EXPECT_NEAR(nearest(a, b).distance_m, nearest(b, a).distance_m, rounding) << i;
    EXPECT_NEAR(nearest(s, t).distance_m, nearest(t, s).distance_m, rounding) << i;
  }
}

TEST(Distance, TheTwoPointsLieOnTheirSolidsAsFarApartAsSaid) {
  Scenes scenes;
  const auto in_box = [](Point3 p, const Box& box) { return nearest(Segment{p, p}, box).distance_m; };
  const auto in_post = [](Point3 p, const Post& post) { return nearest(Segment{p, p}, post).distance_m; };
  for (int i = 0; i < 500; ++i) {
    const Box a = scenes.box(), b = scenes.box();
    const Post post = scenes.post();
    const Nearest boxes = nearest(a, b), standing = nearest(a, post);
    EXPECT_NEAR(norm(boxes.on_b - boxes.on_a), boxes.distance_m, rounding);
    EXPECT_LE(in_box(boxes.on_a, a), rounding);
    EXPECT_LE(in_box(boxes.on_b, b), rounding);
    EXPECT_NEAR(norm(standing.on_b - standing.on_a), standing.distance_m, rounding);
    EXPECT_LE(in_box(standing.on_a, a), rounding);
    EXPECT_LE(in_post(standing.on_b, post), rounding);
  }
}

TEST(Distance, NoSampledPointsOfTwoSolidsAreNearerThanSaid) {
  Scenes scenes;
  for (int i = 0; i < 200; ++i) {
    const Box box = scenes.box();
    const Post post = scenes.post();
    const Segment s = scenes.segment();
    const double to_post = nearest(box, post).distance_m, bar_to_post = nearest(s, post).distance_m;
    const Vec3 axis = post.to - post.from, out = unit(cross(axis, Vec3{0.2, 0.5, -0.7})),
               aside = cross(unit(axis), out);
    double sampled = 1e9, bar_sampled = 1e9;
    for (int k = 0; k < 400; ++k) {
      const double turn = scenes.within(0, 7), rho = post.radius_m * std::sqrt(scenes.within(0, 1));
      const Point3 p = post.from + scenes.within(0, 1) * axis + rho * (std::cos(turn) * out + std::sin(turn) * aside);
      sampled = std::min(sampled, nearest(Segment{p, p}, box).distance_m);
      bar_sampled = std::min(bar_sampled, nearest(Segment{p, p}, s).distance_m);
    }
    EXPECT_LE(to_post, sampled + rounding) << i;
    EXPECT_LE(bar_to_post, bar_sampled + rounding) << i;
  }
}

TEST(Distance, BoundsHoldTheirShapeAndTheirGapIsNoMoreThanTheDistance) {
  Scenes scenes;
  for (int i = 0; i < 500; ++i) {
    const Box a = scenes.box();
    const Post post = scenes.post();
    const Segment s = scenes.segment();
    EXPECT_LE(gap_between(bounds_of(a), bounds_of(post)), nearest(a, post).distance_m + rounding);
    EXPECT_LE(gap_between(bounds_of(s), bounds_of(a)), nearest(s, a).distance_m + rounding);
  }
  EXPECT_EQ(gap_between(bounds_of(unit_box()), bounds_of(Plane{{0, 0, -9}, {0, 0, 1}})), 0) << "a plane is everywhere";
}

}  // namespace
}  // namespace fairlead::solids
