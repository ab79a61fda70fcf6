#include <gtest/gtest.h>

#include "geometry/loads/leg_forces.hpp"
#include "tests/loads/reduced.hpp"

namespace fairlead::loads {
namespace {

class Reductions : public testing::TestWithParam<int> {};
INSTANTIATE_TEST_SUITE_P(OneToFour, Reductions, testing::Values(1, 2, 3, 4));

TEST_P(Reductions, BalanceAsAWholeAndInEveryPart) {
  const Loads loads = loads_of(reduced(rig_of(GetParam())));
  for (const double residual : {loads.worst_force_residual, loads.worst_moment_residual, loads.worst_block_residual,
                                loads.worst_line_residual, loads.worst_length_residual})
    EXPECT_LE(residual, 1e-9);
  EXPECT_GT(loads.worst_line_residual, 0) << "sums of rounded numbers that vanish exactly were never summed";
}

// Common practice, no source: with parallel legs and no friction the secondary anchor carries (n + 1) times the
// trolley's force toward the landing. Each of the n + 1 legs pulls with T u; at full travel the trolley's is the
// steepest: it falls by `drop` (the attachment below the sheave's centre, and its radius) over `reach`, so the sum lies
// between the cosine of that slope and 1. The line weighs 10 mg/m: tension is one along it to 1e-5.
TEST_P(Reductions, PullTheSecondaryAnchorTowardTheLandingWithOneMoreThanNTimesTheTrolleysForce) {
  const int n = GetParam();
  const Reduced rig = reduced(rig_of(n, true, 1e-5));
  const Loads loads = loads_of(rig);
  int seen = 0;
  for (const LoadCase& load_case : loads.cases) {
    if (load_case.action != Action::peak_tension || load_case.travel_m < rig.reeving.travel_m) continue;
    ++seen;
    const reeving::Pose& pose =
        rig.reeved.sweeps[static_cast<std::size_t>(load_case.sweep)].poses[static_cast<std::size_t>(load_case.pose)];
    const Vec3 leg = pose.attachment - rig.reeving.sheaves[0].centre;
    const double slope_rad = std::atan2(std::abs(leg.z) + 0.06, leg.x - 0.06);
    const double parts = dot(load_case.on_anchor_N[secondary], rig.reeving.along) / pose.trolley_tension_N;
    EXPECT_LT(parts, (n + 1) * (1 + 1e-5));
    EXPECT_GT(parts, (n + 1) * (std::cos(slope_rad) - 1e-5));
    EXPECT_NEAR(pose.outlet_tension_N / pose.trolley_tension_N, n, n * 1e-2) << "the unit pulls n times as hard";
  }
  EXPECT_GT(seen, 0);
}

TEST(Reductions, AFloatingBlockBalancesToo) {
  const Reduced rig = reduced(rig_of(2, false));
  const Loads loads = loads_of(rig);
  EXPECT_LE(loads.worst_block_residual, 1e-9);
  EXPECT_EQ(loads.blocks[0].lean_N_m.value, 0) << "nothing holds its attitude";
  EXPECT_EQ(loads.blocks[0].lean_N_m.pose, -1);
}

TEST(Reductions, TheForceThroughABlockIsTheGreatestSumOfAnyGroupOfWhatPullsOnIt) {
  const Reduced rig = reduced(rig_of(3));
  const Extreme through = loads_of(rig).blocks[0].force_N;
  const LoadCase governing = loads_of(rig).cases.at(static_cast<std::size_t>(through.pose));
  const reeving::Sweep& sweep = rig.reeved.sweeps[static_cast<std::size_t>(governing.sweep)];
  const auto p = static_cast<std::size_t>(governing.pose);
  const reeving::Leg* legs = &sweep.legs[p * rig.reeving.legs()];
  std::vector<Vec3> forces{-rig.reeving.blocks[0].weight_N * rig.reeving.up,
                           forces_of(legs[rig.reeving.legs_before(1) - 1]).on_to_N,  // the reduction line's dead end
                           forces_of(legs[rig.reeving.legs_before(1)]).on_from_N};
  for (std::size_t i = 0; i < rig.reeving.sheaves.size(); ++i)
    if (rig.reeving.sheaves[i].body == 0) forces.push_back(sweep.turns[p * rig.reeving.sheaves.size() + i].force_N);
  ASSERT_EQ(forces.size(), 5u) << "one sheave and one wheel besides";
  double most = 0;
  for (unsigned group = 1; group < 1u << forces.size(); ++group) {
    Vec3 sum;
    for (std::size_t i = 0; i < forces.size(); ++i)
      if (group >> i & 1) sum += forces[i];
    most = std::max(most, norm(sum));
  }
  EXPECT_NEAR(through.value, most, 1e-9 * most);
}

/// As much as one line over a weightless block: on the one side n T, on the other the unit's line.
TEST(Reductions, TheForceThroughABlockIsThatOfTheBrakingLineButForItsWeight) {
  const Reduced rig = reduced(rig_of(3));
  const Loads loads = loads_of(rig);
  EXPECT_GE(loads.blocks[0].force_N.value, loads.lines[1].from_N.value);
  EXPECT_LE(loads.blocks[0].force_N.value, loads.lines[1].from_N.value + rig.reeving.blocks[0].weight_N);
}

// A line holds no couple inside: moments about its other end say that a couple M on it changes what an anchor carries,
// square to the chord, by M / chord, whatever the line's shape.
TEST(Reductions, TheCoupleThatACarrierHoldsReachesTheSupportLinesAnchorsAsAPair) {
  const Reduced rig = reduced(rig_of(2));
  const Loads loads = loads_of(rig);
  int held = 0;
  for (const LoadCase& load_case : loads.cases) {
    if (load_case.sweep < 0) continue;
    const reeving::Sweep& sweep = rig.reeved.sweeps[static_cast<std::size_t>(load_case.sweep)];
    const auto p = static_cast<std::size_t>(load_case.pose);
    const reeving::Leg* legs = &sweep.legs[p * rig.reeving.legs() + rig.reeving.legs_before(2)];
    const double M = sweep.blocks[p].held_couple_N_m.y, span = norm(legs[1].to - legs[0].from);
    // The line's own pull on its two level anchors from where it stands at them: half of each outer leg's weight and
    // what its chord and its mean tension make.
    const auto upward_N = [](const reeving::Leg& leg, double rise_m) {
      return (leg.from_tension_N + leg.to_tension_N) / 2 * rise_m / leg.length_m - leg.weight_N / 2;
    };
    const double from_N = upward_N(legs[0], legs[0].to.z - legs[0].from.z),
                 to_N = upward_N(legs[1], legs[1].from.z - legs[1].to.z);
    // Right-hand about +y: +M lowers the downstream end.
    EXPECT_NEAR(load_case.on_anchor_N[support_to].z - to_N, M / span, 1e-8) << load_case.name;
    EXPECT_NEAR(load_case.on_anchor_N[support_from].z - from_N, -M / span, 1e-8) << load_case.name;
    held += std::abs(M) > 1;
  }
  EXPECT_GT(held, 0) << "no carrier held more than 1 N m: nothing was seen";
}

TEST(Reductions, EveryDemandIsMetByTheOneCaseThatGovernsIt) {
  const Reduced rig = reduced(rig_of(3));
  const Loads loads = loads_of(rig);
  const auto pose_of = [&](const Extreme& e) -> std::pair<const reeving::Sweep&, std::size_t> {
    const LoadCase& c = loads.cases.at(static_cast<std::size_t>(e.pose));
    return {rig.reeved.sweeps.at(static_cast<std::size_t>(c.sweep)), static_cast<std::size_t>(c.pose)};
  };
  for (std::size_t a = 0; a < loads.demands.size(); ++a) {
    const Extreme force = loads.demands[a].force_N;
    EXPECT_DOUBLE_EQ(norm(loads.cases.at(static_cast<std::size_t>(force.pose)).on_anchor_N[a]), force.value) << a;
    for (const LoadCase& any : loads.cases) EXPECT_LE(norm(any.on_anchor_N[a]), force.value * (1 + 1e-12)) << any.name;
  }
  const std::size_t lines = rig.reeving.lines.size(), sheaves = rig.reeving.sheaves.size();
  for (std::size_t l = 0; l < lines; ++l) {
    const auto [sweep, p] = pose_of(loads.lines[l].tension_N);
    EXPECT_EQ(sweep.tension_N[p * lines + l], loads.lines[l].tension_N.value);
    const auto [at_from, from_pose] = pose_of(loads.lines[l].from_N);
    const auto [at_to, to_pose] = pose_of(loads.lines[l].to_N);
    const std::size_t first = rig.reeving.legs_before(l), legs = rig.reeving.legs();
    const std::size_t last = first + static_cast<std::size_t>(rig.reeving.lines[l].sheaves);
    EXPECT_EQ(at_from.legs[from_pose * legs + first].from_tension_N, loads.lines[l].from_N.value);
    EXPECT_EQ(at_to.legs[to_pose * legs + last].to_tension_N, loads.lines[l].to_N.value);
  }
  for (std::size_t i = 0; i < sheaves; ++i) {
    const auto [sweep, p] = pose_of(loads.sheaves[i].force_N);
    EXPECT_NEAR(norm(sweep.turns[p * sheaves + i].force_N), loads.sheaves[i].force_N.value, 1e-12 * 1e4);
  }
}

TEST(Reductions, CasesStandByActionAndTellNoLength) {
  reeving::Inputs in = rig_of(2);
  in.sweeps.push_back(in.sweeps[3]);
  in.sweeps.back().wind_Pa = {0, 1, 0};  // too weak to govern much
  const Loads loads = loads_of(reduced(in));
  std::vector<Action> actions;
  for (const LoadCase& c : loads.cases) {
    actions.push_back(c.action);
    EXPECT_EQ(c.name.find_first_of("0123456789"), std::string::npos) << c.name;
    EXPECT_LT(norm(c.out_of_balance_N), 1e-9 * c.largest_N) << c.name;
    EXPECT_LT(norm(c.out_of_balance_N_m), 1e-9 * c.largest_N * 250) << c.name;
  }
  EXPECT_TRUE(std::ranges::is_sorted(actions));
  for (const Action action : {Action::at_rest, Action::wind, Action::peak_tension, Action::rider_on_span})
    EXPECT_TRUE(std::ranges::count(actions, action)) << static_cast<int>(action);
  EXPECT_TRUE(std::ranges::any_of(loads.cases, [](const LoadCase& c) {
    return c.action == Action::wind && c.travel_m == 0;
  })) << "each passage in the wind is listed at the mark, whatever governs";
  const auto named = [&](const char* name) {
    return std::ranges::any_of(loads.cases, [&](const LoadCase& c) { return c.name == name; });
  };
  EXPECT_TRUE(named("at rest, empty, cold"));
  EXPECT_TRUE(named("side wind from the right, heaviest rider, cold")) << "it blows to the left, across";
  EXPECT_TRUE(named("peak line tension, heaviest rider, cold"));
  EXPECT_TRUE(named("peak line tension, lightest rider, cold"));
  for (const char* weather : {"cold", "warm"})
    for (const char* support : {"start", "landing"})
      EXPECT_TRUE(
          named((std::string("heaviest rider on the open span, ") + weather + ", worst for the " + support + " support")
                    .c_str()));
}

TEST(Reductions, TheMainLinePullsHardestWithTheHeaviestRiderOnTheOpenSpan) {
  const Reduced rig = reduced(rig_of(2));
  const Loads loads = loads_of(rig);
  const LoadCase& governing = loads.cases.at(static_cast<std::size_t>(loads.main_line.force_N.pose));
  EXPECT_EQ(governing.action, Action::rider_on_span);
  double in_zone_N = 0;
  for (const reeving::Sweep& sweep : rig.reeved.sweeps)
    for (const reeving::Pose& pose : sweep.poses)
      in_zone_N = std::max({in_zone_N, norm(pose.start_support_N), norm(pose.end_support_N)});
  EXPECT_GT(loads.main_line.force_N.value, in_zone_N);
  EXPECT_NEAR(loads.main_line.force_N.value, norm(governing.on_anchor_N[start]), 1e-9 * 2e4) << "the higher support";
}

// The supports carry what hangs on the line: the brake trolley only as far as its own line does not lift it.
TEST(Reductions, OnTheOpenSpanTheSupportsCarryRiderTrolleyAndLineLessWhatTheBrakingLineLifts) {
  const Reduced rig = reduced(rig_of(2));
  const reeving::Pose& upstream = rig.reeved.sweeps[3].poses.front();
  const reeving::SweepInputs& carried = rig.reeving.sweeps[3];
  const double weight_N = carried.rider_weight_N + carried.trolley_weight_N + upstream.main_line_weight_N,
               lift_N = upstream.pull_on_trolley_N.z;
  ASSERT_GT(lift_N, 10);
  int spans = 0;
  for (const LoadCase& c : loads_of(rig).cases) {
    if (c.action != Action::rider_on_span) continue;
    ++spans;
    EXPECT_NEAR(c.on_anchor_N[start].z + c.on_anchor_N[landing].z, lift_N - weight_N, 1e-9 * c.largest_N) << c.name;
  }
  EXPECT_EQ(spans, 4);
}

}  // namespace
}  // namespace fairlead::loads
