// The arrest as it is printed: every number of a table is its corner's own, and what is not known shows none.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "geometry/checks/list.hpp"
#include "report/tables/tables.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead {
namespace {

using arrest::Arrest;
using arrest::CornerResult;

const Style si{Units::si};

Rig rig_of(const std::vector<Override>& overrides = {}) {
  return solve(shipped_layout("heron_gully.toml", overrides), {}, {0.1, 5e-3}, {.threads = 2});
}
Dossier dossier_of(Rig rig) { return Dossier{Judged{std::move(rig), {}}}; }

const Dossier& demo() {
  static const Dossier dossier = dossier_of(rig_of());
  return dossier;
}
const Arrest& demo_arrest() { return *demo().judged.rig.arrest.solved(); }

/// The demo with its arrest changed by hand.
template <class Change>
Dossier changed(const Change& change) {
  Rig rig = demo().judged.rig;
  Arrest arrest = *rig.arrest.solved();
  change(arrest);
  rig.arrest.result = std::make_shared<const Solved<Arrest>>(std::move(arrest));
  return dossier_of(std::move(rig));
}

std::size_t column(const Table& table, const std::string& heading) {
  const auto found = std::find(table.headings.begin(), table.headings.end(), heading);
  EXPECT_NE(found, table.headings.end()) << heading;
  return static_cast<std::size_t>(found - table.headings.begin());
}
double number(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }
bool empty(const Cell& cell) { return std::holds_alternative<std::monostate>(cell); }

/// The table's row whose first cell says so.
const std::vector<Cell>& row(const Table& table, const std::string& first) {
  static const std::vector<Cell> none;
  for (const auto& row : table.rows)
    if (words(row.front()) == first) return row;
  ADD_FAILURE() << first;
  return none;
}

TEST(CornersTable, HasARowACornerWithThatCornersNumbers) {
  const Table table = tables::corners(demo(), si);
  const auto& corners = demo_arrest().corners;
  ASSERT_EQ(table.rows.size(), corners.size());
  ASSERT_EQ(corners.size(), 64u) << "riders, speeds, winds, rolling, brake, cold and warm: two of each";
  const double mark_m = demo().judged.rig.layout.brake_trolley.rest_m;
  int solved = 0, rested = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const CornerResult& corner = corners[i];
    const auto& cells = table.rows[i];
    ASSERT_EQ(cells.size(), table.headings.size());
    EXPECT_EQ(words(cells[0]), std::to_string(i + 1));
    EXPECT_EQ(words(cells[column(table, "rider")]), corner.corner.heaviest ? "heaviest" : "lightest");
    EXPECT_EQ(words(cells[column(table, "speed")]), corner.corner.fastest ? "fastest" : "slowest");
    EXPECT_EQ(words(cells[column(table, "wind")]), corner.corner.wind == arrest::Wind::head ? "head" : "tail");
    EXPECT_EQ(words(cells[column(table, "rolling")]), corner.corner.high_rolling ? "most" : "least");
    EXPECT_EQ(words(cells[column(table, "brake")]), corner.corner.strong_brake ? "strongest" : "weakest");
    if (!corner.motion) continue;
    ++solved;
    const arrest::Motion& motion = *corner.motion;
    EXPECT_EQ(number(cells[column(table, "arrives at")]), corner.arrival_speed_m_per_s);
    EXPECT_EQ(number(cells[column(table, "farthest travel")]), motion.stop_travel_m);
    EXPECT_EQ(number(cells[column(table, "after")]), motion.stop_time_s);
    EXPECT_EQ(number(cells[column(table, "extension")]), corner.greatest_extension_m().value);
    EXPECT_EQ(number(cells[column(table, "line speed")]), motion.line_speed_m_per_s.value);
    EXPECT_EQ(number(cells[column(table, "tension at the unit")]), motion.unit_tension_N.value);
    EXPECT_EQ(number(cells[column(table, "load raw")]), motion.load_raw.value);
    EXPECT_EQ(number(cells[column(table, "load at 5 Hz")]), motion.load_filtered.value);
    EXPECT_EQ(number(cells[column(table, "slowed at 5 Hz")]), motion.deceleration_filtered_m_per_s2.value);
    EXPECT_EQ(number(cells[column(table, "swing forward")]), motion.swing_forward_rad.value);
    EXPECT_EQ(number(cells[column(table, "swing back")]), motion.swing_back_rad.value);
    if (!corner.rest) continue;
    ++rested;
    EXPECT_EQ(number(cells[column(table, "rests from chainage")]), mark_m + corner.rest->earliest_m);
    EXPECT_EQ(number(cells[column(table, "to chainage")]), mark_m + corner.rest->latest_m);
  }
  EXPECT_GT(solved, 32);
  EXPECT_GT(rested, 0);
}

TEST(CornersTable, OnlyEndsThatThereAreTwoOfHaveAColumn) {
  const Table table = tables::corners(
      dossier_of(rig_of({{"site.wind_along", "'0 m/s'"}, {"riders.rolling_resistance", "[0.01, 0.01]"}})), si);
  EXPECT_EQ(table.rows.size(), 16u);
  EXPECT_EQ(std::count(table.headings.begin(), table.headings.end(), "wind"), 0);
  EXPECT_EQ(std::count(table.headings.begin(), table.headings.end(), "rolling"), 0);
  EXPECT_EQ(std::count(table.headings.begin(), table.headings.end(), "brake"), 1);
}

TEST(CornersTable, ACornerThatIsNotSolvedSaysSoAndShowsNoNumber) {
  const Table table = tables::corners(changed([](Arrest& arrest) {
                                        arrest.corners[3].motion = unsolved("energy does not close");
                                        arrest.corners[3].rest.reset();
                                      }),
                                      si);
  const auto& cells = table.rows[3];
  EXPECT_EQ(words(cells[column(table, "outcome")]), "unsolved");
  for (const char* heading : {"farthest travel", "after", "extension", "load raw", "swing back", "rests from chainage"})
    EXPECT_TRUE(empty(cells[column(table, heading)])) << heading;
  EXPECT_EQ(words(cells[column(table, "how")]), "not known");
  EXPECT_EQ(table.notes.back(), "Corner 4: energy does not close.");
}

TEST(CornersTable, ARiderWhoStallsIsSaidToHangOrToRollBackOverTheStart) {
  const auto outcome = [](const std::function<void(CornerResult&)>& stall) {
    const Table table = tables::corners(changed([&](Arrest& arrest) {
                                          CornerResult& corner = arrest.corners[3];
                                          corner.arrival_speed_m_per_s = std::nan("");
                                          corner.motion = unsolved("the rider stalls short of the brake trolley");
                                          corner.rest.reset();
                                          stall(corner);
                                        }),
                                        si);
    return words(table.rows[3][column(table, "outcome")]);
  };
  EXPECT_EQ(outcome([](CornerResult& c) { c.back_at_start_m_per_s = 0.75; }),
            "stalls before the brake trolley, rolls back over the start at 0.75 m/s");
  EXPECT_TRUE(outcome([](CornerResult& c) {
                c.hangs_at_m = 90;
              }).starts_with("stalls before the brake trolley, hangs at chainage "));
}

TEST(CornersTable, SaysWhatEachCornerGoverns) {
  const Table table = tables::corners(demo(), si);
  const arrest::Governing& g = demo_arrest().governing;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const std::string governs = words(table.rows[i][column(table, "governs")]);
    const auto has = [&](const char* result) { return governs.find(result) != std::string::npos; };
    EXPECT_EQ(has("farthest stop"), static_cast<int>(i) == g.stop_travel) << governs;
    EXPECT_EQ(has("swing back"), static_cast<int>(i) == g.swing_back) << governs;
    EXPECT_EQ(has("load at 5 Hz"), static_cast<int>(i) == g.load_filtered) << governs;
  }
}

TEST(GoverningTable, NoCornerIsWorseThanTheOneThatGoverns) {
  const Table corners = tables::corners(demo(), si), governing = tables::governing(demo(), si);
  const auto worst = [&](const char* heading, bool greatest) {
    double found = greatest ? -INFINITY : INFINITY;
    for (const auto& row : corners.rows) {
      const Cell& cell = row[column(corners, heading)];
      if (!empty(cell)) found = greatest ? std::max(found, number(cell)) : std::min(found, number(cell));
    }
    return found;
  };
  struct Pair {
    const char *result, *heading;
    bool greatest = true;
  };
  for (const Pair& pair :
       {Pair{"arrival speed", "arrives at"}, Pair{"farthest stop, travel", "farthest travel"},
        Pair{"nearest stop, travel", "farthest travel", false}, Pair{"extension", "extension"},
        Pair{"line speed", "line speed"}, Pair{"tension at the unit", "tension at the unit"},
        Pair{"rider load, raw", "load raw"}, Pair{"rider load at 5 Hz", "load at 5 Hz"},
        Pair{"trolley slowed at 5 Hz", "slowed at 5 Hz"}, Pair{"swing forward", "swing forward"},
        Pair{"swing back", "swing back"}, Pair{"earliest final rest, chainage", "rests from chainage", false},
        Pair{"latest final rest, chainage", "to chainage"}}) {
    EXPECT_EQ(number(row(governing, pair.result)[1]), worst(pair.heading, pair.greatest)) << pair.result;
    const std::string corner = words(row(governing, pair.result)[3]);
    const auto index = std::stoul(corner.substr(0, corner.find(':'))) - 1;
    EXPECT_EQ(number(row(governing, pair.result)[1]), number(corners.rows[index][column(corners, pair.heading)]))
        << pair.result << ' ' << corner;
  }
}

TEST(GoverningTable, StandsBesideTheLimitsOfTheLayout) {
  const Dossier dossier = dossier_of(rig_of({{"limits.swing", "{at = '35 deg', basis = 'owner'}"},
                                             {"limits.rider_load_held", "{at = 2.5, basis = 'owner'}"}}));
  const Table table = tables::governing(dossier, si);
  EXPECT_NEAR(number(row(table, "swing forward")[2]), 35 * std::numbers::pi / 180, 1e-15);
  EXPECT_NEAR(number(row(table, "swing back")[2]), 35 * std::numbers::pi / 180, 1e-15);
  EXPECT_EQ(number(row(table, "rider load held 0.2 s")[2]), 2.5);
  EXPECT_EQ(number(row(table, "extension")[2]), dossier.judged.rig.layout.brake_unit.extension_limit_m.value);
  EXPECT_TRUE(empty(row(table, "nearest stop, travel")[2]));
}

TEST(GoverningTable, ReservesAreThoseThatWereJudged) {
  Dossier dossier = demo();
  rider_stops.run(dossier.judged.rig, dossier.judged.findings);
  ASSERT_EQ(dossier.judged.findings.size(), 1u);
  const Table table = tables::governing(dossier, si);
  EXPECT_EQ(number(row(table, "left before the backup brake, at least")[1]), dossier.judged.findings[0].value);
  EXPECT_EQ(tables::governing(demo(), si).rows.size() + 1, table.rows.size());
}

TEST(ArrivalsTable, HasARowARiderAndWeatherAndAMeasuredSpeedBesideTheComputedOne) {
  const Table table = tables::arrivals(demo(), si);
  const arrest::Approaches& approaches = *demo().judged.rig.approach.solved();
  ASSERT_EQ(table.rows.size(), 32u) << "the brake makes no difference before contact";
  EXPECT_EQ(std::count(table.headings.begin(), table.headings.end(), "brake"), 0);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const arrest::Approach& computed = *approaches.computed[2 * i];
    EXPECT_EQ(number(table.rows[i][column(table, "computed")]), computed.arrival_speed_m_per_s);
    EXPECT_EQ(number(table.rows[i][column(table, "v/c")]), computed.speed_over_wave);
    EXPECT_EQ(number(table.rows[i][column(table, "after")]), computed.time_s);
  }
  const Dossier measured = dossier_of(rig_of({{"riders.arrival_speed", "['5 m/s', '7 m/s']"}}));
  const Table beside = tables::arrivals(measured, si);
  for (const auto& cells : beside.rows)
    EXPECT_EQ(number(cells[column(beside, "measured")]), words(cells[1]) == "fastest" ? 7.0 : 5.0);
}

TEST(ArrivalsTable, WhoStallsHasNoSpeedAndIsToldWhereHeHangs) {
  Rig rig = demo().judged.rig;
  arrest::Approaches approaches = *rig.approach.solved();
  for (const std::size_t i : {2u, 3u}) {
    approaches.computed[i]->arrival_speed_m_per_s = std::nan("");
    approaches.computed[i]->stalled_at_m = 150;
    approaches.computed[i]->hangs_at_m = 120;
  }
  approaches.computed[4] = approaches.computed[5] = unsolved("the wheels lift off");
  rig.approach.result = std::make_shared<const Solved<arrest::Approaches>>(std::move(approaches));
  const double origin_m = rig.frame.chainage_of_origin_m;
  const Table table = tables::arrivals(dossier_of(std::move(rig)), si);
  const std::size_t where = column(table, "where he stalls");
  EXPECT_EQ(words(table.rows[0][where]), "");
  EXPECT_EQ(words(table.rows[1][where]),
            fmt::format("stalls at chainage {:.3f} m, hangs at {:.3f} m in the end", 150 + origin_m, 120 + origin_m));
  EXPECT_TRUE(empty(table.rows[1][column(table, "computed")]));
  EXPECT_EQ(words(table.rows[2][where]), "unsolved: the wheels lift off");
  EXPECT_TRUE(empty(table.rows[2][column(table, "v/c")]));
  const Table all = tables::arrivals(demo(), si);
  EXPECT_EQ(std::count(all.headings.begin(), all.headings.end(), "where he stalls"), 0) << "nobody does";
}

TEST(ArrivalsTable, WithoutAPushOffTellsWhatWasMeasuredInstead) {
  Layout layout = shipped_layout("heron_gully.toml", {{"riders.arrival_speed", "['5 m/s', '7 m/s']"}});
  layout.approach.reset();
  const Table table = tables::arrivals(dossier_of(solve(layout, {}, {0.1, 5e-3})), si);
  EXPECT_TRUE(table.rows.empty());
  EXPECT_EQ(table.notes, std::vector<std::string>{"No [approach] is given: riders are taken to arrive as measured, at "
                                                  "5.00 m/s to 7.00 m/s."});
}

TEST(ResetsTable, HasARowAStateAndOneThatDoesNotComeBackHasNeitherTimeNorSpeed) {
  const Table table = tables::resets(demo(), si);
  const auto& resets = demo_arrest().resets;
  ASSERT_EQ(table.rows.size(), resets.size());
  ASSERT_EQ(resets.size(), 2u);
  EXPECT_EQ(words(table.rows[0][0]), "cold");
  EXPECT_EQ(words(table.rows[1][0]), "warm");
  for (std::size_t i = 0; i < resets.size(); ++i) {
    EXPECT_EQ(number(table.rows[i][1]), resets[i].least_reserve_N);
    EXPECT_EQ(number(table.rows[i][5]), resets[i].speed_at_mark_m_per_s);
  }
  const Table stuck = tables::resets(changed([](Arrest& arrest) {
                                       arrest.resets[1].returns = false;
                                       arrest.resets[1].ratio_at_which_it_stops = INFINITY;
                                     }),
                                     si);
  EXPECT_EQ(words(stuck.rows[1][3]), "not by itself");
  EXPECT_TRUE(empty(stuck.rows[1][4]));
  EXPECT_TRUE(empty(stuck.rows[1][5]));
  EXPECT_EQ(words(stuck.rows[1][6]), "above 20:1");
}

TEST(DispatchTable, TellsTheBackupBrakesWorstCornerAndHowFarTheTrolleyMayBeFromItsMark) {
  const Table table = tables::dispatch(changed([](Arrest& arrest) {
                                         arrest.backup = arrest::BackupAlone{
                                             .corner = 5, .speed_m_per_s = 8, .compression_m = 1.5, .force_N = 3000};
                                         arrest.not_reset = {.farthest_m = 2.25, .first_failing = 7};
                                       }),
                                       si);
  EXPECT_EQ(number(row(table, "backup brake alone: met at")[1]), 8);
  EXPECT_EQ(number(row(table, "it gives by")[1]), 1.5);
  EXPECT_EQ(number(row(table, "its greatest force")[1]), 3000);
  EXPECT_EQ(number(row(table, "left at the end of its stroke")[1]), 0);
  EXPECT_TRUE(words(row(table, "backup brake alone: met at")[2]).starts_with("6: lightest rider, "))
      << "corners count from 1";
  const auto& dispatch = row(table, "trolley from its mark at dispatch, at most");
  EXPECT_EQ(number(dispatch[1]), 2.25);
  EXPECT_TRUE(words(dispatch[2]).starts_with("8: lightest rider, ")) << words(dispatch[2]);
  EXPECT_TRUE(words(dispatch[2]).ends_with(" (fails a step on)")) << words(dispatch[2]);
}

TEST(DispatchTable, AnArrestThatDoesNotEvenHoldFromTheMarkIsNoDistance) {
  const Table table = tables::dispatch(changed([](Arrest& arrest) {
                                         arrest.backup = unsolved("its stroke is not given");
                                         arrest.not_reset = {.farthest_m = std::nan(""), .first_failing = 0};
                                       }),
                                       si);
  ASSERT_EQ(table.rows.size(), 1u);
  EXPECT_EQ(words(table.rows[0][1]), "not even at its mark");
  EXPECT_EQ(table.notes[0], "Backup brake alone: its stroke is not given.");
}

TEST(ArrestTables, WhatIsNotSolvedSaysWhyInsteadOfNumbers) {
  Layout layout = shipped_layout("heron_gully.toml", {{"riders.arrival_speed", "['5 m/s', '7 m/s']"}});
  layout.riders.rolling_resistance.reset();
  const Dossier dossier = dossier_of(solve(layout, {}, {0.1, 5e-3}));
  for (const Table& table :
       {tables::arrivals(dossier, si), tables::corners(dossier, si), tables::governing(dossier, si),
        tables::resets(dossier, si), tables::dispatch(dossier, si)}) {
    EXPECT_TRUE(table.rows.empty()) << table.title;
    ASSERT_EQ(table.notes.size(), 1u) << table.title;
    EXPECT_TRUE(table.notes[0].starts_with("Undetermined: ")) << table.notes[0];
    EXPECT_TRUE(table.notes[0].ends_with("the layout does not give riders.rolling_resistance")) << table.notes[0];
  }
}

TEST(ArrestTables, EveryOneSaysThatItIsPredictedAndUntested) {
  for (const Table& table : {tables::arrivals(demo(), si), tables::corners(demo(), si), tables::governing(demo(), si),
                             tables::resets(demo(), si), tables::dispatch(demo(), si)})
    EXPECT_TRUE(table.title.ends_with(": predicted, untested")) << table.title;
}

}  // namespace
}  // namespace fairlead
