// What must balance at a pose: every derivative against differences, every block's equilibrium summed anew.
#include "geometry/reeving/balance.hpp"

#include <gtest/gtest.h>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

struct Rig {
  const char* name;
  Inputs in;
};
std::vector<Rig> rigs() {
  Inputs windy = skew_reduction({.parts = 3});
  for (SweepInputs& s : windy.sweeps) s.wind_Pa = {3, 40, 0};
  // A great sheave, so that the line on its wrap weighs.
  Inputs great = two_to_one_floating();
  great.sheaves[1].radius_m = 0.3;
  great.sheaves[1].centre.z -= 0.25;
  great.lines[0].to.at.z -= 0.5;
  return {{"1:1", skew_rig()},
          {"2:1 carried", two_to_one()},
          {"2:1 floating", two_to_one_floating()},
          {"2:1 floating, a great sheave", great},
          {"3:1 carried, askew, in wind", windy},
          {"4:1 floating, askew", skew_reduction({.parts = 4, .carried = false})}};
}

Station pose_of(const Inputs& in, int sweep, double travel_m) {
  auto pose = solve_pose(in, in.sweeps[sweep], outlet_of(in, sweep), travel_m);
  EXPECT_TRUE(pose) << (pose ? "" : pose.error().why);
  return pose ? *pose : Station{};
}

// Each unknown is moved both ways from a pose a little out of balance. The third derivatives are T / l^2 and the like
// at the shortest leg or radius (0.05 m, T = 500 N in units of it: 400 / m^2): e^2 400 / 6 = 7e-9 of the greatest
// entry of its kind, T / r = 20; and contacts met to 1e-12 rad over e.
TEST(Balance, ItsAnswersAreThoseOfDifferences) {
  for (const Rig& rig : rigs())
    for (const int sweep : {3, 4}) {
      const Inputs& in = rig.in;
      const Outlet outlet = outlet_of(in, sweep);
      Station at = pose_of(in, sweep, 2);
      Balance balance(in, in.sweeps[sweep], outlet, 2, at);
      const int n = balance.size();
      std::vector<double> off(n, 1e-3);
      balance.advance(off, 1);
      ASSERT_TRUE(balance.hang());
      Square J;
      balance.answer(J);
      const Unknowns here = balance.unknowns();
      constexpr double e = 1e-5, bound = 3e-7;
      for (int j = 0; j < n; ++j) {
        std::vector<double> step(n, 0.0), up;
        step[j] = e;
        balance.advance(step, 1);
        ASSERT_TRUE(balance.hang());
        up.assign(balance.residual().begin(), balance.residual().end());
        balance.set(here);
        balance.advance(step, -1);
        ASSERT_TRUE(balance.hang());
        for (int i = 0; i < n; ++i)
          EXPECT_NEAR(J(i, j), (up[i] - balance.residual()[i]) / (2 * e), bound * (1 + std::abs(J(i, j))))
              << rig.name << ", sweep " << sweep << ": row " << i << ", column " << j;
        balance.set(here);
      }
    }
}

// The extension is solved to 1e-10 m, and all to a like share: 1e-6 over 2e-4 m; third derivatives below 1 /m^2.
TEST(Balance, RatesAlongTheTravelAreThoseOfDifferences) {
  for (const Rig& rig : rigs())
    for (const int sweep : {0, 3, 4}) {
      const Inputs& in = rig.in;
      constexpr double x = 4, e = 1e-4, bound = 5e-6;
      const Station at = pose_of(in, sweep, x), up = pose_of(in, sweep, x + e), down = pose_of(in, sweep, x - e);
      const auto rate = [&](double a, double b) { return (a - b) / (2 * e); };
      EXPECT_NEAR(at.pose.pay_out, rate(up.pose.extension_m, down.pose.extension_m), bound) << rig.name;
      EXPECT_DOUBLE_EQ(at.pose.ratio, 1 / at.pose.pay_out);
      EXPECT_NEAR(at.rates.slope, rate(up.pose.trolley.z, down.pose.trolley.z), bound) << rig.name;
      const double scale = 1 + std::abs(at.rates.carried_N_per_m);
      EXPECT_NEAR(at.rates.carried_N_per_m, rate(up.carried_N, down.carried_N), bound * 10 * scale) << rig.name;
      for (std::size_t l = 0; l < in.lines.size(); ++l)
        EXPECT_NEAR(at.rates.tension_N_per_m[l], rate(up.lines.tension[l].at_N, down.lines.tension[l].at_N),
                    bound * 10 * scale)
            << rig.name << " line " << l;
      for (std::size_t b = 0; b < in.blocks.size(); ++b) {
        const Placement &p = up.lines.blocks[b], &q = down.lines.blocks[b], &mid = at.lines.blocks[b];
        EXPECT_NEAR(norm(at.rates.blocks[b].shift - (1 / (2 * e)) * (p.at - q.at)), 0, bound) << rig.name;
        const Vec3 turned = (1 / (2 * e)) * (p.turned_x - q.turned_x);
        EXPECT_NEAR(norm(cross(at.rates.blocks[b].turn, mid.turned_x) - turned), 0, bound) << rig.name;
      }
    }
}

/// Sum of forces on a block, and of moments about the site's own origin: pulls where legs begin, loads of wraps where
/// they act, weight, and the carrier's couple.
void expect_equilibrium(const Inputs& in, const Station& s, const SweepInputs& sweep, const char* name) {
  for (int b = 0; b < int(in.blocks.size()); ++b) {
    const Block& block = in.blocks[b];
    const Placement& place = s.lines.blocks[b];
    Vec3 force, moment;
    const auto add = [&](Point3 at, Vec3 f) {
      force += f;
      moment += cross(at - in.blocks[b].drawn, f);
    };
    add(place.move(block.centre_of_mass, block.drawn), -block.weight_N * in.up);
    double greatest = block.weight_N;
    for (int l = 0; l < int(in.lines.size()); ++l)
      for (int k = 0; k <= in.lines[l].sheaves; ++k) {
        const MetLeg& leg = s.lines.legs[in.legs_before(l) + k];
        const LegEnd from = from_end(in, s.lines, l, k), to = to_end(in, s.lines, l, k);
        if (from_body(in, l, k) == b) add(from.centre + from.radius_m * leg.from_e, leg.hang.from_pull_N());
        if (to_body(in, l, k) == b) add(to.centre + to.radius_m * leg.to_e, leg.hang.to_pull_N());
        greatest = std::max(greatest, leg.hang.from_tension_N());
        if (k == 0 || from_body(in, l, k) != b || from.radius_m == 0) continue;
        // The arc in a thousand pieces.
        const Sheave sheave = placed(in, s.lines, in.lines[l].first_sheave + k - 1);
        const double wrap = s.lines.wrap_rad[in.lines[l].first_sheave + k - 1];
        const Vec3 on_e = s.lines.legs[in.legs_before(l) + k - 1].to_e;
        const Vec3 load = in.lines[l].diameter_m * sweep.wind_Pa - in.lines[l].weight_N_per_m * in.up;
        constexpr int pieces = 1000;
        for (int i = 0; i < pieces; ++i) {
          const double angle = wrap * (i + 0.5) / pieces;
          const Vec3 e = std::cos(angle) * on_e + sheave.sense * std::sin(angle) * cross(sheave.axle, on_e);
          add(sheave.centre + sheave.radius_m * e, (sheave.radius_m * wrap / pieces) * load);
        }
      }
    moment += s.held_couple_N_m[b];
    EXPECT_NEAR(norm(force), 0, 1e-9 * greatest) << name;
    // The middle of each piece stands for it to (wrap / pieces)^2 / 24 of the load's 0.3 N times 0.05 m.
    EXPECT_NEAR(norm(moment), 0, 1e-8 * greatest) << name;
    EXPECT_TRUE(block.joint == Joint::carrier || s.held_couple_N_m[b] == Vec3{}) << name;
  }
}

TEST(Balance, EveryBlockIsInEquilibrium) {
  for (const Rig& rig : rigs())
    for (const int sweep : {0, 1, 3, 4})
      for (const double travel_m : {-3.5, 0.0, 3.0, 15.0}) {
        if (travel_m < 0 && sweep != 1) continue;
        expect_equilibrium(rig.in, pose_of(rig.in, sweep, travel_m), rig.in.sweeps[sweep], rig.name);
      }
}

TEST(Balance, EveryLineHasItsLengthAndTheUnitPullsAsItsRetractionSays) {
  for (const Rig& rig : rigs()) {
    const Inputs& in = rig.in;
    const Outlet outlet = outlet_of(in, 3);
    const Station s = pose_of(in, 3, 5);
    for (std::size_t l = 0; l < in.lines.size(); ++l) {
      double sum = 0;
      const double c = in.lines[l].compliance_per_N;
      for (int k = 0; k <= in.lines[l].sheaves; ++k) {
        const Catenary& leg = s.lines.legs[in.legs_before(l) + k].hang;
        sum += leg.length_m * (1 - c * (leg.from_tension_N() + leg.to_tension_N()) / 2);
      }
      for (int i = in.lines[l].first_sheave; i < in.lines[l].first_sheave + in.lines[l].sheaves; ++i)
        sum +=
            in.sheaves[i].radius_m * s.lines.wrap_rad[i] * (1 - c * s.lines.tension[l](placed(in, s.lines, i).centre));
      const double own =
          in.lines[l].closing == Closing::length ? in.reference.unstretched_m[l] : outlet.unstretched_m[l];
      const double out_m = static_cast<int>(l) == in.braking ? s.pose.extension_m - in.rest_extension_m : 0;
      EXPECT_NEAR(sum, own + out_m, 1e-10) << rig.name << " line " << l;
    }
    EXPECT_NEAR(s.pose.outlet_tension_N, in.unit.retraction_N(s.pose.extension_m), 1e-8) << rig.name;
    EXPECT_NEAR(norm(s.pose.pull_on_unit_N), s.pose.outlet_tension_N, 1e-8) << rig.name;
  }
}

TEST(Balance, AtRestTheBlockStandsAtItsPlaceAndThePoseThereIsTheRestPosition) {
  for (const Rig& rig : rigs()) {
    const Inputs& in = rig.in;
    if (in.blocks.empty() || norm(in.sweeps[0].wind_Pa) > 0) continue;
    const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
    ASSERT_TRUE(rest) << rig.name;
    EXPECT_NEAR(dot(rest->lines.blocks[0].at - in.origin, in.along), *in.blocks[0].rest_m, 1e-10);
    const Station pose = pose_of(in, 0, 0);
    EXPECT_NEAR(pose.pose.extension_m, in.rest_extension_m, 1e-9) << rig.name;
    EXPECT_NEAR(norm(pose.lines.blocks[0].at - rest->lines.blocks[0].at), 0, 1e-7) << rig.name;
  }
}

}  // namespace
}  // namespace fairlead::reeving
