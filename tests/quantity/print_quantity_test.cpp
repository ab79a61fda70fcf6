// SI to text: the unit and digits of each dimension, and that what is printed reads back.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
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
      {{-0.36195, D::length}, "-0.362 m", "-1'-2 1/4\"", "-0.362 m (-1'-2 1/4\")"},
      {{0.6096 - 1e-6, D::length}, "0.610 m", "2'-0\"", "0.610 m (2'-0\")"},
      {{0.0266, D::angle}, "1.52 deg", "1.52 deg", "1.52 deg"},
      {{80, D::mass}, "80.0 kg", "176.4 lb", "80.0 kg (176.4 lb)"},
      {{640, D::force}, "640 N", "144 lbf", "640 N (144 lbf)"},
      {{25, D::force}, "25.0 N", "5.6 lbf", "25.0 N (5.6 lbf)"},
      {{1234, D::force}, "1.23 kN", "277 lbf", "1.23 kN (277 lbf)"},
      {{11e6, D::force}, "11.00 MN", "2472898 lbf", "11.00 MN (2472898 lbf)"},
      {{19416.5, D::rating}, "19.4 kN (4365 lbf)", "4365 lbf (19.4 kN)", "19.4 kN (4365 lbf)"},
      {{288.15, D::temperature}, "15.0 C", "59.0 F", "15.0 C (59.0 F)"},
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

// Half of the last printed digit, in SI; feet and inches end at sixteenths.
double half_last_digit(const std::string& text, const Quantity& quantity) {
  if (text.find('\'') != std::string::npos) return 0.0254 / 32;
  const std::size_t point = text.find('.'), end = text.find_first_not_of("-.0123456789");
  const std::size_t decimals = point == std::string::npos ? 0 : std::min(end, text.size()) - point - 1;
  std::size_t blank = text.rfind("e-6 ");
  double factor = blank == std::string::npos ? 1 : 1e-6;
  blank = blank == std::string::npos ? text.find(' ') : blank + 3;
  if (blank != std::string::npos) factor *= find_unit(text.substr(blank + 1), quantity.dimension)->to_si;
  return 0.5 * factor * std::pow(10, -static_cast<double>(decimals));
}

TEST(PrintQuantity, WhatIsPrintedReadsBackToHalfItsLastDigit) {
  std::mt19937_64 random(20260301);  // fixed: the same numbers on every run
  std::uniform_real_distribution<double> exponent(-7, 8), mantissa(-10, 10);
  for (const Dimension dimension : {D::none, D::ratio, D::length, D::area, D::angle, D::mass, D::force, D::moment,
                                    D::speed, D::acceleration, D::time, D::temperature, D::density, D::mass_per_length,
                                    D::force_per_length, D::per_temperature, D::probability})
    for (int i = 0; i < 2000; ++i) {
      double si = mantissa(random);
      si *= std::pow(10, exponent(random));
      if (dimension == D::temperature) si = std::abs(si) + 1;  // its last digit must not print below absolute zero
      if (dimension == D::none) si = std::round(si * 1e3) / 1e3;
      for (const Units system : {Units::si, Units::us}) {
        const std::string text = print_quantity({si, dimension}, system, dimension == D::none ? 4 : -1);
        const auto read = read_quantity(text, dimension);
        ASSERT_TRUE(read.has_value()) << text << ": " << read.error().message;
        const double rounding = 4e-16 * (std::abs(si) + 300);  // of the arithmetic; 300: offsets of the scales
        ASSERT_NEAR(*read, si, half_last_digit(text, {si, dimension}) + rounding) << text;
      }
    }
}

TEST(PrintQuantity, ARatingReadsBackFromEitherOfItsHalves) {
  const std::string text = print_quantity({19416.5, D::rating});
  EXPECT_NEAR(*read_quantity(text.substr(0, text.find(" (")), D::rating), 19416.5, 50);
  EXPECT_NEAR(*read_quantity("4365 lbf", D::rating), 19416.5, 0.5 * 4.4483);
}

}  // namespace
}  // namespace fairlead
