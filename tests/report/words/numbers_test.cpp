// Numbers in the unit of a style. 1 ft is 0.3048 m exactly (source YP59).
#include "report/words/numbers.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace fairlead::words {
namespace {

constexpr Style tenths{Units::us, true};

TEST(DecimalFeet, CarryTheirNameWhereverALengthIsShown) {
  EXPECT_EQ(shown(3.81, Dimension::length, tenths), "12.50 ft (tenths)");
  EXPECT_EQ(shown(-3.81, Dimension::length, tenths), "-12.50 ft (tenths)");
  EXPECT_EQ(travel(15, tenths), "49.21 ft (tenths)");
}

TEST(DecimalFeet, EndWhereInchesBegin) {
  EXPECT_NE(shown(0.1, Dimension::length, tenths).find("ft (tenths)"), std::string::npos);
  EXPECT_EQ(shown(0.0254, Dimension::length, tenths), print_quantity({0.0254, Dimension::length}, Units::us));
}

TEST(DecimalFeet, AreOfLengthsAloneAndOfNothingUnknown) {
  EXPECT_EQ(shown(1000, Dimension::force, tenths), shown(1000, Dimension::force, {Units::us}));
  EXPECT_EQ(shown(std::numeric_limits<double>::quiet_NaN(), Dimension::length, tenths), "unknown");
}

TEST(DecimalFeet, StandBesideSiNowhere) {
  EXPECT_FALSE(in_tenths({3.81, Dimension::length}, {Units::both, true}));
  EXPECT_FALSE(in_tenths({3.81, Dimension::length}, {Units::si, true}));
  EXPECT_FALSE(in_tenths({3.81, Dimension::length}, {Units::us}));
}

TEST(SiUnit, IsTheOneJsonNames) {
  EXPECT_EQ(si_unit(Dimension::rating), "N");
  EXPECT_EQ(si_unit(Dimension::angle), "rad");
  EXPECT_EQ(si_unit(Dimension::ratio), "1");
}

}  // namespace
}  // namespace fairlead::words
