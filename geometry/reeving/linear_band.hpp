// Linear equations whose coefficients are only known to lie in bands.
#pragma once

#include <vector>

#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

/// M v + c = 0 for n unknowns: column n is c. Every solution of every choice from the bands lies in the answer. With Y
/// the inverse of M's middle and R its half-widths, |1 - Y M| <= |Y| R = Z, so the middle's solution v0 is off by at
/// most d wherever |Y| (half-width of c + R |v0|) + Z d <= d. Rounding is left to the margin between.hpp adds.
class LinearBand {
 public:
  explicit LinearBand(std::size_t unknowns);
  void clear();  ///< all coefficients 0
  Band& at(std::size_t row, std::size_t column) { return rows_[row * (n_ + 1) + column]; }
  std::size_t unknowns() const { return n_; }
  /// False where no such d is found: nothing is known then.
  bool solve(std::vector<Band>& v);

 private:
  bool invert();

  std::size_t n_;
  std::vector<Band> rows_;
  std::vector<double> inverse_, work_, shaky_, middle_, off_, more_, next_;
};

}  // namespace fairlead::reeving
