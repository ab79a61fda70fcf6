// What is said of the time between poses, held against the instants between them looked at one by one.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/reeving/leg.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

constexpr int instants = 2000;

/// The instants are looked at with chords as fine; those are counted in their values, as in these.
void expect_held(const Scene& scene, int poses, const char* what) {
  const auto told = solve(scene.in, scene.rig, scene.passage(poses));
  ASSERT_TRUE(told.has_value()) << told.error().why;
  const std::vector<double> brute = scene.brute_force(instants);
  ASSERT_EQ(brute.size(), told->gaps.size());
  for (std::size_t i = 0; i < brute.size(); ++i) {
    const Gap& gap = told->gaps[i];
    const double least = brute[i];
    const auto told_of = [&] {
      return ::testing::Message() << what << ", " << poses << " poses, kinds " << int(gap.a.kind) << " and "
                                  << int(gap.b.kind) << ", indices " << gap.a.index << " and " << gap.b.index;
    };
    EXPECT_LE(gap.least_m.bound, least) << told_of();
    EXPECT_LE(gap.least_m.bound, gap.least_m.value) << told_of();
    // The least there is, is found but for the instants' own chords and what the search and the poses leave.
    EXPECT_GE(gap.least_m.value, least - scene.in.resolution_m) << told_of();
  }
}

Scene furnished() {
  Scene scene;
  scene.in.structures = {{Post{{196.31, -1.3, 0}, {196.31, -1.3, 24}, 0.15}},
                         {Box{.centre = {204.4, 1.5, 18}, .half_m = {0.1, 0.1, 1}}},
                         {Plane{{200, 0, 14}, unit(Vec3{-0.05, 0, 1})}},
                         {Post{{189.9, -2, 17.6}, {189.9, 2, 17.9}, 0.05}},
                         {Box{.centre = {208.05, 0, 24.2}, .half_m = {0.05, 0.05, 0.02}}},  // under the block's way
                         {Post{{190.43, 0.1, 0}, {190.43, 0.1, 18.9}, 0.01}}};
  scene.in.unit = Box{.centre = {219.3, 0.1, 21.5}, .half_m = {0.3, 0.3, 0.3}};
  return scene;
}

TEST(BetweenPoses, NoInstantComesNearerThanTheBound) {
  for (const int poses : {12, 50}) expect_held(furnished(), poses, "in still air");
}

TEST(BetweenPoses, NoInstantComesNearerThanTheBoundInASideWind) {
  Scene scene = furnished();
  scene.wind_N_per_m = {0, 0.4, 0};
  expect_held(scene, 20, "in a side wind");
}

TEST(BetweenPoses, NoInstantComesNearerThanTheBoundWithABlockThatTurns) {
  Scene scene = furnished();
  scene.block_turn_rad_per_m = 0.1;
  expect_held(scene, 20, "with a block that turns");
}

// With next to nothing left by the search, what the poses leave open must carry the bound alone.
TEST(BetweenPoses, NoInstantComesNearerThanTheBoundOfAFineSearchBetweenFewPoses) {
  Scene scene = furnished();
  scene.in.resolution_m = 1e-4;
  expect_held(scene, 9, "finely searched");
  scene.block_turn_rad_per_m = 0.3;
  expect_held(scene, 9, "finely searched, with a block that turns");
}

TEST(BetweenPoses, AThinPostBetweenTwoPosesIsFound) {
  // A needle in the way of the line's sheave end of the block: the block passes it between two poses.
  Scene scene;
  const std::vector<double> travels_m{-5, 0, 5, 10, 15};
  reeving::Reeving reeving;
  reeving.sweeps = {scene.sweep(scene.rig.sweeps[0], travels_m)};
  const reeving::Sweep at_8 = scene.instant(scene.rig.sweeps[0], 8);
  const Point3 block_then = at_8.blocks[0].placement.at;
  scene.in.blocks[0]->half_m = {0.05, 0.05, 0.05};
  scene.in.structures = {{Post{block_then + Vec3{0, -1, 0}, block_then + Vec3{0, 1, 0}, 0.002}}};
  for (const double travel_m : travels_m) {
    reeving::Reeving pose;
    pose.sweeps = {scene.instant(scene.rig.sweeps[0], travel_m)};
    EXPECT_GT(find_gap(*solve(scene.in, scene.rig, pose), block(0), structure(0))->least_m.value, 0.9);
  }
  const auto told = solve(scene.in, scene.rig, reeving);
  const auto gap = find_gap(*told, block(0), structure(0));
  EXPECT_LE(gap->least_m.bound, 0);
  EXPECT_LE(gap->least_m.value, reeving.sweeps[0].strays[2].blocks_m[0]) << "seen but for what the poses leave open";
  EXPECT_NEAR(gap->travel_m, 8, 0.3);
  EXPECT_EQ(gap->least_m.pose, 2);
}

TEST(BetweenPoses, WhereNothingIsKnownBetweenTwoPosesThereIsNoBound) {
  Scene scene = furnished();
  reeving::Reeving reeving = scene.passage(20);
  reeving.sweeps[0].strays[7].legs_m[0] = std::numeric_limits<double>::infinity();
  const auto told = solve(scene.in, scene.rig, reeving);
  const auto line_gap = find_gap(*told, line(0), structure(0));
  EXPECT_EQ(line_gap->least_m.bound, -std::numeric_limits<double>::infinity());
  EXPECT_TRUE(std::isfinite(line_gap->least_m.value));
  EXPECT_GT(find_gap(*told, line(1), structure(0))->least_m.bound, 0) << "the other lines are known";
  reeving.sweeps[0].strays[7].legs_m[0] = std::nan("");
  EXPECT_EQ(find_gap(*solve(scene.in, scene.rig, reeving), line(0), structure(0))->least_m.bound,
            -std::numeric_limits<double>::infinity());
}

TEST(BetweenPoses, FinerPosesAndAFinerSearchLeaveLess) {
  Scene scene = furnished();
  const auto left = [&](int poses, double resolution_m) {
    scene.in.resolution_m = resolution_m;
    const auto told = solve(scene.in, scene.rig, scene.passage(poses));
    double most = 0;
    for (const Gap& gap : told->gaps)
      if (gap.a.kind == Thing::Kind::rider && gap.b.kind != Thing::Kind::line)
        most = std::max(most, (gap.least_m.value - gap.least_m.bound) / std::max(1., gap.least_m.value));
    return most;
  };
  const double coarse = left(100, 20e-3), fine = left(100, 1e-3);
  EXPECT_LE(coarse, 21e-3);
  EXPECT_LE(fine, 2e-3);
}

// The chords of a leg are held against reeving's own curve: a line a micrometre thick against a small box on the curve.
TEST(BetweenPoses, ALegHangsWhereItsCurveHangs) {
  Scene scene;
  scene.wind_N_per_m = {0, 0.25, 0};
  scene.tension_N = 45;
  scene.rig.lines[0].diameter_m = scene.rig.lines[1].diameter_m = 1e-6;
  reeving::Reeving reeving;
  reeving.sweeps = {scene.instant(scene.rig.sweeps[0], 3)};
  const reeving::Leg& leg = reeving.sweeps[0].legs[1];
  EXPECT_GT(leg.sag_m, 0.5) << "a leg worth the name";
  for (const Point3& on_curve : reeving::hanging_curve(leg, 8)) {
    scene.in.structures = {{Box{.centre = on_curve, .half_m = {1e-6, 1e-6, 1e-6}}}};
    const auto told = solve(scene.in, scene.rig, reeving);
    const auto gap = find_gap(*told, line(0), structure(0));
    EXPECT_LE(gap->least_m.value, 2 * scene.in.resolution_m / 2) << "at " << on_curve.x;
    EXPECT_LE(gap->least_m.bound, 0) << "at " << on_curve.x;
  }
}

}  // namespace
}  // namespace fairlead::clearance
