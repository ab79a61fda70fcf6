#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "geometry/loads/balance.hpp"
#include "geometry/loads/hung.hpp"

namespace fairlead::loads {
namespace {

constexpr Vec3 up{0, 0, 1};
constexpr Point3 from{5, -3, 20};

mainline::Cable cable_between(Point3 to) {
  const Vec3 chord = to - from;
  return {.span_m = std::hypot(chord.x, chord.y),
          .rise_m = chord.z,
          .unstretched_m = 1.002 * norm(chord),
          .weight_N_per_m = 10,
          .compliance_per_N = 1e-7};
}

void expect_balanced(Point3 to, const HungForces& forces) {
  Sum sum(from);
  sum.add(from, forces.on_from_N);
  sum.add(to, forces.on_to_N);
  for (const Acting& acting : forces.acting) sum.add(acting.at, -acting.force_N);
  EXPECT_LT(sum.force_residual(), 1e-13);
  EXPECT_LT(sum.moment_residual(), 1e-11);
}

HungForces upright(Point3 to, const mainline::Cable& cable, std::span<const mainline::Load> loads) {
  const Vec3 chord = to - from, along = (1 / cable.span_m) * Vec3{chord.x, chord.y, 0};
  return forces_of(from, along, up, cable, mainline::hang_rolling(cable, loads).value());
}

TEST(RiddenInWind, WithoutWindItIsTheUprightLine) {
  const Point3 to{298, 61, -2};
  const mainline::Cable cable = cable_between(to);
  const std::array<mainline::Load, 2> loads{{{120, 1100}, {280, 150}}};
  const HungForces wanted = upright(to, cable, loads);
  const std::array<Borne, 2> wheels{{{120, -1100 * up}, {280, -150 * up}}};
  // From a start that is off, for the answer is no better than its start otherwise.
  const HungForces forces = hang_ridden(from, to, cable, {}, wheels, 1.1 * wanted.on_from_N).value();
  const double size_N = wanted.tension_N;
  EXPECT_NEAR(norm(forces.on_from_N - wanted.on_from_N), 0, 1e-8 * size_N);
  EXPECT_NEAR(norm(forces.on_to_N - wanted.on_to_N), 0, 1e-8 * size_N);
  ASSERT_EQ(forces.acting.size(), 3u);
  for (std::size_t i = 1; i < 3; ++i) {
    EXPECT_NEAR(norm(forces.acting[i].force_N - wanted.acting[i].force_N), 0, 1e-8 * size_N);
    EXPECT_NEAR(norm(forces.acting[i].at - wanted.acting[i].at), 0, 1e-7);
  }
}

TEST(RiddenInWind, BalancesInForcesAndMoments) {
  const Point3 to{298, 61, -2};
  const mainline::Cable cable = cable_between(to);
  const Vec3 along = (1 / cable.span_m) * Vec3{293, 64, 0}, across = cross(up, along);
  for (const double wind_N : {-9., 0.5, 4., 30.})
    for (const double x_m : {1., 120., 270.}) {
      const std::vector<Borne> wheels{{x_m, 15 * wind_N * across - 1100 * up}, {280, -150 * up}};
      const std::array<mainline::Load, 2> loads{{{x_m, 1100}, {280, 150}}};
      const auto hung = hang_ridden(from, to, cable, wind_N * across, wheels, upright(to, cable, loads).on_from_N);
      ASSERT_TRUE(hung) << wind_N << " N/m, " << x_m << " m: " << hung.error().residual;
      const HungForces& forces = *hung;
      expect_balanced(to, forces);
      EXPECT_NEAR(norm(forces.acting[0].force_N - cable.unstretched_m * (wind_N * across - 10 * up)), 0, 1e-9);
      for (const std::size_t i : {0, 1}) {
        const Vec3 square_N = forces.acting[i + 1].force_N - dot(forces.acting[i + 1].force_N, along) * along;
        EXPECT_NEAR(norm(square_N - wheels[i].load_N), 0, 1e-9 * forces.tension_N);
        EXPECT_NEAR(dot(forces.acting[i + 1].at - from, along), wheels[i].x_m, 1e-9 * cable.span_m);
      }
    }
}

/// Wind in proportion to weight everywhere: the line hangs in a plane again, that of an upright one turned about its
/// level chord.
TEST(RiddenInWind, InProportionToTheWeightsItIsTheUprightLineTurned) {
  const Point3 to{305, -3, 20};
  const mainline::Cable cable = cable_between(to);
  const double turn_rad = 0.4, c = std::cos(turn_rad), s = std::sin(turn_rad);
  const auto turned = [&](Vec3 v) { return Vec3{v.x, c * v.y - s * v.z, s * v.y + c * v.z}; };
  const std::array<mainline::Load, 2> loads{{{120, 1100}, {280, 150}}};
  const HungForces wanted = upright(to, cable, loads);
  mainline::Cable lighter = cable;
  lighter.weight_N_per_m *= c;
  const std::array<Borne, 2> wheels{{{120, turned(-1100 * up)}, {280, turned(-150 * up)}}};
  const HungForces forces = hang_ridden(from, to, lighter, {0, s * 10, 0}, wheels, wanted.on_from_N).value();
  const double size_N = wanted.tension_N;
  EXPECT_NEAR(norm(forces.on_from_N - turned(wanted.on_from_N)), 0, 1e-8 * size_N);
  EXPECT_NEAR(norm(forces.on_to_N - turned(wanted.on_to_N)), 0, 1e-8 * size_N);
  EXPECT_NEAR(forces.tension_N, wanted.tension_N, 1e-8 * size_N);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_NEAR(norm(forces.acting[i].force_N - turned(wanted.acting[i].force_N)), 0, 1e-8 * size_N);
}

TEST(RiddenInWind, FromTheOtherSideMirrorsIt) {
  const Point3 to{305, -3, 8};
  const mainline::Cable cable = cable_between(to);
  const std::array<mainline::Load, 1> loads{{{120, 1100}}};
  const Vec3 near_N = upright(to, cable, loads).on_from_N;
  const auto pushed = [&](double side) {
    const Borne rider{120, Vec3{0, side * 90, 0} - 1100 * up};
    return hang_ridden(from, to, cable, {0, side * 3, 0}, {&rider, 1}, near_N).value();
  };
  const HungForces left = pushed(-1), right = pushed(1);
  EXPECT_NEAR(left.on_from_N.y, -right.on_from_N.y, 1e-9 * right.tension_N);
  EXPECT_NEAR(left.on_from_N.x, right.on_from_N.x, 1e-9 * right.tension_N);
  EXPECT_NEAR(left.on_from_N.z, right.on_from_N.z, 1e-9 * right.tension_N);
  EXPECT_GT(right.on_from_N.y, 0) << "the wind pushes the line, the line its anchor";
  EXPECT_GT(norm(right.on_from_N), norm(near_N));
  // A taut line is a beam in plan: half of the wind on it, and of the rider's what the lever leaves.
  EXPECT_NEAR(right.on_from_N.y, 3 * cable.unstretched_m / 2 + 90 * (1 - 120. / 300), 0.01 * right.on_from_N.y);
}

TEST(RiddenInWind, WhatDoesNotMeetItsEndIsTold) {
  const Point3 to{305, -3, 8};
  mainline::Cable cable = cable_between(to);
  cable.unstretched_m = 280;  // it does not reach, and does not stretch
  cable.compliance_per_N = 0;
  const Borne rider{120, -1100 * up};
  EXPECT_FALSE(hang_ridden(from, to, cable, {0, 3, 0}, {&rider, 1}, {1e4, 0, 0}));
  EXPECT_FALSE(hang_ridden(from, to, cable_between(to), {0, std::nan(""), 0}, {&rider, 1}, {1e4, 0, 0}));
}

}  // namespace
}  // namespace fairlead::loads
