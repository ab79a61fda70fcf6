// The laws of laws_test.cpp for what loads the anchors beside the passages.
#include <gtest/gtest.h>

#include "tests/laws/moved.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead::laws {
namespace {

// The worst place of a rider is found to a millimetre on a hump as wide as the span: 1e-6 m2 over (90 m)2 of 40 kN.
constexpr double hump_N = 1e-5;

void expect_same_demands(const Rig& rig, const loads::Loads& a, const loads::Loads& b, double factor) {
  ASSERT_EQ(a.cases.size(), b.cases.size());
  for (std::size_t i = 0; i < a.demands.size(); ++i) {
    const std::string& id = rig.layout.anchors[i].id.value;
    EXPECT_NEAR(factor * a.demands[i].force_N.value, b.demands[i].force_N.value, hump_N) << id;
    // Bounds add jumps of slopes between poses, each as uncertain as the forces.
    EXPECT_NEAR(factor * a.demands[i].force_N.bound, b.demands[i].force_N.bound, 10 * hump_N) << id;
    ASSERT_EQ(a.demands[i].force_N.pose < 0, b.demands[i].force_N.pose < 0) << id;
  }
  EXPECT_NEAR(factor * a.main_line.force_N.value, b.main_line.force_N.value, hump_N);
  EXPECT_NEAR(factor * a.beside.at(0).force_N.value, b.beside.at(0).force_N.value, hump_N);
}

void expect_same_demands(const Layout& layout, const Layout& changed) {
  const Rig rig = solve(layout), other = solve(changed);
  expect_same_demands(rig, loads::loads_of(rig), loads::loads_of(other), 1);
}

TEST(ActionLaws, ARigSeenInTheMirrorLoadsItsAnchorsAlike) {
  const Layout layout = loads::everything();
  expect_same_demands(layout, moved(layout, {.mirrors = true}));
}

TEST(ActionLaws, ARigTurnedOnItsSiteLoadsItsAnchorsAlike) {
  const Layout layout = loads::everything();
  expect_same_demands(layout, moved(layout, {.turn_rad = 1.1, .shift = {30, -70, 80}}));
}

/// Twice the masses under twice the forces move alike; but the integration's tolerance is also one of joules, so its
/// steps do not, and the arrests are as near as that tolerance, 1e-7 in travel and speed, lets them be.
TEST(ActionLaws, TwiceTheWeightsLoadTheAnchorsTwice) {
  const Layout layout = loads::everything();
  const Rig rig = solve(layout), other = solve(doubled(layout));
  // But for the wind on riders: their drag area is doubled as well as the wind's pressure.
  const auto told = [](const Rig& of, bool still) {
    loads::Inputs in = *of.loads.inputs;
    for (loads::RiddenWind& wind : in.ridden_wind) wind.rider_N = 0;
    if (still) in.arrested = {};
    return loads::loads_of(of, in);
  };
  expect_same_demands(rig, told(rig, true), told(other, true), 2);
  const loads::Loads a = told(rig, false), b = told(other, false);
  for (std::size_t i = 0; i < a.demands.size(); ++i)
    EXPECT_NEAR(2 * a.demands[i].force_N.value, b.demands[i].force_N.value, 1e-5 * b.demands[i].force_N.value);
}

/// Left and right change places: what one wind does to the rig the other does to its mirror image.
TEST(ActionLaws, AStormFromTheLeftIsOneFromTheRightInTheMirror) {
  const Layout layout = loads::everything();
  const Rig rig = solve(layout), image = solve(moved(layout, {.mirrors = true}));
  for (const std::string slip : {"backward", "forward"}) {
    const std::string behind = ", nobody on the line, cold, main line slipping " + slip + " over its saddles";
    const loads::LoadCase &left = loads::named(rig, "storm, side wind from the left" + behind),
                          &right = loads::named(image, "storm, side wind from the right" + behind);
    for (std::size_t a = 0; a < left.on_anchor_N.size(); ++a) {
      EXPECT_NEAR(dot(left.on_anchor_N[a], rig.frame.along), dot(right.on_anchor_N[a], image.frame.along), hump_N);
      EXPECT_NEAR(dot(left.on_anchor_N[a], rig.frame.across), -dot(right.on_anchor_N[a], image.frame.across), hump_N);
      EXPECT_NEAR(left.on_anchor_N[a].z, right.on_anchor_N[a].z, hump_N);
    }
  }
}

}  // namespace
}  // namespace fairlead::laws
