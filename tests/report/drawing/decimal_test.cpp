// A comma for the point in numbers, and nowhere else.
#include "report/drawing/decimal.hpp"

#include <gtest/gtest.h>

namespace fairlead::drawing {
namespace {

TEST(DecimalComma, StandsInNumbers) {
  EXPECT_EQ(with_comma("12.345 m"), "12,345 m");
  EXPECT_EQ(with_comma("\u221212.3"), "\u221212,3");
  EXPECT_EQ(with_comma("Ø1.6 symbol, 12.0e-6 /K"), "Ø1,6 symbol, 12,0e-6 /K");
  EXPECT_EQ(with_comma("at travel 0.009 m, 0.005 s after contact."), "at travel 0,009 m, 0,005 s after contact.");
}

TEST(DecimalComma, LeavesNoCommaBetweenNumbersThatCouldBeTheirs) {
  EXPECT_EQ(with_comma("(0.6000, \u22120.8000, 0.0000)"), "(0,6000; \u22120,8000; 0,0000)");
  EXPECT_EQ(with_comma("10, 12.5, 15 kN"), "10; 12,5; 15 kN");
  EXPECT_EQ(with_comma("ISO 5457, 7200, 128 and 129"), "ISO 5457, 7200, 128 and 129");
}

TEST(DecimalComma, LeavesVersionsNamesDatesAndFullStops) {
  for (const char* text : {"fairlead 0.1.0", "2026-10-30", "layouts/heron_2.5.toml:72", "1. Do not scale.", "R1.5", "",
                           "travel 15.", "1:200", "A.1", "..."})
    EXPECT_EQ(with_comma(text), text);
}

TEST(DecimalComma, IsNotWrittenIntoTheTitleBlock) {
  Drawing drawing;
  drawing.entities.push_back(Label{{0, 0}, 2.5, 0, "1.5", Layer::text});
  drawing.entities.push_back(Label{{0, 0}, 2.5, 0, "1.5", Layer::title_block});
  set_decimal_comma(drawing);
  EXPECT_EQ(std::get<Label>(drawing.entities[0]).text, "1,5");
  EXPECT_EQ(std::get<Label>(drawing.entities[1]).text, "1.5");
}

}  // namespace
}  // namespace fairlead::drawing
