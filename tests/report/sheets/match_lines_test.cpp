// A general arrangement too long for its sheet, broken at match lines.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "report/sheets/arrangement_parts.hpp"
#include "report/views/arrest.hpp"
#include "report/views/parts.hpp"
#include "tests/report/sheets/long_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

/// Every broken set that is looked at: two parts on A3, more on the small sizes.
struct Broken {
  const Dossier* dossier;
  PaperSize paper;
};
const std::vector<Broken>& broken() {
  static const std::vector<Broken> all{{&long_one(), PaperSize::a3},     {&long_one(), PaperSize::ansi_b},
                                       {&long_one(), PaperSize::a4},     {&longish(), PaperSize::a4},
                                       {&long_one(), PaperSize::ansi_a}, {&longish(), PaperSize::a3}};
  return all;
}

/// The chainages at which each part begins and ends, of its match lines where it has any.
struct Span {
  double from_m, to_m;
};
std::vector<Span> spans(const Dossier& dossier, const std::vector<Sheet>& parts) {
  if (parts.empty()) throw std::runtime_error("no views");
  const views::Scene whole = views::scene_of(dossier.judged.rig);
  const auto scenes = views::parts_of(whole, parts.front().drawing.views.front().scale, parts.size(), 1);
  std::vector<Span> all;
  for (const views::Scene& part : scenes)
    all.push_back(
        {part.before ? part.before->chainage_m : part.from_m, part.after ? part.after->chainage_m : part.to_m});
  return all;
}

/// The wide chain lines that run upright, one a view and match line.
std::vector<const Stroke*> chain_lines(const Sheet& sheet) {
  std::vector<const Stroke*> all;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->pen.type == LineType::dash_dot &&
                                                           stroke->pen.width_mm == extra_mm &&
                                                           stroke->path.front().x_mm == stroke->path.back().x_mm)
      all.push_back(stroke);
  return all;
}

int times_said(const Sheet& sheet, const std::string& text) {
  return static_cast<int>(std::ranges::count_if(sheet.drawing.entities, [&](const auto& entity) {
    const auto* label = std::get_if<Label>(&entity);
    return label && label->text == text;
  }));
}

TEST(MatchLines, ViewsThatNoLegibleScaleHoldsWholeAreBrokenAtOne) {
  for (const auto& [dossier, paper] : broken()) {
    const auto parts = view_sheets(*dossier, paper);
    ASSERT_GE(parts.size(), 2u);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      EXPECT_EQ(parts[i].title,
                fmt::format("General arrangement of the arrest end, part {} of {}", i + 1, parts.size()));
      for (const char* view : {"elevation", "plan"}) EXPECT_TRUE(legible(view_named(parts[i], view).scale));
      EXPECT_EQ(view_named(parts[i], "elevation").scale, view_named(parts.front(), "plan").scale);
    }
  }
  const auto whole = view_sheets(shorter(), PaperSize::a3);
  ASSERT_EQ(whole.size(), 1u) << "where a legible scale holds it";
  EXPECT_EQ(view_named(whole.front(), "plan").scale, 500);
}

TEST(MatchLines, TheShippedLayoutsStayWhole) {
  for (const std::string& file : shipped_layouts())
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      EXPECT_EQ(view_sheets(shipped_dossier(file), paper).size(), 1u) << file;
}

TEST(MatchLines, BothSidesBearTheSameLettersAndChainageAndLeadToEachOther) {
  for (const auto& [dossier, paper] : broken()) {
    const auto parts = view_sheets(*dossier, paper);
    const auto own = spans(*dossier, parts);
    const Rig& rig = dossier->judged.rig;
    const views::Scene scene = views::scene_of(rig);
    for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
      EXPECT_EQ(own[i].to_m, own[i + 1].from_m);
      // One a view on either sheet.
      const std::string name = "MATCH LINE " + views::match_letters(i);
      for (const std::size_t side : {i, i + 1}) {
        const std::size_t other = side == i ? i + 1 : i;
        EXPECT_EQ(times_said(parts[side], name), 2) << name;
        EXPECT_EQ(times_said(parts[side], fmt::format("CH {:.3f}, see sheet {}", own[i].to_m, other + 1)), 2);
        // Across elevation and plan at that chainage, from above what is drawn there to below it.
        for (const char* named : {"elevation", "plan"}) {
          const View& view = view_named(parts[side], named);
          const Point3 on_line = *scene.on_main_line(*scene.rest, own[i].to_m);
          const Paper at = view.of(on_line);
          EXPECT_TRUE(std::ranges::any_of(chain_lines(parts[side]),
                                          [&](const Stroke* stroke) {
                                            const Box line = bounds(stroke->path);
                                            return std::abs(line.left - at.x_mm) < 1e-6 && line.bottom < at.y_mm - 5 &&
                                                   line.top > at.y_mm + 5;
                                          }))
              << named << " of part " << side + 1;
        }
      }
    }
    for (std::size_t i = 0; i < parts.size(); ++i)
      EXPECT_EQ(chain_lines(parts[i]).size(), 2u * ((i > 0) + (i + 1 < parts.size())));
  }
}

/// Where a stroke of a layer passes a view's upright line at x.
std::vector<double> heights_at(const Sheet& sheet, Layer layer, double x_mm) {
  std::vector<double> all;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->pen.layer == layer)
      for (std::size_t i = 1; i < stroke->path.size(); ++i) {
        const Paper a = stroke->path[i - 1], b = stroke->path[i];
        if (a.x_mm <= x_mm && x_mm <= b.x_mm && b.x_mm > a.x_mm)
          all.push_back(a.y_mm + (x_mm - a.x_mm) / (b.x_mm - a.x_mm) * (b.y_mm - a.y_mm));
      }
  return all;
}

TEST(MatchLines, TheMainLineIsDrawnAtTrueScaleOverEveryPartAndALittleBeyond) {
  for (const auto& [dossier, paper] : broken()) {
    const auto parts = view_sheets(*dossier, paper);
    const auto own = spans(*dossier, parts);
    const views::Scene scene = views::scene_of(dossier->judged.rig);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const View& view = view_named(parts[i], "elevation");
      const double mm = length(view.of(scene.at(scene.from_m + 10, 0, 0)) - view.of(scene.at(scene.from_m, 0, 0)));
      EXPECT_NEAR(mm, 1e4 / view.scale, 1e-9) << "10 m";
      const double beyond_m = 5 * view.scale / 1000;
      const double from = i > 0 ? own[i].from_m - beyond_m : own[i].from_m;
      const double to = i + 1 < parts.size() ? own[i].to_m + beyond_m : own[i].to_m;
      for (double chainage = from + 0.01; chainage < to; chainage += 2.5) {
        const Paper at = view.of(*scene.on_main_line(*scene.rest, chainage));
        const auto heights = heights_at(parts[i], Layer::main_line, at.x_mm);
        // Polylines are simplified within the curve tolerance.
        EXPECT_TRUE(std::ranges::any_of(heights, [&](double y) { return std::abs(y - at.y_mm) < 0.02; })) << chainage;
      }
      // And nothing of it is drawn far beyond.
      if (i + 1 < parts.size()) {
        const Paper far = view.of(*scene.on_main_line(*scene.rest, std::min(scene.to_m, to + 2 * beyond_m)));
        for (const double y : heights_at(parts[i], Layer::main_line, far.x_mm)) EXPECT_GT(std::abs(y - far.y_mm), 2);
      }
    }
  }
}

/// The middles of a sheet's chainage figures, by what they say.
std::map<double, double> chainage_figures(const Sheet& sheet) {
  std::map<double, double> all;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity); label && label->layer == Layer::grid)
      all[std::stod(label->text.substr(3))] = label->at.x_mm + font().width_mm(label->text, label->cap_mm) / 2;
  return all;
}

// 10 m are 20 mm at 1:500, on whatever part.
TEST(MatchLines, TenMetresOfTheChainageScaleMeasureTenOnEveryPart) {
  for (const auto& [dossier, paper] : broken())
    for (const Sheet& part : view_sheets(*dossier, paper)) {
      const auto figures = chainage_figures(part);
      ASSERT_GE(figures.size(), 3u);
      for (auto next = std::next(figures.begin()), last = figures.begin(); next != figures.end(); last = next++)
        EXPECT_NEAR(next->second - last->second,
                    1000 * (next->first - last->first) / view_named(part, "elevation").scale, 1e-9);
    }
}

TEST(MatchLines, EveryMarkIsDrawnOnThePartWhoseOwnItIs) {
  for (const auto& [dossier, paper] : broken()) {
    const auto parts = view_sheets(*dossier, paper);
    const auto own = spans(*dossier, parts);
    const views::Scene scene = views::scene_of(dossier->judged.rig);
    for (const views::AnchorSeen& anchor : scene.anchors) {
      const double chainage = dossier->judged.rig.frame.chainage_m(anchor.position);
      for (std::size_t i = 0; i < parts.size(); ++i) {
        if (chainage < own[i].from_m || chainage > own[i].to_m) continue;
        for (const char* named : {"elevation", "plan"}) {
          const Paper at = view_named(parts[i], named).of(anchor.position);
          EXPECT_TRUE(std::ranges::any_of(parts[i].drawing.entities,
                                          [&](const auto& entity) {
                                            const auto* stroke = std::get_if<Stroke>(&entity);
                                            return stroke && stroke->pen.layer == Layer::anchors && stroke->closed &&
                                                   length(bounds(stroke->path).centre() - at) < 0.02;
                                          }))
              << named << ", CH " << chainage;
        }
      }
    }
  }
}

/// Everything that parts say, one after the other.
std::string all_said(const std::vector<Sheet>& parts) {
  std::string all;
  for (const Sheet& part : parts) all += everything(part);
  return all;
}

TEST(MatchLines, WhatTheWholeNamesIsNamedOnSomePart) {
  const auto parts = view_sheets(longish(), PaperSize::a4);
  const std::string said = all_said(parts);
  const views::Scene whole = views::scene_of(longish().judged.rig);
  for (const auto facing : {views::Facing::elevation, views::Facing::plan}) {
    const View view = views::view_of(whole, facing, 500, {0, 0});
    const auto named = views::callouts(whole, view, facing, views::Naming::full, Style{});
    EXPECT_GT(named.size(), 8u);
    for (const Callout& callout : named) {
      std::istringstream lines(callout.text);
      for (std::string line; std::getline(lines, line);) EXPECT_NE(said.find(line), std::string::npos) << line;
    }
  }
}

TEST(MatchLines, ADimensionAcrossThemSaysWhatItSpansOnEveryPartAndOneWithinAPartStandsThereAlone) {
  const auto parts = view_sheets(longish(), PaperSize::a4);
  ASSERT_EQ(parts.size(), 3u);
  for (const Sheet& part : parts) {
    EXPECT_EQ(times_said(part, "travel 165.000, CH 188.000 to 353.000"), 1);
    EXPECT_EQ(times_said(part, "platform 175.000, CH 191.000 to 366.000"), 1);
    EXPECT_EQ(times_said(part, "pick-up window 162.500, CH 191.500 to 354.000"), 1);
    EXPECT_EQ(times_said(part, "179.000, CH 185.000 to 364.000"), 1);
  }
  EXPECT_EQ(times_said(parts[0], "3.000"), 1) << "from the redirect to the rest mark";
  EXPECT_EQ(times_said(parts[2], "1.500"), 1) << "from the end of travel to the backup brake";
  for (const std::size_t other : {1u, 2u}) EXPECT_EQ(times_said(parts[other], "3.000"), 0);
  for (const std::size_t other : {0u, 1u}) EXPECT_EQ(times_said(parts[other], "1.500"), 0);
}

TEST(MatchLines, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesTheFrame) {
  for (const auto& [dossier, paper] : broken())
    for (const Units units : {Units::both, Units::us})
      for (const Sheet& sheet : compose(*dossier, Style{units}, {font(), paper}, "general-arrangement")) {
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
        for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
          ADD_FAILURE() << stationery(paper).name << ", " << sheet.title << ": " << fault;
      }
}

TEST(MatchLines, EveryPartHasItsNorthTravelScaleBarAndAKeySketchInWhichItIsTheTintedOne) {
  for (const auto& [dossier, paper] : broken()) {
    const auto parts = view_sheets(*dossier, paper);
    const auto own = spans(*dossier, parts);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      for (const char* text : {"north", "KEY SKETCH, not to scale"}) EXPECT_EQ(times_said(parts[i], text), 1) << text;
      EXPECT_EQ(times_said(parts[i], "direction of travel"), 2);
      std::vector<Box> tinted;
      for (const auto& entity : parts[i].drawing.entities)
        if (const auto* stroke = std::get_if<Stroke>(&entity);
            stroke && stroke->fill == Fill::tint && stroke->pen.layer == Layer::notes)
          tinted.push_back(bounds(stroke->path));
      ASSERT_EQ(tinted.size(), 1u);
      // The frame about all parts is as wide as the sketch, this part's share of it tinted.
      const double all_m = own.back().to_m - own.front().from_m;
      const double share = (own[i].to_m - own[i].from_m) / all_m;
      const bool framed = std::ranges::any_of(parts[i].drawing.entities, [&](const auto& entity) {
        const auto* stroke = std::get_if<Stroke>(&entity);
        return stroke && stroke->closed && stroke->pen.layer == Layer::notes && stroke->fill == Fill::none &&
               std::abs(bounds(stroke->path).width() * share - tinted.front().width()) < 1e-6;
      });
      EXPECT_TRUE(framed);
    }
  }
}

TEST(MatchLines, TheIndexNamesThePartsAndLeadsToThem) {
  const auto set = compose(long_one(), Style{}, {font()});
  const auto carrier = std::ranges::find_if(set, [](const Sheet& sheet) {
    return everything(sheet).find("Sheets of this set, in order: ") != std::string::npos;
  });
  ASSERT_NE(carrier, set.end());
  EXPECT_NE(everything(*carrier).find("in order: General arrangement of the arrest end, part 1 of 2; General "
                                      "arrangement of the arrest end, part 2 of 2; "),
            std::string::npos)
      << everything(*carrier);
  std::set<std::size_t> led_to;
  for (const Link& link : carrier->drawing.links) led_to.insert(link.sheet);
  EXPECT_TRUE(led_to.contains(0) && led_to.contains(1));
}

TEST(MatchLines, AScaleThatIsAskedForStandsHoweverSmall) {
  const auto whole = view_sheets(long_one(), PaperSize::a3, 1000);
  ASSERT_EQ(whole.size(), 1u);
  EXPECT_EQ(view_named(whole.front(), "elevation").scale, 1000);
  EXPECT_EQ(view_sheets(longish(), PaperSize::a4, 500).size(), 3u) << "in parts where it is longer than A4 is wide";
  for (const double scale : arrangement_scales())
    for (const PaperSize paper : {PaperSize::a3, PaperSize::a4})
      for (const Sheet& part : view_sheets(longish(), paper, scale))
        for (const char* view : {"elevation", "plan"}) EXPECT_EQ(view_named(part, view).scale, scale);
}

TEST(MatchLines, TheirLettersFollowThoseOfDetailsAndLeaveOutOAndTheSections) {
  EXPECT_EQ(views::match_letters(0), "M-M");
  EXPECT_EQ(views::match_letters(2), "P-P");
  EXPECT_EQ(views::match_letters(5), "T-T");
  EXPECT_EQ(views::match_letters(11), "Z-Z");
  EXPECT_EQ(views::match_letters(12), "MM-MM");
}

}  // namespace
}  // namespace fairlead::sheets
