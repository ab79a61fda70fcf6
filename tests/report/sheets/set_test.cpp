// The sheets behind the general arrangement: what they show is what was solved, and all of it stays on the paper.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "report/drawing/overlap.hpp"
#include "report/sheets/blocks.hpp"
#include "report/sheets/contact_points.hpp"
#include "report/sheets/force_panel.hpp"
#include "report/tables/tables.hpp"
#include "report/views/instant.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

TEST(Set, EverySheetStaysInsideItsFrame) {
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
    for (const Sheet& sheet : set_of(demo(), paper))
      EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
}

TEST(Set, WidthsAndCapHeightsAreOfTheIsoSeriesOnEverySheet) {
  const std::set<double> widths{0, 0.13, 0.18, 0.25, 0.35, 0.5, 0.7}, caps{1.8, 2.5, 3.5, 5, 7, 10, 14, 20};
  for (const Sheet& sheet : set_of(demo()))
    for (const auto& entity : sheet.drawing.entities) {
      if (const auto* stroke = std::get_if<Stroke>(&entity)) {
        EXPECT_TRUE(widths.contains(stroke->pen.width_mm)) << sheet.title << stroke->pen.width_mm;
      }
      if (const auto* label = std::get_if<Label>(&entity)) {
        EXPECT_TRUE(caps.contains(label->cap_mm)) << sheet.title << label->text;
      }
    }
}

TEST(Set, SheetsAreNumberedAndTheFirstListsThem) {
  const auto& set = set_of(demo());
  ASSERT_GE(set.size(), 4u);
  const std::string first = everything(set.front());
  for (std::size_t i = 0; i < set.size(); ++i) {
    EXPECT_TRUE(says(set[i], fmt::format("{} / {}", i + 1, set.size())));
    if (i > 0) {
      EXPECT_NE(first.find(set[i].title), std::string::npos) << set[i].title;
    }
  }
}

TEST(Set, ASheetWithoutContentIsLeftOut) {
  EXPECT_TRUE(compose(unsolved(), Style{}, {font()}, "reeving").empty());
  EXPECT_TRUE(compose(unsolved(), Style{}, {font()}, "anchor-loads").empty());
  EXPECT_TRUE(compose(unsolved(), Style{}, {font()}, "clearances").empty());
}

TEST(ReevingSheet, BothPosesAreDrawnAtOneScaleOfTheSeriesAndTenMetresMeasureSo) {
  const Sheet sheet = one_sheet(demo(), PaperSize::a3, "reeving");
  const View &rest = view_named(sheet, "AT REST"), &full = view_named(sheet, "AT FULL TRAVEL");
  EXPECT_EQ(rest.scale, full.scale);
  const Rig& rig = demo().judged.rig;
  const Point3 a = rig.layout.brake_unit.outlet, b = a + -10.0 * rig.frame.along;
  EXPECT_NEAR(length(rest.of(a) - rest.of(b)), 10'000 / rest.scale, 1e-9);
  View falsified = rest;
  falsified.scale *= 1.01;
  EXPECT_GT(std::abs(length(falsified.of(a) - falsified.of(b)) - 10'000 / rest.scale), 0.1);
  EXPECT_TRUE(says(sheet, fmt::format("1:{:g} at A3", rest.scale)));
}

TEST(ReevingSheet, EveryContactLiesOnItsSheaveAndIsNumberedOnTheSheet) {
  const Rig& rig = demo().judged.rig;
  const views::Scene scene = views::scene_of(rig);
  const Sheet sheet = one_sheet(demo(), PaperSize::a3, "reeving");
  const Sheave& redirect = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[0])];
  int on_sheave = 0;
  for (const auto* pose : {&*scene.rest, &*scene.full})
    for (const ContactPoint& point : contact_points(rig, *pose)) {
      EXPECT_TRUE(says(sheet, std::to_string(point.number)));
      if (point.what.find(redirect.id.value) == std::string::npos) continue;
      ++on_sheave;
      // Pitch radius, which is to the line's centre. Tolerance: rounding of metres 500 km away.
      EXPECT_NEAR(norm(point.at - redirect.position->value), redirect.pitch_diameter_m / 2, 1e-6);
    }
  EXPECT_EQ(on_sheave, 4) << "on and off, at rest and at full travel";
}

TEST(ReevingSheet, WrapsJoinTheLegsTheyLieBetween) {
  const views::Scene scene = views::scene_of(demo().judged.rig);
  for (const auto* pose : {&*scene.rest, &*scene.full})
    for (const views::LineSeen& line : pose->lines)
      for (std::size_t i = 0; i < line.wraps.size(); ++i) {
        EXPECT_LT(norm(line.wraps[i].front() - line.legs[i].back()), 1e-6);
        EXPECT_LT(norm(line.wraps[i].back() - line.legs[i + 1].front()), 1e-6);
      }
}

TEST(AnchorLoads, ArrowsHaveTheirForcesDirectionAndLengthAtTheirScale) {
  const Sheet sheet = one_sheet(demo(), PaperSize::a3, "anchor-loads");
  const Rig& rig = demo().judged.rig;
  const loads::Loads& loads = *rig.loads.solved();
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const int governing = loads.demands[i].force_N.pose;
    ASSERT_GE(governing, 0);
    const Vec3 force = loads.cases[static_cast<std::size_t>(governing)].on_anchor_N[i];
    for (const char* facing : {"elevation", "plan", "section"}) {
      const View& view = view_named(sheet, fmt::format("force on {}, {}", rig.layout.anchors[i].id.value, facing));
      const Paper arrow = view.of(force), tip = view.at + arrow;
      if (!(length(arrow) > 1.5)) continue;
      const bool found = std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
        const auto* stroke = std::get_if<Stroke>(&e);
        return stroke && stroke->pen.layer == Layer::loads && stroke->fill == Fill::ink && stroke->path.size() == 3 &&
               length(stroke->path[0] - tip) < 1e-6;
      });
      EXPECT_TRUE(found) << view.name;
      // The anchor stands at the tip, here as on the general arrangement.
      Paper low{1e9, 1e9}, high{-1e9, -1e9};
      for (const auto& e : sheet.drawing.entities)
        if (const auto* ring = std::get_if<Stroke>(&e);
            ring && ring->closed && ring->pen.layer == Layer::anchors && length(ring->path.front() - tip) < 2)
          for (const Paper p : ring->path)
            low = {std::min(low.x_mm, p.x_mm), std::min(low.y_mm, p.y_mm)},
            high = {std::max(high.x_mm, p.x_mm), std::max(high.y_mm, p.y_mm)};
      EXPECT_LT(length(0.5 * (low + high) - tip), 0.05) << view.name;
      EXPECT_LE(length(arrow), 28) << "no longer than its third of a panel";
    }
  }
}

TEST(AnchorLoads, FromUpstreamWhatPullsToTheRightPointsToTheRight) {
  const Dossier& dossier = shipped_dossier("larch_spur.toml");
  const Sheet sheet = one_sheet(dossier, PaperSize::a3, "anchor-loads");
  const Rig& rig = dossier.judged.rig;
  const loads::Loads& loads = *rig.loads.solved();
  int aside = 0;
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const auto& governing = loads.cases[static_cast<std::size_t>(loads.demands[i].force_N.pose)];
    const double left_N = fairlead::dot(governing.on_anchor_N[i], rig.frame.across);
    const View& view = view_named(sheet, fmt::format("force on {}, section", rig.layout.anchors[i].id.value));
    EXPECT_NEAR(view.of(governing.on_anchor_N[i]).x_mm, -view.mm_per_m() * left_N, 1e-9);
    const std::string told = words::shown(left_N, Dimension::force, words::single(Style{}));
    EXPECT_TRUE(says(sheet, "across " + with_minus(told))) << told;
    aside += left_N < -100;
  }
  EXPECT_GT(aside, 0);
}

TEST(AnchorLoads, BothUnitsAndTheSignConventionStandOnTheSheet) {
  const std::string all = everything(one_sheet(demo(), PaperSize::a3, "anchor-loads"));
  EXPECT_NE(all.find("Force of the rig on the anchor"), std::string::npos);
  EXPECT_NE(all.find("positive upward"), std::string::npos);
  const loads::Loads& loads = *demo().judged.rig.loads.solved();
  for (const loads::Demand& demand : loads.demands) {
    const std::string shown = words::shown(demand.force_N.value, Dimension::force, Style{});
    EXPECT_NE(shown.find("lbf"), std::string::npos);
    EXPECT_NE(all.find(shown), std::string::npos) << shown;
  }
}

TEST(Clearances, TheGapIsDrawnBetweenItsTwoPointsWithTheSolversSize) {
  const Rig& rig = demo().judged.rig;
  const clearance::Clearances& solved = *rig.clearance.solved();
  const Sheet sheet = one_sheet(demo(), PaperSize::a3, "clearances");
  const clearance::Gap* least = nullptr;
  for (const clearance::Passing& passing : solved.passings)
    if (!passing.gaps.empty() && (!least || passing.gaps.front().least_m.value < least->least_m.value))
      least = &passing.gaps.front();
  ASSERT_TRUE(least);
  EXPECT_TRUE(says(sheet, "gap " + words::shown(least->least_m.value, Dimension::length, Style{})));
  const View& side = view_named(sheet, "side P");
  const Paper a = side.of(least->on_a), b = side.of(least->on_b);
  const bool drawn = std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
    const auto* stroke = std::get_if<Stroke>(&e);
    return stroke && stroke->path.size() == 2 && length(stroke->path[0] - a) < 1e-6 &&
           length(stroke->path[1] - b) < 1e-6;
  });
  EXPECT_TRUE(drawn);
}

// At contact, at full travel, and leaning farthest back and forward: outline, both points, size, travel and passage.
TEST(Clearances, EveryNamedMomentOfTheRiderIsDimensioned) {
  const Rig& rig = demo().judged.rig;
  const auto set = compose(demo(), Style{}, {font()}, "clearances");
  std::string all;
  for (const Sheet& sheet : set) {
    all += everything(sheet);
    EXPECT_EQ(says(sheet, "as shown at A3"), !sheet.drawing.views.empty()) << "views have their scales";
  }
  const auto& moments = rig.clearance.solved()->moments;
  std::size_t told = 0, lines = 0;
  for (const clearance::Moment& moment : moments) {
    if (moment.when == clearance::Moment::When::beside) continue;
    ++told;
    const clearance::Gap& gap = moment.gap;
    const std::string title = fmt::format("rider {} {}", tables::moment(moment.when), tables::thing(rig, gap.b));
    EXPECT_NE(all.find(title), std::string::npos) << title;
    const std::string size = "gap " + words::shown(gap.least_m.value, Dimension::length, Style{});
    EXPECT_NE(all.find(size), std::string::npos) << size;
    EXPECT_NE(all.find(tables::passage(rig, gap.sweep) + ", at travel "), std::string::npos);
    for (const Sheet& sheet : set)
      for (const View& view : sheet.drawing.views) {
        if (!view.name.starts_with("side ")) continue;
        const Paper a = view.of(gap.on_a), b = view.of(gap.on_b);
        lines += std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
          const auto* stroke = std::get_if<Stroke>(&e);
          return stroke && stroke->path.size() == 2 && length(stroke->path[0] - a) < 1e-6 &&
                 length(stroke->path[1] - b) < 1e-6;
        });
      }
  }
  EXPECT_EQ(told, 4u) << "the demo's riders lean both ways";
  EXPECT_GE(lines, told);
}

// The instant lies between two poses; the solver takes them straight, and so does the drawing.
TEST(Clearances, TheRiderOfAnInstantStandsUnderTheRedirect) {
  const Rig& rig = demo().judged.rig;
  const views::Scene scene = views::scene_of(rig);
  for (const clearance::Passing& passing : rig.clearance.solved()->passings) {
    if (passing.met != clearance::Passing::Met::at_travel) continue;
    const auto instant =
        views::instant_of(scene, static_cast<std::size_t>(passing.sweep), passing.travel_m, passing.rider);
    const Point3 redirect = *rig.layout.sheaves[0].position;
    EXPECT_NEAR(rig.frame.chainage_m(instant.rider), rig.frame.chainage_m(redirect), 1e-3);
    const auto on_line = instant.scene.on_main_line(*instant.scene.rest, rig.frame.chainage_m(instant.rider));
    ASSERT_TRUE(on_line);
    // What the straight way between two poses leaves of the path, within the resolution of the poses.
    EXPECT_NEAR(on_line->z, instant.rider.z, 5e-3);
  }
}

}  // namespace
}  // namespace fairlead::sheets
