// Small dense linear equations, without allocation.
#pragma once

#include <array>
#include <span>

namespace fairlead::reeving {

/// A square matrix of up to `most` rows; only the first n rows and columns are in use.
class Square {
 public:
  static constexpr int most = 32;

  /// n rows of zeros.
  void clear(int n);
  int size() const { return n_; }
  double& operator()(int row, int column) { return at_[row * most + column]; }
  double operator()(int row, int column) const { return at_[row * most + column]; }
  std::span<double> row(int i) { return {&(*this)(i, 0), static_cast<std::size_t>(n_)}; }

  /// Replaces the matrix by its triangular factors, pivots chosen by column. A pivot that is zero to rounding is made
  /// as small as rounding, so that a singular matrix answers with huge numbers along what it does not hold.
  void factor();
  /// Solves in place, once factored.
  void solve(std::span<double> b) const;

 private:
  int n_{};
  std::array<int, most> pivot_;
  std::array<double, static_cast<std::size_t>(most) * most> at_;
};

}  // namespace fairlead::reeving
