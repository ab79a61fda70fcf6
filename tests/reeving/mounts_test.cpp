// Sheaves that swivel or hang free, against other roads to the same place, and the laws they obey.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

constexpr double r = 0.06, held_N = 1000, weight_N = 20, trolley_N = 5000;
constexpr Point3 at_trolley{3, 0, -0.8}, at_unit{-2, 0, -1.5};

/// One sheave on a mount at the origin between a trolley that stands and a unit that pulls 1000 N, on a weightless
/// line.
Inputs one_sheave(const Block& block, Point3 centre, Vec3 axle, int sense) {
  Inputs in;
  const mainline::Cable cable = stand_trolley(in, at_trolley, trolley_N);
  in.sheaves = {{centre, axle, r, sense, 0}};
  in.lines = {{.from = {{}, on_trolley}, .to = {at_unit, on_ground}, .sheaves = 1}};
  in.blocks = {block};
  in.outlet_axis = {1, 0, 0};
  in.unit.retraction_N = Curve({{0, held_N}, {1, held_N}});
  in.unit.magnetic_N = EddyLaw{1, 1};
  in.reference = {cable, {unknown_length}};
  in.sweeps = {{0, in.reference, in.reference, trolley_N, 0, Running::paying_out}};
  return in;
}

Solved<Station> stand(const Inputs& in) { return solve_pose(in, in.sweeps[0], {{1}, held_N}, 0); }

Inputs hung(double link_m, Vec3 toward, Vec3 axle) {
  const Point3 centre = Point3{} + link_m * unit(toward);
  axle = unit(axle - (dot(axle, toward) / dot(toward, toward)) * toward);  // the link lies in the groove's plane
  return one_sheave({.drawn = {}, .centre_of_mass = centre, .weight_N = weight_N, .joint = Joint::ball}, centre, axle,
                    -1);
}

/// Energy of a free sheave in the plane of its line's two ends: the unit's pull times the length, and the weight.
double energy_N_m(Point3 c) {
  const Vec3 p = at_trolley - c, q = at_unit - c;
  const double dp = norm(p), dq = norm(q);
  const double between = std::acos(dot(p, q) / (dp * dq));
  const double wrap = 2 * std::numbers::pi - between - std::acos(r / dp) - std::acos(r / dq);
  return held_N * (std::sqrt(dp * dp - r * r) + std::sqrt(dq * dq - r * r) + r * wrap) + weight_N * c.z;
}

/// Its least place on a link, by ever shorter steps of the link's two angles.
Point3 least_place(double link_m) {
  double angles[2] = {0, 0};
  const auto place = [&] {
    return Point3{} + link_m * Vec3{std::sin(angles[0]), std::sin(angles[1]) * std::cos(angles[0]),
                                    -std::cos(angles[1]) * std::cos(angles[0])};
  };
  double best = energy_N_m(place());
  for (double step = 0.2; step > 1e-9; step /= 2)
    for (bool moved = true; moved;) {
      moved = false;
      for (double& angle : angles)
        for (const double by : {step, -step}) {
          angle += by;
          if (const double now = energy_N_m(place()); now < best)
            best = now, moved = true;
          else
            angle -= by;
        }
    }
  return place();
}

// The trolley gives by 1e-7 m, and the search ends where energy no longer falls by a rounding: the square root of 1e-16
// of 5000 N m over some 1000 N/m.
TEST(FreeSheave, HangsWhereItsEnergyIsLeastWithBothLegsInItsPlane) {
  for (const double link_m : {0.15, 0.4, 1.0}) {
    const Inputs in = hung(link_m, {0.1, 0, -1}, {0, 1, 0});
    const auto s = stand(in);
    ASSERT_TRUE(s) << s.error().why;
    const Point3 centre = placed(in, s->lines, 0).centre;
    EXPECT_NEAR(norm(centre - least_place(link_m)), 0, 1e-6);
    EXPECT_NEAR(norm(centre - Point3{}), link_m, 1e-12);
    EXPECT_NEAR(s->fleet_rad[0], 0, 1e-9);
    EXPECT_NEAR(norm(cross(s->held_N[0], centre - Point3{})), 0, 1e-6) << "without friction the link points along it";
    EXPECT_LT(dot(s->held_N[0], centre - Point3{}), 0) << "the anchor pulls";
    EXPECT_EQ(s->held_couple_N_m[0], Vec3{});
  }
}

TEST(FreeSheave, HangsAtOnePlaceFromWhereverItIsDrawn) {
  const auto first = stand(hung(0.4, {0.1, 0, -1}, {0, 1, 0}));
  ASSERT_TRUE(first) << first.error().why;
  for (const Vec3 toward : {Vec3{0.6, 0.3, -1}, Vec3{-0.7, -0.4, -0.8}, Vec3{0, 0.5, -0.6}}) {
    const Inputs in = hung(0.4, toward, unit({0.2, 1, 0.1}));
    const auto s = stand(in);
    ASSERT_TRUE(s) << s.error().why;
    EXPECT_NEAR(
        norm(placed(in, s->lines, 0).centre - placed(hung(0.4, {0.1, 0, -1}, {0, 1, 0}), first->lines, 0).centre), 0,
        1e-8);
  }
}

/// Moment about the swivel's axis at an angle, its legs straight: a leg leaves the groove square to the radius there.
double swivel_moment_N_m(const Inputs& in, double angle) {
  const Block& block = in.blocks[0];
  const auto turned = [&](Vec3 v) {
    const Vec3 a = block.hinge_axis;
    return std::cos(angle) * v + std::sin(angle) * cross(a, v) + ((1 - std::cos(angle)) * dot(a, v)) * a;
  };
  const Sheave& sheave = in.sheaves[0];
  const Vec3 k = turned(sheave.axle);
  const Point3 c = block.drawn + turned(sheave.centre - block.drawn);
  Vec3 moment = cross(turned(block.centre_of_mass - block.drawn), -weight_N * in.up);
  const auto leg = [&](Point3 end, double turn) {
    const Vec3 d = end - c, p = d - dot(d, k) * k;
    const double back = -turn * std::acos(r / norm(p));
    const Vec3 e = std::cos(back) * unit(p) + std::sin(back) * cross(k, unit(p));
    const Vec3 arm = c + r * e - block.drawn;
    moment += cross(arm, held_N * unit(d - r * e));
  };
  leg(at_trolley, -sheave.sense);
  leg(at_unit, sheave.sense);
  return dot(moment, block.hinge_axis);
}

/// Where the moment falls through zero: pushed away, it comes back.
std::vector<double> stable_angles(const Inputs& in) {
  std::vector<double> roots;
  constexpr int steps = 720;
  for (int i = 0; i < steps; ++i) {
    double low = 2 * std::numbers::pi * i / steps - std::numbers::pi, high = low + 2 * std::numbers::pi / steps;
    if (!(swivel_moment_N_m(in, low) > 0 && swivel_moment_N_m(in, high) <= 0)) continue;
    for (int n = 0; n < 60; ++n) {
      const double middle = (low + high) / 2;
      (swivel_moment_N_m(in, middle) > 0 ? low : high) = middle;
    }
    roots.push_back(low);
  }
  return roots;
}

// Axes up, along the line and oblique; drawn up to 60 deg from where it stands. 1e-7 m of the trolley is 1e-7 rad of
// it.
TEST(Swivel, StandsWhereItsMomentFallsThroughZero) {
  for (const Vec3 axis : {Vec3{0, 0, 1}, Vec3{1, 0, 0}, unit({0.3, -0.2, 1})})
    for (const double drawn : {0.0, 0.6, -1.0}) {
      const Vec3 out = axis.z > 0.5 ? Vec3{0, 0.05, 0} : Vec3{0, 0, -0.3};
      Inputs in = one_sheave({.drawn = {0, 0, -0.1},
                              .centre_of_mass = Point3{0.02, 0, -0.4} + out,
                              .weight_N = weight_N,
                              .joint = Joint::hinge,
                              .hinge_axis = axis},
                             Point3{0.3, 0.02, -0.4} + out, unit({std::sin(drawn), std::cos(drawn), 0.1}), -1);
      const auto s = stand(in);
      const std::vector<double> angles = stable_angles(in);
      ASSERT_FALSE(angles.empty());
      ASSERT_TRUE(s) << s.error().why;
      const Placement& place = s->lines.blocks[0];
      const Vec3 across = unit(cross(axis, Vec3{0.3, 0.9, 0.2}));
      const double angle = std::atan2(dot(cross(across, place.turn(across)), axis), dot(across, place.turn(across)));
      double nearest = 10;
      for (const double root : angles)
        nearest = std::min(nearest, std::abs(std::remainder(angle - root, 2 * std::numbers::pi)));
      EXPECT_NEAR(nearest, 0, 1e-6);
      EXPECT_NEAR(norm(place.at - Point3{0, 0, -0.1}), 0, 1e-12);
      EXPECT_NEAR(norm(place.turn(axis) - axis), 0, 1e-12);
      EXPECT_NEAR(dot(s->held_couple_N_m[0], axis), 0, 1e-9) << "an axis holds nothing about itself";
    }
}

TEST(Mounts, TurnWithTheSite) {
  const Inputs in = hung(0.4, {0.1, 0, -1}, {0, 1, 0});
  const auto first = stand(in);
  ASSERT_TRUE(first);
  const double c = std::cos(0.7), s = std::sin(0.7);
  const auto turn = [&](Vec3 v) { return Vec3{c * v.x - s * v.y, s * v.x + c * v.y, v.z}; };
  const Vec3 far{5e5, 4e6, 200};
  const auto move = [&](Point3 p) { return Point3{} + turn(p - Point3{}) + far; };
  Inputs there = in;
  there.origin = move(in.origin);
  there.along = turn(in.along);
  there.across = turn(in.across);
  there.sheaves[0].centre = move(in.sheaves[0].centre);
  there.sheaves[0].axle = turn(in.sheaves[0].axle);
  there.lines[0].to.at = move(at_unit);
  there.blocks[0].drawn = move(in.blocks[0].drawn);
  there.blocks[0].centre_of_mass = move(in.blocks[0].centre_of_mass);
  there.outlet_axis = turn(in.outlet_axis);
  const auto second = stand(there);
  ASSERT_TRUE(second) << second.error().why;
  // Places 4000 km from the site's own are known to 1e-9 m.
  EXPECT_NEAR(norm(placed(there, second->lines, 0).centre - move(placed(in, first->lines, 0).centre)), 0, 1e-8);
}

// Drawn standing on its link above the anchor, where the pulls balance too: it falls to where it hangs or is given up.
TEST(FreeSheave, NeverStandsOnItsLink) {
  const Inputs down = hung(0.4, {0.1, 0, -1}, {0, 1, 0});
  const auto hangs = stand(down);
  ASSERT_TRUE(hangs);
  const auto falls = [&](const Inputs& in, const Station& s) {
    return norm(placed(in, s.lines, 0).centre - placed(down, hangs->lines, 0).centre) < 1e-8;
  };
  const Inputs upright = hung(0.4, {-0.06925587, 0, 0.39395891}, {0, 1, 0}), aside = hung(0.4, {1, 0, 0.1}, {0, 1, 0});
  const auto stood = stand(upright), fallen = stand(aside);
  EXPECT_TRUE(!stood || falls(upright, *stood));
  ASSERT_TRUE(fallen) << fallen.error().why;
  EXPECT_TRUE(falls(aside, *fallen));
}

}  // namespace
}  // namespace fairlead::reeving
