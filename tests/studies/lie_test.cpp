#include "geometry/studies/lie.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fairlead {
namespace {

constexpr double degree = std::numbers::pi / 180;
// A few ulp of 2 pi.
constexpr double rounding_rad = 1e-14;

/// A main line that runs toward (0.6, 0.8) in plan.
Frame frame() {
  Frame f;
  f.along = {0.6, 0.8, 0};
  f.across = {-0.8, 0.6, 0};
  return f;
}

// Own computation: the angles of a 3-4-5 triangle, 36.869897645844... degrees and its rest to a quarter turn.
TEST(Lie, ABearingTurnsClockwiseFromTheSitesYAxis) {
  const double small = std::asin(0.6);
  EXPECT_NEAR(*lie_of(frame(), {0, 1, 0}).bearing_rad, 0, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {2, 0, 0}).bearing_rad, 90 * degree, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {0, -1, 0}).bearing_rad, 180 * degree, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {-1, 0, 0}).bearing_rad, 270 * degree, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {0.6, 0.8, 0}).bearing_rad, small, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {-0.8, 0.6, 0}).bearing_rad, small + 270 * degree, rounding_rad);
}

TEST(Lie, OffTheLineIsPositiveToTheLeftAndAQuarterTurnForASquareAxle) {
  EXPECT_NEAR(*lie_of(frame(), {0.6, 0.8, 0.5}).off_line_rad, 0, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {-0.8, 0.6, 0}).off_line_rad, 90 * degree, rounding_rad);
  EXPECT_NEAR(*lie_of(frame(), {0.8, -0.6, 0}).off_line_rad, -90 * degree, rounding_rad);
}

TEST(Lie, TiltIsAboveLevelAndAnUprightDirectionHasNoBearing) {
  EXPECT_NEAR(lie_of(frame(), {3, 0, 4}).tilt_rad, std::asin(0.8), rounding_rad);
  EXPECT_NEAR(lie_of(frame(), {0, 3, -4}).tilt_rad, -std::asin(0.8), rounding_rad);
  const Lie upright = lie_of(frame(), {0, 0, 7});
  EXPECT_FALSE(upright.bearing_rad);
  EXPECT_FALSE(upright.off_line_rad);
  EXPECT_NEAR(upright.tilt_rad, 90 * degree, rounding_rad);
}

TEST(Lie, TheTwoEndsOfAnAxleLieHalfATurnApartAndTiltOppositely) {
  const Lie one = lie_of(frame(), {0.3, -0.7, 0.2}), other = lie_of(frame(), {-0.3, 0.7, -0.2});
  EXPECT_NEAR(std::abs(*one.bearing_rad - *other.bearing_rad), 180 * degree, rounding_rad);
  EXPECT_EQ(one.tilt_rad, -other.tilt_rad);
}

TEST(Lie, AnAxleIsToldByItsLeftEndHoweverItIsWritten) {
  for (const double sign : {1.0, -1.0}) {
    EXPECT_GT(dot(left_end(frame(), sign * Vec3{0.8, -0.6, 0.1}), frame().across), 0.9);
    EXPECT_NEAR(norm(left_end(frame(), sign * Vec3{0.6, 0.8, 0}) - frame().along), 0, rounding_rad);
    EXPECT_EQ(left_end(frame(), sign * Vec3{0, 0, 3}), (Vec3{0, 0, 1}));
  }
}

}  // namespace
}  // namespace fairlead
