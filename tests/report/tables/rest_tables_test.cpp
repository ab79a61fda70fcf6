// Rest positions, resting legs and stretch, as they are printed.
#include <gtest/gtest.h>

#include <algorithm>

#include "report/tables/tables.hpp"
#include "tests/checks/rest_unsolved.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};

Dossier solved(const std::vector<Override>& overrides = {}) {
  return Dossier{Judged{solve(demo_layout(overrides)), {}}};
}
double number(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }

TEST(RestTable, HasARowAStateAndTheMeasuredOneStandsAtItsMark) {
  const Dossier dossier = solved();
  const Table table = tables::rest_positions(dossier);
  ASSERT_EQ(table.rows.size(), 3u);
  EXPECT_EQ(words(table.rows[0][0]), "as measured, line at rest");
  EXPECT_EQ(words(table.rows[1][0]), "cold, line at rest");
  EXPECT_EQ(words(table.rows[2][0]), "warm, line at rest");
  EXPECT_NEAR(number(table.rows[0][1]), dossier.judged.rig.layout.brake_unit.rest_extension_m, 1e-10);
  EXPECT_NEAR(number(table.rows[0][4]), 0, 1e-9);
  EXPECT_GT(number(table.rows[1][4]), 0) << "cold";
  EXPECT_LT(number(table.rows[2][4]), 0) << "warm";
  EXPECT_EQ(table.notes.back(), "No friction is given: what there is leaves the trolley somewhat to either side.");
}

TEST(RestTable, WithFrictionHasBothEndsOfEveryState) {
  const Table table = tables::rest_positions(solved({{"sheave.R1.friction", "1.05"}}));
  ASSERT_EQ(table.rows.size(), 6u);
  EXPECT_EQ(words(table.rows[0][0]), "as measured, line returning or at rest");
  EXPECT_EQ(words(table.rows[1][0]), "as measured, line at rest, about to be paid out");
  EXPECT_LT(number(table.rows[0][3]), number(table.rows[1][3]));
  EXPECT_EQ(table.notes.back(), "Friction leaves it anywhere between the two rows of one state.");
}

TEST(RestTable, WhatHasNoRestPlaceSaysSoAndShowsNoNumber) {
  const Table table = tables::rest_positions(Dossier{Judged{without_a_cold_rest_place(), {}}});
  ASSERT_EQ(table.rows.size(), 3u);
  EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows[1][4]));
  EXPECT_EQ(table.notes[1], "Undetermined, cold, line at rest: near its mark the trolley stands nowhere.");
  const Table unsolved = tables::rest_positions(solved({{"line.L1.route", "[]"}}));
  EXPECT_TRUE(unsolved.rows.empty());
  EXPECT_EQ(unsolved.notes, std::vector<std::string>{"Undetermined: line \"L1\" runs over no sheave"});
}

TEST(LegsTable, EveryLegIsTwoEndsAndItsDeepestPose) {
  const Dossier dossier = solved({{"site.wind_across", "'15 m/s'"}});
  const Table table = tables::legs(dossier, si);
  const auto& legs = dossier.judged.rig.reeving.solved()->resting_legs;
  ASSERT_EQ(table.rows.size(), legs.size());
  EXPECT_EQ(words(table.rows[0][1]), "brake trolley");
  EXPECT_EQ(words(table.rows[0][2]), "R1");
  EXPECT_EQ(words(table.rows[1][1]), "R1");
  EXPECT_EQ(words(table.rows[1][2]), "brake unit");
  for (std::size_t i = 0; i < legs.size(); ++i) {
    EXPECT_EQ(number(table.rows[i][5]), legs[i].sag_m);
    EXPECT_LE(number(table.rows[i][6]), number(table.rows[i][5]));
    EXPECT_GT(number(table.rows[i][8]), 0);
    for (const std::size_t column : {7u, 9u}) {
      const std::string case_of = "Case " + words(table.rows[i][column]) + ": ";
      const auto note = std::find_if(table.notes.begin(), table.notes.end(),
                                     [&](const std::string& n) { return n.starts_with(case_of); });
      ASSERT_NE(note, table.notes.end()) << case_of;
      EXPECT_NE(note->find("travel"), std::string::npos);
      EXPECT_EQ(note->find("wind") != std::string::npos, column == 9);
    }
  }
  Layout layout = demo_layout();
  layout.site.wind_across_m_per_s.reset();
  const Table calm = tables::legs(Dossier{Judged{solve(layout), {}}}, si);
  ASSERT_EQ(calm.rows.size(), legs.size());
  EXPECT_TRUE(std::holds_alternative<std::monostate>(calm.rows[0][8]));
  EXPECT_EQ(calm.notes[1], "No side wind is given: none is blown out.");
}

TEST(StretchTable, IsPrintedOnlyWhereAStiffnessIsGivenAndSaysSoOnce) {
  const Table without = tables::stretch(solved(), si);
  EXPECT_TRUE(without.rows.empty());
  EXPECT_EQ(without.notes, std::vector<std::string>{"No stiffness is given, and no stretch counted, of: L1."});
  const Dossier dossier = solved({{"line.L1.ea", "'100 kN'"}});
  const Table table = tables::stretch(dossier, si);
  ASSERT_EQ(table.rows.size(), 1u);
  const Item line{Item::Kind::line, 0};
  const double length_m = *tables::finished_length_m(dossier.judged.rig, line),
               tension_N = *tables::rest_tension_N(dossier.judged.rig, line);
  // T L / EA; along the line the tension differs by its weight over its height, 1 m at 1.2 N/m of some 60 N.
  EXPECT_NEAR(number(table.rows[0][2]), tension_N * length_m / 100e3, 0.05 * tension_N * length_m / 100e3);
  EXPECT_GT(number(table.rows[0][3]), number(table.rows[0][2])) << "the unit pulls many times as hard as at rest";
  EXPECT_EQ(table.notes.size(), 1u);
}

}  // namespace
}  // namespace fairlead
