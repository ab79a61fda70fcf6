// Quantities on a step from one pose to the next, with their first and second derivatives along it, in bands.
#pragma once

#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

inline Band root(Band a) { return {std::sqrt(a.low), std::sqrt(a.high)}; }
inline double root(double a) { return std::sqrt(a); }
inline double squared(double a) { return a * a; }

/// Of a quantity at the share t of a step: every value over the step, every rate for t, every second derivative.
struct BandJet {
  Band at, rate{0.}, bend{0.};
  BandJet() = default;
  BandJet(double constant) : at(constant) {}
  BandJet(Band value, Band first, Band second) : at(value), rate(first), bend(second) {}
};

/// Even from one value to another.
inline BandJet even(double from, double to) { return {band_of(from, to), to - from, 0.}; }

/// A function of a, from its bands over a's and those of its two derivatives.
inline BandJet chain(const BandJet& a, Band value, Band first, Band second) {
  return {value, first * a.rate, second * squared(a.rate) + first * a.bend};
}

inline BandJet operator+(const BandJet& a, const BandJet& b) { return {a.at + b.at, a.rate + b.rate, a.bend + b.bend}; }
inline BandJet operator-(const BandJet& a, const BandJet& b) { return {a.at - b.at, a.rate - b.rate, a.bend - b.bend}; }
inline BandJet operator*(double k, const BandJet& a) { return {k * a.at, k * a.rate, k * a.bend}; }
inline BandJet operator*(const BandJet& a, const BandJet& b) {
  return {a.at * b.at, a.rate * b.at + a.at * b.rate, a.bend * b.at + 2 * (a.rate * b.rate) + a.at * b.bend};
}
inline BandJet squared(const BandJet& a) {
  return {squared(a.at), 2 * (a.at * a.rate), 2 * (squared(a.rate) + a.at * a.bend)};
}
/// 1/a, a > 0.
inline BandJet inverse(const BandJet& a) {
  const Band one = Band(1) / a.at, two = one * one;
  return chain(a, one, -two, 2 * (two * one));
}
/// a > 0.
inline BandJet root(const BandJet& a) {
  const Band s = root(a.at), per = Band(1) / (2 * s);
  return chain(a, s, per, -(per / (2 * a.at)));
}

}  // namespace fairlead::reeving
