// What loads the anchors beside the passages, as the record has it.
#include <gtest/gtest.h>

#include <fstream>
#include <set>

#include "tests/loads/everything.hpp"
#include "tests/report/json/members.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

const Recorded& all() {
  static const Recorded recorded{Dossier{judge(loads::everything())}};
  return recorded;
}

void expect_cable(const Json& json, const mainline::Cable& cable) {
  EXPECT_TRUE(same(json["unstretched_m"], cable.unstretched_m));
  EXPECT_TRUE(same(json["weight_N_per_m"], cable.weight_N_per_m));
  EXPECT_TRUE(same(json["compliance_per_N"], cable.compliance_per_N));
}

void expect_blown(const Json& json, const loads::Blown& blown) {
  expect_cable(json["cable"], blown.cable);
  EXPECT_TRUE(same(json["wind_N_per_m"], blown.wind_N_per_m));
}

TEST(RecordOfActions, KeepsTheSchema) {
  const SchemaCheck schema{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/schema.json"))};
  for (const std::string& fault : schema.faults(all().json)) ADD_FAILURE() << fault;
}

TEST(RecordOfActions, HoldsWhatTheLoadsWereComputedFrom) {
  const Json& json = all().json["loads"]["inputs"];
  const loads::Inputs& in = *all().rig().loads.inputs;
  EXPECT_EQ(json["start_back_anchor"], "K1");
  EXPECT_EQ(json["end_back_anchor"], "K2");
  EXPECT_TRUE(same(json["saddle_friction"], 1.2));
  EXPECT_TRUE(same(json["rescuer_weight_N"], 100 * standard_gravity));
  EXPECT_EQ(json["backup_brake"]["anchor"], "P2");
  EXPECT_TRUE(same(json["backup_brake"]["force_N"], 6000));
  EXPECT_TRUE(same(json["backup_brake"]["engages_m"], in.backup.engages_m));
  const Json& line = json["parallel_lines"][0];
  EXPECT_EQ(line["from_anchor"], "P1");
  EXPECT_EQ(line["to_anchor"], "Q2");
  EXPECT_TRUE(same(line["rider_weight_N"], 122.5 * standard_gravity));
  ASSERT_EQ(line["in_state"].size(), in.beside[0].in_state.size());
  for (std::size_t s = 0; s < in.beside[0].in_state.size(); ++s)
    expect_cable(line["in_state"][s]["cable"], in.beside[0].in_state[s]);
  ASSERT_EQ(json["weather"].size(), in.weather.size());
  for (std::size_t i = 0; i < in.weather.size(); ++i) {
    EXPECT_EQ(json["weather"][i]["state"], in.weather[i].state);
    expect_blown(json["weather"][i]["main_line"], in.weather[i].main_line);
    expect_blown(json["weather"][i]["parallel_lines"][0]["line"], in.weather[i].beside[0]);
  }
}

TEST(RecordOfActions, NamesTheActionOfEveryCaseAndWhatAParallelLineCarries) {
  const loads::Loads& loads = *all().rig().loads.solved();
  const Json& json = all().json["loads"];
  std::set<std::string> actions;
  for (std::size_t c = 0; c < loads.cases.size(); ++c) {
    actions.insert(json["cases"][c]["action"]);
    for (std::size_t a = 0; a < loads.demands.size(); ++a)
      EXPECT_TRUE(same(json["cases"][c]["on_anchor_N"][a], loads.cases[c].on_anchor_N[a]));
  }
  EXPECT_EQ(actions, (std::set<std::string>{"arrest", "drawn back after an arrest", "at rest", "wind",
                                            "peak line tension", "rider on span", "riders on parallel lines", "rescue",
                                            "backup brake", "ice", "storm", "ice and wind"}));
  EXPECT_TRUE(same(json["parallel_lines"][0]["tension_N"]["value"], loads.beside[0].force_N.value));
  EXPECT_EQ(json["parallel_lines"][0]["tension_N"]["case"], loads.beside[0].force_N.pose);
}

}  // namespace
}  // namespace fairlead
