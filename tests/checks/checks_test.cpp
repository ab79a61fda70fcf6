#include <gtest/gtest.h>

#include "tests/checks/findings.hpp"
#include "tests/mounted_layouts.hpp"

namespace fairlead {
namespace {

Layout unsolvable() {
  Layout layout = demo_layout();
  layout.lines.clear();
  return layout;
}

TEST(Checks, EveryOneOfThemIsUndeterminedOrBetterWhereNothingCouldBeSolvedAndNeverPassesTheMechanics) {
  const Layout layout = unsolvable();
  for (const Check* check : {&pay_out, &lead_angle, &coplanarity, &across_offset, &anchor_utilisation,
                             &extension_reserve, &strength, &crossing, &line_line, &line_main_line, &rider_lines,
                             &hands_at_trolley, &under_redirect, &pull_angle, &side_pull, &trolley_lift})
    for (const Finding& finding : findings_of(*check, layout)) {
      EXPECT_EQ(finding.verdict, Verdict::undetermined) << check->name;
      EXPECT_NE(finding.why.find("no line ends at the brake trolley"), std::string::npos) << finding.why;
    }
}

TEST(Checks, WithoutALimitNothingIsJudgedButTheNumberIsShown) {
  Layout layout = demo_layout();
  layout.limits = {};
  layout.sheaves[0].fleet_angle.reset();
  layout.brake_unit.lead_angle.reset();
  for (const Check* check : {&fleet_angle, &lead_angle, &coplanarity, &across_offset, &extension_reserve}) {
    const Finding finding = only(*check, layout);
    EXPECT_EQ(finding.verdict, Verdict::not_judged) << check->name;
    EXPECT_TRUE(finding.measured) << check->name;
    EXPECT_EQ(finding.why, "no limit given");
  }
  for (const Finding& finding : findings_of(anchor_utilisation, layout))
    EXPECT_EQ(finding.verdict, Verdict::not_judged);
}

TEST(FleetAngle, TheSheavesOwnLimitBeatsTheCommonOne) {
  Layout layout = demo_layout({{"sheave.R1.position", "[1347.892, 911.144, 331.4]"}});  // 3.4 deg
  EXPECT_EQ(only(fleet_angle, layout).verdict, Verdict::fail) << "3 deg of its own";
  layout.sheaves[0].fleet_angle.reset();
  EXPECT_EQ(only(fleet_angle, layout).verdict, Verdict::pass) << "4 deg for all";
}

TEST(FleetAngle, SaysToWhichSideTheSheaveShouldMove) {
  const Finding left = only(fleet_angle, demo_layout({{"sheave.R1.position", "[1347.892, 911.144, 331.4]"}}));
  const Finding right = only(fleet_angle, demo_layout({{"sheave.R1.position", "[1348.108, 910.856, 331.4]"}}));
  EXPECT_EQ(fact(left, "side"), "to the right");
  EXPECT_EQ(fact(right, "side"), "to the left");
  EXPECT_EQ(fact(left, "leg"), "trolley");
  EXPECT_NEAR(left.value, right.value, 1e-9) << "mirrored";
}

TEST(FleetAngle, OfASheaveThatTurnsByItselfNoAxleIsToBeTurned) {
  Layout layout = free_redirect();
  layout.sheaves[0].fleet_angle = limit_at(0);
  const Finding free = only(fleet_angle, layout);
  EXPECT_EQ(free.verdict, Verdict::fail);
  EXPECT_EQ(fact(free, "mounted"), "hang it from an anchor in the plane of its legs");
  EXPECT_EQ(fact(free, "side"), "no such fact");
  EXPECT_EQ(fact(only(fleet_angle, demo_layout()), "mounted"), "no such fact") << "on a fixed axle";
}

TEST(PayOut, NamesWhereTheRedirectStands) {
  EXPECT_EQ(fact(only(pay_out, demo_layout()), "where"), "upstream of");
  const Finding above = only(pay_out, demo_layout({{"sheave.R1.position", "[1350.4, 912.8, 331.4]"}}));
  EXPECT_EQ(above.verdict, Verdict::fail);
  EXPECT_EQ(fact(above, "where"), "straight above");
  const Finding downstream = only(pay_out, demo_layout({{"sheave.R1.position", "[1352.0, 914.0, 331.4]"}}));
  EXPECT_EQ(downstream.verdict, Verdict::fail);
  EXPECT_EQ(fact(downstream, "where"), "downstream of");
}

TEST(AnchorUtilisation, TheDesignFactorDividesAnMbsAndNeverAWll) {
  const auto utilisation = [](const Layout& layout, std::size_t anchor) {
    return findings_of(anchor_utilisation, layout)[anchor];
  };
  const Layout demo = demo_layout();
  const Layout twice = demo_layout({{"limits.design_factor.at", "10"}});
  EXPECT_NEAR(utilisation(twice, 2).value, 2 * utilisation(demo, 2).value, 1e-12) << "A3 is rated by its mbs";
  EXPECT_EQ(utilisation(twice, 0).value, utilisation(demo, 0).value) << "P1 is rated by its wll";
  Layout none = demo_layout();
  none.limits.design_factor.reset();
  EXPECT_EQ(utilisation(none, 2).verdict, Verdict::not_judged);
  EXPECT_EQ(utilisation(none, 2).why, "its mbs needs limits.design_factor");
  EXPECT_EQ(utilisation(none, 0).verdict, Verdict::pass);
}

TEST(AnchorUtilisation, FailsJustBelowTheLoadAndPassesJustAboveItsBound) {
  Layout layout = demo_layout();
  const Rig rig = solve(layout);
  const Extreme force = rig.loads.solved()->demands[3].force_N;
  layout.anchors[3].wll_N->value = force.value * (1 - 1e-9);
  EXPECT_EQ(findings_of(anchor_utilisation, layout)[3].verdict, Verdict::fail);
  layout.anchors[3].wll_N->value = force.bound * (1 + 1e-9);
  EXPECT_EQ(findings_of(anchor_utilisation, layout)[3].verdict, Verdict::pass);
  if (force.bound > force.value) {
    layout.anchors[3].wll_N->value = (force.value + force.bound) / 2;
    EXPECT_EQ(findings_of(anchor_utilisation, layout)[3].verdict, Verdict::undetermined);
  }
}

TEST(ExtensionReserve, ALineOutAtItsEndFailsEvenWithoutALimit) {
  Layout layout = demo_layout({{"brake_unit.extension_limit", "'15 m'"}});
  layout.limits.extension_reserve_m.reset();
  const Finding finding = only(extension_reserve, layout);
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_LT(finding.value, 0);
}

TEST(CertificateDate, IsGoodThroughItsLastDay) {
  Layout layout = demo_layout();
  const auto on = [&](Date day) {
    layout.judged_on = Given<Date>{day, {}};
    return only(certificate_date, layout).verdict;
  };
  EXPECT_EQ(on({2027, 4, 30}), Verdict::pass);
  EXPECT_EQ(on({2027, 5, 1}), Verdict::fail);
  layout.judged_on.reset();
  layout.project.date.reset();
  EXPECT_EQ(only(certificate_date, layout).verdict, Verdict::not_judged) << "today is never asked for";
  layout.brake_unit.certificate_due.reset();
  EXPECT_EQ(only(certificate_date, layout).verdict, Verdict::not_judged);
}

TEST(BackupBrake, MustStandBeyondTheEndOfThePlannedTravel) {
  EXPECT_EQ(only(backup_brake, demo_layout()).verdict, Verdict::pass);
  EXPECT_EQ(only(backup_brake, demo_layout({{"backup_brake.engages", "'203 m'"}})).verdict, Verdict::pass);
  EXPECT_EQ(only(backup_brake, demo_layout({{"backup_brake.engages", "'202.9 m'"}})).verdict, Verdict::fail);
  Layout none = demo_layout();
  none.backup_brake.reset();
  EXPECT_EQ(only(backup_brake, none).verdict, Verdict::fail);
}

TEST(Judge, HalvesTheResolutionUntilAGapNoLongerDecides) {
  // A limit a hair above the worst extension at full travel: the first, coarse bound may not show it, a finer one does.
  Layout layout = demo_layout();
  const Extreme extension = solve(layout).reeving.solved()->sweeps[1].greatest_extension_m;
  layout.limits.fleet_angle_rad->at.value = 1e-4;
  layout.sheaves[0].fleet_angle.reset();
  layout.limits.plane_thickness_m->at.value = 2e-3;
  const Judged judged = judge(layout);
  for (const Finding& finding : judged.findings)
    EXPECT_NE(finding.verdict, Verdict::undetermined) << finding.check->name;
  EXPECT_LE(extension.value, extension.bound);
}

TEST(Judge, AppliesWaiversOnlyUpToTheirDayAndOnlyToTheirSubject) {
  Layout layout = demo_layout({{"anchor.A3.mbs", "'2 kN'"}, {"anchor.B1.wll", "'0.1 kN'"}});
  Waiver waiver;
  waiver.check.value = "anchor-utilisation";
  waiver.subject = "A3";
  waiver.until.value = {2026, 10, 30};
  layout.waivers.push_back(waiver);
  const auto waived = [](const Layout& l) {
    std::vector<int> subjects;
    for (const Finding& f : judge(l).findings)
      if (f.waiver >= 0 && f.check == &anchor_utilisation) subjects.push_back(f.subject.index);
    return subjects;
  };
  EXPECT_EQ(waived(layout), std::vector<int>{2}) << "A3 alone, on its last day";
  layout.judged_on = Given<Date>{{2026, 10, 31}, {}};
  EXPECT_TRUE(waived(layout).empty());
  layout.judged_on.reset();
  layout.project.date.reset();
  EXPECT_TRUE(waived(layout).empty()) << "without a date no waiver holds";
}

}  // namespace
}  // namespace fairlead
