// Riders who stall short of the brake trolley, where they hang at last, and approaches that have no answer.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/arrest/ride.hpp"

namespace fairlead::arrest {
namespace {

/// Of whatever pushes a rider who stands at x: the path and the wind.
double standing_push_N(const Path& path, const ApproachInputs& in, double x) {
  const double wind = in.wind_m_per_s / std::hypot(1, path.slope(x));
  return path.drive_force_N(x) +
         in.density_kg_per_m3 / 2 * in.drag_area_m2 * wind * std::abs(wind) * std::hypot(1, path.slope(x));
}

TEST(Stall, RiderLetGoBesideTheLowestPartHangsWhereRollingHoldsHim) {
  const Path path = mainline::path_of(worked_line(), 80);
  ApproachInputs in = let_go(80, 175);
  in.rolling = 0.004;
  in.drag_area_m2 = 0.5;
  for (const double wind : {-3.0, 0.0, 3.0}) {
    in.wind_m_per_s = wind;
    const Approach a = ride(path, in);
    ASSERT_TRUE(a.stalled_at_m && a.hangs_at_m) << "wind " << wind;
    EXPECT_GT(*a.stalled_at_m, 175);
    EXPECT_GT(*a.hangs_at_m, 175);
    EXPECT_LE(*a.hangs_at_m, *a.stalled_at_m);
    EXPECT_LE(std::abs(standing_push_N(path, in, *a.hangs_at_m)), in.rolling * weight_of(80));
    EXPECT_TRUE(std::isnan(a.arrival_speed_m_per_s));
    EXPECT_TRUE(std::isnan(a.acceleration_m_per_s2));
    EXPECT_GT(a.time_s, 0);
  }
}

TEST(Stall, LessRollingResistanceEndsNearerTheRestPoint) {
  const Path path = mainline::path_of(worked_line(), 80);
  const double rest_m = path.rest_points_m().at(0);
  ApproachInputs in = let_go(80, 170);
  in.drag_area_m2 = 0.5;
  for (const double rolling : {1e-2, 1e-3, 1e-4}) {
    in.rolling = rolling;
    const double band_m = rolling * weight_of(80) / std::abs(path.knots()[360].drive_slope_N_per_m);
    EXPECT_NEAR(ride(path, in).hangs_at_m.value(), rest_m, 1.05 * band_m) << rolling;
  }
}

TEST(Stall, WithoutRollingResistanceDragBringsHimToTheRestPoint) {
  const Path path = mainline::path_of(worked_line(), 80);
  ApproachInputs in = let_go(80, 170);
  in.drag_area_m2 = 0.5;
  EXPECT_NEAR(ride(path, in).hangs_at_m.value(), path.rest_points_m().at(0), 1e-9);
  in.wind_m_per_s = 4;
  const double blown_on_m = ride(path, in).hangs_at_m.value();
  EXPECT_GT(blown_on_m, path.rest_points_m().at(0) + 1);
  EXPECT_NEAR(standing_push_N(path, in, blown_on_m), 0, 1e-9);
}

TEST(Stall, WithoutAnyLossRisesToTheSameEnergyAndNothingBringsHimToRest) {
  const Path path = mainline::path_of(worked_line(), 80);
  const Approach a = ride(path, let_go(80, 170.5));
  EXPECT_NEAR(path.potential_J(a.stalled_at_m.value()), path.potential_J(170.5), 1e-5);
  EXPECT_FALSE(a.hangs_at_m) << "he swings on between the two";
}

TEST(Stall, PushedOffWithoutLossComesBackOverTheStartAsFastAsHeLeft) {
  const Path path = mainline::path_of(worked_line(), 80);
  ApproachInputs in = let_go(80, 175);
  in.start_speed_m_per_s = 0.8;
  const Approach a = ride(path, in);
  EXPECT_NEAR(a.back_at_start_m_per_s.value(), 0.8, 1e-6);
  EXPECT_FALSE(a.hangs_at_m);
}

// Rolling back on a line is rolling on down its mirror image, in the mirrored wind.
TEST(Stall, RollingBackIsTheApproachOnTheLineTurnedEndForEnd) {
  const Cable line = worked_line();
  Cable turned = line;
  turned.rise_m = -line.rise_m;
  const Path path = mainline::path_of(line, 80);
  ApproachInputs in = let_go(80, 188);
  in.start_speed_m_per_s = 2.5;
  in.rolling = 0.001;
  in.drag_area_m2 = 0.5;
  in.wind_m_per_s = -1.5;
  const Approach a = ride(path, in);
  ASSERT_TRUE(a.back_at_start_m_per_s);
  const double from_m = line.span_m - *a.stalled_at_m;
  const Path mirror = Path::solve(turned, weight_of(80), 5, line.span_m - 188, 55).value();
  ApproachInputs back = in;
  back.start_m = from_m;
  back.start_speed_m_per_s = 0;
  back.wind_m_per_s = 1.5;
  EXPECT_NEAR(ride(mirror, back).arrival_speed_m_per_s, *a.back_at_start_m_per_s, 1e-6);
}

TEST(Stall, RollingResistanceThatHoldsHimAtTheStartLeavesHimThere) {
  const Path path = toward_trolley(worked_line(), 80);
  ApproachInputs in = let_go(80);
  in.rolling = 1.01 * path.drive_force_N(5) / weight_of(80);
  const Approach held = ride(path, in);
  EXPECT_EQ(held.stalled_at_m, 5);
  EXPECT_EQ(held.hangs_at_m, 5);
  EXPECT_EQ(held.time_s, 0);
  in.rolling = 0.99 * path.drive_force_N(5) / weight_of(80);
  EXPECT_GT(ride(path, in).stalled_at_m.value(), 5) << "a little less lets him go";
}

TEST(Stall, HeadWindThatIsStrongerThanTheSlopeBlowsHimOffTheStart) {
  const Path path = toward_trolley(worked_line(), 15);
  ApproachInputs in = let_go(15);
  in.drag_area_m2 = 0.5;
  in.wind_m_per_s = -15;
  const Approach a = ride(path, in);
  EXPECT_EQ(a.stalled_at_m, 5);
  EXPECT_EQ(a.back_at_start_m_per_s, 0);
  EXPECT_FALSE(a.hangs_at_m);
}

TEST(Stall, LightRiderInAHeadWindCreepsUpToWhereItHoldsHimAndStaysThere) {
  const Path path = toward_trolley(worked_line(), 15);
  ApproachInputs in = let_go(15);
  in.rolling = 0.005;
  in.drag_area_m2 = 0.5;
  in.wind_m_per_s = -5;
  const Approach a = ride(path, in);
  ASSERT_TRUE(a.hangs_at_m);
  EXPECT_EQ(a.hangs_at_m, a.stalled_at_m);
  // On the brink: what pushes is just what holds, within a millimetre of drive.
  const double slope_N_per_m = 0.2;
  EXPECT_NEAR(standing_push_N(path, in, *a.hangs_at_m), in.rolling * weight_of(15), 1e-3 * slope_N_per_m);
}

std::string why(const Path& path, const ApproachInputs& in, double line_weight_N_per_m = 10) {
  const auto a = approach(path, line_weight_N_per_m, in);
  return a ? "solved" : a.error().why;
}

TEST(NoApproach, NamesTheInputThatIsNone) {
  const Path path = toward_trolley(worked_line(), 80);
  const ApproachInputs good = let_go(80);
  ASSERT_EQ(why(path, good), "solved");
  const double nan = std::nan("");
  const auto with = [&](double ApproachInputs::*member, double value) {
    ApproachInputs in = good;
    in.*member = value;
    return why(path, in);
  };
  for (const double x : {4.9, 200.0, nan})
    EXPECT_EQ(with(&ApproachInputs::start_m, x), "the push-off is not on the path to the brake trolley");
  for (const double v : {-0.1, nan, HUGE_VAL})
    EXPECT_EQ(with(&ApproachInputs::start_speed_m_per_s, v), "the push-off's speed is not a number from 0 on");
  for (const double m : {79.9, 0.0, nan})
    EXPECT_EQ(with(&ApproachInputs::mass_kg, m), "the path is not that of the rider's mass");
  EXPECT_EQ(with(&ApproachInputs::rolling, -0.01), "rolling resistance is not a number from 0 on");
  EXPECT_EQ(with(&ApproachInputs::rolling, nan), "rolling resistance is not a number from 0 on");
  EXPECT_EQ(with(&ApproachInputs::drag_area_m2, nan), "the drag area is not a number from 0 on");
  EXPECT_EQ(with(&ApproachInputs::density_kg_per_m3, -1), "the air's density is not a number from 0 on");
  EXPECT_EQ(with(&ApproachInputs::wind_m_per_s, HUGE_VAL), "the wind is not a number");
  EXPECT_EQ(why(path, good, 0), "the main line's weight is not a number above 0");
}

TEST(NoApproach, OfWheelsThatLiftOffTheLine) {
  // Beside the support of a line far too long the path of a light load bulges upward, 1.3 % per metre.
  const Cable slack{100, -30, 240, 1.1, 0};
  const Path path = Path::solve(slack, weight_of(1.2), 90, 98, 81).value();
  ASSERT_LT(path.curvature(97), -0.01);
  ApproachInputs in = let_go(1.2, 90);
  in.start_speed_m_per_s = 300;
  EXPECT_EQ(why(path, in), "the rider's wheels lift off the main line on the approach");
}

TEST(NoApproach, OfAirTooThickToStepThrough) {
  const Path path = toward_trolley(worked_line(), 80);
  ApproachInputs in = let_go(80);
  in.drag_area_m2 = 1e12;
  in.start_speed_m_per_s = 10;
  EXPECT_NE(why(path, in), "solved");
}

}  // namespace
}  // namespace fairlead::arrest
