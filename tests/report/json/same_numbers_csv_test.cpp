// What the CSV files hold and what the JSON holds are the same numbers, to the last digit written.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "report/formats/csv.hpp"
#include "report/json/json.hpp"
#include "report/tables/every.hpp"
#include "report/tables/tables.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Dossier& dossier() {
  static const Dossier demo = [] {
    Dossier made{judge(demo_layout())};
    made.setting_out = setting_out(made.judged.rig);
    return made;
  }();
  return demo;
}
const std::string& record() {
  static const std::string json = json::write(dossier());
  return json;
}

/// Every number of the record as it is written there.
const std::set<std::string>& written_numbers() {
  static const std::set<std::string> numbers = [] {
    std::set<std::string> all;
    static const std::regex number(R"(-?\d[-+.0-9e]*)");
    const std::string& json = record();
    for (std::sregex_iterator n(json.begin(), json.end(), number), end; n != end; ++n) all.insert(n->str());
    return all;
  }();
  return numbers;
}

/// The numbers of a table's fields, those that stand for quantities alone.
std::vector<std::string> numbers_of(const Table& table) {
  std::vector<std::string> numbers;
  Table bare = table;
  for (auto& row : bare.rows)
    for (Cell& cell : row)
      if (!std::holds_alternative<Quantity>(cell)) cell = Cell{std::string("word")};
  const std::string csv = formats::csv(bare);
  static const std::regex field(R"((?:^|,|\n)(-?\d[-+.0-9e]*)(?=,|\r))");
  const std::string rows = csv.substr(csv.find('\n'));
  for (std::sregex_iterator n(rows.begin(), rows.end(), field), end; n != end; ++n) numbers.push_back((*n)[1]);
  return numbers;
}

TEST(SameNumbersCsv, WhatTheSolversFoundStandsInBothDigitForDigit) {
  const Style style;
  for (const Table& table :
       {tables::anchor_loads(dossier(), style), tables::main_line_bare(dossier()), tables::strength(dossier()),
        tables::lines(dossier()), tables::rest_positions(dossier()), tables::set_out_points(dossier(), style),
        tables::clearances(dossier(), style), tables::stringing(dossier())}) {
    const auto numbers = numbers_of(table);
    EXPECT_GE(numbers.size(), 3u) << table.title;
    for (const std::string& number : numbers)
      EXPECT_TRUE(written_numbers().contains(number)) << table.title << ": " << number;
  }
}

// Each anchor's row by its place in the record, not only somewhere in it.
TEST(SameNumbersCsv, AnAnchorsLoadIsTheRecordsOwn) {
  const auto json = nlohmann::json::parse(record());
  const std::string csv = formats::csv(tables::anchor_loads(dossier(), {}));
  for (std::size_t i = 0; i < json["loads"]["demands"].size(); ++i) {
    const auto& demand = json["loads"]["demands"][i];
    const std::string id = demand["anchor"];
    const std::size_t at = csv.find("\n" + id + ",") + 1;
    const auto& on = json["loads"]["cases"][demand["case"].get<std::size_t>()]["on_anchor_N"][i];
    double read[4]{};
    ASSERT_EQ(std::sscanf(csv.c_str() + at + id.size(), ",%lf,%lf,%lf,%lf", &read[0], &read[1], &read[2], &read[3]), 4);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(read[k], on[k].get<double>()) << id;
    EXPECT_EQ(read[3], demand["force_N"].get<double>()) << id;
  }
}

TEST(SameNumbersCsv, EveryTableThereIsGetsItsFile) {
  std::ifstream header(FAIRLEAD_SOURCE_DIR "/report/tables/tables.hpp"),
      list(FAIRLEAD_SOURCE_DIR "/report/tables/every.cpp");
  const std::string text{std::istreambuf_iterator<char>(header), {}}, listed{std::istreambuf_iterator<char>(list), {}};
  const std::regex declared(R"(\nTable (\w+)\(const (?:Dossier|Rig)&)");
  int found = 0;
  for (std::sregex_iterator t(text.begin(), text.end(), declared), end; t != end; ++t, ++found)
    if ((*t)[1] != "windows") {  // which together would be read as tolerances
      EXPECT_NE(listed.find((*t)[1].str() + "("), std::string::npos) << (*t)[1];
    }
  EXPECT_GT(found, 40);
}

TEST(SameNumbersCsv, EveryFileIsNamedOnceAndListedWithItsNotes) {
  const auto files = formats::csv_files(dossier(), {});
  std::set<std::string> names;
  for (const formats::File& file : files) EXPECT_TRUE(names.insert(file.name).second) << file.name;
  ASSERT_EQ(files.front().name, "tables.csv");
  std::size_t filled = 0;
  for (const Table& table : tables::every(dossier(), {})) {
    filled += !table.rows.empty();
    for (const std::string& note : table.notes)
      EXPECT_NE(files.front().bytes.find(note.substr(0, note.find('"'))), std::string::npos) << note;
  }
  EXPECT_EQ(files.size(), filled + 1);
}

}  // namespace
}  // namespace fairlead
