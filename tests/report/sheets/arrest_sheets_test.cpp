// The sheets of an arrest: every plot says that it was predicted, and all of it stays legible.
#include <gtest/gtest.h>

#include <set>

#include "geometry/studies/arrest_figures.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr std::string_view kinds[] = {"arrest-chart", "arrest-histories", "arrest-corners",
                                      "arrest-reset", "calculation",      "reductions"};

const std::vector<Dossier>& arrested() {
  static const std::vector<Dossier> all = [] {
    std::vector<Dossier> made;
    for (const std::string& file : shipped_layouts()) {
      Dossier dossier = shipped_dossier(file);
      dossier.arrest = std::make_shared<const ArrestFigures>(arrest_figures(dossier.judged.rig));
      made.push_back(std::move(dossier));
    }
    return made;
  }();
  return all;
}

TEST(ArrestSheets, StayInsideTheirFramesAndNothingOverlaps) {
  for (const Dossier& dossier : arrested())
    for (const std::string_view kind : kinds)
      for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b}) {
        const auto set = compose(dossier, Style{}, {font(), paper}, kind);
        EXPECT_FALSE(set.empty()) << dossier.judged.rig.layout.project.title.value << ' ' << kind;
        for (const Sheet& sheet : set) {
          EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
          EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}), std::vector<std::string>{})
              << dossier.judged.rig.layout.project.title.value << ' ' << sheet.title;
        }
      }
}

TEST(ArrestSheets, WidthsAndCapHeightsAreOfTheIsoSeries) {
  const std::set<double> widths{0, 0.13, 0.18, 0.25, 0.35, 0.5, 0.7}, caps{1.8, 2.5, 3.5, 5, 7, 10, 14, 20};
  for (const Dossier& dossier : arrested())
    for (const std::string_view kind : kinds)
      for (const Sheet& sheet : compose(dossier, Style{}, {font()}, kind))
        for (const auto& entity : sheet.drawing.entities) {
          if (const auto* stroke = std::get_if<Stroke>(&entity)) {
            EXPECT_TRUE(widths.contains(stroke->pen.width_mm)) << sheet.title << stroke->pen.width_mm;
          }
          if (const auto* label = std::get_if<Label>(&entity)) {
            EXPECT_TRUE(caps.contains(label->cap_mm)) << sheet.title << label->text;
          }
        }
}

bool says_across(const Sheet& sheet) {
  return std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [](const auto& entity) {
    const auto* label = std::get_if<Label>(&entity);
    return label && label->pale && label->text == "PREDICTED, UNTESTED" && label->cap_mm >= 7;
  });
}

TEST(ArrestSheets, EveryPlotSaysAcrossItAndEveryTableAboveItThatNobodyTriedIt) {
  for (const Dossier& dossier : arrested())
    for (const std::string_view kind : kinds) {
      const auto set = compose(dossier, Style{}, {font()}, kind);
      ASSERT_FALSE(set.empty());
      EXPECT_EQ(says_across(set.front()), kind != "calculation" && kind != "arrest-corners") << kind;
      for (const Sheet& sheet : set)
        EXPECT_TRUE(says_across(sheet) || everything(sheet).find("PREDICTED, UNTESTED") != std::string::npos)
            << sheet.title;
    }
}

/// Every corner by its number, once, over as many pages as it takes, and beside them what governs.
TEST(CornersSheet, HoldsEveryCornerAndWhatEachGoverns) {
  for (const Dossier& dossier : arrested())
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b}) {
      const auto set = compose(dossier, Style{}, {font(), paper}, "arrest-corners");
      const std::size_t corners = dossier.judged.rig.arrest.solved()->corners.size();
      std::multiset<std::string> seen;
      std::string all;
      for (const Sheet& sheet : set) {
        EXPECT_GT(sheet.width_mm, sheet.height_mm) << "landscape";
        for (const auto& entity : sheet.drawing.entities)
          if (const auto* label = std::get_if<Label>(&entity)) seen.insert(label->text);
        all += everything(sheet);
      }
      for (std::size_t corner = 1; corner <= corners; ++corner)
        EXPECT_GE(seen.count(std::to_string(corner)), 1u) << corner << " of " << corners;
      EXPECT_NE(all.find("WHAT GOVERNS THE ARREST"), std::string::npos);
      EXPECT_NE(all.find("farthest stop"), std::string::npos) << "which corner it is said of";
    }
}

TEST(ArrestSheets, CurvesOfTheBrakingChartDifferInTheirLines) {
  const Sheet sheet = one_sheet(arrested().front(), PaperSize::a3, "arrest-chart");
  std::set<LineType> types;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->pen.layer == Layer::braking_line)
      types.insert(stroke->pen.type);
  EXPECT_EQ(types.size(), arrested().front().arrest->chart->curves.size());
}

TEST(ArrestSheets, AreLeftOutWhereNoneWasAskedForAndWhereNoArrestIsSolved) {
  for (const std::string_view kind : kinds) EXPECT_TRUE(compose(demo(), Style{}, {font()}, kind).empty());
  Dossier without = unsolved();
  without.arrest = std::make_shared<const ArrestFigures>(arrest_figures(without.judged.rig));
  for (const std::string_view kind : kinds) EXPECT_TRUE(compose(without, Style{}, {font()}, kind).empty());
}

TEST(PaleLettering, LiesBehindLinesAndLettersButNotOutsideTheFrame) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  canvas.text({10, 10}, "PREDICTED", 14, Layer::grid);
  std::get<Label>(drawing.entities.back()).pale = true;
  canvas.line({{0, 15}, {100, 15}}, {narrow_mm, LineType::continuous, Layer::grid});
  canvas.text({20, 12}, "12", small_cap_mm, Layer::grid);
  EXPECT_EQ(faults(drawing, font(), {0, 0, 200, 50}), std::vector<std::string>{});
  EXPECT_EQ(faults(drawing, font(), {0, 0, 50, 50}).size(), 2u) << "the lettering and the line";
}

}  // namespace
}  // namespace fairlead::sheets
