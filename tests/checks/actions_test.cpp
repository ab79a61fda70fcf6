// What is looked at beside the passages reaches the verdicts on anchors and lines.
#include <gtest/gtest.h>

#include <set>

#include "tests/checks/findings.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead {
namespace {

constexpr Item parallel_line{Item::Kind::parallel_line, 0}, main_line{Item::Kind::main_line, 0};

const Rig& everything() {
  static const Rig rig = solve(loads::everything());
  return rig;
}

Finding strength_of(Item subject, const std::function<void(Layout&)>& change) {
  Rig rig = everything();
  change(rig.layout);
  return about(findings_of(strength, rig), subject);
}

TEST(Actions, AParallelLineIsHeldToItsOwnStrength) {
  const Extreme force = everything().loads.solved()->beside.at(0).force_N;
  const double factor = everything().layout.limits.main_line_factor
                            ? everything().layout.limits.main_line_factor->at.value
                            : everything().layout.limits.design_factor->at.value;
  const auto verdict = [&](double capacity_N) {
    return strength_of(parallel_line,
                       [&](Layout& l) {
                         l.parallel_lines[0].mbs_N = Real{capacity_N * factor, {}};
                       })
        .verdict;
  };
  EXPECT_EQ(verdict(force.bound * (1 + 1e-9)), Verdict::pass);
  EXPECT_EQ(verdict(force.value * (1 - 1e-9)), Verdict::fail);
  EXPECT_EQ(strength_of(parallel_line, [](Layout& l) { l.parallel_lines[0].mbs_N.reset(); }).verdict,
            Verdict::not_judged);
}

TEST(Actions, TheLineBehindASaddleCountsForTheMainLinesStrength) {
  const Finding finding = strength_of(main_line, [](Layout&) {});
  EXPECT_EQ(finding.verdict, Verdict::fail) << "an arrest and a saddle that holds the line back";
  EXPECT_EQ(fact(finding, "case").rfind("arrest, heaviest rider", 0), 0u) << fact(finding, "case");
  EXPECT_NE(fact(finding, "case").find("slipping backward over its saddles"), std::string::npos);
}

/// Every anchor's verdict flips where its capacity passes the demand of the one case that governs it.
TEST(Actions, EveryAnchorIsHeldToTheWorstOfAllActions) {
  Rig rig = everything();
  std::set<loads::Action> governing;
  for (std::size_t a = 0; a < rig.layout.anchors.size(); ++a) {
    const Extreme force = rig.loads.solved()->demands[a].force_N;
    governing.insert(rig.loads.solved()->cases.at(static_cast<std::size_t>(force.pose)).action);
    const Item item{Item::Kind::anchor, static_cast<int>(a)};
    rig.layout.anchors[a].mbs_N.reset();
    rig.layout.anchors[a].wll_N = Real{force.bound / rig.layout.limits.anchor_utilisation->at * (1 + 1e-9), {}};
    EXPECT_EQ(about(findings_of(anchor_utilisation, rig), item).verdict, Verdict::pass);
    rig.layout.anchors[a].wll_N->value = force.value / rig.layout.limits.anchor_utilisation->at * (1 - 1e-9);
    EXPECT_EQ(about(findings_of(anchor_utilisation, rig), item).verdict, Verdict::fail);
  }
  EXPECT_GE(governing.size(), 3u) << "not all anchors are at their worst in the same action";
}

TEST(Actions, WhereALineDoesNotHangNothingPasses) {
  const std::string far = "[[anchor]]\nid = \"K9\"\nposition = [-2800, -2200, 300]\nwll = \"60 kN\"\n";
  const Rig rig = solve(loads::demo_with(far, {{"main_line.from_back_anchor", "'K9'"}}));
  for (const Finding& finding : findings_of(anchor_utilisation, rig)) EXPECT_EQ(finding.verdict, Verdict::undetermined);
  for (const Finding& finding : findings_of(strength, rig)) EXPECT_EQ(finding.verdict, Verdict::undetermined);
}

}  // namespace
}  // namespace fairlead
