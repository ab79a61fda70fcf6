#include <numbers>

#include "tests/anchorage/nodes.hpp"

namespace fairlead::anchorage {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// Two equal legs that make this angle with the chord between their far ends, which runs across; the node hangs below.
Node bridle(double angle_rad, double length_m = 2) {
  const double half_m = length_m * std::cos(angle_rad), depth_m = length_m * std::sin(angle_rad);
  return {{0, 0, 0}, {{.to = {0, half_m, depth_m}}, {.to = {0, -half_m, depth_m}}}};
}

// Source [own]: half the load is carried by each leg's part square to the chord: 1 / (2 sin a). The printed figures of
// shallow legs (5.7 at 5 degrees, 2.9 at 10) are common practice; tolerance half of their last digit.
TEST(Swing, ShallowLegsOfABridleMultiplyTheLoad) {
  for (const double degrees : {5.0, 10.0, 30.0, 45.0, 60.0}) {
    const Held legs = held(bridle(degrees * degree), {0, 0, -1000});
    const double closed = 1000 / (2 * std::sin(degrees * degree));
    EXPECT_NEAR(legs.force_N[0], closed, 1e-9 * closed) << degrees << " degrees";
    EXPECT_NEAR(legs.force_N[1], closed, 1e-9 * closed) << degrees << " degrees";
  }
  EXPECT_NEAR(held(bridle(5 * degree), {0, 0, -1}).force_N[0], 5.7, 0.05);
  EXPECT_NEAR(held(bridle(10 * degree), {0, 0, -1}).force_N[0], 2.9, 0.05);
}

TEST(Swing, ASlingTurnsUntilTheForceRunsAlongIt) {
  const Node node{{0, 0, 0}, {{.to = {0, 0, 2}}}};
  const Held sling = held(node, {300, 0, -400});
  EXPECT_NEAR(sling.force_N[0], 500, 1e-9);
  EXPECT_NEAR(sling.moved_m->x, 1.2, 1e-12);
  EXPECT_NEAR(sling.moved_m->z, 0.4, 1e-12);
  EXPECT_EQ(held(node, {0, 0, -7}).moved_m, (Vec3{0, 0, 0}));
}

TEST(Swing, ABridleTurnsAboutItsChordIntoTheForcesPlaneAndKeepsItsShape) {
  const Node node = bridle(30 * degree);
  // Level pull: the triangle, 1 m high, swings through a right angle.
  const Held legs = held(node, {1000, 0, 0});
  EXPECT_NEAR(legs.force_N[0], 1000, 1e-9);
  EXPECT_NEAR(legs.moved_m->x, 1, 1e-12);
  EXPECT_NEAR(legs.moved_m->z, 1, 1e-12);
}

TEST(Swing, ForcesOnBridlesOfAnyShapeAreInEquilibriumWhereTheNodeComesToLie) {
  Random random(20261125);
  for (int i = 0; i < 500; ++i) {
    const Node node{Point3{} + random.vector(1),
                    {{.to = Point3{0, 3, 2} + random.vector(1)}, {.to = Point3{0, -3, 2} + random.vector(1)}}};
    const Vec3 force_N = random.vector(5000);
    const Held legs = held(node, force_N);
    ASSERT_TRUE(legs.moved_m);
    EXPECT_LE(norm(left_over_N(node, legs, force_N, *legs.moved_m)), 1e-11 * norm(force_N)) << "case " << i;
    for (std::size_t m = 0; m < 2; ++m) {
      EXPECT_GE(legs.force_N[m], 0) << "case " << i;
      const double before_m = norm(node.members[m].to - node.at),
                   after_m = norm(node.members[m].to - (node.at + *legs.moved_m));
      const bool slack = !legs.slack.empty() && legs.slack[0] == static_cast<int>(m);
      EXPECT_LE(after_m, before_m * (1 + 1e-12)) << "a leg was stretched, case " << i;
      if (!slack) {
        EXPECT_NEAR(after_m, before_m, 1e-12 * before_m) << "case " << i;
      }
    }
  }
}

TEST(Swing, AForceOutsideTheFanOfABridleLeavesOneLegSlackAndTheOtherCarriesAll) {
  const Node node = bridle(60 * degree);
  const Held legs = held(node, {0, -1000, -100});
  EXPECT_EQ(legs.slack, std::vector<int>{1});
  EXPECT_EQ(legs.force_N[1], 0);
  EXPECT_NEAR(legs.force_N[0], std::hypot(1000, 100), 1e-9);
}

// Source [own]: by the triangle of forces; the pole leans 60 degrees, the guy ties it back level.
TEST(Swing, APoleAndOneGuyHoldThePullThatLiesBetweenThem) {
  const Node node{{1, 0, std::sqrt(3)}, {{.to = {0, 0, 0}, .pushes = true}, {.to = {-4, 0, std::sqrt(3)}}}};
  const Held held_by = held(node, {0, 0, -1000});
  // The pull points toward the chord between foot and guy's anchor: it swings over, to hang below.
  EXPECT_GT(norm(*held_by.moved_m), 1);
}

TEST(Swing, TwoMembersInOneLineHoldNothingAcrossIt) {
  const Node node{{0, 0, 0}, {{.to = {0, 3, 0}}, {.to = {0, -2, 0}}}};
  const auto solved = hold(node, {0, 0, -1000});
  ASSERT_FALSE(solved);
  EXPECT_EQ(solved.error().why, "its two members lie in one line and hold nothing across it");
}

TEST(Swing, AnUnknownForceIsNotHeld) {
  EXPECT_FALSE(hold(bridle(0.5), {0, std::nan(""), 0}));
  EXPECT_FALSE(hold({{0, 0, 0}, {{.to = {0, 0, 0}}}}, {0, 0, -1}));
  EXPECT_FALSE(hold({}, {0, 0, -1}));
}

TEST(Swing, WithoutAForceNothingIsTautNorNamedSlack) {
  const Held legs = held(bridle(0.5), {});
  EXPECT_EQ(legs.force_N, (std::vector<double>{0, 0}));
  EXPECT_TRUE(legs.slack.empty());
}

}  // namespace
}  // namespace fairlead::anchorage
