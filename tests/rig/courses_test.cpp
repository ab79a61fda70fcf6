// Which line runs where, and how much slower than the trolley the unit's line runs.
#include "geometry/rig/courses.hpp"

#include <gtest/gtest.h>

#include "geometry/rig/drawn.hpp"
#include "geometry/rig/inputs.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

std::string why(const Layout& layout) {
  const auto courses = courses_of(layout);
  return courses ? std::string("solved") : courses.error().why;
}

TEST(Courses, RunFromTheTrolleyToTheUnitHoweverTheLineWasWritten) {
  Layout layout = demo_layout();
  layout.lines[0].route[0].turning = Turning::clockwise;
  const auto forward = courses_of(layout);
  ASSERT_TRUE(forward.has_value());
  ASSERT_EQ(forward->courses.size(), 1u);
  EXPECT_EQ(forward->pulling, 0);
  EXPECT_EQ(forward->braking, 0);
  EXPECT_EQ(forward->courses[0].turning[0], Turning::clockwise);

  std::swap(layout.lines[0].from, layout.lines[0].to);
  layout.lines[0].route[0].turning = Turning::anticlockwise;  // the other way along, the other way round
  const auto backward = courses_of(layout);
  ASSERT_TRUE(backward.has_value());
  EXPECT_EQ(backward->courses[0].sheaves, forward->courses[0].sheaves);
  EXPECT_EQ(backward->courses[0].turning[0], Turning::clockwise);
}

TEST(Courses, AnEndAtAConnectorIsAtWhatTheConnectorJoins) {
  Layout layout = demo_layout();
  layout.lines[0].from = ConnectorId{0};
  const auto courses = courses_of(layout);
  ASSERT_TRUE(courses.has_value()) << courses.error().why;
  EXPECT_TRUE(std::holds_alternative<BrakeTrolleyEnd>(courses->courses[0].from));

  layout.connectors[0].bearing.reset();
  EXPECT_EQ(
      why(layout),
      "line \"L1\" ends at connector \"C1\", which ties it to lines only: lines joined to lines are not solved by "
      "this version");
}

TEST(Courses, WhatTiesNothingIsSaidNotSkipped) {
  Layout none = demo_layout();
  none.lines.clear();
  EXPECT_EQ(why(none), "no line ends at the brake trolley");

  Layout two = demo_layout();
  two.lines.push_back(two.lines[0]);
  two.lines[1].route.clear();
  EXPECT_EQ(why(two), "more than one line ends at the brake trolley");

  Layout loop = demo_layout();
  loop.lines[0].to = BrakeTrolleyEnd{};
  EXPECT_EQ(why(loop),
            "line \"L1\" begins and ends at fixed points or at the same thing: it ties nothing to the brake unit");

  Layout bare = demo_layout();
  bare.lines[0].route.clear();
  EXPECT_EQ(why(bare), "line \"L1\" runs over no sheave");

  Layout shared = demo_layout();
  shared.lines.push_back(shared.lines[0]);
  EXPECT_EQ(why(shared), "lines \"L1\" and \"L1\" both run over sheave \"R1\": give each groove its own [[sheave]]");

  Layout upside_down = demo_layout();
  upside_down.sheaves[0].on = BrakeTrolleyEnd{};
  EXPECT_EQ(
      why(upside_down),
      "sheave \"R1\" rides on the brake trolley, so the reduction is upside down: the brake unit's line would run "
      "faster than the trolley; lead line \"L1\" from the trolley over the redirect to a travelling block instead");
}

/// A reduction with a block 12 m downstream of the redirect: `parts` of the trolley's line hold the block, `unit_parts`
/// of the braking line pull it.
Layout reduction(int parts, int unit_parts = 1) {
  Layout layout = demo_layout();
  Block block;
  block.id.value = "K1";
  block.rest_m = Real{197, {}};
  layout.blocks = {block};
  const Point3 redirect = layout.sheaves[0].position->value;
  const auto add_sheave = [&](Carrier on, double up_m) {
    Sheave sheave = layout.sheaves[0];
    sheave.on = on;
    sheave.position.reset();
    if (std::holds_alternative<AnchorId>(on))
      sheave.position = Given<Point3>{redirect + Vec3{0, 0, up_m}, {}};
    else
      sheave.offset = Given<Vec3>{{0, 0, up_m}, {}};
    layout.sheaves.push_back(sheave);
    return Over{static_cast<SheaveId>(layout.sheaves.size() - 1), Turning::clockwise, {}};
  };
  // Trolley, redirect, block, anchor, block, ... with its end on the anchor or, for odd parts, on the block.
  Line reducing = layout.lines[0], braking = layout.lines[0];
  for (int part = 2; part <= parts; ++part)
    reducing.route.push_back(part % 2 == 0 ? add_sheave(BlockId{0}, 0) : add_sheave(AnchorId{2}, 0.4));
  reducing.to = parts % 2 == 0 ? LineEnd(AnchorId{2}) : LineEnd(BlockId{0});
  reducing.closed_by = BlockId{0};
  braking.from = unit_parts == 1 ? LineEnd(BlockId{0}) : LineEnd(AnchorId{3});
  braking.route.clear();
  if (unit_parts == 2) braking.route.push_back(add_sheave(BlockId{0}, 0));
  layout.lines = {braking, reducing};
  return layout;
}

Solved<double> ratio_of(const Layout& layout) {
  const Frame frame = frame_of(layout);
  const auto courses = courses_of(layout);
  if (!courses) return tl::unexpected(courses.error());
  const std::vector<Point3> blocks = drawn_blocks(layout, frame, *courses);
  return nominal_ratio(layout, frame, *courses, blocks, frame.origin + 188.0 * frame.along);
}

TEST(NominalRatio, IsTheNumberOfPartsThatHoldTheBlock) {
  EXPECT_EQ(ratio_of(demo_layout()).value(), 1);
  for (int parts = 2; parts <= 4; ++parts) {
    const auto ratio = ratio_of(reduction(parts));
    ASSERT_TRUE(ratio.has_value()) << ratio.error().why;
    EXPECT_NEAR(*ratio, parts, 1e-12);
  }
  const auto halved = ratio_of(reduction(4, 2));
  ASSERT_TRUE(halved.has_value()) << halved.error().why;
  EXPECT_NEAR(*halved, 2, 1e-12);
}

TEST(NominalRatio, BelowOneTheReductionIsUpsideDownAndRefusedInThoseWords) {
  const Layout layout = reduction(1, 2);
  const auto ratio = ratio_of(layout);
  ASSERT_TRUE(ratio.has_value()) << ratio.error().why;
  EXPECT_NEAR(*ratio, 0.5, 1e-12);
  const Rig rig = solve(layout);
  EXPECT_EQ(rig.nominal_ratio, 0.5);
  ASSERT_FALSE(rig.reeving.solved());
  EXPECT_EQ(rig.reeving.result->error().why.substr(0, 89),
            "the reduction is upside down: the brake unit's line runs 2 times faster than the trolley;");
}

TEST(NominalRatio, ABlockThatAllLegsPullOneWayIsNotHeld) {
  Layout layout = reduction(2);
  layout.blocks[0].rest_m = Real{184, {}};  // upstream of the redirect and the dead end: both lines pull it downstream
  const auto ratio = ratio_of(layout);
  ASSERT_FALSE(ratio.has_value());
  EXPECT_EQ(ratio.error().why, "line \"L1\" would have to push: the legs on a travelling block all pull the same way");
}

TEST(DrawnBlocks, StandAtTheirRestChainageOnTheWayTheirLinesLead) {
  const Layout layout = reduction(2);
  const Frame frame = frame_of(layout);
  const Point3 block = drawn_blocks(layout, frame, courses_of(layout).value())[0];
  EXPECT_NEAR(frame.chainage_m(block), 197, 1e-9);
  EXPECT_NEAR(frame.across_m(block), 0, 1e-9);
  EXPECT_GT(block.z, 331.4);  // between redirect and outlet
  EXPECT_LT(block.z, 332.5);
}

}  // namespace
}  // namespace fairlead
