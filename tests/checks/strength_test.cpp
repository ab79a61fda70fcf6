#include <gtest/gtest.h>

#include <algorithm>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr Item line_1{Item::Kind::line, 0}, sheave_1{Item::Kind::sheave, 0}, main_line{Item::Kind::main_line, 0},
    support_line{Item::Kind::support_line, 0}, block{Item::Kind::block, 0}, trolley{Item::Kind::brake_trolley, 0};

/// Strength never moves anything: a solved rig may take other ratings and limits.
Finding strength_of(Item subject, const std::function<void(Layout&)>& change) {
  Rig rig = marten_ridge();
  change(rig.layout);
  return about(findings_of(strength, rig), subject);
}

TEST(Strength, JudgesEveryPartThatALineLoads) {
  const Rig& rig = marten_ridge();
  const std::vector<Finding> findings = findings_of(strength, rig);
  const std::size_t parts = 2 + rig.layout.support_lines.size() + rig.layout.lines.size() + rig.layout.sheaves.size() +
                            rig.layout.blocks.size() + rig.layout.connectors.size();
  EXPECT_EQ(findings.size(), parts) << "main line and trolley, and all that there can be several of";
  for (const Finding& finding : findings) {
    EXPECT_TRUE(finding.measured);
    EXPECT_GT(number(finding, "force"), 0);
    EXPECT_NE(fact(finding, "case"), "nothing loads it");
  }
}

TEST(Strength, PassesOnlyAboveTheBoundAndFailsBelowTheLoad) {
  const Extreme force = marten_ridge().loads.solved()->sheaves[0].force_N;
  const auto verdict = [](double wll_N) {
    return strength_of(sheave_1, [&](Layout& l) { l.sheaves[0].wll_N = Real{wll_N, {}}; }).verdict;
  };
  EXPECT_EQ(verdict(force.bound * (1 + 1e-9)), Verdict::pass);
  EXPECT_EQ(verdict(force.value * (1 - 1e-9)), Verdict::fail);
  ASSERT_GT(force.bound, force.value);
  EXPECT_EQ(verdict((force.value + force.bound) / 2), Verdict::undetermined);
}

TEST(Strength, TheFactorDividesABreakingStrengthAndNeverAWorkingLoadLimit) {
  const auto utilisation = [](Item subject, double factor) {
    return strength_of(subject, [&](Layout& l) { l.limits.design_factor = limit_at(factor); }).value;
  };
  EXPECT_NEAR(utilisation(line_1, 10), 2 * utilisation(line_1, 5), 1e-12) << "it has an mbs";
  EXPECT_EQ(utilisation(sheave_1, 10), utilisation(sheave_1, 5)) << "it has a wll";
}

TEST(Strength, MainLineAndSupportLinesTakeTheirOwnFactorFirst) {
  for (const Item subject : {main_line, support_line}) {
    const auto utilisation = [&](std::optional<Limit> own) {
      return strength_of(subject,
                         [&](Layout& l) {
                           l.limits.design_factor = limit_at(5);
                           l.limits.main_line_factor = std::move(own);
                         })
          .value;
    };
    EXPECT_NEAR(utilisation(limit_at(3)) / utilisation(std::nullopt), 0.6, 1e-12) << "3 in place of 5";
  }
  const auto changed = [](Layout& l) { l.limits.main_line_factor = limit_at(1); };
  EXPECT_EQ(strength_of(line_1, changed).value, about(findings_of(strength, marten_ridge()), line_1).value);
}

TEST(Strength, WithoutARatingOrAFactorNothingIsJudged) {
  const Finding unrated = strength_of(line_1, [](Layout& l) { l.lines[0].mbs_N.reset(); });
  EXPECT_EQ(unrated.verdict, Verdict::not_judged);
  EXPECT_EQ(unrated.why, "it carries load and has neither a wll nor an mbs");
  const Finding bare = strength_of(main_line, [](Layout& l) { l.main_line.mbs_N.reset(); });
  EXPECT_EQ(bare.verdict, Verdict::not_judged);
  const auto no_factor = [](Layout& l) { l.limits = {}; };
  EXPECT_EQ(strength_of(line_1, no_factor).why, "its mbs needs limits.design_factor");
  EXPECT_EQ(strength_of(support_line, no_factor).why, "its mbs needs limits.main_line_factor or limits.design_factor");
  EXPECT_EQ(strength_of(block, no_factor).verdict, Verdict::pass) << "rated by its wll";
}

TEST(Strength, AConnectorCarriesTheTensionAtTheEndItJoins) {
  const Rig& rig = marten_ridge();
  const loads::Loads& loads = *rig.loads.solved();
  const std::vector<Finding> findings = findings_of(strength, rig);
  const auto force = [&](int connector) {
    return number(about(findings, {Item::Kind::connector, connector}), "force");
  };
  EXPECT_EQ(force(0), loads.lines[0].from_N.value) << "C1: the reduction line at the trolley";
  EXPECT_EQ(force(0), number(about(findings, trolley), "force")) << "and so the trolley's attachment";
  ASSERT_EQ(rig.lines[1], (Item{Item::Kind::line, 1}));
  EXPECT_EQ(force(1), loads.lines[1].from_N.value) << "C2: the braking line at the block";
}

TEST(Strength, AConnectorThatIsALinesEndCarriesThatEndWhicheverWayTheLineIsWritten) {
  const double at_trolley_N = marten_ridge().loads.solved()->lines[0].from_N.value;
  for (const bool reversed : {false, true}) {
    const Finding finding = strength_of({Item::Kind::connector, 0}, [&](Layout& l) {
      Line& line = l.lines[0];
      line.from = static_cast<ConnectorId>(0);
      if (!reversed) return;
      std::swap(line.from, line.to);
      std::reverse(line.route.begin(), line.route.end());
    });
    EXPECT_EQ(number(finding, "force"), at_trolley_N) << (reversed ? "written from its dead end" : "from the trolley");
  }
}

TEST(Strength, AConnectorAtAnUnknownEndCarriesTheMostOfItsLine) {
  const Finding finding = strength_of({Item::Kind::connector, 0}, [](Layout& l) { l.connectors[0].joins = {"L1"}; });
  EXPECT_EQ(number(finding, "force"), marten_ridge().loads.solved()->lines[0].tension_N.value);
}

TEST(Strength, UnknownLoadsAreNeverAPass) {
  Rig rig = marten_ridge();
  rig.loads.result = std::make_shared<const Solved<loads::Loads>>(unsolved("they do not balance"));
  for (const Finding& finding : findings_of(strength, rig)) {
    EXPECT_EQ(finding.verdict, Verdict::undetermined);
    EXPECT_EQ(finding.why, "they do not balance");
  }
  loads::Loads unknown = *marten_ridge().loads.solved();
  unknown.main_line.force_N.value = unknown.main_line.force_N.bound = std::numeric_limits<double>::quiet_NaN();
  rig.loads.result = std::make_shared<const Solved<loads::Loads>>(unknown);
  EXPECT_EQ(about(findings_of(strength, rig), main_line).verdict, Verdict::undetermined);
}

}  // namespace
}  // namespace fairlead
