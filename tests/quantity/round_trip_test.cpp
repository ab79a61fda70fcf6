// What is printed reads back, and feet and inches are read in every way they are written, for drawn values.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdlib>
#include <string>

#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

using D = Dimension;

// The same draws on every run, unless the environment asks for others.
const int seeded = setenv("RC_PARAMS", "seed=20260301 max_success=2000", 0);

rc::Gen<double> numbers() {
  const auto digits = rc::gen::inRange(-999'999'999, 1'000'000'000), shift = rc::gen::inRange(-15, 1);
  return rc::gen::apply([](int d, int s) { return d * std::pow(10, s); }, digits, shift);
}

rc::Gen<Dimension> dimensions() {
  return rc::gen::element(D::none, D::ratio, D::length, D::area, D::angle, D::mass, D::force, D::moment, D::speed,
                          D::acceleration, D::time, D::temperature, D::density, D::mass_per_length, D::force_per_length,
                          D::per_temperature, D::probability);
}

// Half of the last printed digit, in SI; feet and inches end at sixteenths, and inches alone from one up.
double half_last_digit(const std::string& text, Dimension dimension, double si) {
  constexpr double inch = 0.0254;
  if (text.find('\'') != std::string::npos || (text.ends_with(" in") && std::abs(si) >= inch)) return inch / 32;
  const std::size_t point = text.find('.'), end = std::min(text.find_first_not_of("-.0123456789"), text.size());
  const std::size_t decimals = point == std::string::npos ? 0 : end - point - 1;
  double last = std::pow(10, -static_cast<double>(decimals));
  std::string unit = text.substr(end);
  if (unit.starts_with("e-6")) {
    last *= 1e-6;
    unit.erase(0, 3);
  }
  if (!unit.empty()) last *= find_unit(unit.substr(1), dimension)->to_si;
  return 0.5 * last;
}

void check_reads_back(const std::string& text, Dimension dimension, double si) {
  RC_LOG() << text << '\n';
  const auto read = read_quantity(text, dimension);
  RC_ASSERT(read.has_value());
  // At most eight roundings of 1.1e-16; 300: the offsets of the temperature scales.
  const double rounding = 1e-15 * (std::abs(si) + 300);
  RC_ASSERT(std::abs(*read - si) <= half_last_digit(text, dimension, si) + rounding);
}

RC_GTEST_PROP(RoundTrip, WhatIsPrintedReadsBackToHalfItsLastDigit, ()) {
  const Dimension dimension = *dimensions();
  double si = *numbers();
  if (dimension == D::temperature) si = std::abs(si) + 1;  // its last digit must not print below absolute zero
  const Units system = *rc::gen::element(Units::si, Units::us);
  const int digits = *rc::gen::inRange(dimension == D::none ? 0 : -1, 7);
  check_reads_back(print_quantity({si, dimension}, system, digits), dimension, si);
}

RC_GTEST_PROP(RoundTrip, ARatingReadsBackFromEitherOfItsHalves, ()) {
  const double si = *numbers();
  const std::string both = print_quantity({si, D::rating});
  const std::size_t bracket = both.find(" (");
  RC_ASSERT(bracket != std::string::npos);
  check_reads_back(both.substr(0, bracket), D::rating, si);
  check_reads_back(both.substr(bracket + 2, both.size() - bracket - 3), D::rating, si);
}

RC_GTEST_PROP(RoundTrip, FeetAndInchesMeanTheSameHoweverTheyAreWritten, ()) {
  const int feet = *rc::gen::inRange(0, 2000), inches = *rc::gen::inRange(0, 12);
  const int below = *rc::gen::element(2, 4, 8, 16, 32, 64), above = *rc::gen::inRange(1, below);
  const auto feet_mark = *rc::gen::element<std::string>(" ft ", "ft", "'", "' ", "'-", " ft - ");
  const auto inch_mark = *rc::gen::element<std::string>(" in", "in", "\"", " \"");
  const auto between = *rc::gen::element<std::string>(" ", "-", "  ");
  const std::string fraction = between + std::to_string(above) + "/" + std::to_string(below);
  const std::string text = std::to_string(feet) + feet_mark + std::to_string(inches) + fraction + inch_mark;
  RC_LOG() << text << '\n';
  const auto read = read_quantity(text, D::length);
  RC_ASSERT(read.has_value());
  const double metres = (12 * feet + inches + static_cast<double>(above) / below) * 0.0254;
  RC_ASSERT(std::abs(*read - metres) <= 1e-15 * metres);
  RC_ASSERT(*read_quantity("-" + text, D::length) == -*read);
}

}  // namespace
}  // namespace fairlead
