// Energy closes and every corner is solved or says how it ends, over hundreds of drawn rigs.
#include <gtest/gtest.h>

#include <array>

#include "tests/arrest/draws.hpp"
#include "tests/arrest/shipped.hpp"

namespace fairlead::arrest {
namespace {

/// What came out of many corners.
struct Tally {
  std::array<int, 5> outcomes{};
  int corners = 0, parted = 0;

  void hold(const Solved<Motion>& m) {
    ++corners;
    ASSERT_TRUE(m) << m.error().why;
    EXPECT_LE(m->energy_residual, 1e-6);
    EXPECT_GE(m->lost_at_contact_J, 0);
    EXPECT_GE(m->stop_travel_m, m->end_travel_m - 1e-9);
    for (const Peak& p : {m->extension_m, m->line_speed_m_per_s, m->unit_tension_N, m->trolley_speed_m_per_s,
                          m->load_raw, m->load_filtered, m->swing_forward_rad})
      EXPECT_TRUE(std::isfinite(p.value) && std::isfinite(p.at_s) && std::isfinite(p.travel_m))
          << p.value << " at " << p.at_s << " s, " << p.travel_m << " m, ends " << static_cast<int>(m->outcome)
          << " after " << m->end_s;
    ++outcomes.at(static_cast<std::size_t>(m->outcome));
    parted += m->separations > 0;
  }
};

TEST(Energy, ClosesOverStraightLinesAndIdealReductions) {
  Tally tally;
  for (unsigned seed = 0; seed < 800; ++seed) {
    SCOPED_TRACE(seed);
    laws::Draw draw(seed);
    const Drawn c = drawn(draw);
    const auto track = Track::plain({.ratio = draw.between(1, 4),
                                     .efficiency = draw.once_in(2) ? 1 : draw.between(0.8, 1),
                                     .slope = draw.between(-0.08, 0.12),
                                     .travel_m = draw.between(8, 40),
                                     .rest_extension_m = draw.between(0, 0.5),
                                     .weight_N = weight_N(c.bodies),
                                     .inertia_kg = draw.once_in(2) ? 0 : draw.between(0, 5)});
    ASSERT_TRUE(track);
    tally.hold(solve_motion(*track, c.bodies, c.unit, c.contact));
  }
  for (const int outcome : tally.outcomes) EXPECT_GT(outcome, 5) << "the draws see every way to end";
  EXPECT_GT(tally.parted, 100);
}

/// Riders, units and speeds drawn onto the shipped layouts' own lines.
TEST(Energy, ClosesOverTheTracksOfShippedLayouts) {
  Tally tally;
  for (const std::string& file : shipped_layouts()) {
    SCOPED_TRACE(file);
    const Rig& rig = shipped_rig(file);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    const Inputs in = inputs_of(rig);
    const auto& paths = rig.main_line.solved()->paths;
    for (std::size_t p = 0; p < paths.size(); ++p) {
      if (paths[p].loading == mainline::Loading::empty) continue;
      SCOPED_TRACE(p);
      const auto track = track_of(in, static_cast<int>(p), *rig.reeving.inputs, *rig.reeving.solved());
      ASSERT_TRUE(track) << track.error().why;
      for (unsigned seed = 0; seed < 35; ++seed) {
        SCOPED_TRACE(seed);
        laws::Draw draw(1000 * static_cast<unsigned>(p) + seed);
        Drawn c = drawn(draw);
        // The track is that of its own rider.
        c.bodies.rider_kg = in.rider_kg[paths[p].loading == mainline::Loading::heaviest ? 1 : 0];
        c.bodies.rider_trolley_kg = in.rider_trolley_kg, c.bodies.brake_trolley_kg = in.brake_trolley_kg;
        tally.hold(solve_motion(*track, c.bodies, c.unit, c.contact));
      }
    }
  }
  EXPECT_GE(tally.corners, 500);
}

/// Who all but stalls arrives with little energy: what is missing is a share of that.
TEST(Energy, ClosesForSlowArrivalsToo) {
  for (const double rider_kg : {30.0, 120.0})
    for (const double slope : {-0.02, 0.0, 0.03})
      for (const bool held_back : {false, true})
        for (double v = 0.1; v < 3; v += 0.29) {
          Bodies b = riding(rider_kg);
          b.rolling = 0.02, b.held_back = held_back;
          const auto track = Track::plain({.ratio = 1, .slope = slope, .travel_m = 15, .weight_N = weight_N(b)});
          const auto m = solve_motion(*track, b, unit(45, 8, reeving::EddyLaw{640, 30}), {.speed_m_per_s = v});
          ASSERT_TRUE(m) << rider_kg << " kg at " << v << " m/s: " << m.error().why;
          EXPECT_LE(m->energy_residual, 1e-6);
        }
}

}  // namespace
}  // namespace fairlead::arrest
