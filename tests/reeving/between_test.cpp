// Whatever lies between two poses stays within the bounds, and the bounds stay near it.
#include "geometry/reeving/between.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <numbers>
#include <random>

#include "tests/reeving/bands.hpp"
#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {
namespace {

struct Drawn {
  Inputs in;
  SweepInputs sweep;
  Outlet outlet;
};

/// A rig moved about: redirect near or far, sheaves of any usual size, light and heavy line, taut and slack main line.
Drawn draw(std::mt19937_64& random) {
  Drawn d{uniform(random, 0, 1) < 0.5 ? worked_rig() : skew_rig(), {}, {}};
  Inputs& in = d.in;
  Sheave& redirect = in.sheaves.front();
  redirect.centre =
      redirect.centre + Vec3{uniform(random, -3, 0.3), uniform(random, -0.1, 0.1), uniform(random, -0.3, 1)};
  redirect.axle = unit(redirect.axle + Vec3{uniform(random, -0.05, 0.05), 0, uniform(random, -0.05, 0.05)});
  for (Sheave& s : in.sheaves) s.radius_m *= uniform(random, 0.5, 2);
  in.lines[0].weight_N_per_m = uniform(random, 0, 1) < 0.2 ? 0 : uniform(random, 0.1, 1.4);
  const double length = uniform(random, 0.9995, 1.004);
  const int kind = static_cast<int>(random() % in.sweeps.size());
  for (SweepInputs& s : in.sweeps)
    s.reference.cable.unstretched_m = s.state.cable.unstretched_m = in.reference.cable.unstretched_m * length;
  d.sweep = in.sweeps[static_cast<std::size_t>(kind)];
  d.outlet.unstretched_m = {0};
  if (const auto rest = rest_outlet(in, d.sweep.reference, d.sweep.trolley_weight_N)) d.outlet = *rest;
  if (d.sweep.running == Running::paying_out) d.outlet.held_tension_N = uniform(random, 100, 700);
  return d;
}

void expect_held(const Drawn& d, const Between& gap, const Station& a, const Station& b, const Station& at) {
  const double x = at.pose.travel_m;
  for (std::size_t i = 0; i < at.fleet_rad.size(); ++i) EXPECT_LE(at.fleet_rad[i], gap.fleet_rad[i]) << "travel " << x;
  EXPECT_LE(at.pose.lead_rad, gap.lead_rad) << "travel " << x;
  EXPECT_GE(at.pose.extension_m, gap.extension_m.low) << "travel " << x;
  EXPECT_LE(at.pose.extension_m, gap.extension_m.high) << "travel " << x;
  if (x >= 0) {
    EXPECT_GE(at.pose.pay_out, gap.pay_out.low) << "travel " << x;
    EXPECT_LE(at.pose.pay_out, gap.pay_out.high) << "travel " << x;
  }
  const double part = (x - a.pose.travel_m) / (b.pose.travel_m - a.pose.travel_m);
  const auto off = [&](Point3 first, Point3 last, Point3 now) { return norm(now - (first + part * (last - first))); };
  EXPECT_LE(off(a.pose.attachment, b.pose.attachment, at.pose.attachment), gap.stray.trolley_m) << "travel " << x;
  EXPECT_LE(off(a.pose.rider, b.pose.rider, at.pose.rider), gap.stray.rider_m) << "travel " << x;
  for (std::size_t i = 0; i < gap.contacts_m.size(); ++i) {
    const Sheave& s = d.in.sheaves[i / 2];
    const auto contact = [&](const Station& pose) {
      return s.centre + s.radius_m * (i % 2 == 0 ? pose.lines.legs[i / 2].to_e : pose.lines.legs[i / 2 + 1].from_e);
    };
    const Vec3 strayed = contact(at) - (contact(a) + part * (contact(b) - contact(a))), most = gap.contacts_m[i];
    EXPECT_LE(std::abs(dot(strayed, d.in.along)), most.x + 1e-9) << "contact " << i << ", travel " << x;
    EXPECT_LE(std::abs(dot(strayed, d.in.across)), most.y + 1e-9) << "contact " << i << ", travel " << x;
    EXPECT_LE(std::abs(dot(strayed, d.in.up)), most.z + 1e-9) << "contact " << i << ", travel " << x;
  }
}

TEST(BetweenPoses, OfTwentyThousandRandomPosesNoneLeavesItsBounds) {
  std::mt19937_64 random(20240611);
  int tried = 0, proven = 0, intervals = 0;
  while (tried < 20000) {
    const Drawn d = draw(random);
    const bool upstream = d.sweep.rider_weight_N > 0 && !d.outlet.held_tension_N && random() % 4 == 0;
    const double from = upstream ? uniform(random, -4, -0.3) : uniform(random, 0, 1) < 0.5 ? 0 : uniform(random, 0, 14);
    const double step = std::pow(10, uniform(random, -3, upstream ? -0.6 : 0));
    const auto a = solve_pose(d.in, d.sweep, d.outlet, from);
    if (!a) continue;  // a light trolley may be lifted off: no pose, no bound
    const auto b = solve_pose(d.in, d.sweep, d.outlet, from + step, &*a);
    if (!b) continue;
    const Between gap = between(d.in, d.sweep, d.outlet, *a, *b);
    ++intervals;
    if (!std::isfinite(gap.extension_m.high)) continue;
    ++proven;
    for (int i = 0; i < 25; ++i, ++tried) {
      const auto at = solve_pose(d.in, d.sweep, d.outlet, from + uniform(random, 0, step), &*a);
      ASSERT_TRUE(at) << at.error().why;
      expect_held(d, gap, *a, *b, *at);
    }
    if (HasFailure()) {
      FAIL() << "interval of " << step << " m from travel " << from << ", rider " << d.sweep.rider_weight_N
             << " N, line " << d.in.lines[0].weight_N_per_m << " N/m, held " << d.outlet.held_tension_N.value_or(0)
             << " N";
    }
  }
  // Nothing is bounded by giving up: all but a few of the intervals, up to a metre long, are proven at once.
  EXPECT_GT(proven, intervals * 95 / 100) << proven << " of " << intervals;
}

// How near the bounds stay: on the skew rig the fleet angle of an interval is bounded within 0.1 of the angle the leg
// swings by, the pay-out within 4 % and what it changes by, and the extension, where it only rises, exactly.
TEST(BetweenPoses, TheBoundsStayNearWhatTheyBound) {
  const Inputs in = skew_rig();
  for (const int sweep : {0, 1, 3, 4})
    for (const double from : {0.0, 1.0, 8.0})
      for (const double step : {0.25, 0.01}) {
        const SweepInputs& s = in.sweeps[static_cast<std::size_t>(sweep)];
        const Outlet outlet = outlet_of(in, sweep);
        const auto a = solve_pose(in, s, outlet, from), b = solve_pose(in, s, outlet, from + step);
        ASSERT_TRUE(a && b);
        const Between gap = between(in, s, outlet, *a, *b);
        const double swing = step / a->lines.legs[0].hang.length_m;
        for (std::size_t i = 0; i < in.sheaves.size(); ++i)
          EXPECT_LE(gap.fleet_rad[i] - std::max(a->fleet_rad[i], b->fleet_rad[i]), 0.1 * swing + 2e-9);
        const double low = std::min(a->pose.pay_out, b->pose.pay_out),
                     high = std::max(a->pose.pay_out, b->pose.pay_out);
        EXPECT_GE(gap.pay_out.low, low - 0.04 - (high - low));
        EXPECT_LE(gap.pay_out.high, high + 0.04 + (high - low));
        EXPECT_LE(gap.extension_m.high, b->pose.extension_m + 1e-8);
        EXPECT_GE(gap.extension_m.low, a->pose.extension_m - 1e-8);
      }
}

// Source BP [own]: 20,000 random balls about the end of a straight leg, no violation, tight to 1e-5.
TEST(BetweenPoses, TheFleetAngleOfAStraightLegStaysWithinItsBallsBound) {
  std::mt19937_64 random(7);
  double least_slack = 1;
  for (int i = 0; i < 20000; ++i) {
    const auto any = [&] { return Vec3{uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)}; };
    const Sheave sheave{{1, 2, 3}, unit(any()), uniform(random, 0.02, 0.1), 1};
    const Point3 end = sheave.centre + uniform(random, 0.3, 20) * unit(any());
    const double ball_m = std::pow(10, uniform(random, -6, -0.7));
    const double bound = fleet_bound(sheave, end, ball_m);
    // Half of the points where the bound is reached if anywhere: nearer, and off the groove's plane.
    const double h = dot(end - sheave.centre, sheave.axle);
    const Vec3 worst = unit((h < 0 ? -1.0 : 1.0) * sheave.axle);
    const Point3 p = end + (i % 2 == 0 ? uniform(random, 0, 1) * ball_m * unit(any()) : ball_m * worst);
    const auto leg = meet(point_end(p), arriving(sheave), Tension{100, 0, 0});
    if (!leg) {
      EXPECT_NEAR(bound, std::numbers::pi / 2, 1e-12) << "no leg, so no bound";
      continue;
    }
    const double fleet = std::abs(fleet_angle(leg->hang.to_pull_N(), sheave.axle));
    EXPECT_LE(fleet, bound + 1e-12);
    least_slack = std::min(least_slack, bound - fleet);
  }
  EXPECT_LT(least_slack, 1e-5);
}

TEST(BetweenPoses, WhatIsNotKnownIsInfinite) {
  const Inputs in = worked_rig();
  const Outlet outlet = outlet_of(in, 0);
  const auto a = solve_pose(in, in.sweeps[0], outlet, 0), b = solve_pose(in, in.sweeps[0], outlet, 14.9);
  ASSERT_TRUE(a && b);
  const Between gap = between(in, in.sweeps[0], outlet, *a, *b);  // fifteen metres at one go
  EXPECT_EQ(gap.extension_m.high, std::numeric_limits<double>::infinity());
  EXPECT_EQ(gap.pay_out.low, -std::numeric_limits<double>::infinity());
  EXPECT_EQ(gap.fleet_rad[0], std::numbers::pi / 2);
  EXPECT_EQ(gap.lead_rad, std::numbers::pi);
}

}  // namespace
}  // namespace fairlead::reeving
