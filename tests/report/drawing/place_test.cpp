// Labels and dimensions keep clear of lines and of each other, and none is ever dropped.
#include <gtest/gtest.h>

#include <random>

#include "report/drawing/dimension.hpp"
#include "report/drawing/place.hpp"
#include "report/drawing/symbols.hpp"

namespace fairlead::drawing {
namespace {

const Font& font() {
  static const Font opened = Font::open().value();
  return opened;
}

std::vector<std::string> texts(const Drawing& drawing) {
  std::vector<std::string> all;
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) all.push_back(label->text);
  return all;
}

TEST(Place, CrowdedCalloutsNeitherOverlapNorCrossLinesNorLeaveTheirBox) {
  std::mt19937 draw(7);
  std::uniform_real_distribution<double> x(30, 150), y(30, 90);
  Drawing drawing;
  const Canvas canvas(drawing, font());
  canvas.line({{10, 60}, {170, 55}}, {0.5, LineType::continuous, Layer::main_line});
  std::vector<Callout> callouts;
  for (int i = 0; i < 18; ++i)
    callouts.push_back({{{x(draw), y(draw)}}, "anchor A" + std::to_string(i) + "\n12.3 kN", Layer::text});
  Obstacles obstacles(font());
  obstacles.add(drawing);
  const Box within{5, 5, 175, 115};
  const auto key = place(canvas, callouts, obstacles, within);
  for (const std::string& fault : faults(drawing, font(), within)) ADD_FAILURE() << fault;
  EXPECT_EQ(texts(drawing).size(), 2 * (callouts.size() - key.size()) + key.size());
}

/// Whether two segments cross between their ends.
bool cross(Paper a, Paper b, Paper c, Paper d) {
  const auto side = [](Paper p, Paper q, Paper r) {
    return (q.x_mm - p.x_mm) * (r.y_mm - p.y_mm) - (q.y_mm - p.y_mm) * (r.x_mm - p.x_mm);
  };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

// Things in a row under the line they stand on, as anchors at a tower do.
TEST(Place, LeadersDoNotCrossOneAnother) {
  for (const unsigned seed : {1u, 2u, 3u, 4u, 5u, 6u}) {
    std::mt19937 draw(seed);
    std::uniform_real_distribution<double> x(60, 110), y(50, 66);
    Drawing drawing;
    const Canvas canvas(drawing, font());
    std::vector<Callout> callouts;
    for (int i = 0; i < 10; ++i)
      callouts.push_back({{{x(draw), y(draw)}}, "Anchor A" + std::to_string(i), Layer::text});
    Obstacles obstacles(font());
    place(canvas, callouts, obstacles, {5, 5, 175, 115});
    std::vector<const Stroke*> lines;
    for (const auto& entity : drawing.entities)
      if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->path.size() == 2)
        lines.push_back(stroke);
    for (std::size_t i = 0; i < lines.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        EXPECT_FALSE(cross(lines[i]->path[0], lines[i]->path[1], lines[j]->path[0], lines[j]->path[1])) << seed;
  }
}

TEST(Place, WithoutRoomALabelBecomesANumberWhoseKeyHoldsItsText) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  const std::vector<Callout> callouts{{{{10, 10}}, "a text far wider than its box", Layer::text},
                                      {{{22, 12}}, "R1", Layer::text}};
  Obstacles obstacles(font());
  const auto key = place(canvas, callouts, obstacles, {0, 0, 40, 25}, 3);
  EXPECT_EQ(key, std::vector<std::string>{"a text far wider than its box"});
  const auto all = texts(drawing);
  EXPECT_NE(std::find(all.begin(), all.end(), "3"), all.end());
  EXPECT_NE(std::find(all.begin(), all.end(), "R1"), all.end());
}

TEST(Place, WhereEverythingIsTakenTheNumberIsStillDrawn) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  Obstacles obstacles(font());
  obstacles.add(quad({-100, -100, 100, 100}));
  const auto key = place(canvas, {{{{10, 10}}, "R1", Layer::text}}, obstacles, {0, 0, 20, 20});
  EXPECT_EQ(key, std::vector<std::string>{"R1"});
  EXPECT_EQ(texts(drawing), std::vector<std::string>{"1"});
}

TEST(Place, TheSameDrawingIsPlacedTheSameWay) {
  const auto once = [] {
    Drawing drawing;
    const Canvas canvas(drawing, font());
    Obstacles obstacles(font());
    place(canvas, {{{{50, 50}}, "B", Layer::text}, {{{51, 50}}, "A", Layer::text}}, obstacles, {0, 0, 100, 100});
    return drawing;
  };
  const Drawing a = once(), b = once();
  ASSERT_EQ(a.entities.size(), b.entities.size());
  for (std::size_t i = 0; i < a.entities.size(); ++i)
    if (const auto* label = std::get_if<Label>(&a.entities[i])) {
      EXPECT_EQ(label->at, std::get<Label>(b.entities[i]).at);
    }
}

double widest_line_mm(const Drawing& drawing, Layer layer) {
  double widest = 0;
  for (const auto& entity : drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && stroke->pen.layer == layer)
      widest = std::max(widest, stroke->pen.width_mm);
  return widest;
}

// Source DIMS: first line 8 to 10 mm off, next 6 to 8; text above its line, read from bottom or right.
TEST(Dimensions, RowsStandOffTheViewTheShortOnesNearest) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  const double far =
      dimension_rows(canvas, Measures::along,
                     {{{0, 0}, {100, 0}, "long"}, {{0, 0}, {40, 0}, "short"}, {{40, 0}, {100, 0}, "rest"}}, 0, 1);
  double y_long = 0, y_short = 0, y_rest = 0;
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      (label->text == "long" ? y_long : label->text == "short" ? y_short : y_rest) = label->at.y_mm;
      EXPECT_EQ(label->angle_rad, 0);
      EXPECT_EQ(label->cap_mm, 2.5);
    }
  EXPECT_DOUBLE_EQ(y_short, y_rest) << "chained dimensions share a line";
  EXPECT_DOUBLE_EQ(y_short, 8 + 1);
  EXPECT_DOUBLE_EQ(y_long, 8 + 7 + 1);
  EXPECT_GT(far, y_long + 2.5);
  EXPECT_EQ(widest_line_mm(drawing, Layer::dimensions), narrow_mm);
  for (const std::string& fault : faults(drawing, font(), {-20, -20, 120, 40})) ADD_FAILURE() << fault;
}

TEST(Dimensions, AnUprightOneReadsFromTheRightWithItsTextLeftOfItsLine) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  dimension_rows(canvas, Measures::up, {{{0, 0}, {0, 30}, "3.000"}}, 0, 1);
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      EXPECT_DOUBLE_EQ(label->angle_rad, std::acos(-1) / 2);
      EXPECT_LT(label->at.x_mm, 8);
    }
  EXPECT_TRUE(faults(drawing, font(), {-20, -20, 40, 60}).empty());
}

TEST(Dimensions, ANarrowOneHasItsArrowsAndTextOutside) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  dimension_rows(canvas, Measures::along, {{{0, 0}, {2, 0}, "0.200"}}, 0, 1);
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      EXPECT_GT(label->at.x_mm, 2);
    }
  EXPECT_TRUE(faults(drawing, font(), {-20, -20, 60, 60}).empty());
}

TEST(Arrowhead, ItIsFilledWithFifteenDegreesAndAtLeastThreeTimesAsLongAsWide) {
  Drawing drawing;
  arrowhead(Canvas(drawing, font()), {10, 10}, 0.3, Layer::dimensions);
  const auto& head = std::get<Stroke>(drawing.entities.at(0));
  EXPECT_EQ(head.fill, Fill::ink);
  const Paper tip = head.path.at(0), a = head.path.at(1) - tip, b = head.path.at(2) - tip;
  EXPECT_NEAR(std::abs(std::atan2(cross(a, b), dot(a, b))), 15 * std::acos(-1) / 180, 1e-12);
  EXPECT_GE(length(0.5 * (a + b)) / length(a - b), 3);
}

TEST(ForceArrow, ItPointsAsItsVectorDoesInEveryView) {
  const View elevation{"elevation", {1, 0, 0}, {0, 0, 1}, {}, {100, 100}, 100};
  const View plan{"plan", {1, 0, 0}, {0, 1, 0}, {}, {100, 100}, 100};
  const Vec3 force{-300, 400, -500};
  for (const View& view : {elevation, plan}) {
    Drawing drawing;
    force_arrow(Canvas(drawing, font()), view, {1, 2, 3}, force, 13);
    const auto& head = std::get<Stroke>(drawing.entities.back());
    const Paper at = view.of(Point3{1, 2, 3}), want = view.of(force), tail = force_tail(view, {1, 2, 3}, force, 13);
    EXPECT_EQ(head.path.at(0), at) << "the tip stands at the anchor";
    const Paper seen = at - tail, points = head.path.at(0) - 0.5 * (head.path.at(1) + head.path.at(2));
    for (const Paper arrow : {seen, points}) {
      EXPECT_NEAR(cross(arrow, want) / (length(arrow) * length(want)), 0, 1e-12);
      EXPECT_GT(dot(arrow, want), 0);
    }
    EXPECT_EQ(std::get<Stroke>(drawing.entities.front()).path.front(), tail);
    EXPECT_NEAR(length(seen), 13 * length(want) / (norm(force) * view.mm_per_m()), 1e-9);
  }
}

}  // namespace
}  // namespace fairlead::drawing
