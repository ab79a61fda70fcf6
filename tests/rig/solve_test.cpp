#include <gtest/gtest.h>

#include "geometry/rig/rig.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

/// What two solutions must share to be called the same: every pose's numbers, bit for bit.
void expect_same(const Rig& a, const Rig& b) {
  ASSERT_TRUE(a.reeving.solved() && b.reeving.solved());
  const reeving::Reeving &one = *a.reeving.solved(), &other = *b.reeving.solved();
  EXPECT_EQ(one.peak_tension_N, other.peak_tension_N);
  EXPECT_EQ(one.finished_length_m, other.finished_length_m);
  ASSERT_EQ(one.sweeps.size(), other.sweeps.size());
  for (std::size_t s = 0; s < one.sweeps.size(); ++s) {
    ASSERT_EQ(one.sweeps[s].poses.size(), other.sweeps[s].poses.size());
    for (std::size_t p = 0; p < one.sweeps[s].poses.size(); ++p) {
      EXPECT_EQ(one.sweeps[s].poses[p].trolley, other.sweeps[s].poses[p].trolley);
      EXPECT_EQ(one.sweeps[s].poses[p].extension_m, other.sweeps[s].poses[p].extension_m);
      EXPECT_EQ(one.sweeps[s].poses[p].pull_on_unit_N, other.sweeps[s].poses[p].pull_on_unit_N);
    }
    EXPECT_EQ(one.sweeps[s].fleet_rad, other.sweeps[s].fleet_rad);
  }
  ASSERT_TRUE(a.loads.solved() && b.loads.solved());
  for (std::size_t i = 0; i < a.loads.solved()->demands.size(); ++i)
    EXPECT_EQ(a.loads.solved()->demands[i].force_N, b.loads.solved()->demands[i].force_N);
}

TEST(Solve, ReusesWhatDidNotChangeAndGivesTheSameAsWithout) {
  const Rig design = solve(demo_layout());
  const Layout moved = demo_layout(
      {{"anchor.A3.position", "[1348.000, 911.000, 331.750]"}, {"sheave.R1.position", "[1348.000, 911.000, 331.450]"}});
  const Rig near = solve(moved, {&design}), alone = solve(moved);
  EXPECT_EQ(near.main_line.result, design.main_line.result) << "a moved redirect leaves the main line alone";
  EXPECT_NE(near.reeving.result, design.reeving.result);
  expect_same(near, alone);
  const Rig again = solve(demo_layout(), {&design});
  EXPECT_EQ(again.reeving.result, design.reeving.result);
  EXPECT_EQ(again.loads.result, design.loads.result);
}

TEST(Solve, DoesNotDependOnTheNumberOfThreads) {
  expect_same(solve(demo_layout()), solve(demo_layout(), {}, {}, {.threads = 3}));
}

TEST(Solve, AMainLineThatCannotBeSolvedLeavesEverythingAfterItUnsolvedWithTheReason) {
  const Rig rig = solve(demo_layout({{"main_line.tension", "'900 N'"}}));
  ASSERT_FALSE(rig.main_line.solved());
  ASSERT_FALSE(rig.reeving.solved());
  ASSERT_FALSE(rig.loads.solved());
  EXPECT_EQ(rig.loads.result->error().why.rfind("the main line is not solved: ", 0), 0u)
      << rig.loads.result->error().why;
}

TEST(Solve, MovingTheWholeSiteMovesEveryPlaceAndNoForce) {
  const Rig here = solve(demo_layout());
  Layout shifted = demo_layout();
  const Vec3 by{-512, 256, 128};  // powers of two: the shift itself rounds nothing
  for (Anchor& anchor : shifted.anchors) anchor.position.value = anchor.position.value + by;
  for (Sheave& sheave : shifted.sheaves) sheave.position->value = sheave.position->value + by;
  shifted.brake_unit.outlet.value = shifted.brake_unit.outlet.value + by;
  const Rig there = solve(shifted);
  ASSERT_TRUE(here.loads.solved() && there.loads.solved());
  for (std::size_t i = 0; i < here.layout.anchors.size(); ++i) {
    const double at_home = here.loads.solved()->demands[i].force_N.value;
    // Coordinates of 1.4 km lose 2e-13 m; over legs of 2 m at 1 kN that is 1e-10 N. A thousandfold stays far below a
    // gram.
    EXPECT_NEAR(there.loads.solved()->demands[i].force_N.value, at_home, 1e-7 * std::max(1.0, at_home));
  }
}

/// The same rig seen in a mirror: across changes sign.
Layout mirrored(Layout layout) {
  const auto flip = [&](Point3 p) { return Point3{p.x, -p.y, p.z}; };
  for (Anchor& anchor : layout.anchors) anchor.position.value = flip(anchor.position.value);
  for (Sheave& sheave : layout.sheaves) {
    sheave.position->value = flip(sheave.position->value);
    sheave.axle.value.y *= -1;
  }
  layout.brake_unit.outlet.value = flip(layout.brake_unit.outlet.value);
  layout.brake_unit.axis.value.y *= -1;
  layout.brake_trolley.attachment.value.y *= -1;
  // An axle drawn in a mirror keeps its direction there; what turns about it turns the other way.
  for (Line& line : layout.lines)
    for (Over& over : line.route)
      over.turning = over.turning == Turning::clockwise ? Turning::anticlockwise : Turning::clockwise;
  return layout;
}

TEST(Solve, AMirroredRigHasMirroredForces) {
  const Layout layout = demo_layout({{"sheave.R1.position", "[1348.060, 910.920, 331.400]"}});  // off the plane
  const Rig rig = solve(layout), mirror = solve(mirrored(layout));
  ASSERT_TRUE(rig.loads.solved() && mirror.loads.solved());
  EXPECT_NEAR(rig.reeving.solved()->finished_length_m.front(), mirror.reeving.solved()->finished_length_m.front(),
              1e-9);
  for (std::size_t i = 0; i < layout.anchors.size(); ++i)
    EXPECT_NEAR(rig.loads.solved()->demands[i].force_N.value, mirror.loads.solved()->demands[i].force_N.value, 1e-6);
}

}  // namespace
}  // namespace fairlead
