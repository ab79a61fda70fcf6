// Over a box that is one pose the rates in bands are that pose's own.
#include "geometry/reeving/interval_rates.hpp"

#include <gtest/gtest.h>

#include <random>

#include "geometry/reeving/wheel.hpp"
#include "tests/reeving/bands.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

/// Askew on great sheaves with heavy lines that stretch, so that wraps, fleet angles and their couples tell.
Inputs coarse_rig(int parts, bool carried) {
  Inputs in = skew_reduction({.parts = parts, .carried = carried, .weight_N = 90, .line_kg_per_m = 0.08});
  int i = 0;
  for (Sheave& s : in.sheaves) {
    if (s.radius_m == 0) continue;
    ++i;
    s.radius_m *= 1.5;
    s.axle = unit(s.axle + Vec3{0.12 * (i % 2 == 0 ? 1 : -1), 0, 0.1});
  }
  in.lines[0].compliance_per_N = in.lines[1].compliance_per_N = 1 / 0.05e6;
  return in;
}

void expect_rate(Band band, double exact, double size, const char* what) {
  EXPECT_NEAR(band.middle(), exact, 1e-7 * size) << what;
  EXPECT_LT(band.width(), 1e-7 * size) << what << ": the box is one pose";
}
void expect_rate(const Band3& band, Vec3 exact, double size, const char* what) {
  expect_rate(band.x, exact.x, size, what);
  expect_rate(band.y, exact.y, size, what);
  expect_rate(band.z, exact.z, size, what);
}

/// With the redirect on a mount beside the plane.
Inputs mounted(Inputs in, Joint joint) {
  Sheave& redirect = in.sheaves[0];
  redirect.body = static_cast<Body>(in.blocks.size());
  in.blocks.push_back({.drawn = redirect.centre + Vec3{-0.3, 0.02, 0.1},
                       .centre_of_mass = redirect.centre + Vec3{0, 0.03, 0},
                       .weight_N = 40,
                       .joint = joint,
                       .hinge_axis = joint == Joint::hinge ? unit({0.1, -0.2, 1}) : Vec3{}});
  return in;
}

/// Of every leg, against differences of poses: what a lower order makes of them bounds their error.
void expect_tension_rates(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, const Station& at,
                          const IntervalRates& equations, const IntervalLegs& legs, const BandRates& rates) {
  constexpr double step_m = 0.02, solved_to = 1e-8 / step_m;
  const auto pulls = [&](double away_m) {
    return solve_pose(in, sweep, outlet, at.pose.travel_m + away_m, &at)->lines.leg_tension;
  };
  const auto near = pulls(step_m), far = pulls(2 * step_m), nearer = pulls(-step_m), farther = pulls(-2 * step_m);
  for (std::size_t i = 0; i < in.legs(); ++i) {
    const double low = (near[i].at_N - nearer[i].at_N) / (2 * step_m),
                 high = (4 * low - (far[i].at_N - farther[i].at_N) / (4 * step_m)) / 3;
    EXPECT_NEAR(equations.tension_rate(legs.leg(i), legs, rates).middle(), high, std::abs(high - low) + solved_to)
        << "leg " << i;
  }
}

// Source: the pose solver's rates, which its own tests hold to differences.
class OfOnePose : public testing::TestWithParam<Friction> {};

TEST_P(OfOnePose, TheyAreThePosesOwn) {
  for (const bool held : {false, true})
    for (const double wind_Pa : {0.0, 200.0})
      for (const Inputs& in :
           {worked_rig(), skew_rig(), coarse_rig(2, true), coarse_rig(2, false), coarse_rig(3, true),
            coarse_rig(3, false), coarse_rig(4, true), mounted(worked_rig(), Joint::ball),
            mounted(coarse_rig(2, true), Joint::ball), mounted(coarse_rig(3, false), Joint::hinge)}) {
        SweepInputs sweep = in.sweeps[held ? 4 : 3];
        sweep.friction = GetParam();
        sweep.wind_Pa = wind_Pa * in.across;
        auto outlet = rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
        ASSERT_TRUE(outlet) << outlet.error().why;
        if (held) outlet->held_tension_N = 600;
        if (sweep.friction != Friction::none) *outlet = rubbing(in, sweep, *outlet, 1.09);
        const auto at = solve_pose(in, sweep, *outlet, 2.5);
        ASSERT_TRUE(at) << at.error().why;

        Box box(in);
        box.height_m() = dot(at->pose.trolley - in.origin, in.up);
        box.extension_m() = at->pose.extension_m;
        for (std::size_t l = 0; l < in.lines.size(); ++l) box.tension_N(l) = at->lines.tension[l].at_N;
        IntervalLegs legs(in, sweep, *at, 0);
        ASSERT_TRUE(legs.hang(box));
        const auto response = respond(sweep.state.cable, at->shape, 0);
        const WheelResponse<Band> wheel{response.dz_dx, response.dz_dW_m_per_N, response.tension_level_N_per_m,
                                        response.tension_steep_N_per_m};
        IntervalRates equations(in, true);
        BandRates rates;
        ASSERT_TRUE(equations.solve(legs, box, wheel, at->retraction_slope, rates));

        SCOPED_TRACE(testing::Message() << in.nominal_ratio << ":1, " << in.sheaves.size() << " sheaves, wind "
                                        << wind_Pa << " Pa, held " << held);
        expect_rate(rates.height, at->rates.slope, 1, "slope");
        expect_rate(rates.extension, at->pose.pay_out, 1, "pay-out");
        for (std::size_t l = 0; l < in.lines.size(); ++l)
          expect_rate(rates.tension_N[l], at->rates.tension_N_per_m[l], at->lines.tension[l].at_N, "tension");
        for (std::size_t b = 0; b < in.blocks.size(); ++b) {
          expect_rate(rates.shift[b], at->rates.blocks[b].shift, 1, "block's shift");
          expect_rate(rates.turn[b], at->rates.blocks[b].turn, 1, "block's turn");
        }
        expect_tension_rates(in, sweep, *outlet, *at, equations, legs, rates);
      }
}

INSTANTIATE_TEST_SUITE_P(IntervalRates, OfOnePose,
                         testing::Values(Friction::none, Friction::paying_out, Friction::returning));

// Upstream of the mark the trolley's height drives everything: by differences of poses whose rider stands elsewhere.
TEST(IntervalRates, UpstreamOfTheMarkTheyArePerRiseOfTheRestingTrolley) {
  for (const Inputs& in : {skew_rig(), coarse_rig(2, true), coarse_rig(2, false)}) {
    const SweepInputs& sweep = in.sweeps[1];
    const auto outlet = rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
    ASSERT_TRUE(outlet) << outlet.error().why;
    const auto at = solve_pose(in, sweep, *outlet, -1), before = solve_pose(in, sweep, *outlet, -1.01),
               after = solve_pose(in, sweep, *outlet, -0.99);
    ASSERT_TRUE(at && before && after) << at.error().why;
    const double rise = after->pose.trolley.z - before->pose.trolley.z;
    Box box(in);
    box.height_m() = dot(at->pose.trolley - in.origin, in.up);
    box.extension_m() = at->pose.extension_m;
    for (std::size_t l = 0; l < in.lines.size(); ++l) box.tension_N(l) = at->lines.tension[l].at_N;
    IntervalLegs legs(in, sweep, *at, 0);
    ASSERT_TRUE(legs.hang(box));
    IntervalRates equations(in, false);
    BandRates rates;
    ASSERT_TRUE(equations.solve(legs, box, {}, at->retraction_slope, rates));
    // Differences over 2 cm of the rider's way: to their second order.
    constexpr double close = 2e-4;
    const auto expect = [&](Band band, double change, const char* what) {
      EXPECT_NEAR(band.middle(), change / rise, close * (1 + std::abs(band.middle()))) << what;
    };
    expect(rates.extension, after->pose.extension_m - before->pose.extension_m, "extension");
    for (std::size_t l = 0; l < in.lines.size(); ++l)
      expect(rates.tension_N[l], after->lines.tension[l].at_N - before->lines.tension[l].at_N, "tension");
    for (std::size_t b = 0; b < in.blocks.size(); ++b) {
      const Vec3 moved = after->lines.blocks[b].at - before->lines.blocks[b].at;
      expect(rates.shift[b].x, moved.x, "block along");
      expect(rates.shift[b].y, moved.y, "block across");
      expect(rates.shift[b].z, moved.z, "block up");
    }
  }
}

// Rodrigues' rotation of a vector about a random one, for turns up to a radian.
TEST(IntervalRates, WhatTurnsWithABlockLiesWhereItsTurnTakesIt) {
  const Inputs in = two_to_one_floating();
  const SweepInputs& sweep = in.sweeps[0];
  const auto at = solve_pose(in, sweep, outlet_of(in, 0), 1);
  ASSERT_TRUE(at) << at.error().why;
  const IntervalLegs legs(in, sweep, *at, 0);
  std::mt19937_64 random(3);
  const auto any = [&] {
    const auto part = [&] { return uniform(random, -1, 1); };
    return Vec3{part(), part(), part()};
  };
  double nearest = 0;
  for (int i = 0; i < 2000; ++i) {
    const Vec3 turn = 0.5 * any(), v = any();
    const double angle = norm(turn);
    const Vec3 n = (1 / angle) * turn,
               rotated = std::cos(angle) * v + std::sin(angle) * cross(n, v) + ((1 - std::cos(angle)) * dot(n, v)) * n;
    Box box(in);
    const double parts[] = {turn.x, turn.y, turn.z};
    for (int k = 0; k < 3; ++k) box.turn_rad(0)[k] = parts[k];
    const Band3 band = legs.turned(0, v, box);
    for (const auto& [b, x] : {std::pair{band.x, rotated.x}, {band.y, rotated.y}, {band.z, rotated.z}}) {
      EXPECT_GE(x, b.low - 1e-12);
      EXPECT_LE(x, b.high + 1e-12);
      nearest = std::max(nearest, 2 * std::abs(x - b.middle()) / b.width());
    }
  }
  EXPECT_GT(nearest, 0.9) << "a bound nothing comes near says nothing";
}

}  // namespace
}  // namespace fairlead::reeving
