// The empty trolley's way back over an ideal reduction.
#include "geometry/arrest/reset.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

constexpr double trolley_kg = 4, travel_m = 15;

Inputs empty_trolley(double preload_N, double rate_N_per_m, double rolling) {
  Inputs in;
  in.brake_trolley_kg = trolley_kg;
  in.rolling = {rolling, rolling};
  in.brake_share = {1, 1};
  in.unit = unit(preload_N, rate_N_per_m, reeving::EddyLaw{500, 10}).law;
  in.travel_m = travel_m;
  return in;
}

Track empty_track(double ratio, double efficiency, double slope, double inertia_kg = 0) {
  return *Track::plain({.ratio = ratio,
                        .efficiency = efficiency,
                        .slope = slope,
                        .travel_m = travel_m,
                        .weight_N = trolley_kg * g,
                        .inertia_kg = inertia_kg});
}

Reset back(const Inputs& in, double ratio, double efficiency, double slope) {
  return reset_plain(in, empty_track(ratio, efficiency, slope), ratio, 0);
}

/// TWO, see settle_test: the margin is zero at 3.7213 m, below it upstream of there.
TEST(Reset, ReserveIsUsedUpWhereTheComputationSays) {
  const double slope = -0.12, K = 1.09;
  const Reset r = back(empty_trolley(5, 3, 0.01), 2, 2 / (1 + K) * std::hypot(1, slope), slope);
  EXPECT_FALSE(r.returns);
  EXPECT_LT(r.least_reserve_N, 0);
  EXPECT_EQ(r.at_travel_m, 0) << "where the retraction is weakest";
  std::size_t i = 0;
  while (!(r.reserve_N[i] > 0)) ++i;
  ASSERT_GT(i, 0u);
  const double share = r.reserve_N[i] / (r.reserve_N[i] - r.reserve_N[i - 1]);
  EXPECT_NEAR(r.travel_m[i] - share * (r.travel_m[i] - r.travel_m[i - 1]), 3.7213, 5e-5);
}

/// Level: m v2 / 2 = what is drawn in less friction; constant retraction: t = sqrt(2 x m / F).
TEST(Reset, UndampedComesHomeAtTheSpeedOfItsEnergy) {
  for (const double n : {1.0, 2.0}) {
    const Reset r = back(empty_trolley(45, 8, 0.01), n, 1, 0);
    ASSERT_TRUE(r.returns);
    const double friction_N = 0.01 * trolley_kg * g, E = travel_m / n;
    const double work_J = 45 * E + 8 * E * E / 2 - friction_N * travel_m;
    EXPECT_NEAR(r.speed_at_mark_m_per_s, std::sqrt(2 * work_J / trolley_kg), 1e-5) << n;
    EXPECT_NEAR(r.least_reserve_N, 45 / n - friction_N, 1e-9) << n;
    const Reset steady = back(empty_trolley(45, 0, 0.01), n, 1, 0);
    EXPECT_NEAR(steady.time_s, std::sqrt(2 * travel_m * trolley_kg / (45 / n - friction_N)), 1e-5) << n;
  }
}

/// A rotor that is drawn along slows it.
TEST(Reset, MovingMassSlowsTheReturnAsMoreTrolleyWould) {
  const Inputs in = empty_trolley(45, 0, 0);
  const Reset r = reset_plain(in, empty_track(1, 1, 0, 12), 1, 0);
  EXPECT_NEAR(r.time_s, std::sqrt(2 * travel_m * (trolley_kg + 12) / 45), 1e-5);
}

/// Terminal: drag that acts both ways leaves the speed at which it and the retraction are equal.
TEST(Reset, DragOnTheReturnLimitsTheSpeedAtTheMark) {
  Inputs in = empty_trolley(45, 0, 0);
  in.return_share = 1, in.brake_share = {0.9, 1.1}, in.brake_trolley_kg = 0.01;
  const auto track = Track::plain({.travel_m = travel_m, .weight_N = 0.01 * g});
  const Reset r = reset_plain(in, *track, 1, 0);
  ASSERT_TRUE(r.returns);
  const double F = 0.9 * 500, v = (F - std::sqrt(F * F - 45. * 45)) * 10 / 45;  // 2 F / (v/vc + vc/v) = 45
  EXPECT_NEAR(r.speed_at_mark_m_per_s, v, 1e-5);
}

/// COMMON: 1:1 and 2:1 return by themselves where a high ratio does not. The n at which it stops, level: T0 / (f W).
TEST(Reset, StopsAtTheRatioThatLeavesNoMoreThanTheResistance) {
  Inputs in = empty_trolley(45, 8, 0.02);
  in.static_N = 12;
  const double resists_N = 0.02 * trolley_kg * g + 12, stops_at = 45 / resists_N;
  ASSERT_GT(stops_at, 3);
  ASSERT_LT(stops_at, 4);
  for (const double n : {1.0, 2.0, 3.0, 4.0}) {
    const Reset r = back(in, n, 1, 0);
    EXPECT_EQ(r.returns, n < stops_at) << n;
    EXPECT_EQ(r.least_reserve_N > 0, n < stops_at) << n;
    EXPECT_NEAR(r.ratio_at_which_it_stops, stops_at, 1e-6) << "whatever ratio it is computed from: " << n;
  }
  in.static_N = 0, in.rolling = {0, 0};
  EXPECT_EQ(back(in, 1, 1, 0).ratio_at_which_it_stops, std::numeric_limits<double>::infinity());
  in.static_N = 50;
  EXPECT_EQ(back(in, 1, 1, 0).ratio_at_which_it_stops, 1);
}

/// A line that falls toward the landing hinders, one that rises helps, by weight times sine of its angle.
TEST(Reset, SlopeTakesOrGivesTheWeightAlongTheLine) {
  const double level_N = back(empty_trolley(45, 8, 0), 1, 1, 0).least_reserve_N;
  for (const double slope : {-0.1, 0.1}) {
    const double angle = std::atan(slope), pull_N = 45 * std::cos(angle);
    EXPECT_NEAR(back(empty_trolley(45, 8, 0), 1, 1, slope).least_reserve_N, pull_N + trolley_kg * g * std::sin(angle),
                1e-9);
  }
  EXPECT_NEAR(level_N, 45, 1e-9);
}

}  // namespace
}  // namespace fairlead::arrest
