// Rider's wheel and the trolley's between two solved places, against the line solved densely in between. Source
// STEP [own].
#include "geometry/reeving/wheels_between.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "tests/reeving/line_steps.hpp"

namespace fairlead::reeving {
namespace {

constexpr double unknown = std::numeric_limits<double>::infinity();

TEST(WheelsBetween, NoPlaceBetweenLeavesTheBoundWhichIsNearTheTrueBend) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double rider_N : {200., 1200.})
      for (const double x : {9., 30., 95., 150., 180., 187., 187.9}) {
        const LineWithWheels line{cable, rider_N, 188, 45};
        const double to = x + longest_step_m(line, x);
        const std::array<double, 2> stray = wheels_between(cable, *line.at(x), *line.at(to)).wheel_m;
        const std::array<double, 2> bend = bends_m(line, x, to, 300);
        for (int k = 0; k < 2; ++k) EXPECT_LE(bend[k], stray[k]) << "x " << x << ", wheel " << k;
        // Else a bound that a fifth would do for passes as well.
        EXPECT_LE(stray[0], 2.5 * bend[0] + 5e-9) << "x " << x << ", rider " << rider_N;
        EXPECT_LE(stray[1], 2.5 * bend[1] + 1.5 * bend[0] + 5e-9) << "x " << x << ", rider " << rider_N;
      }
}

TEST(WheelsBetween, OfAnyLineNoPlaceBetweenLeavesTheBound) {
  std::mt19937_64 random(21);
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  int steps = 0, known = 0;
  while (steps < 600) {
    const auto line = any_line(random);
    if (!line) continue;
    // Near the start, near the trolley and anywhere; steps as they are taken and longer.
    const double near = std::exp(uniform(std::log(1e-3), 0));
    const double x = line->rest_m * (uniform(0, 1) < 0.5 ? near : 1 - near);
    if (!(x > 0.05 && x < line->rest_m - 0.05)) continue;
    const double to = std::min(line->rest_m, x + uniform(0.2, 2) * longest_step_m(*line, x));
    const auto a = line->at(x), b = line->at(to);
    ASSERT_TRUE(a && b);
    const std::array<double, 2> stray = wheels_between(line->cable, *a, *b).wheel_m;
    ++steps;
    known += std::isfinite(stray[0] + stray[1]) ? 1 : 0;
    const std::array<double, 2> bend = bends_m(*line, x, to, 100);
    for (int k = 0; k < 2; ++k) EXPECT_LE(bend[k], stray[k]) << "x " << x << " of " << line->rest_m;
  }
  EXPECT_GT(known, 540) << "nine in ten are told at one go";
}

// Until the rider's wheel is where the trolley's is.
TEST(WheelsBetween, AsTheyMeetNoPlaceLeavesTheBound) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double rider_N : {200., 1200.})
      for (const double step_m : {0.02, 0.25, 1.}) {
        const LineWithWheels line{cable, rider_N, 188, 45};
        const auto stray = wheels_between(cable, *line.at(188 - step_m), *line.at(188)).wheel_m;
        const auto bend = bends_m(line, 188 - step_m, 188);
        for (int k = 0; k < 2; ++k) {
          EXPECT_LE(bend[k], stray[k]) << step_m;
          EXPECT_LE(stray[k], 2.5 * bend[k] + 1.5 * bend[0] + 5e-9) << step_m;
        }
      }
}

// Twice as fine, a quarter, and what is left of third order.
TEST(WheelsBetween, TheBoundShrinksWithTheSquareOfTheStep) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double x : {20., 95., 170.}) {
      const LineWithWheels line{cable, 900, 188, 45};
      const auto stray_m = [&](double step_m) {
        return wheels_between(cable, *line.at(x), *line.at(x + step_m)).wheel_m[0];
      };
      EXPECT_NEAR(stray_m(0.25) / stray_m(0.5), 0.25, 0.02);
      EXPECT_NEAR(stray_m(0.125) / stray_m(0.25), 0.25, 0.01);
    }
}

TEST(WheelsBetween, MirroredTheyStrayAlike) {
  for (mainline::Cable cable : lines_of_all_kinds()) {
    const auto hung = [&](double x, double y, double first_N, double second_N) {
      const mainline::Load loads[] = {{x, first_N}, {y, second_N}};
      return *mainline::hang_rolling(cable, loads);
    };
    const auto there = wheels_between(cable, hung(70, 188, 900, 45), hung(71, 188, 900, 45)).wheel_m;
    const mainline::Cable line = cable;
    cable.rise_m = -cable.rise_m;
    const auto back = wheels_between(cable, hung(line.span_m - 188, line.span_m - 70, 45, 900),
                                     hung(line.span_m - 188, line.span_m - 71, 45, 900))
                          .wheel_m;
    // The unknowns are not the same from the other end, so what the bound is over the bend is not either.
    EXPECT_NEAR(there[0], back[1], 0.1 * there[0]);
    EXPECT_NEAR(there[1], back[0], 0.1 * there[1]);
  }
}

// Weights that leave their even change by what is said: everywhere between, in both directions.
TEST(WheelsBetween, WeightsMayBeOffAsTold) {
  for (const mainline::Cable& cable : lines_of_all_kinds()) {
    const std::array<double, 2> off_N{3, 5}, from_N{900, 45}, to_N{950, 41};
    const auto at = [&](double t, double first_off, double second_off) {
      const mainline::Load loads[] = {{95 + 0.5 * t, from_N[0] + t * (to_N[0] - from_N[0]) + first_off},
                                      {188, from_N[1] + t * (to_N[1] - from_N[1]) + second_off}};
      return *mainline::hang_rolling(cable, loads);
    };
    const mainline::Shape a = at(0, 0, 0), b = at(1, 0, 0);
    const auto stray = wheels_between(cable, a, b, off_N).wheel_m;
    const auto exact = wheels_between(cable, a, b).wheel_m;
    double most = 0;
    for (const double t : {0.1, 0.3, 0.5, 0.7, 0.9})
      for (const double first : {-1., 0., 1.})
        for (const double second : {-1., 0., 1.}) {
          const mainline::Shape here = at(t, first * off_N[0], second * off_N[1]);
          for (int k = 0; k < 2; ++k) {
            const double bend = std::abs(here.wheels[k].z_m - (1 - t) * a.wheels[k].z_m - t * b.wheels[k].z_m);
            EXPECT_LE(bend, stray[k]);
            if (first == 0 && second == 0) {
              EXPECT_LE(bend, exact[k]);
            }
            if (k == 0) most = std::max(most, bend);
          }
        }
    EXPECT_LT(stray[0], 1.3 * most);
  }
}

TEST(WheelsBetween, AWheelThatStandsAloneUnderAWeightStaysWhereItIs) {
  const mainline::Cable cable = worked_cable();
  const mainline::Load trolley{188, 45};
  const mainline::Shape empty = *mainline::hang_rolling(cable, {&trolley, 1});
  EXPECT_LT(wheels_between(cable, empty, empty).wheel_m[0], 1e-8);
  const mainline::Load on{188.5, 45};
  const mainline::Shape moved = *mainline::hang_rolling(cable, {&on, 1});
  const double stray_m = wheels_between(cable, empty, moved).wheel_m[0];
  double bend_m = 0;
  for (int i = 1; i < 100; ++i) {
    const mainline::Load at{188 + 0.005 * i, 45};
    const double z = mainline::hang_rolling(cable, {&at, 1})->wheels[0].z_m;
    bend_m =
        std::max(bend_m, std::abs(z - empty.wheels[0].z_m - 0.01 * i * (moved.wheels[0].z_m - empty.wheels[0].z_m)));
  }
  EXPECT_LE(bend_m, stray_m);
  EXPECT_LE(stray_m, 1.5 * bend_m);
}

TEST(WheelsBetween, WhatIsNotKnownIsInfinite) {
  const LineWithWheels line{worked_cable(), 900, 188, 45};
  const mainline::Shape a = *line.at(90), b = *line.at(91);
  const auto expect_unknown = [](const WheelsStray& stray, const char* why) {
    EXPECT_EQ(stray.wheel_m[0], unknown) << why;
    EXPECT_EQ(stray.wheel_m[1], unknown) << why;
  };
  ASSERT_LT(wheels_between(line.cable, a, b).wheel_m[0], 1e-3);
  expect_unknown(wheels_between(line.cable, *line.at(5), *line.at(150)), "at one go");
  expect_unknown(wheels_between(line.cable, *line.at(188), *line.at(187)), "of one wheel two");
  expect_unknown(wheels_between(line.cable, *mainline::hang(line.cable), *mainline::hang(line.cable)), "no wheel");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (double mainline::Wheel::*of :
       {&mainline::Wheel::x_m, &mainline::Wheel::z_m, &mainline::Wheel::tension_N, &mainline::Wheel::force_z_N})
    for (const int wheel : {0, 1}) {
      mainline::Shape bad = a;
      bad.wheels[wheel].*of = nan;
      if (of == &mainline::Wheel::tension_N && wheel == 1) continue;  // told by the first
      expect_unknown(wheels_between(line.cable, bad, b), "from");
      bad.wheels[wheel].*of = unknown;
      expect_unknown(wheels_between(line.cable, bad, b), "from");
      bad = b;
      bad.wheels[wheel].*of = nan;
      expect_unknown(wheels_between(line.cable, a, bad), "to");
    }
  for (const int piece : {0, 1}) {
    mainline::Shape bad = b;
    bad.pieces[piece].unstretched_m = nan;
    expect_unknown(wheels_between(line.cable, a, bad), "length");
  }
  for (double mainline::Cable::*of :
       {&mainline::Cable::span_m, &mainline::Cable::rise_m, &mainline::Cable::unstretched_m,
        &mainline::Cable::weight_N_per_m, &mainline::Cable::compliance_per_N}) {
    mainline::Cable bad = line.cable;
    bad.*of = nan;
    expect_unknown(wheels_between(bad, a, b), "cable");
  }
  expect_unknown(wheels_between(line.cable, a, b, {nan, 0}), "weights");
  expect_unknown(wheels_between(line.cable, a, b, {0, unknown}), "weights");
}

// A pose that is none: the bound holds what it is off by.
TEST(WheelsBetween, WhatThePosesMissByCounts) {
  const LineWithWheels line{worked_cable(), 900, 188, 45};
  const mainline::Shape a = *line.at(90), b = *line.at(91);
  mainline::Shape off = b;
  off.wheels[0].z_m += 1e-3;
  EXPECT_GE(wheels_between(line.cable, a, off).wheel_m[0], 1e-3);
}

}  // namespace
}  // namespace fairlead::reeving
