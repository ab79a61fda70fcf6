// The bookkeeping of one pose: every force on every anchor, every weight, and what is left over.
#pragma once

#include <vector>

#include "geometry/loads/loads.hpp"

namespace fairlead::loads {

/// Forces of the rig on anchors against what acts on the rig from outside. Moments are about `about`.
class Balance {
 public:
  Balance(int anchors, Point3 about) : on_anchor_N_(static_cast<std::size_t>(anchors)), about_(about) {}

  /// The rig pushes the anchor with this force at this point.
  void push(int anchor, Point3 at, Vec3 force_N);
  /// A weight or a holding force acts on the rig.
  void act(Point3 at, Vec3 force_N);
  void act_couple(Vec3 couple_N_m) { couple_N_m_ -= couple_N_m; }

  const std::vector<Vec3>& on_anchor_N() const { return on_anchor_N_; }
  Vec3 left_over_N() const { return force_N_; }
  Vec3 left_over_N_m() const { return couple_N_m_; }
  double largest_N() const { return largest_N_; }
  double largest_arm_m() const { return largest_arm_m_; }

 private:
  void add(Point3 at, Vec3 force_N);

  std::vector<Vec3> on_anchor_N_;
  Point3 about_;
  Vec3 force_N_, couple_N_m_;
  double largest_N_{}, largest_arm_m_{};
};

/// The balance of one pose of a sweep with the trolley at or beyond its rest mark.
Balance balance_of(const Inputs&, const reeving::Inputs&, const reeving::Reeving&, int sweep, int pose);

/// The balance of the main line alone with its wheels held where they stand, without the braking line.
Balance span_balance(const Inputs&, const reeving::Inputs&, const mainline::Cable&, const mainline::Shape&);

}  // namespace fairlead::loads
