// The calculation by hand against the solver, and its printed numbers against a pocket calculator.
#include "geometry/studies/calculation.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "geometry/studies/expression.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead {
namespace {

const std::vector<Calculation>& calculations() {
  static const std::vector<Calculation> all = [] {
    std::vector<Calculation> made;
    for (const std::string& file : shipped_layouts()) made.push_back(calculation(solve(shipped_layout(file))).value());
    return made;
  }();
  return all;
}

// Source: HAND.
TEST(Calculation, EveryStepMeetsTheSolverWithinWhatRoundingCanAmountTo) {
  for (const Calculation& all : calculations()) {
    int compared = 0;
    for (const CalculationStep& step : all.steps) {
      if (!step.solver) continue;
      ++compared;
      EXPECT_LE(std::abs(step.result.value - *step.solver), step.tolerance) << step.title << ": " << step.formula;
      // Tight enough that a wrong step shows: a hundredth of the number, or a newton or joule.
      EXPECT_LE(step.tolerance, std::max(0.02 * std::abs(*step.solver), 3.0)) << step.title;
    }
    EXPECT_GE(compared, 6);
  }
}

TEST(Calculation, WorksOutTheArrivalByEnergyAndTheFirstDeceleration) {
  for (std::size_t i = 0; i < calculations().size(); ++i) {
    const std::string file = shipped_layouts()[i];
    const auto compared = [&](const std::string& title) {
      for (const CalculationStep& step : calculations()[i].steps)
        if (step.title.starts_with(title)) return step.solver.has_value();
      return false;
    };
    EXPECT_EQ(compared("Arrival speed by energy"), shipped_layout(file).approach.has_value()) << file;
    EXPECT_TRUE(compared("First deceleration")) << file;
  }
}

TEST(Calculation, ThePrintedNumbersGiveThePrintedResult) {
  for (const Calculation& all : calculations())
    for (const CalculationStep& step : all.steps) {
      for (const Figure& input : step.inputs) {
        EXPECT_EQ(std::stod(input.text()), input.value) << step.title;
        EXPECT_NE(step.put_in.find(input.text()), std::string::npos) << step.title << ": " << input.symbol;
      }
      EXPECT_EQ(step.put_in.find('{'), std::string::npos) << step.put_in;
      // Half the last printed digit, and rounding of the binary number.
      const double half = 0.5 * std::pow(10, -step.result.decimals);
      EXPECT_NEAR(evaluate(step.put_in), step.result.value, half * (1 + 1e-9)) << step.put_in;
    }
}

TEST(Calculation, OneAnchorIsResolvedAndItsForcesAddUp) {
  int resolved = 0;
  for (const Calculation& all : calculations()) {
    if (!all.anchor) continue;
    ++resolved;
    Vec3 sum;
    for (const AnchorForce& force : all.anchor->forces) {
      sum = sum + force.force_N;
      // Three components of four decimals.
      EXPECT_NEAR(norm(force.direction), 1, 1e-4);
    }
    EXPECT_NEAR(norm(sum - all.anchor->sum_N), 0, 1e-9);
    EXPECT_LE(norm(all.anchor->sum_N - all.anchor->solver_N), std::sqrt(3) * all.anchor->tolerance_N);
    EXPECT_LE(all.anchor->tolerance_N, 0.01 * norm(all.anchor->solver_N));
  }
  EXPECT_GE(resolved, 1);
}

TEST(Expression, IsWorkedOutAsAPocketCalculatorDoesIt) {
  EXPECT_EQ(evaluate("2 + 3 * 4"), 14);
  EXPECT_EQ(evaluate("2 - 3 - 4"), -5);
  EXPECT_EQ(evaluate("8 / 4 / 2"), 1);
  EXPECT_EQ(evaluate("2 * 3^2"), 18);
  EXPECT_EQ(evaluate("(2 + 3)^2 / 5"), 5);
  EXPECT_EQ(evaluate("(-1.5) * 2"), -3);
  EXPECT_EQ(evaluate("sqrt(9) + 1"), 4);
  EXPECT_NEAR(evaluate("sin(30) + cos(60)"), 1, 1e-15);
  EXPECT_NEAR(evaluate("acos(0.5)"), 60, 1e-12);
  for (const char* wrong : {"", "2 +", "(2", "2 3", "x", "2 * * 3"}) EXPECT_TRUE(std::isnan(evaluate(wrong))) << wrong;
}

}  // namespace
}  // namespace fairlead
