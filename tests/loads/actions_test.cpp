#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "geometry/loads/cases.hpp"
#include "geometry/mainline/worst.hpp"
#include "geometry/rig/air.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead::loads {
namespace {

const Rig& all() {
  static const Rig rig = solve(everything());
  return rig;
}

TEST(Actions, EveryCaseOfEveryActionBalances) {
  std::set<Action> actions;
  for (const LoadCase& load_case : loads_of(all()).cases) {
    actions.insert(load_case.action);
    EXPECT_LT(norm(load_case.out_of_balance_N), 1e-9 * load_case.largest_N) << load_case.name;
    EXPECT_LT(norm(load_case.out_of_balance_N_m), 1e-9 * load_case.largest_N * 220) << load_case.name;
  }
  EXPECT_EQ(actions.size(), 12u);
  EXPECT_LT(loads_of(all()).worst_force_residual, 1e-9);
  EXPECT_LT(loads_of(all()).worst_moment_residual, 1e-9);
}

TEST(Actions, TheGoverningCaseOfEveryAnchorHoldsItsDemandAndNoCaseExceedsIt) {
  const Loads& loads = loads_of(all());
  for (std::size_t a = 0; a < loads.demands.size(); ++a) {
    const Extreme& demand = loads.demands[a].force_N;
    if (demand.pose < 0) continue;
    EXPECT_DOUBLE_EQ(norm(loads.cases[static_cast<std::size_t>(demand.pose)].on_anchor_N[a]), demand.value);
    for (const LoadCase& load_case : loads.cases)
      EXPECT_LE(norm(load_case.on_anchor_N[a]), demand.value * (1 + 1e-9)) << load_case.name;
  }
}

TEST(Actions, WithoutTheirKeysThereAreOnlyThePassagesAndTheRiderOnTheSpan) {
  const Rig rig = solve(demo_layout());
  for (const LoadCase& load_case : loads_of(rig).cases) EXPECT_LE(load_case.action, Action::rider_on_span);
  EXPECT_TRUE(rig.loads.inputs->weather.empty());
  EXPECT_NE(std::ranges::find(rig.assumptions,
                              "backup_brake: no load case has what it pulls on its anchor: on and force are not given"),
            rig.assumptions.end());
}

// A ring of ice: density x g x pi t (d + t) per metre (own computation).
TEST(Ice, WeighsAsARingRoundTheLineAndTheTrolleyIsSpreadAlongIt) {
  const Rig rig = solve(demo_layout({{"site.ice_thickness", "'12 mm'"}, {"site.ice_temperature", "'-15 C'"}}));
  const Weather& ice = rig.loads.inputs->weather.at(0);
  const mainline::Cable& bare = rig.main_line.solved()->states[static_cast<std::size_t>(ice.state)].cable;
  const double ring_N_per_m = 900 * standard_gravity * std::numbers::pi * 0.012 * (0.016 + 0.012);
  const double trolley_N = rig.layout.brake_trolley.mass_kg * standard_gravity;
  EXPECT_EQ(ice.main_line.cable.unstretched_m, bare.unstretched_m) << "the coldest it gets is the ice's temperature";
  EXPECT_NEAR((ice.main_line.cable.weight_N_per_m - bare.weight_N_per_m) * bare.unstretched_m,
              ring_N_per_m * bare.unstretched_m + trolley_N, 1e-9);
  // All anchors together bear the weights, and nothing else acts.
  const LoadCase& iced = named(rig, "ice, nobody on the line");
  const LoadCase& rest = named(rig, "at rest, empty, cold");
  double more_N = 0;
  for (std::size_t a = 0; a < iced.on_anchor_N.size(); ++a) more_N += rest.on_anchor_N[a].z - iced.on_anchor_N[a].z;
  // At rest the trolley is held up on its wheel by its own line's pull as well, which ends in the same anchors.
  EXPECT_NEAR(more_N, ring_N_per_m * bare.unstretched_m, 0.02 * ring_N_per_m * bare.unstretched_m);
}

TEST(Ice, WindPushesOnTheIcedDiameter) {
  const Rig rig = solve(demo_layout({{"site.ice_thickness", "'12 mm'"}, {"site.ice_wind", "'15 m/s'"}}));
  const LoadCase &left = named(rig, "ice, side wind from the left, nobody on the line"),
                 &right = named(rig, "ice, side wind from the right, nobody on the line"),
                 &calm = named(rig, "ice, nobody on the line");
  const mainline::Cable& cable = rig.loads.inputs->weather.at(0).main_line.cable;
  const double push_N = wind_on_line_Pa(air_density_kg_per_m3(330, 258.15), 15) * 0.040 * cable.unstretched_m;
  double from_left_N = 0, from_right_N = 0;
  for (std::size_t a = 0; a < calm.on_anchor_N.size(); ++a) {
    from_left_N += dot(left.on_anchor_N[a] - calm.on_anchor_N[a], rig.frame.across);
    from_right_N += dot(right.on_anchor_N[a] - calm.on_anchor_N[a], rig.frame.across);
  }
  EXPECT_NEAR(from_right_N, push_N, 1e-9 * push_N) << "it pushes to the left, across";
  EXPECT_NEAR(from_left_N, -push_N, 1e-9 * push_N);
}

/// The books of a solved rig, for what is not always listed.
struct Kept {
  explicit Kept(const Rig& solved, Inputs changed)
      : in(std::move(changed)),
        books(in, *solved.main_line.solved(), *solved.reeving.inputs, *solved.reeving.solved()),
        rig{in, books, *solved.main_line.solved(), *solved.reeving.inputs, *solved.reeving.solved()} {}
  Inputs in;
  Books books;
  Rigged rig;
};

/// Of still air and the wind from either side, of every place and pair of weather.
TEST(RidersInTheSideWind, ItPushesOnTheMainLineAndOnThem) {
  const Rig solved =
      solve(demo_with(std::string(more_anchors) + line_beside,
                      {{"riders.rescuer_mass", "'100 kg'"}, {"parallel_line.M2.rider_mass", "'122.5 kg'"}}));
  const Kept kept(solved, *solved.loads.inputs);
  const std::vector<Single> cases = span_cases(kept.rig).value();
  const std::string from_left = ", side wind from the left", from_right = ", side wind from the right";
  int looked_at = 0;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const std::size_t at = cases[i].name.find(from_left);
    if (at == std::string::npos) continue;
    const auto with = [&](const std::string& words) -> const Single& {
      std::string name = cases[i].name;
      name.replace(at, from_left.size(), words);
      return *std::ranges::find(cases, name, &Single::name);
    };
    const Single &left = cases[i], &right = with(from_right), &still = with("");
    double left_N = 0, right_N = 0;
    for (std::size_t a = 0; a < still.balance.on_anchor_N().size(); ++a) {
      left_N += dot(left.balance.on_anchor_N()[a] - still.balance.on_anchor_N()[a], solved.frame.across);
      right_N += dot(right.balance.on_anchor_N()[a] - still.balance.on_anchor_N()[a], solved.frame.across);
    }
    const double temperature_K = left.name.find("cold") != std::string::npos ? solved.layout.site.coldest_K.value
                                                                             : solved.layout.site.warmest_K.value;
    const double density = air_density_kg_per_m3(330, temperature_K), speed = *solved.layout.site.wind_across_m_per_s,
                 push_Pa = wind_on_line_Pa(density, speed);
    const double rider_N = 0.5 * density * speed * speed * *solved.layout.riders.drag_area_m2;
    const mainline::Cable& cable = solved.main_line.solved()->states.front().cable;
    const int on_it = left.action == Action::rider_on_span ? 1 : 2;  // a rescuer, or who rides beside
    double wanted_N = push_Pa * solved.layout.main_line.diameter_m * cable.unstretched_m + on_it * rider_N;
    const mainline::Cable& beside = solved.loads.inputs->beside[0].in_state[0];
    wanted_N += push_Pa * solved.layout.parallel_lines[0].diameter_m * beside.unstretched_m;
    // From weather to weather the lines are longer or shorter by a thousandth; a rider's wind is a thirtieth of it all.
    EXPECT_NEAR(right_N, wanted_N, 2e-3 * wanted_N) << right.name << ": it pushes to the left, across";
    EXPECT_NEAR(left_N, -right_N, 1e-3 * right_N) << left.name;
    ++looked_at;
  }
  EXPECT_GE(looked_at, 12);
}

TEST(RidersInTheSideWind, WithoutOneThereIsNoCaseOfIt) {
  Layout layout = demo_layout();
  ASSERT_TRUE(layout.site.wind_across_m_per_s);
  const Rig windy = solve(layout);
  layout.site.wind_across_m_per_s.reset();
  const Rig calm = solve(layout);
  EXPECT_TRUE(calm.loads.inputs->ridden_wind.empty());
  for (const LoadCase& load_case : loads_of(calm).cases)
    EXPECT_EQ(load_case.name.find("side wind"), std::string::npos) << load_case.name;
  const std::size_t start = anchor_of(calm, "P1");
  EXPECT_GT(loads_of(windy).anchors[start].pull_N[1].value, loads_of(calm).anchors[start].pull_N[1].value + 100);
}

TEST(Rescue, TwoPersonsAreOneOfTheSumOfTheirMasses) {
  const Rig alone = solve(demo_layout()), both = solve(demo_layout({{"riders.rescuer_mass", "'95 kg'"}}));
  const Rig sum = solve(demo_layout({{"riders.mass", "['30 kg', '215 kg']"}}));
  for (const char* weather : {"cold", "warm"})
    for (const char* support : {"start", "landing"}) {
      const std::string where = std::string(weather) + ", worst for the " + support + " support";
      const LoadCase &rescue = named(both, "rescue on the open span, " + where),
                     &heavy = named(sum, "heaviest rider on the open span, " + where);
      // The lines of the arrest rest a little otherwise under another rider: by no more than the trolley's own weight.
      const double other_N = 6 * standard_gravity;
      for (const char* id : {"P1", "P2"}) {
        const std::size_t a = anchor_of(both, id);
        EXPECT_NEAR(norm(rescue.on_anchor_N[a]), norm(heavy.on_anchor_N[a]), other_N) << where;
        EXPECT_GT(norm(rescue.on_anchor_N[a]),
                  norm(named(alone, "heaviest rider on the open span, " + where).on_anchor_N[a]) + 2000);
      }
    }
  const Loads still_both = still_loads_of(both);
  EXPECT_GT(still_both.main_line.force_N.value, still_loads_of(alone).main_line.force_N.value + 2000);
  EXPECT_EQ(still_both.cases[static_cast<std::size_t>(still_both.main_line.force_N.pose)].action, Action::rescue);
}

TEST(Rescue, InTheArrestZoneIsTheHeaviestRidersPassageWithTheRescuersWeightMore) {
  const Rig solved = solve(demo_layout());
  Inputs rescued = *solved.loads.inputs;
  rescued.rescuer_N = 980;
  const Kept alone(solved, *solved.loads.inputs), both(solved, rescued);
  int looked_at = 0;
  for (std::size_t p = 0; p < alone.rig.main_line.paths.size(); ++p) {
    if (alone.rig.main_line.paths[p].loading != mainline::Loading::heaviest) continue;
    const int s = alone.rig.at_rest_sweep(p);
    const reeving::Sweep& sweep = alone.rig.reeved.sweeps[static_cast<std::size_t>(s)];
    for (int pose = sweep.rest_pose; pose < static_cast<int>(sweep.poses.size()); pose += 3, ++looked_at) {
      const auto passage = alone.books.account(s, pose, Slip::none).balance.on_anchor_N();
      const auto nobody = rescue_in_zone(alone.rig, s, pose, Slip::none)->balance.on_anchor_N(),
                 rescue = rescue_in_zone(both.rig, s, pose, Slip::none)->balance.on_anchor_N();
      double more_N = 0;
      for (std::size_t a = 0; a < passage.size(); ++a) {
        EXPECT_NEAR(norm(nobody[a] - passage[a]), 0, 1e-6) << "with nobody to the rescue it is the passage";
        more_N += passage[a].z - rescue[a].z;
      }
      EXPECT_NEAR(more_N, 980, 1e-6);
    }
  }
  EXPECT_GT(looked_at, 10);
}

TEST(BackupBrake, AddsItsForceAlongTheMainLineToTheHeaviestRiderAtFullTravel) {
  const Rig rig = solve(demo_layout({{"backup_brake.on", "'A3'"}, {"backup_brake.force", "'6 kN'"}}));
  const LoadCase& braked = named(rig, "backup brake, heaviest rider at full travel, cold");
  EXPECT_DOUBLE_EQ(braked.travel_m, rig.layout.brake_trolley.travel_m);
  const std::size_t a = anchor_of(rig, "A3");
  const reeving::Inputs& in = *rig.reeving.inputs;
  const mainline::MainLine& line = *rig.main_line.solved();
  for (std::size_t s = 0; s < in.sweeps.size(); ++s) {
    const mainline::StatePath& path = line.paths[static_cast<std::size_t>(in.sweeps[s].path)];
    if (in.sweeps[s].running != reeving::Running::at_rest || !(in.sweeps[s].wind_Pa == Vec3{}) ||
        path.loading != mainline::Loading::heaviest ||
        line.states[static_cast<std::size_t>(path.state)].weather != mainline::Weather::cold)
      continue;
    const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[s];
    const Vec3 more_N = braked.on_anchor_N[a] - sweep.turns.back().force_N;  // the redirect is all it held
    EXPECT_NEAR(norm(more_N), 6000, 1e-6);
    EXPECT_GT(dot(more_N, rig.frame.along), 5900) << "downstream, along the main line";
    EXPECT_NEAR(dot(more_N, rig.frame.across), 0, 1e-6);
  }
}

TEST(ParallelLine, HangsOnItsAnchorsInEveryCaseAndWithItsRiderInOne) {
  const auto in_still_air = [](Layout layout) {
    layout.site.wind_across_m_per_s.reset();
    return solve(layout);
  };
  const Rig alone = in_still_air(demo_with(more_anchors, {}));
  const Rig beside =
      in_still_air(demo_with(std::string(more_anchors) + line_beside, {{"parallel_line.M2.rider_mass", "'122.5 kg'"}}));
  const std::size_t shared = anchor_of(beside, "P1"), own = anchor_of(beside, "Q2");
  const auto& cables = beside.loads.inputs->beside.at(0).in_state;
  const mainline::MainLine& line = *beside.main_line.solved();
  double greatest_N = 0;
  for (std::size_t s = 0; s < cables.size(); ++s) {
    const mainline::ForceOf tensions[] = {mainline::tension_at_start(cables[s]), mainline::tension_at_end(cables[s])};
    if (line.states[s].weather == mainline::Weather::measured) continue;
    const auto places = mainline::worst_places(cables[s], 122.5 * standard_gravity, std::nullopt,
                                               0.01 * cables[s].span_m, 0.99 * cables[s].span_m, tensions);
    for (const mainline::WorstPlace& worst : *places) greatest_N = std::max(greatest_N, worst.force_N);
    if (line.states[s].weather != mainline::Weather::cold) continue;
    const mainline::SupportForces bare = mainline::support_forces(cables[s], mainline::hang(cables[s]).value());
    const char* rest = "at rest, empty, cold";
    EXPECT_NEAR(norm(named(beside, rest).on_anchor_N[shared] - named(alone, rest).on_anchor_N[shared]),
                std::hypot(bare.start_x_N, bare.start_z_N), 1e-6);
    EXPECT_NEAR(norm(named(beside, rest).on_anchor_N[own]), std::hypot(bare.end_x_N, bare.end_z_N), 1e-6);
  }
  EXPECT_NEAR(loads_of(beside).beside.at(0).force_N.value, greatest_N, 1e-6);
  EXPECT_GE(loads_of(beside).beside[0].force_N.bound, greatest_N);
  const Loads still = still_loads_of(beside);
  const Extreme& demand = still.demands[shared].force_N;
  EXPECT_EQ(still.cases[static_cast<std::size_t>(demand.pose)].action, Action::both_lines);
  // Riders at rest on both pull the shared anchor by less than twice the greater, and by more than either alone.
  EXPECT_GT(demand.value, still_loads_of(alone).demands[shared].force_N.value + 14e3);
}

TEST(ParallelLine, BareForWantOfARiderIsSaidSo) {
  const Rig rig = solve(demo_with(std::string(more_anchors) + line_beside, {}));
  EXPECT_NE(
      std::ranges::find(rig.assumptions, "parallel_line.M2: always bare, nobody rides on it: rider_mass is not given"),
      rig.assumptions.end());
  for (const LoadCase& load_case : loads_of(rig).cases) EXPECT_NE(load_case.action, Action::both_lines);
}

}  // namespace
}  // namespace fairlead::loads
