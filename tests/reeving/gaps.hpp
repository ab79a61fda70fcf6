// Random gaps between two poses of a rig, held against random poses in them.
#pragma once

#include <gtest/gtest.h>

#include <random>

#include "geometry/reeving/between.hpp"
#include "tests/reeving/bands.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {

struct Drawn {
  Inputs in;
  SweepInputs sweep;
  Outlet outlet;
  bool solved = false;
};

/// Settles a sweep of a rig: its lengths, and what it is held with where it pays out.
inline Drawn settled(std::mt19937_64& random, Drawn d) {
  d.sweep = d.in.sweeps[random() % d.in.sweeps.size()];
  if (random() % 2 == 0) d.sweep.wind_Pa = uniform(random, -300, 300) * d.in.across;
  const auto rest = rest_outlet(d.in, d.sweep.reference, d.sweep.trolley_weight_N);
  if (!rest) return d;
  d.outlet = *rest;
  if (d.sweep.running == Running::paying_out) d.outlet.held_tension_N = uniform(random, 200, 1200);
  d.solved = true;
  return d;
}

inline Leg hung(const Inputs& in, const Reeved& lines, int line, int k) {
  const MetLeg& met = lines.legs[in.legs_before(static_cast<std::size_t>(line)) + static_cast<std::size_t>(k)];
  const LegEnd from = from_end(in, lines, line, k), to = to_end(in, lines, line, k);
  Leg leg;
  leg.from = from.centre + from.radius_m * met.from_e;
  leg.to = to.centre + to.radius_m * met.to_e;
  leg.length_m = met.hang.length_m;
  leg.H_N = met.hang.horizontal_N();
  leg.load_N_per_m = -met.hang.weight_N_per_m * met.hang.up;
  return leg;
}

inline Point3 part_way(Point3 a, Point3 b, double part) { return a + part * (b - a); }

/// How near the bounds on straying come to what is seen: greatest seen over bound, of gaps that stray at all.
struct Nearest {
  double trolley = 0, block = 0, leg = 0, contact = 0;
};

inline void expect_straight(const Drawn& d, const Between& gap, const Station& a, const Station& b, const Station& at,
                            std::mt19937_64& random, Nearest& nearest) {
  const double part = (at.pose.travel_m - a.pose.travel_m) / (b.pose.travel_m - a.pose.travel_m);
  const auto off = [&](Point3 p, Point3 q, Point3 now) { return norm(now - part_way(p, q, part)); };
  const auto within = [](double seen, double bound, double& near, const char* what) {
    EXPECT_LE(seen, bound) << what;
    if (bound > 1e-5) near = std::max(near, seen / bound);
  };
  within(off(a.pose.trolley, b.pose.trolley, at.pose.trolley), gap.stray.trolley_m, nearest.trolley, "trolley");
  double rider = 0;
  within(off(a.pose.rider, b.pose.rider, at.pose.rider), gap.stray.rider_m, rider, "rider");
  for (std::size_t i = 0; i < d.in.blocks.size(); ++i) {
    const Point3 drawn = d.in.blocks[i].drawn;
    const Vec3 any{uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)};
    const Point3 p = drawn + 0.5 * unit(any);
    within(off(a.lines.blocks[i].move(p, drawn), b.lines.blocks[i].move(p, drawn), at.lines.blocks[i].move(p, drawn)),
           gap.stray.blocks_m[i], nearest.block, "block");
  }
  std::size_t leg = 0;
  constexpr int points = 9;
  for (std::size_t l = 0; l < d.in.lines.size(); ++l)
    for (int k = 0; k <= d.in.lines[l].sheaves; ++k, ++leg) {
      const int line = static_cast<int>(l);
      const auto p = hanging_curve(hung(d.in, a.lines, line, k), points),
                 q = hanging_curve(hung(d.in, b.lines, line, k), points),
                 now = hanging_curve(hung(d.in, at.lines, line, k), points);
      for (std::size_t i = 0; i < points; ++i)
        within(off(p[i], q[i], now[i]), gap.stray.legs_m[leg], nearest.leg, "leg");
      const auto sheave = static_cast<std::size_t>(d.in.lines[l].first_sheave + k);
      const auto contact = [&](std::size_t i, Point3 first, Point3 last, Point3 here) {
        const Vec3 strayed = here - part_way(first, last, part), most = gap.contacts_m[i];
        within(std::abs(dot(strayed, d.in.along)), most.x + 1e-9, nearest.contact, "contact along");
        within(std::abs(dot(strayed, d.in.across)), most.y + 1e-9, nearest.contact, "contact across");
        within(std::abs(dot(strayed, d.in.up)), most.z + 1e-9, nearest.contact, "contact up");
      };
      if (k > 0) contact(2 * sheave - 1, p.front(), q.front(), now.front());
      if (k < d.in.lines[l].sheaves) contact(2 * sheave, p.back(), q.back(), now.back());
    }
}

inline void expect_held(const Between& gap, const Station& at) {
  for (std::size_t i = 0; i < at.fleet_rad.size(); ++i) EXPECT_LE(at.fleet_rad[i], gap.fleet_rad[i]) << "sheave " << i;
  for (std::size_t i = 0; i < at.lines.wrap_rad.size(); ++i) {
    EXPECT_GE(at.lines.wrap_rad[i], gap.wrap_rad[i].low) << "sheave " << i;
    EXPECT_LE(at.lines.wrap_rad[i], gap.wrap_rad[i].high) << "sheave " << i;
  }
  for (std::size_t i = 0; i < at.lines.legs.size(); ++i)
    EXPECT_GE(at.lines.legs[i].hang.least_tension_N(), gap.least_tension_N[i]) << "leg " << i;
  EXPECT_LE(at.pose.lead_rad, gap.lead_rad);
  EXPECT_GE(at.pose.extension_m, gap.extension_m.low);
  EXPECT_LE(at.pose.extension_m, gap.extension_m.high);
  if (at.pose.travel_m >= 0) {
    EXPECT_GE(at.pose.pay_out, gap.pay_out.low);
    EXPECT_LE(at.pose.pay_out, gap.pay_out.high);
  }
}

/// What came of random gaps.
struct Held {
  int proven = 0, gaps = 0;
  Nearest nearest;

  /// Nothing is bounded by giving up.
  void expect_mostly_proven() const { EXPECT_GT(proven, gaps * 9 / 10) << proven << " of " << gaps; }
  /// Nor by more than it takes.
  void expect_near() const {
    EXPECT_GT(nearest.trolley, 0.1);
    EXPECT_GT(nearest.block, 0.1);
    EXPECT_GT(nearest.leg, 0.1);
    EXPECT_GT(nearest.contact, 0.1);
  }
};

/// Random gaps of the rigs that `draw` makes, the widest 10^widest m, each with random poses in it, `draws` poses in
/// all.
template <class Draw>
Held hold(Draw draw, int draws, unsigned seed, double widest = -0.3) {
  std::mt19937_64 random(seed);
  int tried = 0, unsolved = 0;
  Held held;
  while (tried < draws) {
    if (unsolved >= 2000) ADD_FAILURE() << "rigs that cannot be solved prove nothing";
    if (testing::Test::HasFailure()) return held;
    const Drawn d = draw(random);
    if (!d.solved && ++unsolved) continue;
    const bool upstream = d.sweep.rider_weight_N > 0 && !d.outlet.held_tension_N && random() % 3 == 0;
    const double from = upstream ? uniform(random, -4, -0.6) : uniform(random, 0, 1) < 0.3 ? 0 : uniform(random, 0, 12);
    const double step = std::pow(10, uniform(random, -2.5, widest));
    const auto a = solve_pose(d.in, d.sweep, d.outlet, from);
    if (!a && ++unsolved) continue;
    const auto b = solve_pose(d.in, d.sweep, d.outlet, from + step, &*a);
    if (!b && ++unsolved) continue;
    const Between gap = between(d.in, d.sweep, d.outlet, *a, *b);
    ++held.gaps;
    if (!std::isfinite(gap.extension_m.high)) continue;
    ++held.proven;
    for (int i = 0; i < 20; ++i, ++tried) {
      const auto at = solve_pose(d.in, d.sweep, d.outlet, from + uniform(random, 0, step), &*a);
      if (!at) ADD_FAILURE() << at.error().why;
      if (!at) return held;
      expect_held(gap, *at);
      expect_straight(d, gap, *a, *b, *at, random, held.nearest);
    }
    if (testing::Test::HasFailure()) {
      ADD_FAILURE() << "gap of " << step << " m from travel " << from << ", rider " << d.sweep.rider_weight_N
                    << " N, wind " << d.sweep.wind_Pa.y << " Pa, block " << d.in.blocks[0].weight_N << " N, lines "
                    << d.in.lines[0].weight_N_per_m << " N/m, held " << d.outlet.held_tension_N.value_or(0) << " N";
    }
  }
  return held;
}

}  // namespace fairlead::reeving
