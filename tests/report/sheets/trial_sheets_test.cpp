// The sheets of the unmanned tests: legible, said to be predicted, and a row for every test to be filled in.
#include <gtest/gtest.h>

#include "geometry/studies/arrest_figures.hpp"
#include "geometry/trial/trial.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

const std::vector<Dossier>& planned() {
  static const std::vector<Dossier> all = [] {
    std::vector<Dossier> made;
    for (const std::string& file : shipped_layouts()) {
      Dossier dossier = shipped_dossier(file);
      dossier.trial = std::make_shared<const trial::Trial>(trial::Trial{.plan = trial::plan(dossier.judged.rig)});
      made.push_back(std::move(dossier));
    }
    return made;
  }();
  return all;
}

TEST(TrialSheets, StayInsideTheirFramesAndNothingOverlaps) {
  for (const Dossier& dossier : planned())
    for (const std::string_view kind : {"trial", "trial-record"})
      for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
        for (const Units units : {Units::both, Units::us}) {
          const auto set = compose(dossier, Style{units}, {font(), paper}, kind);
          EXPECT_FALSE(set.empty()) << dossier.judged.rig.layout.project.title.value << ' ' << kind;
          for (const Sheet& sheet : set) {
            EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
            EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}),
                      std::vector<std::string>{})
                << dossier.judged.rig.layout.project.title.value << ' ' << sheet.title;
          }
        }
}

TEST(TrialSheets, SayThatNothingWasTriedYetAndWhenToStop) {
  for (const Dossier& dossier : planned()) {
    const auto set = compose(dossier, Style{}, {font()}, "trial");
    ASSERT_FALSE(set.empty());
    std::string all;
    for (const Sheet& sheet : set) all += everything(sheet);
    EXPECT_NE(all.find("PREDICTED, UNTESTED"), std::string::npos);
    EXPECT_NE(all.find("the backup brake met"), std::string::npos);
    EXPECT_NE(all.find("nobody hangs on the main line"), std::string::npos);
  }
}

TEST(TrialSheets, TheRecordHasARowForEveryTestAndFillsInNothingThatIsMeasured) {
  for (const Dossier& dossier : planned()) {
    const auto set = compose(dossier, Style{}, {font()}, "trial-record");
    ASSERT_FALSE(set.empty());
    for (const trial::Test& test : dossier.trial->plan->tests)
      EXPECT_EQ(std::ranges::count_if(set, [&](const Sheet& sheet) { return says(sheet, test.id); }), 1) << test.id;
  }
}

// A chart with one tested point is no longer untested there, and says which it is; the rest of it still is.
TEST(TrialSheets, TheBrakingChartSaysWhatWasTestedByItsName) {
  Dossier dossier = shipped_dossier("heron_gully.toml");
  const Rig& rig = dossier.judged.rig;
  dossier.arrest = std::make_shared<const ArrestFigures>(ArrestFigures{.chart = braking_chart(rig)});
  trial::Trial trial{.plan = trial::plan(rig)};
  auto rows = read_trial_results(
      "test,quantity,value,unit,uncertainty\nM5,arrival_speed,4.9,m/s,0.1\nM5,stopping_travel,5.1,m,0.1\n"
      "M6,arrival_speed,5,m/s,0.1\n");
  ASSERT_TRUE(rows);
  auto results = trial::compare(rig, *trial.plan, "tests.csv", std::move(*rows));
  ASSERT_TRUE(results);
  trial.results = std::move(*results);
  dossier.trial = std::make_shared<const trial::Trial>(std::move(trial));
  // The plan beside it says of every test how it was made, or that it was not.
  const Table masses = tables::trial_masses(dossier, Style{});
  ASSERT_EQ(masses.headings.back(), "as it was made");
  for (const auto& row : masses.rows) {
    const std::string &id = std::get<std::string>(row.front()), &made = std::get<std::string>(row.back());
    if (id == "M5" || id == "M6")
      EXPECT_NE(made.find(" kg from "), std::string::npos) << id << ' ' << made;
    else
      EXPECT_EQ(made, "not made") << id;
  }
  const Sheet sheet = one_sheet(dossier, PaperSize::a3, "arrest-chart");
  // Every curve is named where it ends, and above the plot by a sample of its line.
  for (const BrakingChart::Curve& curve : dossier.arrest->chart->curves) {
    const std::string mass = words::shown(curve.rider_kg, Dimension::mass, Style{});
    EXPECT_EQ(std::ranges::count_if(sheet.drawing.entities,
                                    [&](const auto& entity) {
                                      const auto* label = std::get_if<Label>(&entity);
                                      return label && label->text == mass;
                                    }),
              2)
        << mass;
  }
  EXPECT_TRUE(says(sheet, "M5"));
  EXPECT_FALSE(says(sheet, "M6"));  // where it stopped was not read
  EXPECT_TRUE(says(sheet, "PREDICTED; TESTED WHERE RINGED"));
  EXPECT_FALSE(says(sheet, "PREDICTED, UNTESTED"));
  EXPECT_NE(everything(sheet).find("What is not ringed is untested."), std::string::npos);
  EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}), std::vector<std::string>{});
}

TEST(TrialSheets, AreNotDrawnWithoutAPlan) {
  EXPECT_TRUE(compose(shipped_dossier("heron_gully.toml"), Style{}, {font()}, "trial").empty());
}

}  // namespace
}  // namespace fairlead::sheets
