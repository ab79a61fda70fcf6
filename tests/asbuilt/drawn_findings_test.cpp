// Draws told straight from a few exact ones: what may be told so, and that nothing passes which exact draws do not
// show.
#include "geometry/asbuilt/drawn_findings.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <cmath>

namespace fairlead {
namespace {

/// A finding that passes where `left` is not negative, without a gap.
Standing standing(double left) {
  return {.verdict = left >= 0 ? Verdict::pass : Verdict::fail, .value_left = left, .bound_left = left};
}

double upper_tail(double x) { return std::erfc(x / std::sqrt(2.0)) / 2; }

constexpr FindingDraws many{.draws = 10000, .seed = 3, .numbers = 4, .linear = true};

Conformity of(const std::function<Standing(const std::vector<double>&)>& one, const FindingDraws& terms = many) {
  return finding_draws([&](const std::vector<double>& z) { return std::vector<Standing>{one(z)}; }, terms).at(0);
}

double plane(const std::vector<double>& z) { return 0.3 * z[0] - 0.5 * z[1] + 1.1 * z[3]; }
const double plane_u = std::sqrt(0.09 + 0.25 + 1.21);

// A linear number's share is that of a normal number, to four and a half standard deviations of a count.
TEST(FindingDraws, AStraightFindingHasTheShareOfANormalNumber) {
  for (const double reserve : {-1.0, 0.5, 2.0}) {
    const Conformity c = of([&](const auto& z) { return standing(reserve * plane_u + plane(z)); });
    const double share = upper_tail(-reserve);
    EXPECT_NEAR(c.passes / 1e4, share, 4.5 * std::sqrt(share * (1 - share) / 1e4)) << reserve;
    EXPECT_EQ(c.passes + c.fails, c.draws) << reserve;
    EXPECT_EQ(c.draws, 10000);
    EXPECT_EQ(c.exact, linear_exact_draws);
    ASSERT_TRUE(c.linear_within);
    EXPECT_LT(*c.linear_within, 1e-9);
  }
}

TEST(FindingDraws, StraightDrawsAreTheVeryDrawsThatAreJudgedExactly) {
  const auto one = [](const auto& z) { return standing(1.2 + plane(z)); };
  const Conformity exact = of(one, {.draws = 2000, .seed = 3, .numbers = 4});
  const Conformity straight = of(one, {.draws = 2000, .seed = 3, .numbers = 4, .linear = true});
  EXPECT_EQ(straight.passes, exact.passes);
  EXPECT_EQ(exact.exact, 2000);
  EXPECT_FALSE(exact.linear_within);
  // Not more is shown than by the exact ones.
  EXPECT_LT(straight.pass_at_least, exact.pass_at_least);
}

// A finding that every draw passes is shown to pass; CP34: 0.025^(1/10000) less what 100 exact draws leave open,
// 1 - 0.025^(1/100) = 0.03622.
TEST(FindingDraws, WhatTheExactDrawsLeaveOpenIsTakenOffTheShareShown) {
  const Conformity c = of([](const auto& z) { return standing(50 + plane(z)); });
  EXPECT_EQ(c.passes, 10000);
  EXPECT_NEAR(c.pass_at_least, std::pow(0.025, 1e-4) - 0.03622, 5e-6);
  EXPECT_GE(c.pass_at_least, asked_share);
}

// Never a pass that exact draws would not give: over findings that bend, fold and jump, near their limits and not. What
// is not told straight has just what its exact draws show.
TEST(FindingDraws, NoShareShownIsGreaterThanThatOfExactDraws) {
  const std::vector<std::function<double(const std::vector<double>&)>> shapes = {
      [](const auto& z) { return plane(z); },
      [](const auto& z) { return plane(z) - 0.05 * z[0] * z[1] - 0.1 * z[3] * z[3]; },
      [](const auto& z) { return std::min(plane(z), 0.4 - z[2]); },
      [](const auto& z) { return -std::abs(plane(z)); },
      [](const auto& z) { return plane(z) - (z[2] > 1 ? 4.0 : 0.0); },
      [](const auto& z) { return plane(z) + 0.2 * std::sin(40 * z[1]); },
      [](const auto& z) { return -std::exp(z[0]) + 0.1 * z[1]; },
      [](const auto& z) { return z[0] * z[1] * z[2]; }};
  int straight_ones = 0;
  for (std::size_t s = 0; s < shapes.size(); ++s)
    for (const double reserve : {-2.0, 0.3, 1.5, 2.2, 3.0, 5.0, 12.0}) {
      const auto one = [&](const auto& z) { return standing(reserve + shapes[s](z)); };
      const Conformity exact = of(one, {.draws = 10000, .seed = 7, .numbers = 4});
      const Conformity straight = of(one, {.draws = 10000, .seed = 7, .numbers = 4, .linear = true});
      if (!straight.linear_within) {
        const Conformity few = of(one, {.draws = linear_exact_draws, .seed = 7, .numbers = 4});
        EXPECT_EQ(straight.passes, few.passes) << s << ' ' << reserve;
        EXPECT_EQ(straight.pass_at_least, few.pass_at_least) << s << ' ' << reserve;
        continue;
      }
      ++straight_ones;
      EXPECT_LE(straight.passes, exact.passes) << s << ' ' << reserve;
      EXPECT_LE(straight.fails, exact.fails) << s << ' ' << reserve;
      EXPECT_LE(straight.pass_at_least, exact.pass_at_least) << s << ' ' << reserve;
      EXPECT_LE(straight.fail_at_least, exact.fail_at_least) << s << ' ' << reserve;
    }
  EXPECT_GT(straight_ones, 20);
}

// What no difference and no wide draw shows, and an exact draw does: the very draws are told apart by their numbers.
TEST(FindingDraws, AnExactDrawFartherOffThanTheBoundLeavesTheExactOnesAlone) {
  const double third = standard_normal(many.seed, 2, 0);
  for (const double off : {1.0, 1e-3}) {
    const Conformity c = of([&](const auto& z) { return standing(50 + plane(z) - (z[0] == third ? off : 0.0)); });
    EXPECT_EQ(c.draws, linear_exact_draws) << off;
    EXPECT_EQ(c.exact, linear_exact_draws) << off;
    EXPECT_FALSE(c.linear_within) << off;
  }
}

TEST(FindingDraws, AVerdictThatDoesNotFollowFromItsNumbersIsNotTold) {
  const double third = standard_normal(many.seed, 2, 0);
  const Conformity c = of([&](const auto& z) {
    Standing one = standing(50 + plane(z));
    if (z[0] == third) one.verdict = Verdict::undetermined;
    return one;
  });
  EXPECT_EQ(c.draws, linear_exact_draws);
  EXPECT_EQ(c.passes, linear_exact_draws - 1);
}

TEST(FindingDraws, OneJudgementWithoutANumberOrWithAnotherKindOfLimitIsEnoughNotToTell) {
  for (const bool number : {true, false}) {
    const Conformity c = of([&](const auto& z) {
      Standing one = standing(50 + plane(z));
      if (z[2] == -1) number ? one.at_least = true : one.value_left = std::nan("");  // of the differences
      return one;
    });
    EXPECT_EQ(c.draws, linear_exact_draws) << number;
  }
}

TEST(FindingDraws, AVerdictWithoutANumberHasTheExactDrawsAlone) {
  const Conformity c = of([](const auto&) { return Standing{.verdict = Verdict::pass}; });
  EXPECT_EQ(c.draws, linear_exact_draws);
  EXPECT_EQ(c.passes, linear_exact_draws);
  EXPECT_GE(c.pass_at_least, asked_share);
}

// A gap between value and bound that the limit stands in is neither, told or judged.
TEST(FindingDraws, WhatAGapLeavesOpenStaysOpen) {
  const Conformity c = of([](const auto& z) {
    const double value = 0.3 + 0.01 * z[0], bound = value - 0.4;
    return Standing{.verdict = bound >= 0  ? Verdict::pass
                               : value < 0 ? Verdict::fail
                                           : Verdict::undetermined,
                    .value_left = value,
                    .bound_left = bound};
  });
  EXPECT_EQ(c.passes, 0);
  EXPECT_EQ(c.fails, 0);
}

TEST(FindingDraws, AreTheSameOnAnyNumberOfThreadsAndFewAreJudged) {
  std::atomic<int> judged = 0;
  const auto judge = [&](const std::vector<double>& z) {
    ++judged;
    return std::vector<Standing>{standing(1 + plane(z)), standing(2 - z[2] * z[2])};
  };
  const auto one = finding_draws(judge, many, {.threads = 1}), two = finding_draws(judge, many, {.threads = 2});
  EXPECT_EQ(judged, 2 * (1 + 2 * 4 + linear_exact_draws + linear_wide_draws));
  for (std::size_t f = 0; f < one.size(); ++f) {
    EXPECT_EQ(one[f].passes, two[f].passes);
    EXPECT_EQ(one[f].fails, two[f].fails);
    EXPECT_EQ(one[f].linear_within, two[f].linear_within);
  }
}

Finding finding(Verdict verdict, double value, double bound, double limit) {
  Finding out{.verdict = verdict, .value = value, .bound = bound, .measured = true};
  out.limit = Limit{Real{limit, {}}, "own"};
  return out;
}

TEST(StandingOf, SaysHowFarValueAndBoundStandOnThePassingSide) {
  const struct {
    Finding finding;
    bool at_least;
    double value_left, bound_left;
  } rows[] = {
      {finding(Verdict::pass, 2, 2.5, 3), false, 1, 0.5},    {finding(Verdict::pass, 2, 3, 3), false, 1, 0},
      {finding(Verdict::pass, 5, 4, 3), true, 2, 1},         {finding(Verdict::fail, 4, 5, 3), false, -1, -2},
      {finding(Verdict::fail, 2, 1, 3), true, -1, -2},       {finding(Verdict::undetermined, 2, 4, 3), false, 1, -1},
      {finding(Verdict::undetermined, 4, 2, 3), true, 1, -1}};
  for (const auto& row : rows) {
    const Standing is = standing_of(row.finding);
    EXPECT_EQ(is.verdict, row.finding.verdict);
    EXPECT_EQ(is.at_least, row.at_least);
    EXPECT_DOUBLE_EQ(is.value_left, row.value_left);
    EXPECT_DOUBLE_EQ(is.bound_left, row.bound_left);
  }
  EXPECT_TRUE(std::isnan(standing_of(finding(Verdict::undetermined, 2, 2, 3)).bound_left));
  Finding word = finding(Verdict::pass, 2, 2, 3);
  word.measured = false;
  EXPECT_TRUE(std::isnan(standing_of(word).bound_left));
}

}  // namespace
}  // namespace fairlead
