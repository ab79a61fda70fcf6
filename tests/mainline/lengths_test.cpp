#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/mainline/oracle.hpp"

namespace fairlead::mainline {
namespace {

/// What a bare line shows at the named place.
double shown(Cable k, double unstretched_m, MeasuredAt at) {
  k.unstretched_m = unstretched_m;
  const SupportForces f = support_forces(k, hang(k).value());
  switch (at) {
    case MeasuredAt::start:
      return std::hypot(f.start_x_N, f.start_z_N);
    case MeasuredAt::end:
      return std::hypot(f.end_x_N, f.end_z_N);
    case MeasuredAt::horizontal:
      return f.start_x_N;
  }
  return std::numeric_limits<double>::quiet_NaN();
}

/// Lines as they are rigged and worse: level to steeper than two to one, a tenth to 300 of their weight in H.
Cable tensioned(Draws& draws) {
  Cable k;
  k.span_m = draws.decades(5, 2000);
  k.rise_m = draws.one_in(3) ? 0 : k.span_m * draws.even(-2.5, 2.5);
  k.weight_N_per_m = draws.decades(0.5, 100);
  const double chord = std::hypot(k.span_m, k.rise_m), weight_N = k.weight_N_per_m * chord;
  const double tension_N = weight_N * draws.decades(0.1, 300);
  k.compliance_per_N = draws.one_in(3) ? 0 : draws.decades(1e-6, 3e-2) / tension_N;
  const double across = k.weight_N_per_m * k.span_m / tension_N;
  k.unstretched_m = chord * (1 + across * across / 24) / (1 + k.compliance_per_N * tension_N);
  return k;
}

// R3.08.05 [read]: a cable of 30 N/m over 100 m with 5000 N at its ends. Its slack root hangs at H = 501.706 N [own].
TEST(LengthFromTension, TakesTheTautRootNotTheSlackOne) {
  const double S = length_from_tension(100, 0, 30, 0, 5000, MeasuredAt::end).value();
  const Cable taut{100, 0, S, 30, 0};
  EXPECT_NEAR(hang(taut).value().pieces[0].H_N, 4761.784, 5e-4);
  // That the slack root is a root: half the line's weight and H make 5000 N there too.
  const double half_N = std::sqrt(5000. * 5000. - 501.706 * 501.706);
  const Cable slack{100, 0, 2 * half_N / 30, 30, 0};
  EXPECT_NEAR(hang(slack).value().pieces[0].H_N, 501.706, 5e-4);
  EXPECT_LT(S, slack.unstretched_m / 3);
}

TEST(LengthFromTension, IsMetAndTautWhereverItIsMeasured) {
  Draws draws(21);
  int slack_seen = 0;
  for (int i = 0; i < 3000; ++i) {
    const Cable k = tensioned(draws);
    const double step_m = 1e-4 * (k.unstretched_m - 0.999 * std::hypot(k.span_m, k.rise_m));
    for (const MeasuredAt at : {MeasuredAt::start, MeasuredAt::end, MeasuredAt::horizontal}) {
      const double T = shown(k, k.unstretched_m, at);
      const bool is_taut = shown(k, k.unstretched_m + std::abs(step_m), at) < T;
      slack_seen += !is_taut;
      const auto S = length_from_tension(k.span_m, k.rise_m, k.weight_N_per_m, k.compliance_per_N, T, at);
      ASSERT_TRUE(S) << "draw " << i << ": " << S.error().why;
      // One rounding of the length is worth 1e-16/slack of the tension; slack is above 4e-7 here.
      ASSERT_NEAR(shown(k, *S, at), T, 1e-8 * T) << "draw " << i;
      if (is_taut)
        ASSERT_NEAR(*S, k.unstretched_m, 1e-11 * k.unstretched_m) << "draw " << i;
      else
        ASSERT_LT(*S, k.unstretched_m) << "draw " << i << ": the slack root was returned";
    }
  }
  EXPECT_GT(slack_seen, 100) << "the draws never tried the trap";
}

TEST(LengthFromTension, IsUnsolvedBelowWhatTheLinesOwnWeightNeeds) {
  // Least end tension of a level line that does not stretch: T/(w X) = cosh(u)/(2u) at u tanh(u) = 1: 0.754437.
  const double least_N = 0.754437 * 30 * 100;
  EXPECT_TRUE(length_from_tension(100, 0, 30, 0, least_N * 1.0001, MeasuredAt::end));
  const auto below = length_from_tension(100, 0, 30, 0, least_N * 0.9999, MeasuredAt::end);
  ASSERT_FALSE(below);
  EXPECT_EQ(below.error().why, "the main line's own weight needs more than the measured tension");
  EXPECT_NEAR(below.error().residual, 1e-4 * least_N, 0.01);
  EXPECT_TRUE(length_from_tension(100, 0, 30, 0, 300, MeasuredAt::horizontal))
      << "H alone may be as small as one likes";
}

TEST(LengthFromSag, IsMet) {
  Draws draws(22);
  for (int i = 0; i < 3000; ++i) {
    const Cable k = tensioned(draws);
    const double sag_m = mid_span_sag(k, hang(k).value());
    const auto S = length_from_sag(k.span_m, k.rise_m, k.weight_N_per_m, k.compliance_per_N, sag_m);
    ASSERT_TRUE(S) << "draw " << i << ": " << S.error().why;
    ASSERT_NEAR(*S, k.unstretched_m, 1e-11 * k.unstretched_m) << "draw " << i;
  }
}

TEST(LengthFromSag, OfAParabolaIsTheTautLimit) {
  // Taut and not stretching: S - X = 8/3 d2/X, to (d/X)2 of itself.
  const double S = length_from_sag(100, 0, 10, 0, 0.5).value();
  EXPECT_NEAR(S - 100, 8. / 3 * 0.25 / 100, 1e-4 * (S - 100));
}

TEST(LengthFromSag, ScalesWithTheSpan) {
  const double S = length_from_sag(220, -14, 10, 1e-7, 4).value();
  EXPECT_NEAR(length_from_sag(440, -28, 5, 1e-7, 8).value(), 2 * S, 1e-11 * S) << "twice the size, the same forces";
}

TEST(LengthFromMeasure, RefusesWhatIsNoMeasure) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -1.0, nan}) {
    EXPECT_EQ(length_from_sag(100, 0, 10, 0, bad).error().why,
              "a main line known by its sag needs a positive span, weight and sag");
    EXPECT_EQ(length_from_tension(100, 0, 10, 0, bad, MeasuredAt::start).error().why,
              "a main line known by its tension needs a positive span, weight and tension");
    EXPECT_FALSE(length_from_sag(bad, 0, 10, 0, 2));
    EXPECT_FALSE(length_from_tension(100, 0, bad, 0, 2000, MeasuredAt::start));
  }
  EXPECT_FALSE(length_from_sag(100, nan, 10, 0, 2));
  EXPECT_FALSE(length_from_sag(100, 0, 10, nan, 2));
  EXPECT_FALSE(length_from_tension(100, 0, 10, -1e-9, 5000, MeasuredAt::start));
}

}  // namespace
}  // namespace fairlead::mainline
