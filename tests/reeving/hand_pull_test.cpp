#include "geometry/reeving/hand_pull.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

std::vector<HandPulls> pulls_of(const Inputs& in) {
  const auto solved = solve(in);
  EXPECT_TRUE(solved) << (solved ? "" : solved.error().why);
  return solved ? hand_pulls(in, *solved) : std::vector<HandPulls>{};
}

/// A sweep for riders besides, without which there is no peak tension.
Inputs with_rider(Inputs in) {
  SweepInputs rider = in.sweeps.front();
  rider.rider_weight_N = 600;
  rider.running = Running::paying_out;
  in.sweeps.push_back(rider);
  return in;
}

/// Weightless.
Inputs held_rig() {
  Inputs in = level_rig(0);
  in.travel_m = 4;
  return with_rider(in);
}

Inputs rubbing_rig(double K) {
  Inputs in = held_rig();
  in.sheaves[0].friction = K;
  std::vector<SweepInputs> sweeps;
  for (const Friction way : {Friction::returning, Friction::paying_out}) {
    sweeps.push_back(in.sweeps[0]);
    sweeps.back().friction = way;
  }
  sweeps.push_back(in.sweeps[1]);
  sweeps.back().friction = Friction::paying_out;
  in.sweeps = sweeps;
  return in;
}

// The main line, 10 kN/m pulled to 1 GN, is level at the mark and rises by 1e-5 of every metre beyond: the trolley of
// 400 N gains 4 mN of slope a metre. The leg's tilt of 5e-6 against the track takes less than a billionth of its pull;
// off mid-span the trolley tilts its own track downward by at most weight over tension times the share of the span.
double own_tilt_N(double travel_m) { return 400 * 400 / 1e9 * travel_m / 100 + 1e-7; }

TEST(HandPull, OnALevelLineIsTheUnitsOwnPull) {
  const auto pulls = pulls_of(held_rig());
  ASSERT_EQ(pulls.size(), 2u) << "as measured, and the one sweep";
  for (const HandPulls& p : pulls) {
    ASSERT_EQ(p.at.size(), 3u);
    EXPECT_EQ(p.at[0].travel_m, 0);
    EXPECT_EQ(p.at[1].travel_m, 2);
    EXPECT_EQ(p.at[2].travel_m, 4);
    for (const HandPull& at : p.at)
      EXPECT_NEAR(*at.along_N, 25 + 0.004 * at.travel_m, own_tilt_N(at.travel_m)) << at.travel_m;
  }
}

// Source LEVEL [own]: over one sheave K times the unit's pull on the way out, 1/K of it on the way back.
TEST(HandPull, FrictionMakesPullingOnHarderAndLettingBackEasier) {
  constexpr double K = 1.09;
  const auto rubbing = pulls_of(rubbing_rig(K));
  ASSERT_EQ(rubbing.size(), 4u) << "both ways as measured, and both sweeps";
  for (const HandPulls& p : rubbing) {
    const double expected_N = p.friction == Friction::paying_out ? 25 * K : 25 / K;
    for (const HandPull& at : p.at) EXPECT_NEAR(*at.along_N, expected_N + 0.004 * at.travel_m, own_tilt_N(at.travel_m));
  }
}

// Frictionless, the balance of the pose along the wheel's track: weight and pull of the line, the main line's push
// being square to it. The pose is solved to 1e-11 of the forces.
TEST(HandPull, IsTheBalanceOfPullAndWeightAlongTheTrack) {
  for (const Inputs& in : {worked_rig(), skew_rig(), two_to_one(), three_to_one(), four_to_one()}) {
    Reeving reeving;
    reeving.rest = {{.sweep = 0, .measured = true}};
    reeving.friction.assign(in.sheaves.size(), 1);
    const auto pulls = hand_pulls(in, reeving);
    ASSERT_EQ(pulls.size(), 1u);
    const SweepInputs sweep = standing(in, 0, true);
    const Outlet outlet = *rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
    for (const HandPull& at : pulls.front().at) {
      const Pose pose = solve_pose(in, sweep, outlet, at.travel_m)->pose;
      const double c = std::cos(pose.tau_rad), s = std::sin(pose.tau_rad);
      const double down_N = sweep.trolley_weight_N * s - dot(pose.pull_on_trolley_N, c * in.along + s * in.up);
      EXPECT_NEAR(*at.along_N, down_N, 1e-7);
    }
    EXPECT_GT(*pulls.front().at[2].along_N, *pulls.front().at[0].along_N) << "the unit pulls harder the more is out";
  }
}

TEST(HandPull, WhereATravelHasNoPoseOnlyThatOneSaysWhy) {
  Inputs in = held_rig();
  const auto solved = solve(in);
  ASSERT_TRUE(solved);
  in.travel_m = 380;  // half of it is still on the line, all of it beyond its end
  const auto pulls = hand_pulls(in, *solved);
  EXPECT_TRUE(pulls[0].at[0].along_N);
  ASSERT_FALSE(pulls[0].at[2].along_N);
  EXPECT_NE(pulls[0].at[2].along_N.error().why, "");
}

}  // namespace
}  // namespace fairlead::reeving
