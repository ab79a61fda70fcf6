// How the wheel answers on the main line, against differences of the solved line; and in bands.
#include "geometry/reeving/wheel.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "tests/reeving/line_steps.hpp"

namespace fairlead::reeving {
namespace {

mainline::Shape hung(const mainline::Cable& cable, double x_m, double weight_N) {
  const mainline::Load load{x_m, weight_N};
  return *mainline::hang_rolling(cable, {&load, 1});
}

TEST(Wheel, ItsSlopeGiveAndTensionAreThoseOfDifferences) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double weight : {20.0, 39.0, 300.0, 1500.0})
      for (const double x : {12.0, 110.0, 188.0, 203.0}) {
        const WheelResponse<double> r = respond(cable, hung(cable, x, weight), 0);
        // The line closes to 1e-12 of 220 m: noise 2e-10 over 2e; third derivatives at most 1e-3 /m2.
        constexpr double e = 1e-2;
        const auto on = hung(cable, x + e, weight).wheels[0], back = hung(cable, x - e, weight).wheels[0];
        EXPECT_NEAR(r.dz_dx, (on.z_m - back.z_m) / (2 * e), 1e-6) << "x " << x << ", W " << weight;
        EXPECT_NEAR(r.tension_per_m(r.dz_dx), (on.tension_N - back.tension_N) / (2 * e), 1e-5 * on.tension_N * 1e-1)
            << "x " << x << ", W " << weight;
        const double dW = 1e-3 * weight;
        const double heavier = hung(cable, x, weight + dW).wheels[0].z_m,
                     lighter = hung(cable, x, weight - dW).wheels[0].z_m;
        EXPECT_NEAR(r.dz_dW_m_per_N, (heavier - lighter) / (2 * dW), 1e-5 * std::abs(r.dz_dW_m_per_N) + 1e-9);
        EXPECT_LT(r.dz_dW_m_per_N, 0);
      }
}

/// The worked line and lines as taut that fall by 15 % or are inextensible.
std::vector<mainline::Cable> zip_lines() {
  mainline::Cable taut = worked_cable(), steep = taut, stiff = taut;
  steep.rise_m = -33;
  steep.unstretched_m = *mainline::length_from_tension(220, -33, taut.weight_N_per_m, taut.compliance_per_N, 15e3,
                                                       mainline::MeasuredAt::horizontal);
  stiff.compliance_per_N = 0;
  stiff.unstretched_m = 220.6;
  return {taut, steep, stiff};
}

TEST(Wheel, ItsBandsHoldEverySolvedLineInTheBoxAndStayNearIt) {
  for (const mainline::Cable& cable : zip_lines())
    for (const double weight : {39.0, 1500.0})
      for (const double x : {110.0, 188.0}) {
        const mainline::Shape middle = hung(cable, x, weight);
        const mainline::Wheel w = middle.wheels[0];
        const LineSide<double> up = side_up(cable, middle, 0), down = side_down(cable, middle, 0);
        constexpr double half_m = 0.05;
        const Band at = around(x, half_m), height = around(w.z_m, half_m), T = around(w.tension_N, 2e-3 * w.tension_N);
        SideBand a{{}, around(up.t_z / up.t_x, 0.01)}, b{{}, around(down.t_z / down.t_x, 0.01)};
        for (int i = 0; i < 3; ++i) {  // from a generous slope to what follows from it
          a = side_between(at, -height, a.slope, T, cable);
          b = side_between(cable.span_m - at, cable.rise_m - height, b.slope, T, cable);
        }
        const double slope = respond(cable, middle, 0).dz_dx;
        const WheelResponse<Band> bands = respond(a.side, b.side, T, around(weight, 0.01 * weight), cable, slope);
        for (const double dx : {-half_m, 0.0, half_m}) {
          const mainline::Shape other = hung(cable, x + dx, weight * (1 + dx / half_m * 0.01));
          const WheelResponse<double> r = respond(cable, other, 0);
          EXPECT_LE(bands.dz_dx.low, r.dz_dx);
          EXPECT_GE(bands.dz_dx.high, r.dz_dx);
          EXPECT_LE(bands.dz_dW_m_per_N.low, r.dz_dW_m_per_N);
          EXPECT_GE(bands.dz_dW_m_per_N.high, r.dz_dW_m_per_N);
          EXPECT_LE(bands.tension_per_m(bands.dz_dx).low, r.tension_per_m(r.dz_dx));
          EXPECT_GE(bands.tension_per_m(bands.dz_dx).high, r.tension_per_m(r.dz_dx));
        }
        // What the bands claim: a slope within 0.015 of the true one on a line that falls by 15 %.
        EXPECT_LT(bands.dz_dx.width(), 0.03) << "x " << x << ", W " << weight;
        EXPECT_LT(bands.dz_dW_m_per_N.width(), 0.2 * bands.dz_dW_m_per_N.greatest_size());
      }
}

// With nothing left to vary the bands still hold the true side, and the slope is told to what the tension's variation
// along it leaves of the centroid.
TEST(Wheel, OfASingleLineTheBandsHoldItsTrueSides) {
  for (const mainline::Cable& cable : zip_lines())
    for (const double x : {110.0, 188.0, 214.0}) {
      const mainline::Shape shape = hung(cable, x, 1500);
      const mainline::Wheel w = shape.wheels[0];
      const auto expect_side = [&](const LineSide<double>& s, double reach_m, double rise_m) {
        const double slope = s.t_z / s.t_x;
        const SideBand band = side_between(reach_m, rise_m, slope, w.tension_N, cable);
        const auto in = [](Band b, double value) {
          EXPECT_LE(b.low, value + 1e-9 * std::abs(value));
          EXPECT_GE(b.high, value - 1e-9 * std::abs(value));
        };
        in(band.slope, slope);
        EXPECT_LT(band.slope.width(), 0.03 * cable.weight_N_per_m * reach_m / w.tension_N);
        in(band.side.nn_m_per_N, s.nn_m_per_N);
        in(band.side.lean, s.lean);
        in(band.side.give_m_per_N, s.give_m_per_N);
      };
      expect_side(side_up(cable, shape, 0), x, -w.z_m);
      expect_side(side_down(cable, shape, 0), cable.span_m - x, cable.rise_m - w.z_m);
    }
}

}  // namespace
}  // namespace fairlead::reeving
