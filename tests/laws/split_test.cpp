// A sheave on a line's own path bears nothing and changes nothing.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/reeving/pose.hpp"
#include "geometry/rig/rig.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

constexpr Resolution coarse{0.2, 1e-2};

/// Where a hanging leg stands at a share of its level length, and its direction there.
struct OnLeg {
  Point3 at;
  Vec3 along, up;  ///< unit; up: square to the leg, against its load
};

OnLeg on_leg(const reeving::MetLeg& leg, Point3 from, double share) {
  const reeving::Catenary& c = leg.hang;
  const double level_m = norm(c.level()), H = c.horizontal_N(), w = c.weight_N_per_m;
  const Vec3 level = unit(c.level());
  // The slope's asinh rises by w/H a metre, the height by H/w times what its cosh rises.
  const double first = std::asinh(c.from_V_N / H), here = first + w * share * level_m / H;
  const double up_m = H / w * (std::cosh(here) - std::cosh(first));
  const Vec3 along = unit(level + std::sinh(here) * c.up);
  return {from + share * level_m * level + up_m * c.up, along, unit(c.up - dot(c.up, along) * along)};
}

/// Lines that do not stretch: how a leg stretches is told by its end tensions, which stand w sag over the mean along
/// it, so that splitting it changes its length by w sag l / EA, some 1e-6 m.
Layout unstretched(Layout layout) {
  for (Line& line : layout.lines) line.ea_N.reset();
  return layout;
}

// At one pose: elsewhere the leg hangs otherwise. The sheave touches from below, 1e-8 m deep, so that rounding does not
// lift the line off it: over 1 m to either side that turns the line by 2e-8, and lifts it by 2e-8 of its tension.
TEST(Split, OfAHangingLegByASheaveThatTouchesItChangesNothingAtThatPose) {
  for (const unsigned seed : seeds(40)) {
    SCOPED_TRACE(seed);
    const Rig rig = solve(unstretched(sensible_layout(seed)), {}, coarse);
    ASSERT_TRUE(rig.reeving.solved());
    const reeving::Inputs& in = *rig.reeving.inputs;
    const reeving::SweepInputs& sweep = in.sweeps[0];
    const auto outlet = reeving::rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
    ASSERT_TRUE(outlet);
    const double travel_m = 0.4 * in.travel_m;
    const auto whole = solve_pose(in, sweep, *outlet, travel_m);
    ASSERT_TRUE(whole) << whole.error().why;

    const reeving::LegEnd from = from_end(in, whole->lines, 0, 1);
    const reeving::MetLeg& leg = whole->lines.legs[1];
    const OnLeg touch = on_leg(leg, from.centre + from.radius_m * leg.from_e, 0.45);
    constexpr double radius_m = 0.05, depth_m = 1e-8;
    reeving::Inputs split = in;
    split.sheaves.insert(split.sheaves.begin() + 1, {.centre = touch.at + (depth_m - radius_m) * touch.up,
                                                     .axle = unit(cross(touch.up, touch.along)),
                                                     .radius_m = radius_m,
                                                     .sense = 1,
                                                     .body = reeving::on_ground});
    split.lines[0].sheaves += 1;
    for (std::size_t l = 1; l < split.lines.size(); ++l) split.lines[l].first_sheave += 1;
    const auto parted = solve_pose(split, sweep, *outlet, travel_m);
    ASSERT_TRUE(parted) << parted.error().why;

    // Blocks that float on 40 N move by what the sheave lifts over 3 N/m, and as well as poses are solved.
    const double lift_N = 2e-8 * whole->lines.tension[0].at_N + 1e-8, moved_m = lift_N / 3 + 1e-8;
    EXPECT_NEAR(parted->pose.extension_m, whole->pose.extension_m, moved_m);
    for (std::size_t l = 0; l < in.lines.size(); ++l)
      EXPECT_NEAR(parted->lines.tension[l].at_N, whole->lines.tension[l].at_N, 100 * moved_m);
    EXPECT_LE(norm(parted->pose.pull_on_trolley_N - whole->pose.pull_on_trolley_N), 100 * moved_m);
    for (std::size_t b = 0; b < in.blocks.size(); ++b)
      EXPECT_LE(norm(parted->lines.blocks[b].at - whole->lines.blocks[b].at), moved_m);
    EXPECT_NEAR(parted->lines.wrap_rad[1], 0, 1e-7);
  }
}

// On whole passages a leg must not move: the last of a 1:1, on lines as good as weightless. Its sag of w l^2 / 8 T is
// below 1e-6 m at 1e-6 kg/m, 15 m and 40 N; the sheave is pressed in by 2e-6 m.
TEST(Split, OfTheLegToTheUnitChangesNoPassage) {
  for (const unsigned seed : seeds(40)) {
    SCOPED_TRACE(seed);
    Layout layout = unstretched(sensible_layout(seed, {.parts = 1, .line_kg_per_m = 1e-6}));
    layout.site.wind_across_m_per_s.reset();
    const Rig whole = solve(layout, {}, coarse);
    ASSERT_TRUE(whole.loads.solved());
    const reeving::Leg& last = whole.reeving.solved()->sweeps[0].legs[1];
    const Vec3 along = unit(last.to - last.from), up = unit(whole.frame.up - dot(whole.frame.up, along) * along);
    constexpr double depth_m = 2e-6, radius_m = 0.06;
    const Point3 touch = last.from + 0.5 * (last.to - last.from);
    Anchor post = layout.anchors.front();
    post.id.value = "between";
    post.position.value = touch - 0.5 * up;
    layout.anchors.push_back(post);
    Sheave sheave = layout.sheaves.front();
    sheave.id.value = "between_them";
    sheave.on = static_cast<AnchorId>(layout.anchors.size() - 1);
    sheave.position->value = touch + (depth_m - radius_m) * up;
    sheave.axle.value = cross(up, along);
    sheave.pitch_diameter_m.value = 2 * radius_m;
    layout.sheaves.push_back(sheave);
    layout.lines[0].route.push_back({static_cast<SheaveId>(1), Turning::anticlockwise, {}});
    const Rig parted = solve(layout, {}, coarse);
    ASSERT_TRUE(parted.loads.solved()) << parted.loads.result->error().why;

    // Both halves turn by the depth over their length.
    const double turn_rad = 2 * depth_m / (0.5 * last.length_m), most_N = whole.reeving.solved()->peak_tension_N;
    for (std::size_t s = 0; s < whole.reeving.solved()->sweeps.size(); ++s) {
      const reeving::Sweep &a = whole.reeving.solved()->sweeps[s], &b = parted.reeving.solved()->sweeps[s];
      // The peak tension is raised in steps of 1e-6 of itself until it settles.
      if (a.running == reeving::Running::paying_out) continue;
      ASSERT_EQ(a.poses.size(), b.poses.size());
      for (std::size_t p = 0; p < a.poses.size(); ++p) {
        EXPECT_NEAR(a.poses[p].extension_m, b.poses[p].extension_m, turn_rad * depth_m + 1e-9);
        if (a.poses[p].travel_m >= 0) {
          EXPECT_NEAR(a.poses[p].pay_out, b.poses[p].pay_out, 1e-9);
        }
        EXPECT_LE(norm(a.poses[p].pull_on_trolley_N - b.poses[p].pull_on_trolley_N), turn_rad * 1e-2 * most_N);
        EXPECT_LE(norm(a.poses[p].pull_on_unit_N - b.poses[p].pull_on_unit_N), turn_rad * most_N);
      }
    }
    const auto &before = whole.loads.solved()->demands, &after = parted.loads.solved()->demands;
    for (std::size_t i = 0; i < before.size(); ++i)
      EXPECT_NEAR(before[i].force_N.value, after[i].force_N.value, (turn_rad + 1e-5) * most_N) << "anchor " << i;
    EXPECT_LE(after.back().force_N.value, 2 * turn_rad * most_N);
    EXPECT_GT(after.back().force_N.value, 0) << "the line passes the sheave by";
  }
}

}  // namespace
}  // namespace fairlead::laws
