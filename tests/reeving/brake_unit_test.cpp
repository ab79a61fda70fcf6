#include "geometry/reeving/brake_unit.hpp"

#include <gtest/gtest.h>

namespace fairlead::reeving {
namespace {

// Source EDDY [read]: F = 2 Fmax / (v/vc + vc/v): Fmax at vc, and the same at v and vc^2/v.
TEST(BrakeUnit, AnEddyLawPeaksAtItsCriticalSpeedAndFallsOffAlikeOnBothSides) {
  const BrakeUnit unit{{}, EddyLaw{640, 30}, 0};
  EXPECT_DOUBLE_EQ(unit.magnetic(30), 640);
  EXPECT_DOUBLE_EQ(unit.magnetic(15), 640 * 0.8);
  EXPECT_DOUBLE_EQ(unit.magnetic(60), 640 * 0.8);
  EXPECT_EQ(unit.magnetic(0), 0);
}

TEST(BrakeUnit, TheGreatestDragOnTheWayToASpeedIsNotThatSpeedsDrag) {
  const BrakeUnit eddy{{}, EddyLaw{640, 5}, 0.1};
  EXPECT_DOUBLE_EQ(eddy.greatest_magnetic(20), 1.1 * 640) << "the peak lies at 5 m/s";
  EXPECT_DOUBLE_EQ(eddy.greatest_magnetic(2.5), 1.1 * 640 * 0.8);
  const BrakeUnit table{{}, Curve({{0, 0}, {4, 500}, {10, 300}}), 0.05};
  EXPECT_DOUBLE_EQ(table.greatest_magnetic(8), 1.05 * 500);
  EXPECT_DOUBLE_EQ(table.greatest_magnetic(2), 1.05 * 250);
  EXPECT_DOUBLE_EQ(table.magnetic(7), 400);
  EXPECT_EQ(table.magnetic(0), 0);
}

/// Of a smooth law the central difference is off by h^2/6 of its third derivative, at most 24 peak/vc^3 at rest.
TEST(BrakeUnit, ADragsSlopeIsItsDifferenceQuotient) {
  const BrakeUnit unit{.magnetic_N = EddyLaw{640, 5}};
  const double h = 1e-3;
  for (const double v : {0.1, 1.0, 4.0, 5.0, 9.0, 40.0})
    EXPECT_NEAR(unit.magnetic_at(v).slope, (unit.magnetic(v + h) - unit.magnetic(v - h)) / (2 * h),
                h * h / 6 * 24 * 640 / 125 + 1e-9)
        << v;
  EXPECT_EQ(unit.magnetic_at(5).slope, 0) << "the peak";
}

}  // namespace
}  // namespace fairlead::reeving
