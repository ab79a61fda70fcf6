#include "geometry/mainline/states.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/mainline/rigged.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

const State& state_of(const MainLine& line, Weather weather, bool stiff, bool taut) {
  for (const State& s : line.states)
    if (s.weather == weather && s.stiff == stiff && s.taut == taut) return s;
  throw std::runtime_error("no such state");
}

TEST(States, StandForEveryEndOfStiffnessAndMeasureInEveryWeather) {
  const MainLine line = solve(rigged()).value();
  ASSERT_EQ(line.states.size(), 12u);
  for (std::size_t i = 0; i < 12; ++i)
    EXPECT_EQ(line.states[i].weather, i < 4 ? Weather::measured : i < 8 ? Weather::cold : Weather::warm);
  EXPECT_EQ(line.paths.size(), 24u) << "cold and warm, four ends, three loadings";
  for (std::size_t i = 0; i < line.paths.size(); ++i) {
    EXPECT_NE(line.states[static_cast<std::size_t>(line.paths[i].state)].weather, Weather::measured);
    EXPECT_EQ(line.paths[i].loading, static_cast<Loading>(i % 3));
  }
}

TEST(States, ARangeOfOneValueIsOneState) {
  Inputs in = rigged();
  in.measure = {15e3, 15e3};
  EXPECT_EQ(solve(in).value().states.size(), 6u);
  in.compliance_per_N = {0, 0};
  const MainLine line = solve(in).value();
  ASSERT_EQ(line.states.size(), 3u);
  EXPECT_TRUE(line.states[0].stiff && line.states[0].taut);
}

TEST(States, TheMeasuredOneShowsWhatWasMeasuredWhateverTheStiffness) {
  const MainLine line = solve(rigged()).value();
  for (const bool stiff : {true, false}) {
    EXPECT_NEAR(state_of(line, Weather::measured, stiff, true).start_tension_N, 15e3, 1e-7);
    EXPECT_NEAR(state_of(line, Weather::measured, stiff, false).start_tension_N, 14e3, 1e-7);
  }
  EXPECT_GT(state_of(line, Weather::measured, true, true).cable.unstretched_m,
            state_of(line, Weather::measured, false, true).cable.unstretched_m)
      << "a softer line of the same tension was shorter before it stretched";
}

TEST(States, TautMeansMoreTensionLessSagOrLessLine) {
  Inputs in = rigged();
  const auto taut_sags_less = [&] {
    const MainLine line = solve(in).value();
    const State &taut = state_of(line, Weather::cold, true, true), &slack = state_of(line, Weather::cold, true, false);
    return taut.sag_m < slack.sag_m && taut.end_tension_N > slack.end_tension_N;
  };
  EXPECT_TRUE(taut_sags_less());
  in.known = Inputs::Known::sag;
  in.measure = {4.2, 4.5};
  EXPECT_TRUE(taut_sags_less());
  in.known = Inputs::Known::unstretched_length;
  in.measure = {220.3, 220.4};
  EXPECT_TRUE(taut_sags_less());
}

TEST(States, AKnownSagIsShownWhenMeasured) {
  Inputs in = rigged();
  in.known = Inputs::Known::sag;
  in.measure = {4.2, 4.2};
  const MainLine line = solve(in).value();
  EXPECT_NEAR(line.states[0].sag_m, 4.2, 1e-11);
  EXPECT_NEAR(line.states[1].sag_m, 4.2, 1e-11);
}

TEST(States, ColdTautensAndWarmthSlackensByTheExpansion) {
  const MainLine line = solve(rigged()).value();
  const State& measured = state_of(line, Weather::measured, true, true);
  const State& cold = state_of(line, Weather::cold, true, true);
  const State& warm = state_of(line, Weather::warm, true, true);
  EXPECT_EQ(cold.temperature_K, 263.15);
  EXPECT_EQ(warm.temperature_K, 313.15);
  EXPECT_NEAR(cold.cable.unstretched_m, measured.cable.unstretched_m * (1 - 12e-6 * 25), 1e-11);
  EXPECT_NEAR(warm.cable.unstretched_m, measured.cable.unstretched_m * (1 + 12e-6 * 25), 1e-11);
  for (const State* s : {&cold, &warm})
    EXPECT_NEAR(s->cable.weight_N_per_m * s->cable.unstretched_m, 1.05 * 9.80665 * measured.cable.unstretched_m, 1e-9)
        << "the line's weight stays";
  EXPECT_GT(cold.start_tension_N, measured.start_tension_N);
  EXPECT_LT(warm.start_tension_N, measured.start_tension_N);
  EXPECT_LT(cold.sag_m, warm.sag_m);
}

TEST(States, PathsAreThoseOfTheirStateAndLoading) {
  const Inputs in = rigged();
  const MainLine line = solve(in).value();
  for (const StatePath& on : line.paths) {
    const double mass_kg = on.loading == Loading::empty      ? in.empty_kg
                           : on.loading == Loading::lightest ? in.lightest_kg
                                                             : in.heaviest_kg;
    const Cable& cable = line.states[static_cast<std::size_t>(on.state)].cable;
    EXPECT_EQ(on.path.from_m(), in.path_from_m);
    EXPECT_EQ(on.path.to_m(), in.path_to_m);
    EXPECT_NEAR(on.path.height_m(188.3), wheel_at(cable, mass_kg, 188.3).z_m, 1e-7);
    ASSERT_EQ(on.rest_points_m.size(), 1u);
    EXPECT_NEAR(on.path.drive_force_N(on.rest_points_m[0]), 0, 1e-9);
  }
}

TEST(States, AnUnsolvedOneLeavesNone) {
  Inputs in = rigged();
  in.measure = {100, 15e3};
  const auto line = solve(in);
  ASSERT_FALSE(line);
  EXPECT_EQ(line.error().why, "the main line's own weight needs more than the measured tension");
  in = rigged();
  in.empty_kg = 0;
  EXPECT_EQ(solve(in).error().why, "a load on wheels does not press on the main line");
  in = rigged();
  in.path_to_m = 220;
  EXPECT_FALSE(solve(in));
}

}  // namespace
}  // namespace fairlead::mainline
