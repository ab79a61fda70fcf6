// The arrest on the shipped layouts' own main lines and reevings.
#include "tests/arrest/shipped.hpp"
#include "geometry/quantity/dimension.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fairlead::arrest {
namespace {

/// use(rig, inputs, path index) of every path with a rider.
template <class Use>
void for_paths(const Use& use) {
  for (const std::string& file : shipped_layouts()) {
    SCOPED_TRACE(file);
    const Rig& rig = shipped_rig(file);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    const auto& paths = rig.main_line.solved()->paths;
    for (std::size_t p = 0; p < paths.size(); ++p) {
      if (paths[p].loading == mainline::Loading::empty) continue;
      SCOPED_TRACE(p);
      use(rig, inputs_of(rig), static_cast<int>(p));
    }
  }
}

/// What the sweeps say at their poses the track says too: forces and extensions, lines at rest, paid out and returning.
/// Its knots are poses; at those between, where a sweep is denser, a spline strays by 5/384 of the fourth difference,
/// which at a quarter of a metre is below a hundredth of a newton and of a millimetre (seen: 2e-4 N, 3e-6 m).
TEST(TrackOfSweeps, GivesBackWhatThePosesSay) {
  for_paths([&](const Rig& rig, const Inputs& in, int path) {
    const reeving::Inputs& reeving_in = *rig.reeving.inputs;
    const auto track = track_of(in, path, reeving_in, *rig.reeving.solved());
    ASSERT_TRUE(track) << track.error().why;
    int poses = 0;
    for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps) {
      if (sweep.path != path || sweep.in_wind) continue;
      const bool returning = sweep.friction == reeving::Friction::returning;
      for (const reeving::Pose& pose : sweep.poses) {
        if (pose.travel_m < 0) continue;
        const TrackPoint at = track->at(pose.travel_m);
        const double T = pose.outlet_tension_N, pull = returning ? at.pull_back : at.pull;
        EXPECT_NEAR(pull * T - at.drive_N, dot(pose.hold_N, reeving_in.along), 5e-4) << pose.travel_m;
        if (!returning) {
          EXPECT_NEAR(at.extension_m + at.give_m_per_N * T, pose.extension_m, 1e-5) << pose.travel_m;
        }
        ++poses;
      }
    }
    EXPECT_GT(poses, 50);
  });
}

/// WORK: d hold / dT at one travel is d extension / dx at one tension, without friction. Between two tensions the pull
/// is the mean of the pay-outs, and those go nearly one way; lengths are solved to the first order of T/EA.
TEST(TrackOfSweeps, PullsByTheLineItPaysOut) {
  int looked = 0;
  for_paths([&](const Rig& rig, const Inputs& in, int path) {
    const reeving::Inputs& reeving_in = *rig.reeving.inputs;
    const reeving::Reeving& reeving = *rig.reeving.solved();
    for (const double k : reeving.friction)
      if (k > 1) return;
    const auto track = track_of(in, path, reeving_in, reeving);
    ASSERT_TRUE(track);
    double compliance_per_N = 0;
    for (const reeving::Line& line : reeving_in.lines)
      compliance_per_N = std::max(compliance_per_N, line.compliance_per_N);
    for (double x = 0.5; x < track->to_m() - 0.5; x += 0.25, ++looked) {
      const TrackPoint at = track->at(x);
      const double low = at.pay_out + at.give_slope * reeving_in.unit.retraction_N(at.extension_m),
                   high = at.pay_out + at.give_slope * reeving.peak_tension_N;
      const double strain = compliance_per_N * reeving.peak_tension_N;
      EXPECT_GE(at.pull, std::min(low, high) * (1 - strain) - 1e-4) << x;
      EXPECT_LE(at.pull, std::max(low, high) * (1 + strain) + 1e-4) << x;
    }
  });
  EXPECT_GT(looked, 100);
}

/// The drive is the slope of the potential, across the knots too.
TEST(TrackOfSweeps, DriveIsMinusTheSlopeOfThePotential) {
  for_paths([&](const Rig& rig, const Inputs& in, int path) {
    const auto track = track_of(in, path, *rig.reeving.inputs, *rig.reeving.solved());
    ASSERT_TRUE(track);
    const double h = 1e-3;
    for (double x = 0.013; x < track->to_m(); x += 0.0973) {
      const double slope = (track->potential_J(x + h) - track->potential_J(x - h)) / (2 * h);
      EXPECT_NEAR(track->at(x).drive_N, -slope, 1e-5) << x;
    }
  });
}

/// The static peak is what line, sheaves and anchors are judged by; and no thread changes a bit of it.
TEST(StaticPeak, IsNeverBelowTheSimulatedPeakOfAnyCorner) {
  for (const std::string& file : shipped_layouts()) {
    SCOPED_TRACE(file);
    const Rig& rig = shipped_rig(file);
    const Inputs in = inputs_of(rig);
    const auto approaches = solve_approaches(in, *rig.main_line.solved());
    ASSERT_TRUE(approaches) << approaches.error().why;
    const auto arrest = solve(in, *approaches, *rig.main_line.solved(), *rig.reeving.inputs, *rig.reeving.solved());
    ASSERT_TRUE(arrest) << arrest.error().why;
    for (const CornerResult& c : arrest->corners) {
      ASSERT_TRUE(c.motion) << c.motion.error().why;
      EXPECT_LE(c.motion->unit_tension_N.value, rig.reeving.solved()->peak_tension_N);
      EXPECT_GT(c.motion->unit_tension_N.value, rig.reeving.solved()->peak_tension_N / 4) << "the same unit";
    }
    // The ends of every result are among the corners, and each empty path says how it comes back.
    const double farthest =
        arrest->corners[static_cast<std::size_t>(arrest->governing.stop_travel)].motion->stop_travel_m;
    for (const CornerResult& c : arrest->corners) EXPECT_LE(c.motion->stop_travel_m, farthest);
    EXPECT_EQ(arrest->resets.size(), std::ranges::count(rig.main_line.solved()->paths, mainline::Loading::empty,
                                                        &mainline::StatePath::loading));
    for (const Reset& reset : arrest->resets) EXPECT_TRUE(reset.returns == (reset.least_reserve_N > 0));
  }
}

/// A light rider's swing draws a trolley on that had stood, and it stands again: that is when he stops, one swing
/// before the record ends, and not at the end of whatever was left to be looked at.
TEST(Stop, IsTheLastStandstillOfWhomHisSwingDrawsOn) {
  int stops = 0;
  for (const std::string& file : shipped_layouts()) {
    SCOPED_TRACE(file);
    const Rig& rig = shipped_rig(file);
    ASSERT_TRUE(rig.arrest.solved());
    const double swing_s = 2 * std::numbers::pi * std::sqrt(rig.arrest.inputs->hanging_m / standard_gravity);
    for (const CornerResult& c : rig.arrest.solved()->corners) {
      ASSERT_TRUE(c.motion) << c.motion.error().why;
      if (c.motion->outcome != Outcome::stops) continue;
      ++stops;
      EXPECT_NEAR(c.motion->end_s, c.motion->stop_time_s + swing_s, 2 * record_step_s);
      EXPECT_LT(c.motion->end_s, longest_s / 2);
    }
  }
  EXPECT_GT(stops, 200);
}

/// A known limit. The static peak knows the arrival's speed, not that the swinging rider drags the line on faster: with
/// a retraction that hardly rises, and drag that still does at that speed, the arrest's own peak is the greater.
TEST(StaticPeak, LeavesOutTheLineSpeedThatTheSwingingRiderAdds) {
  const Rig rig = solve(
      shipped_layout("heron_gully.toml", {{"brake_unit.retraction", "[[\"0 m\", \"45 N\"], [\"18.5 m\", \"46 N\"]]"}}));
  ASSERT_TRUE(rig.reeving.solved());
  const Inputs in = inputs_of(rig);
  const auto approaches = solve_approaches(in, *rig.main_line.solved());
  ASSERT_TRUE(approaches);
  const auto arrest = solve(in, *approaches, *rig.main_line.solved(), *rig.reeving.inputs, *rig.reeving.solved());
  ASSERT_TRUE(arrest);
  const Governing& worst = arrest->governing;
  const auto motion = [&](int corner) -> const Motion& {
    return *arrest->corners[static_cast<std::size_t>(corner)].motion;
  };
  EXPECT_GT(motion(worst.line_speed).line_speed_m_per_s.value, rig.reeving.solved()->peak_line_speed_m_per_s);
  EXPECT_GT(motion(worst.unit_tension).unit_tension_N.value, rig.reeving.solved()->peak_tension_N);
}

TEST(Corners, OfAShippedLayoutAreTheSameOnAnyNumberOfThreads) {
  const Rig& rig = shipped_rig("heron_gully.toml");
  const Inputs in = inputs_of(rig);
  const auto approaches = solve_approaches(in, *rig.main_line.solved());
  ASSERT_TRUE(approaches);
  std::vector<Arrest> all;
  for (const unsigned threads : {1u, 2u, 5u}) {
    auto arrest = solve(in, *approaches, *rig.main_line.solved(), *rig.reeving.inputs, *rig.reeving.solved(),
                        {.threads = threads});
    ASSERT_TRUE(arrest);
    all.push_back(std::move(*arrest));
  }
  for (const Arrest& arrest : all) {
    ASSERT_EQ(arrest.corners.size(), all[0].corners.size());
    for (std::size_t i = 0; i < arrest.corners.size(); ++i) {
      const Motion &a = *arrest.corners[i].motion, &b = *all[0].corners[i].motion;
      EXPECT_EQ(a.energy_residual, b.energy_residual);
      EXPECT_EQ(a.end_travel_m, b.end_travel_m);
    }
    EXPECT_EQ(arrest.governing.swing_forward, all[0].governing.swing_forward);
    EXPECT_EQ(arrest.resets[0].speed_at_mark_m_per_s, all[0].resets[0].speed_at_mark_m_per_s);
  }
}

}  // namespace
}  // namespace fairlead::arrest
