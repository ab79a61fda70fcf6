// Ruled tables: where the width goes.
#include <gtest/gtest.h>

#include <algorithm>

#include "report/drawing/blocks.hpp"

namespace fairlead::drawing {
namespace {

const Font& font() {
  static const Font opened = Font::open().value();
  return opened;
}

Grid limits() {
  std::vector<std::vector<std::string>> rows;
  for (int i = 0; i < 6; ++i)
    rows.push_back({"travelling block clearance", "least distance of the travelling block from everything else on it"});
  return {"", {{"limit", Align::left, true}, {"that is", Align::left, true}}, rows};
}

std::ptrdiff_t written(const Grid& grid, double width_mm, const std::string& text) {
  Drawing drawing;
  grid.draw(Canvas(drawing, font()), {0, 0}, width_mm);
  return std::ranges::count_if(drawing.entities, [&](const auto& entity) {
    const auto* label = std::get_if<Label>(&entity);
    return label && label->text == text;
  });
}

TEST(Grid, ASlimColumnStaysWholeWhereTheWideOneIsBrokenAnyway) {
  Drawing scratch;
  const Canvas canvas(scratch, font());
  // Room for the one whole and for three quarters of the other.
  const double slim_mm = limits().of_columns({0}, "").size(canvas, 1e3).width_mm,
               wide_mm = limits().of_columns({1}, "").size(canvas, 1e3).width_mm;
  EXPECT_EQ(written(limits(), slim_mm + 0.75 * wide_mm, "travelling block clearance"), 6);
}

TEST(Grid, OfWhatIsWideEnoughNothingIsBroken) {
  Drawing scratch;
  const double whole_mm = limits().size(Canvas(scratch, font()), 1e3).width_mm;
  EXPECT_EQ(written(limits(), whole_mm, "travelling block clearance"), 6);
  EXPECT_EQ(written(limits(), whole_mm, "least distance of the travelling block from everything else on it"), 6);
}

TEST(Grid, NeitherIsWiderThanAllowedNorLosesAWord) {
  Drawing scratch;
  const Canvas canvas(scratch, font());
  const Grid grid = limits();
  double taller_mm = 0;
  for (double width_mm = 120; width_mm > grid.least_width(canvas); width_mm -= 5) {
    const Size size = grid.size(canvas, width_mm);
    EXPECT_LE(size.width_mm, width_mm + 1e-6);
    EXPECT_GE(size.height_mm, taller_mm) << "a narrower table is no lower, at " << width_mm;
    taller_mm = size.height_mm;
    EXPECT_EQ(written(grid, width_mm, "limit"), 1);
  }
}

}  // namespace
}  // namespace fairlead::drawing
