#include "geometry/reeving/linear_band.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::reeving {

LinearBand::LinearBand(std::size_t unknowns)
    : n_(unknowns),
      rows_(unknowns * (unknowns + 1)),
      inverse_(unknowns * unknowns),
      work_(unknowns * unknowns),
      shaky_(unknowns * unknowns),
      middle_(unknowns),
      off_(unknowns),
      more_(unknowns),
      next_(unknowns) {}

void LinearBand::clear() { std::fill(rows_.begin(), rows_.end(), Band(0)); }

/// Gauss-Jordan elimination with the greatest pivot of each column.
bool LinearBand::invert() {
  for (std::size_t i = 0; i < n_; ++i)
    for (std::size_t j = 0; j < n_; ++j) {
      work_[i * n_ + j] = at(i, j).middle();
      inverse_[i * n_ + j] = i == j ? 1 : 0;
    }
  for (std::size_t c = 0; c < n_; ++c) {
    std::size_t p = c;
    for (std::size_t i = c + 1; i < n_; ++i)
      if (std::abs(work_[i * n_ + c]) > std::abs(work_[p * n_ + c])) p = i;
    const double pivot = work_[p * n_ + c];
    if (!(std::abs(pivot) > 0 && std::isfinite(pivot))) return false;
    for (std::size_t j = 0; j < n_; ++j) {
      std::swap(work_[p * n_ + j], work_[c * n_ + j]);
      std::swap(inverse_[p * n_ + j], inverse_[c * n_ + j]);
      work_[c * n_ + j] /= pivot;
      inverse_[c * n_ + j] /= pivot;
    }
    for (std::size_t i = 0; i < n_; ++i) {
      const double k = work_[i * n_ + c];
      if (i == c || k == 0) continue;
      for (std::size_t j = 0; j < n_; ++j) {
        work_[i * n_ + j] -= k * work_[c * n_ + j];
        inverse_[i * n_ + j] -= k * inverse_[c * n_ + j];
      }
    }
  }
  return true;
}

bool LinearBand::solve(std::vector<Band>& v) {
  if (!invert()) return false;
  v.resize(n_);
  for (std::size_t i = 0; i < n_; ++i) {
    middle_[i] = 0;
    for (std::size_t j = 0; j < n_; ++j) middle_[i] -= inverse_[i * n_ + j] * at(j, n_).middle();
  }
  // R, in the place of what was inverted.
  for (std::size_t i = 0; i < n_; ++i) {
    more_[i] = at(i, n_).width() / 2;
    for (std::size_t j = 0; j < n_; ++j) {
      work_[i * n_ + j] = at(i, j).width() / 2;
      more_[i] += work_[i * n_ + j] * std::abs(middle_[j]);
    }
  }
  std::fill(shaky_.begin(), shaky_.end(), 0);
  for (std::size_t i = 0; i < n_; ++i) {
    off_[i] = 0;
    for (std::size_t k = 0; k < n_; ++k) {
      const double y = std::abs(inverse_[i * n_ + k]);
      off_[i] += y * more_[k];
      for (std::size_t j = 0; j < n_; ++j) shaky_[i * n_ + j] += y * work_[k * n_ + j];
    }
  }
  // Any d with off + Z d <= d bounds the error. A few terms of the series off + Z off + Z^2 off + ... give d its shape,
  // a factor then makes it such a bound.
  const auto spread = [&](std::size_t i) {
    double z = 0;
    for (std::size_t j = 0; j < n_; ++j) z += shaky_[i * n_ + j] * more_[j];
    return z;
  };
  more_ = off_;
  constexpr int terms = 6;
  for (int t = 0; t < terms; ++t) {
    for (std::size_t i = 0; i < n_; ++i) next_[i] = off_[i] + spread(i);
    more_.swap(next_);
  }
  double factor = 1;
  for (std::size_t i = 0; i < n_; ++i) {
    const double left = more_[i] - spread(i);
    if (!(left > 0) && !(more_[i] == 0 && left == 0)) return false;
    if (off_[i] > 0) factor = std::max(factor, off_[i] / left);
  }
  for (std::size_t i = 0; i < n_; ++i) {
    const double d = off_[i] + factor * spread(i);
    if (!std::isfinite(d + middle_[i])) return false;
    v[i] = around(middle_[i], d);
  }
  return true;
}

}  // namespace fairlead::reeving
