// The record of how lines end and what is left of their strength.
#include <gtest/gtest.h>

#include <fstream>

#include "report/json/json.hpp"
#include "report/tables/tables.hpp"
#include "tests/checks/findings.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

/// Sable Weir: clips on the main line, fibre with a figure for its sheaves; here without one, and one end left open.
const Dossier& sable_weir() {
  static const Dossier dossier = [] {
    Layout layout = layout_of("sable_weir");
    layout.lines[0].sheave_strength.reset();
    layout.lines[1].to_end.reset();
    return Dossier{Judged{solve(std::move(layout)), {}}};
  }();
  return dossier;
}

TEST(JsonStrengthLeft, HoldsEveryLineItsEndsAndItsTightestSheave) {
  const Json record = Json::parse(json::write(sable_weir()));
  const Json& left = record["strength_left"];
  ASSERT_EQ(left.size(), 4u) << "main line, support line, two lines";
  EXPECT_EQ(left[0]["kind"], "main line");
  EXPECT_EQ(left[0]["from_end"]["kind"], "clips");
  EXPECT_EQ(left[0]["from_end"]["efficiency"], 0.8);
  EXPECT_EQ(left[0]["from_end"]["published"], true);
  EXPECT_EQ(left[0]["from_end"]["clips"], 4);
  EXPECT_EQ(left[0]["from_end"]["turnback_m"], 0.46);
  EXPECT_EQ(left[0]["from_end"]["torque_N_m"], 180);
  EXPECT_TRUE(left[0]["tightest_sheave"].is_null());
  EXPECT_EQ(left[1]["id"], "S1");
  EXPECT_EQ(left[2]["id"], "L1");
  EXPECT_EQ(left[2]["from_end"]["published"], false);
  EXPECT_EQ(left[2]["from_end"]["efficiency"], 0.9);
  EXPECT_TRUE(left[2]["from_end"]["clips"].is_null());
  EXPECT_EQ(left[2]["tightest_sheave"], "R1");
  EXPECT_EQ(left[2]["sheave_ratio"], 19);
  EXPECT_TRUE(left[2]["held_over_sheave"].is_null()) << "fibre, and no figure";
  EXPECT_TRUE(left[3]["to_end"].is_null());
  const SchemaCheck schema{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/schema.json"))};
  for (const std::string& fault : schema.faults(record)) ADD_FAILURE() << fault;
}

std::vector<std::string> row(const Table& table, std::size_t index) {
  std::vector<std::string> words;
  for (const Cell& cell : table.rows.at(index)) {
    if (const auto* quantity = std::get_if<Quantity>(&cell))
      words.push_back(print_quantity(*quantity));
    else
      words.push_back(std::holds_alternative<std::string>(cell) ? std::get<std::string>(cell) : "");
  }
  return words;
}

TEST(LineStrengthTable, SaysWhatIsLeftAndLeavesEmptyWhatNobodyGave) {
  using Words = std::vector<std::string>;
  const Table table = tables::line_strength(sable_weir());
  ASSERT_EQ(table.rows.size(), 4u);
  EXPECT_EQ(row(table, 0), (Words{"main line", "4 clips", "0.800", "4 clips", "0.800", "", "", ""}));
  EXPECT_EQ(row(table, 1), (Words{"support line S1", "swaged", "0.950", "swaged", "0.950", "", "", ""}));
  EXPECT_EQ(row(table, 2), (Words{"line L1", "eye splice", "0.900", "eye splice", "0.900", "R1", "19.0", ""}));
  EXPECT_EQ(row(table, 3), (Words{"line L2", "eye splice", "0.900", "not given", "", "", "", ""}));
}

}  // namespace
}  // namespace fairlead
