// Pages as they were last looked at: what changes on one is shown, old, new and the difference, before it is believed.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "geometry/studies/arrest_figures.hpp"
#include "report/formats/svg.hpp"
#include "tests/report/sheets/demo_sheets.hpp"
#include "tests/report/sheets/golden_page.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

const std::string folder = FAIRLEAD_SOURCE_DIR "/tests/report/sheets/golden/";
const std::string pictures = FAIRLEAD_BINARY_DIR "/golden_pages/";

void write(const std::string& name, const std::string& text) {
  std::ofstream file(name, std::ios::binary);
  file << text;
  ASSERT_TRUE(file.good()) << name;
}
std::string read(const std::string& name) {
  std::ifstream file(name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string picture(const Sheet& sheet, const std::string& name) {
  const auto svg = formats::svg({sheet}, font(), {});
  EXPECT_TRUE(svg.has_value());
  std::filesystem::create_directories(pictures);
  if (svg) write(pictures + name, *svg);
  return pictures + name;
}

/// The page as it is against the page as it was; written anew where that is asked for.
void hold(const std::string& name, const Sheet& is) {
  const std::string file = folder + name + ".txt";
  if (std::getenv("FAIRLEAD_RENEW_GOLDEN_PAGES")) return write(file, golden_text(is));
  ASSERT_TRUE(std::filesystem::exists(file)) << "the target golden_pages makes it";
  const Sheet was = golden_sheet(read(file));
  const GoldenDifference difference = golden_difference(was, is);
  if (difference.none()) return;
  const std::string old_page = picture(was, name + "_old.svg"), new_page = picture(is, name + "_new.svg"),
                    both = picture(both_pages(was, difference), name + "_difference.svg");
  ADD_FAILURE() << name << ": " << difference.only_was.entities.size() << " lines and texts went, "
                << difference.only_is.entities.size() << " came. Look at\n  " << old_page << "\n  " << new_page
                << "\n  " << both
                << " (went: red, came: green)\nand where it is right, renew them: target golden_pages";
}

TEST(GoldenPages, TheGeneralArrangementOfTheDemo) {
  hold("general_arrangement", one_sheet(shipped_dossier("marten_ridge.toml"), PaperSize::a3, "general-arrangement"));
}

TEST(GoldenPages, TheSectionAndIsometricOfTheTreeSite) {
  hold("section_and_isometric", one_sheet(shipped_dossier("larch_spur.toml"), PaperSize::a3, "section-and-isometric"));
}

TEST(GoldenPages, TheAnchorLoadsOfTheTreeSite) {
  hold("anchor_loads", compose(shipped_dossier("larch_spur.toml"), Style{}, {font()}, "anchor-loads").at(0));
}

TEST(GoldenPages, TheBrakingChartOfTheOneToOneSiteInFeetAndInches) {
  Dossier dossier = shipped_dossier("heron_gully.toml");
  dossier.arrest = std::make_shared<const ArrestFigures>(ArrestFigures{.chart = braking_chart(dossier.judged.rig)});
  hold("braking_chart", compose(dossier, Style{Units::us}, {font(), PaperSize::ansi_b}, "arrest-chart").at(0));
}

TEST(GoldenPages, TheCrewsFirstPage) {
  hold("crew", compose_crew(shipped_dossier("sable_weir.toml"), Style{Units::si}, {font(), PaperSize::a4}).at(0));
}

// The file keeps what is held against it, and a difference is one.
TEST(GoldenPages, AreReadAsTheyWereWrittenAndShowWhatMovedAndWhatWasReworded) {
  Sheet page{"A page", 420, 297, {}};
  const Canvas canvas(page.drawing, font());
  canvas.text({10, 20}, "rest  mark", 2.5, Layer::text);
  canvas.text({10, 40}, "12.345", 1.8, Layer::dimensions, Align::left, 1.5);
  canvas.line({{1, 2}, {30.04, 40}}, {0.35, LineType::dashed, Layer::loads});
  canvas.box({50, 50, 60, 60}, {0, LineType::continuous, Layer::anchors}, Fill::ink);
  const Sheet again = golden_sheet(golden_text(page));
  EXPECT_EQ(again.title, page.title);
  EXPECT_EQ(again.width_mm, 420);
  EXPECT_TRUE(golden_difference(again, page).none());
  Sheet moved = page;
  std::get<Stroke>(moved.drawing.entities[2]).path[1].x_mm += 0.3;
  std::get<Label>(moved.drawing.entities[0]).text = "rest mark";
  const GoldenDifference difference = golden_difference(again, moved);
  EXPECT_EQ(difference.only_was.entities.size(), 2u);
  EXPECT_EQ(difference.only_is.entities.size(), 2u);
  EXPECT_EQ(difference.both.entities.size(), 2u);
  moved = page;
  moved.drawing.entities.pop_back();
  EXPECT_EQ(golden_difference(again, moved).only_was.entities.size(), 1u);
}

}  // namespace
}  // namespace fairlead::sheets
