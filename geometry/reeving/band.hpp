// Ranges of numbers between two poses. Every operation gives a range that holds all results of its operands' values;
// rounding is left to the margin between.hpp adds.
#pragma once

#include <algorithm>
#include <cmath>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::reeving {

/// Every value from low to high.
struct Band {
  double low{}, high{};
  constexpr Band() = default;
  constexpr Band(double at) : low(at), high(at) {}
  constexpr Band(double from, double to) : low(from), high(to) {}
  double greatest_size() const { return std::max(std::abs(low), std::abs(high)); }
  double least_size() const { return low > 0 ? low : high < 0 ? -high : 0; }
  double width() const { return high - low; }
  double middle() const { return (low + high) / 2; }
  bool encloses(Band inner) const { return low < inner.low && inner.high < high; }
};

inline Band band_of(double a, double b) { return {std::min(a, b), std::max(a, b)}; }
inline Band around(double middle, double half) { return {middle - half, middle + half}; }
inline Band hull(Band a, Band b) { return {std::min(a.low, b.low), std::max(a.high, b.high)}; }
/// What two true statements about one number leave of it.
inline Band both(Band a, Band b) { return {std::max(a.low, b.low), std::min(a.high, b.high)}; }
inline Band wider(Band a, double by) { return {a.low - by, a.high + by}; }
inline Band size_of(Band a) { return {a.least_size(), a.greatest_size()}; }

inline Band operator+(Band a, Band b) { return {a.low + b.low, a.high + b.high}; }
inline Band operator-(Band a, Band b) { return {a.low - b.high, a.high - b.low}; }
inline Band operator-(Band a) { return {-a.high, -a.low}; }
inline Band operator*(Band a, Band b) {
  const double p = a.low * b.low, q = a.low * b.high, r = a.high * b.low, s = a.high * b.high;
  return {std::min(std::min(p, q), std::min(r, s)), std::max(std::max(p, q), std::max(r, s))};
}
inline Band operator*(double a, Band b) { return a < 0 ? Band{a * b.high, a * b.low} : Band{a * b.low, a * b.high}; }
/// b must not hold 0; where it does the quotient is NaN, which no comparison accepts.
inline Band operator/(Band a, Band b) {
  if (b.low > 0 || b.high < 0) return a * Band{1 / b.high, 1 / b.low};
  return {std::nan(""), std::nan("")};
}
inline Band& operator+=(Band& a, Band b) { return a = a + b; }
inline Band squared(Band a) {
  const double least = a.least_size(), greatest = a.greatest_size();
  return {least * least, greatest * greatest};
}

/// x / hypot(x, y): rises with x, and shrinks toward 0 as y grows.
inline Band share(Band x, Band y) {
  const double least = y.least_size(), greatest = y.greatest_size();
  const auto of = [](double a, double b) { return a == 0 ? 0 : a / std::sqrt(a * a + b * b); };
  return {of(x.low, x.low < 0 ? least : greatest), of(x.high, x.high > 0 ? least : greatest)};
}
inline Band length_of(Band x, Band y) {
  const double a = x.least_size(), b = y.least_size(), c = x.greatest_size(), d = y.greatest_size();
  return {std::sqrt(a * a + b * b), std::sqrt(c * c + d * d)};
}

/// Cosine and sine of an angle whose tangent lies in the band.
inline Band cosine_of_slope(Band t) { return {1 / length_of(1, t).high, 1 / length_of(1, t).low}; }
inline Band sine_of_slope(Band t) { return share(t, 1); }

/// A vector whose parts lie in bands.
struct Band3 {
  Band x, y, z;
  Band3() = default;
  Band3(Band a, Band b, Band c) : x(a), y(b), z(c) {}
  Band3(Vec3 at) : x(at.x), y(at.y), z(at.z) {}
  Vec3 middle() const { return {x.middle(), y.middle(), z.middle()}; }
  Vec3 width() const { return {x.width(), y.width(), z.width()}; }
  Vec3 greatest_size() const { return {x.greatest_size(), y.greatest_size(), z.greatest_size()}; }
  bool encloses(const Band3& in) const { return x.encloses(in.x) && y.encloses(in.y) && z.encloses(in.z); }
};

inline Band3 operator+(const Band3& a, const Band3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
inline Band3 operator-(const Band3& a, const Band3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
inline Band3 operator-(const Band3& a) { return {-a.x, -a.y, -a.z}; }
inline Band3 operator*(Band k, const Band3& a) { return {k * a.x, k * a.y, k * a.z}; }
inline Band3 operator*(double k, const Band3& a) { return {k * a.x, k * a.y, k * a.z}; }
inline Band3& operator+=(Band3& a, const Band3& b) { return a = a + b; }
inline Band dot(const Band3& a, const Band3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline Band dot(Vec3 a, const Band3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline Band3 cross(const Band3& a, const Band3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline Band3 wider(const Band3& a, double by) { return {wider(a.x, by), wider(a.y, by), wider(a.z, by)}; }
inline Band3 both(const Band3& a, const Band3& b) { return {both(a.x, b.x), both(a.y, b.y), both(a.z, b.z)}; }
/// The vector over its length.
inline Band3 direction_of(const Band3& a) {
  return {share(a.x, length_of(a.y, a.z)), share(a.y, length_of(a.x, a.z)), share(a.z, length_of(a.x, a.y))};
}
/// The most the vector's length can be.
inline double longest(const Band3& a) { return norm(a.greatest_size()); }

/// A symmetric matrix whose parts lie in bands.
struct BandStiffness {
  Band xx, xy, xz, yy, yz, zz;
};
inline Band3 operator*(const BandStiffness& m, const Band3& v) {
  return {m.xx * v.x + m.xy * v.y + m.xz * v.z, m.xy * v.x + m.yy * v.y + m.yz * v.z,
          m.xz * v.x + m.yz * v.y + m.zz * v.z};
}

}  // namespace fairlead::reeving
