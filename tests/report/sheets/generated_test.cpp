// Whole sets of rigs that nobody drew: whatever the rig, a sheet is one that can be read and measured.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/laws/generator.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr PaperSize papers[] = {PaperSize::a3, PaperSize::ansi_b, PaperSize::a2, PaperSize::ansi_d, PaperSize::a1};

/// Sheaves on mounts, friction and long legs in turn, as the seed has it.
Layout layout_of(unsigned seed) {
  laws::Wanted wanted;
  wanted.mounts = seed % 5 == 1;
  wanted.friction = seed % 3 == 1;
  wanted.reach_m = seed % 7 == 2 ? 10 : 0;
  return laws::sensible_layout(seed, wanted);
}

/// On paper the main line's own direction is as long as the scale says, and 10 m of it measure so many millimetres.
void measure(const View& view, const Rig& rig, const std::string& where) {
  const auto series = arrangement_scales();
  EXPECT_NE(std::find(series.begin(), series.end(), view.scale), series.end()) << where << view.scale;
  const double ten_mm = length(view.of(10 * rig.frame.along)),
               foreshortened = view.name == "isometric" ? std::sqrt(2.0 / 3) : 1;
  EXPECT_NEAR(ten_mm, 10'000 / view.scale * foreshortened, 1e-9) << where << view.name;
}

class GeneratedSet : public testing::TestWithParam<unsigned> {};

TEST_P(GeneratedSet, CanBeReadAndMeasuredOnEverySheet) {
  const unsigned seed = GetParam();
  Dossier dossier;
  constexpr Resolution coarse{0.2, 0.02};  // a sheet is a sheet whatever its numbers are worth
  dossier.judged = judge_at(coarse, layout_of(seed));
  const PaperSize paper = papers[seed % std::size(papers)];
  const auto set = compose(dossier, Style{}, {font(), paper});
  EXPECT_GE(set.size(), 10u);
  for (const Sheet& sheet : set) {
    const std::string where = fmt::format("{}, {}: ", stationery(paper).name, sheet.title);
    for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
      ADD_FAILURE() << where << fault;
    for (const std::string& outside : outside_frame(sheet, paper)) ADD_FAILURE() << where << outside;
    for (const auto& entity : sheet.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity)) {
        EXPECT_EQ(font().missing(label->text), "") << where << label->text;
      }
    for (const View& view : sheet.drawing.views)
      if (view.name == "elevation" || view.name == "plan" || view.name == "isometric")
        measure(view, dossier.judged.rig, where);
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, GeneratedSet, testing::Range(0u, 100u));

}  // namespace
}  // namespace fairlead::sheets
