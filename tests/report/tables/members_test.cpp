// The tables of legs, guys and poles.
#include <gtest/gtest.h>

#include <algorithm>

#include "report/tables/tables.hpp"
#include "tests/checks/built_up.hpp"

namespace fairlead {
namespace {

const Style si{.units = Units::si};

const Dossier& guyed() {
  static const Dossier dossier{judge(built_up(guyed_pole("wll = \"2 t\"\n", "may_be_lost = true\n")))};
  return dossier;
}

double quantity(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }

TEST(MembersTable, ARowIsWhatOneMemberCarriesAndInWhichCase) {
  const Table table = tables::members(guyed(), si);
  const loads::Loads& loads = *guyed().judged.rig.loads.solved();
  ASSERT_EQ(table.rows.size(), 5u);
  EXPECT_EQ(words(table.rows[0][1]), "pole");
  EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows[0][3])) << "never pulled";
  EXPECT_EQ(quantity(table.rows[0][5]), loads.members[0].compression_N.value);
  EXPECT_EQ(quantity(table.rows[0][8]), loads.members[0].compression_N.value / 40e3);
  for (std::size_t m = 1; m < 5; ++m) {
    EXPECT_EQ(words(table.rows[m][2]), "A3");
    EXPECT_EQ(quantity(table.rows[m][3]), loads.members[m].tension_N.value);
    const std::string note = "Case " + words(table.rows[m][4]) + ": ";
    EXPECT_TRUE(
        std::any_of(table.notes.begin(), table.notes.end(), [&](const auto& n) { return n.starts_with(note); }));
    EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows[m][5])) << "a guy is not pushed";
  }
  EXPECT_TRUE(tables::members(Dossier{judge(layout_of("heron_gully"))}, si).rows.empty());
}

TEST(MembersTable, WithOneLostEveryOtherOfItsAnchorHasARow) {
  const Dossier dossier{judge(built_up(bridle("wll = \"2 t\"\nmay_be_lost = true\n")))};
  const Table table = tables::members_lost(dossier, si);
  const loads::Loads& loads = *dossier.judged.rig.loads.solved();
  ASSERT_EQ(table.rows.size(), 2u);
  for (std::size_t r = 0; r < 2; ++r) {
    EXPECT_NE(words(table.rows[r][0]), words(table.rows[r][1]));
    EXPECT_EQ(quantity(table.rows[r][2]), loads.lost[r].others[1 - r].tension_N.value);
    // 2 t as a working load: 2000 kg of standard gravity.
    EXPECT_NEAR(quantity(table.rows[r][6]), loads.lost[r].others[1 - r].tension_N.value / (2000 * 9.80665), 1e-12);
  }
}

TEST(MembersTable, WhereTheRestDoNotHoldItSaysSo) {
  const std::string sling = member("B1L", "leg", "[1345.8, 911.85, 332.2]", "may_be_lost = true\n");
  const Table table = tables::members_lost(Dossier{judge(built_up(sling))}, si);
  EXPECT_TRUE(table.rows.empty());
  ASSERT_EQ(table.notes.size(), 2u);
  EXPECT_EQ(table.notes[0], "Without B1L the rest do not hold: nothing holds it (case A).");
}

}  // namespace
}  // namespace fairlead
