// Tables over several pages.
#include <gtest/gtest.h>

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

}  // namespace
}  // namespace fairlead::sheets
