#include "geometry/reeving/trolley_pull.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <numbers>

namespace fairlead::reeving {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

/// A rig of one weightless leg from the trolley to a sheave; along is x, across is y.
struct Made {
  Inputs in;
  SweepInputs sweep_in;
  Sweep sweep;

  Made() {
    in.along = {1, 0, 0};
    in.across = {0, 1, 0};
    in.up = {0, 0, 1};
    in.attachment = {-0.1, 0, 0.05};
    in.lines = {{.from = {{}, on_trolley}, .sheaves = 1}};
    in.sheaves.resize(1);
    sweep_in.trolley_weight_N = 60;
    sweep_in.rider_weight_N = 940;
  }

  /// A pose whose leg pulls with T toward `to` from the trolley's attachment at (x, 0, 0).
  void add(double travel_m, double x_m, Point3 to, double T_N, double slope_rad = 0) {
    if (!sweep.poses.empty()) sweep.strays.push_back({0, 0, {}, {0, 0}});
    Pose pose;
    pose.travel_m = travel_m;
    pose.attachment = {x_m, 0, 0};
    pose.tau_rad = slope_rad;
    pose.trolley_tension_N = T_N;
    pose.pull_on_trolley_N = T_N * unit(to - pose.attachment);
    sweep.poses.push_back(pose);
    Leg leg{};
    leg.from = pose.attachment;
    leg.to = to;
    sweep.legs.push_back(leg);
    sweep.legs.push_back({});
  }

  TrolleyPull pull(double wheelbase_m = nan) const { return trolley_pull(in, sweep_in, sweep, wheelbase_m); }
};

TEST(TrolleyPull, OfALineThirtyDegreesUpward) {
  Made rig;
  rig.add(0, 10, {10 - std::cos(30 * degree), 0, std::sin(30 * degree)}, 500);
  const TrolleyPull pull = rig.pull(0.3);
  EXPECT_NEAR(pull.angle_rad.value, 30 * degree, 1e-12);
  EXPECT_NEAR(pull.side_rad.value, 0, 1e-12);
  EXPECT_NEAR(pull.lift_share.value, 500 * 0.5 / 1000, 1e-12);
  // About the wheel's contact: 0.05 m above it and 0.1 m behind: T (0.05 cos 30 + (-0.1)(-1) ... ) across, by hand.
  const double moment_N_m = 500 * (0.05 * -std::cos(30 * degree) - -0.1 * 0.5);
  EXPECT_NEAR(pull.pitch_share.value, std::abs(moment_N_m) / ((1000 - 250) * 0.15), 1e-12);
}

TEST(TrolleyPull, IsToldOffARisingOrFallingTrack) {
  for (const double slope : {-4 * degree, 7 * degree}) {
    Made rig;
    rig.add(0, 10, {10 - std::cos(30 * degree), 0, std::sin(30 * degree)}, 500, slope);
    // Upstream along a track that rises downstream points downward.
    EXPECT_NEAR(rig.pull().angle_rad.value, 30 * degree + slope, 1e-12);
  }
}

TEST(TrolleyPull, AsideEitherWayIsTheSame) {
  for (const double side : {1.0, -1.0}) {
    Made rig;
    rig.add(0, 10, {10 - std::cos(5 * degree), side * std::sin(5 * degree), 0}, 500);
    EXPECT_NEAR(rig.pull().side_rad.value, 5 * degree, 1e-12);
    EXPECT_NEAR(rig.pull().lift_share.value, 0, 1e-12);
  }
}

TEST(TrolleyPull, BeforeContactTheTrolleyStandsAlone) {
  Made rig;
  rig.add(-1, 10, {10 - std::cos(30 * degree), 0, std::sin(30 * degree)}, 45);
  EXPECT_NEAR(rig.pull().lift_share.value, 45 * 0.5 / 60, 1e-12);
}

TEST(TrolleyPull, ALineDownstreamPullsAcrossARightAngle) {
  Made rig;
  rig.add(0, 10, {11, 0, 1}, 500);
  EXPECT_NEAR(rig.pull().angle_rad.value, 135 * degree, 1e-12);
}

TEST(TrolleyPull, WithoutAWheelbaseNothingIsKnownOfPitching) {
  Made rig;
  rig.add(0, 10, {9, 0, 1}, 500);
  EXPECT_TRUE(std::isnan(rig.pull().pitch_share.value));
  EXPECT_FALSE(std::isnan(rig.pull(0.3).pitch_share.value));
}

TEST(TrolleyPull, WhereNothingPressesTheTrolleyTips) {
  Made rig;
  rig.add(0, 10, {10, 0, 1}, 1001);
  EXPECT_GT(rig.pull(0.3).lift_share.value, 1);
  EXPECT_EQ(rig.pull(0.3).pitch_share.value, std::numeric_limits<double>::infinity());
}

TEST(TrolleyPull, UnknownStaysUnknown) {
  Made rig;
  rig.add(0, 10, {9, 0, 1}, nan);
  rig.add(1, 11, {9, 0, 1}, 500);
  EXPECT_TRUE(std::isnan(rig.pull().angle_rad.value));
  EXPECT_TRUE(std::isnan(rig.pull().lift_share.value));
}

// A straight leg to a fixed point while the trolley runs on: every number between the poses is known in closed form.
TEST(TrolleyPull, NothingBetweenTwoPosesOfAStraightLegPassesTheBound) {
  const Point3 redirect{7, 0.4, 2.2};
  const auto drawn = [&](double to_m, int steps) {
    Made rig;
    for (int i = 0; i <= steps; ++i) rig.add(to_m * i / steps, 8 + to_m * i / steps, redirect, 400 + 5 * i / steps);
    return rig.pull(0.3);
  };
  for (const int steps : {1, 3, 10, 40}) {
    const TrolleyPull coarse = drawn(8, steps), fine = drawn(8, 4000);
    for (const auto number :
         {&TrolleyPull::angle_rad, &TrolleyPull::side_rad, &TrolleyPull::lift_share, &TrolleyPull::pitch_share}) {
      EXPECT_GE((coarse.*number).bound, (fine.*number).value) << steps;
      EXPECT_LE((coarse.*number).value, (fine.*number).value + 1e-12) << "it begins at the same pose";
    }
  }
}

TEST(TrolleyPull, ALineThatPassesSidewaysBulgesBetweenItsPoses) {
  // Both poses pull 45 deg off across and along; half way the leg stands farther off the plane than at either.
  Made rig;
  rig.add(0, 10, {9, 1, 0}, 500);
  rig.add(1, 11, {12, 1, 0}, 500);
  EXPECT_NEAR(rig.pull().side_rad.value, 45 * degree, 1e-12);
  EXPECT_NEAR(rig.pull().side_rad.bound, 90 * degree, 1e-7) << "half way it pulls straight aside; asin keeps half its "
                                                               "digits there";
}

TEST(TrolleyPull, WhatStraysTurnsThePull) {
  Made rig;
  rig.add(0, 10, {6, 0, 3}, 500);
  rig.add(0.01, 10.01, {6.01, 0, 3}, 500);
  const double off = std::atan2(3, 4);
  EXPECT_NEAR(rig.pull().angle_rad.bound, off, 1e-12) << "moved as one, nothing turns";
  rig.sweep.strays[0].legs_m[0] = 0.05;
  EXPECT_NEAR(rig.pull().angle_rad.bound, off + std::asin(0.1 / 5), 1e-12) << "both ends, over the leg's 5 m";
  rig.sweep.strays[0].legs_m[0] = std::numeric_limits<double>::infinity();
  EXPECT_EQ(rig.pull().angle_rad.bound, std::numbers::pi);
  EXPECT_NEAR(rig.pull().lift_share.bound, 0.5, 1e-12) << "all of it upward";
}

TEST(TrolleyPull, ASaggingLineTurnsLikeItsEndAndNotLikeItsChord) {
  // Chords of 4 m back and 3 m, then 3.2 m up; the line leaves 1 m below them, 2 in 4 and then 2.2 in 4.
  const auto drawn = [](double drop_again_m) {
    Made rig;
    for (const auto& [rise_m, drop_m] : {std::pair{3.0, 1.0}, std::pair{3.2, drop_again_m}}) {
      rig.add(0.1 * static_cast<double>(rig.sweep.poses.size()), 10, {6, 0, rise_m}, 100);
      const Vec3 direction = unit({-4, 0, rise_m - drop_m});
      rig.sweep.poses.back().pull_on_trolley_N = 100 * direction;
      Leg& leg = rig.sweep.legs[rig.sweep.legs.size() - 2];
      leg.load_N_per_m = {0, 0, -0.4};
      leg.H_N = -100 * direction.x;
    }
    return rig.pull().angle_rad;
  };
  EXPECT_NEAR(drawn(1).value, std::atan2(2.2, 4), 1e-12);
  EXPECT_NEAR(drawn(1).bound, std::atan2(2.2, 4), 1e-12) << "the drop stays, so the end's way is known";
  // 30 mm less drop may be anywhere within twice that of its even way: over q, nearest at its beginning.
  EXPECT_NEAR(drawn(0.97).bound, std::atan2(2.23, 4) + std::asin(0.06 / std::hypot(4, 2)), 1e-12);
}

TEST(TrolleyPull, TheSlopeMayLeaveItsRangeByItsWidth) {
  Made rig;
  rig.add(1, 10, {6, 0, 3}, 500, 0.00);
  rig.add(2, 10, {6, 0, 3}, 500, 0.01);
  EXPECT_NEAR(rig.pull().angle_rad.value, std::atan2(3, 4) + 0.01, 1e-12);
  EXPECT_NEAR(rig.pull().angle_rad.bound, std::atan2(3, 4) + 0.02, 1e-12);
}

TEST(TrolleyPull, TheJumpOfTheSlopeAtContactIsNoChangeBeforeIt) {
  Made rig;
  rig.add(-2, 10, {6, 0, 3}, 50, 0.000);
  rig.add(-1, 10, {6, 0, 3}, 50, 0.001);
  rig.add(0, 10, {6, 0, 3}, 50, 0.200);
  EXPECT_NEAR(rig.pull().angle_rad.value, std::atan2(3, 4) + 0.2, 1e-12);
  EXPECT_NEAR(rig.pull().angle_rad.bound, std::atan2(3, 4) + 0.2, 1e-12);
}

}  // namespace
}  // namespace fairlead::reeving
