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
  finding.facts = {{"leg", std::string("trolley")},
                   {"move", Quantity{0.021, Dimension::length}},
                   {"side", std::string("to the left")}};
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

TEST(Sentence, NoFindingOfAnyLayoutLeavesAGap) {
  Layout unsolved = demo_layout();
  unsolved.lines.clear();
  const auto spoiled = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_spoiled.toml");
  ASSERT_TRUE(spoiled.has_value());
  for (const Layout& layout : {demo_layout(), *spoiled, unsolved})
    for (const Finding& finding : judge(layout).findings)
      for (const Style& style : {si, both, us}) {
        const std::string said = words::sentence(layout, finding, style) + words::remedy(layout, finding, style);
        EXPECT_EQ(said.find("unknown"), std::string::npos) << finding.check->name << ": " << said;
        EXPECT_EQ(said.find('{'), std::string::npos) << finding.check->name << ": " << said;
      }
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
  Layout layout = demo_layout({{"anchor.A3.mbs", "'1 kN'"}});
  layout.limits.extension_reserve_m.reset();
  EXPECT_EQ(words::headline(judge(layout)), "NOT CLEARED: 1 fail, 1 not judged");
  Waiver waiver;
  waiver.check.value = "anchor-utilisation";
  waiver.until.value = {2030, 1, 1};
  layout = demo_layout({{"anchor.A3.mbs", "'1 kN'"}});
  layout.waivers.push_back(waiver);
  EXPECT_EQ(words::headline(judge(layout)), "CLEARED by these checks: 11 pass, 1 waived (anchor-utilisation A3)");
}

}  // namespace
}  // namespace fairlead
