// What is loaded is never cleared on the static cases alone.
#include <gtest/gtest.h>

#include <set>

#include "tests/checks/built_up.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const std::set<std::string_view> of_loads{"anchor-utilisation", "strength",       "member-utilisation", "member-lost",
                                          "base-moment",        "load-direction", "anchor-movement"};

std::vector<Finding> findings_of(const Layout& layout) { return judge_at({}, layout).findings; }

/// The checks of loads with a verdict; how many pass.
int looked_at(const std::vector<Finding>& findings, Verdict verdict) {
  int count = 0;
  for (const Finding& finding : findings) count += of_loads.contains(finding.check->name) && finding.verdict == verdict;
  return count;
}

void never_pass(Layout layout, const std::string& why) {
  const int passed = looked_at(findings_of(layout), Verdict::pass);
  ASSERT_GT(passed, 3) << "as drawn";
  layout.riders.rolling_resistance.reset();
  const std::vector<Finding> findings = findings_of(layout);
  EXPECT_EQ(looked_at(findings, Verdict::pass), 0);
  for (const Finding& finding : findings) {
    if (!of_loads.contains(finding.check->name) || finding.verdict != Verdict::undetermined) continue;
    EXPECT_EQ(finding.why, why) << finding.check->name;
    EXPECT_TRUE(finding.measured) << finding.check->name << ": what the static cases say is told";
  }
}

const std::string no_rolling =
    "no case has the load of an arrest: riders' arrests are not solved: the approach is not solved: the layout does "
    "not "
    "give riders.rolling_resistance";

TEST(WithoutAnArrest, NothingThatIsLoadedPasses) { never_pass(demo_layout(), no_rolling); }

TEST(WithoutAnArrest, NoMemberOfABuiltUpAnchorPasses) { never_pass(built_up(guyed_pole()), no_rolling); }

TEST(WithoutAnArrest, WhatFailsOnTheStaticCasesFails) {
  Layout layout = demo_layout({{"anchor.P1.wll", "'10 kN'"}});
  layout.riders.rolling_resistance.reset();
  bool failed = false;
  for (const Finding& finding : findings_of(layout))
    failed = failed || (finding.check->name == "anchor-utilisation" && finding.verdict == Verdict::fail);
  EXPECT_TRUE(failed);
}

TEST(WithoutAnArrest, OneUnknownCornerLeavesNothingCleared) {
  const std::vector<Finding> findings = findings_of(demo_layout({{"brake_unit.force_left", "0.2"}}));
  EXPECT_EQ(looked_at(findings, Verdict::pass), 0);
}

}  // namespace
}  // namespace fairlead
