// The inspection forms: legible, made for the rig at hand, with what is expected and room for what is found.
#include "report/sheets/inspection.hpp"

#include <gtest/gtest.h>

#include "report/tables/inspection.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/demo_register.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr Date today{2026, 10, 30};

Records records_of(const Layout& layout, std::optional<Date> date = today) {
  RecordsInput input = demo_register(layout);
  input.log = {{.id = "F2", .found = {2026, 10, 12}, .part = "brake_trolley", .what = "one wheel turns rough"},
               {.id = "F1",
                .found = {2026, 4, 20},
                .part = "main_line",
                .what = "scored by grit",
                .closed = Date{2026, 4, 21},
                .by = "T.",
                .how = "dressed"}};
  return judge_records(layout, date, std::move(input)).value();
}

const Dossier& set_out(const std::string& file) {
  static std::map<std::string, Dossier> all;
  const auto [at, made] = all.try_emplace(file);
  if (made) {
    at->second.judged = judge(shipped_layout(file));
    at->second.setting_out = setting_out(at->second.judged.rig);
  }
  return at->second;
}

std::string all_of(const std::vector<Sheet>& set) {
  std::string all;
  for (const Sheet& sheet : set) all += everything(sheet);
  return all;
}

TEST(InspectionForms, StayInsideTheirFramesAndNothingOverlaps) {
  for (const std::string& file : shipped_layouts()) {
    const Dossier& dossier = set_out(file);
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      for (const Units units : {Units::both, Units::us}) {
        const auto set =
            compose_inspection(dossier, records_of(dossier.judged.rig.layout), Style{units}, {font(), paper});
        EXPECT_GE(set.size(), 2u) << file;
        for (const Sheet& sheet : set) {
          EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << file << ' ' << sheet.title;
          EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}), std::vector<std::string>{})
              << file << ' ' << sheet.title;
        }
      }
  }
}

// Every part of the rig has its row, with the numbers of this very layout.
TEST(InspectionForms, NameEveryPartOfThisRigWithWhatIsExpectedOfIt) {
  for (const std::string& file : shipped_layouts()) {
    const Dossier& dossier = set_out(file);
    const Layout& layout = dossier.judged.rig.layout;
    const Style style{Units::si};
    const Table daily = tables::daily_inspection(dossier, records_of(layout), style);
    const auto has = [&](const std::string& part, const std::string& expected) {
      return std::ranges::any_of(daily.rows, [&](const std::vector<Cell>& row) {
        return std::get<std::string>(row[0]) == part && (expected.empty() || std::get<std::string>(row[2]) == expected);
      });
    };
    for (const Anchor& one : layout.anchors) EXPECT_TRUE(has("anchor " + one.id.value, "")) << file;
    for (const Sheave& one : layout.sheaves) EXPECT_TRUE(has("sheave " + one.id.value, "")) << file;
    for (const Block& one : layout.blocks) EXPECT_TRUE(has("block " + one.id.value, "")) << file;
    for (const Connector& one : layout.connectors) EXPECT_TRUE(has("connector " + one.id.value, "")) << file;
    for (const Line& one : layout.lines) EXPECT_TRUE(has("line " + one.id.value, "")) << file;
    for (const SupportLine& one : layout.support_lines) EXPECT_TRUE(has(one.id.value, "")) << file;
    EXPECT_TRUE(has("brake unit", words::shown(layout.brake_unit.rest_extension_m, Dimension::length, style))) << file;
    ASSERT_TRUE(layout.backup_brake);
    EXPECT_TRUE(has("backup brake", words::travel(layout.backup_brake->engages_m - layout.brake_trolley.rest_m, style)))
        << file;
    // Found, and in order: a pen's.
    for (const std::vector<Cell>& row : daily.rows) {
      EXPECT_TRUE(std::holds_alternative<std::monostate>(row[3]));
      EXPECT_TRUE(std::holds_alternative<std::monostate>(row[4]));
    }
  }
}

TEST(InspectionForms, WhatIsOpenStandsFirstAndWhatIsClosedNowhere) {
  const Dossier& dossier = set_out("heron_gully.toml");
  const Table daily = tables::daily_inspection(dossier, records_of(dossier.judged.rig.layout), {});
  EXPECT_EQ(std::get<std::string>(daily.rows[0][0]), "brake_trolley");
  EXPECT_EQ(std::get<std::string>(daily.rows[0][1]), "OPEN: F2, found 2026-10-12: one wheel turns rough");
  const std::string all =
      all_of(compose_inspection(dossier, records_of(dossier.judged.rig.layout), Style{Units::si}, {font()}));
  EXPECT_EQ(all.find("scored by grit"), std::string::npos);
}

TEST(InspectionForms, CountDaysFromTheStatedDateAndNoneWithoutOne) {
  const Dossier& dossier = set_out("heron_gully.toml");
  const auto said = [&](std::optional<Date> date) {
    return all_of(compose_inspection(dossier, records_of(dossier.judged.rig.layout, date), Style{Units::si}, {font()}));
  };
  const std::string dated = said(today);
  for (const char* words :
       {"1 d over", "Days left are counted from 2026-10-30", "14.45 mm, owner's rule", "16.05 mm", "S-brake_unit",
        "T at start", "This layout: CLEARED by these checks", "This is an aid to calculation, not an approval"})
    EXPECT_NE(dated.find(words), std::string::npos) << words;
  const std::string undated = said(std::nullopt);
  EXPECT_EQ(undated.find(" d over"), std::string::npos);
  EXPECT_EQ(undated.find(" d left"), std::string::npos);
  EXPECT_NE(undated.find("No date was stated"), std::string::npos);
}

TEST(InspectionForms, APartThatIsNotInTheRegisterIsSaidToBeMissing) {
  const Dossier& dossier = set_out("heron_gully.toml");
  Records records = records_of(dossier.judged.rig.layout);
  std::erase_if(records.input.parts, [](const RegisteredPart& one) { return one.part == "L1"; });
  const Table parts = tables::periodic_parts(dossier, records, {});
  int missing = 0;
  for (const std::vector<Cell>& row : parts.rows)
    missing += std::get<std::string>(row[1]) == "not in the register" ? 1 : 0;
  EXPECT_EQ(missing, 1);
}

}  // namespace
}  // namespace fairlead::sheets
