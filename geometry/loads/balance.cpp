#include "geometry/loads/balance.hpp"

#include <algorithm>

namespace fairlead::loads {

void Balance::push(int anchor, Point3 at, Vec3 force_N) {
  on_anchor_N_[static_cast<std::size_t>(anchor)] += force_N;
  sum_.add(at, force_N);
}

void Sum::add(Point3 at, Vec3 force_N) {
  const Vec3 arm = at - about_;
  force_N_ += force_N;
  couple_N_m_ += cross(arm, force_N);
  // A NaN shows in the sums.
  largest_N2_ = std::max(largest_N2_, dot(force_N, force_N));
  largest_arm_m2_ = std::max(largest_arm_m2_, dot(arm, arm));
}

double Sum::force_residual() const { return size(force_N_) / largest_N(); }

double Sum::moment_residual() const {
  const double left_N_m = size(couple_N_m_);
  return left_N_m == 0 ? 0 : left_N_m / (largest_N() * largest_arm_m());
}

}  // namespace fairlead::loads
