// Ranges of numbers between two poses.
#pragma once

#include <algorithm>
#include <cmath>

namespace fairlead::reeving {

/// Every value from low to high.
struct Band {
  double low{}, high{};
  double greatest_size() const { return std::max(std::abs(low), std::abs(high)); }
  double least_size() const { return low > 0 ? low : high < 0 ? -high : 0; }
  double width() const { return high - low; }
};

inline Band band_of(double a, double b) { return {std::min(a, b), std::max(a, b)}; }
inline Band around(double middle, double half) { return {middle - half, middle + half}; }
inline Band operator+(Band a, Band b) { return {a.low + b.low, a.high + b.high}; }
inline Band operator-(Band a, Band b) { return {a.low - b.high, a.high - b.low}; }
inline Band operator*(double s, Band a) { return band_of(s * a.low, s * a.high); }
inline Band operator*(Band a, Band b) {
  const auto [low, high] = std::minmax({a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high});
  return {low, high};
}

/// x / hypot(x, y): rises with x, and shrinks toward 0 as y grows.
inline Band share(Band x, Band y) {
  const double least = y.least_size(), greatest = y.greatest_size();
  return {x.low / std::hypot(x.low, x.low < 0 ? least : greatest),
          x.high / std::hypot(x.high, x.high > 0 ? least : greatest)};
}

/// Cosine and sine of an angle whose tangent lies in the band.
inline Band cosine_of_slope(Band t) {
  return {1 / std::hypot(1, t.greatest_size()), 1 / std::hypot(1, t.least_size())};
}
inline Band sine_of_slope(Band t) { return {t.low / std::hypot(1, t.low), t.high / std::hypot(1, t.high)}; }

}  // namespace fairlead::reeving
