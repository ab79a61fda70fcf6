// Schedules: what is to be bought, made and fitted.
#include <gtest/gtest.h>

#include "report/tables/tables.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

const Style si{.units = Units::si};

const Dossier& marten() {
  static const Dossier dossier{judge(layout_of("marten_ridge"))};
  return dossier;
}
const Dossier& larch() {
  static const Dossier dossier{judge(layout_of("larch_spur"))};
  return dossier;
}

double quantity(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }
bool empty(const Cell& cell) { return std::holds_alternative<std::monostate>(cell); }

TEST(Schedules, EveryRowHasACellForEveryHeading) {
  for (const Dossier* dossier : {&marten(), &larch()})
    for (const Table& table : {tables::lines(*dossier), tables::line_lengths(*dossier), tables::adjusters(*dossier, si),
                               tables::sheave_schedule(*dossier, si), tables::anchor_schedule(*dossier, si),
                               tables::member_schedule(*dossier, si), tables::connectors(*dossier, si)}) {
      for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.headings.size()) << table.title;
    }
}

TEST(Schedules, AnAdjustersPartsAddUpToItsRange) {
  const Table table = tables::adjusters(marten(), si);
  ASSERT_EQ(table.rows.size(), 2u);
  const auto& row = table.rows[0];
  const auto mm = [&](int column) { return std::stod(words(row[static_cast<std::size_t>(column)])); };
  // Each is printed to 0.1 mm: half of that for each number of a sum.
  EXPECT_NEAR(mm(5), mm(1) + mm(3) + mm(4), 4 * 0.05 + 1e-9);
  EXPECT_NEAR(mm(6), mm(2) + mm(4), 3 * 0.05 + 1e-9);
  EXPECT_NEAR(mm(7), 1000 * only(findings_of(adjuster_range, marten().judged.rig)).value, 0.05 + 1e-9);
  EXPECT_EQ(words(row[8]), "300.0 mm");
  EXPECT_TRUE(empty(table.rows[1][8])) << "the braking line has none";
  EXPECT_NE(std::find(table.notes.begin(), table.notes.end(), "L2: the brake unit takes up what it needs."),
            table.notes.end());
}

TEST(Schedules, ACutLineHangsAtItsTensionOnceItsTailsAreSpent) {
  const Table table = tables::line_lengths(marten());
  const auto& row = table.rows[0];  // L1: ea 0.35 MN, tails 1.2 m
  EXPECT_EQ(quantity(row[5]), quantity(row[3]) + 1.2);
  // Hooke, at the tension of one end: the line's own weight changes it by a few newtons along the way.
  const double stretch_m = quantity(row[1]) - quantity(row[3]);
  EXPECT_NEAR(stretch_m, quantity(row[2]) * quantity(row[1]) / 0.35e6, 0.05 * stretch_m);
}

TEST(Schedules, AnAnchorNamesAllThatHangsOnItAndWhatHoldsIt) {
  const Layout& layout = marten().judged.rig.layout;
  using Names = std::vector<std::string>;
  EXPECT_EQ(tables::hangs_on(layout, 0), Names{"main line"});
  EXPECT_EQ(tables::hangs_on(layout, 2), (Names{"sheave R1", "line L1"}));
  EXPECT_EQ(tables::hangs_on(layout, 3), Names{"support line S1"});
  EXPECT_EQ(tables::hangs_on(layout, 5), Names{"brake unit"});
  EXPECT_TRUE(tables::held_by(layout, 2).empty());
  const Table table = tables::anchor_schedule(larch(), si);
  for (const auto& row : table.rows)
    if (words(row[0]) == "A3") {
      EXPECT_EQ(words(row[4]), "sheave R1");
      EXPECT_EQ(words(row[5]), "S1, S2");
    } else if (words(row[0]) == "A6") {
      EXPECT_EQ(words(row[4]), "backup brake");
    }
}

TEST(Schedules, EveryAnchorThatCarriesSomethingHoldsSomething) {
  for (const Dossier* dossier : {&marten(), &larch()}) {
    const loads::Loads& loads = *dossier->judged.rig.loads.solved();
    for (std::size_t a = 0; a < loads.demands.size(); ++a)
      EXPECT_EQ(loads.demands[a].force_N.value > 0, !tables::hangs_on(dossier->judged.rig.layout, a).empty()) << a;
  }
}

TEST(Schedules, AMemberIsAsLongAsFromItsAnchorToWhereItIsFixed) {
  const Table table = tables::member_schedule(larch(), si);
  const Layout& layout = larch().judged.rig.layout;
  ASSERT_EQ(table.rows.size(), layout.members.size());
  for (const auto& row : table.rows)
    if (words(row[0]) == "M1") {
      EXPECT_NEAR(quantity(row[6]), 651.0 - 645.6, 1e-12) << "the pole stands plumb";
      EXPECT_EQ(words(row[1]), "pole");
    }
}

TEST(Schedules, AConnectorCarriesWhatItsCheckFound) {
  const Table table = tables::connectors(marten(), si);
  ASSERT_EQ(table.rows.size(), 2u);
  const Finding found = about(marten().judged.findings, {Item::Kind::connector, 0});
  EXPECT_EQ(quantity(table.rows[0][4]), number(found, "force"));
  EXPECT_EQ(quantity(table.rows[0][5]), found.value);
  EXPECT_EQ(words(table.rows[0][2]), "L1, brake trolley");
}

TEST(Schedules, ASheaveSaysHowItIsHungAndWhatRunsOverIt) {
  const Table table = tables::sheave_schedule(larch(), si);
  ASSERT_EQ(table.rows.size(), 1u);
  const auto& row = table.rows[0];
  EXPECT_EQ(words(row[2]).substr(0, 9), "free on a");
  EXPECT_EQ(words(row[3]), "L1");
  EXPECT_EQ(words(row[5]), "29.0") << "116 mm at the bottom of the groove over 4 mm";
  EXPECT_EQ(words(row[8]), "1.040") << "rolling bearing under steel";
}

}  // namespace
}  // namespace fairlead
