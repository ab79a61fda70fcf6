// Numbers in the unit of a style. 1 ft is 0.3048 m exactly (source YP59).
#include "report/words/numbers.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "report/words/trial.hpp"

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

TEST(Span, HasTheUnitOfItsGreaterEndAndOfWhatItIsComparedWith) {
  const Style si{Units::si}, us{Units::us};
  EXPECT_EQ(shown(mainline::Span{0, 2.508}, Dimension::length, si), "0.000 to 2.508 m");
  EXPECT_EQ(shown(mainline::Span{0.0021, 0.004}, Dimension::length, si), "2.1 to 4.0 mm");
  EXPECT_EQ(shown(mainline::Span{0.0021, 0.004}, Dimension::length, si, 15.5), "0.002 to 0.004 m");
  EXPECT_EQ(shown(mainline::Span{12, 186}, Dimension::force, si, 1200), "0.01 to 0.19 kN");
  EXPECT_EQ(shown_beside(3, Dimension::force, si, 186), "3.0 N") << "more than its first digit";
  EXPECT_EQ(shown_beside(0.5, Dimension::force, si, 109), "0.5 N") << "never nought";
  EXPECT_EQ(shown_beside(0, Dimension::force, si, 109), "0 N");
  EXPECT_EQ(shown(mainline::Span{0, 3.81}, Dimension::length, us), "0'-0\" to 12'-6\"");
}

TEST(Travel, OfNothingHasTheUnitOfEveryTravel) {
  EXPECT_EQ(travel(0, {Units::us}), "0'-0\"");
  EXPECT_EQ(travel(0, {Units::us, true}), "0.00 ft (tenths)");
  EXPECT_EQ(travel(0, {Units::si}), "0.000 m");
}

TEST(SiUnit, IsTheOneJsonNames) {
  EXPECT_EQ(si_unit(Dimension::rating), "N");
  EXPECT_EQ(si_unit(Dimension::angle), "rad");
  EXPECT_EQ(si_unit(Dimension::ratio), "1");
}

}  // namespace
}  // namespace fairlead::words
