// Equations in bands against equations drawn from them.
#include "geometry/reeving/linear_band.hpp"
#include "tests/reeving/bands.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <random>

namespace fairlead::reeving {
namespace {

// Source BP [own]: the solutions are Eigen's. Coefficients at the ends of their bands as often as not; rows of very
// different size, as of lengths and forces.
TEST(LinearBand, OfTwentyThousandRandomEquationsNoSolutionLeavesTheBands) {
  std::mt19937_64 random(3);
  int solved = 0;
  double tightest = 1e9;
  for (int i = 0; i < 2000; ++i) {
    const auto n = static_cast<Eigen::Index>(1 + random() % 9);
    LinearBand equations(static_cast<std::size_t>(n));
    equations.clear();
    const double unsure = std::pow(10, uniform(random, -6, -1));
    for (Eigen::Index r = 0; r < n; ++r) {
      const double size = std::pow(10, uniform(random, -2, 3));
      for (Eigen::Index c = 0; c <= n; ++c)
        equations.at(static_cast<std::size_t>(r), static_cast<std::size_t>(c)) =
            around(size * (uniform(random, -1, 1) + (r == c ? 2 : 0)), size * unsure * uniform(random, 0, 1));
    }
    std::vector<Band> v;
    if (!equations.solve(v)) continue;
    ++solved;
    for (int k = 0; k < 12; ++k) {
      Eigen::MatrixXd M(n, n);
      Eigen::VectorXd b(n);
      for (Eigen::Index r = 0; r < n; ++r)
        for (Eigen::Index c = 0; c <= n; ++c) {
          const Band band = equations.at(static_cast<std::size_t>(r), static_cast<std::size_t>(c));
          const double value =
              k % 2 == 0 ? (random() % 2 ? band.low : band.high) : uniform(random, band.low, band.high);
          (c < n ? M(r, c) : b(r)) = value;
        }
      const Eigen::VectorXd x = M.fullPivLu().solve(-b);
      for (Eigen::Index r = 0; r < n; ++r) {
        const Band band = v[static_cast<std::size_t>(r)];
        EXPECT_GE(x(r), band.low - 1e-12 * (1 + std::abs(x(r))));
        EXPECT_LE(x(r), band.high + 1e-12 * (1 + std::abs(x(r))));
        const double off = std::abs(x(r) - band.middle());
        if (n == 1 && off > 0) tightest = std::min(tightest, band.width() / 2 / off);
      }
    }
    if (HasFailure()) FAIL() << "equations " << i << ": " << n << " unknowns, unsure by " << unsure;
  }
  EXPECT_GT(solved, 1700);
  EXPECT_LT(tightest, 1.01) << "a bound nothing comes near says nothing";
}

TEST(LinearBand, EquationsThatMayBeSingularSaySo) {
  LinearBand equations(2);
  std::vector<Band> v;
  equations.clear();
  EXPECT_FALSE(equations.solve(v)) << "nothing but zeros";
  equations.at(0, 0) = equations.at(1, 1) = 1;
  equations.at(0, 1) = {-0.4, 0.4};
  equations.at(1, 0) = {-0.4, 0.4};
  equations.at(0, 2) = equations.at(1, 2) = -1;
  ASSERT_TRUE(equations.solve(v));
  EXPECT_NEAR(v[0].high, 1 / (1 - 0.4), 1e-9) << "the worst of them: (1, -0.4; -0.4, 1)";
  equations.at(0, 1) = equations.at(1, 0) = {-1.1, 1.1};
  EXPECT_FALSE(equations.solve(v)) << "(1, 1; 1, 1) is among them";
}

}  // namespace
}  // namespace fairlead::reeving
