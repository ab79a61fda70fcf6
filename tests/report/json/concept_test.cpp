// A concept's record: it keeps its schema, and every number that the terminal prints of it is the record's.
#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <map>

#include "geometry/studies/arrest_figures.hpp"
#include "report/formats/text.hpp"
#include "report/tables/tables.hpp"
#include "tests/report/json/members.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};

Dossier dossier_of(const std::vector<Override>& overrides = {}) {
  Dossier dossier{judge(shipped_concept(overrides), {.threads = 2})};
  dossier.arrest = std::make_shared<const ArrestFigures>(ArrestFigures{.reductions = reductions(dossier.judged.rig)});
  return dossier;
}
const Dossier& shipped() {
  static const Dossier dossier = dossier_of();
  return dossier;
}
const Json& record() {
  static const Json json = Json::parse(json::write_concept(shipped()));
  return json;
}
const SchemaCheck& schema() {
  static const SchemaCheck check{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/concept_schema.json"))};
  return check;
}

TEST(ConceptRecord, KeepsItsSchema) {
  EXPECT_EQ(schema().faults(record()), std::vector<std::string>{});
  const Dossier unsolved = dossier_of({{"riders.drag_area", "'1e300 m2'"}});
  EXPECT_EQ(schema().faults(Json::parse(json::write_concept(unsolved))), std::vector<std::string>{});
  Json broken = record();
  broken["concept"].erase("ratio");
  broken["arrest"]["corners"][0]["motion"]["outcome"] = "flies";
  broken["extra"] = 1;
  EXPECT_EQ(schema().faults(broken).size(), 3u);
}

/// The cells of a row, a name each; words and empty cells are left out.
using Named = std::map<std::string, double>;
std::vector<Named> numbers_of(const Table& table) {
  std::vector<Named> rows;
  for (const auto& row : table.rows) {
    Named& named = rows.emplace_back();
    for (std::size_t i = 0; i < row.size(); ++i)
      if (const auto* quantity = std::get_if<Quantity>(&row[i])) named[table.headings[i]] = quantity->si;
  }
  return rows;
}

/// `where` says for each name where the record has it; every name of the row must be known.
void expect_recorded(const Named& row, const std::map<std::string, std::function<Json()>>& where) {
  EXPECT_FALSE(row.empty());
  for (const auto& [name, value] : row) {
    const auto found = where.find(name);
    ASSERT_NE(found, where.end()) << "no key of the record is known for " << name;
    EXPECT_TRUE(same(found->second(), value)) << name << ' ' << value << ' ' << found->second();
  }
}

TEST(ConceptNumbers, OfEveryCornerAreTheRecords) {
  const std::vector<Named> rows = numbers_of(tables::corners(shipped(), si));
  const Json& corners = record()["arrest"]["corners"];
  ASSERT_EQ(rows.size(), corners.size());
  ASSERT_EQ(rows.size(), 16u) << "riders, speeds, rolling, brake: two of each";
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Json &corner = corners[i], &motion = corner["motion"], &rest = corner["rest"];
    const auto peak = [&](const char* key) { return [&motion, key] { return motion[key]["value"]; }; };
    expect_recorded(rows[i], {{"arrives at", [&] { return corner["arrival_speed_m_per_s"]; }},
                              {"farthest travel", [&] { return motion["stop_travel_m"]; }},
                              {"after", [&] { return motion["stop_time_s"]; }},
                              {"extension",
                               [&] {
                                 const Json moving = motion["extension_m"]["value"];
                                 return rest.is_null() || rest["extension_m"] <= moving ? moving : rest["extension_m"];
                               }},
                              {"line speed", peak("line_speed_m_per_s")},
                              {"tension at the unit", peak("unit_tension_N")},
                              {"load raw", peak("load_raw")},
                              {"load at 5 Hz", peak("load_filtered")},
                              {"load held 0.2 s", peak("load_held")},
                              {"load rises, per s", peak("load_onset_per_s")},
                              {"slowed at 5 Hz", peak("deceleration_filtered_m_per_s2")},
                              {"swing forward", peak("swing_forward_rad")},
                              {"swing back", peak("swing_back_rad")},
                              {"rests from chainage", [&] { return rest["earliest_m"]; }},
                              {"to chainage", [&] { return rest["latest_m"]; }}});
  }
}

TEST(ConceptNumbers, OfTheWayBackAndOfTheRatiosAreTheRecords) {
  const std::vector<Named> resets = numbers_of(tables::resets(shipped(), si));
  ASSERT_EQ(resets.size(), 1u);
  const Json& reset = record()["arrest"]["resets"][0];
  expect_recorded(resets[0], {{"least reserve", [&] { return reset["least_reserve_N"]; }},
                              {"at travel", [&] { return reset["at_travel_m"]; }},
                              {"after", [&] { return reset["time_s"]; }},
                              {"at its mark with", [&] { return reset["speed_at_mark_m_per_s"]; }}});
  const std::vector<Named> rows = numbers_of(tables::reductions(shipped(), si));
  const Json& designs = record()["reductions"]["designs"];
  ASSERT_EQ(rows.size(), designs.size());
  ASSERT_EQ(rows.size(), 20u);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Json &farthest = designs[i]["farthest"]["motion"], &shortest = designs[i]["shortest"]["motion"];
    const auto greater_of = [&](std::vector<const char*> keys) {
      return [&farthest, &shortest, keys] {
        double most = 0;
        for (const Json* motion : {&farthest, &shortest})
          for (const char* key : keys) most = std::max(most, (*motion)[key]["value"].get<double>());
        return Json(most);
      };
    };
    expect_recorded(rows[i], {{"stopping travel, farthest", [&] { return farthest["stop_travel_m"]; }},
                              {"stopping travel, shortest", [&] { return shortest["stop_travel_m"]; }},
                              {"greatest line speed", greater_of({"line_speed_m_per_s"})},
                              {"greatest swing", greater_of({"swing_forward_rad", "swing_back_rad"})},
                              {"least reserve", [&] { return designs[i]["least_reserve_N"]; }}});
  }
}

TEST(ConceptNumbers, OfWhatGovernsAndOfTheBackupBrakeAreTheRecords) {
  const Json &arrest = record()["arrest"], &governing = arrest["governing"];
  const auto corner = [&](const char* result) { return arrest["corners"][governing[result].get<std::size_t>()]; };
  const auto peak = [&](const char* result, const char* key) { return corner(result)["motion"][key]["value"]; };
  const auto finding = [&](const char* check) {
    for (const Json& found : record()["findings"])
      if (found["check"] == check) return found["value"];
    return Json();
  };
  const std::map<std::string, Json> where = {
      {"arrival speed", corner("arrival_speed")["arrival_speed_m_per_s"]},
      {"farthest stop, travel", corner("stop_travel")["motion"]["stop_travel_m"]},
      {"left before the backup brake, at least", finding("rider-stops")},
      {"farthest with a later creep, travel", Json(std::max(corner("farthest_travel")["motion"]["stop_travel_m"],
                                                            corner("farthest_travel")["rest"]["latest_m"]))},
      {"nearest stop, travel", corner("shortest_stop")["motion"]["stop_travel_m"]},
      {"extension", peak("extension", "extension_m")},
      {"line left in the brake unit, at least", finding("arrest-extension")},
      {"line speed", peak("line_speed", "line_speed_m_per_s")},
      {"tension at the unit", peak("unit_tension", "unit_tension_N")},
      {"rider load, raw", peak("load_raw", "load_raw")},
      {"rider load at 5 Hz", peak("load_filtered", "load_filtered")},
      {"rider load held 0.2 s", peak("load_held", "load_held")},
      {"rise of it at 5 Hz, per second", peak("load_onset", "load_onset_per_s")},
      {"trolley slowed at 5 Hz", peak("deceleration", "deceleration_filtered_m_per_s2")},
      {"swing forward", peak("swing_forward", "swing_forward_rad")},
      {"swing back", peak("swing_back", "swing_back_rad")},
      {"earliest final rest, chainage", corner("earliest_rest")["rest"]["earliest_m"]},
      {"latest final rest, chainage", corner("latest_rest")["rest"]["latest_m"]},
      {"backup brake alone: met at", arrest["backup_alone"]["speed_m_per_s"]},
      {"it gives by", arrest["backup_alone"]["compression_m"]},
      {"its greatest force", arrest["backup_alone"]["force_N"]},
      {"left at the end of its stroke", arrest["backup_alone"]["residual_m_per_s"]},
      {"trolley from its mark at dispatch, at most", arrest["not_reset"]["farthest_m"]}};
  std::size_t met = 0;
  for (const Table& table : {tables::governing(shipped(), si), tables::dispatch(shipped(), si)})
    for (const auto& row : table.rows) {
      const auto& name = std::get<std::string>(row[0]);
      const auto found = where.find(name);
      ASSERT_NE(found, where.end()) << name;
      EXPECT_TRUE(same(found->second, std::get<Quantity>(row[1]).si)) << name << ' ' << found->second;
      ++met;
    }
  EXPECT_EQ(met, where.size());
}

TEST(ConceptNumbers, EveryRowOfItsTablesIsPrinted) {
  const std::string text = text::write_concept(shipped(), si);
  for (const Table& table :
       {tables::governing(shipped(), si), tables::dispatch(shipped(), si), tables::resets(shipped(), si),
        tables::reductions(shipped(), si), tables::corners(shipped(), si)})
    EXPECT_NE(text.find('\n' + text::write_in_parts(table, si)), std::string::npos) << table.title;
  for (const Json& finding : record()["findings"])
    EXPECT_NE(text.find("\n  " + finding["check"].get<std::string>()), std::string::npos);
}

TEST(ConceptText, SaysFirstThatItIsAFirstEstimateAndLastWhatToMind) {
  const std::string text = text::write_concept(shipped(), si);
  std::size_t at = 0;
  for (const char* said : {"AS A FIRST ESTIMATE", "\nARREST OF A CONCEPT: a first estimate, predicted, untested\n",
                           "\nIdeal 2:1, 92 % of the work left by its sheaves; a straight main line, falling 2 %;",
                           "\nWhat a first estimate leaves out\n", "ratio is ideal", "There is no path",
                           "\nNot looked at before there is a layout: ", "fleet-angle", "model-range",
                           "\nTaken for granted\n", "\nCautions\n"}) {
    const std::size_t next = text.find(said, at);
    ASSERT_NE(next, std::string::npos) << said << '\n' << text;
    at = next;
  }
}

}  // namespace
}  // namespace fairlead
