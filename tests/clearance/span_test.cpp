// Rider and main line against structures, from the push-off on and from support to support, in still air and in wind.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/clearance/blown.hpp"
#include "geometry/clearance/span.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

Clearances solved(const Scene& scene, int poses = 24) {
  auto told = solve(scene.in, scene.rig, scene.passage(poses));
  if (!told) throw std::runtime_error(told.error().why);
  return std::move(*told);
}

Scene from(double push_off_m) {
  Scene scene;
  scene.in.push_off_m = push_off_m;
  return scene;
}

/// Height of the wheel of a rider at a place, the trolley at its mark.
double wheel_z_m(const Scene& scene, double x_m) {
  return scene.instant(scene.rig.sweeps[0], x_m - scene.rig.rest_m).poses[0].rider.z;
}

TEST(Span, ARiderIsSeenFarUpstreamOfTheRedirect) {
  for (const double at_m : {25., 60., 150.}) {
    Scene scene = from(20);
    scene.in.structures = {{Post{{at_m, 4, 0}, {at_m, 4, 40}, 0.2}}};
    const Gap gap = *find_gap(solved(scene), rider, structure(0));
    EXPECT_NEAR(gap.least_m.value, 4 - 0.2 - 1.05, 1e-9) << "the envelope is 2.1 m wide";
    EXPECT_NEAR(gap.least_m.bound, gap.least_m.value, 0.02);
    EXPECT_NEAR(gap.travel_m, at_m - 188, 1.2 + 1) << "abreast of the envelope";
  }
}

TEST(Span, NoRiderIsSeenUpstreamOfThePushOff) {
  Scene scene = from(50);
  scene.in.structures = {{Post{{30, 4, 0}, {30, 4, 40}, 0.2}}};
  const Gap gap = *find_gap(solved(scene), rider, structure(0));
  EXPECT_NEAR(gap.least_m.value, std::hypot(50 - 1.2 - 30, 4 - 1.05) - 0.2, 1e-6);
}

// No source but the line's own solver: every place of the rider is hung anew.
TEST(Span, TheLineIsLowestUnderItsRiderWhereverThatIs) {
  Scene scene = from(10);
  double least_m = HUGE_VAL;
  for (double x = 10; x < 188; x += 0.05) least_m = std::min(least_m, wheel_z_m(scene, x));
  const double ground_m = least_m - 6;
  scene.in.structures = {{Plane{{0, 0, ground_m}, {0, 0, 1}}}};
  const Gap gap = *find_gap(solved(scene), main_line, structure(0));
  const double open_m = 6 * scene.in.resolution_m;  // per metre of the value
  EXPECT_NEAR(gap.least_m.value, 6 - 0.008, open_m);
  EXPECT_LE(gap.least_m.bound, 6 - 0.008 + 1e-9);
  EXPECT_GE(gap.least_m.bound, 6 - 0.008 - 2 * open_m);
}

TEST(Span, NoInstantIsNearerThanTheBound) {
  for (const bool windy : {false, true}) {
    Scene scene = from(8);
    if (windy) scene.in.spans[0].wind = {0.9, 35, 4, 0.04};
    scene.in.structures = {{Post{{40, 2.6, 0}, {41, 2.2, 27}, 0.2}},
                           {Box{.centre = {100, 0, 20}, .half_m = {3, 0.2, 1}}},
                           {Post{{150, -3, 0}, {150, 3, 34}, 0.2}},
                           {Plane{{0, 0, 12}, unit(Vec3{0.03, 0, 1})}}};
    const Clearances told = solved(scene);
    scene.in.push_off_m = 0;
    for (int i = 0; i < 700; ++i) {
      reeving::Reeving one;
      one.sweeps = {scene.instant(scene.rig.sweeps[0], -180 + 0.27 * i)};
      const auto at = solve(scene.in, scene.rig, one);
      ASSERT_TRUE(at) << at.error().why;
      for (const Gap& gap : told.gaps)
        if (gap.b.kind == Thing::Kind::structure && gap.a.kind != Thing::Kind::line) {
          EXPECT_GE(find_gap(*at, gap.a, gap.b)->least_m.value, gap.least_m.bound - 1e-9)
              << i << ", structure " << gap.b.index << (windy ? ", windy" : "");
        }
    }
  }
}

// A line whose every part feels the same wind for its weight hangs in one plane, leant by atan(wind/weight), under the
// two together: level supports, and the solver of the still line is the oracle.
TEST(Span, WhatEvenWindDoesLiesWithinTheBound) {
  for (const double ratio : {0.05, 0.2, 0.6})
    for (const double rider_N : {0., 400., 1400.})
      for (const double slack : {1.0005, 1.004, 1.05}) {
        Scene scene;
        scene.rig.reference.cable = {220, 0, 220 * slack, 1.05 * 9.80665, 1 / 11e6};
        scene.rig.sweeps[0].state = scene.rig.reference;
        scene.rig.sweeps[0].rider_weight_N = rider_N;
        scene.rig.sweeps[0].trolley_weight_N = 40;
        const mainline::Cable cable = scene.rig.reference.cable;
        mainline::Cable leant = cable;
        const double both = std::hypot(1, ratio);
        leant.weight_N_per_m *= both;
        for (const double x : {30., 90., 170.}) {
          const mainline::Load loads[2] = {{x, rider_N}, {188, 40}},
                               heavier[2] = {{x, both * rider_N}, {188, both * 40}};
          const std::size_t first = rider_N > 0 ? 0 : 1;
          const auto still = mainline::hang_rolling(cable, std::span(loads).subspan(first)),
                     windy = mainline::hang_rolling(leant, std::span(heavier).subspan(first));
          ASSERT_TRUE(still && windy);
          reeving::Sweep sweep;
          reeving::Pose pose;
          pose.rider = scene.rig.origin + Vec3{x, 0, 0};
          pose.trolley = scene.rig.origin + Vec3{188, 0, 0};
          sweep.poses = {pose};
          const Passage passage{scene.in,
                                scene.rig,
                                scene.rig.sweeps[0],
                                sweep,
                                0,
                                1,
                                {ratio * cable.weight_N_per_m, ratio * rider_N, ratio * 40, 0}};
          const Blown blown(passage, pose, *still, 0);
          for (double at = 5; at < 220; at += 5) {
            const double still_z = mainline::line_at(cable, *still, at).z_m,
                         depth = -mainline::line_at(leant, *windy, at).z_m;
            const double aside = depth * ratio / both, z = -depth / both;
            EXPECT_LE(aside, blown.aside_m(at) * (1 + 1e-9)) << ratio << " " << rider_N << " " << slack << " " << at;
            if (slack < 1.01 && ratio < 0.3) {
              EXPECT_GE(aside, 0.85 * blown.aside_m(at)) << "and it is not far above";
            }
            EXPECT_GE(z, still_z - 1e-9) << ratio << " " << rider_N << " " << slack << " " << at;
            EXPECT_LE(z, still_z + blown.rise_m(at, still_z) + 1e-9)
                << ratio << " " << rider_N << " " << slack << " " << at;
          }
        }
      }
}

/// A line as a chain of bars, hung by letting it swing until it rests: places of its joints, the load in the middle.
std::vector<Vec3> relaxed(double line_N_per_m, double wind_N_per_m, double load_N, double load_wind_N) {
  constexpr int bars = 60;
  constexpr double span_m = 220, length_m = 220.6, stiffness_N = 1e6;
  constexpr double bar_m = length_m / bars, k = stiffness_N / bar_m;
  std::vector<Vec3> at, moves(bars + 1);
  for (int i = 0; i <= bars; ++i) at.push_back({span_m * i / bars, 0, -1e-3 * i * (bars - i)});
  double before_J = 0;
  for (int step = 0; step < 200'000; ++step) {
    std::vector<Vec3> force(bars + 1, Vec3{0, wind_N_per_m * bar_m, -line_N_per_m * bar_m});
    force[bars / 2] += {0, load_wind_N, -load_N};
    for (int i = 0; i < bars; ++i) {
      const Vec3 bar = at[i + 1] - at[i];
      const Vec3 pull = k * (norm(bar) - bar_m) / norm(bar) * bar;
      force[i] += pull;
      force[i + 1] += -1. * pull;
    }
    double moving = 0, most_N = 0;
    for (int i = 1; i < bars; ++i) {
      moves[i] += 1 / (2 * k) * force[i];
      moving += dot(moves[i], moves[i]);
      most_N = std::max(most_N, norm(force[i]));
    }
    if (most_N < 1e-5) break;
    if (moving < before_J) moves.assign(bars + 1, {});  // past the lowest: it starts anew from there
    before_J = moving < before_J ? 0 : moving;
    for (int i = 1; i < bars; ++i) at[i] += moves[i];
  }
  return at;
}

// Rider and line feel the wind unlike each other. With the load in the middle of a level span a wheel neither rolls nor
// holds the line, so the chain is the same problem; its bars leave the curve by less than the millimetres allowed.
TEST(Span, WhatUnevenWindDoesLiesWithinTheBound) {
  const double line = 10.3, rider = 1000;
  const std::vector<Vec3> calm = relaxed(line, 0, rider, 0);
  for (const auto& [on_line, on_rider] : {std::pair{3., 0.}, {0., 300.}, {2., 50.}, {0.5, 120.}}) {
    const std::vector<Vec3> windy = relaxed(line, on_line, rider, on_rider);
    Scene scene;
    scene.rig.reference.cable = {220, 0, 220.6, line, 1e-6};
    scene.rig.sweeps[0].state = scene.rig.reference;
    scene.rig.sweeps[0].rider_weight_N = 0;
    scene.rig.sweeps[0].trolley_weight_N = rider;
    const mainline::Load load{110, rider};
    const auto still = mainline::hang_rolling(scene.rig.reference.cable, {&load, 1});
    ASSERT_TRUE(still);
    reeving::Pose pose;
    pose.rider = pose.trolley = scene.rig.origin + Vec3{110, 0, 0};
    reeving::Sweep sweep;
    sweep.poses = {pose};
    const Passage passage{scene.in, scene.rig, scene.rig.sweeps[0], sweep, 0, 1, {on_line, 0, on_rider, 0}};
    const Blown blown(passage, pose, *still, 0);
    for (std::size_t i = 0; i < windy.size(); ++i) {
      const double x = windy[i].x;
      EXPECT_LE(windy[i].y, blown.aside_m(x) + 2e-3) << on_line << " " << on_rider << " " << i;
      EXPECT_GE(windy[i].z, calm[i].z - 2e-3) << on_line << " " << on_rider << " " << i;
      EXPECT_LE(windy[i].z, calm[i].z + blown.rise_m(x, calm[i].z) + 2e-3) << on_line << " " << on_rider << " " << i;
    }
    EXPECT_GE(windy[30].y, 0.8 * blown.aside_m(110)) << "and it is not far above";
  }
}

TEST(Span, WindBringsRiderAndLineNearerToWhatStandsBeside) {
  Scene scene = from(20);
  scene.in.structures = {{Post{{110, 5, 0}, {110, 5, 40}, 0.2}}};
  const Clearances still = solved(scene);
  scene.in.spans[0].wind = {0.9, 35, 0, 0.03};
  const Clearances windy = solved(scene);
  for (const Thing& thing : {rider, main_line}) {
    const double nearer_m =
        find_gap(still, thing, structure(0))->least_m.value - find_gap(windy, thing, structure(0))->least_m.value;
    EXPECT_GT(nearer_m, 0.1) << static_cast<int>(thing.kind);
    EXPECT_LT(nearer_m, 1.5) << static_cast<int>(thing.kind);
  }
  Scene mirrored = scene;
  std::get<Post>(mirrored.in.structures[0].shape) = {{110, -5, 0}, {110, -5, 40}, 0.2};
  for (const Thing& thing : {rider, main_line})
    EXPECT_NEAR(find_gap(solved(mirrored), thing, structure(0))->least_m.value,
                find_gap(windy, thing, structure(0))->least_m.value, 2 * 40 * solids::hull_precision_round)
        << "from either side, the post 40 m long";
}

TEST(Span, TheMainLineIsLeftOutBesideWhatHoldsIt) {
  Scene scene = from(20);
  scene.in.structures = {{Post{{0, 0, 0}, {0, 0, 29.995}, 0.1}}, {Post{{60, 0, 0}, {60, 0, 20}, 0.1}}};
  const Clearances told = solved(scene);
  const Exclusion tied{main_line, structure(0), Why::tied_there, -1, -1, 0.3};
  EXPECT_EQ(std::count(told.excluded.begin(), told.excluded.end(), tied), 1);
  EXPECT_EQ(std::count_if(told.excluded.begin(), told.excluded.end(),
                          [](const Exclusion& e) { return e.a == main_line && e.b == structure(1); }),
            0);
}

TEST(Span, AShapeOfTheUsersIsHeldInPlaceOfItsBox) {
  Scene boxed = from(20);
  boxed.in.structures = {{Post{{60, 4, 0}, {60, 4, 40}, 0.2}}};
  Scene shaped = boxed;
  shaped.in.rider->corners = corners_of(*boxed.in.rider);
  EXPECT_NEAR(find_gap(solved(shaped), rider, structure(0))->least_m.value,
              find_gap(solved(boxed), rider, structure(0))->least_m.value, 1e-12);
  shaped.in.rider->corners = {{-1, 0, -2}, {1, 0, -2}, {0, 0.5, -1}, {0, -0.5, -1}, {0, 0, 0.1}};
  shaped.in.rider->margin_m = 0.1;
  EXPECT_NEAR(find_gap(solved(shaped), rider, structure(0))->least_m.value, 4 - 0.2 - 0.5 - 0.1, 1e-3);
}

TEST(Profiles, FollowTheLeastGapOverItsPassage) {
  Scene scene = from(20);
  scene.in.structures = {{Post{{120, 4, 0}, {120, 4, 40}, 0.2}}, {Post{{60, 5, 0}, {60, 5, 40}, 0.2}}};
  const Clearances told = solved(scene);
  const auto of_rider = std::find_if(told.profiles.begin(), told.profiles.end(), [&](const Profile& p) {
    return told.gaps[p.gap].a == rider && told.gaps[p.gap].b.kind == Thing::Kind::structure;
  });
  ASSERT_NE(of_rider, told.profiles.end());
  EXPECT_EQ(told.gaps[of_rider->gap].b, structure(0)) << "the nearer of the two";
  double least_m = HUGE_VAL;
  for (std::size_t i = 0; i < of_rider->at.size(); ++i) {
    if (i > 0) {
      EXPECT_GT(of_rider->at[i].travel_m, of_rider->at[i - 1].travel_m);
    }
    least_m = std::min(least_m, of_rider->at[i].gap_m);
  }
  EXPECT_NEAR(least_m, told.gaps[of_rider->gap].least_m.value, 1e-3);
}

}  // namespace
}  // namespace fairlead::clearance
