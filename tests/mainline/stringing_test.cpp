#include "geometry/mainline/stringing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/quantity/dimension.hpp"
#include "tests/mainline/rigged.hpp"

namespace fairlead::mainline {
namespace {

constexpr double g = standard_gravity, freezing_K = 273.15;

/// One stiffness, one tension, at the end.
Inputs strung_line() {
  Inputs in = rigged();
  in.compliance_per_N = {1 / 11e6, 1 / 11e6};
  in.measure = {15e3, 15e3};
  in.measured_at = MeasuredAt::end;
  in.measured_K = freezing_K + 12;
  in.coldest_K = freezing_K - 18;
  in.warmest_K = freezing_K + 35;
  return in;
}

std::vector<Stringing> strung(const Inputs& in) {
  const auto rows = stringing(in, solve(in).value());
  EXPECT_TRUE(rows) << (rows ? "" : rows.error().why);
  return rows ? *rows : std::vector<Stringing>{};
}

const Stringing& measured(const std::vector<Stringing>& rows) {
  for (const Stringing& row : rows)
    if (row.as_measured) return row;
  throw std::runtime_error("no measured row");
}

/// Level, inextensible, 30 N/m, 5000 N at its end: source R3.08.05.
Inputs published() {
  Inputs in = strung_line();
  in.span_m = 100;
  in.rise_m = 0;
  in.mass_kg_per_m = 30 / g;
  in.compliance_per_N = {0, 0};
  in.measure = {5000, 5000};
  in.path_from_m = 40;
  in.path_to_m = 90;
  return in;
}

TEST(Stringing, RunsInFivesOfDegreesRoundTheColdestAndWarmestDayWithTheMeasuredOneInItsPlace) {
  std::vector<double> celsius;
  for (const Stringing& row : strung(strung_line()))
    celsius.push_back(std::round((row.temperature_K - freezing_K) * 1e6) / 1e6);
  EXPECT_EQ(celsius, (std::vector<double>{-20, -15, -10, -5, 0, 5, 10, 12, 15, 20, 25, 30, 35}));
  Inputs in = strung_line();
  in.measured_K = freezing_K + 15;
  const auto rows = strung(in);
  EXPECT_EQ(rows.size(), 12u) << "a measured five is not told twice";
  EXPECT_NEAR(measured(rows).temperature_K, freezing_K + 15, 1e-9);
}

// Source R3.08.05 [read; further digits own]: sag 7.941 m, own 7.940537, H 4761.784 N. Half of the last own digit.
TEST(Stringing, AtTheMeasuredTemperatureIsThePublishedCatenary) {
  const Stringing row = measured(strung(published()));
  EXPECT_NEAR(row.tightest.horizontal_N, 4761.784, 5e-4);
  EXPECT_NEAR(row.tightest.sag_m, 7.940537, 5e-7);
  EXPECT_NEAR(row.tightest.start_tension_N, 5000, 1e-6);
  EXPECT_NEAR(row.tightest.end_tension_N, 5000, 1e-6);
  EXPECT_NEAR(row.tightest.greatest_sag_m, row.tightest.sag_m, 1e-12) << "level supports: deepest at mid-span";
}

TEST(Stringing, ShowsWhatWasMeasuredAndIsTheSameLineInEveryRow) {
  const Inputs in = strung_line();
  const auto rows = strung(in);
  const Stringing& as_measured = measured(rows);
  EXPECT_NEAR(as_measured.tightest.end_tension_N, 15e3, 1e-7);
  for (const Stringing& row : rows) {
    const double warmer_K = row.temperature_K - in.measured_K;
    EXPECT_NEAR(row.tightest.cable.unstretched_m / (1 + 12e-6 * warmer_K), as_measured.tightest.cable.unstretched_m,
                1e-11);
    EXPECT_EQ(row.tightest.horizontal_N, row.slackest.horizontal_N) << "nothing is left open";
  }
}

TEST(Stringing, WarmerIsSlackerDeeperAndSlowerInEveryColumn) {
  const auto rows = strung(strung_line());
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const Strung &cold = rows[i - 1].tightest, &warm = rows[i].tightest;
    EXPECT_LT(warm.horizontal_N, cold.horizontal_N);
    EXPECT_LT(warm.start_tension_N, cold.start_tension_N);
    EXPECT_LT(warm.end_tension_N, cold.end_tension_N);
    EXPECT_GT(warm.sag_m, cold.sag_m);
    EXPECT_GT(warm.greatest_sag_m, cold.greatest_sag_m);
    EXPECT_GT(warm.three_returns_s, cold.three_returns_s);
  }
}

TEST(Stringing, TheLineOfSightSetDownByTheGreatestSagJustClearsTheLine) {
  for (const double rise_m : {-60.0, -14.0, 25.0}) {
    Inputs in = strung_line();
    in.rise_m = rise_m;
    const Strung row = measured(strung(in)).tightest;
    const Shape bare = hang(row.cable).value();
    double deepest_m = 0;
    constexpr int samples = 20000;
    for (int i = 1; i < samples; ++i) {
      const double x = in.span_m * i / samples;
      deepest_m = std::max(deepest_m, rise_m * x / in.span_m - line_at(row.cable, bare, x).z_m);
    }
    // Half a sample from the deepest place the line is above it by its curvature w/H at most.
    const double step_m = in.span_m / samples;
    const double above_m = step_m * step_m / 8 * row.cable.weight_N_per_m * 1.1 / row.horizontal_N;
    EXPECT_GE(row.greatest_sag_m, deepest_m - 1e-12);
    EXPECT_LE(row.greatest_sag_m, deepest_m + above_m + 1e-12);
    EXPECT_GT(row.greatest_sag_m, row.sag_m) << "on a slope not at mid-span";
  }
}

// Source WAVE [own]: ds = cosh dx and T = H cosh of an inextensible level line, so 6 passages take 6 sqrt(m/H) times
// the integral of sqrt(cosh(x/c)) over the span, here by Simpson's rule; its error is below 1e-12 of it at this many
// intervals. And the sag is g t2 / (32 n2) for a taut string; of a catenary t2 is too great by 4/3 of the sag over
// span, squared, to the first order, here with twice that as the bound.
TEST(Stringing, AWaveRunsAtTheRootOfTensionOverMass) {
  const Strung row = measured(strung(published())).tightest;
  const double c = row.horizontal_N / 30, m = 30 / g;
  constexpr int intervals = 1000;
  double sum = 0;
  for (int i = 0; i <= intervals; ++i) {
    const double x = -50 + 100.0 * i / intervals;
    sum += (i == 0 || i == intervals ? 1 : i % 2 ? 4 : 2) * std::sqrt(std::cosh(x / c));
  }
  EXPECT_NEAR(row.three_returns_s, 6 * std::sqrt(m / row.horizontal_N) * sum * 100 / intervals / 3, 1e-10);

  const double by_watch_m = g * row.three_returns_s * row.three_returns_s / (32 * 9), over = row.sag_m / 100;
  EXPECT_GT(by_watch_m, row.sag_m);
  EXPECT_LT(by_watch_m, row.sag_m * (1 + 2 * 4 / 3. * over * over));
}

// A line stretched to (1 + T/EA) carries its mass thinner: over a chord of l it takes sqrt(m l (1 + e) / T) of the
// stretched length's mass m l / (1 + e), so sqrt(m/(T (1 + e))) l. Bar-taut, so that it hardly sags: by w2 l2 / 24 H2.
TEST(Stringing, AWaveOnAStretchedLineFeelsItsThinnerMass) {
  Inputs in = published();
  in.compliance_per_N = {1 / 1e6, 1 / 1e6};
  in.measure = {200e3, 200e3};
  in.measured_at = MeasuredAt::horizontal;
  const Strung row = measured(strung(in)).tightest;
  const double e = 200e3 / 1e6, slack = std::pow(30 * 100 / 200e3, 2) / 24;
  const double straight_s = 6 * 100 * std::sqrt(30 / g / (200e3 * (1 + e)));
  EXPECT_NEAR(row.three_returns_s, straight_s, 2 * slack * straight_s);
}

TEST(Stringing, WhatTheLayoutLeavesOpenStandsBetweenTheTightestAndTheSlackestLine) {
  Inputs in = strung_line();
  in.compliance_per_N = {1 / 12e6, 1 / 10e6};
  in.measure = {14e3, 15e3};
  for (const Stringing& row : strung(in)) {
    EXPECT_GT(row.tightest.horizontal_N, row.slackest.horizontal_N);
    for (const double EA : {10e6, 12e6})
      for (const double tension_N : {14e3, 15e3}) {
        Inputs one = in;
        one.compliance_per_N = {1 / EA, 1 / EA};
        one.measure = {tension_N, tension_N};
        for (const Stringing& alone : strung(one)) {
          if (alone.temperature_K != row.temperature_K) continue;
          EXPECT_LE(alone.tightest.horizontal_N, row.tightest.horizontal_N);
          EXPECT_GE(alone.tightest.horizontal_N, row.slackest.horizontal_N);
        }
      }
  }
}

TEST(Stringing, TurnedEndForEndSwapsTheTensionsAndKeepsTheRest) {
  Inputs in = strung_line(), turned = in;
  in.measured_at = turned.measured_at = MeasuredAt::horizontal;
  turned.rise_m = -in.rise_m;
  turned.path_from_m = in.span_m - in.path_to_m;
  turned.path_to_m = in.span_m - in.path_from_m;
  const auto rows = strung(in), other = strung(turned);
  ASSERT_EQ(rows.size(), other.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Strung &a = rows[i].tightest, &b = other[i].tightest;
    EXPECT_NEAR(a.start_tension_N, b.end_tension_N, 1e-6);
    EXPECT_NEAR(a.end_tension_N, b.start_tension_N, 1e-6);
    EXPECT_NEAR(a.sag_m, b.sag_m, 1e-9);
    EXPECT_NEAR(a.greatest_sag_m, b.greatest_sag_m, 1e-9);
    EXPECT_NEAR(a.three_returns_s, b.three_returns_s, 1e-9);
  }
}

// Without stretch a line of 220 m that shrinks by 3 mm/K is shorter than its chord some fifty degrees below.
TEST(Stringing, OfALineThatCannotHangInTheColdSaysWhy) {
  Inputs in = strung_line();
  in.rise_m = 0;
  in.compliance_per_N = {0, 0};
  const MainLine line = solve(in).value();
  in.coldest_K = in.measured_K - 100;
  const auto rows = stringing(in, line);
  ASSERT_FALSE(rows);
  EXPECT_NE(rows.error().why, "");
}

}  // namespace
}  // namespace fairlead::mainline
