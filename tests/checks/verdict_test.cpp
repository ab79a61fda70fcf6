#include <gtest/gtest.h>

#include <limits>

#include "geometry/checks/check.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

std::optional<Limit> limit(double at) { return Limit{Real{at, {}}, "test"}; }

TEST(Verdict, PassesOnlyWhenTheBoundIsOnTheSafeSide) {
  EXPECT_EQ(at_most({1.0, 1.5}, limit(2)), Verdict::pass);
  EXPECT_EQ(at_most({2.0, 2.0}, limit(2)), Verdict::pass) << "a limit may be reached";
  EXPECT_EQ(at_most({1.9, 2.1}, limit(2)), Verdict::undetermined) << "the gap between two poses may hide a failure";
  EXPECT_EQ(at_most({2.1, 2.2}, limit(2)), Verdict::fail);
  EXPECT_EQ(at_least({3.0, 2.5}, limit(2)), Verdict::pass);
  EXPECT_EQ(at_least({2.1, 1.9}, limit(2)), Verdict::undetermined);
  EXPECT_EQ(at_least({1.9, 1.8}, limit(2)), Verdict::fail);
}

TEST(Verdict, WithoutALimitNothingIsJudged) {
  EXPECT_EQ(at_most({0, 0}, std::nullopt), Verdict::not_judged);
  EXPECT_EQ(at_least({0, 0}, std::nullopt), Verdict::not_judged);
}

TEST(Verdict, NothingUnknownPasses) {
  for (const double value : {nan, infinity, -infinity})
    for (const double bound : {nan, infinity, -infinity}) {
      if (value == bound && std::isfinite(value)) continue;
      const bool at_most_may_pass = value == -infinity && bound == -infinity;
      EXPECT_EQ(at_most({value, bound}, limit(2)) == Verdict::pass, at_most_may_pass) << value << ", " << bound;
      const bool at_least_may_pass = value == infinity && bound == infinity;
      EXPECT_EQ(at_least({value, bound}, limit(2)) == Verdict::pass, at_least_may_pass) << value << ", " << bound;
    }
  EXPECT_EQ(at_most({1, 1}, limit(nan)), Verdict::undetermined);
  EXPECT_EQ(at_least({1, 1}, limit(nan)), Verdict::undetermined);
  EXPECT_EQ(at_most({1, infinity}, limit(2)), Verdict::undetermined);
}

TEST(Verdict, ABoundBelowItsOwnValueIsNoBound) {
  EXPECT_EQ(at_most({1.5, 1.0}, limit(2)), Verdict::undetermined);
  EXPECT_EQ(at_least({2.5, 3.0}, limit(2)), Verdict::undetermined);
}

reeving::Reeving two_sweeps(Extreme first, Extreme second) {
  reeving::Reeving reeving;
  reeving.sweeps.resize(2);
  reeving.sweeps[0].lead_rad = first;
  reeving.sweeps[1].lead_rad = second;
  for (reeving::Sweep& sweep : reeving.sweeps) {
    sweep.poses.resize(3);
    for (int i = 0; i < 3; ++i) sweep.poses[static_cast<std::size_t>(i)].travel_m = i;
  }
  return reeving;
}

TEST(WorstOfSweeps, TakesTheWorstValueAndTheWidestBoundOfAllSweeps) {
  const auto reeving = two_sweeps({0.3, 0.5, 1}, {0.4, 0.45, 2});
  const auto worst = worst_of_sweeps(reeving, Sense::greatest, &reeving::Sweep::lead_rad);
  EXPECT_EQ(worst.extreme.value, 0.4);
  EXPECT_EQ(worst.extreme.bound, 0.5);
  EXPECT_EQ(worst.sweep, 1);
  EXPECT_EQ(worst.travel_m, 2.0);
  const auto least =
      worst_of_sweeps(two_sweeps({0.3, 0.1, 1}, {0.2, 0.15, 0}), Sense::least, &reeving::Sweep::lead_rad);
  EXPECT_EQ(least.extreme.value, 0.2);
  EXPECT_EQ(least.extreme.bound, 0.1);
}

TEST(WorstOfSweeps, OneUnknownSweepMakesTheWholeUnknown) {
  for (const Extreme unknown : {Extreme{nan, 0.1, 0}, Extreme{0.1, nan, 0}, Extreme{infinity, infinity, 0}})
    for (const bool first : {true, false}) {
      const Extreme known{0.2, 0.3, 0};
      const auto reeving = first ? two_sweeps(unknown, known) : two_sweeps(known, unknown);
      const auto worst = worst_of_sweeps(reeving, Sense::greatest, &reeving::Sweep::lead_rad);
      EXPECT_EQ(at_most(worst.extreme, limit(10)), Verdict::undetermined);
    }
  EXPECT_EQ(at_most(worst_of_sweeps(reeving::Reeving{}, Sense::greatest, &reeving::Sweep::lead_rad).extreme, limit(10)),
            Verdict::undetermined)
      << "no sweep at all is no pass";
}

TEST(ExitStatus, IsZeroOnlyWhenEveryFindingPassedOrIsWaived) {
  Finding pass{.verdict = Verdict::pass}, fail{.verdict = Verdict::fail}, waived{.verdict = Verdict::fail};
  waived.waiver = 0;
  const Finding open{.verdict = Verdict::undetermined}, unjudged{.verdict = Verdict::not_judged};
  const auto status = [](std::vector<Finding> findings) { return exit_status(findings); };
  EXPECT_EQ(status({pass, waived}), 0);
  EXPECT_EQ(status({pass, fail}), 1);
  EXPECT_EQ(status({pass, open}), 1);
  EXPECT_EQ(status({pass, unjudged}), 1);
  EXPECT_EQ(status({}), 1) << "nothing judged is nothing cleared";
}

}  // namespace
}  // namespace fairlead
