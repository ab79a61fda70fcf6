#include "report/tables/table.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace fairlead {
namespace {

const Style si{Units::si}, both{Units::both}, us{Units::us};
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

tables::Shown column(std::vector<Cell> cells, const Style& style) {
  Table table{"T", {"load"}, {}, {}};
  for (Cell& cell : cells) table.rows.push_back({std::move(cell)});
  return tables::shown(table, style);
}
std::vector<std::string> cells_of(const tables::Shown& shown) {
  std::vector<std::string> cells;
  for (const auto& row : shown.rows) cells.push_back(row[0]);
  return cells;
}
Cell force(double N) { return Quantity{N, Dimension::force}; }
Cell length(double m) { return Quantity{m, Dimension::length}; }
using Cells = std::vector<std::string>;

TEST(Table, NumbersOfOneColumnShareTheUnitOfTheGreatest) {
  const auto shown = column({force(18234), force(-120), force(0)}, si);
  EXPECT_EQ(shown.headings[0], "load, kN");
  EXPECT_EQ(cells_of(shown), (Cells{"18.23", "-0.12", "0.00"}));
  EXPECT_EQ(column({force(320), force(4)}, si).headings[0], "load, N");
}

TEST(Table, ForcesStandInBothSystemsAndLengthsInOne) {
  const auto shown = column({force(18000), force(2000)}, both);
  EXPECT_EQ(shown.headings[0], "load, kN (lbf)");
  EXPECT_EQ(cells_of(shown), (Cells{"18.00 (4047)", "2.00 (450)"}));
  EXPECT_EQ(column({length(12.3456)}, both).headings[0], "load, m");
  EXPECT_EQ(cells_of(column({length(12.3456), length(0.02)}, both)), (Cells{"12.346", "0.020"}));
  EXPECT_EQ(column({force(18000)}, us).headings[0], "load, lbf");
}

TEST(Table, FeetAndInchesCarryTheirOwnMarks) {
  const auto shown = column({length(0.3048 * 12.5), length(-0.3048)}, us);
  EXPECT_EQ(shown.headings[0], "load");
  EXPECT_EQ(cells_of(shown), (Cells{"12'-6\"", "-1'-0\""}));
}

// 1 ft is 0.3048 m exactly (source YP59); 3.81 m are 12.5 ft, 12 feet 6 inches.
TEST(Table, DecimalFeetAreNamedInTheHeadingAndNeverLookLikeFeetAndInches) {
  const auto shown = column({length(3.81), length(-0.3048), length(0.03048)}, {Units::us, true});
  EXPECT_EQ(shown.headings[0], "load, ft (tenths)");
  EXPECT_EQ(cells_of(shown), (Cells{"12.50", "-1.00", "0.10"}));
  EXPECT_EQ(column({length(0.0254)}, {Units::us, true}).headings[0], column({length(0.0254)}, us).headings[0]);
}

TEST(Table, BesideFeetAndInchesNothingStandsInInchesAlone) {
  const auto shown = column({length(0.3048 * 12.5), length(0.03175), length(-0.0254), length(0)}, us);
  EXPECT_EQ(cells_of(shown), (Cells{"12'-6\"", "0'-1 1/4\"", "-0'-1\"", "0'-0\""}));
  const auto inches = column({length(0.0665), length(0.0079375), length(0)}, us);
  EXPECT_EQ(inches.headings[0], "load, in");
  EXPECT_EQ(cells_of(inches), (Cells{"2 5/8", "5/16", "0"}));
}

TEST(Table, ASmallForceBesideAGreatOneIsReadToMoreThanItsFirstDigit) {
  EXPECT_EQ(cells_of(column({force(5413), force(51.3)}, si)), (Cells{"5.413", "0.051"}));
  EXPECT_EQ(cells_of(column({force(5413), force(153)}, si)), (Cells{"5.41", "0.15"}));
}

TEST(Table, ComparedColumnsHaveTheUnitOfTheGreatestOfThemAll) {
  const Table table{"T",
                    {"along", "across", "up"},
                    {{force(21620), force(9.2), force(-516)}, {force(20390), force(0), force(-12)}},
                    {},
                    {{0, 1, 2}}};
  const auto shown = tables::shown(table, si);
  EXPECT_EQ(shown.headings, (Cells{"along, kN", "across, kN", "up, kN"}));
  EXPECT_EQ(shown.rows[0], (Cells{"21.62", "0.01", "-0.52"}));
  EXPECT_EQ(shown.rows[1], (Cells{"20.39", "0.00", "-0.01"}));
}

TEST(Table, WhereRowsTellOfDifferentThingsEveryRowHasItsUnit) {
  const Table table{"T",
                    {"value", "limit"},
                    {{length(-0.0037), length(0.3)}, {force(12), force(1200)}, {length(0.02), Cell{}}},
                    {},
                    {{0, 1}}};
  const auto shown = tables::shown(table, si);
  EXPECT_EQ(shown.headings, (Cells{"value", "limit"}));
  EXPECT_EQ(shown.rows[0], (Cells{"-0.004 m", "0.300 m"}));
  EXPECT_EQ(shown.rows[1], (Cells{"0.01 kN", "1.20 kN"}));
  EXPECT_EQ(shown.rows[2], (Cells{"20.0 mm", ""}));
}

TEST(Table, WhatIsNotKnownSaysSoAndChoosesNoUnit) {
  const auto shown =
      column({force(nan), force(12), Cell{}, std::string("none"), force(std::numeric_limits<double>::infinity())}, si);
  EXPECT_EQ(shown.headings[0], "load, N");
  EXPECT_EQ(cells_of(shown), (Cells{"unknown", "12.0", "", "none", "infinite"}));
  EXPECT_EQ(column({force(nan)}, si).headings[0], "load");
}

TEST(Table, NumbersOfTwoKindsKeepTheirUnits) {
  const auto shown = column({force(1200), length(3)}, si);
  EXPECT_EQ(shown.headings[0], "load");
  EXPECT_EQ(cells_of(shown), (Cells{"1.20 kN", "3.000 m"}));
}

TEST(Table, TemperaturesKeepTheirZero) {
  EXPECT_EQ(cells_of(column({Quantity{258.15, Dimension::temperature}}, si)), Cells{"-15.0"});
  EXPECT_EQ(cells_of(column({Quantity{258.15, Dimension::temperature}}, us)), Cells{"5.0"});
}

TEST(Table, OnlyColumnsOfNumbersAreSetFlushRight) {
  EXPECT_TRUE(column({force(1), std::string("none")}, si).numeric[0]);
  EXPECT_FALSE(column({std::string("A"), Cell{}}, si).numeric[0]);
}

// A number printed in a column lies within half its last digit of the number meant, whatever else stands there.
TEST(Table, WhatIsShownIsTheNumberToHalfItsLastDigit) {
  for (const double greatest : {0.5, 3.0, 75.0, 990.0, 1010.0, 25e3, 4e5})
    for (const double share : {1.0, -0.37, 0.0123}) {
      const auto shown = column({force(greatest), force(share * greatest)}, si);
      const bool kilo = shown.headings[0] == "load, kN";
      const std::string& text = shown.rows[1][0];
      const std::size_t point = text.find('.');
      const double last = std::pow(10.0, point == std::string::npos ? 0 : -double(text.size() - point - 1));
      EXPECT_NEAR(std::stod(text), share * greatest / (kilo ? 1000 : 1), 0.5 * last * (1 + 1e-9)) << shown.headings[0];
    }
}

}  // namespace
}  // namespace fairlead
