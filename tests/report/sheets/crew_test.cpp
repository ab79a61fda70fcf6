// What a crew takes up the pole: nothing hidden, nothing too small to read, every number the solver's own.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/studies/line_offsets.hpp"
#include "geometry/studies/set_out_points.hpp"
#include "report/sheets/crew_words.hpp"
#include "report/sheets/furniture.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/marks.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/held_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

const char* const shipped[] = {"heron_gully.toml", "marten_ridge.toml", "marten_ridge_downstream.toml",
                               "larch_spur.toml", "sable_weir.toml"};

/// The pages say nothing of what is judged, so that a solved rig is all they take.
Dossier solved_only(const Layout& layout) {
  Dossier dossier;
  dossier.judged.rig = solve(layout);
  return dossier;
}

std::vector<std::string> wrong_with(const Sheet& page, PaperSize paper) {
  const Stationery s = stationery(paper);
  std::vector<std::string> all = faults(page.drawing, font(), {0, 0, s.width_mm, s.height_mm});
  for (std::string& text : outside_frame(page, paper)) all.push_back("outside the frame: " + text);
  for (const auto& entity : page.drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity); label && !(label->cap_mm >= 3.5))
      all.push_back("too small to read: " + label->text);
  return all;
}

/// All pages of one heading as one text.
std::string pages_of(const std::vector<Sheet>& pages, const std::string& id) {
  std::string all;
  for (const Sheet& page : pages)
    if (page.title == "Crew sheet " + id) all += everything(page);
  return all;
}

TEST(CrewSheets, LetteringIsClearLargeEnoughAndInsideTheFrameOnEveryPageOfEveryShippedLayout) {
  for (const char* file : shipped) {
    const Dossier& dossier = shipped_dossier(file);
    for (const PaperSize paper : {PaperSize::a4, PaperSize::ansi_a})
      for (const Units units : {Units::si, Units::us})
        for (const Sheet& page : compose_crew(dossier, Style{units}, {font(), paper}))
          EXPECT_EQ(wrong_with(page, paper), std::vector<std::string>{}) << file << ' ' << page.title;
  }
}

TEST(CrewSheets, NoNumberIsPartedFromItsUnit) {
  for (const char* file : shipped)
    for (const Sheet& page : compose_crew(shipped_dossier(file), Style{Units::si}, {font()}))
      for (const auto& entity : page.drawing.entities)
        if (const auto* label = std::get_if<Label>(&entity)) {
          EXPECT_NE(label->text, "m") << file << ' ' << page.title;
        }
}

TEST(CrewSheets, TheNumbersAreTheSolversOffsetsWithTheirSidesInWords) {
  for (const char* file : shipped) {
    const Dossier& dossier = shipped_dossier(file);
    const Rig& rig = dossier.judged.rig;
    const auto pages = compose_crew(dossier, Style{}, {font()});
    for (const SetOutPoint& point : set_out_points(rig)) {
      if (point.item.kind != Item::Kind::anchor || point.mark != Mark::bearing_point) continue;
      const std::string all = pages_of(pages, point.id);
      const auto anchor = static_cast<AnchorId>(point.item.index);
      const MainLine& line = rig.layout.main_line;
      if (anchor == line.from || anchor == line.to) {
        for (const double m : {point.at->x, point.at->y, point.at->z})
          EXPECT_NE(all.find(words::travel(m, Style{})), all.npos) << file << ' ' << point.id;
        continue;
      }
      EXPECT_NE(all.find(words::shown(rig.layout, *point.at, Style{})), all.npos) << file << ' ' << point.id;
      const auto offset = offset_from_line(rig, *point.at);
      if (!offset) continue;
      for (const auto& told : {words::up_of(offset->up_m, Style{}), words::across_of(offset->across_m, Style{}),
                               words::from_rest_of(offset->from_rest_m, Style{})})
        EXPECT_NE(all.find(told.side + ' ' + told.distance), all.npos) << file << ' ' << point.id << told.side;
    }
  }
}

TEST(CrewSheets, ASideIsToldByTheSignAndNoSideByWhatIsLeftToPrint) {
  EXPECT_EQ(words::up_of(1.2344, {}).side, "UP");
  EXPECT_EQ(words::up_of(1.2344, {}).distance, "1.234 m");
  EXPECT_EQ(words::up_of(-1.2344, {}).side, "DOWN");
  EXPECT_EQ(words::up_of(-1.2344, {}).distance, "1.234 m");
  EXPECT_EQ(words::across_of(0.02, {}).side, "LEFT");
  EXPECT_EQ(words::across_of(-0.02, {}).side, "RIGHT");
  EXPECT_EQ(words::from_rest_of(2, {}).side, "DOWNSTREAM");
  EXPECT_EQ(words::from_rest_of(-2, {}).side, "UPSTREAM");
  EXPECT_EQ(words::across_of(-0.0004, {}).side, "IN LINE");
  EXPECT_EQ(words::across_of(0.0006, {}).side, "LEFT");
}

TEST(CrewSheets, TheTemperatureOfTheLineStandsWithTheNumbers) {
  const std::string all = pages_of(compose_crew(solved_only(demo_layout()), Style{}, {font()}), "A3");
  EXPECT_NE(all.find("bare main line at 12.0 °C"), all.npos);
  EXPECT_NE(all.find("at −15.0 °C"), all.npos);
  EXPECT_NE(all.find("at 35.0 °C"), all.npos);
}

TEST(CrewSheets, EveryAnchorHasAPageAndEveryPageItsNumberItsHashAndTheCautions) {
  const Dossier dossier = solved_only(demo_layout());
  const auto pages = compose_crew(dossier, Style{}, {font()});
  for (const Anchor& anchor : dossier.judged.rig.layout.anchors)
    EXPECT_NE(pages_of(pages, anchor.id), "") << anchor.id.value;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string all = everything(pages[i]);
    for (const std::string& text :
         {fmt::format("Sheet {} / {}", i + 1, pages.size()), dossier.judged.rig.layout.sha256.substr(0, 12),
          std::string("HG-L2-ARR, rev. B"), std::string("NOT FOR CONSTRUCTION"),
          std::string("Calculation aid, not an approval"), std::string(words::cautions()[1])})
      EXPECT_NE(all.find(text), all.npos) << pages[i].title << ": " << text;
  }
}

TEST(CrewSheets, EveryMarkThatIsSetOutStandsOnAPageWithItsCoordinates) {
  std::vector<Dossier> dossiers{solved_only(swivelling_redirect()), solved_only(free_redirect())};
  for (const char* file : shipped) dossiers.push_back(shipped_dossier(file));
  for (const Dossier& dossier : dossiers) {
    const Rig& rig = dossier.judged.rig;
    std::string all;
    for (const Sheet& page : compose_crew(dossier, Style{}, {font()})) all += everything(page);
    for (const SetOutPoint& point : set_out_points(rig)) {
      EXPECT_NE(all.find(point.id), all.npos);
      const auto anchor = static_cast<AnchorId>(point.item.index);
      if (point.mark == Mark::bearing_point && crew::holds_main_line(rig.layout, anchor)) continue;
      EXPECT_NE(all.find(words::shown(rig.layout, *point.at, Style{})), all.npos) << point.id;
    }
  }
}

TEST(CrewSheets, TheRestMarkIsTapedAlongTheLineFromTheLandingSupport) {
  const Dossier dossier = solved_only(demo_layout());
  const auto pages = compose_crew(dossier, Style{}, {font()});
  EXPECT_EQ(pages.front().title, "Crew sheet rest") << "what others are measured from comes first";
  const std::string all = pages_of(pages, "rest");
  for (const double chainage_m : {188.0, 204.5})
    for (const double m : {*taped_along_line_m(dossier.judged.rig, chainage_m, 220), 220 - chainage_m, chainage_m})
      EXPECT_NE(all.find(words::travel(m, Style{})), all.npos) << m;
}

// Own computation: the demo's main line runs toward (0.8, 0.6), so that the left end of an axle square to it bears
// atan2(-0.6, 0.8) = -36.87 degrees from north, clockwise.
TEST(CrewSheets, AnAxleIsToldByItsLeftEndItsAngleWithTheLineAndItsTilt) {
  const std::string all = pages_of(compose_crew(solved_only(demo_layout()), Style{}, {font()}), "A3");
  EXPECT_NE(all.find("axle of R1"), all.npos);
  for (const char* words : {"left end bears 323.1°", "clockwise from north", "square to the main", "level"})
    EXPECT_NE(all.find(words), all.npos) << words;
}

TEST(CrewSheets, ATurnedAndTiltedAxleSaysWhichWay) {
  // Across and along of the demo: (-0.6, 0.8) and (0.8, 0.6); 2 degrees toward the landing, then 3 degrees up.
  const double turn = 2 * std::numbers::pi / 180, rise = std::tan(3 * std::numbers::pi / 180);
  const Rig rig = solve(demo_layout());
  Sheave sheave = rig.layout.sheaves.front();
  sheave.axle.value = std::cos(turn) * rig.frame.across + std::sin(turn) * rig.frame.along + rise * rig.frame.up;
  const auto words = crew::axle_of(rig, sheave).words;
  ASSERT_EQ(words.size(), 3u);
  EXPECT_EQ(words[1], "left end 2.0° off square, toward the landing");
  EXPECT_EQ(words[2], "left end 3.0° up");
  sheave.axle.value = -sheave.axle.value;
  EXPECT_EQ(crew::axle_of(rig, sheave).words, words) << "whichever end the author wrote";
}

TEST(CrewSheets, AnglesArePrintedWithoutMinusNoughtOrAFullTurn) {
  EXPECT_EQ(crew::degrees_of(-1e-5), "0.0°");
  EXPECT_EQ(crew::degrees_of(2 * std::numbers::pi - 1e-5), "0.0°");
  EXPECT_EQ(crew::degrees_of(std::numbers::pi / 8), "22.5°");
}

TEST(CrewSheets, OfAFreeSheaveTheEyeIsSetOutAndTheCentreIsToBeChecked) {
  const Dossier dossier = solved_only(free_redirect());
  const std::string all = pages_of(compose_crew(dossier, Style{}, {font()}), "A3");
  EXPECT_NE(all.find("free on a link of 0.400 m"), all.npos);
  EXPECT_NE(all.find("check, not set out"), all.npos);
  const auto centre = tables::centre_at_rest(dossier.judged.rig, 0);
  ASSERT_TRUE(centre);
  EXPECT_NE(all.find(words::shown(dossier.judged.rig.layout, *centre, Style{})), all.npos);
  EXPECT_EQ(all.find("axle of R1"), all.npos) << "nobody turns it";
}

TEST(CrewSheets, TheBoxOfAllMarksStandsOnThemOnlyWhereItWasFound) {
  Dossier dossier = solved_only(demo_layout());
  const auto a3 = [&] { return pages_of(compose_crew(dossier, Style{}, {font()}), "A3"); };
  EXPECT_NE(a3().find("Windows not computed: set out to the numbers."), std::string::npos);

  dossier.placement.emplace();
  dossier.placement->points = set_out_points(dossier.judged.rig);
  dossier.placement->box = fairlead::unsolved("a check fails as drawn");
  EXPECT_NE(a3().find("Not known: a check fails as drawn. Set out to the numbers."), std::string::npos);

  ToleranceBox box;
  double next_m = 0;
  for (std::size_t p = 0; p < dossier.placement->points.size(); ++p)
    for (const FrameAxis axis : {FrameAxis::along, FrameAxis::across, FrameAxis::up}) {
      dossier.placement->axes.push_back({p, axis});
      box.amount.push_back(next_m += 1e-3);
    }
  box.judged = 517;
  dossier.placement->box = box;
  const std::string all = a3();
  EXPECT_NE(all.find("517 combinations judged, between them estimated, not proven."), std::string::npos);
  // The third mark, after both supports of the main line: its amounts are the seventh to the ninth.
  EXPECT_NE(all.find("A3 ± 7 mm ± 8 mm ± 9 mm"), std::string::npos) << all;
  for (const Sheet& page : compose_crew(dossier, Style{}, {font()}))
    EXPECT_EQ(wrong_with(page, PaperSize::a4), std::vector<std::string>{}) << page.title;
}

TEST(CrewSheets, TheTapesOfEveryMarkStandOnItsPageWithTheCheckAndTheMirrorOrWhyThereAreNone) {
  for (const char* file : shipped) {
    Dossier dossier = shipped_dossier(file);
    const Rig& rig = dossier.judged.rig;
    dossier.setting_out = setting_out(rig);
    const SettingOut& out = *dossier.setting_out;
    for (const PaperSize paper : {PaperSize::a4, PaperSize::ansi_a})
      for (const Sheet& page : compose_crew(dossier, Style{}, {font(), paper}))
        EXPECT_EQ(wrong_with(page, paper), std::vector<std::string>{}) << file << ' ' << page.title;
    const auto pages = compose_crew(dossier, Style{}, {font()});
    for (std::size_t i = 0; i < out.ties.size(); ++i) {
      const SetOutPoint& point = out.marks[i].point;
      if (point.mark != Mark::bearing_point && point.mark != Mark::rest_mark) continue;
      const std::string all = pages_of(pages, point.id);
      if (!out.ties[i]) {
        EXPECT_NE(all.find(point.id + ": none: "), all.npos) << file << ' ' << point.id;
        continue;
      }
      for (const Tie& tie : out.ties[i]->ties) {
        const auto end = static_cast<std::size_t>(tie.from), pegs = out.tape_ends.size() - out.marks.size();
        const std::string from = out.tape_ends[end];
        const double straight_m =
            norm(*point.at - (end < pegs ? (*rig.layout.points->pegs)[end].at : *out.marks[end - pegs].point.at));
        EXPECT_NE(all.find(from + ' ' + words::travel(straight_m, Style{})), all.npos)
            << file << ' ' << point.id << " from " << from;
      }
    }
  }
}

TEST(CrewSheets, ATapeToTheRestMarkIsSaidToHoldAtOneTemperatureOnly) {
  Dossier dossier = shipped_dossier("larch_spur.toml");
  dossier.setting_out = setting_out(dossier.judged.rig);
  const auto pages = compose_crew(dossier, Style{}, {font()});
  const std::string caution = "Tapes to the rest mark: on the bare main line at 12.0 °C only";
  EXPECT_NE(pages_of(pages, "A3").find(caution), std::string::npos) << "tied to it";
  EXPECT_NE(pages_of(pages, "rest").find(caution), std::string::npos);
  EXPECT_EQ(pages_of(pages, "B1").find(caution), std::string::npos) << "tied to others";
}

TEST(CrewSheets, WithoutTapesTheySaySo) {
  EXPECT_NE(pages_of(compose_crew(solved_only(demo_layout()), Style{}, {font()}), "A3").find("TAPES Not computed."),
            std::string::npos);
}

TEST(CrewSheets, AUnitOutOfReachOfItsAnchorHasAPageOfItsOwn) {
  EXPECT_EQ(pages_of(compose_crew(solved_only(demo_layout()), Style{}, {font()}), "unit"), "");
  Layout layout = demo_layout();
  for (Anchor& anchor : layout.anchors)
    if (anchor.id.value == "B1") anchor.position.value.z -= 1.5;
  const auto pages = compose_crew(solved_only(layout), Style{}, {font()});
  EXPECT_NE(pages_of(pages, "unit").find("outlet of the brake unit"), std::string::npos);
  EXPECT_EQ(pages_of(pages, "B1").find("outlet"), std::string::npos);
  for (const Sheet& page : pages) EXPECT_EQ(wrong_with(page, PaperSize::a4), std::vector<std::string>{}) << page.title;
}

TEST(CrewSheets, WithANamedApproverTheyAreForConstructionAndStillNoApproval) {
  for (const Sheet& page :
       compose_crew(solved_only(demo_layout({{"project.approver", "\"R. Haas, P.E.\""}})), Style{}, {font()})) {
    EXPECT_EQ(everything(page).find("NOT FOR CONSTRUCTION"), std::string::npos);
    EXPECT_TRUE(says(page, "Calculation aid, not an approval"));
    EXPECT_TRUE(says(page, "Approved: R. Haas, P.E."));
  }
}

TEST(CrewSheets, TheirPaperFollowsTheOfficesAndStandsUpright) {
  const Dossier dossier = solved_only(demo_layout());
  for (const auto& [office, page] : {std::pair{PaperSize::a3, PaperSize::a4}, {PaperSize::ansi_b, PaperSize::ansi_a}}) {
    const Stationery want = stationery(page);
    EXPECT_LT(want.width_mm, want.height_mm);
    for (const Sheet& sheet : compose_crew(dossier, Style{}, {font(), office})) {
      EXPECT_EQ(sheet.width_mm, want.width_mm);
      EXPECT_EQ(sheet.height_mm, want.height_mm);
    }
  }
}

TEST(CrewSheets, TheyAreGrey) {
  for (const Sheet& page : compose_crew(solved_only(demo_layout()), Style{}, {font()})) EXPECT_TRUE(page.grey);
  for (int i = 0; i < layer_count; ++i) {
    const Colour grey = grey_of(layer_colour(static_cast<Layer>(i)));
    EXPECT_EQ(grey.red, grey.green);
    EXPECT_EQ(grey.red, grey.blue);
    EXPECT_LE(grey.red, 0.4) << "dark enough to read";
  }
}

TEST(CrewSheets, WithoutASolvedMainLineTheyStillSayWhereEverythingStands) {
  Dossier dossier = solved_only(demo_layout());
  dossier.judged.rig.main_line = {};
  const auto pages = compose_crew(dossier, Style{}, {font()});
  const std::string all = pages_of(pages, "A3");
  EXPECT_NE(all.find("A3, R1: not measured from the main line: not solved."), all.npos);
  EXPECT_NE(all.find("UP, from P2"), all.npos);
  for (const Sheet& page : pages) EXPECT_EQ(wrong_with(page, PaperSize::a4), std::vector<std::string>{}) << page.title;
}

TEST(CrewSheets, LongNamesAreWrappedOrCutVisiblyAndNeverOverlap) {
  Layout layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/larch_spur.toml", {}).value();
  const std::string full = "name that goes on and on beyond what any field of any page can hold";
  layout.project.owner.value = layout.project.title.value = layout.project.number.value = full;
  for (Anchor& anchor : layout.anchors) anchor.id.value += "_the_secondary_anchor_between_the_trees_upstream";
  for (Member& member : layout.members) member.id.value += "_guy_from_the_landing_poles_head";
  for (const PaperSize paper : {PaperSize::a4, PaperSize::ansi_a})
    for (const Sheet& page : compose_crew(solved_only(layout), Style{}, {font(), paper}))
      EXPECT_EQ(wrong_with(page, paper), std::vector<std::string>{}) << page.title;
}

}  // namespace
}  // namespace fairlead::sheets
