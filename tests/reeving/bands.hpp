// Random draws, and numbers held to bands.
#pragma once

#include <gtest/gtest.h>

#include <random>

#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

/// The same on every machine, which std::uniform_real_distribution does not promise.
inline double uniform(std::mt19937_64& random, double from, double to) {
  return from + (to - from) * static_cast<double>(random() >> 11) * 0x1p-53;
}

/// `rounding`: a share of 1 and the value together.
inline void expect_in(Band band, double value, const char* what, double rounding) {
  const double off = rounding * (1 + std::abs(value));
  EXPECT_GE(value, band.low - off) << what;
  EXPECT_LE(value, band.high + off) << what;
}
inline void expect_in(const Band3& band, Vec3 value, const char* what, double rounding) {
  expect_in(band.x, value.x, what, rounding);
  expect_in(band.y, value.y, what, rounding);
  expect_in(band.z, value.z, what, rounding);
}

}  // namespace fairlead::reeving
