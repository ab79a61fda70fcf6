// What a solver gives back: the answer, or why there is none.
#pragma once

#include <cmath>
#include <string>
#include <tl/expected.hpp>

namespace fairlead {

/// No answer, with the numbers that say why. A check that meets one says "undetermined".
struct Unsolved {
  std::string why = "not solved";  ///< a clause that can follow "undetermined: "
  double residual{};               ///< of the equation that did not close, in that equation's unit
  int iterations{};
  bool operator==(const Unsolved&) const = default;
};

template <class T>
using Solved = tl::expected<T, Unsolved>;

inline tl::unexpected<Unsolved> unsolved(std::string why, double residual = 0, int iterations = 0) {
  return tl::unexpected<Unsolved>(Unsolved{std::move(why), residual, iterations});
}

/// The greater of two. One that is unknown (NaN) makes the result unknown; std::max loses it in one order.
inline double greater(double a, double b) { return std::isnan(a) || b <= a ? a : b; }

/// The worst value seen over the poses of a sweep, and a bound that nothing between two poses passes.
/// For a greatest value bound >= value; for a least value bound <= value.
struct Extreme {
  double value{}, bound{};
  int pose = -1;  ///< index of the pose with the worst value
  bool operator==(const Extreme&) const = default;
};

}  // namespace fairlead
