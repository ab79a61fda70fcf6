// The reduction's way round, and what is left before anything runs home.
#include <gtest/gtest.h>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr Item block{Item::Kind::block, 0}, line_1{Item::Kind::line, 0};

Layout changed(const std::function<void(Layout&)>& change) {
  Layout layout = layout_of("marten_ridge");
  change(layout);
  return layout;
}
std::vector<Finding> runs(const std::function<void(Layout&)>& change) {
  return findings_of(block_run, solve(changed(change), {&marten_ridge()}));
}

TEST(BlockRun, IsLeastWhereTheBlockComesNearestToTheSecondaryAnchor) {
  const Finding finding = about(findings_of(block_run, marten_ridge()), block);
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_EQ(*finding.travel_m, marten_ridge().layout.brake_trolley.travel_m.value) << "full travel";
  EXPECT_EQ(item(finding, "here"), block);
}

TEST(BlockRun, ALongerBlockLeavesLess) {
  // Longer by 0.4 m each way: its end comes nearer by that, times the cosine of a leg's slope of at most 4 in 100.
  const auto longer = [](Layout& l) { l.blocks[0].size_m->value.along_m += 0.8; };
  const double before_m = about(findings_of(block_run, marten_ridge()), block).value;
  EXPECT_NEAR(about(runs(longer), block).value, before_m - 0.4, 0.4 * 0.0008 + 0.02)
      << "0.02: another leg may be least";
}

TEST(BlockRun, ATerminationThatReachesTheNextSheaveFailsWithoutALimit) {
  const auto long_eye = [](double m) {
    return runs([m](Layout& l) {
      l.lines[0].from_termination_m = Real{m, {}};
      l.limits.block_run_m.reset();
    });
  };
  const double free_m = about(long_eye(1), line_1).value + 1;
  EXPECT_EQ(about(long_eye(free_m * 0.999), line_1).verdict, Verdict::not_judged);
  const Finding home = about(long_eye(free_m * 1.001), line_1);
  EXPECT_EQ(home.verdict, Verdict::fail);
  EXPECT_NEAR(home.value, -0.001 * free_m, 1e-12);
  EXPECT_EQ(*home.travel_m, 0) << "the trolley at its mark is nearest to the redirect";
}

TEST(BlockRun, PassesUpToTheBoundAndFailsFromTheValue) {
  const Finding as_is = about(findings_of(block_run, marten_ridge()), block);
  const auto verdict = [](double at_m) {
    return about(runs([at_m](Layout& l) { l.limits.block_run_m = limit_at(at_m); }), block).verdict;
  };
  EXPECT_LE(as_is.bound, as_is.value);
  EXPECT_EQ(verdict(as_is.bound - 1e-9), Verdict::pass);
  EXPECT_EQ(verdict(as_is.value + 1e-9), Verdict::fail);
}

TEST(BlockRun, NothingBetweenPosesComesBelowTheBound) {
  const Layout layout = layout_of("sable_weir");
  const std::vector<Finding> coarse = findings_of(block_run, solve(layout, {}, {80e-3, 4e-3})),
                             fine = findings_of(block_run, solve(layout, {}, {5e-3, 0.25e-3}));
  ASSERT_EQ(coarse.size(), fine.size());
  for (std::size_t i = 0; i < coarse.size(); ++i) {
    EXPECT_LE(coarse[i].bound, fine[i].value);
    EXPECT_GT(coarse[i].bound, fine[i].value - 0.1) << "and the bound is worth having";
  }
}

TEST(BlockRun, UnknownIsUndeterminedAndNothingToRunHomeHasNoSubject) {
  Rig rig = marten_ridge();
  rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(unsolved("slack"));
  const std::vector<Finding> findings = findings_of(block_run, rig);
  EXPECT_EQ(about(findings, block).verdict, Verdict::undetermined);
  EXPECT_EQ(about(findings, block).why, "slack");
  EXPECT_EQ(about(findings, line_1).verdict, Verdict::undetermined);
  EXPECT_TRUE(findings_of(block_run, demo_layout()).empty());
}

TEST(FleetAngle, OfAReductionIsToldOfEverySheaveAndOfNoWheel) {
  const Rig& rig = marten_ridge();
  ASSERT_EQ(std::count(rig.reeved.begin(), rig.reeved.end(), -1), 1) << "the wheel on the support line";
  EXPECT_EQ(findings_of(fleet_angle, rig).size(), rig.layout.sheaves.size());
  // R2 rides on the block; its axle turned, the leg that leads to R1 or to the dead end is the worse one.
  const Layout askew = changed([](Layout& l) {
    l.sheaves[1].axle.value = l.sheaves[1].axle.value + Vec3{0.02, -0.03, 0};
    l.limits.fleet_angle_rad = limit_at(0.01);
  });
  const Finding finding = about(findings_of(fleet_angle, solve(askew, {&rig})), {Item::Kind::sheave, 1});
  EXPECT_EQ(finding.verdict, Verdict::fail);
  const Item beyond = item(finding, "leg");
  EXPECT_TRUE(beyond == (Item{Item::Kind::sheave, 0}) || beyond == (Item{Item::Kind::anchor, 2}));
}

TEST(PayOut, OfAReductionIsToldOfTheFirstSheaveFromTheTrolley) {
  const Finding finding = only(pay_out, marten_ridge());
  EXPECT_EQ(finding.subject, (Item{Item::Kind::sheave, 0}));
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_LT(finding.value, 0.5) << "half a metre a metre at most, less while the redirect stands steep";
}

TEST(Reduction, SaysNominalAndTrueRatio) {
  for (const auto& [name, n] : {std::pair{"marten_ridge", 2}, std::pair{"sable_weir", 3}}) {
    const Finding finding = only(reduction, layout_of(name));
    EXPECT_EQ(finding.verdict, Verdict::pass) << name;
    EXPECT_EQ(fact(finding, "nominal"), std::to_string(n));
    EXPECT_GT(number(finding, "least_ratio"), n * 0.99) << "legs run nearly along by the end of the travel";
    EXPECT_GT(number(finding, "greatest_ratio"), number(finding, "least_ratio"));
    EXPECT_NEAR(1 / finding.value, number(finding, "least_ratio"), 1e-12);
  }
  EXPECT_TRUE(findings_of(reduction, demo_layout()).empty()) << "1:1 has nothing to reverse";
}

/// The line of the trolley tied to the block, the unit's line doubled over it.
Layout upside_down() {
  return changed([](Layout& l) {
    l.lines[0].from = BrakeUnitEnd{};
    l.lines[0].route = {l.lines[0].route[1]};
    l.lines[0].route[0].turning.reset();
    l.lines[0].to = l.support_lines[0].to;
    l.lines[1].from = static_cast<BlockId>(0);
    l.lines[1].route = {Over{static_cast<SheaveId>(0), std::nullopt, {}}};
    l.lines[1].to = BrakeTrolleyEnd{};
    l.connectors.clear();
  });
}

TEST(Reduction, UpsideDownFailsInThoseWords) {
  const std::string words = "the reduction is upside down: the brake unit's line runs faster than the trolley";
  const Finding doubled = only(reduction, upside_down());
  EXPECT_EQ(doubled.verdict, Verdict::fail);
  EXPECT_EQ(fact(doubled, "fault"), words);
  EXPECT_EQ(fact(doubled, "nominal"), "0.5");
  const Finding carried = only(reduction, changed([](Layout& l) { l.sheaves[1].on = BrakeTrolleyEnd{}; }));
  EXPECT_EQ(carried.verdict, Verdict::fail);
  EXPECT_EQ(fact(carried, "fault"), words);
  EXPECT_EQ(carried.subject, (Item{Item::Kind::sheave, 1}));
}

TEST(Reduction, AUnitThatRunsFasterThanTheTrolleyAnywhereFailsWhateverTheNominalRatio) {
  Rig rig = marten_ridge();
  reeving::Reeving reeving = *rig.reeving.solved();
  const auto with = [&](double value, double bound) {
    reeving.sweeps[0].poses[static_cast<std::size_t>(reeving.sweeps[0].rest_pose)].pay_out = value;
    reeving.sweeps[0].greatest_pay_out = bound;
    rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(reeving);
    return only(reduction, rig).verdict;
  };
  EXPECT_EQ(with(1.01, 1.02), Verdict::fail);
  EXPECT_EQ(with(0.9, 1.02), Verdict::undetermined);
  EXPECT_EQ(with(0.9, 0.95), Verdict::pass);
  EXPECT_EQ(with(std::numeric_limits<double>::quiet_NaN(), 0.9), Verdict::undetermined);
}

}  // namespace
}  // namespace fairlead
