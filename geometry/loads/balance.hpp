// Sums of forces and moments that must vanish.
#pragma once

#include <vector>

#include "geometry/loads/loads.hpp"

namespace fairlead::loads {

/// Length of a vector; NaN where a part is NaN. (std::hypot of three, as GCC 12 has it, makes 0 of (0, NaN, 0).) Forces
/// neither overflow nor underflow when squared.
inline double size(Vec3 v) { return std::sqrt(dot(v, v)); }

/// Forces and couples on one thing; moments are about `about`.
class Sum {
 public:
  explicit Sum(Point3 about) : about_(about) {}

  void add(Point3 at, Vec3 force_N);
  void add_couple(Vec3 couple_N_m) { couple_N_m_ += couple_N_m; }

  Vec3 force_N() const { return force_N_; }
  Vec3 couple_N_m() const { return couple_N_m_; }
  double largest_N() const { return std::sqrt(largest_N2_); }
  double largest_arm_m() const { return std::sqrt(largest_arm_m2_); }
  double force_residual() const;   ///< over the largest force
  double moment_residual() const;  ///< over the largest force and the longest arm

 private:
  Point3 about_;
  Vec3 force_N_, couple_N_m_;
  double largest_N2_{}, largest_arm_m2_{};
};

/// Forces of the rig on its anchors against what acts on the rig from outside.
class Balance {
 public:
  Balance(std::size_t anchors, Point3 about) : on_anchor_N_(anchors), sum_(about) {}

  /// The rig pushes the anchor with this force at this point.
  void push(int anchor, Point3 at, Vec3 force_N);
  /// A weight, the wind or a holding force acts on the rig.
  void act(Point3 at, Vec3 force_N) { sum_.add(at, -force_N); }
  void act_couple(Vec3 couple_N_m) { sum_.add_couple(-couple_N_m); }

  const std::vector<Vec3>& on_anchor_N() const { return on_anchor_N_; }
  const Sum& left_over() const { return sum_; }

 private:
  std::vector<Vec3> on_anchor_N_;
  Sum sum_;
};

}  // namespace fairlead::loads
