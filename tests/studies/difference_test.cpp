#include "geometry/studies/difference.hpp"

#include <gtest/gtest.h>

#include "geometry/checks/counterpart.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

const Judged& demo() {
  static const Judged judged = judge(demo_layout());
  return judged;
}

Difference to(const Layout& layout) { return difference(demo(), judge(layout, {&demo().rig})); }

bool same(const Pair& pair) { return pair.was == pair.is; }

TEST(Difference, ARigDoesNotDifferFromItself) {
  const Difference none = to(demo_layout());
  EXPECT_TRUE(none.inputs.empty());
  EXPECT_TRUE(none.moved.empty());
  EXPECT_FALSE(none.frame.any());
  for (const StateChange& state : none.main_line)
    EXPECT_TRUE(same(state.sag_m) && same(state.start_tension_N) && same(state.end_tension_N)) << state.name;
  for (const AnchorChange& anchor : none.anchors)
    EXPECT_TRUE(same(anchor.force_N) && same(anchor.utilisation) && anchor.case_was == anchor.case_is) << anchor.id;
  for (const LineChange& line : none.lines) {
    EXPECT_TRUE(same(line.hanging_m) && same(line.cut_m) && same(line.rest_tension_N)) << line.id;
    EXPECT_TRUE(line.hanging_m.was.has_value());
  }
  for (const SheaveChange& sheave : none.sheaves) EXPECT_TRUE(same(sheave.fleet_rad)) << sheave.id;
  EXPECT_EQ(none.findings.size(), demo().findings.size());
  for (const FindingChange& finding : none.findings) {
    EXPECT_TRUE(finding.was && finding.was == finding.is);
    EXPECT_TRUE(same(finding.reserve));
  }
}

// The demo's main line runs (176, 132) / 220 = (0.8, 0.6) in plan: 12 mm along, 35 mm to the left of it (-0.6, 0.8) and
// 2 mm down are (-11.4, 35.2, -2) mm on the site's axes. Positions of 1348 m hold half a unit in their last
// place, 1.1e-13 m, and each component is a sum of two or three of them.
TEST(Difference, AMovedAnchorGivesExactlyItsVector) {
  Layout moved = demo_layout();
  moved.anchors[2].position.value = moved.anchors[2].position.value + Vec3{-0.0114, 0.0352, -0.002};
  const Difference found = to(moved);
  ASSERT_EQ(found.moved.size(), 1u);
  const MovedPoint& point = found.moved.front();
  EXPECT_EQ(point.section + " " + point.id + " " + point.key, "anchor A3 position");
  EXPECT_NEAR(point.along_m, 0.012, 5e-13);
  EXPECT_NEAR(point.across_m, 0.035, 5e-13);
  EXPECT_NEAR(point.up_m, -0.002, 5e-13);
  EXPECT_NEAR(point.total_m, std::sqrt(0.012 * 0.012 + 0.035 * 0.035 + 0.002 * 0.002), 5e-13);
  EXPECT_FALSE(found.frame.any());
}

TEST(Difference, TheOtherWayRoundIsTheMirror) {
  for (const char* name : {"heron_gully_spoiled", "marten_ridge"}) {
    const Judged other = judge(layout_of(name));
    const Difference forth = difference(demo(), other), back = difference(other, demo());
    ASSERT_EQ(forth.moved.size(), back.moved.size());
    for (std::size_t i = 0; i < forth.moved.size(); ++i) {
      EXPECT_EQ(forth.moved[i].by_m, -back.moved[i].by_m);
      if (!forth.frame.any()) {
        EXPECT_EQ(forth.moved[i].across_m, -back.moved[i].across_m);
      }
    }
    EXPECT_EQ(forth.findings.size(), back.findings.size());
    std::size_t was = 0, is = 0;
    for (const FindingChange& one : forth.findings) {
      was += one.was.has_value(), is += one.is.has_value();
      const auto mirrored = std::count_if(back.findings.begin(), back.findings.end(), [&](const FindingChange& two) {
        return two.was == one.is && two.is == one.was && two.reserve.was == one.reserve.is;
      });
      EXPECT_EQ(mirrored, 1);
    }
    EXPECT_EQ(was, demo().findings.size()) << "each stands once in the list";
    EXPECT_EQ(is, other.findings.size());
    for (const AnchorChange& one : forth.anchors) {
      const auto mirrored = std::count_if(back.anchors.begin(), back.anchors.end(), [&](const AnchorChange& two) {
        return two.id == one.id && two.force_N.was == one.force_N.is && two.utilisation.is == one.utilisation.was &&
               two.case_was == one.case_is;
      });
      EXPECT_EQ(mirrored, 1) << one.id;
    }
  }
}

TEST(Difference, WhereTheSupportsMoveTheFrameDoes) {
  Layout turned = demo_layout();
  // 1.1 m to the left of the end, 220 m from the start: atan(1.1 / 220).
  turned.anchors[1].position.value = turned.anchors[1].position.value + Vec3{-0.66, 0.88, 0};
  const Difference found = to(turned);
  EXPECT_TRUE(found.frame.any());
  EXPECT_EQ(found.frame.start_by_m, Vec3{});
  EXPECT_NEAR(found.frame.turned_rad, std::atan2(1.1, 220), 1e-14);
  EXPECT_NEAR(*found.frame.span_m.is, std::hypot(220, 1.1), 1e-12);
  // Told in the old frame; the rest mark, 188 m out, goes along with the line.
  ASSERT_EQ(found.moved.size(), 2u);
  EXPECT_NEAR(found.moved[0].across_m, 1.1, 5e-13);
  EXPECT_EQ(found.moved[1].key, "rest_mark");
  EXPECT_NEAR(found.moved[1].across_m, 188 * std::sin(std::atan2(1.1, 220)), 1e-11);
}

TEST(Difference, ItemsAreMatchedByTheirIdsWhateverTheirOrder) {
  Layout shuffled = demo_layout();
  std::swap(shuffled.anchors[2], shuffled.anchors[3]);
  const auto swap = [](AnchorId id) { return id == AnchorId{2} ? AnchorId{3} : id == AnchorId{3} ? AnchorId{2} : id; };
  shuffled.brake_unit.on = swap(shuffled.brake_unit.on);
  for (Sheave& sheave : shuffled.sheaves)
    if (const auto* on = std::get_if<AnchorId>(&sheave.on)) sheave.on = swap(*on);
  const Difference found = to(shuffled);
  EXPECT_TRUE(found.inputs.empty());
  for (const AnchorChange& anchor : found.anchors) EXPECT_TRUE(same(anchor.utilisation)) << anchor.id;
  for (const FindingChange& finding : found.findings) EXPECT_TRUE(finding.was && finding.is);
}

TEST(Difference, AnUnsolvedSideHasNoNumbersAndPassesNothing) {
  Layout slack = demo_layout({{"main_line.tension", "'0.5 kN'"}});
  const Judged unsolved = judge(slack);
  ASSERT_EQ(unsolved.rig.main_line.solved(), nullptr);
  const Difference found = difference(demo(), unsolved);
  for (const StateChange& state : found.main_line) EXPECT_TRUE(state.sag_m.was && !state.sag_m.is);
  for (const LineChange& line : found.lines) EXPECT_TRUE(line.hanging_m.was && !line.hanging_m.is);
  for (const AnchorChange& anchor : found.anchors) EXPECT_TRUE(anchor.force_N.was && !anchor.force_N.is);
  for (const FindingChange& finding : found.findings)
    if (finding.is && unsolved.findings[*finding.is].verdict == Verdict::undetermined) {
      EXPECT_FALSE(finding.reserve.is);
    }
}

TEST(Reserve, IsTheShareOfTheLimitThatIsLeftOnEitherSide) {
  const auto reserve = [](double value, double bound, double limit, Verdict verdict) {
    Finding finding{.check = &fleet_angle, .verdict = verdict, .value = value, .bound = bound, .measured = true};
    finding.limit = Limit{{limit, {}}, "x"};
    return reserve_of(finding);
  };
  EXPECT_EQ(reserve(2, 3, 4, Verdict::pass), 0.25) << "by the bound";
  EXPECT_EQ(reserve(7, 6, 4, Verdict::pass), 0.5) << "above a least limit";
  EXPECT_EQ(reserve(5, 6, 4, Verdict::fail), -0.25) << "by the value";
  EXPECT_EQ(reserve(2, 3, 4, Verdict::undetermined), std::nullopt);
  EXPECT_EQ(reserve(2, 3, 4, Verdict::not_judged), std::nullopt);
  EXPECT_EQ(reserve(2, 3, 0, Verdict::fail), std::nullopt);
  EXPECT_EQ(reserve(2, std::nan(""), 4, Verdict::pass), std::nullopt);
}

TEST(Reserve, GrowthIsOfWhatItWas) {
  EXPECT_EQ(growth({4, 5}), 0.25);
  EXPECT_EQ(growth({0, 5}), std::nullopt);
  EXPECT_EQ(growth({4, std::nullopt}), std::nullopt);
}

}  // namespace
}  // namespace fairlead
