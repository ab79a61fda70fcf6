#include "tests/accuracy/accuracy.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

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

Row row_of(std::string expected, double ours) { return {"", "", "", std::move(expected), "", ours}; }

TEST(AccuracyRow, AllowsHalfOfTheLastPrintedDigitAndNoMore) {
  EXPECT_DOUBLE_EQ(tolerance(row_of("6.352", 0)), 0.0005);
  EXPECT_DOUBLE_EQ(tolerance(row_of("38", 0)), 0.5);
  EXPECT_TRUE(met(row_of("6.352", 6.3525)));
  EXPECT_FALSE(met(row_of("6.352", 6.35251)));
  EXPECT_TRUE(met(row_of("-0.14", -0.1353)));
  EXPECT_FALSE(met(row_of("-0.14", 0.1353)));
}

TEST(AccuracyRow, AnUnsolvedCaseIsNeverMet) { EXPECT_FALSE(met(row_of("0", std::nan("")))); }

}  // namespace
}  // namespace fairlead::accuracy
