// Where things are between two poses, held against where they are then.
#include "geometry/clearance/movers.hpp"

#include <gtest/gtest.h>

#include "geometry/reeving/leg.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

/// A passage of few poses: what is of second order becomes large.
struct Few {
  Scene scene;
  reeving::Sweep sweep;
  Passage passage;
  explicit Few(const Scene& given, std::vector<double> travels_m)
      : scene(given),
        sweep(scene.sweep(scene.rig.sweeps[0], travels_m)),
        passage{scene.in, scene.rig, scene.rig.sweeps[0], sweep, 0, static_cast<int>(travels_m.size())} {}
  Few(const Few&) = delete;

  reeving::Sweep then(int pose, double share) const {
    const double from_m = sweep.poses[static_cast<std::size_t>(pose)].travel_m;
    const double to_m = sweep.poses[static_cast<std::size_t>(pose) + 1].travel_m;
    return scene.instant(scene.rig.sweeps[0], from_m + share * (to_m - from_m));
  }
};

double share_of_cut(const reeving::Leg& leg, double cut_m) { return cut_m / norm(leg.to - leg.from); }

TEST(Movers, AStretchCutToLengthKeepsToItsLeg) {
  const Few few(Scene(), {-5, 0, 3, 9, 15});
  const double cut_m = 1.2;
  const Chain chain = hanging_chain({.leg = 0, .skip_from_m = cut_m}, few.passage);
  for (int pose = 1; pose < 4; ++pose)
    for (const double share : {0.25, 0.5, 0.75}) {
      const double cut = (1 - share) * share_of_cut(few.passage.leg(pose, 0), cut_m) +
                         share * share_of_cut(few.passage.leg(pose + 1, 0), cut_m);
      const reeving::Leg leg = few.then(pose, share).legs[0];
      constexpr int points = 4001;
      const Point3 on_leg = reeving::hanging_curve(leg, points)[static_cast<std::size_t>(cut * (points - 1))];
      const double step_m = norm(leg.to - leg.from) / (points - 1);
      EXPECT_LE(norm(chain.piece(0, pose, share).from - on_leg), chain.stray_m[static_cast<std::size_t>(pose)] + step_m)
          << "after pose " << pose << ", share " << share;
    }
}

TEST(Movers, AKeptStretchIsAsLongAsAskedAtEveryPose) {
  const Few few(Scene(), {-5, 0, 3, 9, 15});
  const Chain chain = hanging_chain({.leg = 0, .keep_m = 1.2}, few.passage);
  for (int pose = 0; pose < 5; ++pose) {
    const Point3 from = few.passage.leg(pose, 0).from;
    EXPECT_EQ(chain.piece(0, pose, 0).from, from);
    EXPECT_NEAR(norm(chain.piece(chain.pieces() - 1, pose, 0).to - from), 1.2, 0.01) << "straight, but for the sag";
  }
}

TEST(Movers, WhereBothEndsTakeMoreThanTheLegOnePointIsLeft) {
  const Few few(Scene(), {-5, 0, 15});
  const Chain chain = hanging_chain({.leg = 0, .skip_from_m = 3, .skip_to_m = 1.5}, few.passage);
  const reeving::Leg leg = few.passage.leg(1, 0);  // 4.06 m
  EXPECT_EQ(chain.piece(0, 1, 0).from, chain.piece(chain.pieces() - 1, 1, 0).to);
  EXPECT_NEAR(norm(chain.piece(0, 1, 0).from - leg.from), norm(leg.to - leg.from) * 2 / 3, 0.01);
}

TEST(Movers, NoPointOfALegIsFartherFromItsChordsThanSaid) {
  Scene scene;
  scene.tension_N = 45;
  scene.in.resolution_m = 0.2;  // few chords, so that they cut corners
  const Few few(scene, {-5, 0, 15});
  const Chain chain = hanging_chain({.leg = 1}, few.passage);
  double most = 0;
  for (const Point3& p : reeving::hanging_curve(few.passage.leg(1, 1), 400)) {
    double least = 1e9;
    for (int i = 0; i < chain.pieces(); ++i)
      least = std::min(least, nearest(Segment{p, p}, chain.piece(i, 1, 0)).distance_m);
    most = std::max(most, least);
  }
  EXPECT_LE(most, chain.slack_m);
  EXPECT_GE(most, 0.5 * chain.slack_m) << "nor is it said many times over";
}

TEST(Movers, TheMainLineIsNoFartherFromItsChordsThanSaidAtPosesAndBetween) {
  Scene scene;
  scene.in.resolution_m = 0.02;
  const Few few(scene, {-5, -1, 0, 3, 9, 15});
  const auto chain = main_line_chain(few.passage);
  ASSERT_TRUE(chain.has_value());
  double most_at_poses = 0, most_between = 0;
  for (int pose = 0; pose < 5; ++pose)
    for (const double share : {0., 0.5}) {
      const reeving::Pose now = few.then(pose, share).poses[0];
      const mainline::Load apart[2] = {{now.rider.x, 1200}, {now.trolley.x, 40}};
      const mainline::Load together{now.trolley.x, 1240};
      const mainline::Cable& cable = few.scene.rig.reference.cable;
      const auto shape =
          now.travel_m < 0 ? mainline::hang_rolling(cable, apart) : mainline::hang_rolling(cable, {&together, 1});
      const double stray_m = share == 0 ? 0 : chain->stray_m[static_cast<std::size_t>(pose)];
      for (double x = 184; x < 220; x += 0.37) {
        const Point3 p{x, 0, 30 + mainline::line_at(cable, *shape, x).z_m};
        double least = 1e9;
        for (int i = 0; i < chain->pieces(); ++i)
          least = std::min(least, nearest(Segment{p, p}, chain->piece(i, pose, share)).distance_m);
        EXPECT_LE(least, chain->slack_m + stray_m) << "after pose " << pose << ", share " << share << ", at " << x;
        (share == 0 ? most_at_poses : most_between) = std::max(share == 0 ? most_at_poses : most_between, least);
      }
    }
  EXPECT_GT(most_at_poses, 1e-4) << "the chords do leave it";
  EXPECT_GT(most_between, most_at_poses) << "and it strays";
}

}  // namespace
}  // namespace fairlead::clearance
