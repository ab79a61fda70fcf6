// Frame, zones, title block: what every sheet carries. Figures: sources SHEET and BLOCK.
#include <gtest/gtest.h>

#include <set>

#include "report/drawing/overlap.hpp"
#include "report/sheets/furniture.hpp"
#include "report/words/cautions.hpp"
#include "report/words/version.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

TEST(Frame, MarginsAreTwentyLeftAndTenElsewhere) {
  const Stationery a3 = stationery(PaperSize::a3), b = stationery(PaperSize::ansi_b);
  EXPECT_EQ(a3.width_mm, 420);
  EXPECT_EQ(a3.height_mm, 297);
  EXPECT_DOUBLE_EQ(b.width_mm, 431.8);
  EXPECT_DOUBLE_EQ(b.height_mm, 279.4);
  for (const Stationery& s : {a3, b}) {
    EXPECT_EQ(s.frame.left, 20);
    EXPECT_EQ(s.frame.bottom, 10);
    EXPECT_DOUBLE_EQ(s.frame.right, s.width_mm - 10);
    EXPECT_DOUBLE_EQ(s.frame.top, s.height_mm - 10);
  }
}

TEST(Frame, A3HasEightZonesAcrossAndSixDownLetteredFromTheTopWithoutI) {
  Sheet sheet{"frame", 420, 297, {}};
  draw_frame(Canvas(sheet.drawing, font()), stationery(PaperSize::a3));
  std::multiset<std::string> found;
  double a_y = 0, f_y = 0;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      found.insert(label->text);
      EXPECT_EQ(label->cap_mm, 3.5);
      if (label->text == "A") a_y = label->at.y_mm;
      if (label->text == "F") f_y = label->at.y_mm;
    }
  std::multiset<std::string> want;
  for (const char* zone : {"1", "2", "3", "4", "5", "6", "7", "8", "A", "B", "C", "D", "E", "F"}) {
    want.insert(zone);
    want.insert(zone);
  }
  EXPECT_EQ(found, want);
  EXPECT_GT(a_y, f_y);
  EXPECT_TRUE(faults(sheet.drawing, font(), {0, 0, 420, 297}).empty());
}

// 10 mm long from the border, which lies 5 mm outside the frame (source SHEET).
TEST(Frame, ItsCentringMarksReachFiveMillimetresIntoIt) {
  for (const bool foot_taken : {false, true}) {
    Sheet sheet{"frame", 420, 297, {}};
    const Stationery s = stationery(PaperSize::a3);
    draw_frame(Canvas(sheet.drawing, font()), s, foot_taken);
    const auto marks = centring_marks(sheet, s.frame);
    EXPECT_EQ(marks.size(), foot_taken ? 3u : 4u);
    for (const Box& mark : marks) {
      EXPECT_NEAR(std::max(mark.width(), mark.height()), 5, 1e-9);
      EXPECT_NEAR(std::min(mark.width(), mark.height()), 0.7, 1e-9);
    }
  }
}

TEST(TitleBlock, ItIsOneHundredAndEightyWideInTheLowerRightCorner) {
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b}) {
    const Stationery s = stationery(paper);
    const Box corner = title_corner(s, demo_layout());
    EXPECT_DOUBLE_EQ(corner.width(), 180);
    EXPECT_DOUBLE_EQ(corner.right, s.frame.right);
    EXPECT_DOUBLE_EQ(corner.bottom, s.frame.bottom);
  }
}

TEST(TitleBlock, ItNamesTheLayoutByItsHashTheProgramAndWhatItIsNot) {
  const Sheet sheet = one_sheet(demo());
  const Layout& layout = demo().judged.rig.layout;
  for (const std::string& text :
       {layout.project.owner.value, layout.project.title.value, layout.project.number.value,
        layout.sha256.substr(0, 12), "fairlead " + std::string(words::program_version()), std::string("1 / 1"),
        std::string("2026-10-30"), std::string("Calculation aid, not an approval")})
    EXPECT_TRUE(says(sheet, text)) << text;
  EXPECT_EQ(layout.sha256.size(), 64u);
}

TEST(TitleBlock, WithoutANamedApproverTheSheetIsNotForConstruction) {
  EXPECT_FALSE(demo().judged.rig.layout.project.approver);
  EXPECT_TRUE(says(one_sheet(demo()), "NOT FOR CONSTRUCTION"));
  const Sheet approved = one_sheet(judged({{"project.approver", "\"R. Haas, P.E.\""}}));
  EXPECT_FALSE(says(approved, "NOT FOR CONSTRUCTION"));
  EXPECT_TRUE(says(approved, "R. Haas, P.E."));
  EXPECT_TRUE(says(approved, "Calculation aid, not an approval"));
}

TEST(TitleBlock, TheNewestRevisionStandsOnTopAndLeftOutOnesAreCounted) {
  Layout layout = demo_layout();
  layout.project.history.clear();
  for (int i = 1; i <= 5; ++i)
    layout.project.history.push_back(
        {std::string(1, static_cast<char>('A' + i)), "change", "M. O.", {Date{2026, i, 1}, {}}});
  Sheet sheet{"block", 420, 297, {}};
  draw_title_block(Canvas(sheet.drawing, font()), stationery(PaperSize::a3), layout, {"t", "d", "1:100", 1, 1});
  double newest = 0, oldest = 0;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      if (label->text == "2026-05-01") newest = label->at.y_mm;
      if (label->text == "2026-03-01") oldest = label->at.y_mm;
    }
  EXPECT_GT(newest, oldest);
  EXPECT_GT(oldest, 0);
  EXPECT_TRUE(says(sheet, "Change (2 earlier in the layout file)"));
  EXPECT_FALSE(says(sheet, "2026-02-01"));
}

TEST(TitleBlock, ADatumOfManyWordsStandsThereWhole) {
  Layout layout = demo_layout();
  layout.site.datum = Words{"site grid, bolt S1 at the foot of the spur tower", {}};
  Sheet sheet{"block", 420, 297, {}};
  draw_title_block(Canvas(sheet.drawing, font()), stationery(PaperSize::a3), layout, {"t", "d", "1:100", 1, 1});
  EXPECT_NE(everything(sheet).find(layout.site.datum->value), std::string::npos) << everything(sheet);
  EXPECT_EQ(everything(sheet).find("…"), std::string::npos);
}

TEST(TitleBlock, LongEntriesAreWrittenSmallerThenOnMoreLinesThenCutVisiblyAndNeverOverlap) {
  Layout layout = demo_layout();
  const std::string full = "An owner with a name that goes on and on beyond what any field of any title block can hold";
  layout.project.owner.value = layout.project.title.value = layout.project.number.value = layout.site.name.value = full;
  Sheet sheet{"block", 420, 297, {}};
  draw_title_block(Canvas(sheet.drawing, font()), stationery(PaperSize::a3), layout, {"t", "d", "1:100", 1, 1});
  for (const std::string& fault : faults(sheet.drawing, font(), stationery(PaperSize::a3).frame))
    ADD_FAILURE() << fault;
  EXPECT_NE(everything(sheet).find("…"), std::string::npos);
}

TEST(Sheets, EveryCautionStandsOnThem) {
  const std::string all = everything(one_sheet(demo()));
  for (const std::string_view caution : words::cautions()) EXPECT_NE(all.find(caution), std::string::npos) << caution;
}

TEST(Sheets, OneKindCanBeAskedForByName) {
  EXPECT_EQ(compose(demo(), Style{}, {font()}, "general-arrangement").size(), 1u);
  EXPECT_TRUE(compose(demo(), Style{}, {font()}, "no such sheet").empty());
}

}  // namespace
}  // namespace fairlead::sheets
