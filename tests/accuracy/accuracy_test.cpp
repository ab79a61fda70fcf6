#include "tests/accuracy/accuracy.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

namespace fairlead::accuracy {

// gtest prints a parameter by this name.
void PrintTo(const Row& row, std::ostream* out) {
  *out << row.part << ": " << row.quantity << " (" << row.source << ")";
}

namespace {

class KnownAnswer : public testing::TestWithParam<Row> {};

TEST_P(KnownAnswer, IsMet) {
  const Row& row = GetParam();
  EXPECT_TRUE(met(row)) << row.quantity << " is " << row.expected << ' ' << row.unit << " (" << row.source << "), ours "
                        << testing::PrintToString(row.ours) << ", off by " << row.ours - expected_value(row)
                        << ", allowed " << tolerance(row);
}

std::string test_name(const testing::TestParamInfo<Row>& info) {
  std::string name = info.param.part + "_" + info.param.quantity;
  std::replace_if(
      name.begin(), name.end(), [](unsigned char c) { return !std::isalnum(c); }, '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Table, KnownAnswer, testing::ValuesIn(all_rows()), test_name);

std::vector<std::string> lines_of(std::istream& text) {
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) lines.push_back(line);
  return lines;
}

TEST(AccuracyTable, IsTheOneInTheTree) {
  std::ifstream file(FAIRLEAD_SOURCE_DIR "/tests/ACCURACY.md");
  std::istringstream now(document(all_rows()));
  const std::vector<std::string> stored = lines_of(file), ours = lines_of(now);
  for (std::size_t i = 0; i < std::min(stored.size(), ours.size()); ++i)
    EXPECT_EQ(stored[i], ours[i]) << "line " << i + 1 << " of tests/ACCURACY.md; `accuracy_table` writes it anew";
  EXPECT_EQ(stored.size(), ours.size());
}

Row row_of(std::string expected, double ours) { return {"", "", "", std::move(expected), "", ours}; }

TEST(AccuracyRow, AllowsHalfOfTheLastPrintedDigitAndNoMore) {
  EXPECT_DOUBLE_EQ(tolerance(row_of("6.352", 0)), 0.0005);
  EXPECT_DOUBLE_EQ(tolerance(row_of("38", 0)), 0.5);
  EXPECT_TRUE(met(row_of("6.352", 6.3525)));
  EXPECT_FALSE(met(row_of("6.352", 6.35251)));
  EXPECT_TRUE(met(row_of("-0.14", -0.1353)));
  EXPECT_FALSE(met(row_of("-0.14", 0.1353)));
}

TEST(AccuracyRow, ShowsNoErrorThatIsOnlyRounding) {
  EXPECT_NE(document({row_of("2.00", 2 + 4e-16)}).find("| 2.0000 | 0 |"), std::string::npos);
  EXPECT_NE(document({row_of("2.00", 2.0041)}).find("| 2.0041 | 4.1e-03 |"), std::string::npos);
}

TEST(AccuracyRow, AnUnsolvedCaseIsNeverMet) { EXPECT_FALSE(met(row_of("0", std::nan("")))); }

}  // namespace
}  // namespace fairlead::accuracy
