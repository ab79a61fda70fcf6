#include "report/json/records.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "tests/demo_layout.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

Json written(std::optional<Date> date) {
  RecordsInput input;
  input.parts = {{.part = "main_line",
                  .serial = "W1",
                  .batch = "B",
                  .in_service = Date{2024, 4, 12},
                  .retire_by = Date{2026, 10, 29},
                  .inspect_by = Date{2026, 12, 1},
                  .cycles = 3,
                  .most_cycles = 5,
                  .baseline_m = 14e-3,
                  .least_m = 12.6e-3,
                  .basis = "owner",
                  .line = 2},
                 {.part = "R1", .serial = "S1", .batch = {}, .line = 3}};
  input.log = {{.id = "F1", .found = {2026, 10, 12}, .part = "R1", .what = "rough", .line = 2}};
  input.measurements = {{{.item = "main_line", .value = 13.3e-3, .uncertainty = 3e-5, .line = 2}, Measurand::diameter}};
  return Json::parse(json::write(*judge_records(demo_layout(), date, input), demo_layout()));
}

TEST(RecordsJson, KeepsItsSchemaAndHoldsWhatIsLeft) {
  const SchemaCheck schema{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/records_schema.json"))};
  for (const Json& json : {written(Date{2026, 10, 30}), written(std::nullopt)})
    for (const std::string& fault : schema.faults(json)) ADD_FAILURE() << fault;
  const Json json = written(Date{2026, 10, 30});
  EXPECT_EQ(json["verdict"], "fail");
  EXPECT_EQ(json["findings"][1]["what"], "retirement");
  EXPECT_EQ(json["findings"][1]["days_left"], -1);
  EXPECT_EQ(json["findings"][2]["days_left"], 32);
  EXPECT_NEAR(json["findings"][4]["worn"].get<double>(), 0.05, 1e-9);
  EXPECT_EQ(json["log"][0]["closed"], Json());
  Json broken = json;
  broken["parts"][0].erase("serial");
  EXPECT_EQ(schema.faults(broken).size(), 1u);
}

}  // namespace
}  // namespace fairlead
