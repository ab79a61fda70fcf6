// The rider's moments that have a name: at contact, at full travel, leaning farthest, beside structures.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

using When = Moment::When;

/// Paying out from the mark at 188 m to 203 m, the solid upstream of one wall and downstream of the other far deeper in
/// the rider's way than anything of the rig: at the mark he reaches into the first, at full travel into the second.
constexpr double upstream_m = 190, downstream_m = 200;
Scene between_walls() {
  Scene scene;
  scene.rig.sweeps[0].running = reeving::Running::paying_out;
  scene.in.structures = {{Plane{{upstream_m, 0, 0}, {1, 0, 0}}}, {Plane{{downstream_m, 0, 0}, {-1, 0, 0}}}};
  return scene;
}

Clearances solved(const Scene& scene) {
  auto told = solve(scene.in, scene.rig, scene.passage(24));
  if (!told) throw std::runtime_error(told.error().why);
  return std::move(*told);
}

const Moment* find(const Clearances& told, When when, int beside = 0) {
  for (const Moment& moment : told.moments)
    if (moment.when == when && (when != When::beside || moment.gap.b == structure(beside))) return &moment;
  return nullptr;
}

/// Most that a hull held for a moment is short of its gap's point on the rider, or beyond it, toward the other point.
double off_outline_m(const RiderHeld& held, const Gap& gap) {
  double off_m = std::numeric_limits<double>::infinity();
  for (const auto& hull : held.hulls) {
    double farthest_m = -std::numeric_limits<double>::infinity();
    for (const Point3& corner : hull)
      farthest_m = std::max(farthest_m, dot(corner - gap.on_a, unit(gap.on_b - gap.on_a)) + held.margin_m);
    off_m = std::min(off_m, std::abs(farthest_m));
  }
  return off_m;
}

TEST(Moments, AtContactTheRiderIsAtTheMarkAndAtFullTravelAtItsEnd) {
  const Clearances told = solved(between_walls());
  const Moment *contact = find(told, When::contact), *full = find(told, When::full_travel);
  ASSERT_TRUE(contact && full);
  EXPECT_EQ(contact->gap.travel_m, 0);
  EXPECT_TRUE(contact->gap.b == structure(0));
  EXPECT_NEAR(contact->gap.least_m.value, 188 - 1.2 - upstream_m, 1e-9);
  EXPECT_EQ(full->gap.travel_m, 15);
  EXPECT_TRUE(full->gap.b == structure(1));
  EXPECT_NEAR(full->gap.least_m.value, downstream_m - 203 - 1.2, 1e-9);
  EXPECT_FALSE(find(told, When::leaning_back) || find(told, When::leaning_forward)) << "who does not lean has neither";
}

// The envelope's lowest edge in front turns to 1.2 cos + 2.3 sin ahead of the wheel, and the one behind as far back;
// who leans forward keeps the upper one behind, 1.2 cos + 0.2 sin. The search holds a lean with those a 13th of the
// swing off it, over which that edge moves by 0.4 m per rad at most.
TEST(Moments, TheFarthestLeanIsThatLeanAlone) {
  constexpr double back = 0.3, forward = 0.5;
  Scene scene = between_walls();
  scene.in.swing = Swing{.leans = {{-back, forward}}};
  const double open_m = 2 * chord_share * scene.in.resolution_m;
  const Clearances told = solved(scene);
  const Moment* f = find(told, When::leaning_forward);
  ASSERT_TRUE(f);
  EXPECT_TRUE(f->gap.b == structure(1));
  EXPECT_NEAR(f->gap.least_m.value, downstream_m - 203 - (1.2 * std::cos(forward) + 2.3 * std::sin(forward)), open_m);

  scene.in.structures.pop_back();
  const Clearances one = solved(scene);
  const Moment* b = find(one, When::leaning_back);
  ASSERT_TRUE(b);
  EXPECT_TRUE(b->gap.b == structure(0));
  EXPECT_NEAR(b->gap.least_m.value, 188 - (1.2 * std::cos(back) + 2.3 * std::sin(back)) - upstream_m, open_m);
  const double upper_m = 1.2 * std::cos(forward) + 0.2 * std::sin(forward);
  EXPECT_NEAR(find(one, When::leaning_forward)->gap.least_m.value, 188 - upper_m - upstream_m,
              open_m + 0.4 * (back + forward) / 13);
}

TEST(Moments, LeansAreLookedForWhereTheyAreFarthest) {
  Scene scene = between_walls();
  scene.in.swing = Swing{.leans = {{-0.1, 0.2}, {-0.1, 0.2}, {-0.1, 0.5}, {-0.4, 0.1}, {0, 0}}, .step_m = 3};
  const Clearances told = solved(scene);
  // A pose has the leans of the steps that its neighbours touch: 15 m in 24 poses.
  const double apart_m = 15. / 15;
  EXPECT_GE(find(told, When::leaning_forward)->gap.travel_m, 6 - apart_m);
  EXPECT_LE(find(told, When::leaning_forward)->gap.travel_m, 9 + apart_m);
  EXPECT_GE(find(told, When::leaning_back)->gap.travel_m, 9 - apart_m);
  EXPECT_LE(find(told, When::leaning_back)->gap.travel_m, 12 + apart_m);
}

TEST(Moments, NoneIsNearerThanTheLeastOfItsPair) {
  Scene scene = between_walls();
  scene.in.swing = Swing{.leans = {{-0.3, 0.5}}, .sideways_rad = 0.1};
  scene.in.structures.push_back({Post{{196, -1.8, 0}, {196, -1.8, 24}, 0.15}});
  const Clearances told = solved(scene);
  ASSERT_EQ(told.moments.size(), 4u + 3u);
  for (const Moment& moment : told.moments)
    EXPECT_GE(moment.gap.least_m.value, find_gap(told, moment.gap.a, moment.gap.b)->least_m.bound - 1e-12);
}

TEST(Moments, TheirGapBeginsAtTheRiderAsHeIsDrawnInWindToo) {
  for (const double margin_m : {0., 0.12}) {
    Scene scene = between_walls();
    scene.in.rider->margin_m = margin_m;
    scene.in.swing = Swing{.leans = {{-0.3, 0.5}}, .sideways_rad = 0.1};
    scene.in.structures = {{Post{{196, -4.5, 0}, {196, -4.5, 24}, 0.15}}};
    scene.in.spans = {{0, true, {.line_N_per_m = 4, .rider_N = 150, .trolley_N = 10, .lean_rad = 0.12}}};
    const Clearances told = solved(scene);
    const Moment* beside = find(told, When::beside);
    ASSERT_TRUE(beside);
    ASSERT_GT(beside->gap.least_m.value, 0);
    EXPECT_LT(off_outline_m(beside->rider, beside->gap), 1e-9);
    EXPECT_GE(beside->rider.hulls.size(), 5u);
    for (const Passing& passing : told.passings)
      if (!passing.gaps.empty() && passing.gaps.front().least_m.value > 0) {
        EXPECT_LT(off_outline_m(passing.rider, passing.gaps.front()), 1e-9);
      }
  }
}

TEST(Moments, APassageAtRestHasNone) {
  Scene scene = between_walls();
  scene.rig.sweeps[0].running = reeving::Running::at_rest;
  const Clearances told = solved(scene);
  EXPECT_EQ(told.moments.size(), 2u) << "beside the walls";
}

}  // namespace
}  // namespace fairlead::clearance
