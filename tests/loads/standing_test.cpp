#include "geometry/loads/standing.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace fairlead::loads {
namespace {

/// One anchor with a cone along x and a base 2 m below it, pulled once; gap_N: what may come beside that.
AnchorDemand pulled(Vec3 force_N, double gap_N) {
  Inputs in;
  in.anchors = {{0, 0, 2}};
  in.footings = {{Point3{0, 0, 0}, Vec3{1, 0, 0}}};
  reeving::Inputs reeving;
  reeving.along = {1, 0, 0}, reeving.across = {0, 1, 0}, reeving.up = {0, 0, 1};
  Standing standing(in, reeving);
  standing.single({force_N}, {gap_N}, {});
  Loads loads;
  standing.fill({CaseKey{}}, loads);
  return loads.anchors.at(0);
}

TEST(Standing, WhatMayComeBesideACaseTurnsItAsFarAsItCan) {
  const AnchorDemand demand = pulled({300, 400, 0}, 100);
  EXPECT_NEAR(demand.off_axis_rad.value, std::atan2(4, 3), 1e-15);
  // 100 N square to what it makes of 500 N: no direction of it turns the sum farther.
  double farthest = 0;
  for (int i = 0; i < 3600; ++i) {
    const double way = 2 * 3.14159265358979 * i / 3600;
    farthest = std::max(farthest, std::atan2(400 + 100 * std::sin(way), 300 + 100 * std::cos(way)));
  }
  EXPECT_GE(demand.off_axis_rad.bound, farthest);
  EXPECT_NEAR(demand.off_axis_rad.bound, farthest, 1e-6);
  EXPECT_NEAR(demand.base_moment_N_m.bound, demand.base_moment_N_m.value * 1.2, 1e-9) << "all else grows with it";
}

TEST(Standing, AForceThatMayTurnRightRoundHasNoDirection) {
  EXPECT_TRUE(std::isnan(pulled({3, 4, 0}, 6).off_axis_rad.bound));
  const AnchorDemand alone = pulled({3, 4, 0}, 0);
  EXPECT_EQ(alone.off_axis_rad.bound, alone.off_axis_rad.value);
}

}  // namespace
}  // namespace fairlead::loads
