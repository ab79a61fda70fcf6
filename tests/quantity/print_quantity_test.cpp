// SI to text: the unit and digits of each dimension.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

using D = Dimension;

TEST(PrintQuantity, EachDimensionHasItsUnitAndDigits) {
  const struct {
    Quantity quantity;
    const char *si, *us, *both;
  } cases[] = {
      {{12.345, D::length}, "12.345 m", "40'-6\"", "12.345 m (40'-6\")"},
      {{0.016, D::length}, "16.0 mm", "0.63 in", "16.0 mm (0.63 in)"},
      {{0.0665, D::length}, "66.5 mm", "2 5/8 in", "66.5 mm (2 5/8 in)"},
      {{-0.0254, D::length}, "-25.4 mm", "-1 in", "-25.4 mm (-1 in)"},
      {{-0.36195, D::length}, "-0.362 m", "-1'-2 1/4\"", "-0.362 m (-1'-2 1/4\")"},
      {{0.6096 - 1e-6, D::length}, "0.610 m", "2'-0\"", "0.610 m (2'-0\")"},
      {{0.0266, D::angle}, "1.52 deg", "1.52 deg", "1.52 deg"},
      {{80, D::mass}, "80.0 kg", "176.4 lb", "80.0 kg (176.4 lb)"},
      {{640, D::force}, "640 N", "144 lbf", "640 N (144 lbf)"},
      {{25, D::force}, "25.0 N", "5.6 lbf", "25.0 N (5.6 lbf)"},
      {{1234, D::force}, "1.23 kN", "277 lbf", "1.23 kN (277 lbf)"},
      {{11e6, D::force}, "11.00 MN", "2472898 lbf", "11.00 MN (2472898 lbf)"},
      {{19416.5, D::rating}, "19.4 kN (4365 lbf)", "4365 lbf (19.4 kN)", "19.4 kN (4365 lbf)"},
      {{288.15, D::temperature}, "15.0 °C", "59.0 °F", "15.0 °C (59.0 °F)"},
      {{12e-6, D::per_temperature}, "12.0e-6 /K", "6.7e-6 /F", "12.0e-6 /K (6.7e-6 /F)"},
      {{12, D::speed}, "12.00 m/s", "26.8 mph", "12.00 m/s (26.8 mph)"},
      {{0.35, D::mass_per_length}, "0.350 kg/m", "0.235 lb/ft", "0.350 kg/m (0.235 lb/ft)"},
      {{1250, D::moment}, "1.25 kN m", "922.0 lbf ft", "1.25 kN m (922.0 lbf ft)"},
      {{548.4e-6, D::area}, "548.4 mm2", "0.850 in2", "548.4 mm2 (0.850 in2)"},
      {{0.853, D::ratio}, "0.853", "0.853", "0.853"},
      {{0.97725, D::probability}, "0.9772", "0.9772", "0.9772"},
      {{2.346, D::time}, "2.35 s", "2.35 s", "2.35 s"},
      {{7, D::none}, "7", "7", "7"},
  };
  for (const auto& c : cases) {
    EXPECT_EQ(print_quantity(c.quantity), c.si);
    EXPECT_EQ(print_quantity(c.quantity, Units::us), c.us);
    EXPECT_EQ(print_quantity(c.quantity, Units::both), c.both);
  }
}

TEST(PrintQuantity, WhatIsNoNumberIsSaidInWords) {
  EXPECT_EQ(print_quantity({std::nan(""), D::length}), "unknown");
  EXPECT_EQ(print_quantity({std::nan(""), D::rating}, Units::both), "unknown");
  EXPECT_EQ(print_quantity({INFINITY, D::length}), "infinite");
  EXPECT_EQ(print_quantity({-INFINITY, D::length}, Units::us), "-infinite");
}

TEST(PrintQuantity, ASignThatSaysNothingIsDropped) {
  EXPECT_EQ(print_quantity({-1e-6, D::length}), "0.0 mm");
  EXPECT_EQ(print_quantity({-1e-9, D::angle}), "0.00 deg");
  EXPECT_EQ(print_quantity({-0.01, D::ratio}, Units::si, 1), "0.0");
  EXPECT_EQ(print_quantity({-0.06, D::ratio}, Units::si, 1), "-0.1");
}

TEST(PrintQuantity, DigitsAreDecimalsOfThePrintedUnit) {
  EXPECT_EQ(print_quantity({12.3456789, D::length}, Units::si, 1), "12.3 m");
  EXPECT_EQ(print_quantity({12.3456789, D::length}, Units::si, 5), "12.34568 m");
  EXPECT_EQ(print_quantity({0.0266, D::angle}, Units::us, 0), "2 deg");
  EXPECT_EQ(print_quantity({19416.5, D::rating}, Units::si, 2), "19.42 kN (4365.00 lbf)");
  EXPECT_EQ(print_quantity({1.5, D::none}, Units::si, 3), "1.500");
}

TEST(PrintQuantity, WhatMustBeReachedIsRoundedUpInEitherSystem) {
  const auto up = [](Quantity quantity, Units units) { return print_quantity(quantity, units, -1, Rounding::up); };
  EXPECT_EQ(print_quantity({1004.6, D::force}, Units::both), "1.00 kN (226 lbf)");
  EXPECT_EQ(up({1004.6, D::force}, Units::both), "1.01 kN (226 lbf)");
  EXPECT_EQ(up({1005.1, D::force}, Units::both), "1.01 kN (226 lbf)");
  EXPECT_EQ(up({1007.0, D::force}, Units::both), "1.01 kN (227 lbf)");
  EXPECT_EQ(up({1010.0, D::force}, Units::si), "1.01 kN") << "what is whole stays";
  EXPECT_EQ(up({0.0301, D::length}, Units::si), "30.1 mm");
  EXPECT_EQ(up({0.03011, D::length}, Units::si), "30.2 mm");
  EXPECT_EQ(up({0.0508 + 0.0254 / 16 * 0.01, D::length}, Units::us), "2 1/16 in");
  EXPECT_EQ(up({0.3048 + 0.0254 / 16 * 1.01, D::length}, Units::us), "1'-0 1/8\"");
}

}  // namespace
}  // namespace fairlead
