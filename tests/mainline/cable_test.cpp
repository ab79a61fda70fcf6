#include "geometry/mainline/cable.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/mainline/oracle.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

constexpr double closure = 1e-12;  // what hang promises, as a share of the line's length

double start_tension(const Cable& k, const Shape& shape) {
  const SupportForces f = support_forces(k, shape);
  return std::hypot(f.start_x_N, f.start_z_N);
}

double end_tension(const Cable& k, const Shape& shape) {
  const SupportForces f = support_forces(k, shape);
  return std::hypot(f.end_x_N, f.end_z_N);
}

TEST(BareLine, ObeysTheTextbookFromSlackToBarTaut) {
  Draws draws(1);
  for (int i = 0; i < 5000; ++i) {
    const Cable k = draws.line();
    const auto shape = hang(k);
    ASSERT_TRUE(shape) << "draw " << i << ": " << shape.error().why << ", " << shape.error().residual << " m";
    ASSERT_LE(breach_of(k, *shape, {}, false).worst(), closure) << "draw " << i;
    ASSERT_GT(shape->pieces[0].H_N, 0) << "draw " << i;
  }
}

TEST(ClampedLoad, ObeysTheTextbookAtAnyPlaceAndWeightAlsoPulledUp) {
  Draws draws(2);
  for (int i = 0; i < 5000; ++i) {
    const Cable k = draws.line();
    const Load load{0, draws.weight_on(k) * (draws.one_in(4) ? -1 : 1)};
    const double s_m = k.unstretched_m * draws.place_on(k) / k.span_m;
    const auto shape = hang_clamped(k, s_m, load.weight_N);
    ASSERT_TRUE(shape) << "draw " << i << ": " << shape.error().why << ", " << shape.error().residual << " m";
    ASSERT_LE(breach_of(k, *shape, {&load, 1}, false).worst(), closure) << "draw " << i;
    ASSERT_EQ(shape->pieces[0].unstretched_m, s_m);
    ASSERT_NEAR(shape->wheels[0].x_m, shape->pieces[1].x_m, 0);
    ASSERT_NEAR(shape->wheels[0].force_z_N, load.weight_N, 0);
  }
}

TEST(SupportForces, BalanceTheWeightsInSumAndInMoment) {
  Draws draws(3);
  for (int i = 0; i < 500; ++i) {
    const Cable k = draws.line();
    const double P = draws.weight_on(k), s_m = k.unstretched_m * draws.even(0.05, 0.95);
    const Shape shape = hang_clamped(k, s_m, P).value();
    const SupportForces f = support_forces(k, shape);
    const double size_N = start_tension(k, shape) + end_tension(k, shape);
    EXPECT_EQ(f.start_x_N + f.end_x_N, 0);
    EXPECT_NEAR(f.start_z_N + f.end_z_N, -(k.weight_N_per_m * k.unstretched_m + P), 1e-12 * size_N);
    // About the start support, the bare ends' weight by the trapezes of a fine polygon.
    double moment = -P * shape.wheels[0].x_m - f.end_z_N * k.span_m + f.end_x_N * k.rise_m;
    for (int p = 0; p <= 1; ++p) {
      Piece piece = shape.pieces[p];
      const int slices = 4000;
      const double ds = piece.unstretched_m / slices;
      piece.unstretched_m = ds / 2;
      for (int j = 0; j < slices; ++j, piece.unstretched_m += ds)
        moment -= k.weight_N_per_m * ds * (piece.x_m + static_cast<double>(Textbook(k, piece).reach_m()));
    }
    EXPECT_NEAR(moment, 0, 1e-6 * size_N * (k.span_m + std::abs(k.rise_m))) << "draw " << i;
  }
}

TEST(BareLine, TurnedEndForEndIsItsMirrorImage) {
  Draws draws(4);
  for (int i = 0; i < 300; ++i) {
    const Cable k = draws.line();
    Cable turned = k;
    turned.rise_m = -k.rise_m;
    const Shape a = hang(k).value(), b = hang(turned).value();
    const SupportForces fa = support_forces(k, a), fb = support_forces(turned, b);
    const double size_N = start_tension(k, a) + end_tension(k, a);
    EXPECT_NEAR(fa.start_z_N, fb.end_z_N, 1e-7 * size_N) << "draw " << i;  // slack of 1e-7 costs nine digits
    const double x = draws.even(0, k.span_m);
    EXPECT_NEAR(line_at(k, a, x).z_m, line_at(turned, b, k.span_m - x).z_m + k.rise_m, 1e-9 * k.unstretched_m);
  }
}

TEST(ClampedLoad, ScalesWithLengthsAndForces) {
  const Cable k = worked_line();
  const double longer = 3.7, heavier = 0.6;  // per metre
  const Cable scaled{k.span_m * longer, k.rise_m * longer, k.unstretched_m * longer, k.weight_N_per_m * heavier,
                     k.compliance_per_N / (longer * heavier)};
  const Shape a = hang_clamped(k, 70, 900).value();
  const Shape b = hang_clamped(scaled, 70 * longer, 900 * longer * heavier).value();
  EXPECT_NEAR(b.pieces[0].H_N, a.pieces[0].H_N * longer * heavier, 1e-10 * b.pieces[0].H_N);
  EXPECT_NEAR(b.wheels[0].x_m, a.wheels[0].x_m * longer, 1e-11 * scaled.span_m);
  EXPECT_NEAR(b.wheels[0].z_m, a.wheels[0].z_m * longer, 1e-11 * scaled.span_m);
}

TEST(ClampedLoad, OfNoWeightLeavesTheBareLine) {
  const Cable k = worked_line();
  const Shape bare = hang(k).value(), loaded = hang_clamped(k, 90, 0).value();
  EXPECT_NEAR(loaded.pieces[0].H_N, bare.pieces[0].H_N, 1e-12 * bare.pieces[0].H_N);
  EXPECT_NEAR(line_at(k, bare, loaded.wheels[0].x_m).z_m, loaded.wheels[0].z_m, 1e-11);
}

TEST(ClampedLoad, DoesNotDependOnTheNeighbourItStartsFrom) {
  const Cable k = worked_line();
  const Shape cold = hang_clamped(k, 150, 1200).value();
  for (const double s_m : {1.0, 149.0, 219.0})
    for (const double weight_N : {1.0, 1e4, 1e6}) {
      const Shape near = hang_clamped(k, s_m, weight_N).value();
      const Shape warm = hang_clamped(k, 150, 1200, &near).value();
      EXPECT_NEAR(warm.pieces[0].H_N, cold.pieces[0].H_N, 1e-10 * cold.pieces[0].H_N);
      EXPECT_NEAR(warm.wheels[0].z_m, cold.wheels[0].z_m, 1e-11);
    }
}

TEST(InextensibleLine, IsTheLimitOfStifferAndStifferLines) {
  Cable k{100, 20, 103, 12, 0};
  const double H = hang(k).value().pieces[0].H_N;
  double last = std::numeric_limits<double>::infinity();
  for (const double compliance_per_N : {1e-9, 1e-10, 1e-11, 1e-12}) {
    k.compliance_per_N = compliance_per_N;
    const double off = std::abs(hang(k).value().pieces[0].H_N - H);
    EXPECT_LT(off, last / 9) << "one tenth of the stretch, one tenth of the difference";
    last = off;
  }
}

// Lysons & Mann 1967, US Forest Service PNW-39 [PNW39, second-hand; the bounds own]: a plausibility bound only.
TEST(SkylineHandbook, AgreesOnHeavyLoadsAtMidSpanAndRoughlyOnLightOnes) {
  const auto difference = [](double sag_share, double load_share) {
    Cable k{100, 0, 0, 10, 0};
    double low = 100 * (1 + 1e-6), high = 130;  // bisected for the loaded sag
    while (high - low > 1e-10) {
      k.unstretched_m = (low + high) / 2;
      const double P = load_share * k.weight_N_per_m * k.unstretched_m;
      const double sag_m = -hang_clamped(k, k.unstretched_m / 2, P).value().wheels[0].z_m;
      (sag_m < sag_share * k.span_m ? low : high) = k.unstretched_m;
    }
    const double W = k.weight_N_per_m * k.unstretched_m, P = load_share * W;
    const double H = (2 * P + W) / (8 * sag_share), V = H * 2 * sag_share + W / 4;
    return std::hypot(H, V) / start_tension(k, hang_clamped(k, k.unstretched_m / 2, P).value()) - 1;
  };
  for (const double sag_share : {0.02, 0.05, 0.1}) {
    for (const double heavy : {1.0, 3.0, 30.0}) EXPECT_LE(std::abs(difference(sag_share, heavy)), 0.0015);
    for (const double light : {0.01, 0.1, 0.5}) EXPECT_LE(std::abs(difference(sag_share, light)), 0.05);
  }
  EXPECT_GT(difference(0.1, 0.01), 0.0015)
      << "the formula is a parabola's, which shows where the line's own weight rules";
}

TEST(PointOnTheLine, LiesOnTheTextbookCurveWithItsSlope) {
  Draws draws(5);
  for (int i = 0; i < 2000; ++i) {
    const Cable k = draws.line();
    const Load load{draws.place_on(k), draws.weight_on(k)};
    const Shape shape = hang_rolling(k, {&load, 1}).value();
    Piece piece = shape.pieces[draws.one_in(2)];
    piece.unstretched_m *= draws.even(0, 1);
    const Textbook part(k, piece);
    const double x = piece.x_m + static_cast<double>(part.reach_m());
    if (!(x >= 0 && x <= k.span_m)) continue;
    const LinePoint point = line_at(k, shape, x);
    const double slope = static_cast<double>(-part.V_end() / part.H);
    // x is known to a rounding of the length, z to that times the slope.
    const double steep = 1 + std::abs(slope);
    EXPECT_NEAR(point.z_m, piece.z_m - static_cast<double>(part.fall_m()), 1e-12 * k.unstretched_m * steep) << i;
  }
  const Cable k = worked_line();
  const Shape bare = hang(k).value();
  EXPECT_NEAR(line_at(k, bare, 0).z_m, 0, 0);
  EXPECT_NEAR(line_at(k, bare, k.span_m).z_m, k.rise_m, 1e-12 * k.span_m);
  const double h = 1e-4;
  for (const double x : {1.0, 60.0, 110.0, 219.0})
    EXPECT_NEAR(line_at(k, bare, x).slope, (line_at(k, bare, x + h).z_m - line_at(k, bare, x - h).z_m) / (2 * h), 1e-9);
}

TEST(PointOnTheLine, OutsideTheSpanIsNoNumber) {
  const Cable k = worked_line();
  const Shape bare = hang(k).value();
  EXPECT_TRUE(std::isnan(line_at(k, bare, -1e-9).z_m));
  EXPECT_TRUE(std::isnan(line_at(k, bare, 220.0001).slope));
}

TEST(WarmerLine, IsLongerAndWeighsTheSame) {
  const Cable k = worked_line();
  const Cable warm = at_temperature(k, 12e-6, 40);
  EXPECT_DOUBLE_EQ(warm.unstretched_m, k.unstretched_m * 1.00048);
  EXPECT_DOUBLE_EQ(warm.unstretched_m * warm.weight_N_per_m, k.unstretched_m * k.weight_N_per_m);
  EXPECT_LT(hang(warm).value().pieces[0].H_N, hang(k).value().pieces[0].H_N);
  EXPECT_GT(mid_span_sag(warm, hang(warm).value()), mid_span_sag(k, hang(k).value()));
}

TEST(MainLine, SaysWhyItCannotHang) {
  const auto why = [](const Cable& k) {
    const auto shape = hang(k);
    return shape ? std::string("hangs") : shape.error().why;
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(why({0, 0, 100, 10, 0}), "the main line's span is not a positive length");
  EXPECT_EQ(why({nan, 0, 100, 10, 0}), "the main line's span is not a positive length");
  EXPECT_EQ(why({100, nan, 101, 10, 0}), "the main line's rise is not a number");
  EXPECT_EQ(why({100, 0, -101, 10, 0}), "the main line's length is not positive");
  EXPECT_EQ(why({100, 0, 101, 0, 0}), "the main line's weight is not positive");
  EXPECT_EQ(why({100, 0, 101, 10, -1e-9}), "the main line's stretch per newton is negative or no number");
  EXPECT_EQ(why({100, 0, 101, 10, nan}), "the main line's stretch per newton is negative or no number");
  EXPECT_EQ(why({30, 40, 50, 10, 0}), "the main line does not stretch and is no longer than its chord");
  EXPECT_EQ(why({30, 40, 50, 10, 1e-9}), "hangs");
  EXPECT_EQ(why({100, 0, 100 * (1 + 1e-14), 10, 0}),
            "the main line is so straight that its length does not tell its tension");
  EXPECT_EQ(why({100, 0, 100 * (1 + 1e-10), 10, 1e-20}),
            "the main line is so straight that its length does not tell its tension");
  EXPECT_DOUBLE_EQ(hang({30, 40, 49, 10, 0}).error().residual, 1);
  EXPECT_EQ(hang_clamped(worked_line(), 300, 10).error().why, "a load is clamped beyond the ends of the main line");
  EXPECT_EQ(hang_clamped(worked_line(), 100, nan).error().why, "a load on the main line is not a finite weight");
}

}  // namespace
}  // namespace fairlead::mainline
