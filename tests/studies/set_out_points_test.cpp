// What a crew sets out, and what goes with a mark that stands elsewhere.
#include "geometry/studies/set_out_points.hpp"

#include <gtest/gtest.h>

#include <set>

#include "tests/demo_layout.hpp"
#include "tests/mounted_layouts.hpp"

namespace fairlead {
namespace {

const SetOutPoint& named(const std::vector<SetOutPoint>& points, const std::string& id) {
  for (const SetOutPoint& point : points)
    if (point.id == id) return point;
  throw std::runtime_error("no point " + id);
}

TEST(SetOutPoints, AreTheMarksOfAnchorsSheavesTheUnitAndTheTrolley) {
  const Rig rig = solve(demo_layout());
  std::vector<std::string> ids;
  for (const SetOutPoint& point : set_out_points(rig)) ids.push_back(point.id);
  EXPECT_EQ(ids, (std::vector<std::string>{"P1", "P2", "A3", "B1", "R1", "unit", "rest"}));
}

TEST(SetOutPoints, HaveNamesOfTheirOwnInEveryShippedLayout) {
  for (const std::string& file : shipped_layouts()) {
    const Rig rig = solve(shipped_layout(file));
    std::set<std::string> ids;
    for (const SetOutPoint& point : set_out_points(rig)) {
      EXPECT_TRUE(ids.insert(point.id).second) << file << " " << point.id;
      EXPECT_TRUE(point.at.has_value()) << file << " " << point.id;
    }
  }
}

TEST(SetOutPoints, LeaveOutWhatHangsFree) {
  for (const SetOutPoint& point : set_out_points(solve(free_redirect()))) EXPECT_NE(point.id, "R1");
}

TEST(SetOutPoints, PutTheRestMarkOnTheBareMainLine) {
  const Rig rig = solve(demo_layout());
  const Point3 rest = *named(set_out_points(rig), "rest").at;
  EXPECT_NEAR(rig.frame.chainage_m(rest), 188, 1e-9);
  EXPECT_NEAR(rig.frame.across_m(rest), 0, 1e-9);
  // Below the chord by less than the whole sag.
  const double chord_m = rig.frame.origin.z + 188 * rig.frame.rise_m / rig.frame.span_m;
  EXPECT_LT(rest.z, chord_m);
  EXPECT_GT(rest.z, chord_m - rig.main_line.solved()->states.front().sag_m);
}

TEST(SetOutPoints, MoveByThemselvesAndByJustSoMuch) {
  const Vec3 by{0.03, -0.02, 0.01};
  for (const std::string& file : shipped_layouts()) {
    const Rig rig = solve(shipped_layout(file));
    const auto before = set_out_points(rig);
    for (const SetOutPoint& point : before) {
      if (point.mark == Mark::rest_mark) continue;
      const auto after = set_out_points(solve(moved(rig.layout, point, rig.frame, by)));
      for (std::size_t i = 0; i < before.size(); ++i) {
        if (before[i].mark == Mark::rest_mark) continue;
        const Vec3 expected = before[i].id == point.id ? by : Vec3{};
        EXPECT_LT(norm((*after[i].at - *before[i].at) - expected), 1e-12) << file << " " << point.id;
      }
    }
  }
}

TEST(SetOutPoints, LeaveTheRestMarkWhereItWasWhenTheMainLinesStartMoves) {
  const Rig rig = solve(demo_layout());
  const SetOutPoint start = named(set_out_points(rig), "P1");
  const Rig after = solve(moved(rig.layout, start, rig.frame, 0.2 * rig.frame.along));
  const Vec3 by = *named(set_out_points(after), "rest").at - *named(set_out_points(rig), "rest").at;
  EXPECT_NEAR(dot(by, rig.frame.along), 0, 1e-9);
}

TEST(SetOutPoints, MoveTheRestMarkAlongTheMainLineOnly) {
  const Rig rig = solve(demo_layout());
  const SetOutPoint rest = named(set_out_points(rig), "rest");
  const Layout after = moved(rig.layout, rest, rig.frame, 0.25 * rig.frame.along + 0.1 * rig.frame.across);
  EXPECT_NEAR(after.brake_trolley.rest_m, 188.25, 1e-9);
}

TEST(SetOutPoints, CarryASwivelsSheaveWithItsEye) {
  const Rig rig = solve(swivelling_redirect());
  const SetOutPoint eye = named(set_out_points(rig), "R1");
  EXPECT_EQ(eye.mark, Mark::swivel_eye);
  const Vec3 by{0.1, 0, 0};
  const Layout after = moved(rig.layout, eye, rig.frame, by);
  EXPECT_LT(norm((after.sheaves[0].position->value - rig.layout.sheaves[0].position->value) - by), 1e-12);
}

}  // namespace
}  // namespace fairlead
