// Whole layouts whose redirect swivels or hangs free: what stands on a mount balances, and is met where it stands.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/rig/rig.hpp"
#include "tests/mounted_layouts.hpp"

namespace fairlead {
namespace {

/// One mounted redirect at one pose, with all that acts on it.
struct Hung {
  Point3 own, centre;
  Vec3 held_N, held_couple_N_m, force_N, moment_N_m;  ///< the latter two: what is left over, about its own point
  double pull_N;                                      ///< of the line on it
};

class Mounted {
 public:
  explicit Mounted(Rig rig) : rig_(std::move(rig)) {
    const auto body =
        std::find_if(rig_.bodies.begin(), rig_.bodies.end(), [](Item item) { return item.kind == Item::Kind::sheave; });
    body_ = static_cast<std::size_t>(body - rig_.bodies.begin());
    const auto& sheaves = in().sheaves;
    sheave_ = static_cast<std::size_t>(
        std::find_if(sheaves.begin(), sheaves.end(), [&](const auto& s) { return s.body == static_cast<int>(body_); }) -
        sheaves.begin());
  }

  const Rig& rig() const { return rig_; }
  const reeving::Inputs& in() const { return *rig_.reeving.inputs; }
  const reeving::Block& block() const { return in().blocks.at(body_); }
  const std::vector<reeving::Sweep>& sweeps() const { return rig_.reeving.solved()->sweeps; }
  std::size_t body() const { return body_; }
  std::size_t sheave() const { return sheave_; }
  int anchor() const { return rig_.loads.inputs->block_anchor.at(body_); }

  Hung at(const reeving::Sweep& sweep, std::size_t pose) const {
    const reeving::BlockPlace& place = sweep.blocks.at(pose * in().blocks.size() + body_);
    const reeving::Turn& turn = sweep.turns.at(pose * in().sheaves.size() + sheave_);
    Hung hung{place.placement.at,
              place.placement.move(in().sheaves[sheave_].centre, block().drawn),
              place.held_N,
              place.held_couple_N_m,
              {},
              place.held_couple_N_m,
              norm(turn.force_N)};
    const auto pull = [&](Point3 p, Vec3 force_N) {
      hung.force_N += force_N;
      hung.moment_N_m += cross(p - hung.own, force_N);
    };
    const Vec3 on_N = turn.on_tension_N * turn.on_leg, off_N = turn.off_tension_N * turn.off_leg;
    pull(turn.on, on_N);
    pull(turn.off, off_N);
    pull(turn.wrap_centre, turn.force_N - on_N - off_N);
    pull(place.centre_of_mass, -block().weight_N * in().up);
    pull(hung.own, hung.held_N);
    return hung;
  }

  /// use(sweep, pose index, what stands on the mount there).
  template <class Use>
  void for_poses(Use use) const {
    for (const reeving::Sweep& sweep : sweeps())
      for (std::size_t pose = 0; pose < sweep.poses.size(); ++pose) use(sweep, pose, at(sweep, pose));
  }

 private:
  Rig rig_;
  std::size_t body_{}, sheave_{};
};

class Mounts : public ::testing::TestWithParam<Layout (*)()> {};
class FreeRedirects : public Mounts {};

TEST_P(Mounts, AreSolvedAndTakeTheirPlaceBehindTheBlocks) {
  const Mounted mounted(solve(GetParam()()));
  const Rig& rig = mounted.rig();
  ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
  ASSERT_TRUE(rig.loads.solved()) << rig.loads.result->error().why;
  ASSERT_TRUE(rig.clearance.solved()) << rig.clearance.result->error().why;
  ASSERT_EQ(rig.bodies.size(), rig.layout.blocks.size() + 1);
  EXPECT_EQ(mounted.body(), rig.layout.blocks.size());
  EXPECT_EQ(rig.layout.sheaves.at(static_cast<std::size_t>(rig.bodies.back().index)).id.value, "R1");
}

// Force and moment about the mount's own point, summed anew from the line's two sides, the load of its wrap, the weight
// and what the mount gives.
TEST_P(Mounts, BalanceAtEveryPoseOfEveryPassage) {
  const Mounted mounted(solve(GetParam()()));
  int poses = 0;
  mounted.for_poses([&](const reeving::Sweep&, std::size_t, const Hung& hung) {
    ++poses;
    EXPECT_LT(norm(hung.force_N), 1e-9 * hung.pull_N);
    EXPECT_LT(norm(hung.moment_N_m), 1e-9 * hung.pull_N);
  });
  EXPECT_GT(poses, 100);
}

TEST_P(Mounts, HoldWhatTheyMustAndNothingElse) {
  const Mounted mounted(solve(GetParam()()));
  const reeving::Block& block = mounted.block();
  const double link_m = norm(mounted.in().sheaves[mounted.sheave()].centre - block.drawn);
  mounted.for_poses([&](const reeving::Sweep& sweep, std::size_t pose, const Hung& hung) {
    EXPECT_EQ(hung.own, block.drawn);
    EXPECT_NEAR(norm(hung.centre - hung.own), link_m, 1e-12 * norm(hung.own - Point3{}));
    if (block.joint == reeving::Joint::ball) {
      EXPECT_EQ(hung.held_couple_N_m, Vec3{});
      return;
    }
    EXPECT_NEAR(dot(hung.held_couple_N_m, block.hinge_axis), 0, 1e-9 * hung.pull_N);
    const Vec3 axis =
        sweep.blocks.at(pose * mounted.in().blocks.size() + mounted.body()).placement.turn(block.hinge_axis);
    EXPECT_NEAR(norm(axis - block.hinge_axis), 0, 1e-12);
  });
}

TEST_P(Mounts, PullTheirAnchorAndEveryCaseBalances) {
  const Mounted mounted(solve(GetParam()()));
  const loads::Loads& loads = *mounted.rig().loads.solved();
  const auto anchor = static_cast<std::size_t>(mounted.anchor());
  EXPECT_EQ(mounted.rig().layout.anchors.at(anchor).id.value, "A3");
  int compared = 0;
  for (const loads::LoadCase& c : loads.cases) {
    EXPECT_LT(norm(c.out_of_balance_N), 1e-9 * c.largest_N) << c.name;
    EXPECT_LT(norm(c.out_of_balance_N_m), 1e-9 * c.largest_N * mounted.rig().frame.span_m) << c.name;
    if (c.sweep < 0 || c.pose < 0 || !mounted.rig().layout.blocks.empty()) continue;  // a dead end pulls there too
    const Hung hung =
        mounted.at(mounted.sweeps().at(static_cast<std::size_t>(c.sweep)), static_cast<std::size_t>(c.pose));
    EXPECT_LT(norm(c.on_anchor_N.at(anchor) + hung.held_N), 1e-9 * hung.pull_N) << c.name;
    ++compared;
  }
  EXPECT_EQ(compared > 0, mounted.rig().layout.blocks.empty());
}

// The harder the line pulls, the less its weight counts: it stands nearer to where the legs alone would lead it.
TEST_P(FreeRedirects, HangNearerToPlumbAtRestThanWhileTheLineIsPaidOut) {
  const Mounted mounted(solve(GetParam()()));
  const auto off_plumb = [&](const reeving::Sweep& sweep) {
    const Hung hung = mounted.at(sweep, static_cast<std::size_t>(sweep.rest_pose));
    return std::acos(dot(unit(hung.centre - hung.own), -mounted.in().up));
  };
  int compared = 0;
  for (const reeving::Sweep& rest : mounted.sweeps())
    for (const reeving::Sweep& out : mounted.sweeps()) {
      if (rest.path != out.path || rest.running != reeving::Running::at_rest ||
          out.running != reeving::Running::paying_out || rest.in_wind)
        continue;
      EXPECT_LT(off_plumb(rest), off_plumb(out));
      ++compared;
    }
  EXPECT_GT(compared, 0);
}

/// A swivel about a plumb axis, its sheave, axle and weight drawn turned about it.
Layout drawn_turned(double by_rad) {
  Layout layout = swivelling_redirect();
  const auto turned = [&](Vec3 v) {
    const double c = std::cos(by_rad), s = std::sin(by_rad);
    return Vec3{c * v.x - s * v.y, s * v.x + c * v.y, v.z};
  };
  Sheave& redirect = layout.sheaves.front();
  redirect.swivel_axis->value = {0, 0, 1};
  redirect.position->value = *redirect.swivel_at + turned(redirect.position->value - redirect.swivel_at->value);
  redirect.axle.value = turned({0.6, -0.8, 0});
  redirect.centre_of_mass.value = turned(redirect.centre_of_mass);
  return layout;
}

// Drawn up to 0.29 m from where it stands: whatever comes near is judged against where it stands.
TEST(Swivels, StandAndAreMetAtOnePlaceHoweverTheyAreDrawn) {
  const Mounted plain(solve(drawn_turned(0)));
  const auto& gaps = plain.rig().clearance.solved()->gaps;
  EXPECT_TRUE(std::any_of(gaps.begin(), gaps.end(), [&](const clearance::Gap& gap) {
    return gap.a.kind == clearance::Thing::Kind::rider && gap.b.kind == clearance::Thing::Kind::sheave;
  }));
  for (const double by_rad : {-0.6, 0.3, 1.0}) {
    const Mounted turned(solve(drawn_turned(by_rad)));
    ASSERT_TRUE(turned.rig().clearance.solved());
    const auto at_rest = [](const Mounted& m) { return m.at(m.sweeps()[0], std::size_t(m.sweeps()[0].rest_pose)); };
    EXPECT_NEAR(norm(at_rest(turned).centre - at_rest(plain).centre), 0, 1e-8) << "of coordinates of 1.4 km, and 45 N";
    const auto& others = turned.rig().clearance.solved()->gaps;
    ASSERT_EQ(others.size(), gaps.size());
    // What lies between the one's value and bound lies between the other's.
    for (std::size_t i = 0; i < gaps.size(); ++i) {
      ASSERT_EQ(gaps[i].b, others[i].b);
      EXPECT_LE(gaps[i].least_m.bound, others[i].least_m.value + 1e-8) << "gap " << i << ", turned by " << by_rad;
      EXPECT_LE(others[i].least_m.bound, gaps[i].least_m.value + 1e-8) << "gap " << i << ", turned by " << by_rad;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Redirects, Mounts,
                         ::testing::Values(free_redirect, free_redirect_reduced, swivelling_redirect));
INSTANTIATE_TEST_SUITE_P(Redirects, FreeRedirects, ::testing::Values(free_redirect, free_redirect_reduced));

}  // namespace
}  // namespace fairlead
