// A rider who leans: in every attitude up to the swing at once, in contact; upright and sideways before it.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "geometry/clearance/movers.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// The same leans wherever the trolley is.
Swing every(double back_rad, double forward_rad, double sideways_rad = 0) {
  return {.leans = {{-back_rad, forward_rad}}, .sideways_rad = sideways_rad};
}

/// In contact from the first pose on.
Scene pulling() {
  Scene scene;
  scene.rig.sweeps[0].running = reeving::Running::paying_out;
  return scene;
}

Clearances solved(const Scene& scene, int poses = 24) {
  auto told = solve(scene.in, scene.rig, scene.passage(poses));
  if (!told) throw std::runtime_error(told.error().why);
  return std::move(*told);
}

Gap gap_to_structure(const Scene& scene) { return *find_gap(solved(scene), rider, structure(0)); }

TEST(SwingingRider, WhoDoesNotSwingIsTheUprightBox) {
  Scene scene = pulling();
  scene.in.structures = {{Post{{196, -1.5, 0}, {196, -1.5, 24}, 0.15}}, {Plane{{0, 0, 16}, {0, 0, 1}}}};
  const Clearances unknown = solved(scene);
  scene.in.swing = Swing{};
  const Clearances upright = solved(scene);
  ASSERT_EQ(upright.gaps.size(), unknown.gaps.size());
  for (std::size_t i = 0; i < upright.gaps.size(); ++i) {
    EXPECT_NEAR(upright.gaps[i].least_m.value, unknown.gaps[i].least_m.value, 1e-12);
    EXPECT_NEAR(upright.gaps[i].least_m.bound, unknown.gaps[i].least_m.bound, 1e-12);
  }
}

// Feet forward: the envelope's lowest front edge turns about the wheel to hypot(2.3, 1.2) ahead of it where the lean
// lets it come level, else to 1.2 cos + 2.3 sin.
TEST(SwingingRider, ComesAsFarForwardAsTheFrontEdgeTurns) {
  for (const double lean : {10 * degree, 40 * degree, 75 * degree}) {
    Scene scene = pulling();
    scene.in.swing = every(0, lean);
    scene.in.structures = {{Plane{{230, 0, 0}, {-1, 0, 0}}}};  // a wall across the line, the rider on its near side
    const double level = std::atan2(2.3, 1.2), reached = std::min(lean, level);
    const double ahead_m = 1.2 * std::cos(reached) + 2.3 * std::sin(reached);
    const Gap gap = gap_to_structure(scene);
    const double expected_m = 230 - (188 + scene.rig.travel_m) - ahead_m;
    EXPECT_LE(gap.least_m.bound, expected_m + 1e-9);
    EXPECT_NEAR(gap.least_m.value, expected_m, 2 * chord_share * scene.in.resolution_m) << lean / degree;
  }
}

TEST(SwingingRider, NoLeanWithinTheSwingIsNearerThanTheBound) {
  std::mt19937_64 random(20261126);
  const auto within = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (int i = 0; i < 12; ++i) {
    Scene scene = pulling();
    const Leans leans{-within(0, 1), within(0, 1.2)};
    const double sideways = within(0, 0.4);
    const Vec3 aside{within(-6, 6), within(-4, 4), within(-4, 1)};
    scene.in.structures = {{Post{Point3{195, 0, 20} + aside, Point3{195, 0.3, 20.5} + aside, 0.1}}};
    scene.in.swing = Swing{.leans = {leans}, .sideways_rad = sideways};
    const Gap gap = gap_to_structure(scene);
    const reeving::Reeving poses = scene.passage(24);
    const Envelope reach = *scene.in.rider;
    double least_m = std::numeric_limits<double>::infinity();
    for (const reeving::Pose& pose : poses.sweeps[0].poses) {
      if (pose.travel_m < 0) continue;
      for (int n = 0; n < 60; ++n) {
        const double lean = within(leans.back_rad, leans.forward_rad), side = within(-sideways, sideways);
        const auto leaning = [&](Vec3 v) {
          const Vec3 aslant{v.x, v.y * std::cos(side) - v.z * std::sin(side),
                            v.y * std::sin(side) + v.z * std::cos(side)};
          return Vec3{aslant.x * std::cos(lean) - aslant.z * std::sin(lean), aslant.y,
                      aslant.x * std::sin(lean) + aslant.z * std::cos(lean)};
        };
        const Box box{pose.rider + leaning({0, 0, (reach.above_m - reach.below_m) / 2}),
                      leaning({1, 0, 0}),
                      leaning({0, 1, 0}),
                      leaning({0, 0, 1}),
                      {reach.length_m / 2, reach.width_m / 2, (reach.above_m + reach.below_m) / 2}};
        least_m = std::min(least_m, nearest(box, scene.in.structures[0].shape).distance_m);
      }
    }
    EXPECT_GE(least_m, gap.least_m.bound - 1e-12) << i;
  }
}

TEST(SwingingRider, WhoSwingsFartherIsNeverClearer) {
  Scene scene = pulling();
  scene.in.structures = {{Box{.centre = {203.5, 0.2, 16.5}, .half_m = {1, 0.4, 0.6}}}};
  double before_m = std::numeric_limits<double>::infinity();
  for (const double swing : {0., 0.2, 0.5, 0.9, 1.3}) {
    scene.in.swing = every(swing / 2, swing, swing / 4);
    const double least_m = gap_to_structure(scene).least_m.bound;
    EXPECT_LE(least_m, before_m + scene.in.resolution_m) << swing;
    before_m = least_m;
  }
}

// Against a wall that hangs above the wheel's way nothing but the lean brings him nearer, so the least gap is that of
// the step of travel with the greatest lean.
TEST(SwingingRider, LeansAsFarAsIsSaidOfWhereHeIs) {
  Scene scene = pulling();
  scene.in.structures = {{Post{{190, 4, 17}, {190, 4.001, 17}, 0.05}}, {Post{{200, 4, 17}, {200, 4.001, 17}, 0.05}}};
  const auto gaps = [&](std::vector<Leans> leans) {
    scene.in.swing = Swing{.leans = std::move(leans), .step_m = 6};
    const Clearances told = solved(scene, 60);
    return std::array{find_gap(told, rider, structure(0))->least_m.value,
                      find_gap(told, rider, structure(1))->least_m.value};
  };
  const auto upright = gaps({{}}), always = gaps({{-0.9, 0.9}}), late = gaps({{}, {-0.9, 0.9}}),
             early = gaps({{-0.9, 0.9}, {}});
  const double open_m = 3 * scene.in.resolution_m;
  EXPECT_NEAR(early[0], always[0], open_m) << "2 m beyond the mark";
  EXPECT_NEAR(late[1], always[1], open_m) << "12 m beyond it";
  EXPECT_GE(late[0], always[0] - open_m);
  EXPECT_GE(early[1], always[1] - open_m);
  EXPECT_LE(late[0], upright[0] + open_m);
}

TEST(SwingingRider, IsUprightAlongTheLineUntilContact) {
  Scene scene;
  scene.in.structures = {{Plane{{230, 0, 0}, {-1, 0, 0}}}, {Plane{{0, 3, 0}, {0, -1, 0}}}};
  const Clearances upright = solved(scene);
  scene.in.swing = every(1, 1);
  EXPECT_NEAR(find_gap(solved(scene), rider, structure(0))->least_m.value,
              find_gap(upright, rider, structure(0))->least_m.value, 1e-12);
  scene.in.swing = every(1, 1, 0.2);
  const double aside_m = 1.05 * std::cos(0.2) + 2.3 * std::sin(0.2);
  EXPECT_NEAR(find_gap(solved(scene), rider, structure(1))->least_m.value, 3 - aside_m,
              2 * chord_share * scene.in.resolution_m);
}

TEST(SwingingRider, OnTheOtherSideIsAsNear) {
  Scene scene = pulling();
  scene.in.swing = every(0.5, 0.7, 0.3);
  scene.in.structures = {{Post{{196, -2.5, 0}, {196.5, -2.6, 24}, 0.15}}};
  const double right_m = gap_to_structure(scene).least_m.value;
  scene.in.structures = {{Post{{196, 2.5, 0}, {196.5, 2.6, 24}, 0.15}}};
  EXPECT_NEAR(gap_to_structure(scene).least_m.value, right_m, 1e-9);
}

TEST(SwingingRider, WhoseSwingIsNoAngleIsRefused) {
  for (const double wrong : {-0.1, std::nan("")}) {
    Scene scene = pulling();
    scene.in.swing = every(wrong, 0);
    EXPECT_EQ(solve(scene.in, scene.rig, scene.passage(4)).error().why, "the rider's swing is no angle");
  }
}

}  // namespace
}  // namespace fairlead::clearance
