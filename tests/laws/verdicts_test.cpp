// Nearly every sensible layout is solved, whatever cannot be says why; verdicts are the rig's, not its author's; and
// threads change nothing.
#include <gtest/gtest.h>

#include <cstdio>
#include <cstring>

#include "geometry/checks/check.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/moved.hpp"
#include "tests/laws/numbers.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

/// Why a rig is not solved; empty where all of it is.
std::string why_unsolved(const Rig& rig) {
  if (!rig.main_line.solved()) return rig.main_line.result->error().why;
  if (!rig.reeving.solved()) return rig.reeving.result->error().why;
  if (!rig.loads.solved()) return rig.loads.result->error().why;
  if (!rig.clearance.solved()) return rig.clearance.result->error().why;
  return {};
}

TEST(SensibleLayouts, AreSolvedInNineteenOfTwentyCases) {
  int solved = 0, all = 0;
  for (const unsigned seed : seeds(100, Seeds::others)) {
    const std::string why = why_unsolved(solve(sensible_layout(seed), {}, {0.2, 1e-2}));
    ++all;
    if (why.empty())
      ++solved;
    else
      std::printf("seed %u: %s\n", seed, why.c_str());
  }
  EXPECT_GE(20 * solved, 19 * all) << solved << " of " << all;
}

TEST(SensibleLayouts, BalanceToABillionthOfTheirForces) {
  for (const unsigned seed : seeds(40)) {
    SCOPED_TRACE(seed);
    const Rig rig = solve(sensible_layout(seed), {}, {0.1, 5e-3});
    ASSERT_TRUE(rig.loads.solved());
    const loads::Loads& loads = *rig.loads.solved();
    for (const double residual : {loads.worst_force_residual, loads.worst_moment_residual, loads.worst_block_residual,
                                  loads.worst_line_residual, loads.worst_length_residual})
      EXPECT_LE(residual, 1e-9);
    // And summed here once more: what pushes the anchors is what weighs, and what holds the trolley.
    const reeving::Inputs& in = *rig.reeving.inputs;
    for (const loads::LoadCase& one : loads.cases) {
      if (one.sweep < 0 || rig.reeving.solved()->sweeps[static_cast<std::size_t>(one.sweep)].in_wind) continue;
      const auto& sweep = rig.reeving.solved()->sweeps[static_cast<std::size_t>(one.sweep)];
      const reeving::Pose& pose = sweep.poses[static_cast<std::size_t>(one.pose)];
      if (pose.travel_m < 0) continue;  // the rider still runs: nothing holds him
      const reeving::SweepInputs& acting = in.sweeps[static_cast<std::size_t>(one.sweep)];
      double weight_N = acting.trolley_weight_N + acting.rider_weight_N + pose.main_line_weight_N + pose.line_weight_N +
                        rig.loads.inputs->unit_weight_N;
      for (const reeving::Block& block : in.blocks) weight_N += block.weight_N;
      Vec3 left = weight_N * in.up - pose.hold_N;
      for (const Vec3& force : one.on_anchor_N) left += force;
      EXPECT_LE(norm(left), 1e-9 * one.largest_N) << one.name;
    }
  }
}

TEST(SensibleLayouts, AreSolvedAlikeBitForBitOnOneThreadAndOnTwo) {
  for (const unsigned seed : seeds(12)) {
    SCOPED_TRACE(seed);
    const Layout layout = sensible_layout(seed);
    const Resolution coarse{0.1, 5e-3};
    const auto one = numbers_of(solve(layout, {}, coarse)),
               two = numbers_of(solve(layout, {}, coarse, Work{.threads = 2}));
    ASSERT_FALSE(one.empty());
    ASSERT_EQ(one.size(), two.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
      EXPECT_EQ(std::memcmp(&one[i].value, &two[i].value, sizeof(double)), 0) << one[i].what;
      EXPECT_EQ(std::memcmp(&one[i].least, &two[i].least, sizeof(double)), 0) << one[i].what;
    }
  }
}

TEST(SensibleLayouts, AreJudgedAlikeHoweverTheyAreWrittenTurnedOrMirrored) {
  int judged = 0;
  for (const unsigned seed : seeds(3)) {
    SCOPED_TRACE(seed);
    const Layout layout = sensible_layout(seed);
    const std::vector<Finding> here = judge(layout).findings;
    for (const Layout& changed :
         {moved(reversed(layout), {.mirrors = true}), moved(layout, {.turn_rad = -2.2, .shift = {4e5, 3e5, -100}})}) {
      const std::vector<Finding> there = judge(changed).findings;
      ASSERT_EQ(here.size(), there.size());
      for (std::size_t i = 0; i < here.size(); ++i) {
        EXPECT_EQ(here[i].check, there[i].check);
        EXPECT_EQ(here[i].subject, there[i].subject);
        EXPECT_EQ(here[i].verdict, there[i].verdict)
            << here[i].check->name << " of subject " << here[i].subject.index << ": " << here[i].value << " to "
            << here[i].bound << " " << here[i].why << ", then " << there[i].value << " to " << there[i].bound << " "
            << there[i].why;
        if (here[i].verdict == Verdict::pass || here[i].verdict == Verdict::fail) ++judged;
      }
    }
  }
  EXPECT_GT(judged, 30);
}

}  // namespace
}  // namespace fairlead::laws
