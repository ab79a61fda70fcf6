// A rig turned about the vertical, moved by 500 km or mirrored keeps every gap.
#include <gtest/gtest.h>

#include "geometry/solids/hull.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

/// Turned about the vertical, mirrored across before that when asked, and moved.
struct Move {
  double angle_rad{};
  bool mirror{};
  Vec3 shift;

  Vec3 operator()(Vec3 v) const {
    if (mirror) v.y = -v.y;
    const double c = std::cos(angle_rad), s = std::sin(angle_rad);
    return {c * v.x - s * v.y, s * v.x + c * v.y, v.z};
  }
  Point3 operator()(Point3 p) const { return Point3{} + (*this)(p - Point3{}) + shift; }
  Box operator()(const Box& b) const { return {(*this)(b.centre), (*this)(b.x), (*this)(b.y), (*this)(b.z), b.half_m}; }
  Post operator()(const Post& p) const { return {(*this)(p.from), (*this)(p.to), p.radius_m}; }
  Plane operator()(const Plane& p) const { return {(*this)(p.through), (*this)(p.normal)}; }
};

struct Moved {
  reeving::Inputs rig;
  Inputs in;
  reeving::Reeving reeving;
};

Moved moved(const Scene& scene, const reeving::Reeving& reeving, const Move& move) {
  Moved to{scene.rig, scene.in, reeving};
  const auto put = [&](auto& place) { place = move(place); };
  put(to.rig.origin);
  put(to.rig.along);
  to.rig.across = cross(to.rig.up, to.rig.along);
  put(to.rig.attachment);
  for (reeving::Sheave& sheave : to.rig.sheaves) put(sheave.centre), put(sheave.axle);
  for (reeving::Line& line : to.rig.lines) put(line.from.at), put(line.to.at);
  for (reeving::Block& block : to.rig.blocks) put(block.drawn), put(block.centre_of_mass);
  for (Structure& structure : to.in.structures)
    structure.shape = std::visit([&](const auto& shape) -> Shape { return move(shape); }, structure.shape);
  for (SheaveBody& body : to.in.sheaves)
    if (body.frame) put(*body.frame);
  for (std::optional<Box>& box : to.in.blocks) put(*box);
  if (to.in.unit) put(*to.in.unit);
  for (reeving::Sweep& sweep : to.reeving.sweeps) {
    for (reeving::Pose& pose : sweep.poses) {
      put(pose.trolley), put(pose.rider), put(pose.attachment), put(pose.pull_on_trolley_N);
    }
    for (reeving::Leg& leg : sweep.legs) put(leg.from), put(leg.to), put(leg.load_N_per_m);
    for (reeving::BlockPlace& block : sweep.blocks) {
      put(block.placement.at);
      // The turn of what was drawn here: the site's axes, brought back, turned, and moved again.
      const reeving::Placement drawn = block.placement;
      const Move back{move.mirror ? move.angle_rad : -move.angle_rad, move.mirror, {}};
      block.placement.turned_x = move(drawn.turn(back(Vec3{1, 0, 0})));
      block.placement.turned_y = move(drawn.turn(back(Vec3{0, 1, 0})));
      block.placement.turned_z = move(drawn.turn(Vec3{0, 0, 1}));
    }
  }
  return to;
}

TEST(ClearanceLaws, TurningMirroringAndMovingBy500KilometresChangeNoGap) {
  Scene scene;
  scene.block_turn_rad_per_m = 0.05;
  scene.wind_N_per_m = {0, 0.3, 0};
  scene.in.structures = {{Post{{196.31, -1.3, 0}, {196.31, -1.5, 24}, 0.15}},
                         {Box{.centre = {204.4, 1.5, 18}, .half_m = {0.1, 0.1, 1}}},
                         {Plane{{200, 0, 14}, unit(Vec3{-0.05, 0.01, 1})}}};
  scene.in.unit = Box{.centre = {219.3, 0.1, 21.5}, .half_m = {0.3, 0.3, 0.3}};
  const reeving::Reeving reeving = scene.passage(40);
  const auto here = solve(scene.in, scene.rig, reeving);
  ASSERT_TRUE(here.has_value());
  for (const Move& move :
       {Move{1.1, false, {}}, Move{0, true, {}}, Move{-2.3, true, {}}, Move{0.4, false, {500e3, -300e3, 400}}}) {
    const Moved to = moved(scene, reeving, move);
    const auto there = solve(to.in, to.rig, to.reeving);
    ASSERT_TRUE(there.has_value()) << there.error().why;
    ASSERT_EQ(there->gaps.size(), here->gaps.size());
    // Half an ulp of 5e5 m is 3e-11 m, and both shapes' points take it; bounds depend on where the search turned, to
    // the resolution.
    const double rounding = norm(move.shift) > 0 ? 1e-9 : 1e-11;
    for (std::size_t i = 0; i < here->gaps.size(); ++i) {
      const Gap &one = here->gaps[i], &other = there->gaps[i];
      const double search_m = scene.in.resolution_m * std::max(1., one.least_m.value);
      EXPECT_TRUE(one.a == other.a && one.b == other.b);
      EXPECT_NEAR(other.least_m.value, one.least_m.value, search_m) << i;
      EXPECT_NEAR(other.least_m.bound, one.least_m.bound, 2 * search_m) << i;
    }
    ASSERT_EQ(there->passings.size(), here->passings.size());
    for (std::size_t i = 0; i < here->passings.size(); ++i)
      for (std::size_t k = 0; k < here->passings[i].gaps.size(); ++k)
        EXPECT_NEAR(there->passings[i].gaps[k].least_m.value, here->passings[i].gaps[k].least_m.value, rounding);
    EXPECT_NEAR(there->hands->inside_m, here->hands->inside_m, rounding);
  }
}

TEST(ClearanceLaws, AThickerLineIsNearerByAsMuch) {
  Scene scene;
  scene.in.structures = {{Post{{196.31, -1.3, 0}, {196.31, -1.3, 24}, 0.15}}};
  const reeving::Reeving reeving = scene.passage(40);
  const double thin = find_gap(*solve(scene.in, scene.rig, reeving), line(0), structure(0))->least_m.value;
  scene.rig.lines[0].diameter_m += 0.02;
  EXPECT_NEAR(find_gap(*solve(scene.in, scene.rig, reeving), line(0), structure(0))->least_m.value, thin - 0.01, 1e-12);
}

TEST(ClearanceLaws, ALargerEnvelopeIsNowhereFarther) {
  Scene scene;
  scene.in.structures = {{Post{{196.31, -1.5, 0}, {196.31, -1.5, 24}, 0.15}}, {Plane{{0, 0, 12}, {0, 0, 1}}}};
  const reeving::Reeving reeving = scene.passage(40);
  const auto small = solve(scene.in, scene.rig, reeving);
  scene.in.rider->width_m += 0.2;
  scene.in.rider->below_m += 0.1;
  const auto large = solve(scene.in, scene.rig, reeving);
  EXPECT_NEAR(find_gap(*large, rider, structure(0))->least_m.value,
              find_gap(*small, rider, structure(0))->least_m.value - 0.1, 2 * solids::hull_precision_round * 30)
      << "the post and the rider are within 30 m";
  EXPECT_NEAR(find_gap(*large, rider, structure(1))->least_m.value,
              find_gap(*small, rider, structure(1))->least_m.value - 0.1, scene.in.resolution_m);
  for (std::size_t i = 0; i < small->gaps.size(); ++i)
    EXPECT_LE(large->gaps[i].least_m.bound, small->gaps[i].least_m.value);
}

}  // namespace
}  // namespace fairlead::clearance
