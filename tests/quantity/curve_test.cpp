// A measured curve: straight between its points, continued beyond them, greatest at a point or an end.
#include "geometry/quantity/curve.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace fairlead {
namespace {

const Curve retraction({{0, 60}, {10, 90}, {20, 80}});

TEST(Curve, PassesThroughItsPointsAndIsStraightBetweenThem) {
  for (const CurvePoint& point : retraction.points()) EXPECT_EQ(retraction(point.x), point.y);
  EXPECT_DOUBLE_EQ(retraction(2.5), 67.5);
  EXPECT_DOUBLE_EQ(retraction(15), 85);
}

TEST(Curve, ContinuesItsEndSegmentsAndSaysThatItDoes) {
  EXPECT_DOUBLE_EQ(retraction(-2), 54);
  EXPECT_DOUBLE_EQ(retraction(25), 75);
  EXPECT_TRUE(retraction.covers(0) && retraction.covers(20));
  EXPECT_FALSE(retraction.covers(-1e-9) || retraction.covers(20.001) || Curve().covers(0));
}

TEST(Curve, GreatestIsAtAPointOfTheTableOrAtAnEnd) {
  EXPECT_EQ(retraction.greatest(0, 20), 90);
  EXPECT_DOUBLE_EQ(retraction.greatest(0, 5), 75);
  EXPECT_DOUBLE_EQ(retraction.greatest(12, 20), 88);
  EXPECT_DOUBLE_EQ(retraction.greatest(15, 15), 85);
}

// The law beside the numbers: nothing between the ends stands above the greatest.
TEST(Curve, NothingBetweenTheEndsStandsAboveTheGreatest) {
  for (double from = -3; from < 22; from += 0.37)
    for (double to = from; to < 24; to += 0.53)
      for (double x = from; x <= to; x += 0.11) EXPECT_LE(retraction(x), retraction.greatest(from, to) + 1e-12);
}

TEST(Curve, ItsSlopeIsThatOfTheSegmentAndOfThatToTheRightAtAPoint) {
  const Curve curve({{0, 10}, {2, 14}, {3, 8}});
  EXPECT_EQ(curve.at(1).slope, 2);
  EXPECT_EQ(curve.at(2).slope, -6);
  EXPECT_EQ(curve.at(-1).slope, 2);
  EXPECT_EQ(curve.at(5).slope, -6);
  EXPECT_EQ(curve.at(2.5).y, 11);
  EXPECT_EQ(Curve({{3, 7}}).at(1).slope, 0);
}

TEST(Curve, OnePointIsConstantAndNoPointIsUnknown) {
  EXPECT_EQ(Curve({{3, 7}})(-100), 7);
  EXPECT_EQ(Curve({{3, 7}})(100), 7);
  EXPECT_TRUE(std::isnan(Curve()(0)));
}

TEST(Curve, AtAPlaceThatIsNoNumberItIsUnknown) { EXPECT_TRUE(std::isnan(retraction(std::nan("")))); }

}  // namespace
}  // namespace fairlead
