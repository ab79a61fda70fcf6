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

/// The portal read from two supports and by its height, and both compared with a year before.
const Json& taped() {
  static const Json json = [] {
    Survey read = survey({"P1", "P2"});
    const auto add = [&](const char* item, Measurand what, double value) {
      read.measurements.push_back({{.item = item, .value = value, .uncertainty = 3e-3, .line = 3}, what});
    };
    add("P1 to A3", Measurand::distance, 185.2616);
    add("A3 to P2", Measurand::distance, 35.0206);
    add("P2 to A3", Measurand::rise, 1.21);
    add("P2 to R1", Measurand::distance, 35.01);
    read.earlier = EarlierSurvey{"before.csv", read.points, 2e-3, "00"};
    read.earlier->points[2].at.z -= 0.1;
    read.earlier->points.pop_back();
    return written(std::move(read));
  }();
  return json;
}

TEST(AsBuiltJson, HoldsTapesWhatTheyLeaveOverAndWhatMoved) {
  const Json& tapes = taped()["tapes"];
  EXPECT_EQ(tapes["readings"].size(), 4u);
  EXPECT_EQ(tapes["readings"][2]["quantity"], "rise");
  EXPECT_EQ(tapes["open"][0]["id"], "R1");
  EXPECT_TRUE(tapes["agrees"]);
  EXPECT_EQ(tapes["redundancy"], 3);
  EXPECT_EQ(fitted()["tapes"], Json());
  EXPECT_EQ(fitted()["since"], Json());
  const Json& since = taped()["since"];
  EXPECT_EQ(since["movements"][2]["id"], "A3");
  EXPECT_EQ(since["movements"][2]["moved"], "not believed") << "both supports tell no left from right";
  EXPECT_NEAR(since["movements"][2]["up_m"].get<double>(), 0.1, 2e-3);
}

TEST(AsBuiltJson, KeepsItsSchemaFittedOrNotBelievedOrNot) {
  Survey astray = survey({"P1", "P2"});
  astray.points[1].at.x += 0.5;
  for (const Json& json : {fitted(), written(survey({})), written(astray), taped()})
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
