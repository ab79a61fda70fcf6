// Whatever lies between two poses stays within the bounds, and the bounds stay near it.
#include "geometry/reeving/between.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <random>

#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {
namespace {

double uniform(std::mt19937_64& random, double from, double to) {
  return from + (to - from) * static_cast<double>(random() >> 11) * 0x1p-53;
}

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
  in.line_weight_N_per_m = uniform(random, 0, 1) < 0.2 ? 0 : uniform(random, 0.1, 1.4);
  const double length = uniform(random, 0.9995, 1.004);
  const int kind = static_cast<int>(random() % in.sweeps.size());
  for (SweepInputs& s : in.sweeps)
    s.reference.unstretched_m = s.cable.unstretched_m = in.reference.unstretched_m * length;
  d.sweep = in.sweeps[static_cast<std::size_t>(kind)];
  d.outlet.rest_length_m = 0;
  if (const auto rest = rest_length(in, d.sweep.reference, d.sweep.trolley_weight_N)) d.outlet.rest_length_m = *rest;
  if (d.sweep.running == Running::paying_out) d.outlet.held_tension_N = uniform(random, 100, 700);
  return d;
}

void expect_held(const Drawn& d, const Between& gap, const Station& at) {
  const double x = at.pose.travel_m;
  for (std::size_t i = 0; i < at.fleet_rad.size(); ++i) EXPECT_LE(at.fleet_rad[i], gap.fleet_rad[i]) << "travel " << x;
  EXPECT_LE(at.pose.lead_rad, gap.lead_rad) << "travel " << x;
  EXPECT_GE(at.pose.extension_m, gap.extension_m.low) << "travel " << x;
  EXPECT_LE(at.pose.extension_m, gap.extension_m.high) << "travel " << x;
  if (x >= 0) {
    EXPECT_GE(at.pose.pay_out, gap.pay_out.low) << "travel " << x;
    EXPECT_LE(at.pose.pay_out, gap.pay_out.high) << "travel " << x;
  }
  const auto holds = [&](const Swept& s, Point3 p, const char* what) {
    for (const Vec3 axis : {d.in.along, d.in.across, d.in.up, unit({1, -2, 3})})
      EXPECT_LE(std::abs(dot(p - s.middle, axis)), s.half_width(axis) + 1e-9) << what << " at travel " << x;
  };
  holds(gap.attachment, at.pose.attachment, "attachment");
  for (std::size_t i = 0; i < gap.contacts.size(); ++i) {
    const Sheave& s = d.in.sheaves[i / 2];
    const Vec3 e = i % 2 == 0 ? at.line.legs[i / 2].to_e : at.line.legs[i / 2 + 1].from_e;
    holds(gap.contacts[i], s.centre + s.radius_m * e, "contact");
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
      expect_held(d, gap, *at);
    }
    if (HasFailure()) {
      FAIL() << "interval of " << step << " m from travel " << from << ", rider " << d.sweep.rider_weight_N
             << " N, line " << d.in.line_weight_N_per_m << " N/m, held " << d.outlet.held_tension_N.value_or(0) << " N";
    }
  }
  // Nothing is bounded by giving up: all but a few of steps up to a metre are proven at once.
  EXPECT_GT(proven, intervals * 9 / 10) << proven << " of " << intervals;
  std::printf("%d of %d\n", proven, intervals);
}

}  // namespace
}  // namespace fairlead::reeving
