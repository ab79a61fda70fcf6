// The as-built sheets: legible, with what is off, what is allowed, the verdict and the way back.
#include "report/sheets/as_built.hpp"

#include <gtest/gtest.h>

#include "tests/demo_layout.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

/// The demo with its portal 37 mm to the left, the box of all marks found, tapes, shots on the line and a year before.
const AsBuilt& built() {
  static const AsBuilt it = [] {
    Survey survey{.points_file = "points.csv", .measurements_file = "tapes.csv", .terms = {.uncertainty_m = 2e-3}};
    for (const SetOutPoint& mark : set_out_points(solve(demo_layout()))) {
      const bool moved = mark.id == "A3" || mark.id == "R1";
      survey.points.push_back({mark.id, moved ? *mark.at + 0.037 * Vec3{-0.6, 0.8, 0} : *mark.at, "",
                               static_cast<unsigned>(survey.points.size() + 1)});
    }
    survey.points.push_back({"main_line-1", {1288, 866, 334.6}, "", 8});
    const auto add = [&](const char* item, Measurand what, double value, double u) {
      survey.measurements.push_back({{.item = item, .value = value, .uncertainty = u, .line = 2}, what});
    };
    add("main_line", Measurand::temperature, 273.15 + 12, 0.5);
    add("A3 to B1", Measurand::distance, 29.006, 0.003);
    add("A3 to R1", Measurand::rise, -0.3, 0.003);
    survey.earlier = EarlierSurvey{"before.csv", survey.points, 2e-3, std::string(64, '0')};
    auto as_it_stands = as_built(demo_layout(), std::move(survey),
                                 {.draws = fewest_draws, .box = true, .hold_arrest = true}, {.threads = 2});
    if (!as_it_stands) throw std::runtime_error("refused");
    return std::move(*as_it_stands);
  }();
  return it;
}

TEST(AsBuiltSheets, StayInsideTheirFramesAndNothingOverlaps) {
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
    for (const Units units : {Units::both, Units::us}) {
      const auto set = compose_as_built(built(), Style{units}, {font(), paper});
      EXPECT_GE(set.size(), 2u);
      for (const Sheet& sheet : set) {
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
        EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}), std::vector<std::string>{})
            << sheet.title;
      }
    }
}

TEST(AsBuiltSheets, SayWhatIsOffWhatIsAllowedTheVerdictAndWhatTakesItBack) {
  std::string all;
  for (const Sheet& sheet : compose_as_built(built(), Style{Units::si}, {font()})) all += everything(sheet);
  for (const char* words :
       {"37.0 mm right", "allowed along / across / up", "TAPES AND RISES, ADJUSTED", "MOVED SINCE THE EARLIER SURVEY",
        "not shown to have moved", "by shots", "NOT MEASURED", "This is an aid to calculation, not an approval"})
    EXPECT_NE(all.find(words), std::string::npos) << words;
}

}  // namespace
}  // namespace fairlead::sheets
