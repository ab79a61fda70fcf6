// What simulated arrests ask of anchors, lines and sheaves, on the shipped layouts.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/loads/arrest_poses.hpp"
#include "geometry/rig/inputs.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead::loads {
namespace {

const Rig& shipped(const std::string& file) {
  static std::map<std::string, Rig> rigs;
  auto found = rigs.find(file);
  if (found == rigs.end()) found = rigs.emplace(file, solve(shipped_layout(file), {}, {}, {.threads = 2})).first;
  return found->second;
}

/// use(rig, its loads) of every shipped layout.
template <class Use>
void for_shipped(const Use& use) {
  for (const std::string& file : shipped_layouts()) {
    SCOPED_TRACE(file);
    use(shipped(file), loads_of(shipped(file)));
  }
}

Solved<Loads> solve_with(const Rig& rig, Arrested arrested) {
  Inputs in = *rig.loads.inputs;
  in.arrested = std::move(arrested);
  return solve(in, *rig.main_line.solved(), *rig.reeving.inputs, *rig.reeving.solved());
}

/// Every demand of the loads, in one order.
std::vector<Extreme> demands_of(const Loads& loads) {
  std::vector<Extreme> all{loads.main_line.force_N};
  for (const Demand& demand : loads.demands) all.push_back(demand.force_N);
  for (const Demand& demand : loads.sheaves) all.push_back(demand.force_N);
  for (const BlockDemand& demand : loads.blocks) all.push_back(demand.force_N);
  for (const LineDemand& demand : loads.lines) {
    all.push_back(demand.tension_N);
    all.push_back(demand.from_N);
    all.push_back(demand.to_N);
  }
  for (const MemberDemand& demand : loads.members) {
    all.push_back(demand.tension_N);
    all.push_back(demand.compression_N);
  }
  for (const AnchorDemand& demand : loads.anchors) {
    all.push_back(demand.base_moment_N_m);
    all.insert(all.end(), demand.pull_N.begin(), demand.pull_N.end());
  }
  return all;
}

/// The whole record of one corner, every 5 ms, with nothing left out: converted here by itself.
Arrested dense(const Rig& rig, std::vector<int> corners) {
  Arrested all = rig.loads.inputs->arrested;
  all.instants.clear();
  const arrest::Inputs& in = *rig.arrest.inputs;
  for (const int c : corners) {
    const auto path = all.corners[static_cast<std::size_t>(c)].path;
    const auto track = arrest::track_of(in, path, *rig.reeving.inputs, *rig.reeving.solved());
    for (const arrest::Instant& i : arrest::history(in, *rig.approach.solved(), *rig.main_line.solved(),
                                                    *rig.reeving.inputs, *rig.reeving.solved(), c)) {
      const arrest::TrackPoint at = track->at(i.travel_m), brake = track->at(i.brake_travel_m);
      const double rider_up = at.slope * i.acceleration_m_per_s2 + at.curvature * i.speed_m_per_s * i.speed_m_per_s;
      const double brake_up =
          brake.slope * i.brake_acceleration_m_per_s2 + brake.curvature * i.brake_speed_m_per_s * i.brake_speed_m_per_s;
      const Vec3 along = rig.frame.along, up = rig.frame.up;
      ArrestInstant instant{
          .corner = c,
          .t_s = i.t_s,
          .travel_m = std::max(0.0, i.brake_travel_m),
          .rider_travel_m = i.travel_m,
          .unit_tension_N = i.unit_tension_N,
          .friction = i.line_speed_m_per_s < 0 ? reeving::Friction::returning : reeving::Friction::paying_out,
          .lanyard_N = i.lanyard_N * (std::sin(i.lean_rad) * along - std::cos(i.lean_rad) * up),
          .rider_m_per_s2 = i.acceleration_m_per_s2 * along + rider_up * up,
          .brake_m_per_s2 = i.brake_acceleration_m_per_s2 * along + brake_up * up,
          .apart = i.apart};
      all.instants.push_back(instant);
    }
  }
  std::ranges::stable_sort(all.instants, {}, [&](const ArrestInstant& i) {
    return std::tuple(all.corners[static_cast<std::size_t>(i.corner)].path, i.friction, i.travel_m);
  });
  return all;
}

/// The corners that govern something, and the first of each path.
std::vector<int> corners_looked_at(const Rig& rig) {
  const arrest::Governing& g = rig.arrest.solved()->governing;
  std::vector<int> corners{g.stop_travel, g.shortest_stop, g.extension, g.line_speed, g.load_raw, g.unit_tension};
  const std::vector<ArrestCorner>& all = rig.loads.inputs->arrested.corners;
  for (std::size_t c = 0; c < all.size(); ++c)
    if (c == 0 || all[c].path != all[c - 1].path) corners.push_back(static_cast<int>(c));
  std::ranges::sort(corners);
  corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
  std::erase_if(corners, [](int c) { return c < 0; });
  return corners;
}

TEST(ArrestCases, AreThereForEveryCornerOfEveryShippedLayout) {
  for_shipped([](const Rig& rig, const Loads& loads) {
    EXPECT_EQ(loads.without_arrest, "");
    EXPECT_EQ(rig.loads.inputs->arrested.corners.size(), rig.arrest.solved()->corners.size());
    const auto unloaded =
        std::ranges::count(rig.main_line.solved()->paths, mainline::Loading::empty, &mainline::StatePath::loading);
    const std::size_t loaded = rig.main_line.solved()->paths.size() - static_cast<std::size_t>(unloaded);
    EXPECT_LT(rig.loads.inputs->arrested.instants.size(), 250 * loaded) << "too many for a study of moved marks";
    int out = 0, back = 0;
    for (const LoadCase& load_case : loads.cases) {
      EXPECT_EQ(load_case.moving.has_value(),
                load_case.action == Action::arrest || load_case.action == Action::arrest_return)
          << load_case.name;
      out += load_case.action == Action::arrest, back += load_case.action == Action::arrest_return;
    }
    EXPECT_GE(out, 4);
    EXPECT_GE(back, 1);
  });
}

/// The forces on the anchors, summed here, against what rider and trolleys do: along the main line the lanyard, the
/// trolleys' inertia and what is left; upward the same and every weight. Of the weights those of the lines are known to
/// what the unit has paid out, at most its greatest extension.
TEST(ArrestCases, BalanceWithTheInertiaOfTheTrolleys) {
  for_shipped([](const Rig& rig, const Loads& loads) {
    const auto rest = std::ranges::find(loads.cases, Action::at_rest, &LoadCase::action);
    const auto returning = std::ranges::find(loads.cases, Action::returning, &LoadCase::action);
    const LoadCase& still = rest != loads.cases.end() ? *rest : *returning;
    const auto sum = [&](const LoadCase& load_case) {
      Vec3 all;
      for (const Vec3 force_N : load_case.on_anchor_N) all += force_N;
      return all;
    };
    const reeving::Inputs& reeving = *rig.reeving.inputs;
    double paid_out_N = 0;
    for (const reeving::Line& line : reeving.lines)
      paid_out_N += line.weight_N_per_m * rig.layout.brake_unit.extension_limit_m;
    const double trolley_N = rig.layout.riders.trolley_mass_kg * standard_gravity;
    for (const LoadCase& load_case : loads.cases) {
      if (!load_case.moving) continue;
      SCOPED_TRACE(load_case.name);
      const Moving& moving = *load_case.moving;
      EXPECT_LE(norm(load_case.out_of_balance_N), 1e-9 * load_case.largest_N);
      EXPECT_LE(norm(load_case.out_of_balance_N_m), 1e-9 * load_case.largest_N * 300);
      const Vec3 acts_N = moving.lanyard_N + moving.inertia_N;
      EXPECT_NEAR(dot(sum(load_case), rig.frame.along), dot(acts_N, rig.frame.along) + moving.left_along_N,
                  1e-9 * load_case.largest_N);
      EXPECT_NEAR(dot(sum(load_case) - sum(still), rig.frame.up), dot(acts_N, rig.frame.up) - trolley_N, paid_out_N);
    }
  });
}

/// A rider who hangs still, the unit at its peak tension: that is the sweep of the peak tension at the same travel.
TEST(ArrestCases, OfARiderWhoHangsStillAreThoseOfThePeakTension) {
  for_shipped([](const Rig& rig, const Loads& loads) {
    int looked = 0;
    for (const LoadCase& peak : loads.cases) {
      if (peak.action != Action::peak_tension) continue;
      const reeving::SweepInputs& sweep = rig.reeving.inputs->sweeps[static_cast<std::size_t>(peak.sweep)];
      Arrested still = rig.loads.inputs->arrested;
      still.corners = {{"still", sweep.path, 0}};
      const double rider_N = sweep.rider_weight_N - still.rider_trolley_kg * standard_gravity;
      still.instants = {{.travel_m = peak.travel_m,
                         .rider_travel_m = peak.travel_m,
                         .unit_tension_N = rig.reeving.solved()->peak_tension_N,
                         .friction = reeving::Friction::paying_out,
                         .lanyard_N = -rider_N * rig.frame.up}};
      const auto again = solve_with(rig, still);
      ASSERT_TRUE(again) << again.error().why;
      for (const LoadCase& load_case : again->cases) {
        if (load_case.action != Action::arrest) continue;
        const auto slip_of = [](const std::string& name) {
          const std::size_t at = name.find(", main line slipping");
          return at == std::string::npos ? "" : name.substr(at);
        };
        if (slip_of(load_case.name) != slip_of(peak.name)) continue;
        for (std::size_t a = 0; a < peak.on_anchor_N.size(); ++a)
          EXPECT_LT(norm(load_case.on_anchor_N[a] - peak.on_anchor_N[a]), 1e-8 * peak.largest_N) << peak.name;
        ++looked;
      }
    }
    EXPECT_GE(looked, 2);
  });
}

/// Every 5 ms of the corners that govern something and of one of each path, with nothing left out: nothing passes the
/// bounds, and what was seen of the few instants falls short of the whole record by less than a hundredth.
TEST(ArrestCases, AreNotPassedByAnyInstantOfTheWholeRecord) {
  for_shipped([](const Rig& rig, const Loads& loads) {
    const auto whole = solve_with(rig, dense(rig, corners_looked_at(rig)));
    ASSERT_TRUE(whole) << whole.error().why;
    const std::vector<Extreme> few = demands_of(loads), all = demands_of(*whole);
    ASSERT_EQ(few.size(), all.size());
    for (std::size_t i = 0; i < few.size(); ++i) {
      EXPECT_LE(all[i].value, few[i].bound * (1 + 1e-9)) << i;
      EXPECT_LE(all[i].value, 1.01 * few[i].value + 1e-9) << i;
    }
  });
}

/// With twice the tension the arrests govern the lines as well, whose worst the peak tension else is.
TEST(ArrestCases, AreNotPassedWhereTheyGovernTheLinesToo) {
  for_shipped([](const Rig& rig, const Loads&) {
    const auto twice = [](Arrested arrested) {
      for (ArrestInstant& instant : arrested.instants) instant.unit_tension_N *= 2;
      return arrested;
    };
    const auto few = solve_with(rig, twice(rig.loads.inputs->arrested)),
               all = solve_with(rig, twice(dense(rig, corners_looked_at(rig))));
    ASSERT_TRUE(few) << few.error().why;
    ASSERT_TRUE(all) << all.error().why;
    const std::vector<Extreme> of_few = demands_of(*few), of_all = demands_of(*all);
    for (std::size_t i = 0; i < of_few.size(); ++i) {
      EXPECT_LE(of_all[i].value, of_few[i].bound * (1 + 1e-9)) << i;
      EXPECT_LE(of_all[i].value, 1.01 * of_few[i].value + 1e-9) << i;
    }
    const LineDemand& braking = few->lines[static_cast<std::size_t>(rig.reeving.inputs->braking)];
    EXPECT_EQ(few->cases[static_cast<std::size_t>(braking.tension_N.pose)].action, Action::arrest);
  });
}

/// Rolling resistance and what the motion's track leaves out (its main line hangs as under the load at rest): no more
/// than a tenth of what presses on the wheels, but where a device or friction holds the trolley.
TEST(ArrestCases, LeaveLittleAlongTheMainLine) {
  for_shipped([](const Rig&, const Loads& loads) {
    for (const LoadCase& load_case : loads.cases) {
      if (!load_case.moving) continue;
      EXPECT_LT(std::abs(load_case.moving->left_along_N), 0.3 * norm(load_case.moving->lanyard_N)) << load_case.name;
    }
  });
}

TEST(ArrestCases, AreMissingWhereTheArrestIsUnsolved) {
  Layout layout = demo_layout();
  layout.riders.rolling_resistance.reset();
  const Rig rig = solve(layout);
  EXPECT_EQ(loads_of(rig).without_arrest,
            "riders' arrests are not solved: the approach is not solved: the layout does not give "
            "riders.rolling_resistance");
}

TEST(ArrestCases, AreMissingWhereOneCornerEndsInTheUnknown) {
  // A fifth of the brake's force lets the heaviest through the planned travel.
  const Rig rig = solve(demo_layout({{"brake_unit.force_left", "0.2"}}));
  ASSERT_TRUE(rig.arrest.solved()) << rig.arrest.result->error().why;
  const std::string& missing = loads_of(rig).without_arrest;
  EXPECT_TRUE(missing.starts_with("heaviest rider")) << missing;
  EXPECT_TRUE(missing.ends_with("he runs through the planned travel, and what follows is not known")) << missing;
  EXPECT_FALSE(rig.loads.inputs->arrested.instants.empty()) << "the other corners are still among the cases";
}

TEST(ArrestCases, OfMarksThatMovedHoldTheMotionAndAreSolvedAnew) {
  const Rig& design = shipped("heron_gully.toml");
  Layout moved = design.layout;
  for (Anchor& anchor : moved.anchors)
    if (anchor.id.value == "P2") anchor.position.value.z -= 0.05;
  const Rig there = solve(moved, {&design, true});
  EXPECT_TRUE(there.arrest_held);
  EXPECT_EQ(there.loads.inputs->arrested, design.loads.inputs->arrested);
  const std::size_t a = anchor_of(design, "P2");
  EXPECT_NE(loads_of(there).demands[a].force_N.value, loads_of(design).demands[a].force_N.value);
  EXPECT_NEAR(loads_of(there).demands[a].force_N.value / loads_of(design).demands[a].force_N.value, 1, 0.01);
}

/// The static peak tension bounds no arrest by itself; on the shipped layouts it happens to, and by how much is told.
TEST(PeakTension, CoversTheSimulatedArrestsOfTheShippedLayouts) {
  for_shipped([](const Rig& rig, const Loads&) {
    double simulated_N = 0;
    for (const arrest::CornerResult& corner : rig.arrest.solved()->corners)
      simulated_N = std::max(simulated_N, corner.motion->unit_tension_N.value);
    const double share = simulated_N / rig.reeving.solved()->peak_tension_N;
    EXPECT_GT(share, 0.7);
    EXPECT_LE(share, 1);
  });
}

/// The primary at its peak with the backup brake, and the primary lost.
TEST(BackupBrake, PullsWithThePrimaryAtItsPeakToo) {
  const Rig rig = solve(demo_layout({{"backup_brake.on", "'P2'"}, {"backup_brake.force", "'6 kN'"}}));
  const std::size_t at = anchor_of(rig, "P2");
  bool both = false;
  for (const LoadCase& load_case : loads_of(rig).cases) {
    if (load_case.action != Action::backup_brake) continue;
    both = both || load_case.name.starts_with("backup brake and primary at its peak tension, heaviest rider");
    EXPECT_GT(norm(load_case.on_anchor_N[at]), 0);
  }
  EXPECT_TRUE(both);
}

/// What stops the worst corner alone is no more than the cases have.
TEST(BackupBrake, PullsAtLeastWhatStopsTheWorstCornerAlone) {
  const Rig rig = solve(demo_layout({{"backup_brake.on", "'P2'"}, {"backup_brake.force", "'4 kN'"}}));
  ASSERT_TRUE(rig.arrest.solved()->backup) << rig.arrest.solved()->backup.error().why;
  EXPECT_GT(rig.arrest.solved()->backup->force_N, 100);
  EXPECT_LE(rig.arrest.solved()->backup->force_N, rig.loads.inputs->backup.force_N);
}

}  // namespace
}  // namespace fairlead::loads
