// Where a side wind may carry main line and rider between two solved poses, against the same formulas at poses solved
// in between. Source STEP [own].
#include "geometry/clearance/blown.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/reeving/line_steps.hpp"

namespace fairlead::clearance {
namespace {

using reeving::any_line, reeving::lines_of_all_kinds, reeving::longest_step_m, reeving::LineWithWheels;

constexpr SideWind strong{.line_N_per_m = 3, .rider_N = 160, .trolley_N = 12, .lean_rad = 0.1};

/// A rider rolling toward the resting trolley in a side wind.
struct Roll {
  Inputs in;
  reeving::Inputs rig;
  reeving::SweepInputs given;
  reeving::Sweep sweep;
  LineWithWheels line;
  SideWind wind;

  Roll(const LineWithWheels& rolling, const SideWind& blows) : line(rolling), wind(blows) {
    rig.along = {1, 0, 0};
    given.state.cable = line.cable;
    given.rider_weight_N = line.rider_N;
    given.trolley_weight_N = line.trolley_N;
  }
  Blown at(double x_m, double steepest = 0) const {
    reeving::Pose pose;
    pose.rider = rig.origin + x_m * rig.along;
    pose.trolley = rig.origin + line.rest_m * rig.along;
    return Blown({in, rig, given, sweep, 0, 1, wind}, pose, *line.at(x_m), steepest);
  }
};

struct Step {
  double over_m, true_over_m;
};
/// Over a step of the rider's, of points that keep their share between supports and wheels.
Step over(const Roll& roll, double from_m, double to_m, int shares = 24, int points = 12) {
  const reeving::LineBetween told = reeving::line_between(roll.line.cable, *roll.line.at(from_m), *roll.line.at(to_m),
                                                          {reeving::OnTheWay::Last::weight, {}});
  const Blown from = roll.at(from_m, told.steepest), to = roll.at(to_m, told.steepest);
  const BlownBetween between(from, to, told);
  Step most{0, 0};
  for (int k = 0; k < 3; ++k)
    for (int n = 0; n <= points; ++n) {
      const auto x = [&](double rider_m) {
        const double ends_m[] = {0, rider_m, roll.line.rest_m, roll.line.cable.span_m};
        return ends_m[k] + (ends_m[k + 1] - ends_m[k]) * n / points;
      };
      const double told_m = between.over_m(x(from_m), x(to_m));
      most.over_m = greater(most.over_m, told_m);
      for (int i = 1; i < shares; ++i) {
        const double t = double(i) / shares, rider_m = from_m + t * (to_m - from_m);
        const double even_m = (1 - t) * from.aside_m(x(from_m)) + t * to.aside_m(x(to_m));
        const double true_m = roll.at(rider_m).aside_m(x(rider_m)) - even_m;
        most.true_over_m = std::max(most.true_over_m, true_m);
        EXPECT_LE(true_m, told_m + 1e-9) << "rider at " << rider_m << ", part " << k << ", point " << n;
      }
    }
  return most;
}

TEST(BlownBetween, NoPointIsFartherAsideThanTheBound) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double rider_N : {200., 1200.})
      for (const double x : {9., 30., 95., 150., 180., 187.}) {
        const Roll roll({cable, rider_N, 188, 45}, strong);
        EXPECT_TRUE(std::isfinite(over(roll, x, x + longest_step_m(roll.line, x)).over_m)) << x;
      }
}

// Wind on the line itself is counted at the step's steepest slope, at both ends too, and hides how near the rest is.
TEST(BlownBetween, OfWindOnTheWheelsTheBoundIsNearTheTruth) {
  for (const double rider_N : {200., 1200.})
    for (const double x : {30., 95., 150., 187.}) {
      const Roll roll({reeving::worked_cable(), rider_N, 188, 45}, {.rider_N = 160, .trolley_N = 12});
      const Step step = over(roll, x, x + longest_step_m(roll.line, x));
      EXPECT_GT(step.true_over_m, 0) << "rider of " << rider_N << " N at " << x;
      EXPECT_LE(step.over_m, 3 * step.true_over_m) << "rider of " << rider_N << " N at " << x;
    }
}

TEST(BlownBetween, OfAnyLineNoPointIsFartherAsideThanTheBound) {
  std::mt19937_64 random(47);
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  int steps = 0, known = 0;
  while (steps < 200) {
    const auto line = any_line(random);
    if (!line) continue;
    const double x = line->rest_m * uniform(0.01, 0.99);
    ++steps;
    const SideWind wind{uniform(0, 0.5) * line->cable.weight_N_per_m, uniform(0, 0.5) * line->rider_N,
                        uniform(0, 0.5) * line->trolley_N, 0};
    const Step step = over({*line, wind}, x, x + longest_step_m(*line, x), 8, 4);
    known += std::isfinite(step.over_m) ? 1 : 0;
  }
  EXPECT_GT(known, 180) << "nine in ten are told at one go";
}

TEST(BlownBetween, TheBoundShrinksWithTheSquareOfTheStep) {
  const Roll roll({reeving::worked_cable(), 1200, 188, 45}, strong);
  for (const double x : {30., 150.}) {
    const double whole_m = over(roll, x, x + 1).over_m, half_m = over(roll, x, x + 0.5).over_m;
    EXPECT_GT(whole_m, 1e-5) << "there is something to shrink";
    EXPECT_LT(half_m, 0.3 * whole_m) << x;
  }
}

TEST(BlownBetween, WithoutWindNothingIsAside) {
  const Roll roll({reeving::worked_cable(), 1200, 188, 45}, {});
  EXPECT_EQ(over(roll, 100, 101).over_m, 0);
}

TEST(BlownBetween, WhereNothingIsProvenOfTheLineTheBoundIsInfinite) {
  const Roll roll({reeving::worked_cable(), 1200, 188, 45}, strong);
  const Blown from = roll.at(100), to = roll.at(101);
  EXPECT_EQ(BlownBetween(from, to, {HUGE_VAL, HUGE_VAL, HUGE_VAL, 0}).over_m(0, 0), HUGE_VAL);
}

}  // namespace
}  // namespace fairlead::clearance
