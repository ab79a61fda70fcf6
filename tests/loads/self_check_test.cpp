#include <gtest/gtest.h>

#include "tests/loads/reduced.hpp"

namespace fairlead::loads {
namespace {

/// What the loads say of a solved 3:1 after it was spoiled.
template <class Spoil>
std::string said_of(Spoil spoil) {
  static const Reduced sound = reduced(rig_of(3));
  Reduced rig = sound;
  spoil(rig);
  const auto loads = solve(rig);
  return loads ? "solved" : loads.error().why;
}

const std::string block = "the forces on a travelling block do not balance",
                  line = "the tension of a line does not follow from its load alone",
                  length = "a line gains a length that the brake unit does not pay out",
                  whole = "the forces on the anchors do not balance the weights";

TEST(SelfChecks, PassASoundRig) {
  EXPECT_EQ(said_of([](Reduced&) {}), "solved");
}

TEST(SelfChecks, FindABlockThatWeighsMoreThanWasSolved) {
  EXPECT_EQ(said_of([](Reduced& r) { r.reeving.blocks[0].weight_N += 1e-3; }), block);
}

TEST(SelfChecks, FindACoupleThatNobodyHolds) {
  EXPECT_EQ(said_of([](Reduced& r) { r.reeved.sweeps[2].blocks[5].held_couple_N_m = {}; }), block);
}

// Every anchor's load still sums to the weights when a sheave pulls aslant on both of its sides.
TEST(SelfChecks, FindALineWhoseTensionsDifferWithoutAReason) {
  EXPECT_EQ(said_of([](Reduced& r) {
              reeving::Leg& leg = r.reeved.sweeps[4].legs[7];
              leg.from_tension_N *= 1.001;
              leg.to_tension_N *= 1.001;
            }),
            line);
}

TEST(SelfChecks, FindAWrapLeftWithoutWeight) {
  EXPECT_EQ(said_of([](Reduced& r) {
              reeving::Turn& turn = r.reeved.sweeps[1].turns[0];
              turn.force_N = turn.on_tension_N * turn.on_leg + turn.off_tension_N * turn.off_leg;
            }),
            line);
}

// A wrong ratio solved consistently balances to the last digit; the lines' lengths tell.
TEST(SelfChecks, FindAPayOutThatTheLinesDoNotGiveRoomFor) {
  EXPECT_EQ(said_of([](Reduced& r) { r.reeved.sweeps[2].poses.back().extension_m += 1e-6; }), length);
}

TEST(SelfChecks, FindAMainLineThatPullsASupportAside) {
  EXPECT_EQ(said_of([](Reduced& r) { r.reeved.sweeps[0].poses[3].end_support_N.y += 1e-3; }), whole);
}

TEST(SelfChecks, FindATrolleyOffItsPlace) {
  EXPECT_EQ(said_of([](Reduced& r) { r.reeved.sweeps[0].poses[3].trolley.x += 0.01; }), whole);
}

TEST(SelfChecks, FindOneUnknownNumberInAnyPart) {
  const double nan = std::nan("");
  EXPECT_NE(said_of([&](Reduced& r) { r.reeved.sweeps[1].turns[2].force_N.z = nan; }), "solved");
  EXPECT_NE(said_of([&](Reduced& r) { r.reeved.sweeps[1].blocks[0].centre_of_mass.x = nan; }), "solved");
  EXPECT_NE(said_of([&](Reduced& r) { r.reeved.sweeps[1].legs[3].to_tension_N = nan; }), "solved");
  EXPECT_NE(said_of([&](Reduced& r) { r.reeved.sweeps[1].poses[2].extension_m = nan; }), "solved");
}

TEST(SelfChecks, RefuseAnEndThatNoAnchorHolds) {
  EXPECT_EQ(said_of([](Reduced& r) { r.held.sheave_anchor[0] = no_anchor; }), "sheave 1 is on no anchor");
  EXPECT_EQ(said_of([](Reduced& r) { r.held.line_anchors[2].to = no_anchor; }), "the end of line 3 is on no anchor");
  EXPECT_EQ(said_of([](Reduced& r) { r.held.line_anchors[2].from = 99; }), "the beginning of line 3 is on no anchor");
  EXPECT_EQ(said_of([](Reduced& r) { r.held.line_anchors.pop_back(); }),
            "the anchors of sheaves, lines and blocks are not those of the reeving");
}

}  // namespace
}  // namespace fairlead::loads
