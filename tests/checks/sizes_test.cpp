// Sheaves and grooves against their lines, wrap, and legs that must not go slack.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/reeving/leg.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr Item sheave_1{Item::Kind::sheave, 0}, line_1{Item::Kind::line, 0};

/// Sizes never move anything: a solved rig may take others.
std::vector<Finding> of(const Check& check, const std::function<void(Layout&)>& change) {
  Rig rig = marten_ridge();
  change(rig.layout);
  return findings_of(check, rig);
}

/// Under and above a limit, which itself is met.
void expect_turns_at(double value, Verdict below, Verdict above, const std::function<Verdict(double)>& with_limit) {
  EXPECT_EQ(with_limit(value - 1e-9), below);
  EXPECT_EQ(with_limit(value + 1e-9), above);
}

TEST(SheaveRatio, IsTheTreadOverTheLine) {
  const auto ratio = [](double pitch_m, double line_m) {
    return about(of(sheave_ratio,
                    [&](Layout& l) {
                      l.sheaves[0].pitch_diameter_m.value = pitch_m;
                      for (Line& line : l.lines) line.diameter_m.value = line_m;
                    }),
                 sheave_1)
        .value;
  };
  EXPECT_NEAR(ratio(0.168, 0.008), 20, 1e-12) << "160 mm at the bottom of the groove";
  EXPECT_NEAR(ratio(3 * 0.168, 3 * 0.008), 20, 1e-12) << "size alone changes nothing";
}

TEST(SheaveRatio, TheCommonLimitJudgesSteelAndOtherLinesOnlyByTheirSheaves) {
  const auto finding = [](LineMaterial material, bool own) {
    return about(of(sheave_ratio,
                    [&](Layout& l) {
                      l.limits.sheave_ratio = limit_at(20);
                      l.sheaves[0].sheave_ratio.reset();
                      if (own) l.sheaves[0].sheave_ratio = limit_at(10);
                      for (Line& line : l.lines) line.material.value = material;
                    }),
                 sheave_1);
  };
  EXPECT_EQ(finding(LineMaterial::steel, false).verdict, Verdict::fail) << "19 of 20";
  EXPECT_EQ(finding(LineMaterial::fibre, false).verdict, Verdict::not_judged);
  EXPECT_NE(finding(LineMaterial::fibre, false).why.find("tables are for steel"), std::string::npos);
  EXPECT_EQ(finding(LineMaterial::webbing, false).verdict, Verdict::not_judged);
  EXPECT_EQ(finding(LineMaterial::fibre, true).verdict, Verdict::pass);
  EXPECT_EQ(finding(LineMaterial::steel, true).verdict, Verdict::pass) << "the sheave's own limit comes first";
}

TEST(SheaveRatio, PassesFromItsLimitUp) {
  expect_turns_at(19, Verdict::pass, Verdict::fail, [](double at) {
    return about(of(sheave_ratio, [&](Layout& l) { l.sheaves[0].sheave_ratio = limit_at(at); }), sheave_1).verdict;
  });
}

TEST(Groove, WiderThanItsLimitFailsAndOneThatPinchesFailsAnyway) {
  const auto verdict = [](double width_m, std::optional<Limit> limit) {
    return about(of(groove,
                    [&](Layout& l) {
                      l.sheaves[0].groove_m = Real{width_m, {}};
                      l.limits.groove_ratio = std::move(limit);
                    }),
                 sheave_1)
        .verdict;
  };
  EXPECT_EQ(verdict(0.0103, limit_at(1.3)), Verdict::pass);
  EXPECT_EQ(verdict(0.0105, limit_at(1.3)), Verdict::fail);
  EXPECT_EQ(verdict(0.0079, limit_at(1.3)), Verdict::fail) << "an 8 mm line";
  EXPECT_EQ(verdict(0.0079, std::nullopt), Verdict::fail);
  EXPECT_EQ(verdict(0.0105, std::nullopt), Verdict::not_judged);
}

TEST(Groove, UnknownHasNoFinding) {
  const std::vector<Finding> findings = of(groove, [](Layout& l) { l.sheaves[0].groove_m.reset(); });
  EXPECT_EQ(findings.size(), marten_ridge().layout.sheaves.size() - 1);
}

/// Over the planned travel of every sweep.
template <class Visit>
void at_every_pose(const Rig& rig, Visit visit) {
  for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps)
    for (std::size_t p = 0; p < sweep.poses.size(); ++p)
      if (sweep.poses[p].travel_m <= rig.reeving.inputs->travel_m) visit(sweep, p);
}

TEST(Wrap, IsTheLeastOfAllPoses) {
  const Rig& rig = marten_ridge();
  const std::vector<Finding> findings = findings_of(wrap, rig);
  const std::size_t sheaves = rig.reeving.inputs->sheaves.size();
  std::size_t judged = 0;
  for (std::size_t s = 0; s < sheaves; ++s) {
    if (rig.reeved[s] < 0) continue;
    double least = 10;
    at_every_pose(rig, [&](const reeving::Sweep& sweep, std::size_t p) {
      // By the two legs' directions: parallel ones are half a turn apart.
      const reeving::Turn& turn = sweep.turns[p * sheaves + s];
      least = std::min(least, std::numbers::pi - std::acos(dot(turn.on_leg, turn.off_leg)));
    });
    const Finding finding = about(findings, {Item::Kind::sheave, rig.reeved[s]});
    // Legs lie within 0.3 deg of the groove's plane, and so does what they turn about half a turn.
    EXPECT_NEAR(finding.value, least, 1e-2);
    EXPECT_LE(finding.bound, finding.value);
    EXPECT_GT(finding.bound, finding.value - rig.reeving.inputs->angle_resolution_rad - 0.05);
    ++judged;
  }
  EXPECT_EQ(judged, findings.size());
  EXPECT_EQ(judged, 2U);
}

TEST(Wrap, PassesUpToTheBoundAndIsUnknownWithoutASolution) {
  const Finding as_is = about(findings_of(wrap, marten_ridge()), sheave_1);
  const auto verdict = [](double at) {
    return about(of(wrap, [&](Layout& l) { l.limits.wrap_rad = limit_at(at); }), sheave_1).verdict;
  };
  EXPECT_EQ(verdict(as_is.bound - 1e-9), Verdict::pass);
  EXPECT_EQ(verdict(as_is.value + 1e-9), Verdict::fail);
  Rig unknown = marten_ridge();
  unknown.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(unsolved("slack"));
  EXPECT_EQ(about(findings_of(wrap, unknown), sheave_1).verdict, Verdict::undetermined);
  EXPECT_EQ(about(findings_of(slack_leg, unknown), line_1).verdict, Verdict::undetermined);
}

TEST(SlackLeg, NoPointOfAnyLegPullsWithLess) {
  const Rig& rig = marten_ridge();
  const std::vector<Finding> findings = findings_of(slack_leg, rig);
  ASSERT_EQ(findings.size(), rig.layout.lines.size());
  const reeving::Inputs& in = *rig.reeving.inputs;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    if (rig.lines[l].kind != Item::Kind::line) continue;
    double least_N = 1e9;
    at_every_pose(rig, [&](const reeving::Sweep& sweep, std::size_t p) {
      for (int k = 0; k <= in.lines[l].sheaves; ++k) {
        const reeving::Leg& leg = sweep.legs[p * in.legs() + in.legs_before(l) + static_cast<std::size_t>(k)];
        // Tension falls along a hanging line by its load times the way down it.
        for (const Point3 at : reeving::hanging_curve(leg, 201))
          least_N = std::min(least_N, leg.from_tension_N - dot(leg.load_N_per_m, at - leg.from));
      }
    });
    const Finding finding = about(findings, rig.lines[l]);
    // The curve's lowest point lies within half a step of one of its 201; the line is level there, so it misses no
    // more than the load times a step's length squared over eight of its radius: under 1e-3 N.
    EXPECT_NEAR(finding.value, least_N, 1e-3);
    EXPECT_LE(finding.bound, finding.value);
    EXPECT_GT(finding.bound, 0.5 * finding.value) << "and the bound is worth having";
  }
}

TEST(SlackLeg, AnyLegsBoundBindsAndAnUnknownOneLeavesItUndetermined) {
  const auto finding = [](double bound_N) {
    Rig rig = marten_ridge();
    rig.layout.limits.slack_tension_N = limit_at(10);
    reeving::Reeving changed = *rig.reeving.solved();
    for (reeving::Sweep& sweep : changed.sweeps) {
      sweep.least_tension_N[0] = {20, 19, 0};
      sweep.least_tension_N[1] = {21, bound_N, 0};
      for (std::size_t i = 2; i < sweep.least_tension_N.size(); ++i) sweep.least_tension_N[i] = {30, 29, 0};
    }
    rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(std::move(changed));
    return about(findings_of(slack_leg, rig), line_1);
  };
  EXPECT_EQ(finding(15).verdict, Verdict::pass);
  EXPECT_EQ(finding(15).value, 20) << "the slackest leg is the one told";
  EXPECT_EQ(finding(15).bound, 15) << "and the other may go below it";
  EXPECT_EQ(finding(9).verdict, Verdict::undetermined);
  EXPECT_EQ(finding(std::nan("")).verdict, Verdict::undetermined);
}

TEST(SlackLeg, PassesUpToTheBoundAndIsNotJudgedWithoutALimit) {
  const Finding as_is = about(findings_of(slack_leg, marten_ridge()), line_1);
  const auto verdict = [](std::optional<Limit> limit) {
    return about(of(slack_leg, [&](Layout& l) { l.limits.slack_tension_N = std::move(limit); }), line_1).verdict;
  };
  EXPECT_EQ(verdict(limit_at(as_is.bound * (1 - 1e-9))), Verdict::pass);
  EXPECT_EQ(verdict(limit_at(as_is.value * (1 + 1e-9))), Verdict::fail);
  EXPECT_EQ(verdict(std::nullopt), Verdict::not_judged);
}

}  // namespace
}  // namespace fairlead
