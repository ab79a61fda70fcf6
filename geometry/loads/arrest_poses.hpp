// The rig at instants of an arrest: one pose each, with its books. Only loads includes it.
#pragma once

#include <vector>

#include "geometry/loads/cases.hpp"

namespace fairlead::loads {

class ArrestPoses {
 public:
  /// Every instant of Inputs::arrested under its own tension and load. The main line is in its static shape under the
  /// load that the instant puts on it: its own inertia is left out. Trolleys up to together_m apart count as one.
  static Solved<ArrestPoses> solve(const Rigged&, const Work&);

  std::size_t count() const { return of_.size(); }
  const reeving::Sweep& sweep_of(std::size_t instant) const { return sweeps_[of_[instant].sweep]; }
  int pose_of(std::size_t instant) const { return of_[instant].pose; }
  double extension_m(std::size_t instant) const { return pose(instant).extension_m; }
  Account account(std::size_t instant, Slip) const;
  /// As reported beside a case.
  Moving moving(std::size_t instant) const;
  LoadCase load_case(std::size_t instant, Slip) const;

  static constexpr double together_m = 0.5;

 private:
  struct Of {
    std::size_t sweep;
    int pose;
    int two_wheels = -1;  ///< index into two_wheels_
  };
  struct TwoWheels {
    mainline::Shape shape;
    HungForces line;
  };
  explicit ArrestPoses(const Rigged& rig) : rig_(&rig) {}

  const ArrestInstant& at(std::size_t instant) const { return rig_->in.arrested.instants[instant]; }
  const reeving::Pose& pose(std::size_t instant) const {
    return sweep_of(instant).poses[static_cast<std::size_t>(pose_of(instant))];
  }
  Vec3 on_rider_N(const ArrestInstant&) const;
  Vec3 on_brake_N(const ArrestInstant&) const;
  tl::expected<void, Unsolved> hang_apart(std::size_t instant);

  const Rigged* rig_;
  std::vector<reeving::Sweep> sweeps_;
  std::vector<Of> of_;
  std::vector<TwoWheels> two_wheels_;
};

}  // namespace fairlead::loads
