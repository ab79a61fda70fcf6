#include <gtest/gtest.h>

#include <cmath>

#include "geometry/rig/rig.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const loads::Loads& loads_of(const Rig& rig) {
  if (!rig.loads.solved()) throw std::runtime_error(rig.loads.result->error().why);
  return *rig.loads.solved();
}

std::size_t anchor(const Rig& rig, const std::string& id) {
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i)
    if (rig.layout.anchors[i].id.value == id) return i;
  throw std::runtime_error("no anchor " + id);
}

TEST(Loads, EveryPoseOfTheDemoBalances) {
  const Rig rig = solve(demo_layout());
  const loads::Loads& loads = loads_of(rig);
  EXPECT_LT(loads.worst_force_residual, 1e-9);
  EXPECT_LT(loads.worst_moment_residual, 1e-9);
  EXPECT_GT(loads.worst_force_residual, 0) << "sums of rounded numbers that vanish exactly were never summed";
}

// A sheave's resultant is 2 T cos(half the angle between its legs), the angle-factor table of the rigging handbooks
// (read in three of them); as the legs become parallel the secondary anchor carries (n + 1) = 2 times the trolley's
// force (common practice, no source). The line weighs 0.01 N/m here: over the
// sheave's height of 0.16 m its tension changes by 0.002 N, and the wrap weighs as much.
TEST(Loads, TheSecondaryAnchorCarriesTwiceTheTrolleyForceOnParallelLegs) {
  const Rig rig = solve(demo_layout({{"line.L1.mass", "'1 g/m'"}}));
  const loads::Loads& loads = loads_of(rig);
  const std::size_t redirect = anchor(rig, "A3");
  const reeving::Reeving& reeved = *rig.reeving.solved();
  for (std::size_t s = 0; s < reeved.sweeps.size(); ++s) {
    if (!(rig.reeving.inputs->sweeps[s].wind_Pa == Vec3{})) continue;
    const reeving::Sweep& sweep = reeved.sweeps[s];
    for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
      const reeving::Turn& turn = sweep.turns[p];
      const double T = turn.on_tension_N, angle_rad = std::acos(dot(turn.on_leg, turn.off_leg));
      EXPECT_NEAR(norm(turn.force_N), 2 * T * std::cos(angle_rad / 2), 0.005);
      EXPECT_GT(dot(turn.force_N, rig.frame.along), 0) << "all legs pull the secondary anchor toward the landing";
      EXPECT_TRUE(p + 1 < sweep.poses.size() || norm(turn.force_N) / T > 1.99) << "nearly parallel at full travel";
    }
  }
  EXPECT_GT(loads.demands[redirect].force_N.value, 0);
}

TEST(Loads, SupportsOfTheOpenSpanCarryTheWeightAndPullEachOtherAlongTheLine) {
  const Rig rig = solve(demo_layout());
  const loads::Loads& loads = loads_of(rig);
  int spans = 0;
  for (const loads::LoadCase& load_case : loads.cases) {
    if (load_case.action != loads::Action::rider_on_span) continue;
    ++spans;
    const Vec3 start = load_case.on_anchor_N[anchor(rig, "P1")], end = load_case.on_anchor_N[anchor(rig, "P2")];
    EXPECT_GT(dot(start, rig.frame.along), 0) << "the line pulls its start toward the landing";
    EXPECT_LT(dot(end, rig.frame.along), 0);
    const double carried_N = (120 + 2.5 + 6) * standard_gravity;
    EXPECT_LT(start.z + end.z, -carried_N) << "both supports together carry rider, trolleys and line";
  }
  EXPECT_EQ(spans, 4) << "for either support, cold and warm";
}

TEST(Loads, AnAnchorWithAWeakCapacityDoesNotChangeWhatItCarries) {
  const Rig strong = solve(demo_layout()), weak = solve(demo_layout({{"anchor.B1.wll", "'0.1 kN'"}}));
  const std::size_t unit = anchor(strong, "B1");
  EXPECT_EQ(loads_of(strong).demands[unit].force_N, loads_of(weak).demands[unit].force_N);
}

TEST(Loads, OneUnknownForceAnywhereLeavesTheLoadsUnsolved) {
  const Rig rig = solve(demo_layout());
  const reeving::Reeving& known = *rig.reeving.solved();
  for (const std::size_t p : {std::size_t{0}, known.sweeps[0].poses.size() / 2, known.sweeps[0].poses.size() - 1}) {
    reeving::Reeving unknown = known;
    unknown.sweeps[0].poses[p].pull_on_unit_N.x = std::nan("");
    const auto loads = loads::solve(*rig.loads.inputs, *rig.main_line.solved(), *rig.reeving.inputs, unknown);
    EXPECT_FALSE(loads.has_value()) << "pose " << p;
  }
}

TEST(Loads, AForceThatIsLeftOutIsNoticed) {
  const Rig rig = solve(demo_layout());
  reeving::Reeving short_of_one = *rig.reeving.solved();
  short_of_one.sweeps[2].legs[1].load_N_per_m = {};
  const auto loads = loads::solve(*rig.loads.inputs, *rig.main_line.solved(), *rig.reeving.inputs, short_of_one);
  ASSERT_FALSE(loads.has_value());
  EXPECT_EQ(loads.error().why, "the tension of a line does not follow from its load alone");
  EXPECT_GT(loads.error().residual, 1e-9);
}

TEST(Loads, TheCasesOfTheOpenSpanAreBalancedToo) {
  const Rig rig = solve(demo_layout());
  for (const loads::LoadCase& load_case : loads_of(rig).cases) {
    EXPECT_GT(load_case.largest_N, 1e3) << load_case.name;
    EXPECT_LT(norm(load_case.out_of_balance_N), 1e-9 * load_case.largest_N) << load_case.name;
    EXPECT_LT(norm(load_case.out_of_balance_N_m), 1e-9 * load_case.largest_N * 220) << load_case.name;
  }
}

}  // namespace
}  // namespace fairlead
