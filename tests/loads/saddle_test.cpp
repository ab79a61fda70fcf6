// The main line over a saddle to an anchor behind its support.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/loads/hung.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead::loads {
namespace {

const std::vector<Override> over_one_saddle{{"main_line.from_back_anchor", "'K1'"}};

/// Irvine: along a hanging elastic line T + T2/2EA changes by its weight per length times the height.
double level_N(double tension_N, const mainline::Cable& cable) {
  return tension_N + cable.compliance_per_N * tension_N * tension_N / 2;
}

const mainline::Cable& cold(const Rig& rig) {
  for (const mainline::State& state : rig.main_line.solved()->states)
    if (state.weather == mainline::Weather::cold) return state.cable;
  throw std::runtime_error("no cold state");
}

// 2 T cos of half the angle between the pulls: the angle-factor table of the rigging handbooks (read in three).
TEST(Saddle, WithoutFrictionCarriesTheSameTensionOnBothSides) {
  const Rig without = solve(demo_with(more_anchors, {})), with = solve(demo_with(more_anchors, over_one_saddle));
  const std::size_t saddle = anchor_of(with, "P1"), back = anchor_of(with, "K1");
  for (const char* name : {"at rest, empty, cold", "heaviest rider on the open span, cold, worst for the start support",
                           "peak line tension, heaviest rider, cold"}) {
    const Vec3 span_N = named(without, name).on_anchor_N[saddle], both_N = named(with, name).on_anchor_N[saddle];
    const Vec3 behind_N = both_N - span_N;
    const double T = norm(span_N), half_rad = std::acos(dot(unit(span_N), unit(behind_N))) / 2;
    EXPECT_NEAR(norm(behind_N), T, 1e-8 * T) << name;
    EXPECT_NEAR(norm(both_N), 2 * T * std::cos(half_rad), 1e-8 * T) << name;
    EXPECT_LT(dot(behind_N, with.frame.along), 0) << "backward";
    EXPECT_LT(behind_N.z, 0) << "and down";
    const double height_m = with.layout.anchors[saddle].position.value.z - with.layout.anchors[back].position.value.z;
    EXPECT_NEAR(level_N(T, cold(with)) - level_N(norm(named(with, name).on_anchor_N[back]), cold(with)),
                cold(with).weight_N_per_m * height_m, 1e-6)
        << name;
  }
  EXPECT_NE(std::ranges::find(with.assumptions,
                              "main_line: the same tension on both sides of its saddles: saddle_friction is not given"),
            with.assumptions.end());
}

/// Between the places that were looked at the tension may be greater; behind the saddle by so many times more.
TEST(Saddle, WhatTheBoundAddsReachesTheAnchorBehind) {
  std::vector<Override> keys = over_one_saddle;
  keys.push_back({"main_line.saddle_friction", "1.25"});
  const Rig smooth = solve(demo_with(more_anchors, over_one_saddle)), held = solve(demo_with(more_anchors, keys));
  const auto gap_N = [](const Rig& rig, const char* anchor) {
    const Extreme force_N = still_loads_of(rig).demands[anchor_of(rig, anchor)].force_N;
    return force_N.bound - force_N.value;
  };
  EXPECT_GT(gap_N(smooth, "K1"), 1);
  EXPECT_NEAR(gap_N(held, "K1"), 1.25 * gap_N(smooth, "K1"), 1e-6);
  EXPECT_GT(gap_N(smooth, "P1"), 1);
}

TEST(Saddle, FrictionMakesTheTensionBehindItAnythingBetweenItsTwoShares) {
  std::vector<Override> keys = over_one_saddle;
  keys.push_back({"main_line.saddle_friction", "1.25"});
  const Rig without = solve(demo_with(more_anchors, {})), with = solve(demo_with(more_anchors, keys)),
            smooth = solve(demo_with(more_anchors, over_one_saddle));
  const std::size_t saddle = anchor_of(with, "P1"), back = anchor_of(with, "K1");
  const std::string name = "at rest, empty, cold";
  const Vec3 span_N = named(without, name).on_anchor_N[saddle];
  const Vec3 hard_N = named(with, name + ", main line slipping backward over its saddles").on_anchor_N[saddle] - span_N,
             easy_N = named(with, name + ", main line slipping forward over its saddles").on_anchor_N[saddle] - span_N;
  EXPECT_NEAR(norm(hard_N), 1.25 * norm(span_N), 1e-8 * norm(span_N));
  EXPECT_NEAR(norm(easy_N), norm(span_N) / 1.25, 1e-8 * norm(span_N));
  EXPECT_GT(loads_of(with).demands[back].force_N.value, 1.24 * loads_of(smooth).demands[back].force_N.value);
  EXPECT_GT(loads_of(with).demands[saddle].force_N.value, loads_of(smooth).demands[saddle].force_N.value);
  // The line itself is pulled hardest behind the saddle, where the tension at its start makes it so.
  EXPECT_GT(loads_of(with).main_line.force_N.value, 1.2 * loads_of(smooth).main_line.force_N.value);
}

/// Two thousand places of a rider, each with the line behind: none loads the saddle more than the worst that was found.
TEST(Saddle, TheWorstRiderForItIsTheOneADenseScanFinds) {
  const Rig rig = solve(demo_with(more_anchors, over_one_saddle));
  const LoadCase& worst = named(rig, "heaviest rider on the open span, cold, worst for the start saddle");
  const std::size_t saddle = anchor_of(rig, "P1");
  const mainline::Cable& cable = cold(rig);
  const Point3 at = rig.layout.anchors[saddle].position, back = rig.layout.anchors[anchor_of(rig, "K1")].position;
  const reeving::Inputs& in = *rig.reeving.inputs;
  double most_N = 0;
  for (int i = 0; i < 2000; ++i) {
    const double x = 1e-3 * cable.span_m + (in.rest_m - 0.02 - 1e-3 * cable.span_m) * i / 1999;
    const mainline::Load loads[] = {{x, 122.5 * standard_gravity}, {in.rest_m, 6 * standard_gravity}};
    const mainline::SupportForces f = mainline::support_forces(cable, hang_rolling(cable, loads).value());
    const Vec3 span_N = f.start_x_N * rig.frame.along + f.start_z_N * rig.frame.up;
    most_N = std::max(most_N, norm(span_N + pull_between(at, back, cable, {}, norm(span_N)).value().on_from_N));
  }
  // The trolley's own line lifts it by some part of its weight, which the saddle feels by less.
  EXPECT_NEAR(norm(worst.on_anchor_N[saddle]), most_N, 6 * standard_gravity);
}

TEST(Saddle, ALineTooSlackForTheWayBehindItIsUnsolvedAndSaysWhy) {
  const std::string far = "[[anchor]]\nid = \"K9\"\nposition = [-2800, -2200, 300]\nwll = \"60 kN\"\n";
  const Rig rig = solve(demo_with(far, {{"main_line.from_back_anchor", "'K9'"}}));
  ASSERT_FALSE(rig.loads.solved());
  EXPECT_EQ(rig.loads.result->error().why,
            "the main line does not hang from a saddle to its back anchor: the line's own weight needs more than the "
            "tension that holds it");
}

}  // namespace
}  // namespace fairlead::loads
