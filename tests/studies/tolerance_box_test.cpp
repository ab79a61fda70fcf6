// How far all numbers may be off at once.
#include "geometry/studies/tolerance_box.hpp"

#include <gtest/gtest.h>

#include <random>

#include "geometry/studies/placement.hpp"
#include "tests/demo_layout.hpp"
#include "tests/studies/new_finding.hpp"

namespace fairlead {
namespace {

struct Made {
  Judged design;
  HeldFindings held;
  std::vector<Variable> variables;
  Solved<ToleranceBox> box;

  explicit Made(const Layout& layout, unsigned threads = 2, const std::vector<std::string>& only = {})
      : design(judge(layout)), held(design), box(unsolved("not asked for")) {
    const auto points = set_out_points(design.rig);
    for (Variable& variable : variables_of(points, point_axes(points), design.rig.frame))
      if (only.empty() || std::ranges::find(only, variable.name) != only.end())
        variables.push_back(std::move(variable));
    box = tolerance_box(design, held, variables, {}, {.threads = threads});
  }
};

// Own computation: of three marks that bear on one offset alone, the sheave's by all of it, the main line's ends by the
// share of the span that they are away from the other end, 0.159 and 0.841: with equal amounts t the offset is 2 t, and
// nine tenths of 50 mm give t = 22.5 mm, rounded down.
TEST(ToleranceBox, SharesOneLimitOutToAllMarksThatBearOnIt) {
  const Made made(demo_layout(), 2, {"P1 across", "P2 across", "R1 across"});
  ASSERT_TRUE(made.box.has_value()) << made.box.error().why;
  EXPECT_EQ(made.box->amount, (std::vector<double>{0.022, 0.022, 0.022}));
  ASSERT_FALSE(made.box->binding.empty());
  EXPECT_EQ(made.box->binding.front().finding.check->name, "across-offset");
  // The contact lies within a radius of the centre: of 0.08 m in a span of 220 m.
  EXPECT_NEAR(made.box->binding.front().loss, 2 * 0.022, 2 * 0.022 * 0.08 / 220);
}

TEST(ToleranceBox, HoldsForMarksOffAtRandomAndAtItsCorners) {
  const Made made(demo_layout());
  ASSERT_TRUE(made.box.has_value()) << made.box.error().why;
  constexpr int draws = 60;  // ten thousand of every shipped layout: the target box_samples
  std::vector<char> holds(draws);
  for_each_index({.threads = 2}, draws, [&](int i) {
    std::mt19937_64 random(static_cast<unsigned>(i));
    std::vector<double> by;
    for (const double amount : made.box->amount) {
      const double share = 2 * (static_cast<double>(random() >> 11) * 0x1p-53) - 1;
      by.push_back(i % 2 ? std::copysign(amount, share) : amount * share);
    }
    holds[static_cast<std::size_t>(i)] = made.held.at(shifted(made.held.layout(), made.variables, by), {}).holds;
  });
  EXPECT_EQ(std::ranges::count(holds, 0), 0);
  for (const Binding& binding : made.box->binding)
    EXPECT_LE(binding.loss, binding.reserve) << binding.finding.check->name;
}

TEST(ToleranceBox, LiesInsideTheWindowOfEveryMark) {
  const Made made(demo_layout());
  ASSERT_TRUE(made.box.has_value()) << made.box.error().why;
  for (std::size_t v = 0; v < made.variables.size(); ++v)
    for (const double way : {-1.0, 1.0}) {
      Layout layout = made.design.rig.layout;
      made.variables[v].shift(layout, way * made.box->amount[v]);
      EXPECT_TRUE(made.held.at(std::move(layout), {}).holds) << made.variables[v].name;
    }
}

// A number that may not be off at all must not take the others' amounts.
TEST(ToleranceBox, GivesNothingToWhatBreaksACheckAtOnceAndTheOthersTheirShare) {
  Made made(demo_layout(), 2, {"P1 across", "P2 across", "R1 across"});
  made.variables.push_back({{Item::Kind::brake_unit, 0}, "a wall", Dimension::length, [](Layout& layout, double by) {
                              if (by != 0) layout.brake_unit.outlet.value.x = std::nan("");
                            }});
  const auto box = tolerance_box(made.design, made.held, made.variables, {}, {.threads = 2});
  ASSERT_TRUE(box.has_value()) << box.error().why;
  EXPECT_EQ(box->amount, (std::vector<double>{0.022, 0.022, 0.022, 0}));
}

// What is judged only then has no reserve that could tell how far is too far.
TEST(ToleranceBox, IsNoneWhereAnyAmountBringsAFindingThatDoesNotPass) {
  Made made(demo_layout(), 2, {"R1 across"});
  made.variables.push_back({{Item::Kind::brake_unit, 0}, "a post", Dimension::length, [](Layout& layout, double) {
                              layout = with_post_beside_the_unit(std::move(layout));
                            }});
  EXPECT_FALSE(tolerance_box(made.design, made.held, made.variables, {}, {.threads = 2}).has_value());
}

TEST(ToleranceBox, IsTheSameOnAnyNumberOfThreads) {
  const std::vector<std::string> names{"P2 up", "R1 along", "R1 across", "R1 up"};
  const Made one(demo_layout(), 1, names), three(demo_layout(), 3, names);
  ASSERT_TRUE(one.box && three.box);
  EXPECT_EQ(one.box->amount, three.box->amount);
  EXPECT_EQ(one.box->judged, three.box->judged);
}

TEST(ToleranceBox, IsNoneWhereSomethingDoesNotPassAsDrawn) {
  const Made made(
      demo_layout({{"limits.across_offset.at", "\"0.01 mm\""}, {"sheave.R1.position", "[1348, 911.1, 331.4]"}}));
  ASSERT_FALSE(made.box.has_value());
  EXPECT_NE(made.box.error().why.find("not pass as drawn"), std::string::npos) << made.box.error().why;
}

TEST(ToleranceBox, IsNarrowerWhereALimitIs) {
  const std::vector<std::string> names{"P2 across", "R1 across"};
  const Made wide(demo_layout(), 2, names), narrow(demo_layout({{"limits.across_offset.at", "\"25 mm\""}}), 2, names);
  ASSERT_TRUE(wide.box && narrow.box);
  for (std::size_t v = 0; v < names.size(); ++v) EXPECT_LT(narrow.box->amount[v], wide.box->amount[v]);
}

TEST(Placement, ReusesTheDesignsStagesBitForBit) {
  const Judged design = judge(demo_layout());
  const auto points = set_out_points(design.rig);
  for (const Variable& variable : variables_of(points, point_axes(points), design.rig.frame)) {
    Layout layout = design.rig.layout;
    variable.shift(layout, 0.004);
    const Judged near = judge_at({}, layout, {&design.rig}), alone = judge_at({}, layout);
    ASSERT_EQ(near.findings.size(), alone.findings.size()) << variable.name;
    for (std::size_t f = 0; f < near.findings.size(); ++f) {
      EXPECT_EQ(near.findings[f].verdict, alone.findings[f].verdict) << variable.name;
      EXPECT_TRUE(near.findings[f].value == alone.findings[f].value ||
                  (std::isnan(near.findings[f].value) && std::isnan(alone.findings[f].value)))
          << variable.name << " " << near.findings[f].check->name;
      EXPECT_TRUE(near.findings[f].bound == alone.findings[f].bound ||
                  (std::isnan(near.findings[f].bound) && std::isnan(alone.findings[f].bound)))
          << variable.name << " " << near.findings[f].check->name;
    }
  }
}

TEST(Placement, TellsWhatEachMarkIsAllowed) {
  const Placement placed = placement(judge(demo_layout()), false, {.threads = 2});
  ASSERT_TRUE(placed.box.has_value());
  EXPECT_FALSE(placed.windows.has_value());
  for (std::size_t p = 0; p < placed.points.size(); ++p) {
    const auto allowed_m = placed.allowed_m(p);
    EXPECT_TRUE(allowed_m[0].has_value());
    EXPECT_EQ(allowed_m[1].has_value(), placed.points[p].mark != Mark::rest_mark) << placed.points[p].id;
  }
}

}  // namespace
}  // namespace fairlead
