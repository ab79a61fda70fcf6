// All checks over the movement of the anchors.
#include "geometry/checks/moved.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/checks/built_up.hpp"

namespace fairlead {
namespace {

Layout with_movement(int anchor, const Size& box, Layout layout = demo_layout()) {
  layout.anchors[static_cast<std::size_t>(anchor)].movement = Given<Size>{box, {0, 1, 1}};
  return layout;
}

const Judged& in_place() {
  static const Judged judged = judge(demo_layout());
  return judged;
}
/// The secondary anchor 30 mm along, 40 mm across and 20 mm up either way.
const Size box{0.03, 0.04, 0.02};
const Judged& shifted() {
  static const Judged judged = judge(with_movement(secondary, box));
  return judged;
}

const Finding& about(const Judged& judged, const Check& check, Item subject) {
  return *std::find_if(judged.findings.begin(), judged.findings.end(),
                       [&](const Finding& f) { return f.check == &check && f.subject == subject; });
}
const Item redirect{Item::Kind::sheave, 0};

TEST(Moved, AnAnchorTakesAlongWhatStandsOnIt) {
  Layout drawn = layout_of("marten_ridge");
  for (Sheave& sheave : drawn.sheaves)
    if (sheave.position) sheave.swivel_at = sheave.position;
  const Vec3 by{0.1, -0.2, 0.3};
  for (std::size_t a = 0; a < drawn.anchors.size(); ++a) {
    const auto id = static_cast<AnchorId>(a);
    const Layout layout = moved(drawn, id, by);
    const auto shift = [&](bool moves, Point3 is, Point3 was) { EXPECT_EQ(is, moves ? was + by : was); };
    for (std::size_t b = 0; b < drawn.anchors.size(); ++b)
      shift(a == b, layout.anchors[b].position, drawn.anchors[b].position);
    for (std::size_t s = 0; s < drawn.sheaves.size(); ++s)
      if (drawn.sheaves[s].position)
        shift(drawn.sheaves[s].on == Carrier{id}, *layout.sheaves[s].position, *drawn.sheaves[s].position);
    for (std::size_t s = 0; s < drawn.sheaves.size(); ++s)
      if (drawn.sheaves[s].swivel_at)
        shift(drawn.sheaves[s].on == Carrier{id}, *layout.sheaves[s].swivel_at, *drawn.sheaves[s].swivel_at);
    shift(drawn.brake_unit.on == id, layout.brake_unit.outlet, drawn.brake_unit.outlet);
  }
}

TEST(Moved, AnAnchorThatMayNotMoveChangesNothing) {
  const Judged judged = judge(with_movement(secondary, {0, 0, 0}));
  ASSERT_EQ(judged.findings.size(), in_place().findings.size());
  for (std::size_t f = 0; f < judged.findings.size(); ++f) {
    EXPECT_EQ(judged.findings[f].verdict, in_place().findings[f].verdict);
    EXPECT_EQ(judged.findings[f].value, in_place().findings[f].value);
    EXPECT_EQ(judged.findings[f].facts.size(), in_place().findings[f].facts.size());
  }
}

TEST(Moved, EightCornersOfOneBoxEachOppositeToOne) {
  const Layout layout = with_movement(secondary, box);
  const std::vector<MovedPlace> corners = corners_of(layout, in_place().rig.frame);
  ASSERT_EQ(corners.size(), 8u);
  const Point3 centre = layout.anchors[secondary].position;
  for (std::size_t c = 0; c < 8; ++c) {
    const Vec3 off = corners[c].layout.anchors[secondary].position - centre,
               opposite = corners[7 - c].layout.anchors[secondary].position - centre;
    EXPECT_NEAR(norm(off), std::hypot(0.03, 0.04, 0.02), 1e-12);
    EXPECT_NEAR(norm(off + opposite), 0, 1e-12);
    EXPECT_NEAR(std::abs(dot(off, in_place().rig.frame.across)), 0.04, 1e-12);
  }
  EXPECT_EQ(corners[0].words, "anchor A3 moved by (-30, -40, -20) mm along, across, up");
  EXPECT_EQ(corners_of(with_movement(secondary, {0.03, 0, 0.02}), in_place().rig.frame).size(), 4u);
  EXPECT_EQ(corners_of(with_movement(3, box, layout), in_place().rig.frame).size(), 64u);
}

TEST(Moved, AFindingIsTheWorstOfTheCornersEachJudgedByItself) {
  double worst = 0;
  for (const MovedPlace& corner : corners_of(with_movement(secondary, box), in_place().rig.frame)) {
    Layout alone = corner.layout;
    alone.anchors[secondary].movement.reset();
    worst = std::max(worst, about(judge(alone), fleet_angle, redirect).value);
  }
  const Finding &widened = about(shifted(), fleet_angle, redirect), &drawn = about(in_place(), fleet_angle, redirect);
  EXPECT_EQ(widened.value, worst);
  EXPECT_GT(worst, drawn.value + 0.01) << "40 mm across at some 2 m of leg";
  EXPECT_EQ(fact(widened, "moved").substr(0, 16), "anchor A3 moved ");
  EXPECT_EQ(fact(drawn, "moved"), "no such fact");
}

TEST(Moved, NothingGetsBetterByMoving) {
  for (const Finding& drawn : in_place().findings) {
    const Finding& widened = about(shifted(), *drawn.check, drawn.subject);
    if (drawn.verdict != Verdict::pass) {
      EXPECT_NE(widened.verdict, Verdict::pass) << drawn.check->name;
    }
    if (widened.verdict == Verdict::pass && widened.measured && widened.limit) {
      EXPECT_LE(std::abs(widened.bound - widened.limit->at), std::abs(drawn.bound - drawn.limit->at) + 1e-15)
          << drawn.check->name;
    }
  }
}

// What a check's verdict turns on where no author's limit is given must be known here as well.
TEST(Moved, AHairsBreadthOpensNoVerdict) {
  for (const char* name : {"heron_gully", "marten_ridge", "sable_weir"}) {
    const Layout drawn = layout_of(name);
    const Judged before = judge(drawn), after = judge(with_movement(secondary, {1e-6, 1e-6, 0}, drawn));
    for (const Finding& finding : before.findings)
      EXPECT_EQ(about(after, *finding.check, finding.subject).verdict, finding.verdict)
          << finding.check->name << " of " << name << ": " << about(after, *finding.check, finding.subject).why;
  }
}

TEST(Moved, FarEnoughItFails) {
  const Judged far = judge(with_movement(secondary, {0, 0.5, 0}));
  EXPECT_EQ(about(in_place(), fleet_angle, redirect).verdict, Verdict::pass);
  EXPECT_EQ(about(far, fleet_angle, redirect).verdict, Verdict::fail);
}

TEST(Moved, ThreadsChangeNothing) {
  const Judged two = judge(with_movement(secondary, box), {}, {.threads = 2});
  ASSERT_EQ(two.findings.size(), shifted().findings.size());
  for (std::size_t f = 0; f < two.findings.size(); ++f) {
    EXPECT_EQ(two.findings[f].value, shifted().findings[f].value);
    EXPECT_EQ(two.findings[f].bound, shifted().findings[f].bound);
    EXPECT_EQ(fact(two.findings[f], "moved"), fact(shifted().findings[f], "moved"));
  }
}

TEST(Moved, MoreAnchorsThanAreJudgedTogetherLeaveNothingPassed) {
  const Layout three = with_movement(0, box, with_movement(1, box, with_movement(secondary, box)));
  int left = 0;
  for (const Finding& finding : judge(three).findings) {
    EXPECT_NE(finding.verdict, Verdict::pass) << finding.check->name;
    left += finding.why == "movement of more than 2 anchors is not judged together";
  }
  EXPECT_GT(left, 10);
}

TEST(Moved, AnAnchorThatGivesWayMovesByItsPullOverItsStiffness) {
  Layout layout = demo_layout();
  layout.anchors[secondary].stiffness_N_per_m = Given<PerAxis>{{40e3, 20e3, 80e3}, {0, 1, 1}};
  const Rig rig = solve(layout, {&in_place().rig});
  double along_N = 0, across_N = 0;
  for (const loads::LoadCase& load_case : rig.loads.solved()->cases) {
    along_N = std::max(along_N, std::abs(dot(load_case.on_anchor_N[secondary], rig.frame.along)));
    across_N = std::max(across_N, std::abs(dot(load_case.on_anchor_N[secondary], rig.frame.across)));
  }
  const Size give = with_give(rig).anchors[secondary].movement->value;
  const auto& pull_N = rig.loads.solved()->anchors[secondary].pull_N;
  EXPECT_EQ(give.along_m, pull_N[0].bound / 40e3);
  EXPECT_EQ(give.across_m, pull_N[1].bound / 20e3);
  EXPECT_GE(pull_N[0].value, along_N);
  EXPECT_GE(pull_N[1].value, across_N);
  EXPECT_LE(pull_N[0].value, rig.loads.solved()->demands[secondary].force_N.value);
  const Judged judged = judge(layout);
  layout = with_give(rig);
  layout.anchors[secondary].stiffness_N_per_m.reset();
  EXPECT_EQ(about(judged, fleet_angle, redirect).value, about(judge(layout), fleet_angle, redirect).value);
}

TEST(Moved, AnAnchorThatIsPulledMuchHarderWhereItGivesWayIsNotPassed) {
  Layout layout = demo_layout();
  layout.anchors[secondary].stiffness_N_per_m = Given<PerAxis>{{1.2e3, 1.2e3, 1.2e3}, {0, 1, 1}};
  for (const Finding& finding : judge(layout).findings)
    EXPECT_NE(finding.verdict, Verdict::pass) << finding.check->name;
}

Finding made(double value, double bound, Verdict verdict) {
  return {.check = &fleet_angle,
          .verdict = verdict,
          .value = value,
          .bound = bound,
          .measured = true,
          .limit = limit_at(1)};
}
const std::vector<MovedPlace> two_places{{{}, "left"}, {{}, "right"}};

TEST(Moved, WhatStraysBetweenCornersAddsToTheBound) {
  std::vector<Finding> drawn{made(0.5, 0.52, Verdict::pass)};
  widen(drawn, two_places, {{made(0.6, 0.62, Verdict::pass)}, {made(0.2, 0.22, Verdict::pass)}});
  EXPECT_EQ(drawn[0].value, 0.6);
  EXPECT_NEAR(drawn[0].bound, 0.62 + 0.1, 1e-15) << "0.5 lies 0.1 over the mean of its corners";
  EXPECT_EQ(drawn[0].verdict, Verdict::pass);
  EXPECT_EQ(fact(drawn[0], "moved"), "left");
}

TEST(Moved, AStrayThatReachesTheLimitIsNoPass) {
  std::vector<Finding> drawn{made(0.95, 0.95, Verdict::pass)};
  widen(drawn, two_places, {{made(0.8, 0.8, Verdict::pass)}, {made(0.8, 0.8, Verdict::pass)}});
  EXPECT_EQ(drawn[0].verdict, Verdict::undetermined);
  EXPECT_EQ(drawn[0].why, "between the corners of the anchors' movement it may pass the limit");
}

TEST(Moved, OneCornerThatIsNotKnownIsNoPass) {
  std::vector<Finding> drawn{made(0.5, 0.5, Verdict::pass)}, missing = drawn;
  widen(drawn, two_places, {{made(0.5, 0.5, Verdict::pass)}, {made(std::nan(""), 0.5, Verdict::undetermined)}});
  EXPECT_EQ(drawn[0].verdict, Verdict::undetermined);
  widen(missing, two_places, {{made(0.5, 0.5, Verdict::pass)}, {}});
  EXPECT_EQ(missing[0].verdict, Verdict::undetermined);
  EXPECT_EQ(missing[0].why, "what it judges is not there with right");
}

TEST(Moved, AFaultThatOnlyACornerShowsIsTold) {
  std::vector<Finding> drawn;
  widen(drawn, two_places, {{}, {made(2, 2, Verdict::fail)}});
  ASSERT_EQ(drawn.size(), 1u);
  EXPECT_EQ(fact(drawn[0], "moved"), "right");
}

}  // namespace
}  // namespace fairlead
