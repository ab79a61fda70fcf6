// The form that the built rig is written down on: by the names that its survey is read by, and with nothing filled in.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/asbuilt/characteristics.hpp"
#include "report/tables/tables.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

constexpr std::string_view kind = "as-built-record";

std::string text_of(const Cell& cell) {
  const auto* text = std::get_if<std::string>(&cell);
  return text ? *text : "";
}

TEST(AsBuiltRecord, EveryMarkThatIsSetOutHasARowWithItsDrawnPlaceAndBlanks) {
  for (const std::string& file : shipped_layouts()) {
    const Dossier& dossier = shipped_dossier(file);
    const Table table = tables::marks_to_read(dossier, Style{}), drawn = tables::set_out_points(dossier, Style{});
    ASSERT_EQ(table.rows.size(), drawn.rows.size()) << file;
    for (const SetOutPoint& point : set_out_points(dossier.judged.rig))
      EXPECT_TRUE(std::ranges::any_of(table.rows, [&](const auto& row) { return text_of(row[0]) == point.id; }))
          << file << point.id;
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
      ASSERT_EQ(table.rows[r].size(), table.headings.size());
      for (std::size_t c = 0; c < table.headings.size(); ++c) {
        if (c < drawn.headings.size())
          EXPECT_TRUE(table.rows[r][c] == drawn.rows[r][c]) << file << c;
        else
          EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows[r][c])) << file << c;
      }
    }
  }
}

TEST(AsBuiltRecord, EveryQuantityOfTheMeasurementsHasARowByItsNameThereAndNoValue) {
  for (const std::string& file : shipped_layouts()) {
    const Dossier& dossier = shipped_dossier(file);
    const Table table = tables::quantities_to_read(dossier);
    std::size_t rows = 0;
    for (const Characteristic& one : characteristics(dossier.judged.rig, {}))
      for (const Measurand measurand : one.measurands) {
        ASSERT_LT(rows, table.rows.size()) << file;
        EXPECT_EQ(text_of(table.rows[rows][0]), file_word(dossier.judged.rig.layout, one.item)) << file;
        EXPECT_EQ(text_of(table.rows[rows][1]), kind_of(measurand).word) << file;
        for (std::size_t c = 3; c < table.headings.size(); ++c)
          EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows[rows][c])) << file;
        ++rows;
      }
    EXPECT_EQ(rows, table.rows.size()) << file;
    EXPECT_GT(rows, 5u) << file;
  }
}

TEST(AsBuiltRecord, ItIsInEverySetAlsoOfARigThatIsNotSolved) {
  for (const Dossier* dossier : {&demo(), &unsolved(), &sparse()})
    for (const PaperSize paper : {PaperSize::a3, PaperSize::a4, PaperSize::ansi_a}) {
      const auto sheets = compose(*dossier, Style{}, {font(), paper}, kind);
      ASSERT_FALSE(sheets.empty());
      std::string all;
      for (const drawing::Sheet& sheet : sheets) {
        all += everything(sheet);
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
        EXPECT_EQ(drawing::faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}),
                  std::vector<std::string>{});
        EXPECT_TRUE(sheet.left_out.empty());
      }
      for (const char* text : {"RECORD OF MARKS AS BUILT", "rest_extension", "Measured by, instrument, date"})
        EXPECT_NE(all.find(text), std::string::npos) << text;
    }
}

}  // namespace
}  // namespace fairlead::sheets
