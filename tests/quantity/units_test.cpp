// Text to SI: every unit against published factors, and what is refused, word for word.
#include "geometry/quantity/units.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <span>
#include <string>
#include <utility>

namespace fairlead {
namespace {

using D = Dimension;

double value(std::string_view text, Dimension dimension) {
  const auto read = read_quantity(text, dimension);
  EXPECT_TRUE(read.has_value()) << text << ": " << read.error().message;
  return read.value_or(std::nan(""));
}

// "message; instead", or the value where it was read after all.
std::string refusal(std::string_view text, Dimension dimension) {
  const auto read = read_quantity(text, dimension);
  return read ? "read as " + std::to_string(*read) : read.error().message + "; " + read.error().instead;
}

struct Factor {
  const char* unit;
  Dimension dimension;
  double si, half_last_digit;
};

// Sources NIST-SP811 and YP59, from memory. The table prints seven digits, exact factors in bold; the tolerance is half
// of the last printed digit.
constexpr Factor published_factors[] = {
    {"ft", D::length, 3.048e-1, 0},
    {"in", D::length, 2.54e-2, 0},
    {"yd", D::length, 9.144e-1, 0},
    {"mi", D::length, 1.609344e3, 0},
    {"US survey ft", D::length, 3.048006e-1, 5e-8},
    {"in2", D::area, 6.4516e-4, 0},
    {"ft2", D::area, 9.290304e-2, 0},
    {"deg", D::angle, 1.745329e-2, 5e-9},
    {"gon", D::angle, 1.570796e-2, 5e-9},
    {"lb", D::mass, 4.535924e-1, 5e-8},
    {"t", D::mass, 1e3, 0},
    {"kgf", D::force, 9.80665, 0},
    {"lbf", D::force, 4.448222, 5e-7},
    {"kip", D::force, 4.448222e3, 5e-4},
    {"kgf", D::rating, 9.80665, 0},
    {"lbf", D::rating, 4.448222, 5e-7},
    {"kip", D::rating, 4.448222e3, 5e-4},
    {"lbf ft", D::moment, 1.355818, 5e-7},
    {"ft lb", D::moment, 1.355818, 5e-7},
    {"km/h", D::speed, 2.777778e-1, 5e-8},
    {"ft/s", D::speed, 3.048e-1, 0},
    {"mph", D::speed, 4.4704e-1, 0},
    {"ft/s2", D::acceleration, 3.048e-1, 0},
    {"g", D::acceleration, 9.80665, 0},
    {"min", D::time, 60, 0},
    {"h", D::time, 3600, 0},
    {"F", D::temperature, 5.555556e-1, 5e-8},
    {"lb/ft3", D::density, 1.601846e1, 5e-6},
    {"lb/ft", D::mass_per_length, 1.488164, 5e-7},
    {"lbf/ft", D::force_per_length, 1.459390e1, 5e-6},
    {"lbf/in", D::force_per_length, 1.751268e2, 5e-5},
    {"/F", D::per_temperature, 1.8, 0},
};

// Source SI, from memory: the prefixes and the other names of one unit.
// A mark in kilograms or pounds stands for the weight of that mass at standard gravity.
constexpr Factor exact_by_definition[] = {
    {"%", D::ratio, 1e-2, 0},
    {"m", D::length, 1, 0},
    {"mm", D::length, 1e-3, 0},
    {"cm", D::length, 1e-2, 0},
    {"km", D::length, 1e3, 0},
    {"\"", D::length, 2.54e-2, 0},
    {"'", D::length, 3.048e-1, 0},
    {"m2", D::area, 1, 0},
    {"mm2", D::area, 1e-6, 0},
    {"cm2", D::area, 1e-4, 0},
    {"rad", D::angle, 1, 0},
    {"mrad", D::angle, 1e-3, 0},
    {"°", D::angle, std::numbers::pi / 180, 0},
    {"kg", D::mass, 1, 0},
    {"g", D::mass, 1e-3, 0},
    {"tonne", D::mass, 1e3, 0},
    {"N", D::force, 1, 0},
    {"daN", D::force, 10, 0},
    {"kN", D::force, 1e3, 0},
    {"MN", D::force, 1e6, 0},
    {"N", D::rating, 1, 0},
    {"daN", D::rating, 10, 0},
    {"kN", D::rating, 1e3, 0},
    {"MN", D::rating, 1e6, 0},
    {"kg", D::rating, 9.80665, 0},
    {"t", D::rating, 9806.65, 0},
    {"tonne", D::rating, 9806.65, 0},
    {"lb", D::rating, 0.45359237 * 9.80665, 0},
    {"N m", D::moment, 1, 0},
    {"kN m", D::moment, 1e3, 0},
    {"m/s", D::speed, 1, 0},
    {"m/s2", D::acceleration, 1, 0},
    {"s", D::time, 1, 0},
    {"ms", D::time, 1e-3, 0},
    {"K", D::temperature, 1, 0},
    {"C", D::temperature, 1, 0},
    {"°C", D::temperature, 1, 0},
    {"°F", D::temperature, 5.0 / 9.0, 0},
    {"kg/m3", D::density, 1, 0},
    {"kg/m", D::mass_per_length, 1, 0},
    {"g/m", D::mass_per_length, 1e-3, 0},
    {"N/m", D::force_per_length, 1, 0},
    {"kN/m", D::force_per_length, 1e3, 0},
    {"/K", D::per_temperature, 1, 0},
    {"/C", D::per_temperature, 1, 0},
    {"%", D::probability, 1e-2, 0},
};

TEST(Units, EveryFactorIsThatOfThePublishedTables) {
  const auto factor_of = [](const Unit& unit) -> const Factor* {
    for (const auto table : {std::span<const Factor>(published_factors), std::span<const Factor>(exact_by_definition)})
      for (const Factor& factor : table)
        if (factor.unit == unit.name && factor.dimension == unit.dimension) return &factor;
    return nullptr;
  };
  for (const Unit& unit : all_units()) {
    const Factor* factor = factor_of(unit);
    ASSERT_NE(factor, nullptr) << unit.name << " stands in no published table here";
    // An exact factor is met to the rounding of its few products: 4 ulp.
    EXPECT_NEAR(unit.to_si, factor->si, std::max(factor->half_last_digit, factor->si * 1e-15)) << unit.name;
  }
  EXPECT_EQ(all_units().size(), std::size(published_factors) + std::size(exact_by_definition));
}

TEST(Units, AUnitIsReadByItsNameAndDoublingTheNumberDoublesTheValue) {
  std::set<std::pair<Dimension, std::string_view>> seen;
  for (const Unit& unit : all_units()) {
    EXPECT_TRUE(seen.insert({unit.dimension, unit.name}).second) << unit.name << " stands twice in the table";
    const std::string name(unit.name);
    EXPECT_DOUBLE_EQ(value("1.5 " + name, unit.dimension), unit.offset + 1.5 * unit.to_si) << name;
    if (unit.dimension == D::temperature) continue;  // twice 10 C is not 20 C
    EXPECT_DOUBLE_EQ(value("3" + name, unit.dimension), 2 * value("1.5 " + name, unit.dimension)) << name;
    EXPECT_EQ(value("-1.5 " + name, unit.dimension), -value("1.5 " + name, unit.dimension)) << name;
  }
}

// The fixed points of the Fahrenheit scale, and the place where both scales agree.
TEST(Units, TemperaturesStandOnTheKelvin) {
  EXPECT_DOUBLE_EQ(value("0 C", D::temperature), 273.15);
  EXPECT_DOUBLE_EQ(value("15 C", D::temperature), 288.15);
  EXPECT_DOUBLE_EQ(value("32 F", D::temperature), 273.15);
  EXPECT_DOUBLE_EQ(value("212 °F", D::temperature), 373.15);
  EXPECT_DOUBLE_EQ(value("-40 F", D::temperature), value("-40 °C", D::temperature));
  EXPECT_DOUBLE_EQ(value("12e-6 /K", D::per_temperature), 12e-6);
  EXPECT_DOUBLE_EQ(value("10e-6 /F", D::per_temperature), 18e-6);
  EXPECT_EQ(value("0 K", D::temperature), 0);
}

// The survey foot is 1200/3937 m: 2 ppm longer than the foot. Nobody gets it without asking by name.
TEST(Units, TheSurveyFootIsTwoMillionthsLonger) {
  EXPECT_NEAR(value("1 US survey ft", D::length) / value("1 ft", D::length) - 1, 2e-6, 1e-11);
}

TEST(Units, FeetAndInchesAreReadAsTheyAreWrittenOnSite) {
  const double in = 0.0254;
  const std::pair<const char*, double> lengths[] = {
      {"12 ft 6 in", 150 * in},
      {"12ft6in", 150 * in},
      {"12'-6 1/2\"", 150.5 * in},
      {"12' 6\"", 150 * in},
      {"12'6\"", 150 * in},
      {"12'-6\"", 150 * in},
      {"12'", 144 * in},
      {"6\"", 6 * in},
      {"6 1/2\"", 6.5 * in},
      {"6-1/2 in", 6.5 * in},
      {"1/2 in", 0.5 * in},
      {"3/16\"", 0.1875 * in},
      {"12 ft 6-3/8 in", 150.375 * in},
      {"12.54 ft", 150.48 * in},
      {"-3 ft 6 in", -42 * in},
      {"-1/4 in", -0.25 * in},
      {"0 ft 11.5 in", 11.5 * in},
      {"12 ft 1/2 in", 144.5 * in},
      {"0.5 in", 0.5 * in},
      {".5 in", 0.5 * in},
      {"  7 ft  ", 84 * in},
  };
  for (const auto& [text, metres] : lengths) EXPECT_DOUBLE_EQ(value(text, D::length), metres) << text;
}

TEST(Units, NumbersAreReadInEveryUsualForm) {
  EXPECT_EQ(value("11 MN", D::force), 11e6);
  EXPECT_EQ(value("+4 %", D::ratio), 0.04);
  EXPECT_EQ(value("4%", D::probability), 0.04);
  EXPECT_EQ(value("1.1e7N", D::force), 1.1e7);
  EXPECT_EQ(value("20 mm", D::length), 0.02);
  EXPECT_EQ(value("0.35 kg/m", D::mass_per_length), 0.35);
  EXPECT_EQ(value("0.5 rad", D::angle), 0.5);
  EXPECT_NEAR(value("27 mph", D::speed), 12.07008, 1e-14);
  EXPECT_DOUBLE_EQ(value("43 km/h", D::speed), 43 / 3.6);
}

// A mark on gear is a force, or the mass whose weight at standard gravity is that force.
TEST(Units, ARatingInMassIsTheWeightOfThatMass) {
  EXPECT_DOUBLE_EQ(value("2 t", D::rating), 2000 * 9.80665);
  EXPECT_DOUBLE_EQ(value("500 kg", D::rating), 500 * 9.80665);
  EXPECT_EQ(value("2700 lb", D::rating), value("2700 lbf", D::force));
  EXPECT_EQ(value("2700 lbf", D::rating), value("2700 lbf", D::force));
  EXPECT_EQ(value("20 kN", D::rating), 20e3);
  EXPECT_EQ(value("20000", D::rating), 20e3);
  EXPECT_NEAR(value("4 kip", D::rating), 17792.89, 5e-3);
}

TEST(Units, ABareNumberIsSIWhereItCannotMislead) {
  for (const Dimension allowed : {D::none, D::ratio, D::probability, D::length, D::mass, D::force, D::rating, D::speed,
                                  D::time, D::mass_per_length})
    EXPECT_EQ(value("1.5", allowed), 1.5);
  for (const Dimension refused : {D::angle, D::temperature, D::area, D::moment, D::acceleration, D::density,
                                  D::force_per_length, D::per_temperature}) {
    EXPECT_FALSE(read_quantity("1.5", refused).has_value());
    EXPECT_FALSE(read_bare_number(1.5, refused).has_value());
    EXPECT_FALSE(bare_number_allowed(refused));
  }
}

TEST(Units, WhatIsNoQuantityIsRefusedWithWhatToWrite) {
  const struct {
    const char* text;
    Dimension dimension;
    const char* refusal;
  } cases[] = {
      {"3 ton", D::rating, "\"ton\" may mean 1000 kg, 2000 lb or 2240 lb; write \"3 t\", \"6000 lb\" or \"6720 lb\""},
      {"1.5 tons", D::mass,
       "\"ton\" may mean 1000 kg, 2000 lb or 2240 lb; write \"1.5 t\", \"3000 lb\" or \"3360 lb\""},
      {"3 Ton", D::force,
       "\"ton\" may mean 1000 kg, 2000 lb or 2240 lb; write a force in N, daN, kN, MN, kgf, lbf, kip"},
      {"1.5", D::angle,
       "1.5 without a unit could be degrees, or the 85.9 degrees that 1.5 radians are; write \"1.5 deg\" or \"1.5 "
       "rad\""},
      {"15", D::temperature, "15 without a unit could be C, F or K; write \"15 C\", \"15 F\" or \"15 K\""},
      {"12e-6", D::per_temperature, "a unit is missing; write a thermal expansion in /K, /C, /F"},
      {"16,5 mm", D::length, "there is a comma in the number; write \"16.5 mm\""},
      {"1,500 m", D::length, "there is a comma in the number; write \"1.500 m\" or \"1500 m\""},
      {"1,5 kg", D::mass, "there is a comma in the number; write \"1.5 kg\""},
      {"3 kg", D::length,
       "\"kg\" is a mass, and a length is wanted; write a length in m, mm, cm, km, in, \", ft, ', yd, mi, US survey "
       "ft"},
      {"2700 lb", D::force, "\"lb\" is a mass, and a force is wanted; write \"2700 lbf\""},
      {"2700 lbf", D::mass, "\"lbf\" is a force, and a mass is wanted; write a mass in kg, g, t, tonne, lb"},
      {"2 m", D::ratio, "\"m\" is a length, and a ratio is wanted; write a ratio as a number or in %"},
      {"20 KN", D::force, "\"KN\" is no unit; did you mean \"kN\"?"},
      {"20 parsec", D::speed, "\"parsec\" is no unit; write a speed in m/s, km/h, ft/s, mph"},
      {"2 feet", D::mass, "\"feet\" is no unit; write a mass in kg, g, t, tonne, lb"},
      {"", D::mass, "this does not begin with a number; write a mass in kg, g, t, tonne, lb"},
      {"nan kg", D::mass, "this does not begin with a number; write a mass in kg, g, t, tonne, lb"},
      {"inf", D::mass, "this does not begin with a number; write a mass in kg, g, t, tonne, lb"},
      {"--3 kg", D::mass, "this does not begin with a number; write a mass in kg, g, t, tonne, lb"},
      {"0x10 kg", D::mass, "\"x10 kg\" is no unit; write a mass in kg, g, t, tonne, lb"},
      {"1e999 kg", D::mass, "the number is not finite; write a mass in kg, g, t, tonne, lb"},
      {"1e308 t", D::mass, "the number is not finite; write a mass in kg, g, t, tonne, lb"},
      {"-1 K", D::temperature, "this is below absolute zero; write a temperature in K, C, °C, F, °F"},
      {"-300 C", D::temperature, "this is below absolute zero; write a temperature in K, C, °C, F, °F"},
      {"12 ft 12 in", D::length, "inches beside feet stay below 12; write \"12 ft 6 in\" or \"12.5 ft\""},
      {"12 ft 14 in", D::length, "inches beside feet stay below 12; write \"12 ft 6 in\" or \"12.5 ft\""},
      {"12.5 ft 6 in", D::length, "feet beside inches are a whole number; write \"12 ft 6 in\" or \"12.5 ft\""},
      {"12 ft 6", D::length, "these are no feet and inches; write \"12 ft 6 in\" or \"12 ft 6 1/2 in\""},
      {"12' 6 3/2\"", D::length, "these are no feet and inches; write \"12 ft 6 in\" or \"12 ft 6 1/2 in\""},
      {"12' 6 1/0\"", D::length, "these are no feet and inches; write \"12 ft 6 in\" or \"12 ft 6 1/2 in\""},
      {"5", D::none, "read as 5.000000"},
      {"5 m", D::none, "\"m\" is a length, and a number is wanted; write a number without a unit"},
  };
  for (const auto& c : cases) EXPECT_EQ(refusal(c.text, c.dimension), c.refusal) << c.text;
}

TEST(Units, ARefusalPointsAtTheOffendingPart) {
  const auto ton = read_quantity(" 3 ton ", D::rating);
  ASSERT_FALSE(ton.has_value());
  EXPECT_EQ(ton.error().from, 3u);
  EXPECT_EQ(ton.error().length, 3u);
  const auto comma = read_quantity("16,5 mm", D::length);
  ASSERT_FALSE(comma.has_value());
  EXPECT_EQ(comma.error().from, 2u);
  EXPECT_EQ(comma.error().length, 1u);
}

TEST(Units, ANumberThatIsNotFiniteIsRefusedBareToo) {
  EXPECT_FALSE(read_bare_number(std::nan(""), D::length).has_value());
  EXPECT_FALSE(read_bare_number(INFINITY, D::none).has_value());
  EXPECT_EQ(read_bare_number(INFINITY, D::angle).error().message, "the number is not finite");
}

}  // namespace
}  // namespace fairlead
