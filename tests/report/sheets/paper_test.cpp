// Every size of paper, projection and scale a set may be drawn with.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "geometry/studies/arrest_figures.hpp"
#include "geometry/trial/trial.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

/// All that a set is drawn from.
Dossier whole(const std::string& layout) {
  Dossier dossier{judge(shipped_layout(layout))};
  dossier.setting_out = setting_out(dossier.judged.rig);
  dossier.arrest = std::make_shared<const ArrestFigures>(arrest_figures(dossier.judged.rig));
  return dossier;
}

// A3 and ANSI B are every other test's.
class LargePaper : public testing::TestWithParam<std::string> {};
TEST_P(LargePaper, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesTheFrame) {
  const Dossier dossier = whole(GetParam());
  for (const PaperSize paper : {PaperSize::a2, PaperSize::a1, PaperSize::ansi_c, PaperSize::ansi_d}) {
    const Stationery s = stationery(paper);
    const auto set = compose(dossier, Style{}, {font(), paper});
    EXPECT_GE(set.size(), 8u);
    for (const Sheet& sheet : set) {
      EXPECT_EQ(sheet.width_mm, s.width_mm);
      EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << s.name << ": " << sheet.title;
      EXPECT_EQ(near_centring_marks(sheet, s.frame), std::vector<std::string>{}) << s.name << ": " << sheet.title;
      for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
        ADD_FAILURE() << s.name << ", " << sheet.title << ": " << fault;
    }
    EXPECT_EQ(view_named(set.front(), "elevation").scale, view_named(set.front(), "plan").scale);
  }
}
INSTANTIATE_TEST_SUITE_P(Shipped, LargePaper, testing::ValuesIn(shipped_layouts()),
                         [](const auto& layout) { return layout.param.substr(0, layout.param.find('.')); });

class SmallPaper : public testing::TestWithParam<std::string> {};
TEST_P(SmallPaper, NothingOverlapsOrLeavesTheFrameAndWhatIsLeftOutIsSaid) {
  Dossier dossier = whole(GetParam());
  dossier.trial = std::make_shared<const trial::Trial>(trial::Trial{.plan = trial::plan(dossier.judged.rig)});
  for (const PaperSize paper : {PaperSize::a4, PaperSize::ansi_a}) {
    const Stationery s = stationery(paper);
    const auto set = compose(dossier, Style{}, {font(), paper});
    EXPECT_GE(set.size(), 8u);
    for (const Sheet& sheet : set) {
      EXPECT_EQ(sheet.height_mm, s.height_mm);
      EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << s.name << ": " << sheet.title;
      EXPECT_EQ(near_centring_marks(sheet, s.frame), std::vector<std::string>{}) << s.name << ": " << sheet.title;
      for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
        ADD_FAILURE() << s.name << ", " << sheet.title << ": " << fault;
      for (const std::string& one : sheet.left_out)
        EXPECT_NE(everything(sheet).find(one), std::string::npos) << "on the sheet itself: " << one;
    }
  }
}
INSTANTIATE_TEST_SUITE_P(Shipped, SmallPaper, testing::ValuesIn(shipped_layouts()),
                         [](const auto& layout) { return layout.param.substr(0, layout.param.find('.')); });

class AnyPaper : public testing::TestWithParam<std::string> {};
TEST_P(AnyPaper, NothingComesNearACentringMark) {
  const Dossier dossier = whole(GetParam());
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
    for (const Sheet& sheet : compose(dossier, Style{}, {font(), paper}))
      EXPECT_EQ(near_centring_marks(sheet, stationery(paper).frame), std::vector<std::string>{}) << sheet.title;
  for (const PaperSize paper : {PaperSize::a4, PaperSize::ansi_a})
    for (const Sheet& page : compose_crew(dossier, Style{}, {font(), paper}))
      EXPECT_EQ(near_centring_marks(page, stationery(paper).frame), std::vector<std::string>{}) << page.title;
}
INSTANTIATE_TEST_SUITE_P(Shipped, AnyPaper, testing::ValuesIn(shipped_layouts()),
                         [](const auto& layout) { return layout.param.substr(0, layout.param.find('.')); });

/// The words with a digit that the tables of a set say.
std::set<std::string> cells_of(const std::vector<Sheet>& set) {
  std::set<std::string> all;
  for (const Sheet& sheet : set)
    for (const auto& entity : sheet.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity); label && label->layer == Layer::tables)
        for (std::size_t from = 0; from < label->text.size();) {
          const std::size_t end = std::min(label->text.find(' ', from), label->text.size());
          const std::string word = label->text.substr(from, end - from);
          if (word.find_first_of("0123456789") != std::string::npos) all.insert(word);
          from = end + 1;
        }
  return all;
}

// Words, for a narrower column breaks a cell elsewhere.
TEST(SmallPaper, NoNumberOfATableIsMissing) {
  for (const std::string_view kind : {"findings", "setting-out", "anchor-loads", "schedules", "reeving"}) {
    const auto small = compose(demo(), Style{}, {font(), PaperSize::a4}, kind),
               large = compose(demo(), Style{}, {font(), PaperSize::a3}, kind);
    const auto there = cells_of(small);
    for (const std::string& word : cells_of(large)) EXPECT_TRUE(there.contains(word)) << kind << ": " << word;
  }
}

// ISO 216: 594 x 841 and 420 x 594; ANSI/ASME Y14.1: 17 x 22 and 22 x 34 inches (both from memory).
TEST(Paper, EverySizeIsItsStandards) {
  const std::pair<PaperSize, Paper> sizes[] = {{PaperSize::a1, {841, 594}},
                                               {PaperSize::a2, {594, 420}},
                                               {PaperSize::a3, {420, 297}},
                                               {PaperSize::a4, {210, 297}},
                                               {PaperSize::ansi_a, {8.5 * 25.4, 11 * 25.4}},
                                               {PaperSize::ansi_b, {17 * 25.4, 11 * 25.4}},
                                               {PaperSize::ansi_c, {22 * 25.4, 17 * 25.4}},
                                               {PaperSize::ansi_d, {34 * 25.4, 22 * 25.4}}};
  std::set<std::string_view> names;
  for (const auto& [size, mm] : sizes) {
    const Stationery s = stationery(size);
    EXPECT_DOUBLE_EQ(s.width_mm, mm.x_mm) << s.name;
    EXPECT_DOUBLE_EQ(s.height_mm, mm.y_mm) << s.name;
    EXPECT_EQ(s.first_angle, s.name.starts_with("A") && !s.name.starts_with("ANSI")) << s.name;
    EXPECT_TRUE(names.insert(s.name).second) << s.name;
  }
}

// Source SHEET: A2 has 12 zones across and 8 down, A1 16 and 12.
TEST(Paper, ZonesAreCountedAsTheStandardHasThem) {
  for (const auto& [paper, across, last_row] :
       {std::tuple{PaperSize::a2, 12, "H"}, {PaperSize::a1, 16, "M"}, {PaperSize::a3, 8, "F"}}) {
    const Sheet sheet = one_sheet(demo(), paper);
    EXPECT_TRUE(says(sheet, std::to_string(across))) << stationery(paper).name;
    EXPECT_FALSE(says(sheet, std::to_string(across + 1))) << stationery(paper).name;
    EXPECT_TRUE(says(sheet, last_row)) << stationery(paper).name;
  }
}

TEST(Paper, ALargerSheetHasNoSmallerScale) {
  const auto scale = [](PaperSize paper) { return view_named(one_sheet(demo(), paper), "elevation").scale; };
  EXPECT_LE(scale(PaperSize::a2), scale(PaperSize::a3));
  EXPECT_LE(scale(PaperSize::a1), scale(PaperSize::a2));
  EXPECT_LT(scale(PaperSize::a1), scale(PaperSize::a3));
}

TEST(Paper, TheProjectionIsTheOfficesWhateverThePaper) {
  const Point3 p = demo().judged.rig.layout.anchors[1].position;
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
    for (const bool first_angle : {true, false}) {
      Office office{font(), paper};
      office.first_angle = first_angle;
      const Sheet sheet = compose(demo(), Style{}, office, "general-arrangement").front();
      const double elevation = view_named(sheet, "elevation").of(p).y_mm, plan = view_named(sheet, "plan").of(p).y_mm;
      EXPECT_EQ(elevation > plan, first_angle) << "first angle: the plan below";
      EXPECT_NE(everything(sheet).find(first_angle ? "First-angle projection" : "Third-angle projection"),
                std::string::npos);
    }
}

TEST(Paper, AScaleIsTheOneAskedForOrThereIsNoArrangement) {
  Office office{font()};
  for (const double scale : arrangement_scales()) {
    office.scale = scale;
    for (const Sheet& sheet : compose(demo(), Style{}, office, "general-arrangement"))
      for (const View& view : sheet.drawing.views)
        if (view.name == "elevation" || view.name == "plan") {
          EXPECT_EQ(view.scale, scale);
        }
  }
  office.scale = 500;
  EXPECT_EQ(view_named(compose(demo(), Style{}, office, "general-arrangement").front(), "plan").scale, 500);
  office.scale = 20;
  for (const Sheet& sheet : compose(demo(), Style{}, office, "general-arrangement"))
    EXPECT_TRUE(sheet.drawing.views.empty()) << "38 m at 1:20 are wider than the sheet";
}

TEST(Paper, AnOfficeWithoutColourDrawsEverySheetInGrey) {
  Office office{font()};
  office.grey = true;
  for (const Sheet& sheet : compose(demo(), Style{}, office)) EXPECT_TRUE(sheet.grey) << sheet.title;
}

// 29 m are 95.14 ft, and 95 feet 1 3/4 inches (1 ft = 0.3048 m, source YP59).
TEST(Paper, DecimalFeetStandOnItAsWhatTheyAre) {
  const auto set = compose(demo(), Style{Units::us, true}, {font(), PaperSize::ansi_b});
  EXPECT_TRUE(says(set.front(), "95.14"));
  EXPECT_NE(everything(set.front()).find("Dimensions and levels in decimal feet, ft (tenths)"), std::string::npos);
  const auto feet = compose(demo(), Style{Units::us}, {font(), PaperSize::ansi_b});
  EXPECT_FALSE(says(feet.front(), "95.14"));
  for (const Sheet& sheet : set)
    for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
      ADD_FAILURE() << sheet.title << ": " << fault;
}

TEST(Index, EveryTitleInItLeadsToItsFirstSheetAndEverySheetBack) {
  const auto set = compose(demo(), Style{}, {font()});
  const Sheet& first = set.front();
  std::set<std::size_t> led_to;
  for (const Link& link : first.drawing.links) {
    ASSERT_LT(link.sheet, set.size());
    led_to.insert(link.sheet);
    // Words of the title stand where the link lies, and nothing else does.
    bool on_words = false;
    for (const auto& entity : first.drawing.entities) {
      const auto* label = std::get_if<Label>(&entity);
      if (!label || label->at.y_mm < link.lower_left.y_mm || label->at.y_mm > link.upper_right.y_mm) continue;
      const std::string& title = set[link.sheet].title;
      for (std::size_t n = title.size(); n > 0 && !on_words; --n)
        for (const std::string& part : {title.substr(0, n), title.substr(title.size() - n)}) {
          const std::size_t at = label->text.find(part);
          if (at == std::string::npos) continue;
          const double left = label->at.x_mm + font().width_mm(label->text.substr(0, at), label->cap_mm);
          on_words = on_words || (std::abs(left - link.lower_left.x_mm) < 1e-6 &&
                                  std::abs(left + font().width_mm(part, label->cap_mm) - link.upper_right.x_mm) < 1e-6);
        }
    }
    EXPECT_TRUE(on_words) << set[link.sheet].title;
  }
  for (std::size_t i = 1; i < set.size(); ++i) {
    if (set[i].title != set[i - 1].title) {
      EXPECT_TRUE(led_to.contains(i)) << set[i].title;
    }
    ASSERT_EQ(set[i].drawing.links.size(), 1u) << set[i].title;
    EXPECT_EQ(set[i].drawing.links.front().sheet, 0u);
  }
}

}  // namespace
}  // namespace fairlead::sheets
