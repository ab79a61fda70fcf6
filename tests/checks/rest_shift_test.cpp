// The check of where the trolley rests.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/checks/findings.hpp"
#include "tests/checks/rest_unsolved.hpp"

namespace fairlead {
namespace {

double farthest_m(const Rig& rig) {
  double farthest = 0;
  for (const reeving::RestPosition& position : rig.reeving.solved()->rest)
    farthest = std::max(farthest, std::abs(position.rest->shift_m));
  return farthest;
}

TEST(RestShift, IsTheFarthestOfEveryStateEitherWay) {
  Layout layout = demo_layout();
  const Rig rig = solve(layout);
  const double farthest = farthest_m(rig);
  ASSERT_GT(farthest, 0.01);
  layout.limits.rest_shift_m = limit_at(farthest * (1 + 1e-9));
  EXPECT_EQ(only(rest_shift, layout).verdict, Verdict::pass);
  layout.limits.rest_shift_m = limit_at(farthest * (1 - 1e-9));
  const Finding finding = only(rest_shift, layout);
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_NEAR(finding.value, farthest, 1e-9);
  EXPECT_EQ(finding.value, finding.bound) << "solved, not sampled";
  EXPECT_EQ(fact(finding, "way"), "upstream of");
  EXPECT_EQ(fact(finding, "case"), "warm, line at rest");
  EXPECT_GT(number(finding, "at_mark"), number(finding, "extension"));
}

TEST(RestShift, WithoutALimitIsNotJudgedButTold) {
  Layout layout = demo_layout();
  layout.limits.rest_shift_m.reset();
  const Finding finding = only(rest_shift, layout);
  EXPECT_EQ(finding.verdict, Verdict::not_judged);
  EXPECT_EQ(finding.why, "no limit given");
  EXPECT_TRUE(finding.measured);
}

TEST(RestShift, WithoutASolvedReevingIsUndetermined) {
  Layout layout = demo_layout();
  layout.lines.clear();
  const Finding finding = only(rest_shift, layout);
  EXPECT_EQ(finding.verdict, Verdict::undetermined);
  EXPECT_FALSE(finding.measured);
}

TEST(RestShift, WhereOneStateHasNoRestPlaceItIsUndeterminedWhateverTheLimit) {
  Layout layout = demo_layout();
  layout.limits.rest_shift_m = limit_at(100);
  const Finding finding = only(findings_of(rest_shift, without_a_cold_rest_place(layout)));
  EXPECT_EQ(finding.verdict, Verdict::undetermined);
  EXPECT_EQ(finding.why, "near its mark the trolley stands nowhere");
  EXPECT_FALSE(finding.measured);
}

TEST(RestShift, ALineKnownOnlyWithinARangeIsJudgedAtItsEnds) {
  const Rig rig = solve(demo_layout({{"main_line.tension", "['17 kN', '19 kN']"}}));
  ASSERT_TRUE(rig.reeving.solved());
  EXPECT_EQ(rig.reeving.solved()->rest.size(), 6u) << "as measured, cold and warm, each slackest and tightest";
  const Finding finding = only(findings_of(rest_shift, rig));
  EXPECT_NE(fact(finding, "case").find("est, line at rest"), std::string::npos) << fact(finding, "case");
}

}  // namespace
}  // namespace fairlead
