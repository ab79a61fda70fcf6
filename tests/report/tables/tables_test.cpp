#include "report/tables/tables.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};
const Item l1{Item::Kind::line, 0};

const Dossier& demo() {
  static const Dossier dossier{judge(demo_layout())};
  return dossier;
}
const Dossier& unsolved() {
  static const Dossier dossier{judge(demo_layout({{"line.L1.route", "[]"}}))};
  return dossier;
}

double number(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }
const std::vector<Cell>& row_of(const Table& table, const std::string& first, std::size_t column = 0) {
  return *std::find_if(table.rows.begin(), table.rows.end(),
                       [&](const auto& row) { return words(row[column]) == first; });
}

std::vector<Table> all(const Dossier& d) {
  return {tables::findings(d, si),
          tables::judged(d),
          tables::set_out_points(d, si),
          tables::check_places(d),
          tables::main_line_bare(d),
          tables::main_line_loaded(d),
          tables::anchor_loads(d),
          tables::load_cases(d),
          tables::loads_by_case(d),
          tables::members(d, si),
          tables::members_lost(d, si),
          tables::strength(d),
          tables::lines(d),
          tables::line_lengths(d),
          tables::line_strength(d),
          tables::line_tensions(d, si),
          tables::stretch(d, si),
          tables::rest_positions(d),
          tables::legs(d, si),
          tables::sheaves(d, si),
          tables::sheave_axles(d),
          tables::contact_points(d, tables::Position::rest, si),
          tables::contact_points(d, tables::Position::full_travel, si),
          tables::blocks(d, si),
          tables::reduction(d, si),
          tables::support_lines(d),
          tables::clearances(d, si),
          tables::named_instants(d, si),
          tables::exclusions(d, si),
          tables::limits(d),
          tables::given(d, si),
          tables::assumptions(d)};
}

TEST(Tables, EveryRowHasACellForEveryHeading) {
  const auto spoiled = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_spoiled.toml");
  ASSERT_TRUE(spoiled.has_value());
  const Dossier others[] = {Dossier{judge(*spoiled)},
                            Dossier{judge(demo_layout({{"main_line.tension", "['17 kN', '18 kN']"}}))}};
  for (const Dossier* dossier : {&demo(), &unsolved(), &others[0], &others[1]})
    for (const Table& table : all(*dossier))
      for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.headings.size()) << table.title;
}

TEST(Tables, WhatIsNotSolvedSaysWhyAndShowsNoNumber) {
  const Table loads = tables::anchor_loads(unsolved());
  EXPECT_TRUE(loads.rows.empty());
  EXPECT_EQ(loads.notes,
            std::vector<std::string>{"Undetermined: the reeving is not solved: line \"L1\" runs over no sheave"});
  const Table lines = tables::line_lengths(unsolved());
  EXPECT_TRUE(std::holds_alternative<std::monostate>(row_of(lines, "L1")[1])) << "no hanging length";
  EXPECT_EQ(lines.notes.back(), "Lengths undetermined: line \"L1\" runs over no sheave");
}

TEST(Findings, AreToldWorstFirstAndElseInTheirOrder) {
  std::vector<Finding> findings(6);
  const Verdict verdicts[] = {Verdict::pass,         Verdict::not_judged, Verdict::fail,
                              Verdict::undetermined, Verdict::fail,       Verdict::fail};
  for (std::size_t i = 0; i < 6; ++i) findings[i].verdict = verdicts[i];
  findings[2].waiver = 0;
  EXPECT_EQ(tables::worst_first(findings), (std::vector<std::size_t>{4, 5, 3, 1, 2, 0}));
}

TEST(AnchorLoads, ARowIsOneCaseAndItsSizeIsThatOfItsComponents) {
  const Table table = tables::anchor_loads(demo());
  ASSERT_EQ(table.rows.size(), 4u);
  for (const auto& row : table.rows) {
    const double size_N = norm({number(row[1]), number(row[2]), number(row[3])});
    EXPECT_NEAR(size_N, number(row[4]), 1e-9 * size_N) << words(row[0]);
    EXPECT_NEAR(number(row[4]) / number(row[5]), number(row[6]), 1e-12) << "utilisation is load over capacity";
    const std::string note = "Case " + words(row[7]) + ": ";
    EXPECT_TRUE(
        std::any_of(table.notes.begin(), table.notes.end(), [&](const auto& n) { return n.starts_with(note); }));
  }
  EXPECT_EQ(number(row_of(table, "A3")[5]), 60e3 / 5) << "mbs over the design factor";
  EXPECT_EQ(number(row_of(table, "P1")[5]), 45e3) << "a wll takes no factor";
}

TEST(AnchorLoads, WithoutAFactorABreakingStrengthIsNoCapacity) {
  Layout layout = demo_layout();
  layout.limits.design_factor.reset();
  const Table table = tables::anchor_loads(Dossier{judge(layout)});
  EXPECT_TRUE(std::holds_alternative<std::monostate>(row_of(table, "A3")[5]));
  EXPECT_TRUE(std::holds_alternative<std::monostate>(row_of(table, "A3")[6]));
  EXPECT_NE(std::find(table.notes.begin(), table.notes.end(), "No capacity of A3: its mbs needs a design factor."),
            table.notes.end());
}

TEST(MainLine, ColderIsShorterAndTighterAndHangsHigher) {
  const Table bare = tables::main_line_bare(demo());
  const auto &cold = row_of(bare, "cold"), &warm = row_of(bare, "warm"), &measured = row_of(bare, "as measured");
  EXPECT_EQ(number(cold[1]), 273.15 - 15);
  EXPECT_LT(number(cold[2]), number(measured[2]));
  EXPECT_GT(number(cold[3]), number(warm[3]));
  EXPECT_LT(number(cold[6]), number(warm[6]));
  EXPECT_NEAR(number(measured[5]), 18e3, 1e-3) << "the tension that was measured at the landing";
}

TEST(MainLine, AHeavierLoadHangsLowerAndPullsHarder) {
  const Table loaded = tables::main_line_loaded(demo());
  ASSERT_EQ(loaded.rows.size(), 6u);
  for (std::size_t first : {0u, 3u})
    for (std::size_t i = first; i < first + 2; ++i) {
      EXPECT_GT(number(loaded.rows[i + 1][2]), number(loaded.rows[i][2])) << "greatest H";
      EXPECT_LT(number(loaded.rows[i + 1][3]), number(loaded.rows[i][3])) << "height at the rest mark";
      EXPECT_NEAR(number(loaded.rows[i][5]), -number(loaded.rows[i][1]) * std::tan(number(loaded.rows[i][4])), 1e-3)
          << "drive = -weight tan tau, as far as both are interpolated between the same knots";
    }
}

TEST(Lines, AreCutToUnloadedLengthAndTails) {
  const Table schedule = tables::lines(demo()), lengths = tables::line_lengths(demo());
  const auto& line = row_of(lengths, "L1");
  EXPECT_NEAR(number(line[5]), number(line[3]) + 1.2, 1e-12);
  EXPECT_EQ(words(row_of(schedule, "L1")[5]), "brake trolley, R1, brake unit");
  EXPECT_FALSE(tables::cut_length_m(demo().judged.rig, l1) == std::nullopt);
  Layout layout = demo_layout();
  layout.lines[0].tails_m.reset();
  EXPECT_EQ(tables::cut_length_m(judge(layout).rig, l1), std::nullopt) << "unknown tails give no length to cut to";
}

TEST(Sheaves, TellTheWorstFleetInStillAirAndWhereItWasSeenAndTheWorstOfTheWind) {
  const Dossier dossier{judge(demo_layout({{"sheave.R1.axle", "[0.62, -0.78, 0]"}}))};
  const Rig& rig = dossier.judged.rig;
  const Table table = tables::sheaves(dossier, si);
  const auto row = table.rows.at(0);
  double fleet_rad = 0, blown_rad = 0, wrap_rad = 10, fleet_travel_m = 0;
  for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps)
    for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
      const reeving::Turn& turn = sweep.turns[p];
      const double here_rad = std::max(std::abs(turn.on_fleet_rad), std::abs(turn.off_fleet_rad));
      if (sweep.in_wind)
        blown_rad = std::max(blown_rad, here_rad);
      else if (here_rad > fleet_rad)
        fleet_rad = here_rad, fleet_travel_m = sweep.poses[p].travel_m;
      wrap_rad = std::min(wrap_rad, turn.wrap_rad);
    }
  ASSERT_GT(fleet_rad, 0.01);
  EXPECT_EQ(number(row[6]), fleet_rad);
  EXPECT_EQ(number(row[5]), wrap_rad);
  EXPECT_NEAR(number(row[7]), fleet_travel_m, 0.5e-3);
  ASSERT_GT(blown_rad, fleet_rad);
  EXPECT_TRUE(table.notes.front().ends_with(
      fmt::format(" In the side wind up to {:.2f} deg.", blown_rad * 180 / 3.14159265358979323846)))
      << table.notes.front();
  EXPECT_EQ(words(tables::sheave_axles(dossier).rows.at(0)[3]), "clockwise");
}

TEST(Limits, AreAllThatTheLayoutGivesWithTheirBasisAndTheirPlace) {
  Layout layout = demo_layout();
  const std::string thickness = "plane thickness";
  const Table all = tables::limits(Dossier{judge(layout)});
  EXPECT_EQ(number(row_of(all, thickness, 1)[2]), layout.limits.plane_thickness_m->at.value);
  const auto& extension = row_of(all, "extension reserve", 1);
  EXPECT_EQ(number(extension[2]), 0.75);
  EXPECT_EQ(words(extension[3]), "owner's rule");
  EXPECT_NE(words(extension[5]).find("heron_gully.toml:"), std::string::npos);
  layout.limits.plane_thickness_m.reset();
  const Table fewer = tables::limits(Dossier{judge(layout)});
  EXPECT_EQ(fewer.rows.size() + 1, all.rows.size());
}

TEST(LineLengths, SayOfWhichLinesNoStretchIsGiven) {
  const auto notes = [](std::optional<Real> ea_N) {
    Layout layout = demo_layout();
    layout.lines[0].ea_N = ea_N;
    return fmt::format("{}", fmt::join(tables::line_lengths(Dossier{judge(layout)}).notes, "\n"));
  };
  EXPECT_NE(notes({}).find("No stretch is given of L1: unloaded is as it hangs"), std::string::npos) << notes({});
  EXPECT_EQ(notes(Real{3e5, {}}).find("No stretch"), std::string::npos);
}

TEST(Given, IsWhatTheLayoutSaysOfTheUnitAndNoLimit) {
  const Dossier dossier{judge(demo_layout())};
  const Table table = tables::given(dossier, si);
  const Layout& layout = dossier.judged.rig.layout;
  EXPECT_EQ(words(row_of(table, "serial", 1)[2]), layout.brake_unit.serial->value);
  for (const auto& row : table.rows) EXPECT_NE(words(row[1]), "extension limit") << "stands with the limits";
}

TEST(Judged, IsEveryFindingAsNumbersTheWorstFirst) {
  const Dossier dossier{judge(demo_layout({{"limits.swing.at", "'10 deg'"}}))};
  const Table table = tables::judged(dossier);
  ASSERT_EQ(table.rows.size(), dossier.judged.findings.size());
  EXPECT_EQ(words(table.rows.front()[0]), "fail");
  const auto& row = row_of(table, "Fleet angle at every sheave", 1);
  const auto finding = std::find_if(dossier.judged.findings.begin(), dossier.judged.findings.end(),
                                    [](const Finding& f) { return f.check->title == "Fleet angle at every sheave"; });
  EXPECT_EQ(number(row[3]), finding->value);
  EXPECT_EQ(number(row[4]), finding->bound);
  EXPECT_EQ(number(row[5]), finding->limit->at.value);
  EXPECT_EQ(words(row[6]), finding->limit->basis);
}

TEST(Assumptions, HoldWhatTheReaderAndTheSolverTookForGranted) {
  Layout layout = demo_layout();
  layout.main_line.ea_N.reset();
  layout.main_line.construction = Given<RopeConstruction>{RopeConstruction::rope_6x19_iwrc, {}};
  const Table table = tables::assumptions(Dossier{judge(layout)});
  EXPECT_TRUE(std::any_of(table.rows.begin(), table.rows.end(), [](const auto& row) {
    return words(row[0]).find("estimated from construction 6x19 IWRC") != std::string::npos;
  }));
}

}  // namespace
}  // namespace fairlead
