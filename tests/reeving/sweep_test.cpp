// Whole sweeps: what is kept of them, how far it may be trusted, and the peak tension.
#include "geometry/reeving/sweep.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "geometry/reeving/sweep_poses.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

Reeving solved(const Inputs& in, unsigned threads = 1) {
  auto reeving = solve(in, Work{{}, {}, threads});
  EXPECT_TRUE(reeving) << (reeving ? "" : reeving.error().why);
  return reeving ? std::move(*reeving) : Reeving{};
}

TEST(Sweep, ItsPosesRunFromUpstreamThroughTheMarkToFullTravel) {
  const Inputs in = skew_rig();
  const Reeving reeving = solved(in);
  ASSERT_EQ(reeving.sweeps.size(), in.sweeps.size());
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s) {
    const Sweep& sweep = reeving.sweeps[s];
    const bool upstream = in.sweeps[s].rider_weight_N > 0 && sweep.running == Running::at_rest;
    EXPECT_EQ(sweep.poses.front().travel_m, upstream ? in.upstream_m : 0);
    EXPECT_EQ(sweep.poses.back().travel_m, in.travel_m);
    EXPECT_EQ(sweep.poses[static_cast<std::size_t>(sweep.rest_pose)].travel_m, 0);
    EXPECT_EQ(sweep.turns.size(), sweep.poses.size() * in.sheaves.size());
    EXPECT_EQ(sweep.legs.size(), sweep.poses.size() * (in.sheaves.size() + 1));
    for (std::size_t p = 1; p < sweep.poses.size(); ++p)
      EXPECT_LT(sweep.poses[p - 1].travel_m, sweep.poses[p].travel_m);
  }
}

TEST(Sweep, UpstreamOfTheMarkTheTrolleyRestsAndTheRiderComesNearer) {
  const Inputs in = worked_rig();
  const Reeving reeving = solved(in);
  for (const Pose& p : reeving.sweeps[3].poses) {
    EXPECT_DOUBLE_EQ(p.trolley.x, in.rest_m + std::max(0.0, p.travel_m));
    EXPECT_DOUBLE_EQ(p.rider.x, in.rest_m + p.travel_m);
    EXPECT_EQ(std::isnan(p.pay_out), p.travel_m < 0);
  }
  const Sweep& heavy = reeving.sweeps[3];
  EXPECT_LT(heavy.poses[static_cast<std::size_t>(heavy.rest_pose)].trolley.z, heavy.poses.front().trolley.z)
      << "the rider brings the trolley down";
}

TEST(Sweep, TheExtensionOnlyGrowsWithTravelOnARightlyBuiltRig) {
  for (const Inputs& in : {worked_rig(), skew_rig()})
    for (const Sweep& sweep : solved(in).sweeps) {
      EXPECT_GT(sweep.least_pay_out.bound, 0);
      EXPECT_EQ(sweep.greatest_extension_m.value, sweep.poses.back().extension_m);
      EXPECT_EQ(sweep.greatest_extension_m.bound, sweep.greatest_extension_m.value) << "nothing between tops the end";
      for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose) + 1; p < sweep.poses.size(); ++p)
        EXPECT_GT(sweep.poses[p].extension_m, sweep.poses[p - 1].extension_m);
    }
}

TEST(Sweep, ARedirectDownstreamOfTheMarkTakesLineInAtFirst) {
  Inputs in = worked_rig();
  in.sheaves[0].centre.x = in.rest_m + 4;
  in.rest_extension_m = 6;
  in.sweeps.resize(1);
  in.sweeps[0].trolley_weight_N = 20 * g;  // a light one would be lifted off under the redirect
  const Sweep sweep = solved(in).sweeps[0];
  EXPECT_LT(sweep.least_pay_out.value, -0.3);
  EXPECT_LE(sweep.least_pay_out.bound, sweep.least_pay_out.value);
  EXPECT_LT(sweep.poses[static_cast<std::size_t>(sweep.least_pay_out.pose)].travel_m, 4);
}

TEST(Sweep, EveryBoundStandsBeyondItsValueByTheResolutionAtMost) {
  Inputs in = skew_rig();
  for (const double finer : {1.0, 0.25}) {
    in.length_resolution_m = 20e-3 * finer;
    in.angle_resolution_rad = 1e-3 * finer;
    for (const Sweep& s : solved(in).sweeps) {
      for (const Extreme& fleet : s.fleet_rad) {
        EXPECT_GE(fleet.bound, fleet.value);
        EXPECT_LE(fleet.bound, fleet.value + in.angle_resolution_rad);
      }
      EXPECT_GE(s.lead_rad.bound, s.lead_rad.value);
      EXPECT_LE(s.lead_rad.bound, s.lead_rad.value + in.angle_resolution_rad);
      for (const Extreme& length : {s.thickness_m, s.across_m, s.greatest_extension_m}) {
        EXPECT_GE(length.bound, length.value);
        EXPECT_LE(length.bound, length.value + in.length_resolution_m);
      }
      EXPECT_LE(s.least_pay_out.bound, s.least_pay_out.value);
      EXPECT_GE(s.least_pay_out.bound, s.least_pay_out.value - 0.03);
      double most = 0;
      for (const Pose& p : s.poses) most = std::max(most, p.travel_m < 0 ? 0 : p.pay_out);
      EXPECT_GE(s.greatest_pay_out, most);
      EXPECT_LE(s.greatest_pay_out, most + 0.03);
    }
  }
}

TEST(Sweep, TheBoundsOfACoarseSweepHoldWhatAFineOneShows) {
  for (const Inputs& in : {skew_rig(), skew_reduction({.parts = 2}), skew_reduction({.parts = 3, .carried = false})}) {
    Inputs coarse = in, fine = in;
    coarse.length_resolution_m *= 2;
    fine.length_resolution_m /= 10;
    for (const int sweep : {0, 4}) {
      const auto few = solve_sweep(coarse, sweep, outlet_of(in, sweep)),
                 many = solve_sweep(fine, sweep, outlet_of(in, sweep));
      ASSERT_TRUE(few && many);
      ASSERT_LT(2 * few->poses.size(), many->poses.size());
      constexpr double solved_to = 1e-9;
      for (std::size_t i = 0; i < in.sheaves.size(); ++i)
        EXPECT_GE(few->fleet_rad[i].bound + solved_to, many->fleet_rad[i].value) << "sheave " << i;
      EXPECT_GE(few->lead_rad.bound + solved_to, many->lead_rad.value);
      EXPECT_GE(few->across_m.bound + solved_to, many->across_m.value);
      EXPECT_GE(few->thickness_m.bound + solved_to, many->thickness_m.value);
      EXPECT_GE(few->greatest_extension_m.bound + solved_to, many->greatest_extension_m.value);
      EXPECT_LE(few->least_pay_out.bound - solved_to, many->least_pay_out.value);
    }
  }
}

TEST(Sweep, AcrossAndThicknessAreTheGreatestOfTheContactsAndTheAttachment) {
  const Inputs in = skew_rig();
  for (const Sweep& s : solved(in).sweeps) {
    double across = 0;
    for (const Pose& p : s.poses) across = std::max(across, std::abs(p.attachment.y));
    for (std::size_t i = 0; i < s.turns.size(); ++i) {
      across = std::max(across, std::abs(s.turns[i].on.y));
      if (i % 2 == 0) across = std::max(across, std::abs(s.turns[i].off.y));
    }
    EXPECT_DOUBLE_EQ(s.across_m.value, across);
    EXPECT_GT(s.thickness_m.value, 0.05) << "the second sheave stands 0.3 m across";
    EXPECT_LT(s.thickness_m.value, 0.33);
  }
  for (const Sweep& s : solved(worked_rig()).sweeps) EXPECT_LT(s.thickness_m.bound, 1e-9);
}

TEST(Sweep, TheThicknessIsThatOfThePassageAndNotOfItsSteps) {
  Inputs in = skew_rig();
  const Reeving coarse = solved(in);
  in.length_resolution_m /= 8;
  const Reeving fine = solved(in);
  for (std::size_t i = 0; i < in.sweeps.size(); ++i)
    EXPECT_NEAR(coarse.sweeps[i].thickness_m.value, fine.sweeps[i].thickness_m.value, 1e-3) << "sweep " << i;
}

TEST(Sweep, TurnsAndLegsAreWhatTheSheavesFeel) {
  const Inputs in = skew_rig();
  for (const Sweep& s : solved(in).sweeps)
    for (std::size_t p = 0; p < s.poses.size(); p += 7)
      for (std::size_t i = 0; i < 2; ++i) {
        const Turn& t = s.turns[2 * p + i];
        const Leg &before = s.legs[3 * p + i], &after = s.legs[3 * p + i + 1];
        EXPECT_EQ(t.on, before.to);
        EXPECT_EQ(t.off, after.from);
        EXPECT_NEAR(norm(t.on_leg), 1, 1e-12);
        EXPECT_NEAR(norm(t.off_leg), 1, 1e-12);
        EXPECT_NEAR(t.on_tension_N - t.off_tension_N, in.lines[0].weight_N_per_m * (t.on.z - t.off.z), 1e-9)
            << "no friction: over the sheave only the line's own weight";
        EXPECT_NEAR(std::sin(t.on_fleet_rad), dot(t.on_leg, in.sheaves[i].axle), 1e-12);
        EXPECT_LT(norm(t.wrap_centre - in.sheaves[i].centre), in.sheaves[i].radius_m);
        const Vec3 weight{0, 0, -in.lines[0].weight_N_per_m * in.sheaves[i].radius_m * t.wrap_rad};
        EXPECT_NEAR(norm(t.force_N - t.on_tension_N * t.on_leg - t.off_tension_N * t.off_leg - weight), 0, 1e-9);
      }
}

// The peak's own words: drag over every line speed up to the fastest arrival at the greatest rate, with the tolerance,
// plus the retraction at the greatest extension; of the sweeps solved at that very peak.
TEST(Peak, ItIsConsistentWithTheSweepsItIsHeldOn) {
  Inputs in = worked_rig();
  in.unit.tolerance = 0.1;
  const Reeving reeving = solved(in);
  double pay_out = 0, extension = 0;
  for (std::size_t i = 1; i < reeving.sweeps.size(); ++i) {
    pay_out = std::max(pay_out, reeving.sweeps[i].greatest_pay_out);
    extension = std::max(extension, reeving.sweeps[i].greatest_extension_m.bound);
  }
  const double peak = in.unit.greatest_magnetic(in.speed_m_per_s * pay_out) + in.unit.retraction_N(extension);
  EXPECT_GE(reeving.peak_tension_N, peak) << "no sweep may exceed what it was held at";
  EXPECT_LE(reeving.peak_tension_N, peak * (1 + 1e-4));
  for (const Sweep& s : reeving.sweeps)
    for (const Pose& p : s.poses)
      if (s.running == Running::paying_out) {
        EXPECT_EQ(p.outlet_tension_N, reeving.peak_tension_N);
      }
  EXPECT_NEAR(reeving.peak_line_speed_m_per_s, in.speed_m_per_s * pay_out, 1e-4);
}

TEST(Peak, AnEddyUnitPastItsCriticalSpeedPeaksThere) {
  Inputs in = worked_rig();
  in.unit.magnetic_N = EddyLaw{300, 3};
  const Reeving reeving = solved(in);
  EXPECT_NEAR(reeving.peak_tension_N, 300 + reeving.retraction_at_full_N, 1e-3);
}

TEST(Reeving, TheFinishedLengthIsThatOfTheReferenceAtRest) {
  const Inputs in = skew_rig();
  const Reeving reeving = solved(in);
  const Sweep& empty = reeving.sweeps[0];  // on the reference itself
  double length = 0;
  for (std::size_t i = 0; i < 3; ++i) length += empty.legs[i].length_m;
  for (std::size_t i = 0; i < 2; ++i) length += in.sheaves[i].radius_m * empty.turns[i].wrap_rad;
  EXPECT_NEAR(reeving.finished_length_m.front(), length, 1e-9);
}

TEST(Reeving, RunningPastTheRetractionTableIsSaid) {
  Inputs in = worked_rig();
  EXPECT_FALSE(solved(in).sweeps[0].beyond_data);
  in.unit.retraction_N = Curve({{0, 45}, {10, 125}});
  for (const Sweep& s : solved(in).sweeps) EXPECT_TRUE(s.beyond_data);
}

TEST(Reeving, ThreadsDoNotChangeABit) {
  const Inputs in = skew_rig();
  const Reeving one = solved(in), two = solved(in, 2);
  EXPECT_EQ(one.peak_tension_N, two.peak_tension_N);
  for (std::size_t s = 0; s < one.sweeps.size(); ++s) {
    ASSERT_EQ(one.sweeps[s].poses.size(), two.sweeps[s].poses.size());
    EXPECT_EQ(one.sweeps[s].fleet_rad, two.sweeps[s].fleet_rad);
    for (std::size_t p = 0; p < one.sweeps[s].poses.size(); ++p)
      EXPECT_EQ(one.sweeps[s].poses[p].extension_m, two.sweeps[s].poses[p].extension_m);
  }
}

TEST(Reeving, ALineWithTooLittleInTheUnitIsSlack) {
  Inputs in = worked_rig();
  mainline::Cable tighter = in.reference.cable;
  tighter.unstretched_m -= 0.05;  // the cold line stands higher, nearer to the redirect
  in.sweeps = {worked_sweep(0, Running::at_rest)};
  in.sweeps[0].state.cable = tighter;
  in.rest_extension_m = 0.02;
  const auto reeving = solve(in);
  ASSERT_FALSE(reeving);
  EXPECT_EQ(reeving.error().why,
            "at travel 0.000 m the line would have to run 0.027 m into the brake unit: it is slack there; a greater "
            "brake_unit.rest_extension keeps it taut");
}

}  // namespace
}  // namespace fairlead::reeving
