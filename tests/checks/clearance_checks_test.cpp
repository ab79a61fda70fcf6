// What the clearance stage found, told of its subjects and held against the limits.
#include <gtest/gtest.h>

#include <limits>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

using clearance::Gap;
using clearance::Passing;
using clearance::Thing;
using Kind = clearance::Thing::Kind;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr Item line_1{Item::Kind::line, 0}, block{Item::Kind::block, 0};

Gap gap(Thing a, Thing b, double value_m, double bound_m) {
  return {a, b, {value_m, bound_m, 0}, 0, 1.5, {1, 2, 3}, {1, 2, 4}};
}

/// Marten Ridge with these gaps in place of its own.
Rig with(std::vector<Gap> gaps, std::vector<Passing> passings = {}) {
  Rig rig = marten_ridge();
  clearance::Clearances found;
  found.gaps = std::move(gaps);
  found.passings = std::move(passings);
  rig.clearance.result = std::make_shared<const Solved<clearance::Clearances>>(std::move(found));
  return rig;
}

struct Judging {
  const Check* check;
  std::optional<Limit> Limits::*limit;
  Thing a, b;
  Item subject, other;
};
const Judging judgings[] = {
    {&line_structure,
     &Limits::line_clearance_m,
     {Kind::line, 0},
     {Kind::structure, 2},
     line_1,
     {Item::Kind::structure, 2}},
    {&line_line, &Limits::line_to_line_m, {Kind::line, 0}, {Kind::line, 1}, line_1, {Item::Kind::line, 1}},
    {&line_main_line,
     &Limits::line_to_main_line_m,
     {Kind::line, 0},
     {Kind::main_line, 0},
     line_1,
     {Item::Kind::main_line, 0}},
    {&block_clearance, &Limits::block_clearance_m, {Kind::block, 0}, {Kind::frame, 0}, block, {Item::Kind::sheave, 0}},
    {&rider_structure,
     &Limits::rider_clearance_m,
     {Kind::rider, 0},
     {Kind::structure, 1},
     {Item::Kind::structure, 1},
     {Item::Kind::rider, 0}},
    {&rider_lines, &Limits::rider_line_clearance_m, {Kind::rider, 0}, {Kind::block, 0}, block, {Item::Kind::rider, 0}},
};

TEST(ClearanceChecks, PassFromTheBoundUpAndFailBelowTheValue) {
  for (const Judging& j : judgings) {
    const auto verdict = [&](double value_m, double bound_m, double limit_m) {
      Rig rig = with({gap(j.a, j.b, value_m, bound_m)});
      rig.layout.limits.*j.limit = limit_at(limit_m);
      const Finding finding = only(*j.check, rig);
      EXPECT_EQ(finding.subject, j.subject) << j.check->name;
      EXPECT_EQ(item(finding, "other"), j.other) << j.check->name;
      return finding.verdict;
    };
    EXPECT_EQ(verdict(0.5, 0.4, 0.4), Verdict::pass) << j.check->name;
    EXPECT_EQ(verdict(0.5, 0.4, 0.45), Verdict::undetermined) << j.check->name;
    EXPECT_EQ(verdict(0.5, 0.4, 0.51), Verdict::fail) << j.check->name;
    EXPECT_EQ(verdict(0.5, -infinity, 0.1), Verdict::undetermined) << j.check->name << ": unknown between two poses";
  }
}

TEST(ClearanceChecks, WithoutALimitOnlyWhatTouchesIsJudged) {
  for (const Judging& j : judgings) {
    const auto found = [&](double value_m) {
      Rig rig = with({gap(j.a, j.b, value_m, value_m)});
      rig.layout.limits = {};
      return only(*j.check, rig);
    };
    EXPECT_EQ(found(0.5).verdict, Verdict::not_judged) << j.check->name;
    EXPECT_EQ(found(0.5).why, "no limit given");
    EXPECT_TRUE(found(0.5).measured) << "the number is shown";
    EXPECT_EQ(found(0).verdict, Verdict::fail) << j.check->name;
    EXPECT_EQ(fact(found(0), "meet"), "they touch or cross, how deep is not known");
    EXPECT_EQ(number(found(-0.01), "into"), 0.01) << "a line's thickness, or how deep the ground is";
  }
}

TEST(ClearanceChecks, TellTheNearestOfASubjectWithTheLeastBoundOfAllAndNameTheOthersThatFail) {
  Rig rig = with(
      {gap({Kind::line, 0}, {Kind::structure, 0}, 0.30, 0.29), gap({Kind::line, 0}, {Kind::structure, 1}, 0.05, 0.05),
       gap({Kind::line, 0}, {Kind::structure, 2}, 0.06, 0.01), gap({Kind::line, 1}, {Kind::structure, 0}, 2, 2)});
  rig.layout.limits.line_clearance_m = limit_at(0.1);
  const std::vector<Finding> findings = findings_of(line_structure, rig);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].verdict, Verdict::fail);
  EXPECT_EQ(findings[0].value, 0.05);
  EXPECT_EQ(findings[0].bound, 0.01);
  EXPECT_EQ(item(findings[0], "other"), (Item{Item::Kind::structure, 1}));
  EXPECT_EQ(fact(findings[0], "also"), rig.layout.structures[2].id.value) << "0.3 m from the first is enough";
  EXPECT_NEAR(number(findings[0], "short"), 0.05, 1e-15);
  EXPECT_EQ(findings[1].verdict, Verdict::pass);
}

TEST(ClearanceChecks, PointsStandOnTheSubjectFirst) {
  const Finding told = only(rider_structure, with({gap({Kind::rider, 0}, {Kind::structure, 0}, 1, 1)}));
  EXPECT_EQ(*told.at, (Point3{1, 2, 4})) << "on the structure";
  EXPECT_EQ(*told.at_other, (Point3{1, 2, 3})) << "on the rider";
}

TEST(ClearanceChecks, ASheaveAndItsFrameAreOneSubject) {
  const Finding finding = only(findings_of(rider_lines, with({gap({Kind::rider, 0}, {Kind::sheave, 0}, 1, 1),
                                                              gap({Kind::rider, 0}, {Kind::frame, 0}, 0.8, 0.8)})));
  EXPECT_EQ(finding.subject, (Item{Item::Kind::sheave, 0}));
  EXPECT_EQ(finding.value, 0.8);
}

TEST(Crossing, FailsWhereALegMeetsAnotherOrASheaveItDoesNotRunOnto) {
  for (const Thing other : {Thing{Kind::line, 0}, Thing{Kind::line, 1}, Thing{Kind::sheave, 0}, Thing{Kind::frame, 0},
                            Thing{Kind::unit, 0}}) {
    const auto verdict = [&](double value_m, double bound_m) {
      return only(crossing, with({gap({Kind::line, 0}, other, value_m, bound_m)})).verdict;
    };
    EXPECT_EQ(verdict(0.001, 0.0005), Verdict::pass);
    EXPECT_EQ(verdict(0.001, 0), Verdict::undetermined) << "between two poses they may";
    EXPECT_EQ(verdict(0, 0), Verdict::fail);
    EXPECT_EQ(verdict(-0.1, -infinity), Verdict::fail);
  }
}

TEST(ClearanceChecks, WhatIsNotGivenIsNotJudged) {
  Rig rig = with({});
  rig.layout.riders.envelope.reset();
  for (const Check* check : {&rider_structure, &rider_lines, &hands_at_trolley, &under_redirect, &passing_block}) {
    const Finding finding = only(*check, rig);
    EXPECT_EQ(finding.verdict, Verdict::not_judged) << check->name;
    EXPECT_EQ(finding.why, "no riders.envelope given");
  }
  rig = with({});
  rig.layout.blocks[0].size_m.reset();
  for (const Check* check : {&block_clearance, &rider_lines, &passing_block}) {
    const Finding finding = about(findings_of(*check, rig), block);
    EXPECT_EQ(finding.verdict, Verdict::not_judged) << check->name;
    EXPECT_EQ(finding.why, "no block.size given");
  }
}

TEST(ClearanceChecks, WithoutStructuresAndBlocksTheirChecksHaveNoSubject) {
  Rig rig = with({});
  rig.layout.structures.clear();
  rig.layout.blocks.clear();
  for (const Check* check : {&line_structure, &rider_structure, &block_clearance, &passing_block})
    EXPECT_TRUE(findings_of(*check, rig).empty()) << check->name;
}

TEST(ClearanceChecks, UnsolvedIsUndetermined) {
  Rig rig = marten_ridge();
  rig.clearance.result = std::make_shared<const Solved<clearance::Clearances>>(unsolved("a pose is not finite"));
  for (const Check* check : {&crossing, &line_structure, &line_line, &line_main_line, &block_clearance,
                             &rider_structure, &rider_lines, &hands_at_trolley, &under_redirect, &passing_block}) {
    EXPECT_EQ(only(*check, rig).verdict, Verdict::undetermined) << check->name;
    EXPECT_EQ(only(*check, rig).why, "a pose is not finite");
  }
}

Passing passing(Thing other, Passing::Met met, std::vector<Gap> gaps) { return {other, 0, met, 2.5, std::move(gaps)}; }

TEST(NamedInstants, TellTheNearestPassageOfEach) {
  const Thing redirect{Kind::sheave, 0};
  const auto at = [&](double m) {
    return passing(redirect, Passing::Met::at_travel, {gap({Kind::rider, 0}, {Kind::frame, 0}, m, m)});
  };
  Rig rig = with({}, {at(0.9), at(0.4), at(0.6)});
  const Finding finding = only(under_redirect, rig);
  EXPECT_EQ(finding.subject, (Item{Item::Kind::sheave, 0}));
  EXPECT_EQ(finding.value, 0.4);
  EXPECT_EQ(fact(finding, "met"), "passes");
  EXPECT_EQ(finding.verdict, Verdict::pass) << "limit 0.3 m";
  rig.layout.limits.rider_line_clearance_m = limit_at(0.5);
  EXPECT_EQ(only(under_redirect, rig).verdict, Verdict::fail);
  rig.layout.limits.rider_line_clearance_m.reset();
  EXPECT_EQ(only(under_redirect, rig).verdict, Verdict::not_judged);
}

TEST(NamedInstants, ABlockNobodyPassesIsAResult) {
  const Finding never = only(passing_block, with({}, {passing({Kind::block, 0}, Passing::Met::stays_upstream, {})}));
  EXPECT_EQ(never.verdict, Verdict::pass);
  EXPECT_FALSE(never.measured);
  EXPECT_EQ(fact(never, "never"), "upstream of it");
}

TEST(NamedInstants, ThoseOfTheRigAreFoundAndNearerThanTheWholePassageIsNot) {
  const Finding passage = about(findings_of(rider_lines, marten_ridge()), block);
  const Finding instant = only(passing_block, marten_ridge());
  EXPECT_GE(instant.value, passage.bound) << "the instant is one of the passage";
  EXPECT_EQ(only(under_redirect, marten_ridge()).verdict, Verdict::pass);
}

TEST(HandsAtTrolley, AreToldWithHowMuchOfTheLineLiesInReach) {
  const Finding finding = only(hands_at_trolley, marten_ridge());
  EXPECT_EQ(finding.subject, line_1);
  EXPECT_EQ(finding.verdict, Verdict::fail) << "the line ends on the trolley that a rider has just met";
  EXPECT_GT(number(finding, "inside"), 0);
  EXPECT_LE(number(finding, "inside"), number(finding, "stretch"));
}

TEST(ClearanceChecks, APostInTheRidersWayAndInALinesWayAreFound) {
  Layout layout = layout_of("marten_ridge");
  const Rig& rig = marten_ridge();
  const Point3 rider = rig.reeving.solved()->sweeps[0].poses.back().trolley;
  Structure post = layout.structures.front();
  ASSERT_EQ(post.kind.value, StructureKind::post);
  post.id.value = "in_the_way";
  post.from->value = rider + Vec3{0, 0, -2};
  post.to->value = rider + Vec3{0, 0, -1};
  layout.structures.push_back(post);
  const Rig blocked = solve(layout, {&rig});
  const Finding finding = about(findings_of(rider_structure, blocked),
                                {Item::Kind::structure, static_cast<int>(layout.structures.size()) - 1});
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_EQ(fact(finding, "meet"), "they touch or cross, how deep is not known");
  const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[0];
  const reeving::Leg& leg = sweep.legs[sweep.legs.size() - rig.reeving.inputs->legs() + 1];
  const Point3 middle = leg.from + 0.5 * (leg.to - leg.from);
  layout.structures.back().from->value = middle + Vec3{0, 0, -3};
  layout.structures.back().to->value = middle + Vec3{0, 0, 3};
  const Finding line = about(findings_of(line_structure, solve(layout, {&rig})), line_1);
  EXPECT_EQ(line.verdict, Verdict::fail);
  EXPECT_EQ(item(line, "other").index, static_cast<int>(layout.structures.size()) - 1);
}

TEST(ClearanceChecks, WhatStandsUnderTheSpanFarUpstreamIsFoundByRidersAndMainLine) {
  Layout layout = layout_of("marten_ridge");
  const Rig& rig = marten_ridge();
  const Frame& frame = rig.frame;
  Structure post = layout.structures.front();
  ASSERT_EQ(post.kind.value, StructureKind::post);
  post.id.value = "snag";
  const Point3 chord = frame.origin + 0.3 * (frame.span_m * frame.along + frame.rise_m * frame.up);
  post.from->value = chord - 20 * frame.up;
  post.to->value = chord + 1 * frame.up;
  layout.structures.push_back(post);
  const int snag = static_cast<int>(layout.structures.size()) - 1;
  const Rig blocked = solve(layout, {&rig});
  EXPECT_EQ(about(findings_of(rider_structure, blocked), {Item::Kind::structure, snag}).verdict, Verdict::fail);
  const Finding line = about(findings_of(line_structure, blocked), {Item::Kind::main_line, 0});
  EXPECT_EQ(line.verdict, Verdict::fail);
  EXPECT_EQ(item(line, "other"), (Item{Item::Kind::structure, snag}));
}

}  // namespace
}  // namespace fairlead
