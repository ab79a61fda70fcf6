// The rigid best fit, its laws, and which point it does not believe.
#include "geometry/survey/fit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace fairlead {
namespace {

// UMEYAMA91: three points in plan and two of them mirrored. A fit that may mirror has no error at all.
const std::vector<FitPair> umeyama = {{{0, 0, 0}, {0, 0, 0}}, {{1, 0, 0}, {-1, 0, 0}}, {{0, 2, 0}, {0, 2, 0}}};

std::vector<FitPair> site(double turn_rad, Vec3 shift, int count = 5) {
  const Point3 known[] = {
      {1200, 800, 341.5}, {1376, 932, 330.5}, {1348, 911, 331.7}, {1371.2, 928.4, 332.3}, {1340, 925, 326.1}};
  std::vector<FitPair> pairs;
  for (int i = 0; i < count; ++i) {
    const Point3 k = known[i];
    const double c = std::cos(turn_rad), s = std::sin(turn_rad);
    pairs.push_back({Point3{c * k.x - s * k.y, s * k.x + c * k.y, k.z} + shift, k});
  }
  return pairs;
}

double farthest(const std::vector<Vec3>& residuals) {
  double most = 0;
  for (const Vec3& e : residuals) most = std::max(most, norm(e));
  return most;
}

TEST(BestFit, TurnsAsThePublishedExampleDoesAndDoesNotMirror) {
  const auto fit = best_fit(umeyama, FitKind::levelled);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->motion.rows[0].x, .832050, 5e-7);
  EXPECT_NEAR(fit->motion.rows[0].y, .554700, 5e-7);
  EXPECT_NEAR(fit->motion.rows[1].x, -.554700, 5e-7);
  EXPECT_NEAR(fit->motion.rows[1].y, .832050, 5e-7);
  EXPECT_NEAR(fit->scale, .721110, 5e-7);
  const Point3 origin = fit->motion.moved({0, 0, 0});
  EXPECT_NEAR(origin.x, -.980484, 5e-7);
  EXPECT_NEAR(origin.y, .296867, 5e-7);
  EXPECT_NEAR(fit->rms_m, .787245, 5e-7);
  EXPECT_NEAR(fit->mirrored_rms_m, 0, 1e-15);
}

// In space the same three points fall on each other once the plane is turned over.
TEST(BestFit, TiltedTurnsAPlaneOverWhereLevelledCanNot) {
  const auto fit = best_fit(umeyama, FitKind::tilted);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->rms_m, 0, 1e-15);
  EXPECT_NEAR(fit->motion.rows[2].z, -1, 1e-15);
}

// Rounding of coordinates of 10 km, 2e-12 m, over a site of 200 m: a hundred times that.
TEST(BestFit, FindsTheTurnAndTheShiftFromKilometresAway) {
  for (const FitKind kind : {FitKind::levelled, FitKind::tilted})
    for (const double turn_deg : {0.0, 123.0, -179.0, 90.0}) {
      const double turn = turn_deg * std::numbers::pi / 180;
      const auto fit = best_fit(site(turn, {8000, -5000, 400}), kind);
      ASSERT_TRUE(fit);
      EXPECT_LT(farthest(fit->residual_m), 2e-10) << turn_deg;
      EXPECT_NEAR(fit->scale, 1, 1e-12);
      EXPECT_NEAR(fit->motion.rows[0].x, std::cos(turn), 1e-12);
      EXPECT_NEAR(fit->motion.rows[1].x, -std::sin(turn), 1e-12);  // the way back
    }
}

TEST(BestFit, ARotationIsProperAndSquareWhateverThePointsAre) {
  std::mt19937_64 random(20261126);
  std::uniform_real_distribution<double> at(-50, 50);
  const auto point = [&] { return Point3{at(random), at(random), at(random)}; };
  for (int i = 0; i < 200; ++i) {
    std::vector<FitPair> pairs;
    for (int p = 0; p < 3 + i % 5; ++p) pairs.push_back({point(), point()});
    for (const FitKind kind : {FitKind::levelled, FitKind::tilted}) {
      const auto fit = best_fit(pairs, kind);
      ASSERT_TRUE(fit);
      const auto& [a, b, c] = fit->motion.rows;
      EXPECT_NEAR(norm(a), 1, 1e-14);
      EXPECT_NEAR(dot(a, b), 0, 1e-14);
      EXPECT_NEAR(dot(cross(a, b), c), 1, 1e-14);
      // Least squares: no small turn about any axis, and no shift, makes the sum less.
      Vec3 sum, moment;
      for (std::size_t p = 0; p < pairs.size(); ++p) {
        sum += fit->residual_m[p];
        moment += cross(fit->motion.moved(pairs[p].measured) - fit->motion.to, fit->residual_m[p]);
      }
      EXPECT_LT(norm(sum), 1e-11);
      EXPECT_LT(std::abs(moment.z), 1e-9);
      if (kind == FitKind::tilted) {
        EXPECT_LT(norm(moment), 1e-9);
      }
    }
  }
}

TEST(BestFit, PointsThatLeaveATurnOpenHaveNoFit) {
  const auto pairs = site(1, {10, 20, 30});
  const auto why = [](std::vector<FitPair> of, FitKind kind) {
    const auto fit = best_fit(of, kind);
    return fit ? "it fits" : fit.error().why;
  };
  EXPECT_EQ(why({}, FitKind::levelled), "a fit needs two control points");
  EXPECT_EQ(why({pairs[0]}, FitKind::levelled), "a fit needs two control points");
  EXPECT_EQ(why({pairs[0], pairs[1]}, FitKind::levelled), "it fits");
  EXPECT_EQ(why({pairs[0], pairs[1]}, FitKind::tilted), "a tilted fit needs three control points");
  EXPECT_EQ(why({pairs[0], pairs[1], pairs[2]}, FitKind::tilted), "it fits");
  const FitPair above{pairs[0].measured + Vec3{0, 0, 5}, pairs[0].known + Vec3{0, 0, 5}};
  EXPECT_EQ(why({pairs[0], above}, FitKind::levelled), "the control points stand plumb over one another");
  const FitPair between{pairs[0].measured + 0.5 * (pairs[1].measured - pairs[0].measured),
                        pairs[0].known + 0.5 * (pairs[1].known - pairs[0].known)};
  EXPECT_EQ(why({pairs[0], pairs[1], between}, FitKind::tilted), "the control points stand in one line");
  FitPair unknown = pairs[2];
  unknown.measured.y = std::nan("");
  EXPECT_EQ(why({pairs[0], pairs[1], unknown}, FitKind::levelled), "the place of a control point is not known");
}

TEST(FitTest, FeetForMetresShowInTheScaleAndSwappedAxesInTheMirror) {
  auto feet = site(2, {100, 0, 0});
  for (FitPair& pair : feet)
    pair.measured = {pair.measured.x / .3048, pair.measured.y / .3048, pair.measured.z / .3048};
  EXPECT_NEAR(best_fit(feet, FitKind::levelled)->scale, .3048, .3048 * 1e-4);  // the drawn heights stay upright
  auto swapped = site(2, {100, 0, 0});
  for (FitPair& pair : swapped) std::swap(pair.measured.x, pair.measured.y);
  const auto fit = best_fit(swapped, FitKind::levelled);
  EXPECT_GT(fit->rms_m, 1);
  EXPECT_LT(fit->mirrored_rms_m, 1e-10);
}

// CHI2: the points beyond which 5 % and 1 % of a chi-squared lie, to the last printed digit.
TEST(FitTest, TheTailIsThatOfTheTables) {
  const struct {
    int degrees;
    double x, tail, digit;
  } rows[] = {{1, 3.841, .05, 5e-4},  {2, 5.991, .05, 5e-4},   {3, 7.815, .05, 5e-4},
              {4, 13.277, .01, 5e-4}, {10, 18.307, .05, 5e-4}, {11, 24.725, .01, 5e-4}};
  for (const auto& [degrees, x, tail, digit] : rows) {
    EXPECT_GT(chi_squared_tail(x - digit, degrees), tail) << degrees;
    EXPECT_LT(chi_squared_tail(x + digit, degrees), tail) << degrees;
  }
  EXPECT_EQ(chi_squared_tail(0, 3), 1);
  EXPECT_EQ(chi_squared_tail(5, 0), 1);
  EXPECT_TRUE(std::isnan(chi_squared_tail(std::nan(""), 3)));
}

TEST(FitTest, NamesTheOnePointThatIsOffByAMetreAndByHowMuch) {
  for (int off = 0; off < 5; ++off) {
    auto pairs = site(123 * std::numbers::pi / 180, {8000, -5000, 400});
    const Vec3 by = {0.6, -0.8, 0};
    pairs[static_cast<std::size_t>(off)].known = pairs[static_cast<std::size_t>(off)].known + by;
    const auto test = test_fit(pairs, FitKind::levelled, 0.003);
    ASSERT_TRUE(test);
    EXPECT_FALSE(test->agrees);
    EXPECT_EQ(test->redundancy, 11);
    ASSERT_EQ(test->outliers, std::vector<int>{off});
    EXPECT_LT(norm(test->off_m[0] - by), 1e-9);
  }
}

TEST(FitTest, TwoPointsThatDisagreeDoNotTellWhichIsOff) {
  auto pairs = site(0, {}, 2);
  pairs[1].known.x += 1;
  const auto test = test_fit(pairs, FitKind::levelled, 0.003);
  ASSERT_TRUE(test);
  EXPECT_FALSE(test->agrees);
  EXPECT_TRUE(test->outliers.empty());
}

// By its definition: of 2000 surveys with nothing but the stated errors a thousandth is doubted, 2 +- 1.4.
TEST(FitTest, GoodSurveysAreDoubtedAsRarelyAsStated) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> error(0, 0.003);
  int doubted = 0, half = 0;
  for (int i = 0; i < 2000; ++i) {
    auto pairs = site(2, {100, 0, 0});
    for (FitPair& pair : pairs) pair.measured = pair.measured + Vec3{error(random), error(random), error(random)};
    const auto test = test_fit(pairs, FitKind::levelled, 0.003);
    doubted += test->agrees ? 0 : 1;
    half += test->probability < 0.5 ? 1 : 0;
  }
  EXPECT_LE(doubted, 8);                            // four and a half of its standard deviations
  EXPECT_NEAR(half, 1000, 4.5 * std::sqrt(500.0));  // the probability is uniform, so the residuals have 11 degrees
}

TEST(FitTest, WithoutAnUncertaintyNothingIsTold) {
  EXPECT_FALSE(test_fit(site(0, {}), FitKind::levelled, 0));
  EXPECT_FALSE(test_fit(site(0, {}), FitKind::levelled, std::nan("")));
}

}  // namespace
}  // namespace fairlead
