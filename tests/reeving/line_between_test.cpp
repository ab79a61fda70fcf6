// The main line between its wheels and supports between two solved shapes, against shapes solved in between. Source
// STEP [own].
#include "geometry/reeving/line_between.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "tests/reeving/line_steps.hpp"

namespace fairlead::reeving {
namespace {

constexpr double unknown = std::numeric_limits<double>::infinity();
using Last = OnTheWay::Last;

/// Where the line is followed: between what is left out at its ends and the wheels, of which a met one counts twice.
std::array<double, 4> ends_m(const mainline::Cable& cable, const mainline::Shape& shape, double start_m, double end_m) {
  return {start_m, shape.wheels[0].x_m, shape.wheels[static_cast<std::size_t>(shape.loads - 1)].x_m,
          cable.span_m - end_m};
}

/// Greatest and least horizontal tension of its pieces, and its greatest slope.
struct Level {
  double least_N = HUGE_VAL, most_N = 0, steepest = 0;
};
Level level_of(const mainline::Cable& cable, const mainline::Shape& shape) {
  Level level;
  for (std::size_t k = 0; k <= static_cast<std::size_t>(shape.loads); ++k) {
    const mainline::Piece& piece = shape.pieces[k];
    level.least_N = std::min(level.least_N, piece.H_N);
    level.most_N = std::max(level.most_N, piece.H_N);
    for (const double V_N : {piece.V_N, piece.V_N - cable.weight_N_per_m * piece.unstretched_m})
      level.steepest = std::max(level.steepest, std::abs(V_N) / piece.H_N);
  }
  return level;
}

struct Seen {
  double stray_m = 0, bulge_per_m2 = 0, level_off_N = 0, steepest = 0;
};
/// Of a step, the line solved at so many shares of it by hung(t), followed at so many points of every part.
template <class Hung>
Seen seen(const mainline::Cable& cable, Hung hung, const LeftOut& left, int shares = 20, int points = 25) {
  const auto ends_at = [&](double t, const mainline::Shape& shape) {
    const auto on = [&](const std::array<double, 2>& m) { return m[0] + t * (m[1] - m[0]); };
    return ends_m(cable, shape, on(left.at_start_m), on(left.at_end_m));
  };
  const mainline::Shape a = hung(0.), b = hung(1.);
  const auto from = ends_at(0, a), to = ends_at(1, b);
  Seen all;
  for (int i = 1; i < shares; ++i) {
    const double t = double(i) / shares;
    const mainline::Shape here = hung(t);
    const Level first = level_of(cable, a), level = level_of(cable, here), last = level_of(cable, b);
    all.level_off_N = std::max({all.level_off_N, (1 - t) * first.least_N + t * last.least_N - level.least_N,
                                level.most_N - (1 - t) * first.most_N - t * last.most_N});
    all.steepest = std::max(all.steepest, level.steepest);
    const auto ends = ends_at(t, here);
    const auto z = [&](const mainline::Shape& shape, double x) {
      return mainline::line_at(cable, shape, std::clamp(x, 0., cable.span_m)).z_m;
    };
    for (std::size_t k = 0; k < 3; ++k) {
      const auto x = [&](const std::array<double, 4>& e, double share) { return e[k] + share * (e[k + 1] - e[k]); };
      for (int n = 0; n <= points; ++n) {
        const double share = double(n) / points;
        const double even = (1 - t) * z(a, x(from, share)) + t * z(b, x(to, share));
        all.stray_m = std::max(all.stray_m, std::abs(z(here, x(ends, share)) - even));
      }
      const double reach = ends[k + 1] - ends[k];
      if (!(reach > 1)) continue;
      const double sag = (z(here, ends[k]) + z(here, ends[k + 1])) / 2 - z(here, x(ends, 0.5));
      all.bulge_per_m2 = std::max(all.bulge_per_m2, sag / (reach * reach));
    }
  }
  return all;
}

TEST(LineBetween, NoPointOfTheLineLeavesTheBoundWhichIsNearTheTrueBend) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double rider_N : {200., 1200.})
      for (const double x : {9., 30., 95., 150., 180., 187.}) {
        const LineWithWheels line{cable, rider_N, 188, 45};
        const double step = longest_step_m(line, x);
        const LeftOut left{{std::min(0.3, x / 2), std::min(0.3, (x + step) / 2)}, {0.3, 0.3}};
        const LineBetween told = line_between(cable, *line.at(x), *line.at(x + step), {Last::weight, {}}, left);
        const Seen most = seen(
            cable, [&](double t) { return *line.at(x + t * step); }, left);
        EXPECT_LE(most.stray_m, told.stray_m) << "x " << x << ", rider " << rider_N;
        EXPECT_LE(told.stray_m, 4.5 * most.stray_m) << "x " << x << ", rider " << rider_N;
        EXPECT_LE(most.bulge_per_m2, told.bulge_per_m2);
        EXPECT_LE(most.level_off_N, told.level_off_N + 1e-7);
        EXPECT_LE(most.steepest, told.steepest);
        EXPECT_LE(told.steepest, 1.2 * most.steepest + 0.01) << "x " << x << ", rider " << rider_N;
        EXPECT_LE(told.bulge_per_m2, 1.4 * most.bulge_per_m2 + 1e-4) << "x " << x << ", rider " << rider_N;
      }
}

TEST(LineBetween, OfAnyLineNoPointLeavesTheBound) {
  std::mt19937_64 random(31);
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  int steps = 0, known = 0;
  while (steps < 300) {
    const auto line = any_line(random);
    if (!line) continue;
    const double near = std::exp(uniform(std::log(1e-3), 0));
    const double x = line->rest_m * (uniform(0, 1) < 0.5 ? near : 1 - near);
    if (!(x > 0.05 && x < line->rest_m - 0.05)) continue;
    ++steps;
    const double step = std::min(line->rest_m - x, uniform(0.2, 1.5) * longest_step_m(*line, x));
    const LeftOut left{{uniform(0, x), uniform(0, x)}, {uniform(0, 1), uniform(0, 1)}};
    const LineBetween told = line_between(line->cable, *line->at(x), *line->at(x + step), {Last::weight, {}}, left);
    known += std::isfinite(told.stray_m) ? 1 : 0;
    const Seen most = seen(
        line->cable, [&](double t) { return *line->at(x + t * step); }, left);
    EXPECT_LE(most.stray_m, told.stray_m) << "x " << x << " of " << line->rest_m;
    EXPECT_LE(most.bulge_per_m2, told.bulge_per_m2 * (1 + 1e-9));
    EXPECT_LE(most.level_off_N, told.level_off_N + 1e-7);
    if (std::isfinite(told.stray_m)) {
      EXPECT_LE(most.steepest, told.steepest * (1 + 1e-9));
    }
  }
  EXPECT_GT(known, 270) << "nine in ten are told at one go";
}

// Trolley and rider as one, under a weight of which nothing is told but what the wheel's height is off by.
TEST(LineBetween, OfOneWheelOfKnownHeightNoPointLeavesTheBound) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double x : {60., 188., 203.}) {
      const auto hung = [&](double t) {
        const mainline::Load load{x + 0.4 * t, 900 + 60 * t + 20 * std::sin(3 * t)};
        return *mainline::hang_rolling(cable, {&load, 1});
      };
      const mainline::Shape a = hung(0), b = hung(1);
      double bend_m = 0;
      for (int i = 1; i < 100; ++i)
        bend_m = std::max(bend_m, std::abs(hung(i / 100.).wheels[0].z_m - a.wheels[0].z_m * (1 - i / 100.) -
                                           b.wheels[0].z_m * (i / 100.)));
      const LineBetween told = line_between(cable, a, b, {Last::height, {1.01 * bend_m, 0}}, {{100, 100}, {}});
      const Seen most = seen(cable, hung, {{100, 100}, {}});
      EXPECT_LE(most.stray_m, told.stray_m) << "x " << x;
      EXPECT_LE(told.stray_m, 12 * most.stray_m) << "x " << x;
    }
}

// With a wheel that goes straight from place to place nothing but the line's own bending is left.
TEST(LineBetween, OnBothSidesOfAWheelThatGoesStraightTheLineBendsAsTold) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double x : {60., 110., 188.}) {
      const auto of_weight = [&](double at_m, double weight_N) {
        const mainline::Load load{at_m, weight_N};
        return *mainline::hang_rolling(cable, {&load, 1});
      };
      const mainline::Shape a = of_weight(x, 900), b = of_weight(x + 2, 960);
      const auto hung = [&](double t) {
        if (t == 0 || t == 1) return t == 0 ? a : b;
        const double z = (1 - t) * a.wheels[0].z_m + t * b.wheels[0].z_m;
        double light = 700, heavy = 1200;  // the heavier, the lower
        for (int i = 0; i < 60; ++i) {
          const double weight = (light + heavy) / 2;
          (of_weight(x + 2 * t, weight).wheels[0].z_m > z ? light : heavy) = weight;
        }
        return of_weight(x + 2 * t, light);
      };
      const LineBetween told = line_between(cable, a, b, {Last::height, {}});
      const Seen most = seen(cable, hung, {}, 10);
      EXPECT_LE(most.stray_m, told.stray_m) << "x " << x;
      EXPECT_LE(told.stray_m, 20 * most.stray_m) << "x " << x << ", the inextensible one at the end";
    }
}

// The trolley's height is all that is known of it, and the rider's weight; until the two wheels meet.
TEST(LineBetween, OfARiderAndATrolleyOfKnownHeightNoPointLeavesTheBound) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double rider_N : {200., 1200.})
      for (const double before_m : {0., 0.5, 6.})
        for (const double step : {0.05, 0.25, 0.5}) {
          const auto hung = [&](double t) {
            const LineWithWheels line{cable, rider_N, 188, 45 - 3 * t + std::sin(3 * t)};
            return *line.at(t < 1 || before_m > 0 ? 188 - before_m - step * (1 - t) : 188);
          };
          const mainline::Shape a = hung(0), b = hung(1);
          const auto z = [](const mainline::Shape& shape) { return shape.wheels[std::size_t(shape.loads) - 1].z_m; };
          double bend_m = 0;
          for (int i = 1; i < 100; ++i) {
            const double t = i / 100.;
            bend_m = std::max(bend_m, std::abs(z(hung(t)) - (1 - t) * z(a) - t * z(b)));
          }
          const LineBetween told = line_between(cable, a, b, {Last::height, {0, 1.01 * bend_m}});
          const Seen most = seen(cable, hung, {}, 50);
          EXPECT_LE(most.stray_m, told.stray_m) << before_m << " " << step;
          EXPECT_LE(told.stray_m, 12 * most.stray_m + 1e-8) << before_m << " " << step;
          EXPECT_LE(most.bulge_per_m2, told.bulge_per_m2);
        }
}

TEST(LineBetween, TheBoundShrinksWithTheSquareOfTheStep) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double x : {20., 95., 170.}) {
      const LineWithWheels line{cable, 900, 188, 45};
      const auto stray_m = [&](double step) {
        return line_between(cable, *line.at(x), *line.at(x + step), {Last::weight, {}}, {{0.3, 0.3}, {0.3, 0.3}})
            .stray_m;
      };
      EXPECT_NEAR(stray_m(0.25) / stray_m(0.5), 0.25, 0.02);
      EXPECT_NEAR(stray_m(0.125) / stray_m(0.25), 0.25, 0.01);
    }
}

TEST(LineBetween, AnEmptyLineStandsStill) {
  const mainline::Cable cable = worked_cable();
  const mainline::Load trolley{188, 45};
  const mainline::Shape empty = *mainline::hang_rolling(cable, {&trolley, 1});
  EXPECT_LT(line_between(cable, empty, empty, {Last::height, {}}, {{150, 150}, {}}).stray_m, 1e-7);
}

TEST(LineBetween, WhatIsNotKnownIsInfinite) {
  const LineWithWheels line{worked_cable(), 900, 188, 45};
  const mainline::Shape a = *line.at(90), b = *line.at(91);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const OnTheWay weights{Last::weight, {}};
  ASSERT_LT(line_between(line.cable, a, b, weights).stray_m, 1e-3);
  const auto told = [&](const mainline::Shape& from, const mainline::Shape& to, const OnTheWay& way,
                        const LeftOut& left = {}) { return line_between(line.cable, from, to, way, left).stray_m; };
  EXPECT_EQ(told(*line.at(5), *line.at(150), weights), unknown);
  EXPECT_EQ(told(*line.at(188), *line.at(187.9), {Last::height, {}}), unknown);
  EXPECT_EQ(told(a, b, {Last::height, {unknown, 0}}), unknown);
  EXPECT_EQ(told(a, b, {Last::height, {0, nan}}), unknown);
  EXPECT_FALSE(told(a, b, weights, {{nan, 0}, {}}) < unknown);
  EXPECT_FALSE(told(a, b, weights, {{}, {0, nan}}) < unknown);
  for (double mainline::Piece::*of :
       {&mainline::Piece::unstretched_m, &mainline::Piece::H_N, &mainline::Piece::V_N, &mainline::Piece::x_m})
    for (const int piece : {0, 1, 2}) {
      mainline::Shape bad = b;
      bad.pieces[piece].*of = nan;
      if (of == &mainline::Piece::unstretched_m && piece == 2) continue;  // what the others leave of the line
      EXPECT_FALSE(told(a, bad, weights) < unknown) << piece;
      EXPECT_FALSE(told(bad, b, weights) < unknown) << piece;
    }
  for (double mainline::Cable::*of :
       {&mainline::Cable::span_m, &mainline::Cable::rise_m, &mainline::Cable::unstretched_m,
        &mainline::Cable::weight_N_per_m, &mainline::Cable::compliance_per_N}) {
    mainline::Cable bad = line.cable;
    bad.*of = nan;
    EXPECT_FALSE(line_between(bad, a, b, weights).stray_m < unknown);
  }
}

}  // namespace
}  // namespace fairlead::reeving
