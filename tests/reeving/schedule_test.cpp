// The length every line needs in another state of the main line, against the way it runs and against its return.
#include <gtest/gtest.h>

#include "geometry/reeving/schedule.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

constexpr double trolley_N = 4 * g;

/// The same main line warmer: longer by 0.04 %, as steel is for 33 K.
State warmer(const Inputs& in) {
  State state = in.reference;
  state.cable.unstretched_m *= 1 + 12e-6 * 33;
  return state;
}

Inputs in_two_states(Inputs in) {
  in.states = {in.reference, warmer(in)};
  return in;
}

Station at_rest(const Inputs& in, const State& state) { return solve_rest(in, state, trolley_N).value(); }

/// From the line's end downstream of a sheave of radius r, in its plane, along the tangent to its underside and round
/// its upstream side to its top, less three quarters of a turn.
double way_m(Point3 end, Point3 centre, double r) {
  const double apart = std::hypot(end.x - centre.x, end.z - centre.z);
  const double above = std::atan2(end.z - centre.z, end.x - centre.x);  // of the end, seen from the centre
  return std::sqrt(apart * apart - r * r) + r * (above - std::acos(r / apart));
}

// LENGTH: weightless lines run straight, every block stays, so only the leg from the trolley and its arc change.
TEST(LengthsNeeded, OfAWeightlessLineFollowTheTangentFromTheTrolley) {
  for (const int n : {2, 3, 4}) {
    const Inputs in = in_two_states(level_parts(n, 3));
    const Station cool = at_rest(in, in.states[0]), warm = at_rest(in, in.states[1]);
    ASSERT_GT(cool.pose.attachment.z - warm.pose.attachment.z, 0.05) << "the trolley hangs lower";
    const auto needed = lengths_needed(in, cool, trolley_N).value();
    const Sheave& redirect = in.sheaves[0];
    const auto way = [&](const Station& at) { return way_m(at.pose.attachment, redirect.centre, redirect.radius_m); };
    // The block's wheels may lift or sink on their line by what the pull of the parts does: second order.
    EXPECT_NEAR(needed[1][0] - needed[0][0], way(warm) - way(cool), 1e-6) << n;
    EXPECT_GT(std::abs(needed[1][0] - needed[0][0]), 1e-4) << n;
  }
}

TEST(LengthsNeeded, OfTheReferenceAreTheLinesOwn) {
  for (const Inputs& rig : {two_to_one(), three_to_one(), skew_reduction({.parts = 3})}) {
    const Inputs in = in_two_states(rig);
    const Station rest = at_rest(in, in.reference);
    const auto needed = lengths_needed(in, rest, trolley_N).value();
    for (int line : {0, 1}) EXPECT_NEAR(needed[0][line], rest.lines.unstretched_m[line], 1e-9) << line;
    EXPECT_TRUE(std::isnan(needed[0][2])) << "of the support line";
  }
}

// The law of an adjuster: a line made to the length needed brings its block back to where it rests.
TEST(LengthsNeeded, BringTheBlockBackToItsRest) {
  for (const Inputs& rig : {two_to_one(), four_to_one(), skew_reduction({.parts = 2})}) {
    const Inputs in = in_two_states(rig);
    const auto needed = lengths_needed(in, at_rest(in, in.reference), trolley_N).value();
    Inputs made = in;
    made.lines[0].closing = Closing::length;
    made.blocks[0].rest_m.reset();
    State warm = in.states[1];
    const auto along = [&](const Station& at) { return dot(at.lines.blocks[0].at - in.origin, in.along); };
    warm.unstretched_m[0] = needed[0][0];
    EXPECT_GT(std::abs(along(at_rest(made, warm)) - *in.blocks[0].rest_m), 1e-3) << "left as it was it would drift";
    warm.unstretched_m[0] = needed[1][0];
    EXPECT_NEAR(along(at_rest(made, warm)), *in.blocks[0].rest_m, 1e-8);
  }
}

// A line of given length whose block rests where it will needs the same as one whose block's rest was given.
TEST(LengthsNeeded, AreTheSameWhicheverOfLengthAndRestWasGiven) {
  const Inputs by_rest = in_two_states(skew_reduction({.parts = 2}));
  const Station rest = at_rest(by_rest, by_rest.reference);
  Inputs by_length = by_rest;
  by_length.lines[0].closing = Closing::length;
  by_length.blocks[0].rest_m.reset();
  for (State* state : {&by_length.reference, &by_length.states[0], &by_length.states[1]})
    state->unstretched_m[0] = rest.lines.unstretched_m[0];
  const auto a = lengths_needed(by_rest, rest, trolley_N).value();
  const auto b = lengths_needed(by_length, at_rest(by_length, by_length.reference), trolley_N).value();
  for (int state : {0, 1})
    for (int line : {0, 1}) EXPECT_NEAR(a[state][line], b[state][line], 1e-8);
}

TEST(LengthsNeeded, OfTheOneLineOfOneToOneEndAtTheUnitsRestExtension) {
  const Inputs in = in_two_states(worked_rig());
  const auto needed = lengths_needed(in, at_rest(in, in.reference), trolley_N).value();
  // Lower by the lift of the redirect over it: the way from the trolley to the redirect is longer.
  const Station cool = at_rest(in, in.states[0]), warm = at_rest(in, in.states[1]);
  EXPECT_NEAR(needed[1][0] - needed[0][0], warm.lines.unstretched_m[0] - cool.lines.unstretched_m[0], 1e-9);
  EXPECT_GT(needed[1][0], needed[0][0]);
}

TEST(LengthsNeeded, WhereAStateDoesNotHangAreUnsolvedAndSayWhy) {
  Inputs in = in_two_states(level_parts(2, 3));
  in.states[1].cable.unstretched_m = unknown_length;
  const auto needed = lengths_needed(in, at_rest(in, in.reference), trolley_N);
  ASSERT_FALSE(needed);
  EXPECT_FALSE(needed.error().why.empty());
  const auto reeving = solve(in);
  ASSERT_TRUE(reeving) << reeving.error().why;
  EXPECT_FALSE(reeving->needed_m);
}

// LENGTH: a weightless line under one tension stretches by T L / EA.
TEST(Unloaded, IsShorterThanHangingByTheStretch) {
  Inputs in = level_parts(2, 3);
  in.lines[0].compliance_per_N = 1 / 0.3e6;
  const auto reeving = solve(in);
  ASSERT_TRUE(reeving) << reeving.error().why;
  const double hanging_m = reeving->finished_length_m[0];
  EXPECT_NEAR(hanging_m - reeving->unloaded_length_m[0], reeving->rest_tension_N[0] * hanging_m / 0.3e6, 1e-9);
  EXPECT_NEAR(reeving->finished_length_m[1], reeving->unloaded_length_m[1], 1e-12) << "without ea it does not";
}

}  // namespace
}  // namespace fairlead::reeving
