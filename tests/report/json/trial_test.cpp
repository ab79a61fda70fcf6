#include "geometry/trial/trial.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "report/json/json.hpp"
#include "tests/demo_layout.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

const SchemaCheck& schema() {
  static const SchemaCheck check{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/trial_schema.json"))};
  return check;
}

Dossier planned(const std::vector<Override>& overrides = {}) {
  Dossier dossier{judge(demo_layout(overrides))};
  dossier.trial = std::make_shared<const trial::Trial>(trial::Trial{.plan = trial::plan(dossier.judged.rig)});
  return dossier;
}

Dossier tried(std::string_view text) {
  Dossier dossier = planned();
  trial::Trial trial = *dossier.trial;
  auto results = trial::compare(dossier.judged.rig, *trial.plan, "tests.csv", *read_trial_results(text));
  if (!results) throw std::runtime_error("refused");
  trial.results = std::move(*results);
  dossier.trial = std::make_shared<const trial::Trial>(std::move(trial));
  return dossier;
}

const Json& measured() {
  static const Json json = Json::parse(json::write_trial(
      tried("test,quantity,value,unit,uncertainty\nH1,pull_on,44,N,0.5\nM1,mass,50,kg,0.1\nM1,wind,0.1,m/s,0.1\n"
            "M1,touches,1,,\n")));
  return json;
}

TEST(TrialJson, KeepsItsSchemaPlannedTriedAndWithoutAPlan) {
  Dossier none{judge(demo_layout())};
  none.trial = std::make_shared<const trial::Trial>();
  for (const Json& json : {Json::parse(json::write_trial(planned())), measured(), Json::parse(json::write_trial(none))})
    for (const std::string& fault : schema().faults(json)) ADD_FAILURE() << fault;
}

TEST(TrialJson, ASchemaThatIsNotKeptIsNoticed) {
  Json broken = measured();
  broken["tests"][0].erase("kind");
  broken["results"]["verdict"] = "good";
  broken["unheard_of"] = 1;
  EXPECT_EQ(schema().faults(broken).size(), 3u);
}

TEST(TrialJson, TestsThatWereNotPassedClearNobody) {
  const Json plan = Json::parse(json::write_trial(planned()));
  EXPECT_EQ(plan["verdict"]["cleared"], true);
  EXPECT_EQ(plan["verdict"]["exit_status"], 0);
  const Json& failed = measured();
  EXPECT_EQ(failed["verdict"]["fail"], 0) << "the checks by themselves";
  EXPECT_EQ(failed["verdict"]["cleared"], false);
  EXPECT_EQ(failed["verdict"]["exit_status"], 1);
  EXPECT_TRUE(failed["verdict"]["headline"].get<std::string>().starts_with("NOT CLEARED by its unmanned tests: fail"));
}

TEST(TrialJson, HoldsWhatIsPredictedWhatWasReadAndWhatFollows) {
  const Json& json = measured();
  EXPECT_EQ(json["tests"][0]["id"], "H1");
  EXPECT_EQ(json["tests"].size(), json["results"]["tests"].size());
  const Json& m1 = json["results"]["tests"][3];
  EXPECT_EQ(m1["id"], "M1");
  EXPECT_EQ(m1["verdict"], "fail");
  EXPECT_EQ(m1["not_written_down"], Json::array({"release"}));
  EXPECT_EQ(json["results"]["tests"][1]["made"], false);
  EXPECT_EQ(json["results"]["tests"][1]["verdict"], "undetermined");
  EXPECT_EQ(json["results"]["tests"][0]["measured"][0]["value"], 44.0);
}

}  // namespace
}  // namespace fairlead
