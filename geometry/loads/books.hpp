// The books of one rig: every force on every anchor, every weight, and what is left over, pose by pose.
#pragma once

#include "geometry/loads/balance.hpp"

namespace fairlead::loads {

/// What one block carries at one pose.
struct OnBlock {
  double through_N{};  ///< BlockDemand::force_N
  double lean_N_m{};   ///< BlockDemand::lean_N_m
};

/// Of one line at one pose.
struct OnLine {
  double from_N{}, to_N{};  ///< tension at its ends
  double unstretched_m{};   ///< legs and wraps
  double residual{};        ///< of its forces and of its tension, over its tension
};

/// Everything of one pose.
struct Account {
  Balance balance;
  std::vector<OnLine> lines;
  std::vector<OnBlock> blocks;
  double block_residual{};
};

class Books {
 public:
  /// The arguments must outlive it.
  Books(const Inputs&, const reeving::Inputs&, const reeving::Reeving&);

  /// Why nothing can be balanced: an end or a sheave on the ground that no anchor holds. Empty where all are held.
  const std::string& refusal() const { return refusal_; }
  Account account(int sweep, int pose) const;
  /// The pose with its main line and wheels exchanged for those of `shape`, a rider elsewhere on the open span; the
  /// last wheel of the shape is the brake trolley's.
  Balance on_span(int sweep, int pose, const mainline::Cable&, const mainline::Shape& shape) const;

 private:
  class Reeved;
  const reeving::Sweep& sweep_of(int sweep) const { return reeved_.sweeps[static_cast<std::size_t>(sweep)]; }

  const Inputs& in_;
  const reeving::Inputs& reeving_;
  const reeving::Reeving& reeved_;
  std::vector<int> support_line_;  // per block: the line whose wheel is on it, -1 without
  std::string refusal_;
};

/// The greatest sum of any group of forces that are in equilibrium: the most that one section between them carries.
double greatest_group_N(const std::vector<Vec3>& forces_N);

}  // namespace fairlead::loads
