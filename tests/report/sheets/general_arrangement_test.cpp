// The general arrangement of the demo rig, measured on its display list.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "report/drawing/overlap.hpp"
#include "report/formats/pdf.hpp"
#include "report/sheets/blocks.hpp"
#include "report/views/scene.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/sentence.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

TEST(GeneralArrangement, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesThePaper) {
  for (const Dossier* dossier : {&demo(), &unsolved(), &failing(), &sparse()})
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      for (const Units units : {Units::both, Units::si, Units::us}) {
        if (units != Units::both && dossier != &demo()) continue;
        for (const Sheet& sheet : set_of(*dossier, paper, units))
          for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
            ADD_FAILURE() << stationery(paper).name << ": " << fault;
      }
}

TEST(GeneralArrangement, WhatIsShownStaysInsideTheFrame) {
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
    EXPECT_EQ(outside_frame(one_sheet(demo(), paper), paper), std::vector<std::string>{});
}

TEST(GeneralArrangement, LineWidthsAreOfTheIsoSeries) {
  const std::set<double> series{0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0};
  std::set<double> caps;
  const Sheet sheet = one_sheet(demo());
  for (const auto& entity : sheet.drawing.entities) {
    if (const auto* stroke = std::get_if<Stroke>(&entity)) {
      EXPECT_TRUE(stroke->pen.width_mm == 0 || series.contains(stroke->pen.width_mm)) << stroke->pen.width_mm;
    }
    if (const auto* label = std::get_if<Label>(&entity)) caps.insert(label->cap_mm);
  }
  // Cap heights of ISO 3098.
  for (double cap : caps) EXPECT_TRUE((std::set<double>{1.8, 2.5, 3.5, 5, 7, 10}.contains(cap))) << cap;
}

TEST(GeneralArrangement, ItsScalesAreOfTheRecommendedSeriesAndStandInTheTitleBlock) {
  const std::set<double> series{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b}) {
    const Sheet sheet = one_sheet(demo(), paper);
    // Where findings take the room, the detail gives way.
    ASSERT_GE(sheet.drawing.views.size(), 2u);
    for (const View& view : sheet.drawing.views) EXPECT_TRUE(series.contains(view.scale)) << view.name;
    EXPECT_EQ(sheet.drawing.views[0].scale, sheet.drawing.views[1].scale);
    std::string scale = fmt::format("1:{:g}", sheet.drawing.views[0].scale);
    if (sheet.drawing.views.size() > 2) scale += fmt::format(" (1:{:g})", sheet.drawing.views[2].scale);
    scale += fmt::format(" at {}", stationery(paper).name);
    EXPECT_TRUE(says(sheet, scale)) << scale;
  }
}

TEST(GeneralArrangement, ElevationAndPlanShareX) {
  const Sheet sheet = one_sheet(demo());
  const View &elevation = view_named(sheet, "elevation"), &plan = view_named(sheet, "plan");
  for (const Anchor& anchor : demo().judged.rig.layout.anchors)
    EXPECT_NEAR(elevation.of(anchor.position.value).x_mm, plan.of(anchor.position.value).x_mm, 1e-9) << anchor.id.value;
}

TEST(GeneralArrangement, FirstAngleOnA3HasThePlanBelowAndThirdAngleOnAnsiBAbove) {
  const auto heights = [](PaperSize paper) {
    const Sheet sheet = one_sheet(demo(), paper);
    const Point3 p = demo().judged.rig.layout.anchors[1].position;
    return view_named(sheet, "elevation").of(p).y_mm - view_named(sheet, "plan").of(p).y_mm;
  };
  EXPECT_GT(heights(PaperSize::a3), 0);
  EXPECT_LT(heights(PaperSize::ansi_b), 0);
}

TEST(GeneralArrangement, TheMainLineStandsWhereItWasSolved) {
  const views::Scene scene = views::scene_of(demo().judged.rig);
  ASSERT_TRUE(scene.rest && scene.full);
  for (const auto* pose : {&*scene.rest, &*scene.full}) {
    const auto on_curve = scene.on_main_line(*pose, demo().judged.rig.frame.chainage_m(pose->trolley.wheel));
    ASSERT_TRUE(on_curve);
    // The pose was solved with the line's pull at the attachment; drawn, the wheel alone carries it. 1 mm is 5 um of
    // paper at 1:200.
    EXPECT_NEAR(on_curve->z, pose->trolley.wheel.z, 1e-3);
  }
}

TEST(GeneralArrangement, LegsEndWhereTheLineEnds) {
  const Rig& rig = demo().judged.rig;
  const views::Scene scene = views::scene_of(rig);
  for (const auto* pose : {&*scene.rest, &*scene.full}) {
    ASSERT_EQ(pose->lines.size(), 1u);
    const views::LineSeen& line = pose->lines.front();
    ASSERT_EQ(line.legs.size(), rig.reeved.size() + 1);
    EXPECT_LT(norm(line.legs.front().front() - pose->trolley.attachment), 1e-6);
    EXPECT_LT(norm(line.legs.back().back() - rig.layout.brake_unit.outlet.value), 1e-6);
    const Sheave& redirect = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[0])];
    EXPECT_NEAR(norm(line.legs.front().back() - redirect.position->value), redirect.pitch_diameter_m / 2, 1e-6);
  }
}

/// Arrowheads of one layer: tip and the point their base is centred on.
std::vector<std::pair<Paper, Paper>> arrowheads(const Sheet& sheet, Layer layer) {
  std::vector<std::pair<Paper, Paper>> all;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity);
        stroke && stroke->pen.layer == layer && stroke->fill == Fill::ink && stroke->path.size() == 3)
      all.push_back({stroke->path[0], 0.5 * (stroke->path[1] + stroke->path[2])});
  return all;
}

TEST(GeneralArrangement, LoadArrowsPointAsTheirVectors) {
  const Sheet sheet = one_sheet(demo());
  const View& view = view_named(sheet, "elevation");
  const auto heads = arrowheads(sheet, Layer::loads);
  const views::Scene scene = views::scene_of(demo().judged.rig);
  ASSERT_GE(scene.anchors.size(), 3u);
  const loads::Loads& loads = *demo().judged.rig.loads.solved();
  for (const views::AnchorSeen& anchor : scene.anchors) {
    const auto index = static_cast<std::size_t>(anchor.index);
    const Vec3 force = loads.cases[static_cast<std::size_t>(loads.demands[index].force_N.pose)].on_anchor_N[index];
    ASSERT_GT(norm(force), 0);
    const Paper at = view.of(anchor.position), along = view.of(force);
    const bool found = std::any_of(heads.begin(), heads.end(), [&](const auto& head) {
      const Paper points = head.first - head.second;
      const double turn = cross(points, along) / (length(points) * length(along));
      return length(head.first - at) < 1.0 && dot(points, along) > 0 && std::abs(turn) < 1e-6;
    });
    EXPECT_TRUE(found) << demo().judged.rig.layout.anchors[static_cast<std::size_t>(anchor.index)].id.value;
  }
}

TEST(GeneralArrangement, ItsNumbersAreThoseOfTheFindings) {
  for (const Dossier* dossier : {&demo(), &failing()}) {
    const Sheet sheet = one_sheet(*dossier);
    const Layout& layout = dossier->judged.rig.layout;
    EXPECT_TRUE(says(sheet, words::headline(dossier->judged)));
    // What the first sheet has no room to say stands on the one behind it.
    std::string all;
    for (const Sheet& each : set_of(*dossier)) all += everything(each);
    for (const Finding& finding : dossier->judged.findings) {
      const std::string sentence = words::sentence(layout, finding, Style{});
      if (words::outcome_of(finding) != words::Outcome::pass) {
        EXPECT_NE(all.find(with_minus(sentence)), std::string::npos) << sentence;
      }
      if (finding.check->name == "anchor-utilisation" && finding.measured) {
        EXPECT_TRUE(says(sheet, words::shown(finding.value, Dimension::ratio, Style{}))) << sentence;
      }
    }
    for (const Anchor& anchor : layout.anchors)
      for (const double metres : {anchor.position.value.x, anchor.position.value.y, anchor.position.value.z}) {
        const std::string shown = words::shown(metres, Dimension::length, Style{});
        EXPECT_TRUE(says(sheet, shown.substr(0, shown.find(' ')))) << shown;
      }
  }
}

TEST(GeneralArrangement, DimensionsAreTheLayoutsOwn) {
  const Sheet sheet = one_sheet(demo());
  const Rig& rig = demo().judged.rig;
  const double redirect = rig.frame.chainage_m(rig.layout.sheaves[0].position->value);
  const auto figure = [](double metres) { return fmt_metres(metres); };
  EXPECT_TRUE(says(sheet, figure(rig.layout.brake_trolley.rest_m - redirect))) << "rest mark to redirect";
  EXPECT_TRUE(says(sheet, "travel " + figure(rig.layout.brake_trolley.travel_m)));
  EXPECT_TRUE(says(sheet, figure(rig.frame.chainage_m(rig.layout.brake_unit.outlet) - redirect))) << "redirect to unit";
  EXPECT_TRUE(says(sheet, figure(rig.layout.sheaves[0].position->value.z - rig.layout.landing->platform_level_m)));
  EXPECT_TRUE(says(sheet, figure(rig.layout.brake_unit.outlet.value.z - rig.layout.landing->platform_level_m)));
  const views::Scene scene = views::scene_of(rig);
  // Where findings take the room the detail gives way, and the key tells what it would have shown.
  const std::string above = figure(rig.layout.sheaves[0].position->value.z - scene.rest->trolley.wheel.z);
  EXPECT_NE(everything(sheet).find(above + " above the rest mark"), std::string::npos) << above;
}

TEST(GeneralArrangement, ABrakingLineThatIsNotSolvedIsNotDrawnAndTheSheetSaysWhy) {
  const Sheet sheet = one_sheet(unsolved());
  const std::string why = unsolved().judged.rig.reeving.result->error().why;
  EXPECT_NE(everything(sheet).find("BRAKING LINE NOT DRAWN: " + why), std::string::npos);
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->pen.layer == Layer::braking_line) {
      EXPECT_LT(path_length(stroke->path, stroke->closed), 40) << "only the trolley's symbol";
    }
  EXPECT_TRUE(says(sheet, words::headline(unsolved().judged)));
}

TEST(GeneralArrangement, ListsThatFindNoRoomStandOnASheetOfTheirOwn) {
  Layout layout = demo_layout();
  for (int i = 0; i < 40; ++i) {
    Anchor anchor = layout.anchors.back();
    anchor.id.value = fmt::format("T{}", i);
    anchor.position.value = anchor.position.value + Vec3{-0.5 * i, -0.4 * i, 0.2 * (i % 7) - 3};
    layout.anchors.push_back(anchor);
  }
  Dossier dossier;
  dossier.judged = judge(layout);
  const auto set = compose(dossier, Style{}, {font(), PaperSize::a3});
  ASSERT_GE(set.size(), 2u);
  std::string all;
  for (std::size_t i = 0; i < set.size(); ++i) {
    EXPECT_TRUE(says(set[i], fmt::format("{} / {}", i + 1, set.size())));
    all += everything(set[i]);
  }
  for (const Anchor& anchor : layout.anchors) EXPECT_NE(all.find(anchor.id.value + " "), std::string::npos);
  for (const std::string_view caution : words::cautions()) EXPECT_NE(all.find(caution), std::string::npos) << caution;
  for (const Sheet& sheet : set)
    for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
      ADD_FAILURE() << fault;
}

TEST(GeneralArrangement, TheSheetsOfListsBehindItAreCalledByWhatStandsOnThem) {
  int behind = 0;
  for (const std::string& file : shipped_layouts()) {
    const auto sheets = compose(shipped_dossier(file), Style{}, {font()}, "general-arrangement");
    for (std::size_t i = 1; i < sheets.size(); ++i, ++behind) {
      const std::string& title = sheets[i].title;
      const auto called = [&](const char* word) { return title.find(word) != std::string::npos; };
      EXPECT_EQ(called("loads"), says(sheets[i], "SETTING OUT AND ANCHOR LOADS")) << file << ' ' << title;
      EXPECT_EQ(called("autions"), says(sheets[i], "CAUTIONS") || says(sheets[i], "NOT LOOKED AT BY THIS VERSION"))
          << file << ' ' << title;
    }
  }
  EXPECT_GT(behind, 2);
}

}  // namespace
}  // namespace fairlead::sheets
