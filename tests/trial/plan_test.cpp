// The plan of unmanned tests: releases, order, what is predicted, and what is accepted by whom.
#include "geometry/trial/plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/trial/made.hpp"

namespace fairlead::trial {
namespace {

std::vector<const trial::Test*> masses() {
  std::vector<const trial::Test*> all;
  for (const trial::Test& test : demo_plan().tests)
    if (test.kind == Kind::test_mass) all.push_back(&test);
  return all;
}

TEST(TrialPlan, BeginsWithHandPullsAtTheMarkInTheMiddleAndAtFullTravel) {
  const auto& tests = demo_plan().tests;
  ASSERT_GE(tests.size(), 3u);
  const double travel_m = demo_rig().layout.brake_trolley.travel_m;
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(tests[i].id, "H" + std::to_string(i + 1));
    EXPECT_EQ(tests[i].kind, Kind::hand_pull);
    EXPECT_NEAR(tests[i].travel_m, travel_m * static_cast<double>(i) / 2, 1e-12);
  }
}

TEST(TrialPlan, TheLightestTheMiddleAndTheHeaviestRiderGoFromLittleEnergyToMuch) {
  const auto all = masses();
  ASSERT_EQ(all.size(), 9u);
  for (const double kg : {50.0, 85.0, 120.0})
    EXPECT_EQ(std::ranges::count(all, kg, [](const trial::Test* test) { return test->mass_kg; }), 3) << kg;
  for (std::size_t i = 1; i < all.size(); ++i) EXPECT_GE(all[i]->energy_J, all[i - 1]->energy_J) << all[i]->id;
  for (std::size_t i = 0; i < all.size(); ++i) EXPECT_EQ(all[i]->id, "M" + std::to_string(i + 1));
}

// Proves the release by riding it: a step farther up the fastest corner is faster than the plan says, and at it no
// corner is. From the push-off there is no farther.
TEST(TrialPlan, NoTestArrivesFasterThanItSaysAndAStepFartherUpWould) {
  const Rig& rig = demo_rig();
  const Unknowns unknown = unknowns_of(rig);
  for (const trial::Test* test : masses()) {
    const auto mass = test_masses(rig, {test->mass_kg});
    ASSERT_TRUE(mass);
    double fastest = 0, farther = 0;
    const bool from_push_off = test->release_m < releases(rig).low + release_step_m;
    for (std::size_t s = 0; s < mass->front().states.size(); ++s)
      for (const double wind : {unknown.wind_m_per_s.low, unknown.wind_m_per_s.high})
        for (const double rolling : {unknown.rolling.low, unknown.rolling.high}) {
          const Conditions on{wind, rolling, 1, *rig.layout.riders.drag_area_m2};
          const auto here = ride(rig, mass->front(), s, test->release_m, on);
          ASSERT_TRUE(here);
          fastest = std::max(fastest, here->arrival_speed_m_per_s);
          if (from_push_off) continue;
          const auto there = ride(rig, mass->front(), s, test->release_m - release_step_m - 1e-3, on);
          ASSERT_TRUE(there);
          farther = std::max(farther, there->arrival_speed_m_per_s);
        }
    EXPECT_LE(fastest, test->at_most_m_per_s) << test->id;
    if (from_push_off)
      EXPECT_GE(fastest, test->at_most_m_per_s * (1 - 1e-9)) << test->id;
    else
      EXPECT_GT(farther, test->at_most_m_per_s) << test->id;
    EXPECT_LE(test->at_most_m_per_s, demo_plan().fastest_m_per_s);
  }
}

// A law: whatever within the unknowns a day brings, the ride lies within what was predicted. The middle of two paths of
// the main line is between them by definition.
TEST(TrialPlan, AnyDayWithinTheUnknownsLiesInTheInterval) {
  const Rig& rig = demo_rig();
  const Unknowns unknown = unknowns_of(rig);
  std::uint64_t drawn = 0;
  const auto within = [&](const Span& span) {
    const double share = 0.5 + 0.5 * std::tanh(standard_normal(7, 0, drawn++));
    return span.low + share * (span.high - span.low);
  };
  for (const char* id : {"M1", "M5", "M9"}) {
    const trial::Test& test = test_named(id);
    const auto mass = test_masses(rig, {test.mass_kg});
    ASSERT_TRUE(mass);
    for (int day = 0; day < 20; ++day) {
      const Conditions on{within(unknown.wind_m_per_s), within(unknown.rolling), within(unknown.brake_share),
                          *rig.layout.riders.drag_area_m2};
      for (std::size_t s = 0; s < mass->front().states.size(); ++s) {
        const auto one = ride(rig, mass->front(), s, test.release_m, on);
        ASSERT_TRUE(one);
        if (!one->arrives) continue;
        const auto inside = [&](Trialled what, double value) {
          const Span& span = *expected(test, what).predicted;
          EXPECT_TRUE(span.low <= value && value <= span.high)
              << id << ' ' << kind_of(what).word << ' ' << value << " not in " << span.low << ".." << span.high;
        };
        inside(Trialled::arrival_speed, one->arrival_speed_m_per_s);
        inside(Trialled::stopping_travel, one->stopping_travel_m);
        inside(Trialled::extension, one->extension_m);
        inside(Trialled::line_tension, one->line_tension_N);
      }
    }
  }
}

// A second way: the reserve of the way back, from the poses of the sweeps.
TEST(TrialPlan, TheLeastPullWithWhichTheTrolleyIsLetBackIsTheReserveOfItsWayBack) {
  for (const auto& [id, last] : {std::pair{"H1", false}, std::pair{"H3", true}}) {
    double least_N = INFINITY;
    for (const arrest::Reset& reset : demo_rig().arrest.solved()->resets)
      least_N = std::min(least_N, last ? reset.reserve_N.back() : reset.reserve_N.front());
    const Expected& back = expected(test_named(id), Trialled::let_back);
    ASSERT_TRUE(back.predicted);
    // The rest position as measured lies between cold and warm.
    EXPECT_NEAR(back.predicted->low, least_N, 1e-6 * least_N) << id;
  }
}

// On the demo's redirect nothing rubs: pulled on and let back differ by twice what the wheels hinder, of which the
// static resistance is 4 N and rolling no more than 2.2 % of the trolley's weight.
TEST(TrialPlan, PulledOnIsLetBackAndTwiceWhatHinders) {
  for (const char* id : {"H1", "H2", "H3"}) {
    const Span on = *expected(test_named(id), Trialled::pull_on).predicted,
               back = *expected(test_named(id), Trialled::let_back).predicted;
    const double rolls_N = 0.022 * 6 * standard_gravity;
    EXPECT_GE(on.low - back.low, 2 * 4.0) << id;
    EXPECT_LE(on.high - back.high, 2 * (4.0 + rolls_N)) << id;
  }
}

TEST(TrialPlan, LetGoAtFullTravelItIsBackInTheTimeOfItsWayBack) {
  double fastest_s = INFINITY;
  for (const arrest::Reset& reset : demo_rig().arrest.solved()->resets) fastest_s = std::min(fastest_s, reset.time_s);
  const Expected& time = expected(test_named("H3"), Trialled::return_time);
  ASSERT_TRUE(time.predicted);
  EXPECT_NEAR(time.predicted->low, fastest_s, 1e-9);
  EXPECT_GT(time.predicted->high, time.predicted->low);
}

TEST(TrialPlan, EveryLimitIsTheLayoutsAndWhatItDoesNotLimitSaysWhichKeyWould) {
  const Expected& stop = expected(test_named("M1"), Trialled::stopping_travel);
  ASSERT_TRUE(stop.limit);
  EXPECT_NEAR(stop.limit->at, 204.5 - 188 - 1, 1e-9);  // backup engages, less rest mark, less the reserve
  EXPECT_EQ(stop.limit->basis, "owner's rule");
  const Expected& out = expected(test_named("M1"), Trialled::extension);
  ASSERT_TRUE(out.limit);
  EXPECT_NEAR(out.limit->at, 18.5 - 0.75, 1e-12);
  EXPECT_NEAR(expected(test_named("H2"), Trialled::let_back).limit->at, 20, 1e-12);
  EXPECT_FALSE(expected(test_named("M1"), Trialled::line_tension).limit);
  EXPECT_EQ(expected(test_named("M1"), Trialled::line_tension).unlimited, "");

  Layout bare = shipped_layout("heron_gully.toml");
  bare.limits = {};
  const Rig rig = solve(std::move(bare));
  for (const auto& [what, key] : {std::pair{Trialled::stopping_travel, "limits.stop_reserve"},
                                  std::pair{Trialled::extension, "limits.extension_reserve"},
                                  std::pair{Trialled::rest_shift, "limits.rest_shift"}})
    for (const Expected& one : expected_of(rig, Kind::test_mass, 0))
      if (one.what == what) {
        EXPECT_FALSE(one.limit) << key;
        EXPECT_EQ(one.unlimited, key);
      }
}

TEST(TrialPlan, IsTheSameOnAnyNumberOfThreads) {
  const auto one = plan(demo_rig(), {.threads = 1});
  ASSERT_TRUE(one);
  ASSERT_EQ(one->tests.size(), demo_plan().tests.size());
  for (std::size_t i = 0; i < one->tests.size(); ++i) {
    EXPECT_EQ(one->tests[i].release_m, demo_plan().tests[i].release_m);
    for (std::size_t e = 0; e < one->tests[i].expected.size(); ++e)
      EXPECT_EQ(one->tests[i].expected[e].predicted, demo_plan().tests[i].expected[e].predicted);
  }
}

TEST(TrialPlan, WithoutAnArrestThereIsNone) {
  Layout light = shipped_layout("heron_gully.toml");
  light.riders.drag_area_m2.reset();
  const auto none = plan(solve(std::move(light)));
  ASSERT_FALSE(none);
  EXPECT_NE(none.error().why.find("riders.drag_area"), std::string::npos) << none.error().why;
}

}  // namespace
}  // namespace fairlead::trial
