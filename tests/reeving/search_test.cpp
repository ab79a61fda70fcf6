// Where blocks are found: from any start, in stable balance, or not at all and why.
#include <gtest/gtest.h>

#include <random>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

/// The rig with a block drawn elsewhere and turned otherwise: the same block, sought from another start.
Inputs drawn_at(Inputs in, int block, Vec3 shift, Vec3 turn) {
  const Point3 drawn = in.blocks[block].drawn;
  const double angle = norm(turn), c = std::cos(angle), s = std::sin(angle);
  const Vec3 k = angle > 0 ? (1 / angle) * turn : Vec3{1, 0, 0};
  const auto turned = [&](Vec3 v) { return c * v + s * cross(k, v) + ((1 - c) * dot(k, v)) * k; };
  const auto place = [&](Point3& p) { p = drawn + shift + turned(p - drawn); };
  for (Sheave& sheave : in.sheaves)
    if (sheave.body == block) {
      place(sheave.centre);
      sheave.axle = turned(sheave.axle);
    }
  for (Line& l : in.lines)
    for (End* end : {&l.from, &l.to})
      if (end->body == block) place(end->at);
  place(in.blocks[block].centre_of_mass);
  place(in.blocks[block].drawn);
  return in;
}

Station pose_of(const Inputs& in, const Outlet& outlet, int sweep, double travel_m) {
  auto pose = solve_pose(in, in.sweeps[sweep], outlet, travel_m);
  EXPECT_TRUE(pose) << (pose ? "" : pose.error().why);
  return pose ? *pose : Station{};
}

// A push of 1e-9 N on a floating block in 90 N lines of 12 m moves it by 1e-10 m.
TEST(Search, ABlockIsFoundAtOnePlaceFromAnyStart) {
  std::mt19937 draw(3);
  std::uniform_real_distribution<double> metres(-4, 4), radians(-1.5, 1.5);
  for (const bool carried : {true, false})
    for (const int n : {2, 3, 4}) {
      const Inputs in = skew_reduction({.parts = n, .carried = carried});
      const Outlet outlet = outlet_of(in, 3);
      const Station as_drawn = pose_of(in, outlet, 3, 2);
      for (int i = 0; i < 12; ++i) {
        // A held block keeps the attitude it is drawn in.
        const Vec3 shift{metres(draw), metres(draw) / 4, metres(draw)},
            turn = carried ? Vec3{} : Vec3{radians(draw), radians(draw), radians(draw)};
        const Inputs other = drawn_at(in, 0, shift, turn);
        const Station found = pose_of(other, outlet, 3, 2);
        EXPECT_NEAR(norm(found.lines.blocks[0].at - as_drawn.lines.blocks[0].at), 0, 1e-7)
            << n << " " << carried << " " << i;
        EXPECT_NEAR(found.pose.extension_m, as_drawn.pose.extension_m, 1e-9);
        // Its parts hang where they did.
        for (int s = 0; s < int(in.sheaves.size()); ++s)
          EXPECT_NEAR(norm(placed(in, as_drawn.lines, s).centre - placed(other, found.lines, s).centre), 0, 1e-7);
      }
    }
}

TEST(Search, AFreeBlockDrawnUpsideDownIsFoundTheRightWayUp) {
  const Inputs in = two_to_one_floating();
  const Outlet outlet = outlet_of(in, 0);
  const Inputs upside_down = drawn_at(in, 0, {}, {3.0, 0, 0});
  const Station right = pose_of(in, outlet, 0, 2), found = pose_of(upside_down, outlet, 0, 2);
  const auto below = [](const Inputs& rig, const Station& s) {
    return s.lines.blocks[0].at.z - s.lines.blocks[0].move(rig.blocks[0].centre_of_mass, rig.blocks[0].drawn).z;
  };
  EXPECT_NEAR(below(in, right), below(upside_down, found), 1e-7);
  EXPECT_GT(below(in, right), 0.05);
}

TEST(Search, WhereItGoesOnFromDoesNotMatter) {
  for (const Inputs& in : {skew_reduction({.parts = 3}), skew_reduction({.parts = 2, .carried = false})})
    for (const int sweep : {0, 3, 4}) {
      const Outlet outlet = outlet_of(in, sweep);
      const Station far = pose_of(in, outlet, sweep, 14), cold = pose_of(in, outlet, sweep, 0.2);
      const auto warm = solve_pose(in, in.sweeps[sweep], outlet, 0.2, &far);
      ASSERT_TRUE(warm) << warm.error().why;
      EXPECT_NEAR(warm->pose.extension_m, cold.pose.extension_m, 1e-9);
      EXPECT_NEAR(norm(warm->lines.blocks[0].at - cold.lines.blocks[0].at), 0, 1e-7);
    }
}

/// The worked rig, and beside it a line without weight from one anchor under a hanging block, up over a fixed sheave,
/// under a second block and up to another anchor, its four falls plumb.
Inputs two_hanging_blocks(double first_N, double second_N) {
  Inputs in = worked_rig();
  const double r = 0.05, high = 20, x = 100;
  const Vec3 axle{0, 1, 0};
  in.sheaves.push_back({{x + r, 0, high - 5}, axle, r, -1, 0});
  in.sheaves.push_back({{x + 3 * r, 0, high}, axle, r, 1, on_ground});
  in.sheaves.push_back({{x + 5 * r, 0, high - 5}, axle, r, -1, 1});
  in.lines.push_back({.from = {{x, 0, high}, on_ground},
                      .to = {{x + 6 * r, 0, high}, on_ground},
                      .first_sheave = 1,
                      .sheaves = 3,
                      .closing = Closing::length});
  for (const int b : {0, 1}) {
    const Point3 centre = in.sheaves[1 + 2 * b].centre;
    in.blocks.push_back({.drawn = centre,
                         .centre_of_mass = centre + Vec3{0, 0, -0.1},
                         .weight_N = b == 0 ? first_N : second_N,
                         .joint = Joint::carrier});
  }
  in.reference.unstretched_m = {unknown_length, 20 + 3 * r * 3.14159265358979};
  for (SweepInputs& s : in.sweeps) s.state.unstretched_m = s.reference.unstretched_m = in.reference.unstretched_m;
  return in;
}

// Equal blocks in parallel falls stand anywhere (B: indifferent): what one sinks the other rises.
TEST(Search, EqualBlocksInParallelFallsAreIndifferentAndSaidToBe) {
  const Inputs in = two_hanging_blocks(50, 50);
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_FALSE(rest);
  EXPECT_EQ(
      rest.error().why,
      "travelling block 1 can stand anywhere along (0.000, 0.000, 1.000) at travel 0.000 m: the rig is indifferent");
}

TEST(Search, ALineTooLongForItsWayHangsSlackAndIsNamed) {
  Inputs in = two_to_one_floating();
  // A tether from the block to an anchor 3 m above it, far longer than it needs to be.
  in.lines.push_back({.from = {in.blocks[0].drawn, 0},
                      .to = {in.blocks[0].drawn + Vec3{0, 0, 3}, on_ground},
                      .first_sheave = static_cast<int>(in.sheaves.size()),
                      .closing = Closing::length});
  in.reference.unstretched_m.push_back(40);
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_FALSE(rest);
  EXPECT_EQ(rest.error().why.substr(0, 40), "line 3 hangs slack at travel 0.000 m: it") << rest.error().why;
}

TEST(Search, ABlockPulledUpOffItsSupportLineIsSaidToLeaveIt) {
  Inputs in = two_to_one();
  in.lines[0].to.at.z += 12;  // the dead end far above the support line
  in.blocks[0].weight_N = 5;
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_FALSE(rest);
  EXPECT_EQ(rest.error().why.substr(0, 66), "wheel 1 of travelling block 1 lifts off line 3: it pushes up with ");
}

TEST(Search, AsManyBlocksHaveAPlaceAtRestAsLinesAskForOne) {
  Inputs in = two_to_one();
  in.blocks[0].rest_m.reset();
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_FALSE(rest);
  EXPECT_EQ(rest.error().why, "0 blocks have a place at rest, and 1 lines take their length from one");
}

TEST(Search, ALegWithinItsSheaveIsNamedWithItsLine) {
  Inputs in = two_to_one();
  in.sheaves[0].centre = Point3{188, 0, worked_rest_height() - 0.1};
  in.sheaves[0].radius_m = 0.6;
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_FALSE(rest);
  EXPECT_EQ(
      rest.error().why.substr(0, 109),
      "the leg of line 1 from the brake trolley to sheave 1 (counted from the brake trolley) does not exist: its end")
      << rest.error().why;
}

}  // namespace
}  // namespace fairlead::reeving
