// What sheaves leave of strength, and what is said of losses that are taken from tables or not counted.
#include "geometry/rig/strength_left.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "geometry/rig/rig.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

// Source D/d: exact, as printed.
TEST(HeldOverSheave, AtEveryRowOfTheTableIsThatRow) {
  constexpr double table[][2] = {{40, 0.95}, {30, 0.93}, {20, 0.91}, {15, 0.89}, {10, 0.86},
                                 {8, 0.83},  {6, 0.79},  {4, 0.75},  {2, 0.65},  {1, 0.50}};
  for (const auto& [ratio, held] : table) EXPECT_DOUBLE_EQ(held_over_sheave(ratio).value(), held) << ratio;
}

TEST(HeldOverSheave, BetweenRowsIsOnTheLineThroughThem) {
  EXPECT_DOUBLE_EQ(held_over_sheave(35).value(), 0.94);
  EXPECT_DOUBLE_EQ(held_over_sheave(29).value(), 0.928);
  EXPECT_DOUBLE_EQ(held_over_sheave(12).value(), 0.872);
  EXPECT_DOUBLE_EQ(held_over_sheave(1.5).value(), 0.575);
}

TEST(HeldOverSheave, GrowsWithTheSheaveAndNeverPassesTheLastRow) {
  double before = 0;
  for (double ratio = 1; ratio < 60; ratio += 0.01) {
    const double held = held_over_sheave(ratio).value();
    EXPECT_GE(held, before) << ratio;
    EXPECT_LE(held, 0.95) << ratio;
    EXPECT_TRUE(held > before || ratio > 40) << ratio;
    before = held;
  }
  EXPECT_EQ(held_over_sheave(1e9), 0.95);
}

TEST(HeldOverSheave, IsNotKnownOfASheaveThinnerThanItsLine) {
  for (const double ratio : {0.999, 0.0, -3.0, std::numeric_limits<double>::quiet_NaN()})
    EXPECT_EQ(held_over_sheave(ratio), std::nullopt) << ratio;
}

/// Sable Weir's reduction line of 8 mm over three sheaves of 160 mm pitch diameter.
Layout three_sheaves() {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/sable_weir.toml");
  layout->lines[0].sheave_strength.reset();
  return *layout;
}

TEST(TightestSheave, IsTheOneOfTheLeastDiameterAtTheBottomOfItsGroove) {
  Layout layout = three_sheaves();
  EXPECT_NEAR(tightest_sheave(layout, layout.lines[0])->ratio, 19, 1e-12) << "(160 - 8) / 8";
  layout.sheaves[2].pitch_diameter_m.value = 0.128;
  const auto tightest = tightest_sheave(layout, layout.lines[0]);
  EXPECT_EQ(tightest->sheave, SheaveId{2});
  EXPECT_NEAR(tightest->ratio, 15, 1e-12);
  EXPECT_FALSE(tightest_sheave(layout, layout.lines[1])) << "it runs over none";
}

TEST(TightestSheave, HoldsByTheTableOnlyUnderSteelAndByTheMakersFigureUnderAnything) {
  Layout layout = three_sheaves();
  Line& line = layout.lines[0];
  for (const LineMaterial material : {LineMaterial::fibre, LineMaterial::webbing}) {
    line.material.value = material;
    EXPECT_EQ(tightest_sheave(layout, line)->held, std::nullopt);
  }
  line.material.value = LineMaterial::steel;
  EXPECT_NEAR(tightest_sheave(layout, line)->held.value(), 0.906, 1e-12) << "D/d 19";
  for (const LineMaterial material : {LineMaterial::steel, LineMaterial::fibre, LineMaterial::webbing}) {
    line.material.value = material;
    line.sheave_strength = Real{0.7, {}};
    EXPECT_EQ(tightest_sheave(layout, line)->held, 0.7);
  }
}

bool said(const Layout& layout, const std::string& note) {
  std::vector<std::string> notes;
  note_strength_left(layout, notes);
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

TEST(StrengthLeft, WhatIsNotGivenIsSaidNotToBeCounted) {
  Layout layout = three_sheaves();
  layout.main_line.from_end.reset();
  layout.main_line.to_end.reset();
  layout.support_lines[0].to_end.reset();
  EXPECT_TRUE(said(layout,
                   "main_line: from_end, to_end: termination not given: what it takes off the strength is not "
                   "counted"));
  EXPECT_TRUE(
      said(layout, "support_line.S1: to_end: termination not given: what it takes off the strength is not counted"));
  EXPECT_TRUE(said(layout,
                   "line.L1: what its sheaves take off its strength is not counted: sheave_strength is not given, and "
                   "the table of D/d is for steel"));
  layout.lines[0].material.value = LineMaterial::steel;
  EXPECT_TRUE(said(layout,
                   "line.L1: over its tightest sheave (D/d 19.0) it holds 90.6 % of its strength (published rigging "
                   "tables)"));
  EXPECT_TRUE(said(layout,
                   "support_line.S1.from_end: swaged holds 95 % of its strength (US Army TM 5-3810-305-10, "
                   "table 4)"));
}

TEST(StrengthLeft, NothingIsSaidWhereEverythingIsGivenAndNoneOfALineThatIsNotJudged) {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/sable_weir.toml");
  std::vector<std::string> notes;
  layout->main_line.mbs_N.reset();
  layout->support_lines[0].from_end->efficiency = layout->support_lines[0].to_end->efficiency = Real{0.9, {}};
  note_strength_left(*layout, notes);
  EXPECT_EQ(notes, std::vector<std::string>{});
  const Rig rig = solve(three_sheaves());
  EXPECT_TRUE(std::any_of(rig.assumptions.begin(), rig.assumptions.end(), [](const std::string& note) {
    return note.starts_with("line.L1: what its sheaves take off its strength is not counted");
  })) << "the rig's list holds them";
}

}  // namespace
}  // namespace fairlead
