#include <gtest/gtest.h>

#include <fstream>

#include "report/changes.hpp"
#include "report/json/json.hpp"
#include "tests/checks/findings.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

Changes changes(const Layout& was, const Layout& is) {
  Changes both{judge(was), judge(is), {}};
  both.difference = difference(both.was, both.is);
  return both;
}

Json written(const Layout& was, const Layout& is) { return Json::parse(json::write(changes(was, is))); }

const Json& spoiled() {
  static const Json json = written(demo_layout(), layout_of("heron_gully_spoiled"));
  return json;
}

const SchemaCheck& schema() {
  static const SchemaCheck check{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/changes_schema.json"))};
  return check;
}

TEST(ChangesJson, KeepsItsSchemaWhateverChangedAndWhatIsNotSolved) {
  const Layout demo = demo_layout(), slack = demo_layout({{"main_line.tension", "'0.5 kN'"}});
  Layout nobody = demo_layout();
  nobody.project.creator.reset(), nobody.project.date.reset();
  for (const auto& [was, is] :
       {std::pair(demo, demo), std::pair(demo, slack), std::pair(slack, demo), std::pair(slack, slack),
        std::pair(demo, nobody), std::pair(layout_of("sable_weir"), layout_of("larch_spur"))})
    for (const std::string& fault : schema().faults(written(was, is))) ADD_FAILURE() << fault;
  for (const std::string& fault : schema().faults(spoiled())) ADD_FAILURE() << fault;
}

TEST(ChangesJson, ASchemaThatIsNotKeptIsNoticed) {
  Json broken = spoiled();
  broken["inputs"][0].erase("section");
  broken["moved"][0]["along_m"] = "far";
  broken["findings"][0]["was"]["outcome"] = "good";
  broken["lines"][0]["unheard_of"] = 1;
  EXPECT_EQ(schema().faults(broken).size(), 4u);
}

// layouts/heron_gully_spoiled.toml marks its faults; A3 and R1 stand 180 mm left of where they were.
TEST(ChangesJson, HoldsTheFaultsOfTheSpoiledLayout) {
  EXPECT_EQ(spoiled()["changed"], true);
  EXPECT_EQ(spoiled()["was"]["cleared"], true);
  EXPECT_EQ(spoiled()["is"]["cleared"], false);
  ASSERT_EQ(spoiled()["moved"].size(), 2u);
  for (const Json& point : spoiled()["moved"]) EXPECT_NEAR(point["across_m"].get<double>(), 0.18, 5e-10);
  int newly_failing = 0, loosened = 0;
  for (const Json& finding : spoiled()["findings"]) {
    const auto outcome = [&](const char* side) {
      return finding[side].is_null() ? "none" : finding[side]["outcome"].get<std::string>();
    };
    EXPECT_EQ(finding["outcome_changed"], outcome("was") != outcome("is"));
    newly_failing += outcome("is") == "fail" && outcome("was") != "fail";
  }
  EXPECT_EQ(newly_failing, 9);
  for (const Json& part : spoiled()["inputs"])
    for (const Json& key : part["keys"])
      if (key["strictness"] == "loosened") {
        ++loosened;
        EXPECT_TRUE(key["is"].is_null()) << key["key"];
      }
  EXPECT_EQ(loosened, 10);
}

TEST(ChangesJson, OneLayoutTwiceHasNothingToTell) {
  const Json same = written(demo_layout(), demo_layout());
  EXPECT_EQ(same["changed"], false);
  EXPECT_TRUE(same["inputs"].empty());
  EXPECT_TRUE(same["moved"].empty());
  for (const Json& finding : same["findings"]) EXPECT_EQ(finding["was"], finding["is"]);
  for (const Json& anchor : same["anchors"]) EXPECT_EQ(anchor["growth"], 0);
}

}  // namespace
}  // namespace fairlead
