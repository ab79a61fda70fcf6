#include <gtest/gtest.h>

#include <cmath>

#include "geometry/loads/balance.hpp"
#include "geometry/loads/hung.hpp"

namespace fairlead::loads {
namespace {

constexpr mainline::Cable cable{.unstretched_m = 101, .weight_N_per_m = 10, .compliance_per_N = 1e-7};
constexpr Point3 from{5, -3, 20}, to{98, 21, 12};

void expect_balanced(const HungForces& forces) {
  Sum sum(from);
  sum.add(from, forces.on_from_N);
  sum.add(to, forces.on_to_N);
  for (const Acting& acting : forces.acting) sum.add(acting.at, -acting.force_N);
  EXPECT_LT(sum.force_residual(), 1e-13);
  EXPECT_LT(sum.moment_residual(), 1e-12);
}

TEST(HungLine, BalancesWithItsWeightAndTheWind) {
  for (const Vec3 wind : {Vec3{}, Vec3{0, 6, 0}, Vec3{-4, 9, 0}}) {
    const HungForces forces = hang_between(from, to, cable, wind).value();
    expect_balanced(forces);
    EXPECT_NEAR(norm(forces.acting.at(0).force_N - 101 * (wind - Vec3{0, 0, 10})), 0, 1e-10);
    expect_balanced(pull_between(from, to, cable, wind, 6000).value());
  }
}

/// Site and load turned about the x axis alike: the forces turn along.
TEST(HungLine, TiltedByTheWindIsAnUprightOneTurned) {
  const double turn_rad = 0.6, c = std::cos(turn_rad), s = std::sin(turn_rad);
  const auto turned = [&](Vec3 v) { return Vec3{v.x, c * v.y - s * v.z, s * v.y + c * v.z}; };
  const HungForces upright = hang_between(from, to, cable, {}).value();
  mainline::Cable lighter = cable;
  lighter.weight_N_per_m *= c;
  const HungForces tilted =
      hang_between(from, from + turned(to - from), lighter, {0, s * cable.weight_N_per_m, 0}).value();
  EXPECT_NEAR(norm(tilted.on_from_N - turned(upright.on_from_N)), 0, 1e-9 * upright.tension_N);
  EXPECT_NEAR(norm(tilted.on_to_N - turned(upright.on_to_N)), 0, 1e-9 * upright.tension_N);
  EXPECT_NEAR(tilted.tension_N, upright.tension_N, 1e-9 * upright.tension_N);
}

TEST(HungLine, WindFromTheOtherSideMirrorsALineAlongX) {
  const Point3 a{0, 0, 10}, b{100, 0, 4};
  const HungForces left = hang_between(a, b, cable, {0, -7, 0}).value(),
                   right = hang_between(a, b, cable, {0, 7, 0}).value();
  EXPECT_NEAR(left.on_from_N.y, -right.on_from_N.y, 1e-12 * right.tension_N);
  EXPECT_NEAR(left.on_from_N.x, right.on_from_N.x, 1e-12 * right.tension_N);
  EXPECT_GT(right.on_from_N.y, 0) << "the wind pushes the line, the line its anchor";
  EXPECT_GT(right.tension_N, hang_between(a, b, cable, {}).value().tension_N);
}

TEST(HungLine, HeldByATensionIsTheOneOfThatTensionAtItsStart) {
  const HungForces forces = pull_between(from, to, cable, {0, 3, 0}, 4500).value();
  EXPECT_NEAR(norm(forces.on_from_N), 4500, 1e-9);
  EXPECT_FALSE(pull_between(from, to, cable, {}, 100));
  EXPECT_FALSE(pull_between(from, from, cable, {}, 100));
}

}  // namespace
}  // namespace fairlead::loads
