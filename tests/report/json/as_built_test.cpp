#include "geometry/asbuilt/as_built.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "report/json/json.hpp"
#include "tests/checks/findings.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

const SchemaCheck& schema() {
  static const SchemaCheck check{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/as_built_schema.json"))};
  return check;
}

/// The demo's supports and its portal, this one 12 mm high; the unit's extension besides, and a nail nobody knows.
Survey survey(std::vector<std::string> control) {
  Survey survey{.points_file = "points.csv", .terms = {.control = std::move(control), .uncertainty_m = 2e-3}};
  survey.points = {{"P1", {1200, 800, 341.5}, "", 1},
                   {"P2", {1376, 932, 330.5}, "", 2},
                   {"A3", {1348, 911, 331.712}, "", 3},
                   {"nail", {0, 0, 0}, "", 4}};
  survey.measurements_file = "tapes.csv";
  survey.measurements = {
      {{.item = "brake_unit", .value = 0.41, .uncertainty = 3e-3, .line = 2}, Measurand::rest_extension}};
  return survey;
}

Json written(Survey survey) {
  const auto built =
      as_built(demo_layout(), std::move(survey), {.draws = fewest_draws, .hold_arrest = true}, {.threads = 2});
  if (!built) throw std::runtime_error("refused");
  return Json::parse(json::write(*built));
}

const Json& fitted() {
  static const Json json = written(survey({"P1", "P2"}));
  return json;
}

TEST(AsBuiltJson, KeepsItsSchemaFittedOrNotBelievedOrNot) {
  Survey astray = survey({"P1", "P2"});
  astray.points[1].at.x += 0.5;
  for (const Json& json : {fitted(), written(survey({})), written(astray)})
    for (const std::string& fault : schema().faults(json)) ADD_FAILURE() << fault;
}

TEST(AsBuiltJson, ASchemaThatIsNotKeptIsNoticed) {
  Json broken = fitted();
  broken["points"][0].erase("left_m");
  broken["basis"][0]["as_measured"] = "good";
  broken["fit"]["unheard_of"] = 1;
  EXPECT_EQ(schema().faults(broken).size(), 3u);
}

TEST(AsBuiltJson, HoldsWhatIsOffWhatIsMissingAndWhatRestsOnIt) {
  const Json& json = fitted();
  EXPECT_EQ(json["points"][2]["id"], "A3");
  EXPECT_NEAR(json["points"][2]["up_m"].get<double>(), 0.012, 1e-9);
  EXPECT_EQ(json["unmatched"], Json::array({"nail"}));
  EXPECT_EQ(json["missing"], Json::array({"B1", "R1", "unit", "rest"}));
  EXPECT_EQ(json["fit"]["redundancy"], 2);
  EXPECT_EQ(json["basis"].size(), json["findings"].size());
  int open = 0;
  for (std::size_t f = 0; f < json["basis"].size(); ++f) {
    const Json& basis = json["basis"][f];
    EXPECT_EQ(basis["check"], json["findings"][f]["check"]);
    EXPECT_EQ(basis["draws"].is_null(), !basis["not_measured"].empty());
    if (basis["not_measured"].empty()) continue;
    ++open;
    EXPECT_NE(json["findings"][f]["verdict"], "pass") << basis["check"];
  }
  EXPECT_GT(open, 20);
}

}  // namespace
}  // namespace fairlead
