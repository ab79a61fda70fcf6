// The sheet that a rig is set out by.
#include <gtest/gtest.h>

#include "geometry/studies/setting_out.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr std::string_view kind = "setting-out";

Dossier set_out(const std::string& file) {
  Dossier dossier = shipped_dossier(file);
  dossier.setting_out = setting_out(dossier.judged.rig);
  return dossier;
}

/// A box as a search could have found it; a search itself takes a second.
Placement placed(const Rig& rig) {
  Placement placement;
  placement.points = set_out_points(rig);
  placement.axes = point_axes(placement.points);
  ToleranceBox box;
  box.amount.assign(placement.axes.size(), 0.022);
  box.most = 0.1;
  box.step = 1e-3;
  box.judged = 122;
  placement.box = box;
  placement.windows = Windows{};
  placement.windows->variables = variables_of(placement.points, placement.axes, rig.frame);
  placement.windows->windows.assign(placement.axes.size(), {{.holds = 0.777}, {.holds = 0.777}});
  return placement;
}

std::string all_words(const std::vector<Sheet>& sheets) {
  std::string all;
  for (const Sheet& sheet : sheets)
    for (const auto& entity : sheet.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity)) all += label->text + '\n';
  return all;
}

TEST(SettingOutSheet, StaysInsideItsFrameAndOverlapsNothing) {
  for (const std::string& file : shipped_layouts()) {
    Dossier dossier = set_out(file);
    dossier.placement = placed(dossier.judged.rig);
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      for (const Sheet& sheet : compose(dossier, Style{}, {font(), paper}, kind)) {
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << file;
        const Box whole{0, 0, sheet.width_mm, sheet.height_mm};
        EXPECT_EQ(faults(sheet.drawing, font(), whole), std::vector<std::string>{}) << file;
      }
  }
}

TEST(SettingOutSheet, IsLeftOutWhereNothingWasSetOut) { EXPECT_TRUE(compose(demo(), Style{}, {font()}, kind).empty()); }

TEST(SettingOutSheet, TellsTheBoxOfAllMarksAndNeverASingleWindow) {
  Dossier dossier = set_out("heron_gully.toml");
  EXPECT_EQ(all_words(compose(dossier, Style{}, {font()}, kind)).find("BOX OF ALL MARKS"), std::string::npos);
  dossier.placement = placed(dossier.judged.rig);
  const std::string all = all_words(compose(dossier, Style{}, {font()}));
  EXPECT_NE(all.find("BOX OF ALL MARKS"), std::string::npos);
  EXPECT_NE(all.find("\u00B1 22 mm"), std::string::npos);
  EXPECT_EQ(all.find("777 mm"), std::string::npos);
  for (const Sheet& page : compose_crew(dossier, Style{}, {font()}))
    EXPECT_EQ(all_words({page}).find("777 mm"), std::string::npos) << page.title;
}

TEST(SettingOutSheet, SaysWhyThereIsNoBox) {
  Dossier dossier = set_out("heron_gully.toml");
  dossier.placement = placed(dossier.judged.rig);
  dossier.placement->box = fairlead::unsolved("2 findings do not pass as drawn and are not waived");
  EXPECT_NE(all_words(compose(dossier, Style{}, {font()}, kind)).find("2 findings do not pass as drawn"),
            std::string::npos);
}

TEST(Allowance, IsRoundedDownInEitherSystem) {
  const Style si{Units::si}, us{Units::us};
  EXPECT_EQ(words::allowance(0.022, si), "22 mm");
  EXPECT_EQ(words::allowance(0.0229, si), "22 mm");
  EXPECT_EQ(words::allowance(0, si), "0 mm");
  // 22 mm are 13.86 sixteenths of an inch, an inch and a half 38.1 mm.
  EXPECT_EQ(words::allowance(0.022, us), "13/16 in");
  EXPECT_EQ(words::allowance(0.0382, us), "1 1/2 in");
  EXPECT_EQ(words::allowance(0.0254, us), "1 in");
  EXPECT_EQ(words::allowance(0.001, us), "0 in");
}

}  // namespace
}  // namespace fairlead::sheets
