// Pairs, exclusions, named instants and refusals.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/solids/distance.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

using Kind = Thing::Kind;

Clearances solved(const Scene& scene, int poses = 40) {
  auto told = solve(scene.in, scene.rig, scene.passage(poses));
  if (!told) throw std::runtime_error(told.error().why);
  return std::move(*told);
}

bool leaves_out(const Clearances& told, Thing a, Thing b, Why why, int leg_a = -1, int leg_b = -1) {
  return std::any_of(told.excluded.begin(), told.excluded.end(), [&](const Exclusion& e) {
    return e.a == a && e.b == b && e.why == why && e.leg_a == leg_a && e.leg_b == leg_b;
  });
}

const Thing sheave{Kind::sheave, 0}, frame{Kind::frame, 0}, unit_body{Kind::unit, 0};

TEST(Clearance, APostBesideTheRidersPathIsAsFarAsTheEnvelopesSide) {
  Scene scene;  // the envelope is 2.1 m wide
  scene.in.structures = {{Post{{196, -1.5, 0}, {196, -1.5, 24}, 0.15}}};
  const Clearances told = solved(scene);
  const auto gap = find_gap(told, rider, structure(0));
  EXPECT_NEAR(gap->least_m.value, 1.5 - 0.15 - 1.05, 1e-12);
  EXPECT_NEAR(gap->on_a.y, -1.05, 1e-12);
  EXPECT_NEAR(gap->on_b.y, -1.35, 1e-12);
  EXPECT_GT(gap->travel_m, 196 - 188 - 1.2 - 1e-9) << "abreast of the envelope, 1.2 m before to 1.2 m behind";
  EXPECT_LT(gap->travel_m, 196 - 188 + 1.2 + 1e-9);
  EXPECT_EQ(gap->sweep, 0);
}

TEST(Clearance, GroundTheRiderWouldTouchIsNeverClear) {
  Scene scene;
  scene.in.structures = {{Plane{{0, 0, 19}, {0, 0, 1}}}};
  EXPECT_LE(find_gap(solved(scene), rider, structure(0))->least_m.value, 0);
}

TEST(Clearance, AcrossGroundTheDeepestPointCounts) {
  Scene scene;
  scene.rig.lines[0].diameter_m = 0;
  scene.in.structures = {{Plane{{0, 0, 25}, unit(Vec3{0.02, 0, 1})}}};  // all of the pulling line lies below it
  const auto gap = find_gap(solved(scene), line(0), structure(0));
  const reeving::Reeving reeving = scene.passage(40);
  double deepest = 0;
  for (std::size_t i = 0; i < reeving.sweeps[0].legs.size(); ++i)
    if (i % scene.rig.legs() < 3)
      for (const Point3& p : {reeving.sweeps[0].legs[i].from, reeving.sweeps[0].legs[i].to})
        deepest = std::min(deepest, dot(p - Point3{0, 0, 25}, unit(Vec3{0.02, 0, 1})));
  EXPECT_NEAR(gap->least_m.value, deepest, 0.02);
}

TEST(Clearance, AStructureThatMayBeTouchedIsLeftOutAndSaidSo) {
  Scene scene;
  scene.in.structures = {{Box{.centre = {205, 0, 17}, .half_m = {5, 2, 0.2}}, {}, true, false, false}};
  const Clearances told = solved(scene);
  EXPECT_FALSE(find_gap(told, rider, structure(0)).has_value());
  EXPECT_FALSE(find_gap(told, block(0), structure(0)).has_value());
  EXPECT_TRUE(find_gap(told, line(0), structure(0)).has_value());
  EXPECT_TRUE(leaves_out(told, rider, structure(0), Why::let_touch));
  EXPECT_TRUE(leaves_out(told, block(0), structure(0), Why::let_touch));
}

TEST(Clearance, TheRiderIsHeldAgainstEveryLineBlockSheaveFrameAndTheUnit) {
  Scene scene;
  scene.in.unit = Box{.centre = {219.3, 0.1, 21.5}, .half_m = {0.3, 0.3, 0.3}};
  const Clearances told = solved(scene);
  for (const Thing other : {line(0), line(1), line(2), block(0), sheave, frame, unit_body})
    EXPECT_TRUE(find_gap(told, rider, other).has_value()) << int(other.kind) << " " << other.index;
  for (const Exclusion& e : told.excluded) {
    if (e.a != rider) continue;
    EXPECT_TRUE(e.b == main_line || e.why == Why::judged_as_hands) << "nothing else of the rider is left out";
  }
}

TEST(Clearance, ALineIsNotHeldAgainstItsOwnSheaveBlockAndUnitButAgainstTheOthers) {
  Scene scene;
  scene.in.unit = Box{.centre = {219.3, 0.1, 21.5}, .half_m = {0.3, 0.3, 0.3}};
  const Clearances told = solved(scene);
  for (const int leg : {0, 1}) {
    EXPECT_TRUE(leaves_out(told, line(0), sheave, Why::own_sheave, leg));
    EXPECT_TRUE(leaves_out(told, line(0), frame, Why::own_sheave, leg));
  }
  EXPECT_FALSE(leaves_out(told, line(0), sheave, Why::own_sheave, 2)) << "its dead end passes the redirect";
  EXPECT_TRUE(find_gap(told, line(0), sheave).has_value());
  EXPECT_TRUE(leaves_out(told, line(0), block(0), Why::own_block, 1));
  EXPECT_TRUE(find_gap(told, line(0), block(0)).has_value()) << "its first leg may meet the block";
  EXPECT_TRUE(leaves_out(told, line(1), unit_body, Why::own_unit, 0));
  EXPECT_FALSE(find_gap(told, line(1), unit_body).has_value());
  EXPECT_TRUE(find_gap(told, line(2), unit_body).has_value());
  EXPECT_TRUE(leaves_out(told, line(0), line(0), Why::meet_at_sheave, 0, 1));
  EXPECT_FALSE(leaves_out(told, line(0), line(0), Why::meet_at_sheave, 0, 2));
  EXPECT_TRUE(leaves_out(told, line(0), line(1), Why::meet_at_block, 2, 0));
  EXPECT_TRUE(leaves_out(told, line(2), line(2), Why::meet_at_sheave, 0, 1)) << "at the wheel";
  EXPECT_TRUE(leaves_out(told, line(0), main_line, Why::own_trolley, 0));
  for (const Exclusion& e : told.excluded) EXPECT_FALSE(reason(e.why).empty());
}

TEST(Clearance, ALegThatRunsThroughAnotherSheaveTouchesIt) {
  Scene scene;
  // Another line's sheave in the way of the redirect's leg to the block.
  scene.add_line_over({{195, 0, 21.3}, {0, 1, 0}, 0.08, 1, reeving::on_ground}, {.rim_radius_m = 0.4, .width_m = 0.02});
  EXPECT_LE(find_gap(solved(scene), line(0), {Kind::sheave, 3})->least_m.value, 0);
}

TEST(Clearance, SheavesInOneFrameShareIt) {
  Scene scene;
  scene.add_line_over({{186.3, 0.02, 19.62}, {0, 1, 0}, 0.08, 1, reeving::on_ground},
                      {.rim_radius_m = 0.09, .width_m = 0.02, .frame = scene.in.sheaves[0].frame});
  const Clearances told = solved(scene);
  EXPECT_TRUE(leaves_out(told, line(0), {Kind::frame, 3}, Why::own_sheave, 0));
}

TEST(Clearance, ALineIsHeldAgainstThePostItIsTiedToBeyondItsEnd) {
  Scene scene;
  const Point3 tied = scene.rig.lines[2].to.at;  // the support line's downstream end
  scene.in.structures = {{Post{tied + Vec3{0.1, 0, -20}, tied + Vec3{0.1, 0, 1}, 0.1}}};
  scene.in.meeting_m = 0.3;
  const Clearances told = solved(scene);
  EXPECT_TRUE(leaves_out(told, line(2), structure(0), Why::tied_there, 1));
  const auto gap = find_gap(told, line(2), structure(0));
  EXPECT_NEAR(gap->least_m.value, 0.3, 0.02) << "where it is 0.3 m off along a nearly level line";
  scene.in.structures = {{Post{tied + Vec3{-0.3, 0, -20}, tied + Vec3{-0.3, 0, 1}, 0.1}}};
  EXPECT_LE(find_gap(solved(scene), line(2), structure(0))->least_m.value, 0) << "one it runs through";
}

TEST(Clearance, BothLegsAreJudgedBeyondTheSheaveThatBringsThemTogether) {
  Scene scene;
  scene.in.meeting_m = 0.4;
  const auto gap = find_gap(solved(scene), line(2), line(2));
  EXPECT_NEAR(gap->least_m.value, 2 * 0.4 - 0.01, 0.03) << "to both sides of the wheel, nearly straight";
}

TEST(Clearance, TheTwoPointsStandOnTheTwoThings) {
  Scene scene;
  scene.in.structures = {{Post{{196, -1.5, 0}, {196, -1.5, 24}, 0.15}}};
  for (const Gap& gap : solved(scene).gaps) {
    if (!(gap.least_m.value > 0)) continue;
    EXPECT_NEAR(norm(gap.on_b - gap.on_a), gap.least_m.value, 2 * scene.in.resolution_m);
    const reeving::Sweep then = scene.instant(scene.rig.sweeps[0], gap.travel_m);
    const auto on = [&](Thing thing, Point3 p) {
      Box box{.half_m = {1.2, 1.05, 1.25}};
      if (thing == rider) box.centre = then.poses[0].rider + Vec3{0, 0, -1.05};
      if (thing == block(0)) box = {.centre = then.blocks[0].placement.at, .half_m = scene.in.blocks[0]->half_m};
      if (thing == rider || thing == block(0)) {
        EXPECT_NEAR(nearest(Segment{p, p}, box).distance_m, 0, scene.in.resolution_m);
      }
    };
    on(gap.a, gap.on_a);
    on(gap.b, gap.on_b);
  }
}

// The block over the main line, downstream of the rider: the solved line's height straight below, made square to it.
TEST(Clearance, TheMainLineHangsByWhatTheTrolleyCarries) {
  Scene scene;
  scene.pull_N = {0, 0, 300};
  scene.in.resolution_m = 1e-4;
  reeving::Reeving reeving;
  reeving.sweeps = {scene.instant(scene.rig.sweeps[0], 6)};
  const auto told = solve(scene.in, scene.rig, reeving);
  const mainline::Load load{194, 1200 + 40 - 300};
  const auto shape = mainline::hang_rolling(scene.rig.reference.cable, {&load, 1});
  const Point3 at = reeving.sweeps[0].blocks[0].placement.at;
  double least = 1e9;
  for (double x = at.x - 0.35; x <= at.x + 0.35 + 1e-9; x += 0.05)
    for (double beside = -2; beside <= 2; beside += 0.01) {
      const double z = 30 + mainline::line_at(scene.rig.reference.cable, *shape, x + beside).z_m;
      least = std::min(least, std::hypot(beside, at.z - 0.2 - z));
    }
  // Steps of a centimetre at 5 m leave 0.005^2 / 10.
  EXPECT_NEAR(find_gap(*told, main_line, block(0))->least_m.value, least - 0.008, 2e-4);
}

TEST(Clearance, LinesTiedToOnePlaceAreJudgedBeyondIt) {
  Scene scene;
  scene.rig.lines[2].from.at = scene.rig.lines[0].to.at;
  const Clearances told = solved(scene);
  EXPECT_TRUE(leaves_out(told, line(0), line(2), Why::meet_at_end, 2, 0));
}

TEST(Clearance, TheMomentUnderTheRedirectNamesTheGapsThere) {
  Scene scene;
  const Clearances told = solved(scene);
  ASSERT_GE(told.passings.size(), 1u);
  const Passing& passing = told.passings[0];
  EXPECT_EQ(passing.other, sheave);
  ASSERT_EQ(passing.met, Passing::Met::at_travel);
  EXPECT_NEAR(passing.travel_m, 186.3 - 188, 1e-9);
  // The redirect over the rider: its rim's lowest point over the envelope's top, at that instant.
  const reeving::Sweep then = scene.instant(scene.rig.sweeps[0], 186.3 - 188);
  const double top = then.poses[0].rider.z + 0.2;
  const auto to = [&](Thing thing) {
    return *std::find_if(passing.gaps.begin(), passing.gaps.end(), [&](const Gap& gap) { return gap.b == thing; });
  };
  const double stray = 2 * scene.passage(40).sweeps[0].strays[6].rider_m;
  EXPECT_NEAR(to(sheave).least_m.value, 19.6 - 0.09 - top, stray + 1e-9);
  EXPECT_NEAR(to(frame).least_m.value, 19.5 - top, stray + 1e-9);
  EXPECT_NEAR(to(frame).on_a.z, top, stray + 1e-9);
  EXPECT_EQ(passing.gaps.size(), 5u) << "sheave, frame, three lines";
  EXPECT_TRUE(std::is_sorted(passing.gaps.begin(), passing.gaps.end(),
                             [](const Gap& a, const Gap& b) { return a.least_m.value < b.least_m.value; }));
}

TEST(Clearance, RiderAndBlockThatNeverPassAreSaidNotToPass) {
  const Clearances told = solved(Scene());
  const auto passing =
      std::find_if(told.passings.begin(), told.passings.end(), [](const Passing& p) { return p.other == block(0); });
  ASSERT_NE(passing, told.passings.end());
  EXPECT_EQ(passing->met, Passing::Met::stays_upstream) << "the rider of the block: at 203 m and at 204.5 m at last";
  EXPECT_TRUE(passing->gaps.empty());
}

TEST(Clearance, RiderAndBlockPassWhereTheyAreLevel) {
  Scene scene;
  const Vec3 upstream{-12, 0, 0};
  scene.rig.blocks[0].drawn = scene.rig.blocks[0].drawn + upstream;
  scene.rig.sheaves[1].centre = scene.rig.sheaves[1].centre + upstream;
  scene.rig.sheaves[2].centre = scene.rig.sheaves[2].centre + upstream;
  scene.rig.lines[1].from.at = scene.rig.lines[1].from.at + upstream;
  scene.in.blocks[0]->centre = scene.in.blocks[0]->centre + upstream;
  const Clearances told = solved(scene);
  const auto passing =
      std::find_if(told.passings.begin(), told.passings.end(), [](const Passing& p) { return p.other == block(0); });
  ASSERT_NE(passing, told.passings.end());
  ASSERT_EQ(passing->met, Passing::Met::at_travel);
  EXPECT_NEAR(passing->travel_m, 8, 1e-9) << "188 + x = 200 - x / 2";
  ASSERT_EQ(passing->gaps.size(), 1u);
  const reeving::Sweep then = scene.instant(scene.rig.sweeps[0], 8);
  EXPECT_NEAR(passing->gaps[0].least_m.value, then.blocks[0].placement.at.z - 0.2 - (then.poses[0].rider.z + 0.2),
              1e-2);
  EXPECT_LE(find_gap(told, rider, block(0))->least_m.value, passing->gaps[0].least_m.value + 1e-9);
}

TEST(Clearance, APassagePayingOutIsLookedAtFromContactOn) {
  Scene scene;
  reeving::Reeving reeving = scene.passage(40);
  scene.in.structures = {{Post{{184, -1.2, 0}, {184, -1.2, 24}, 0.1}}};  // beside the approach
  const auto at_rest = solve(scene.in, scene.rig, reeving);
  reeving.sweeps[0].running = reeving::Running::paying_out;
  const auto paying_out = solve(scene.in, scene.rig, reeving);
  EXPECT_LT(find_gap(*at_rest, rider, structure(0))->travel_m, 0);
  EXPECT_GE(find_gap(*paying_out, rider, structure(0))->travel_m, 0);
  EXPECT_GT(find_gap(*paying_out, rider, structure(0))->least_m.value,
            find_gap(*at_rest, rider, structure(0))->least_m.value + 1);
  EXPECT_TRUE(std::none_of(paying_out->passings.begin(), paying_out->passings.end(), [](const Passing& p) {
    return p.other == sheave;
  })) << "what the rider passed before contact is not said to stay upstream";
}

TEST(Clearance, HandsAtTheTrolleyAreAResultOfTheirOwn) {
  Scene scene;
  const Clearances told = solved(scene);
  ASSERT_TRUE(told.hands.has_value());
  EXPECT_LE(told.hands->gap.least_m.value, 0) << "the line ends within the rider's reach";
  EXPECT_EQ(told.hands->gap.b.kind, Kind::hands);
  // At full travel the line rises by less than 0.15 m over the 1.1 m from its end to the envelope's upstream side.
  EXPECT_NEAR(told.hands->travel_m, 15, 1);
  EXPECT_NEAR(told.hands->inside_m, 1.1, 0.02);
  EXPECT_TRUE(leaves_out(told, rider, line(0), Why::judged_as_hands, -1, 0));
  EXPECT_GT(find_gap(told, rider, line(0))->least_m.value, 0.3) << "1.5 m from the trolley and upstream";
  scene.in.hands_m = 0;
  const Clearances whole = solved(scene);
  EXPECT_FALSE(whole.hands.has_value());
  EXPECT_LE(find_gap(whole, rider, line(0))->least_m.value, 0);
}

TEST(Clearance, WithoutARiderInAnyPassageNothingOfARiderPasses) {
  Scene scene;
  scene.rig.sweeps[0].rider_weight_N = 0;
  reeving::Reeving reeving;
  reeving.sweeps = {scene.sweep(scene.rig.sweeps[0], {0, 5, 10, 15})};
  const auto told = solve(scene.in, scene.rig, reeving);
  ASSERT_TRUE(told.has_value());
  EXPECT_TRUE(std::isnan(find_gap(*told, rider, line(1))->least_m.value));
  EXPECT_TRUE(std::isnan(find_gap(*told, rider, line(1))->least_m.bound));
  EXPECT_TRUE(told->passings.empty());
  EXPECT_GT(find_gap(*told, line(0), line(1))->least_m.value, 0);
}

TEST(Clearance, TheWorstOfSeveralPassagesIsToldWithItsOwn) {
  Scene scene;
  scene.in.structures = {{Plane{{0, 0, 10}, {0, 0, 1}}}};
  reeving::SweepInputs light = scene.rig.sweeps[0];
  light.rider_weight_N = 350;
  scene.rig.sweeps.push_back(light);
  reeving::Reeving reeving = scene.passage(30);
  std::vector<double> travels_m;
  for (const reeving::Pose& pose : reeving.sweeps[0].poses) travels_m.push_back(pose.travel_m);
  reeving.sweeps.push_back(scene.sweep(light, travels_m));
  scene.in.sweeps = {1, 0};
  const auto both = solve(scene.in, scene.rig, reeving);
  scene.in.sweeps = {0};
  const auto heavy = solve(scene.in, scene.rig, reeving);
  EXPECT_EQ(find_gap(*both, rider, structure(0))->sweep, 0) << "the heavy rider hangs lower";
  EXPECT_EQ(find_gap(*both, rider, structure(0))->least_m.value, find_gap(*heavy, rider, structure(0))->least_m.value);
}

TEST(Clearance, WhatIsNoNumberIsUnsolved) {
  Scene scene;
  reeving::Reeving reeving = scene.passage(10);
  reeving.sweeps[0].poses[3].rider.z = std::nan("");
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "a solved pose has a place that is no number");
  reeving = scene.passage(10);
  reeving.sweeps[0].legs[9].H_N = std::nan("");
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "a solved pose has a place that is no number");
  reeving = scene.passage(10);
  scene.in.structures = {{Post{{0, 0, 0}, {0, 0, 0}, 1}}};
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "the shape of structure 1 encloses nothing");
  scene.in.structures = {{Plane{{0, 0, 0}, {0, 0, std::nan("")}}}};
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "the shape of structure 1 encloses nothing");
  scene.in.structures = {{Box{.centre = {0, 0, 0}, .y = unit(Vec3{1, 5, 0}), .half_m = {1, 1, 1}}}};
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "the shape of structure 1 encloses nothing") << "askew";
  scene.in.structures.clear();
  scene.in.sweeps.clear();
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "there is no passage to look at");
  scene.in.sweeps = {1};
  EXPECT_EQ(solve(scene.in, scene.rig, reeving).error().why, "a passage to look at is not solved");
}

TEST(Clearance, ThreadsChangeNothing) {
  Scene scene;
  scene.in.structures = {{Post{{196, -1.5, 0}, {196, -1.5, 24}, 0.15}}};
  const reeving::Reeving reeving = scene.passage(40);
  const auto one = solve(scene.in, scene.rig, reeving);
  Work work;
  work.threads = 3;
  const auto three = solve(scene.in, scene.rig, reeving, work);
  ASSERT_EQ(one->gaps.size(), three->gaps.size());
  for (std::size_t i = 0; i < one->gaps.size(); ++i) {
    EXPECT_EQ(one->gaps[i].least_m, three->gaps[i].least_m);
    EXPECT_EQ(one->gaps[i].on_a, three->gaps[i].on_a);
  }
}

}  // namespace
}  // namespace fairlead::clearance
