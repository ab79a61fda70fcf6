// All corners over an ideal reduction: what is solved, what is told, what the ratio does. COMMON: common practice, no
// source.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/arrest/arrest.hpp"
#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

constexpr double km_per_h = 1 / 3.6;

/// INVENTED: units that bring 30 kg at 6.8 m/s to 120 kg at 9.25 m/s to rest within 15 m.
Unit unit_for(int ratio) {
  using reeving::EddyLaw;
  if (ratio == 1) return unit(45, 8, EddyLaw{640, 30});
  if (ratio == 2) return unit(90, 30, EddyLaw{1260, 15});
  return unit(135, 65, EddyLaw{1880, 10});
}

Inputs inputs(const Unit& u) {
  Inputs in;
  in.rider_kg = {30, 120};
  in.rider_trolley_kg = 2.5, in.brake_trolley_kg = 4, in.hanging_m = 1.3;
  in.rolling = {0.008, 0.016};
  in.drag_area_m2 = 0.5, in.air_kg_per_m3 = {1.2}, in.wind_m_per_s = 5;
  in.measured_speed_m_per_s = mainline::Span{6.8, 9.25};
  in.unit = u.law;
  in.brake_share = {0.9, 1.1};
  in.extension_limit_m = 20, in.travel_m = 18;
  return in;
}

/// COMMON: riders from 15 to 150 kg, arrivals to 36 km/h at 1:1 and to 60 km/h at 2:1.
TEST(Corners, OfRidersFrom15To150KgAreSolvedOrTheirFailureIsNamed) {
  for (const int ratio : {1, 2}) {
    Inputs in = inputs(unit_for(ratio));
    in.rider_kg = {15, 150};
    in.measured_speed_m_per_s = mainline::Span{10 * km_per_h, (ratio == 1 ? 36 : 60) * km_per_h};
    for (const double slope : {-0.04, 0.0, 0.06})
      for (const bool held_back : {false, true}) {
        in.held_back = held_back;
        const auto arrest = solve_plain(in, {.ratio = 1.0 * ratio, .slope = slope, .rest_extension_m = 0.4});
        ASSERT_TRUE(arrest) << arrest.error().why;
        EXPECT_EQ(arrest->corners.size(), 32u) << "two riders, speeds, winds, rollings and brakes";
        for (const CornerResult& c : arrest->corners) {
          ASSERT_TRUE(c.motion) << c.motion.error().why;
          const bool rests = c.motion->outcome == Outcome::stops || c.motion->outcome == Outcome::creeps;
          EXPECT_EQ(c.rest.has_value(), rests);
        }
      }
  }
}

/// COMMON: nominal line speed is arrival over ratio: 36 km/h at 1:1 10.0 m/s, 60 km/h at 2:1 8.3 m/s. Seen where all
/// mass is in the rider's trolley, so that contact takes nothing and nobody swings.
TEST(LineSpeed, IsTheArrivalsOverTheRatio) {
  struct Case {
    double ratio, arrival_km_per_h, line_m_per_s;
  };
  for (const Case& c : {Case{1, 36, 10.0}, Case{2, 60, 8.3}}) {
    const Bodies b{.rider_kg = 1e-6, .rider_trolley_kg = 100, .brake_trolley_kg = 1e-6, .hanging_m = 1};
    const auto track = Track::plain({.ratio = c.ratio, .travel_m = 50, .weight_N = weight_N(b)});
    const auto m = solve_motion(*track, b, unit_for(1), {.speed_m_per_s = c.arrival_km_per_h * km_per_h});
    ASSERT_TRUE(m) << m.error().why;
    EXPECT_NEAR(m->line_speed_m_per_s.value, c.line_m_per_s, 0.05);
  }
}

/// The brake's own swing: with light trolleys the line's speed peaks after contact, and above the nominal.
TEST(LineSpeed, PeaksWhenTheSwingingRiderDragsTheTrolleyOn) {
  const auto m = solve_motion(level(20, weight_N(riding(120))), riding(120), unit_for(1), {.speed_m_per_s = 9.25});
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_GT(m->line_speed_m_per_s.value, 2 * m->speed_after_contact_m_per_s);
  EXPECT_GT(m->line_speed_m_per_s.at_s, 0.05);
}

/// Farthest of all corners.
double stop_m(const Inputs& in, const Plain& plain) {
  double farthest_m = 0;
  for (const Corner& corner : plain_corners(in)) {
    const Bodies b = bodies_of(in, corner, in.air_kg_per_m3[0]);
    const auto track = Track::plain({.ratio = plain.ratio,
                                     .slope = plain.slope,
                                     .travel_m = in.travel_m,
                                     .rest_extension_m = plain.rest_extension_m,
                                     .weight_N = weight_N(b)});
    const mainline::Span& speed = *in.measured_speed_m_per_s;
    const auto m =
        solve_motion(*track, b, unit_of(in, corner), {.speed_m_per_s = corner.fastest ? speed.high : speed.low});
    if (!m || m->outcome != Outcome::stops) return std::nan("");
    farthest_m = std::max(farthest_m, m->stop_travel_m);
  }
  return farthest_m;
}

/// COMMON: the ratio is the strongest lever. Each of the others is turned by the same tenth.
TEST(StoppingTravel, AnswersTheRatioMoreThanAnythingElse) {
  Inputs in = inputs(unit_for(1));
  in.travel_m = 60, in.extension_limit_m = 60;
  const Plain plain{.ratio = 1.5, .rest_extension_m = 0.4};
  const double before_m = stop_m(in, plain);
  const double by_ratio = stop_m(in, {.ratio = 1.65, .rest_extension_m = 0.4}) / before_m - 1;
  EXPECT_GT(by_ratio, 0.1);
  const auto changed = [&](auto&& change) {
    Inputs other = in;
    change(other);
    return std::abs(stop_m(other, plain) / before_m - 1);
  };
  using reeving::EddyLaw;
  const double others[] = {
      changed([](Inputs& i) {
        i.unit = unit(45, 8, EddyLaw{1.1 * 640, 30}).law;
      }),
      changed([](Inputs& i) {
        i.unit = unit(45, 8, EddyLaw{640, 33}).law;
      }),
      changed([](Inputs& i) {
        i.unit = unit(49.5, 8.8, EddyLaw{640, 30}).law;
      }),
      changed([](Inputs& i) {
        i.rider_kg = {33, 132};
      }),
      changed([](Inputs& i) {
        i.rolling = {0.0088, 0.0176};
      }),
      changed([](Inputs& i) { i.brake_trolley_kg = 4.4; }),
      std::abs(stop_m(in, {.ratio = 1.5, .slope = -0.005, .rest_extension_m = 0.4}) / before_m - 1)};
  for (const double other : others) EXPECT_LT(other, by_ratio);
}

/// COMMON. Beside it the same reduction's stop: what brakes stronger returns better.
TEST(Reduction, OfOneOrTwoReturnsByItselfWhereAHighOneDoesNot) {
  Inputs in = inputs(unit_for(1));
  in.static_N = 15;
  std::vector<bool> returns;
  for (const double ratio : {1.0, 2.0, 3.0, 4.0}) {
    const auto arrest = solve_plain(in, {.ratio = ratio, .efficiency = 0.95, .rest_extension_m = 0.4});
    ASSERT_TRUE(arrest) << arrest.error().why;
    ASSERT_EQ(arrest->resets.size(), 1u);
    returns.push_back(arrest->resets[0].returns);
  }
  EXPECT_EQ(returns, (std::vector<bool>{true, true, false, false}));
}

TEST(Corners, AreTheSameOnAnyNumberOfThreads) {
  const Inputs in = inputs(unit_for(2));
  const Plain plain{.ratio = 2, .slope = -0.01, .rest_extension_m = 0.4};
  const auto one = solve_plain(in, plain);
  ASSERT_TRUE(one);
  for (const unsigned threads : {2u, 5u}) {
    const auto many = solve_plain(in, plain, {.threads = threads});
    ASSERT_TRUE(many);
    ASSERT_EQ(many->corners.size(), one->corners.size());
    for (std::size_t i = 0; i < one->corners.size(); ++i) {
      const Motion &a = *one->corners[i].motion, &b = *many->corners[i].motion;
      EXPECT_EQ(one->corners[i].corner, many->corners[i].corner);
      EXPECT_EQ(a.stop_travel_m, b.stop_travel_m);
      EXPECT_EQ(a.energy_residual, b.energy_residual);
      EXPECT_EQ(a.load_filtered.value, b.load_filtered.value);
    }
    EXPECT_EQ(one->not_reset.farthest_m, many->not_reset.farthest_m);
    EXPECT_EQ(one->not_reset.first_failing, many->not_reset.first_failing);
  }
}

/// Looked for one step at a time, in every corner.
TEST(DispatchDistance, IsTheLastOneAtWhichEveryCornerStillRests) {
  Inputs in = inputs(unit_for(1));
  in.rider_kg = {50, 100};
  in.measured_speed_m_per_s = mainline::Span{6, 7};
  const Plain plain{.ratio = 1, .slope = -0.01, .rest_extension_m = 0.4};
  const auto arrest = solve_plain(in, plain);
  ASSERT_TRUE(arrest);
  const double found_m = arrest->not_reset.farthest_m;
  ASSERT_GT(found_m, 0);
  ASSERT_LT(found_m, in.travel_m);
  ASSERT_GE(arrest->not_reset.first_failing, 0);
  const auto all_rest = [&](double from_m) {
    for (const Corner& corner : plain_corners(in)) {
      const Bodies b = bodies_of(in, corner, 1.2);
      const auto track =
          Track::plain({.slope = -0.01, .travel_m = in.travel_m, .rest_extension_m = 0.4, .weight_N = weight_N(b)});
      // Until contact only the slope drives the rider on; all that hangs there, a little more than he.
      const double v0 = corner.fastest ? 7 : 6, riding_kg = b.rider_kg + b.rider_trolley_kg;
      const double v = std::sqrt(v0 * v0 + 2 * 0.01 * weight_N(b) * from_m / riding_kg);
      const auto m = solve_motion(*track, b, unit_of(in, corner), {.x_m = from_m, .speed_m_per_s = v});
      if (!m || m->outcome != Outcome::stops) return false;
    }
    return true;
  };
  EXPECT_TRUE(all_rest(found_m));
  EXPECT_FALSE(all_rest(found_m + dispatch_step_m));
}

/// They creep on at some speed, and where the planned travel ends nothing has stopped them.
TEST(DispatchDistance, OfALineOnWhichRidersRunOnIsNone) {
  Inputs in = inputs(unit(5, 0, reeving::EddyLaw{500, 5}));
  in.rider_kg = {60, 120}, in.measured_speed_m_per_s = mainline::Span{4, 6};
  in.travel_m = 60, in.extension_limit_m = 80;
  const auto arrest = solve_plain(in, {.slope = -0.03});
  ASSERT_TRUE(arrest);
  int run_on = 0;
  for (const CornerResult& c : arrest->corners) {
    ASSERT_TRUE(c.rest) << "nothing else fails";
    run_on += c.rest->how == FinalRest::How::runs_on;
  }
  ASSERT_GT(run_on, 0);
  EXPECT_TRUE(std::isnan(arrest->not_reset.farthest_m));
  EXPECT_GE(arrest->not_reset.first_failing, 0);
}

TEST(CornerResult, ComesAsFarAsTheLaterOfItsStopAndACreepOnFromThere) {
  CornerResult corner;
  EXPECT_TRUE(std::isnan(corner.farthest_travel_m()) && std::isnan(corner.greatest_extension_m().value));
  corner.motion = Motion{.outcome = Outcome::stops, .stop_travel_m = 10, .extension_m = {.value = 8, .travel_m = 9.9}};
  EXPECT_EQ(corner.farthest_travel_m(), 10) << "where he rests is not known";
  corner.rest = FinalRest{FinalRest::How::rolled_back, 2, 3, 4};
  EXPECT_EQ(corner.farthest_travel_m(), 10);
  EXPECT_EQ(corner.greatest_extension_m().value, 8);
  EXPECT_EQ(corner.greatest_extension_m().travel_m, 9.9);
  corner.rest = FinalRest{FinalRest::How::crept_on, 11, 12.5, 8.7};
  EXPECT_EQ(corner.farthest_travel_m(), 12.5);
  EXPECT_EQ(corner.greatest_extension_m().value, 8.7);
  EXPECT_EQ(corner.greatest_extension_m().travel_m, 12.5);
  EXPECT_TRUE(corner.comes_to_rest(8.8));
  EXPECT_FALSE(corner.comes_to_rest(8.7)) << "the line is out";
  corner.rest->how = FinalRest::How::runs_on;
  EXPECT_FALSE(corner.comes_to_rest(20));
  corner.rest = FinalRest{FinalRest::How::crept_on, 11, 12.5, std::nan("")};
  EXPECT_TRUE(std::isnan(corner.greatest_extension_m().value)) << "what is not known is not the lesser";
  EXPECT_FALSE(corner.comes_to_rest(20));
}

/// On a falling line behind a weak spring and a brake that drags hard at little speed riders all but stop, and then
/// creep on to where the spring holds them: the farthest place is beyond the stop.
TEST(Governing, FarthestTravelIsNoNearerThanAnyCreep) {
  Inputs in = inputs(unit(20, 3, reeving::EddyLaw{3000, 3}));
  in.rider_kg = {100, 120}, in.measured_speed_m_per_s = mainline::Span{2, 3};
  in.travel_m = 40, in.extension_limit_m = 60;
  const auto arrest = solve_plain(in, {.slope = -0.06});
  ASSERT_TRUE(arrest);
  double farthest_m = 0, stop_m = 0;
  for (const CornerResult& c : arrest->corners) {
    ASSERT_TRUE(c.motion && c.rest);
    farthest_m = std::max({farthest_m, c.motion->stop_travel_m, c.rest->latest_m});
    stop_m = std::max(stop_m, c.motion->stop_travel_m);
    EXPECT_NEAR(c.rest->extension_m, c.rest->latest_m, 1e-9) << "1:1, from no line out at the mark";
  }
  EXPECT_GT(farthest_m, stop_m) << "somebody creeps on";
  EXPECT_EQ(arrest->corners[static_cast<std::size_t>(arrest->governing.farthest_travel)].farthest_travel_m(),
            farthest_m);
}

TEST(Arrest, WithoutSpeedsIsUnsolved) {
  Inputs in = inputs(unit_for(1));
  in.measured_speed_m_per_s.reset();
  const auto arrest = solve_plain(in, {});
  ASSERT_FALSE(arrest);
  EXPECT_EQ(arrest.error().why, "without a main line the arrival speeds must be given");
  in = inputs(unit_for(1));
  EXPECT_FALSE(solve_plain(in, {.ratio = 0}));
  EXPECT_FALSE(solve_plain(in, {.efficiency = 1.1}));
}

}  // namespace
}  // namespace fairlead::arrest
