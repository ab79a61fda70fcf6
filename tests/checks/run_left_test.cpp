// What bodies and terminations take of a leg, against the shapes of Sable Weir: a block of 0.34 x 0.08 x 0.40 m about
// its point, its sheave of 80 mm radius 80 mm below, two sheaves of 80 mm radius in frames of 0.22 x 0.07 x 0.24 m.
#include "geometry/checks/run_left.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

const Rig& sable_weir() {
  static const Rig rig = solve(layout_of("sable_weir"));
  return rig;
}

/// The first leg between these two, and its sweep at rest cut down to the pose at the mark.
struct OneLeg {
  std::vector<LegOf> legs;
  std::size_t index{};
  reeving::Sweep sweep;
  Vec3 way;
  double chord_m{};

  OneLeg(Item from, Item to) : legs(legs_of(sable_weir())) {
    const auto found = std::find_if(legs.begin(), legs.end(),
                                    [&](const LegOf& leg) { return leg.from.item == from && leg.to.item == to; });
    if (found == legs.end()) throw std::runtime_error("no such leg");
    index = static_cast<std::size_t>(found - legs.begin());
    const reeving::Sweep& all = sable_weir().reeving.solved()->sweeps[0];
    const auto pose = static_cast<std::size_t>(all.rest_pose);
    sweep.poses = {all.poses[pose]};
    sweep.legs.assign(all.legs.begin() + static_cast<std::ptrdiff_t>(pose * legs.size()),
                      all.legs.begin() + static_cast<std::ptrdiff_t>((pose + 1) * legs.size()));
    sweep.blocks = {all.blocks[pose]};
    const Vec3 chord = sweep.legs[index].to - sweep.legs[index].from;
    chord_m = norm(chord);
    way = (1 / chord_m) * chord;
  }

  double taken_m(bool bodies) const { return chord_m - least_run_m(sable_weir(), sweep, legs, index, bodies).value; }
  double up() const { return std::abs(way.z); }
};

constexpr Item block{Item::Kind::block, 0}, unit{Item::Kind::brake_unit, 0}, R1{Item::Kind::sheave, 0},
    R2{Item::Kind::sheave, 1}, R3{Item::Kind::sheave, 2}, trolley{Item::Kind::brake_trolley, 0};

TEST(LegOnto, EndsAtItsSheaveOnWhicheverLine) {
  const Rig& rig = sable_weir();
  const std::vector<LegOf> legs = legs_of(rig);
  ASSERT_EQ(legs.size(), rig.reeving.inputs->legs());
  for (std::size_t i = 0; i < rig.reeved.size(); ++i) {
    const LegOf& leg = legs[leg_onto(*rig.reeving.inputs, i)];
    EXPECT_EQ(leg.to.item, rig.reeved[i] >= 0 ? (Item{Item::Kind::sheave, rig.reeved[i]}) : block) << i;
    EXPECT_EQ(leg.to.body, rig.reeving.inputs->sheaves[i].body);
    EXPECT_EQ(leg.line.kind, rig.reeved[i] >= 0 ? Item::Kind::line : Item::Kind::support_line);
  }
}

TEST(RunLeft, ALineTiedToTheBlocksFaceLosesNothingButTheBlocksCorner) {
  const OneLeg leg(block, unit);
  EXPECT_NEAR(leg.taken_m(true), 0.20 * leg.up(), 1e-4)
      << "0.17 m ahead of its point the line begins, and so far the block reaches";
}

TEST(RunLeft, ALineTiedToTheBlocksOtherFaceComesFromTheOtherSide) {
  const OneLeg leg(R3, block);
  // The contact stands square to the sagging line's end, up to 0.05 rad off the chord: 4 mm of 80. At R3 the frame
  // reaches 0.11 m beyond the contact, and by its height and the contact's on a slope; at the block the line ends on
  // the face.
  EXPECT_NEAR(leg.taken_m(true), 0.11, (0.12 + 0.08 + 0.20 + 0.16) * leg.up() + 5e-3);
}

TEST(RunLeft, BetweenTwoSheavesFrameAndBlockTakeTheirHalves) {
  const OneLeg leg(R1, R2);
  EXPECT_NEAR(leg.taken_m(true), 0.11 + 0.17, (0.12 + 0.08 + 0.20 + 0.16) * leg.up() + 10e-3) << "5 mm a contact";
}

TEST(RunLeft, WithoutAFrameOrASizeTheRimsReach) {
  Rig rig = sable_weir();
  for (Sheave& sheave : rig.layout.sheaves) sheave.frame_m.reset();
  rig.layout.blocks[0].size_m.reset();
  const OneLeg leg(R1, R2);
  EXPECT_NEAR(leg.chord_m - least_run_m(rig, leg.sweep, leg.legs, leg.index, true).value, 0.08 + 0.08,
              0.16 * leg.up() + 10e-3);
}

TEST(RunLeft, TerminationsTakeTheirLength) {
  EXPECT_NEAR(OneLeg(trolley, R1).taken_m(false), 0.15, 1e-12);
  EXPECT_NEAR(OneLeg(block, unit).taken_m(false), 0.15, 1e-12);
  EXPECT_NEAR(OneLeg(R3, block).taken_m(false), 0.15, 1e-12);
  EXPECT_NEAR(OneLeg(R1, R2).taken_m(false), 0, 1e-12);
}

/// Two poses: the leg as it is, and shifted at its far end with the block; straying by so much between.
Extreme between(OneLeg leg, Vec3 shift, double stray_m, bool bodies) {
  const std::vector<reeving::Leg> first = leg.sweep.legs;
  leg.sweep.legs.insert(leg.sweep.legs.end(), first.begin(), first.end());
  reeving::Leg& moved = leg.sweep.legs[first.size() + leg.index];
  moved.to = moved.to + shift;
  leg.sweep.poses.push_back(leg.sweep.poses[0]);
  leg.sweep.blocks.push_back(leg.sweep.blocks[0]);
  leg.sweep.blocks[1].placement.at = leg.sweep.blocks[1].placement.at + shift;
  leg.sweep.strays = {{0, 0, {0}, std::vector<double>(first.size(), stray_m)}};
  return least_run_m(sable_weir(), leg.sweep, leg.legs, leg.index, bodies);
}

TEST(RunLeft, BetweenPosesTheChordShrinksOnItsStraightWayAndByTheStraysOfBothEnds) {
  const OneLeg leg(trolley, R1);
  EXPECT_NEAR(between(leg, {}, 0, false).bound, leg.chord_m - 0.15, 1e-12);
  EXPECT_NEAR(between(leg, {}, 0.01, false).bound, leg.chord_m - 0.15 - 0.02, 1e-12);
  EXPECT_NEAR(between(leg, -2 * leg.chord_m * leg.way, 0, false).bound, -0.15, 1e-12) << "it passes through nothing";
  EXPECT_EQ(between(leg, {}, std::numeric_limits<double>::infinity(), false).bound,
            -std::numeric_limits<double>::infinity());
}

TEST(RunLeft, ALegThatSwingsMeetsMoreOfTheBodies) {
  const OneLeg leg(R1, R2);
  const Vec3 aside = 0.1 * leg.chord_m * cross(leg.way, Vec3{0, 0, 1});
  const double swung_rad = std::atan(0.1 * norm(cross(leg.way, Vec3{0, 0, 1})));
  const Extreme still = between(leg, {}, 0, true), swung = between(leg, aside, 0, true);
  EXPECT_NEAR(still.bound, still.value, 1e-12);
  EXPECT_LE(swung.bound, swung.value - 0.28 * swung_rad) << "by what stands there, at the least, times the angle";
}

}  // namespace
}  // namespace fairlead
