#include "geometry/mainline/worst.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <limits>

#include "tests/mainline/oracle.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

/// The textbook's distance along, integrated over the line's weight stretch by stretch.
double moment_by_quadrature(const Cable& k, const Shape& shape) {
  constexpr int slices = 16;  // a slack stretch turns sharply at its lowest point
  double sum = 0;
  for (int i = 0; i <= shape.loads; ++i) {
    const auto along_m = [&, piece = shape.pieces[i]](double s) {
      Piece part = piece;
      part.unstretched_m = s;
      return piece.x_m + static_cast<double>(Textbook(k, part).reach_m());
    };
    const double ds = shape.pieces[i].unstretched_m / slices;
    for (int j = 0; j < slices; ++j)
      sum += boost::math::quadrature::gauss<double, 30>::integrate(along_m, j * ds, (j + 1) * ds);
  }
  return k.weight_N_per_m * sum;
}

/// The closed form takes (H/w)2 from (H/w)2: it loses as many roundings as that outweighs the answer.
double rounding_N_m(const Cable& k, const Shape& shape) {
  double sum = 0;
  for (int i = 0; i <= shape.loads; ++i) {
    const double H = shape.pieces[i].H_N;
    const double steep = 1 + (std::abs(shape.pieces[i].V_N) + k.weight_N_per_m * k.unstretched_m) / H;
    sum += H * H / k.weight_N_per_m * steep;
  }
  return 8 * std::numeric_limits<double>::epsilon() * sum;
}

TEST(WeightMoment, IsTheIntegralOfTheLinesWeightTimesItsPlace) {
  Draws draws(41);
  for (int i = 0; i < 500; ++i) {
    const Cable k = draws.line();
    const Load loads[] = {{k.span_m * draws.even(0.05, 0.45), draws.weight_on(k)},
                          {k.span_m * draws.even(0.5, 0.95), draws.weight_on(k)}};
    const Shape shape = hang_rolling(k, {loads, static_cast<std::size_t>(i % 3)}).value();
    const double size_N_m = k.weight_N_per_m * k.unstretched_m * k.span_m;
    ASSERT_NEAR(weight_moment_N_m(k, shape), moment_by_quadrature(k, shape), 1e-12 * size_N_m + rounding_N_m(k, shape))
        << "draw " << i;
  }
}

TEST(WeightMoment, ClosesTheMomentOfTheWholeLine) {
  const Cable k = worked_line();
  const Load loads[] = {{120, weight_of(150)}, {188, weight_of(4)}};
  for (const std::size_t count : {0u, 1u, 2u}) {
    const Shape shape = hang_rolling(k, {loads, count}).value();
    const SupportForces f = support_forces(k, shape);
    double moment = -f.end_z_N * k.span_m + f.end_x_N * k.rise_m - weight_moment_N_m(k, shape);
    for (std::size_t i = 0; i < count; ++i) {
      const Wheel& wheel = shape.wheels[i];
      moment += -wheel.force_z_N * wheel.x_m + wheel.force_x_N * wheel.z_m;
    }
    EXPECT_NEAR(moment, 0, 1e-11 * std::hypot(f.end_x_N, f.end_z_N) * k.span_m) << count << " loads";
  }
}

TEST(WeightMoment, OfALevelBareLineIsItsWeightAtMidSpan) {
  for (const double compliance_per_N : {0.0, 1e-6}) {
    const Cable k{100, 0, 103, 12, compliance_per_N};
    EXPECT_NEAR(weight_moment_N_m(k, hang(k).value()), 12 * 103 * 50, 1e-9);
  }
}

struct Most {
  double x_m{}, tension_N{};
};

struct WorstRider {
  WorstPlace start, end;
};

/// A rider upstream of the trolley at its worst place for the tension at either support.
Solved<WorstRider> worst_rider(const Cable& k, double rider_N, const Load& trolley, double from_m) {
  const ForceOf tensions[] = {tension_at_start(k), tension_at_end(k)};
  const auto worst = worst_places(k, rider_N, trolley, from_m, trolley.x_m - 0.01, tensions);
  if (!worst) return tl::unexpected(worst.error());
  return WorstRider{worst->at(0), worst->at(1)};
}

double start_tension(const Cable& k, const Shape& shape) {
  const SupportForces f = support_forces(k, shape);
  return std::hypot(f.start_x_N, f.start_z_N);
}

double end_tension(const Cable& k, const Shape& shape) {
  const SupportForces f = support_forces(k, shape);
  return std::hypot(f.end_x_N, f.end_z_N);
}

/// Two thousand places of the rider, each solved anew; the greatest tension of `at`.
template <class At>
Most by_dense_scan(const Cable& k, double rider_N, const Load& trolley, double from_m, At at) {
  constexpr int places = 2000;
  Most most;
  for (int i = 0; i <= places; ++i) {
    const double x = from_m + (trolley.x_m - 0.01 - from_m) * i / places;
    const Load loads[] = {{x, rider_N}, trolley};
    const double T = at(k, hang_rolling(k, loads).value());
    if (T > most.tension_N) most = {x, T};
  }
  return most;
}

TEST(WorstRider, IsTheOneADenseScanFinds) {
  const Cable k = worked_line();
  const Load trolley{188, weight_of(4)};
  const WorstRider worst = worst_rider(k, weight_of(150), trolley, 5).value();
  const Most start = by_dense_scan(k, weight_of(150), trolley, 5, start_tension);
  const Most end = by_dense_scan(k, weight_of(150), trolley, 5, end_tension);
  EXPECT_NEAR(worst.start.rider_x_m, start.x_m, 0.1);
  EXPECT_NEAR(worst.end.rider_x_m, end.x_m, 0.1);
  EXPECT_GE(worst.start.force_N, start.tension_N);
  EXPECT_GE(worst.end.force_N, end.tension_N);
  EXPECT_NEAR(worst.start.force_N, start.tension_N, 1e-3);
  EXPECT_NEAR(worst.end.force_N, end.tension_N, 1e-3);
  EXPECT_GT(worst.start.bound_N, worst.start.force_N) << "what lies between the samples is allowed for";
  EXPECT_GT(worst.end.bound_N, worst.end.force_N);
}

/// Level to steep, half to a hundred times their weight in tension, riders of a fiftieth to fifty line weights.
struct Case {
  explicit Case(Draws& draws) {
    k.span_m = draws.decades(20, 1000);
    k.rise_m = k.span_m * draws.even(-0.4, 0.4);
    k.weight_N_per_m = draws.decades(2, 50);
    const double chord = std::hypot(k.span_m, k.rise_m), weight_N = k.weight_N_per_m * chord;
    const double tension_N = weight_N * draws.decades(0.5, 100), across = k.weight_N_per_m * k.span_m / tension_N;
    k.compliance_per_N = draws.one_in(3) ? 0 : draws.decades(1e-5, 1e-2) / tension_N;
    k.unstretched_m = chord * (1 + across * across / 24) / (1 + k.compliance_per_N * tension_N);
    rider_N = weight_N * draws.decades(0.02, 50);
    trolley = {k.span_m * draws.even(0.5, 0.98), rider_N * draws.decades(1e-3, 1)};
    from_m = k.span_m * draws.even(0.002, 0.2);
  }
  Cable k;
  double rider_N{}, from_m{};
  Load trolley;
};

TEST(WorstRider, ExceedsEveryOtherPlaceAndItsBoundIsNear) {
  Draws draws(42);
  for (int i = 0; i < 40; ++i) {
    const Case c(draws);
    const auto worst = worst_rider(c.k, c.rider_N, c.trolley, c.from_m);
    ASSERT_TRUE(worst) << "draw " << i << ": " << worst.error().why;
    // The hump is as wide as the span, and its top is found to a millimetre.
    const double top = 1 - std::pow(1e-3 / (c.k.span_m / 2), 2);
    const auto holds = [&](const WorstPlace& at, auto tension) {
      const Most dense = by_dense_scan(c.k, c.rider_N, c.trolley, c.from_m, tension);
      EXPECT_GE(at.force_N, top * dense.tension_N) << "draw " << i << ", a rider at " << dense.x_m;
      EXPECT_GE(at.bound_N, at.force_N) << "draw " << i;
      EXPECT_LE(at.bound_N, 1.001 * at.force_N) << "draw " << i << ": of no use so far above";
      EXPECT_DOUBLE_EQ(tension(c.k, at.shape), at.force_N);
      EXPECT_EQ(at.shape.wheels[0].x_m, at.rider_x_m);
      EXPECT_EQ(at.shape.wheels[1].x_m, c.trolley.x_m);
    };
    holds(worst->start, start_tension);
    holds(worst->end, end_tension);
  }
}

TEST(WorstRider, OnAShortStretchIsAtTheEndNearestToMidSpan) {
  const Cable k = worked_line();
  EXPECT_NEAR(worst_rider(k, weight_of(150), {188, weight_of(4)}, 150).value().start.rider_x_m, 150, 2e-3);
  EXPECT_NEAR(worst_rider(k, weight_of(150), {60, weight_of(4)}, 5).value().end.rider_x_m, 59.99, 2e-3);
}

TEST(WorstRider, AloneOnALevelLineIsAtMidSpanForBothEnds) {
  Cable k = worked_line();
  k.rise_m = 0;
  k.unstretched_m = 220.2;
  const ForceOf tensions[] = {tension_at_start(k), tension_at_end(k)};
  const auto worst = worst_places(k, weight_of(150), std::nullopt, 2, 218, tensions);
  ASSERT_TRUE(worst) << worst.error().why;
  // Mirrored places load the other support alike; the rider's own weight draws each toward its support.
  EXPECT_NEAR(worst->at(0).force_N, worst->at(1).force_N, 1e-6 * worst->at(0).force_N);
  EXPECT_NEAR(worst->at(0).rider_x_m + worst->at(1).rider_x_m, 220, 0.1);
  EXPECT_LT(worst->at(0).rider_x_m, 110);
}

TEST(WorstRider, AForceThatIsNotKnownSomewhereHasNoWorst) {
  const Cable k = worked_line();
  const ForceOf broken[] = {[](const Shape& s) { return s.wheels[0].x_m > 100 ? std::nan("") : 1.0; }};
  EXPECT_EQ(worst_places(k, weight_of(150), std::nullopt, 2, 218, broken).error().why,
            "a force of the loaded main line is not known");
}

TEST(WorstRider, SaysWhyThereIsNone) {
  const Cable k = worked_line();
  const Load trolley{188, weight_of(4)};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::string order = "the loads on the main line do not stand in rising x inside its span";
  EXPECT_EQ(worst_rider(k, weight_of(150), trolley, 190).error().why, order);
  EXPECT_EQ(worst_rider(k, weight_of(150), trolley, 0).error().why, order);
  EXPECT_EQ(worst_rider(k, weight_of(150), trolley, nan).error().why, order);
  EXPECT_EQ(worst_rider(k, weight_of(150), {221, weight_of(4)}, 5).error().why, order);
  EXPECT_EQ(worst_rider(k, nan, trolley, 5).error().why, "a load on wheels does not press on the main line");
  EXPECT_EQ(worst_rider(k, weight_of(150), {188, 0}, 5).error().why,
            "a load on wheels does not press on the main line");
}

}  // namespace
}  // namespace fairlead::mainline
