#include "report/words/sentence.hpp"

#include <gtest/gtest.h>

#include "geometry/checks/list.hpp"
#include "report/words/explain.hpp"
#include "report/words/names.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Style si{Units::si}, both{Units::both}, us{Units::us};

Finding fleet(Verdict verdict, double value_rad, double bound_rad) {
  Finding finding{.check = &fleet_angle, .subject = {Item::Kind::sheave, 0}, .verdict = verdict};
  finding.value = value_rad;
  finding.bound = bound_rad;
  finding.measured = true;
  finding.travel_m = 0;
  finding.limit = Limit{Real{3 * 3.14159265358979 / 180, {}}, "J. Doe"};
  finding.facts.push_back({"leg", std::string("trolley")});
  finding.facts.push_back({"move", Quantity{0.021, Dimension::length}});
  finding.facts.push_back({"side", std::string("to the left")});
  return finding;
}

TEST(Sentence, SaysByHowMuchAFailureMissesWhoseLimit) {
  const Layout layout = demo_layout();
  const double four = 4 * 3.14159265358979 / 180;
  EXPECT_EQ(words::sentence(layout, fleet(Verdict::fail, four, four), si),
            "sheave R1: the line on the trolley side runs 4.00 deg off the groove's plane at travel 0.000 m, 1.00 deg "
            "over the "
            "limit of 3.00 deg (J. Doe)");
  EXPECT_EQ(words::remedy(layout, fleet(Verdict::fail, four, four), si),
            "move sheave R1 at least 21.0 mm to the left (seen toward the landing), or turn its axle");
  EXPECT_EQ(words::remedy(layout, fleet(Verdict::pass, 0, 0), si), "") << "what passes needs no help";
}

TEST(Sentence, ShowsTheBoundWhereItDiffersAndTheReasonWhereNothingWasDecided) {
  const Layout layout = demo_layout();
  const double two = 2 * 3.14159265358979 / 180, four = 2 * two;
  Finding open = fleet(Verdict::undetermined, two, four);
  open.why = "the sweep may exceed it";
  EXPECT_EQ(words::sentence(layout, open, si),
            "sheave R1: the line on the trolley side runs 2.00 deg off the groove's plane at travel 0.000 m, 4.00 deg "
            "at worst "
            "between the poses solved, limit 3.00 deg (J. Doe); undetermined: the sweep may exceed it");
  Finding unjudged = fleet(Verdict::not_judged, two, two);
  unjudged.limit.reset();
  unjudged.why = "no limit given";
  EXPECT_EQ(words::sentence(layout, unjudged, si),
            "sheave R1: the line on the trolley side runs 2.00 deg off the groove's plane at travel 0.000 m; not "
            "judged: no limit "
            "given");
}

TEST(Remedy, WhatIsNeededAtLeastIsRoundedUpAndWhatIsMeasuredIsNot) {
  static const Check check{.name = "short",
                           .title = "",
                           .sentence = "{value} of at least {force}",
                           .formula = "",
                           .source = "",
                           .remedy = "fit at least {value} and at least {force}; {value} is there",
                           .dimension = Dimension::length,
                           .run = nullptr};
  Finding finding{.check = &check, .verdict = Verdict::fail};
  finding.measured = true;
  finding.value = finding.bound = 0.03011;
  finding.facts.push_back({"force", Quantity{1004.6, Dimension::force}});
  const Layout layout = demo_layout();
  EXPECT_EQ(words::remedy(layout, finding, {Units::si}), "fit at least 30.2 mm and at least 1.01 kN; 30.1 mm is there");
  EXPECT_TRUE(words::sentence(layout, finding, {Units::si}).ends_with("30.1 mm of at least 1.00 kN"))
      << words::sentence(layout, finding, {Units::si});
}

TEST(Sentence, NoFindingOfAnyLayoutLeavesAGap) {
  Layout unsolved = demo_layout();
  unsolved.lines.clear();
  const auto read = [](const char* name) {
    auto layout = read_layout(std::string(FAIRLEAD_SOURCE_DIR "/layouts/") + name);
    EXPECT_TRUE(layout.has_value()) << name;
    return *layout;
  };
  const Layout reduced = read("marten_ridge.toml");
  Layout bare = reduced;
  bare.limits = {};
  bare.blocks[0].size_m.reset();
  bare.brake_trolley.wheelbase_m.reset();
  Layout unseen = reduced;
  unseen.riders.envelope.reset();
  Layout reversed = reduced;
  reversed.sheaves[1].on = BrakeTrolleyEnd{};
  for (const Layout& layout : {demo_layout(), read("heron_gully_spoiled.toml"), unsolved, reduced,
                               read("sable_weir.toml"), read("larch_spur_spoiled.toml"), bare, unseen, reversed})
    for (const Finding& finding : judge(layout).findings)
      for (const Style& style : {si, both, us}) {
        const std::string said = words::sentence(layout, finding, style) + words::remedy(layout, finding, style);
        EXPECT_EQ(said.find("unknown"), std::string::npos) << finding.check->name << ": " << said;
        EXPECT_EQ(said.find('{'), std::string::npos) << finding.check->name << ": " << said;
      }
}

TEST(Sentence, LeavesOutClausesItKnowsNothingFor) {
  const Check check{.name = "crossing",
                    .title = "",
                    .sentence = "{fault}; within {value} of it; {meet}",
                    .formula = "",
                    .source = "",
                    .remedy = "",
                    .dimension = Dimension::length,
                    .run = nullptr};
  Finding finding{.check = &check, .subject = {Item::Kind::line, 0}, .verdict = Verdict::pass};
  finding.value = finding.bound = 0.25;
  finding.measured = true;
  const Layout layout = demo_layout();
  EXPECT_EQ(words::sentence(layout, finding, si), "line L1: within 250.0 mm of it");
  const std::string askew = "askew";
  finding.facts.push_back(Fact{"fault", askew});
  EXPECT_EQ(words::sentence(layout, finding, si), "line L1: askew; within 250.0 mm of it");
}

TEST(Sentence, ADistanceThatIsNotClearedHasTwoEnds) {
  Finding finding{.check = &line_line, .subject = {Item::Kind::line, 0}, .verdict = Verdict::fail};
  finding.value = finding.bound = 0.01;
  finding.measured = true;
  finding.at = Point3{1, 2, 3};
  finding.at_other = Point3{1, 2, 3.01};
  EXPECT_NE(words::sentence(demo_layout(), finding, si)
                .find("; between east 1.000 m, north 2.000 m, up 3.000 m and east 1.000 m, north 2.000 m, up 3.010 m"),
            std::string::npos);
}

TEST(Sentence, AmericansReadFeetAndPoundsForce) {
  const Judged judged = judge(demo_layout());
  for (const Finding& finding : judged.findings) {
    if (finding.check != &anchor_utilisation) continue;
    EXPECT_NE(words::sentence(judged.rig.layout, finding, us).find("lbf"), std::string::npos);
    EXPECT_EQ(words::sentence(judged.rig.layout, finding, si).find("lbf"), std::string::npos);
    EXPECT_NE(words::sentence(judged.rig.layout, finding, both).find("lbf)"), std::string::npos);
  }
}

TEST(Explain, EveryCheckNamesItsFormulaItsSourceAndTheKeysOfItsLimit) {
  for (const Check* check : all_checks()) {
    const std::string text = words::explain(*check);
    EXPECT_NE(text.find(std::string(check->title)), std::string::npos) << check->name;
    EXPECT_NE(words::limit_keys_of(*check), "") << check->name;
    EXPECT_NE(words::explain_all().find(std::string(check->name)), std::string::npos);
  }
}

TEST(Headline, CountsWhatIsOpenAndNamesWhatIsWaived) {
  // Of two checks only: what the others find of the demo is not this test's.
  const auto judged = [](const Layout& layout) {
    Judged all = judge(layout);
    std::erase_if(all.findings,
                  [](const Finding& f) { return f.check != &anchor_utilisation && f.check != &extension_reserve; });
    return all;
  };
  Layout layout = demo_layout({{"anchor.A3.mbs", "'1 kN'"}});
  layout.limits.extension_reserve_m.reset();
  EXPECT_EQ(words::headline(judged(layout)), "NOT CLEARED: 1 fail, 1 not judged");
  Waiver waiver;
  waiver.check.value = "anchor-utilisation";
  waiver.until.value = {2030, 1, 1};
  layout = demo_layout({{"anchor.A3.mbs", "'1 kN'"}});
  layout.waivers.push_back(waiver);
  EXPECT_EQ(words::headline(judged(layout)), "CLEARED by these checks: 4 pass, 1 waived (anchor-utilisation A3)");
}

}  // namespace
}  // namespace fairlead
