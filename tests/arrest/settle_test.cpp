// Where a rider who has stopped stays. COMMON: common practice, no source.
#include "geometry/arrest/settle.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

using How = FinalRest::How;
constexpr double travel_m = 20, stopped_m = 12, rolling = 0.01;

Bodies rolling_riders(double rider_kg) {
  Bodies b = riding(rider_kg);
  b.rolling = rolling;
  return b;
}

FinalRest rest(const Bodies& b, double slope, const Unit& u, double from_m = stopped_m, double ratio = 1) {
  return settle(*Track::plain({.ratio = ratio, .slope = slope, .travel_m = travel_m, .weight_N = weight_N(b)}), b, u,
                from_m);
}

TEST(FinalRest, OnAFallingLineIsTheSamePlaceForHeavyAndLight) {
  for (const double rider_kg : {30.0, 120.0}) {
    const FinalRest r = rest(rolling_riders(rider_kg), -0.03, no_brake(), rider_kg / 10);
    EXPECT_EQ(r.how, How::runs_on) << "both creep on to where the line ends or turns";
    EXPECT_EQ(r.earliest_m, travel_m);
  }
}

TEST(FinalRest, OnALevelLineIsNearWhereTheyStopped) {
  for (const double rider_kg : {30.0, 120.0}) {
    const FinalRest r = rest(rolling_riders(rider_kg), 0.005, no_brake(), rider_kg / 10);
    EXPECT_EQ(r.how, How::holds);
    EXPECT_EQ(r.earliest_m, rider_kg / 10);
    EXPECT_EQ(r.latest_m, rider_kg / 10);
  }
}

TEST(FinalRest, OnARisingLineIsTheMark) {
  for (const double rider_kg : {30.0, 120.0}) {
    const FinalRest r = rest(rolling_riders(rider_kg), 0.03, no_brake());
    EXPECT_EQ(r.how, How::rolled_back);
    EXPECT_EQ(r.latest_m, 0);
  }
}

/// The unit's retraction pushes back too, and then it decides.
TEST(FinalRest, IsDecidedByTheRetractionWhereTheLineAloneWouldHoldHim) {
  const Bodies b = rolling_riders(80);
  const double holds_N = rolling * weight_N(b);  // level: friction's band
  const FinalRest weak = rest(b, 0, unit(0.99 * holds_N, 0, reeving::EddyLaw{500, 10}));
  EXPECT_EQ(weak.how, How::holds);
  const FinalRest strong = rest(b, 0, unit(1.01 * holds_N, 0, reeving::EddyLaw{500, 10}));
  EXPECT_EQ(strong.how, How::pushed_back);
  EXPECT_EQ(strong.latest_m, 0);
  // Rising, it would roll back anyhow.
  EXPECT_EQ(rest(b, 0.03, unit(60, 0, reeving::EddyLaw{500, 10})).how, How::rolled_back);
}

/// Dead band of a falling line against a retraction that rises: W s - T(E)/n = +- f W, E = x/n.
TEST(FinalRest, OfARisingRetractionIsABandOfTwiceTheFriction) {
  const Bodies b = rolling_riders(80);
  const double slope = -0.05, n = 2, preload = 20, rate = 12, W = weight_N(b);
  const Unit u = unit(preload, rate, reeving::EddyLaw{500, 10});
  const auto place_m = [&](double friction) { return n * (n * W * (-slope - friction) - preload) / rate; };
  ASSERT_GT(place_m(rolling), 2);
  ASSERT_LT(place_m(-rolling), travel_m);
  const FinalRest from_above = rest(b, slope, u, 1, n);
  EXPECT_EQ(from_above.how, How::crept_on);
  EXPECT_NEAR(from_above.earliest_m, place_m(rolling), 1e-9);
  EXPECT_NEAR(from_above.latest_m, place_m(-rolling), 1e-9);
  const FinalRest from_below = rest(b, slope, u, travel_m - 0.1, n);
  EXPECT_EQ(from_below.how, How::pushed_back);
  EXPECT_NEAR(from_below.earliest_m, place_m(rolling), 1e-9);
  EXPECT_NEAR(from_below.latest_m, place_m(-rolling), 1e-9);
  const FinalRest between = rest(b, slope, u, (place_m(rolling) + place_m(-rolling)) / 2, n);
  EXPECT_EQ(between.how, How::holds);
}

TEST(FinalRest, OfATrolleyHeldBackIsWhereItStopped) {
  Bodies b = rolling_riders(80);
  b.held_back = true;
  const FinalRest r = rest(b, 0.005, unit(60, 5, reeving::EddyLaw{500, 10}));
  EXPECT_EQ(r.how, How::held_back);
  EXPECT_EQ(r.earliest_m, stopped_m);
  EXPECT_EQ(r.latest_m, stopped_m);
}

/// What is held back is the brake trolley; the rider only leaned on it. On a line that rises by more than what rolls he
/// goes back without it.
TEST(FinalRest, OfARiderOnARisingLineIsTheMarkAlsoWhereTheBrakeTrolleyIsHeldBack) {
  Bodies b = rolling_riders(80);
  b.held_back = true;
  for (const double slope : {0.99 * rolling, 1.01 * rolling}) {
    const FinalRest r = rest(b, slope, unit(60, 5, reeving::EddyLaw{500, 10}));
    EXPECT_EQ(r.how, slope < rolling ? How::held_back : How::rolled_back);
    EXPECT_EQ(r.latest_m, slope < rolling ? stopped_m : 0);
  }
}

/// TWO. An empty trolley of 4 kg on a line that falls by 0.12, 2:1 over a sheave of K 1.09 whose returning pull is
/// T / (1 + K), retraction 5 N + 3 N/m: drawn back from 15 m it stands at 3.7213 m. The pull is along the track.
TEST(OverDampedReturn, ComesToRestWhereItsReserveIsUsedUp) {
  const double slope = -0.12, K = 1.09, along = std::hypot(1, slope);
  Bodies b{.rider_kg = 0, .rider_trolley_kg = 0, .brake_trolley_kg = 4, .hanging_m = 1, .rolling = 0.01};
  const auto track =
      Track::plain({.ratio = 2, .efficiency = 2 / (1 + K) * along, .slope = slope, .travel_m = 15, .weight_N = 4 * g});
  const FinalRest r = settle(*track, b, unit(5, 3, reeving::EddyLaw{500, 10}), 15 - 1e-6);
  EXPECT_EQ(r.how, How::pushed_back);
  EXPECT_NEAR(r.latest_m, 3.7213, 5e-5);
}

}  // namespace
}  // namespace fairlead::arrest
