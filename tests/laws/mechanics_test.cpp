// Work, ratio and anchor forces of many layouts against what they must be.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "geometry/reeving/pose.hpp"
#include "geometry/rig/rig.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

using reeving::Catenary;
using reeving::Inputs;
using reeving::Outlet;
using reeving::Station;

constexpr Resolution coarse{0.2, 1e-2};

/// Height of a line's weight over its datum, legs and wraps, and of the blocks' over where they are drawn, in joules.
double lifted_J(const Inputs& in, const Station& s) {
  double sum = 0;
  for (std::size_t b = 0; b < in.blocks.size(); ++b) {
    const Point3 centre = in.blocks[b].centre_of_mass;
    sum += in.blocks[b].weight_N * dot(s.lines.blocks[b].move(centre, in.blocks[b].drawn) - centre, in.up);
  }
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const double w = in.lines[l].weight_N_per_m;
    const reeving::Tension& tension = s.lines.tension[l];
    for (int k = 0; k <= in.lines[l].sheaves; ++k) {
      const Catenary& c = s.lines.legs[in.legs_before(l) + static_cast<std::size_t>(k)].hang;
      // Integral of T along a catenary, less the datum's T over its length: that of w (z - datum).
      if (w > 0)
        sum += (c.to_V_N * c.to_tension_N() - c.from_V_N * c.from_tension_N()) / (2 * w) +
               c.horizontal_N() * norm(c.level()) / 2 - tension.at_N * c.length_m;
      const int i = in.lines[l].first_sheave + k;
      if (k == in.lines[l].sheaves || in.sheaves[static_cast<std::size_t>(i)].radius_m == 0) continue;
      const reeving::Sheave sheave = placed(in, s.lines, i);
      const double half = s.lines.wrap_rad[static_cast<std::size_t>(i)] / 2;
      const Vec3 on = s.lines.legs[in.legs_before(l) + static_cast<std::size_t>(k)].to_e;
      const Vec3 middle = std::cos(half) * on + sheave.sense * std::sin(half) * cross(sheave.axle, on);
      const Point3 centroid = sheave.centre + (sheave.radius_m * std::sin(half) / half) * middle;
      sum += w * 2 * sheave.radius_m * half * dot(centroid - tension.datum, in.up);
    }
  }
  return sum;
}

/// Integral of a retraction table over the extension, its end segments continued.
double drawn_J(const Curve& retraction, double from_m, double to_m) {
  return (retraction(from_m) + retraction(to_m)) / 2 * (to_m - from_m);  // the generator's has one segment
}

/// A contact with a fleet angle f that turns by t about its axle loses (or gains) T r (1 - cos f) t. No more than this
/// over all contacts of a line, the turns seen from the site and from the block that carries the sheave.
double fleet_loss_J(const Inputs& in, std::size_t line, const Station& before, const Station& after) {
  double sum = 0;
  const std::size_t first = in.legs_before(line);
  const auto contact = [&](int sheave, double fleet_rad, double tension_N, Vec3 e_before, Vec3 e_after) {
    const reeving::Sheave& s = in.sheaves[static_cast<std::size_t>(sheave)];
    double turn = norm(e_after - e_before);
    if (s.body >= 0) {
      const auto of_body = [&](const Station& at, Vec3 e) {
        const reeving::Placement& p = at.lines.blocks[static_cast<std::size_t>(s.body)];
        return Vec3{dot(p.turned_x, e), dot(p.turned_y, e), dot(p.turned_z, e)};
      };
      turn += norm(of_body(after, e_after) - of_body(before, e_before));
    }
    sum += tension_N * s.radius_m * (1 - std::cos(fleet_rad)) * turn;
  };
  for (int k = 0; k < in.lines[line].sheaves; ++k) {
    const int sheave = in.lines[line].first_sheave + k;
    const std::size_t leg = first + static_cast<std::size_t>(k), i = static_cast<std::size_t>(sheave);
    const double fleet = std::max(before.fleet_rad[i], after.fleet_rad[i]),
                 tension =
                     std::max(before.lines.legs[leg].hang.to_tension_N(), after.lines.legs[leg].hang.to_tension_N());
    contact(sheave, fleet, tension, before.lines.legs[leg].to_e, after.lines.legs[leg].to_e);
    contact(sheave, fleet, tension, before.lines.legs[leg + 1].from_e, after.lines.legs[leg + 1].from_e);
  }
  return sum;
}

/// Work along a whole passage, and what it may be wrong by.
struct Work {
  double put_in_J{}, stored_J{}, open_J{};
};

Work work_of(const Inputs& in, const reeving::SweepInputs& sweep, const Outlet& outlet) {
  Work work;
  const auto pose = [&](double travel_m) {
    auto solved = solve_pose(in, sweep, outlet, travel_m);
    if (!solved) throw std::runtime_error(solved.error().why);
    return std::move(*solved);
  };
  // Gauss' rule of five points on each panel: exact for polynomials of the ninth degree.
  constexpr std::array<double, 3> node{0, 0.5384693101056831, 0.9061798459386640},
      weight{0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  constexpr int panels = 24;
  const double half_m = in.travel_m / panels / 2;
  Station before = pose(0);
  const Station first = before;
  for (int p = 0; p < panels; ++p) {
    const double middle_m = (2 * p + 1) * half_m;
    for (int i = -2; i <= 2; ++i) {
      const auto n = static_cast<std::size_t>(std::abs(i));
      const Station s = pose(middle_m + half_m * std::copysign(node[n], i));
      work.put_in_J -= half_m * weight[n] * dot(s.pose.pull_on_trolley_N, in.along + s.rates.slope * in.up);
    }
    const Station after = pose(2 * (p + 1) * half_m);
    // What stretches a line stores its tension times its stretch; by the trapezoid, wrong by less than the rectangle.
    for (std::size_t l = 0; l < in.lines.size(); ++l) {
      const auto stretch = [&](const Station& s) { return s.lines.length_m[l] - s.lines.unstretched_m[l]; };
      const double more_m = stretch(after) - stretch(before),
                   more_N = after.lines.tension[l].at_N - before.lines.tension[l].at_N;
      work.stored_J += (after.lines.tension[l].at_N + before.lines.tension[l].at_N) / 2 * more_m;
      work.open_J += std::abs(more_N * more_m) / 2;
    }
    for (std::size_t l = 0; l < in.lines.size(); ++l) work.open_J += fleet_loss_J(in, l, before, after);
    before = after;
  }
  const double paid_out_m = before.pose.extension_m - first.pose.extension_m;
  work.stored_J += outlet.held_tension_N
                       ? *outlet.held_tension_N * paid_out_m
                       : drawn_J(in.unit.retraction_N, first.pose.extension_m, before.pose.extension_m);
  work.stored_J += lifted_J(in, before) - lifted_J(in, first);
  return work;
}

/// Poses are solved to 1e-11 of their forces, the greatest of them the main line's 20 kN.
constexpr double solved_to_N = 2e-7;

/// Every passage with a rider in still air.
void hold_work(const Wanted& wanted) {
  for (const unsigned seed : seeds(40)) {
    SCOPED_TRACE(seed);
    const Rig rig = solve(sensible_layout(seed, wanted), {}, coarse);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    const Inputs& in = *rig.reeving.inputs;
    for (const reeving::SweepInputs& sweep : in.sweeps) {
      if (norm(sweep.wind_Pa) > 0 || sweep.rider_weight_N == 0) continue;
      auto outlet = reeving::rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
      ASSERT_TRUE(outlet);
      if (sweep.running == reeving::Running::paying_out) outlet->held_tension_N = rig.reeving.solved()->peak_tension_N;
      const Work work = work_of(in, sweep, *outlet);
      EXPECT_NEAR(work.put_in_J, work.stored_J, work.open_J + solved_to_N * in.travel_m);
    }
  }
}

TEST(Work, OfTheTrolleyGoesIntoTheUnitTheWeightsAndTheStretchOfTheLines) { hold_work({.askew = false}); }
TEST(Work, LosesNoMoreOverSheavesAskewThanTheirFleetAnglesTake) { hold_work({}); }

/// Greatest angle off the level along of all legs but a support line's.
double widest_rad(const Inputs& in, const reeving::Sweep& sweep, std::size_t pose) {
  double widest = 0;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    if (in.lines[l].to.body == reeving::on_ground && in.lines[l].from.body == reeving::on_ground) continue;
    for (int k = 0; k <= in.lines[l].sheaves; ++k) {
      const reeving::Leg& leg = sweep.legs[pose * in.legs() + in.legs_before(l) + static_cast<std::size_t>(k)];
      const Vec3 chord = leg.to - leg.from;
      widest = std::max(widest, std::acos(std::abs(dot(chord, in.along)) / norm(chord)));
    }
  }
  return widest;
}

/// A layout of n:1 with legs longer by that, and lines that weigh and stretch nothing worth telling.
Rig long_legged(unsigned seed, int parts, double reach_m) {
  Layout layout = sensible_layout(seed, {.parts = parts, .reach_m = reach_m, .line_kg_per_m = 1e-5});
  for (fairlead::Line& line : layout.lines) line.ea_N.reset();
  return solve(std::move(layout), {}, coarse);
}

/// Calls hold(rig, seed) of reductions on legs longer and longer.
template <class Hold>
void for_long_legs(const Hold& hold) {
  for (const unsigned seed : seeds(12))
    for (const int parts : {1, 2, 3, 4})
      for (const double reach_m : {20.0, 80.0}) {
        SCOPED_TRACE(fmt::format("seed {}, {}:1, {} m", seed, parts, reach_m));
        const Rig rig = long_legged(seed, parts, reach_m);
        ASSERT_TRUE(rig.loads.solved()) << rig.loads.result->error().why;
        hold(rig, parts);
      }
}

// Straight legs off the level by no more than a; for one metre along, the block moves b aside and the trolley s up.
// Then the parts shorten by n (1 - a^2/2 to 1, +- a b) for a metre of the block, the trolley's leg lengthens by
// 1 - a^2/2 to 1, +- a s, for one of the trolley, and the braking line by what the block moves likewise.
TEST(Reduction, PaysOutOneInItsNumberOverLongLegs) {
  for_long_legs([](const Rig& rig, int n) {
    const Inputs& in = *rig.reeving.inputs;
    const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[0];
    const std::size_t last = sweep.poses.size() - 1;
    const reeving::Pose& pose = sweep.poses[last];
    double b = 0;
    if (!in.blocks.empty()) {
      const Vec3 moved = sweep.blocks[last].placement.at - sweep.blocks[last - 1].placement.at;
      b = norm(cross(moved, in.along)) / std::abs(dot(moved, in.along));
    }
    const double a = widest_rad(in, sweep, last), s = std::abs(std::tan(pose.tau_rad));
    const double most = a * a + a * (2 * b + s);
    EXPECT_NEAR(pose.pay_out * n, 1, most);
    EXPECT_LT(most, 0.02) << "legs this steep say nothing";
  });
}

// n parts and the trolley's leg lead to the secondary anchor, each within a of the level. A line of 1e-4 N/m pulls by
// 1e-4 N more a metre up, of 50 N.
TEST(Reduction, LoadsItsSecondaryAnchorWithOnePartMoreThanItsNumber) {
  constexpr double weight_share = 1e-5;
  int held = 0;
  for_long_legs([&](const Rig& rig, int n) {
    const Inputs& in = *rig.reeving.inputs;
    const int secondary = rig.loads.inputs->sheave_anchor.front();
    for (const loads::LoadCase& one : rig.loads.solved()->cases) {
      if (one.sweep < 0 || one.travel_m < 0.9 * in.travel_m) continue;
      const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[static_cast<std::size_t>(one.sweep)];
      const reeving::Pose& pose = sweep.poses[static_cast<std::size_t>(one.pose)];
      const double a = widest_rad(in, sweep, static_cast<std::size_t>(one.pose));
      const double share = dot(one.on_anchor_N[static_cast<std::size_t>(secondary)], in.along) / pose.trolley_tension_N;
      EXPECT_NEAR(share, n + 1, (n + 1) * a * a / 2 + weight_share);
      ++held;
    }
  });
  EXPECT_GT(held, 0);
}

}  // namespace
}  // namespace fairlead::laws
