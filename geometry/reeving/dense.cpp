#include "geometry/reeving/dense.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fairlead::reeving {

void Square::clear(int n) {
  n_ = n;
  for (int i = 0; i < n; ++i) std::fill_n(&(*this)(i, 0), n, 0.0);
}

void Square::factor() {
  double greatest = 0;
  for (int i = 0; i < n_; ++i)
    for (int j = 0; j < n_; ++j) greatest = std::max(greatest, std::abs((*this)(i, j)));
  const double rounding = std::numeric_limits<double>::epsilon() * greatest;
  for (int k = 0; k < n_; ++k) {
    int p = k;
    for (int i = k + 1; i < n_; ++i)
      if (std::abs((*this)(i, k)) > std::abs((*this)(p, k))) p = i;
    pivot_[k] = p;
    if (p != k) std::swap_ranges(row(k).begin(), row(k).end(), row(p).begin());
    if (std::abs((*this)(k, k)) < rounding) (*this)(k, k) = rounding;
    for (int i = k + 1; i < n_; ++i) {
      double& factor = (*this)(i, k);
      if (factor == 0) continue;
      factor /= (*this)(k, k);
      for (int j = k + 1; j < n_; ++j) (*this)(i, j) -= factor * (*this)(k, j);
    }
  }
}

void Square::solve(std::span<double> b) const {
  for (int k = 0; k < n_; ++k) std::swap(b[k], b[static_cast<std::size_t>(pivot_[k])]);
  for (int i = 1; i < n_; ++i)
    for (int j = 0; j < i; ++j) b[i] -= (*this)(i, j) * b[j];
  for (int i = n_ - 1; i >= 0; --i) {
    for (int j = i + 1; j < n_; ++j) b[i] -= (*this)(i, j) * b[j];
    b[i] /= (*this)(i, i);
  }
}

}  // namespace fairlead::reeving
