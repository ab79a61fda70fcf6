// A bare line held by a tension: the back stay behind a saddle.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/mainline/oracle.hpp"

namespace fairlead::mainline {
namespace {

// R3.08.05 [read]: a cable of 30 N/m over 100 m with 5000 N at its ends: H 4761.784 N; the slack root has 501.706 N.
TEST(HangPulled, TakesTheTautLineOfThePublishedCase) {
  const auto pulled = hang_pulled({.span_m = 100, .weight_N_per_m = 30}, 5000);
  ASSERT_TRUE(pulled) << pulled.error().why;
  EXPECT_NEAR(pulled->shape.pieces[0].H_N, 4761.784, 5e-4);
}

// The other road to it: a root over the length. Both close the span to 1e-12 of the length, and of that the tension is
// known to 1e-7 where the length tells it (tells_tension).
TEST(HangPulled, IsTheLineWhoseLengthFollowsFromThatTensionAtItsStart) {
  Draws draws(77);
  int solved = 0, refused = 0;
  for (int i = 0; i < 2000; ++i) {
    Cable k;
    k.span_m = draws.decades(2, 200);
    k.rise_m = k.span_m * draws.even(-3, 3);
    k.weight_N_per_m = draws.decades(0.5, 50);
    const double weight_N = k.weight_N_per_m * std::hypot(k.span_m, k.rise_m);
    const double tension_N = weight_N * draws.decades(0.4, 1000);
    k.compliance_per_N = draws.one_in(3) ? 0 : draws.decades(1e-6, 1e-2) / tension_N;
    const auto length =
        length_from_tension(k.span_m, k.rise_m, k.weight_N_per_m, k.compliance_per_N, tension_N, MeasuredAt::start);
    const auto pulled = hang_pulled(k, tension_N);
    if (!length) {
      ++refused;
      EXPECT_FALSE(pulled) << "draw " << i << ": no line hangs by so little";
      continue;
    }
    ASSERT_TRUE(pulled) << "draw " << i << ": " << pulled.error().why;
    ++solved;
    EXPECT_NEAR(pulled->cable.unstretched_m / *length, 1, 1e-9) << "draw " << i;
    EXPECT_LT(breach_of(pulled->cable, pulled->shape, {}, false).worst(), 2e-12) << "draw " << i;
    const SupportForces f = support_forces(pulled->cable, pulled->shape);
    EXPECT_NEAR(std::hypot(f.start_x_N, f.start_z_N) / tension_N, 1, 1e-14) << "draw " << i;
    EXPECT_NEAR(f.start_z_N + f.end_z_N + k.weight_N_per_m * pulled->cable.unstretched_m, 0, 1e-12 * tension_N);
  }
  EXPECT_GT(solved, 1500);
  EXPECT_GT(refused, 20);
}

TEST(HangPulled, AlwaysSolvesALineHeldByTwiceItsWeightOrMore) {
  for (const double slope : {-4.0, -1.0, -0.2, 0.0, 0.5, 4.0})
    for (const double times : {2.0, 5.0, 100.0, 1e5})
      EXPECT_TRUE(hang_pulled({.span_m = 12, .rise_m = 12 * slope, .weight_N_per_m = 10, .compliance_per_N = 1e-7},
                              times * 10 * 12 * std::hypot(1, slope)))
          << slope << " at " << times;
}

TEST(HangPulled, SaysWhyThereIsNone) {
  const Cable k{.span_m = 100, .weight_N_per_m = 30};
  EXPECT_EQ(hang_pulled(k, 1000).error().why, "the line's own weight needs more than the tension that holds it");
  for (const double bad :
       {0.0, -5.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()})
    EXPECT_EQ(hang_pulled(k, bad).error().why, "a line is to hang by a tension that is not positive") << bad;
  EXPECT_FALSE(hang_pulled({.span_m = 0, .rise_m = 5, .weight_N_per_m = 30}, 5000));
}

}  // namespace
}  // namespace fairlead::mainline
