// What a rig's sweeps say of the travel between their poses holds there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/laws/dense.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

/// Poses are solved to 1e-11 m and 1e-11 of their forces; see laws_test.cpp.
constexpr double solved_to = 1e-8;

void expect_bounds(const Passage& passage, const reeving::Station& now) {
  const reeving::Sweep& sweep = passage.sweep;
  for (std::size_t i = 0; i < sweep.fleet_rad.size(); ++i)
    EXPECT_LE(now.fleet_rad[i], sweep.fleet_rad[i].bound + solved_to) << "sheave " << i;
  EXPECT_LE(now.pose.lead_rad, sweep.lead_rad.bound + solved_to);
  EXPECT_LE(now.pose.extension_m, sweep.greatest_extension_m.bound + solved_to);
  const auto across_m = [&](Point3 p) { return std::abs(dot(p - passage.in.origin, passage.in.across)); };
  EXPECT_LE(across_m(now.pose.attachment), sweep.across_m.bound + solved_to);
  for (std::size_t l = 0; l < passage.in.lines.size(); ++l)
    for (int k = 0; k + 1 <= passage.in.lines[l].sheaves; ++k) {
      const auto sheave = static_cast<std::size_t>(passage.in.lines[l].first_sheave + k);
      if (passage.in.sheaves[sheave].radius_m == 0) continue;
      EXPECT_LE(across_m(passage.leg(now.lines, l, k).to), sweep.across_m.bound + solved_to)
          << "onto sheave " << sheave;
      const bool leads = static_cast<int>(l) == passage.in.braking && k + 1 == passage.in.lines[l].sheaves;
      if (leads) continue;  // to the unit: judged by the lead angle
      EXPECT_LE(across_m(passage.leg(now.lines, l, k + 1).from), sweep.across_m.bound + solved_to)
          << "off sheave " << sheave;
    }
  if (now.pose.travel_m < 0) return;
  if (!sweep.tension_ratio.empty()) {
    EXPECT_GE(now.pose.efficiency, sweep.least_efficiency.bound - solved_to);
  }
  EXPECT_GE(now.pose.pay_out, sweep.least_pay_out.bound - solved_to);
  EXPECT_LE(now.pose.pay_out, sweep.greatest_pay_out + solved_to);
}

void expect_straight(const Passage& passage, const reeving::Station& now, Draw& draw) {
  const reeving::Inputs& in = passage.in;
  const reeving::Sweep& sweep = passage.sweep;
  const double travel_m = now.pose.travel_m;
  const auto after = std::upper_bound(sweep.poses.begin() + 1, sweep.poses.end() - 1, travel_m,
                                      [](double x, const reeving::Pose& pose) { return x < pose.travel_m; });
  const auto p = static_cast<std::size_t>(after - sweep.poses.begin()) - 1;
  const reeving::Pose &a = sweep.poses[p], &b = sweep.poses[p + 1];
  const double part = (travel_m - a.travel_m) / (b.travel_m - a.travel_m);
  const reeving::Stray& stray = sweep.strays[p];
  const auto off = [&](Point3 from, Point3 to, Point3 here) { return norm(here - (from + part * (to - from))); };
  EXPECT_LE(off(a.trolley, b.trolley, now.pose.trolley), stray.trolley_m + solved_to);
  EXPECT_LE(off(a.rider, b.rider, now.pose.rider), stray.rider_m + solved_to);
  const std::size_t blocks = in.blocks.size();
  for (std::size_t i = 0; i < blocks; ++i) {
    const Point3 drawn = in.blocks[i].drawn;
    const Point3 any = drawn + 0.5 * unit(Vec3{draw.between(-1, 1), draw.between(-1, 1), draw.between(-1, 1)});
    EXPECT_LE(off(sweep.blocks[p * blocks + i].placement.move(any, drawn),
                  sweep.blocks[(p + 1) * blocks + i].placement.move(any, drawn), now.lines.blocks[i].move(any, drawn)),
              stray.blocks_m[i] + solved_to);
  }
  constexpr int points = 7;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k <= in.lines[l].sheaves; ++k) {
      const std::size_t leg = in.legs_before(l) + static_cast<std::size_t>(k);
      const auto from = hanging_curve(sweep.legs[p * in.legs() + leg], points),
                 to = hanging_curve(sweep.legs[(p + 1) * in.legs() + leg], points),
                 here = hanging_curve(passage.leg(now.lines, l, k), points);
      for (std::size_t i = 0; i < points; ++i)
        EXPECT_LE(off(from[i], to[i], here[i]), stray.legs_m[leg] + solved_to) << "leg " << leg;
    }
}

void expect_all_bounds(const Wanted& wanted, unsigned rigs) {
  int open = 0, passages = 0;
  for (const unsigned seed : seeds(rigs)) {
    const Rig rig = solve(sensible_layout(seed, wanted), {}, {0.06, 3e-3});
    ASSERT_TRUE(rig.reeving.solved()) << seed;
    Draw draw(seed);
    for (std::size_t s = seed % 2; s < rig.reeving.solved()->sweeps.size(); s += 2) {
      const Passage passage(rig, s);
      ++passages;
      if (!std::isfinite(passage.sweep.greatest_extension_m.bound)) ++open;
      for (int i = 0; i < 60; ++i) {
        const double travel_m = draw.between(passage.from_m(), passage.to_m());
        SCOPED_TRACE(fmt::format("seed {}, sweep {}, travel {}", seed, s, travel_m));
        const reeving::Station now = passage.at(travel_m);
        expect_bounds(passage, now);
        expect_straight(passage, now, draw);
      }
    }
  }
  EXPECT_LE(open, passages / 50) << "bounds that know nothing, of " << passages;
}

TEST(Bounds, OfASweepHoldAtEveryPoseBetweenItsPoses) { expect_all_bounds({}, 40); }

TEST(Bounds, HoldForSheavesThatSwivelHangFreeAndRub) { expect_all_bounds({.mounts = true, .friction = true}, 20); }

}  // namespace
}  // namespace fairlead::laws
