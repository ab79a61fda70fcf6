// Draws, and what a share of them proves.
#include "geometry/asbuilt/draws.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace fairlead {
namespace {

TEST(StandardNormal, IsTheSameWhoeverDrawsItFirstAndAnotherForAnyOtherCounter) {
  const double one = standard_normal(1, 7, 3);
  EXPECT_EQ(standard_normal(1, 7, 3), one);
  for (const double other : {standard_normal(2, 7, 3), standard_normal(1, 8, 3), standard_normal(1, 7, 4),
                             standard_normal(7, 1, 3), standard_normal(1, 3, 7)})
    EXPECT_NE(other, one);
}

// Sums of n draws and of their products: four and a half of their own standard deviations.
TEST(StandardNormal, HasTheMomentsOfANormalNumberAndNoneInCommonWithItsNeighbours) {
  constexpr int n = 100000;
  double sum = 0, square = 0, fourth = 0, next = 0, across = 0;
  for (int d = 0; d < n; ++d) {
    const auto draw = static_cast<std::uint64_t>(d);
    const double x = standard_normal(5, draw, 0);
    sum += x;
    square += x * x;
    fourth += x * x * x * x;
    next += x * standard_normal(5, draw, 1);
    across += x * standard_normal(5, draw + 1, 0);
  }
  const double slack = 4.5 / std::sqrt(n);
  EXPECT_NEAR(sum / n, 0, slack);
  EXPECT_NEAR(square / n, 1, slack * std::sqrt(2.0));
  EXPECT_NEAR(fourth / n, 3, slack * std::sqrt(96.0));
  EXPECT_NEAR(next / n, 0, slack);
  EXPECT_NEAR(across / n, 0, slack);
}

// JCGM101 9.2.2: the sum of four standard normal numbers has u = 2.0 and a 95 % interval of +-3.92. A quantile of n
// draws strays by sqrt(p (1 - p) / n) over the density there, 0.0292 for p = 0.975.
TEST(StandardNormal, FourOfThemAddUpToThePublishedInterval) {
  constexpr int n = 100000;
  std::vector<double> sums;
  double square = 0;
  for (std::uint64_t d = 0; d < n; ++d) {
    double sum = 0;
    for (std::uint64_t i = 0; i < 4; ++i) sum += standard_normal(11, d, i);
    sums.push_back(sum);
    square += sum * sum;
  }
  std::ranges::sort(sums);
  const double slack = 4.5 * std::sqrt(0.975 * 0.025 / n) / 0.0292;
  EXPECT_NEAR(std::sqrt(square / n), 2.0, 2 * 4.5 / std::sqrt(2.0 * n));
  EXPECT_NEAR(sums[n / 40], -3.92, slack + 0.005);
  EXPECT_NEAR(sums[n - n / 40], 3.92, slack + 0.005);
}

enum class Shown { passes, fails, neither };

/// A value measured with u = 0.25 against an upper limit of 10.
Shown against_ten(double value) {
  constexpr int n = 10000;
  int passes = 0;
  for (std::uint64_t d = 0; d < n; ++d) passes += value + 0.25 * standard_normal(3, d, 0) <= 10 ? 1 : 0;
  const Conformity c = conformity(n, passes, n - passes);
  if (c.pass_at_least >= asked_share) return Shown::passes;
  return c.fail_at_least >= asked_share ? Shown::fails : Shown::neither;
}

// JCGM106: limit 10, u 0.25; the one-sided 95 % guard band is .41121. 9.5 conforms with .97725, 9.6 with .94520, 10.4
// with .05480, 10.6 with .00820.
TEST(Conformity, FollowsThePublishedGuardBand) {
  EXPECT_EQ(against_ten(9.5), Shown::passes);
  EXPECT_EQ(against_ten(9.6), Shown::neither);
  EXPECT_EQ(against_ten(10.4), Shown::neither);
  EXPECT_EQ(against_ten(10.6), Shown::fails);
}

// WILKS41: so many draws, with none, one, two, three or four misses among them, are the fewest that show 95 % with 95 %
// confidence.
TEST(Conformity, NeedsAsManyDrawsAsTheTablesSay) {
  const struct { int draws, misses; } rows[] = {{59, 0}, {93, 1}, {124, 2}, {153, 3}, {181, 4}};
  for (const auto& [draws, misses] : rows) {
    EXPECT_GE(share_at_least(draws - misses, draws), 0.95) << draws;
    EXPECT_LT(share_at_least(draws - 1 - misses, draws - 1), 0.95) << draws;
  }
  EXPECT_EQ(fewest_draws, 59);
}

TEST(Conformity, NothingIsShownByNoHitsAndMoreHitsShowMore) {
  EXPECT_EQ(share_at_least(0, 100), 0);
  EXPECT_EQ(share_at_least(0, 0), 0);
  for (int hits = 1; hits <= 100; ++hits) {
    EXPECT_GT(share_at_least(hits, 100), share_at_least(hits - 1, 100)) << hits;
    EXPECT_LT(share_at_least(hits, 100), hits / 100.0) << hits;
  }
}

}  // namespace
}  // namespace fairlead
