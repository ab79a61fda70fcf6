// Polylines with fewer points, obstacles by squares of paper, hatches, plots.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "report/drawing/blocks.hpp"
#include "report/drawing/place.hpp"
#include "report/drawing/plot.hpp"
#include "report/drawing/symbols.hpp"

namespace fairlead::drawing {
namespace {

const Font& font() {
  static const Font opened = Font::open().value();
  return opened;
}

double distance_to(const std::vector<Paper>& path, Paper p) {
  double least = 1e9;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Paper d = path[i] - path[i - 1];
    const double share = std::clamp(dot(p - path[i - 1], d) / dot(d, d), 0.0, 1.0);
    least = std::min(least, length(p - (path[i - 1] + share * d)));
  }
  return least;
}

TEST(Simplified, NoPointLiesFurtherOffThanTheCurveTolerance) {
  std::vector<Paper> path;
  for (int i = 0; i <= 400; ++i) path.push_back({0.5 * i, 8 * std::cosh((i - 200) / 180.0)});
  const auto fewer = simplified(path);
  EXPECT_LT(fewer.size(), path.size() / 4);
  EXPECT_EQ(fewer.front(), path.front());
  EXPECT_EQ(fewer.back(), path.back());
  for (const Paper p : path) EXPECT_LE(distance_to(fewer, p), curve_tolerance_mm);
}

TEST(Simplified, AStraightLineIsItsTwoEndsAndAClosedOneKeepsItsShape) {
  EXPECT_EQ(simplified({{0, 0}, {1, 1}, {2, 2}, {7, 7}}).size(), 2u);
  const std::vector<Paper> square{{0, 0}, {9, 0}, {9, 9}, {0, 9}, {0, 0}};
  EXPECT_EQ(simplified(square), square);
}

// Seed 7. Against every segment looked at one by one.
TEST(Obstacles, WhatIsInTheWayIsFoundWhereverOnTheSheetItLies) {
  std::mt19937_64 draw(7);
  std::uniform_real_distribution<double> x(-30, 480), y(-30, 330), size(1, 60);
  std::vector<std::pair<Paper, Paper>> lines;
  Obstacles obstacles(font());
  for (int i = 0; i < 60; ++i) {
    lines.push_back({{x(draw), y(draw)}, {x(draw), y(draw)}});
    obstacles.add(Stroke{{lines.back().first, lines.back().second}, {0.25}});
  }
  int free = 0, barred = 0;
  for (int i = 0; i < 2000; ++i) {
    const double left = x(draw), bottom = y(draw);
    const Quad text = quad(Box{left, bottom, left + size(draw) / 4, bottom + 3});
    bool clear = true;
    for (const auto& [a, b] : lines) clear = clear && !crosses(text, a, b);
    EXPECT_EQ(obstacles.clear(text), clear) << i;
    ++(clear ? free : barred);
    const Paper from{x(draw), y(draw)}, to{x(draw), y(draw)};
    const Paper start = from + (0.5 / length(to - from)) * (to - from);
    int count = 0;
    for (const auto& [a, b] : lines) count += meet(start, to, a, b);
    EXPECT_EQ(obstacles.crossings(from, to), count) << i;
  }
  EXPECT_GT(free, 100);
  EXPECT_GT(barred, 100);
}

TEST(Hatch, ItLiesToTheRightOfItsLinesWay) {
  for (const auto& [from, to] : {std::pair<Paper, Paper>{{0, 0}, {40, 0}}, {{40, 0}, {0, 0}}, {{5, 0}, {5, 30}}}) {
    Drawing drawing;
    hatch_below(Canvas(drawing, font()), from, to, Layer::structure);
    ASSERT_GT(drawing.entities.size(), 5u);
    for (const auto& entity : drawing.entities) {
      const auto& path = std::get<Stroke>(entity).path;
      EXPECT_NEAR(cross(to - from, path[0] - from), 0, 1e-9);
      EXPECT_LT(cross(to - from, path[1] - from), 0);
    }
  }
}

TEST(Plot, ACurveStandsWhereItsAxesPutItAndItsFiguresAreRound) {
  EXPECT_DOUBLE_EQ(round_up(0.03), 0.05);
  EXPECT_DOUBLE_EQ(round_up(0.2), 0.2);
  EXPECT_DOUBLE_EQ(round_up(7), 10);
  EXPECT_DOUBLE_EQ(round_up(1001), 2000);
  Drawing drawing;
  plot(Canvas(drawing, font()), {0, 0, 100, 60}, {"travel, m", 0, 14, 1}, {"ratio", 1.9, 2.3, 1},
       {{{{0, 2.2}, {7, 2.0}, {14, 2.1}}, "at rest", {0.35, LineType::continuous, Layer::text}}});
  EXPECT_TRUE(faults(drawing, font(), {0, 0, 100, 60}).empty());
  // The frame is the last closed stroke: the curve's ends lie on its sides at their share of the height.
  Box frame{};
  std::vector<Paper> curve;
  for (const auto& entity : drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity)) {
      if (stroke->closed) frame = bounds(stroke->path);
      if (stroke->path.size() == 3) curve = stroke->path;
    }
  ASSERT_EQ(curve.size(), 3u);
  EXPECT_NEAR(curve[0].x_mm, frame.left, 1e-9);
  EXPECT_NEAR(curve[2].x_mm, frame.right, 1e-9);
  EXPECT_NEAR((curve[0].y_mm - frame.bottom) / frame.height(), 0.75, 1e-9);
  EXPECT_NEAR((curve[1].y_mm - frame.bottom) / frame.height(), 0.25, 1e-9);
}

TEST(Grid, ATableTooWideBreaksItsLinesAndNeverItsWords) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  const Grid grid("", {{"passage", Align::left, true}, {"gap", Align::right}},
                  {{"heaviest rider, warm, at rest, wind to the right", "0.460"}});
  const double natural = grid.size(canvas, 1000).width_mm, narrow = grid.size(canvas, 0).width_mm;
  EXPECT_LT(narrow, natural);
  grid.draw(canvas, {0, 0}, 0);
  std::string words;
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) words += label->text + " ";
  for (const char* word : {"heaviest", "rider,", "warm,", "right", "0.460"})
    EXPECT_NE(words.find(word), std::string::npos) << words;
}

}  // namespace
}  // namespace fairlead::drawing
