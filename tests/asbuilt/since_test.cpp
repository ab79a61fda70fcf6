// What moved between two surveys: how often it is said of what did and of what did not.
#include "geometry/asbuilt/since.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "geometry/asbuilt/draws.hpp"
#include "geometry/asbuilt/hand.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

constexpr double u_m = 0.002;

struct Demo {
  Rig rig = solve(demo_layout());
  std::vector<SetOutPoint> marks = set_out_points(rig);
};
const Demo& demo() {
  static const Demo it;
  return it;
}

/// Each survey has a frame of its own.
Point3 seen(Point3 p, double turn_deg) {
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  return {c * p.x - s * p.y + 5120.4, s * p.x + c * p.y + 48210.7, p.z + 12.3};
}

const SurveyTerms on_four{{"P1", "P2", "B1", "unit"}, FitKind::levelled, u_m};

/// `move` of the portal's eye along, across and up; seed 0: without noise.
std::vector<SurveyPoint> survey(double turn_deg, Vec3 move, std::uint64_t seed) {
  const Frame& frame = demo().rig.frame;
  std::vector<SurveyPoint> points;
  for (const SetOutPoint& mark : demo().marks) {
    Point3 at = *mark.at;
    if (mark.id == "A3") at = at + (move.x * frame.along + move.y * frame.across + move.z * frame.up);
    at = seen(at, turn_deg);
    const auto n = static_cast<std::uint64_t>(3 * points.size());
    if (seed > 0)
      at = at +
           u_m * Vec3{standard_normal(seed, 0, n), standard_normal(seed, 0, n + 1), standard_normal(seed, 0, n + 2)};
    points.push_back({mark.id, at, "", static_cast<unsigned>(points.size() + 1)});
  }
  return points;
}

Placing placed(const std::vector<SurveyPoint>& points) {
  return *place_points(demo().rig.layout, demo().marks, points, on_four);
}

/// Of the demo's points as drawn: what any such survey has.
const std::vector<Vec3>& spread() {
  static const std::vector<Vec3> it = place_uncertainty_m(placed(survey(123, {}, 0)), demo().rig.frame, 1);
  return it;
}

Since between(const std::vector<SurveyPoint>& then, const std::vector<SurveyPoint>& now) {
  return moved_since({.points_file = "then.csv", .points = then, .uncertainty_m = u_m}, placed(then), placed(now),
                     spread(), demo().rig.frame, 1);
}

const Movement& of(const Since& since, std::string_view id) {
  return *std::ranges::find(since.movements, id, &Movement::id);
}

// Rounding of 48 km, a thousandfold.
TEST(Since, AMarkThatMovedDownhillIsFoundThoughTheInstrumentStoodElsewhere) {
  const Since since = between(survey(123, {}, 0), survey(-40, {0.03, -0.01, -0.02}, 0));
  ASSERT_EQ(since.movements.size(), demo().marks.size());
  const Movement& a3 = of(since, "A3");
  EXPECT_LT(norm(a3.by_m - Vec3{0.03, -0.01, -0.02}), 1e-8);
  EXPECT_EQ(a3.moved, Moved::moved);
  EXPECT_FALSE(a3.control);
  for (const Movement& one : since.movements) {
    if (one.id == "A3") continue;
    EXPECT_EQ(one.moved, Moved::not_shown) << one.id;
    EXPECT_LT(norm(one.by_m), 1e-8) << one.id;
  }
  // Of both surveys, either of which has at least what was stated.
  EXPECT_GT(a3.uncertainty_m.y, std::sqrt(2.0) * u_m * 0.97);
}

// BONF36: of three axes together 5 % at most; 200 pairs of surveys give up to 10 +- 3.1, four and a half of that. And a
// move of what is told as showing is found in 190 at least, less as much.
TEST(Since, WhatStoodStillIsRarelyCalledMovedAndWhatMovedEnoughNearlyAlwaysIs) {
  const Movement plain = of(between(survey(123, {}, 0), survey(123, {}, 0)), "A3");
  const Vec3 enough{0, shows_from * plain.uncertainty_m.y, 0};
  int false_alarms = 0, found = 0;
  constexpr std::uint64_t pairs = 200;
  for (std::uint64_t s = 0; s < pairs; ++s) {
    // The uncertainty is that of any such pair; only the placings differ.
    const Placing then = placed(survey(123, {}, 2 * s + 10));
    const auto moved = [&](Vec3 by) {
      const Placing now = placed(survey(50, by, 2 * s + 11));
      const auto at = [](const Placing& placing) {
        return std::ranges::find(placing.points, "A3", &PlacedPoint::id)->at;
      };
      const Vec3 off = at(now) - at(then), u = plain.uncertainty_m;
      const Frame& frame = demo().rig.frame;
      return std::abs(dot(off, frame.along)) > moved_beyond * u.x ||
             std::abs(dot(off, frame.across)) > moved_beyond * u.y || std::abs(dot(off, frame.up)) > moved_beyond * u.z;
    };
    false_alarms += moved({}) ? 1 : 0;
    found += moved(enough) ? 1 : 0;
  }
  EXPECT_LE(false_alarms, 10 + 4.5 * 3.1);
  EXPECT_GE(false_alarms, 1) << "a test that never errs is not one of 5 %";
  EXPECT_GE(found, 190 - 4.5 * 3.1);
}

// The same pair through the function itself, at the edge.
TEST(Since, BeyondTheEdgeAlongOneAxisIsMovedAndWithinAllIsNot) {
  const Movement plain = of(between(survey(123, {}, 0), survey(123, {}, 0)), "A3");
  const Vec3 u = plain.uncertainty_m;
  for (const auto& [move, moved] : {std::pair{Vec3{1.001 * moved_beyond * u.x, 0, 0}, Moved::moved},
                                    std::pair{Vec3{0, 0, -1.001 * moved_beyond * u.z}, Moved::moved},
                                    std::pair{0.999 * moved_beyond * u, Moved::not_shown}})
    EXPECT_EQ(of(between(survey(123, {}, 0), survey(123, move, 0)), "A3").moved, moved);
}

TEST(Since, NothingIsSaidOfASurveyThatIsNotBelievedAndWhatIsInOneAloneIsListed) {
  auto then = survey(123, {}, 0);
  then[0].at.x += 0.5;
  const Since since = between(then, survey(123, {}, 0));
  EXPECT_NE(since.placing.doubt, "");
  for (const Movement& one : since.movements) EXPECT_EQ(one.moved, Moved::not_believed) << one.id;
  auto fewer = survey(123, {}, 0), others = fewer;
  std::erase_if(fewer, [](const SurveyPoint& p) { return p.id == "A3"; });
  std::erase_if(others, [](const SurveyPoint& p) { return p.id == "R1"; });
  const Since parts = between(fewer, others);
  EXPECT_EQ(parts.only_now, std::vector<std::string>{"A3"});
  EXPECT_EQ(parts.only_then, std::vector<std::string>{"R1"});
}

// Both swapped, or neither: control in one plumb plane tells that of no file, but two files of one frame are alike.
TEST(Since, TwoFilesOfOneFrameHaveOneHand) {
  auto swapped = survey(123, {}, 0);
  for (SurveyPoint& point : swapped) std::swap(point.at.x, point.at.y);
  const Placing one = placed(survey(123, {0.1, 0, 0}, 0)), other = placed(survey(123, {}, 0));
  EXPECT_TRUE(same_axes(one, other));
  EXPECT_FALSE(same_axes(one, placed(swapped)));
  EXPECT_FALSE(same_axes(one, placed(survey(50, {}, 0)))) << "another set-up says nothing";
}

}  // namespace
}  // namespace fairlead
