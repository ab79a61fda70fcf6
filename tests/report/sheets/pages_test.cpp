// Tables over several pages.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "report/sheets/pages.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

/// How many rows of a table of one column stand on each page; rows are lettered "row 0", "row 1", ...
std::vector<int> rows_on_pages(int rows) {
  Table table{"Rows", {"name"}, {}, {"A note."}};
  for (int i = 0; i < rows; ++i) table.rows.push_back({"row " + std::to_string(i)});
  std::vector<Body> out;
  const Office office{font()};
  Pages pages(demo(), office, out);
  pages.begin({"Rows", "List", "none", {}}, {pages.above_title_block()});
  pages.put(table, Style{});
  std::vector<int> counts;
  int next = 0;
  for (const Body& body : out) {
    counts.push_back(0);
    for (const auto& entity : body.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity); label && label->text.starts_with("row ")) {
        EXPECT_EQ(label->text, "row " + std::to_string(next++)) << "none twice, none left out";
        ++counts.back();
      }
  }
  EXPECT_EQ(next, rows);
  return counts;
}

TEST(Pages, NoTableLeavesARowAloneOnItsLastPage) {
  bool parted = false;
  for (int rows = 1; rows < 150; ++rows) {
    const std::vector<int> counts = rows_on_pages(rows);
    parted = parted || counts.size() > 1;
    if (counts.size() > 1) {
      EXPECT_GE(counts.back(), 4) << rows << " rows on " << counts.size() << " pages";
    }
  }
  EXPECT_TRUE(parted);
}

Table of_rows(int rows) {
  Table table{"Rows", {"name"}, {}, {"A note.", "Another note."}};
  for (int i = 0; i < rows; ++i) table.rows.push_back({"row " + std::to_string(i)});
  return table;
}
/// How many of its rows stand on a sheet.
int rows_on(const Body& sheet) {
  return static_cast<int>(
      std::count_if(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [](const auto& e) {
        const auto* label = std::get_if<Label>(&e);
        return label && label->text.starts_with("row ");
      }));
}
/// Room that is taken.
Block taken(double height_mm) {
  return {[](const Canvas&) { return 10.0; }, [height_mm](const Canvas&, double) { return height_mm; },
          [](const Canvas&, Paper, double) {}};
}

// A fifth of an A3 beside its title block is 17 000 mm2: 20 rows of 3.8 mm under a title, in a column of 186 mm.
TEST(Pages, ATableOfWhichHardlyAnythingWouldBeLeftOverStandsWholeOnTheFurtherSheet) {
  bool parted = false, moved = false;
  for (int rows = 30; rows < 110; ++rows) {
    std::vector<Body> out;
    const Office office{font()};
    Pages pages(demo(), office, out);
    pages.begin({"Rows", "List", "none", {}}, pages.columns());
    pages.put(taken(150));
    pages.put(of_rows(rows), Style{});
    int all = 0;
    for (const Body& sheet : out) all += rows_on(sheet);
    EXPECT_EQ(all, rows);
    const int last = rows_on(out.back());
    EXPECT_TRUE(last == rows || last >= 20) << last << " of " << rows << " rows stand alone";
    parted = parted || last < rows;
    moved = moved || (out.size() > 1 && last == rows);
  }
  EXPECT_TRUE(parted);
  EXPECT_TRUE(moved);
}

// And where so little stands on the sheet in hand that it would be the empty one, the table begins there.
TEST(Pages, NoTableLeavesASheetForTheNextOnWhichLittleStands) {
  for (int rows = 30; rows < 140; ++rows) {
    std::vector<Body> out;
    const Office office{font()};
    Pages pages(demo(), office, out);
    pages.begin({"Rows", "List", "none", {}}, pages.columns());
    pages.put(taken(10));
    pages.put(of_rows(rows), Style{});
    EXPECT_GT(rows_on(out.front()), 0) << rows;
  }
}

TEST(Pages, AShortTableStandsWholeInWhatAnEarlierSheetLeftFree) {
  for (const bool shows_something : {false, true}) {
    std::vector<Body> out;
    const Office office{font()};
    Pages pages(demo(), office, out);
    pages.begin({"Rows", "List", "none", {}}, {pages.columns().front()});
    pages.put(taken(150));
    const double column_mm = pages.columns().front().height(), foot_mm = pages.columns().back().height();
    if (shows_something) {
      pages.put(taken(column_mm));
      pages.begin({"Others", "List", "none", {}}, pages.columns());
    }
    for (const double height_mm : {column_mm, column_mm, foot_mm}) pages.put(taken(height_mm));
    pages.put(of_rows(6), Style{});
    EXPECT_EQ(rows_on(out.front()), shows_something ? 0 : 6) << "never back over a sheet that shows something";
    EXPECT_EQ(out.size(), shows_something ? 4u : 2u);
  }
}

/// Of a table of so many columns, each `wide` letters wide; what was said of it.
struct Put {
  std::vector<Body> sheets;
  std::vector<std::string> headings;  ///< in the order they stand in
};
Put put(int columns, int wide, PaperSize paper) {
  Table table{"Wide", {}, {}, {"A note."}};
  auto& row = table.rows.emplace_back();
  for (int c = 0; c < columns; ++c) {
    table.headings.push_back("h" + std::to_string(c));
    row.push_back(std::string(static_cast<std::size_t>(wide), 'x'));
  }
  Put all;
  const Office office{font(), paper};
  Pages pages(demo(), office, all.sheets);
  pages.begin({"Wide", "List", "none", {}}, {pages.above_title_block()});
  pages.put(table, Style{});
  for (const Body& body : all.sheets)
    for (const auto& entity : body.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity); label && label->text.starts_with("h"))
        all.headings.push_back(label->text);
  return all;
}

TEST(Pages, ALongNarrowTableGoesOnInAsManyColumnsAsItFills) {
  const auto columns_of = [](int rows) {
    Table table{"Rows", {"name"}, {}, {}};
    for (int i = 0; i < rows; ++i) table.rows.push_back({"row " + std::to_string(i)});
    std::vector<Body> out;
    const Office office{font()};
    Pages pages(demo(), office, out);
    pages.begin({"Rows", "List", "none", {}}, {});
    pages.put(table, Style{});
    std::set<double> lefts;
    const Body& first = out.at(1);
    const double above_mm = pages.above_title_block().bottom;
    for (const auto& entity : first.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity);
          label && label->text.starts_with("row ") && label->at.y_mm > above_mm)
        lefts.insert(label->at.x_mm);
    return lefts.size();
  };
  // 205 mm of an A3 above its title block, 3.8 mm a row: 54 a column.
  EXPECT_EQ(columns_of(200), 4u);
  EXPECT_EQ(columns_of(150), 3u);
  EXPECT_EQ(columns_of(80), 2u);
}

TEST(Pages, ATableThatFourColumnsHoldTakesOneSheet) {
  for (int rows = 100; rows <= 200; ++rows) {
    std::vector<Body> out;
    const Office office{font()};
    Pages pages(demo(), office, out);
    pages.begin({"Rows", "List", "none", {}}, {});
    pages.put(of_rows(rows), Style{});
    EXPECT_EQ(out.size(), 2u) << rows << " rows";
  }
}

TEST(Pages, ATableTooWideForTheSheetStandsInPartsThatBeginWithItsFirstColumn) {
  const Put whole = put(6, 25, PaperSize::a3), parts = put(6, 25, PaperSize::a4);
  EXPECT_EQ(whole.headings, (std::vector<std::string>{"h0", "h1", "h2", "h3", "h4", "h5"}));
  EXPECT_EQ(parts.headings, (std::vector<std::string>{"h0", "h1", "h2", "h3", "h0", "h4", "h5"}));
  for (const Put* one : {&whole, &parts})
    for (const Body& body : one->sheets) EXPECT_TRUE(body.left_out.empty());
}

TEST(Pages, WhatFindsNoRoomIsLeftOutAndTheSizesThatHaveRoomAreTold) {
  // 100 letters x take 135 mm, and two such columns more than the 364 mm within an A3's frame.
  const Put on_a3 = put(2, 150, PaperSize::a3);
  EXPECT_TRUE(on_a3.headings.empty());
  ASSERT_EQ(on_a3.sheets.front().left_out.size(), 1u);
  EXPECT_EQ(on_a3.sheets.front().left_out.front(), "WIDE finds no room on A3: draw it on A2, A1, ANSI C, ANSI D");
  EXPECT_TRUE(put(2, 150, PaperSize::a2).sheets.front().left_out.empty());
  ASSERT_EQ(put(2, 1000, PaperSize::a1).sheets.front().left_out.size(), 1u);
  EXPECT_EQ(put(2, 1000, PaperSize::a1).sheets.front().left_out.front(), "WIDE finds no room on any size of sheet");
}

}  // namespace
}  // namespace fairlead::sheets
