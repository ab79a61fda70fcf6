// The books of one rig: every force on every anchor, every weight, and what is left over, pose by pose.
#pragma once

#include <array>
#include <span>

#include "geometry/loads/balance.hpp"
#include "geometry/loads/hung.hpp"

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

/// Which way the main line slips over its saddles: the tension behind is the saddle friction times as great as before,
/// or as small. Without friction it is the same.
enum class Slip { none, backward, forward };

/// The main line as it hangs, and what its span does to its supports.
struct Spanning {
  const mainline::Cable& cable;
  Vec3 wind_N_per_m, on_start_N, on_end_N;
};

/// Per parallel line, of `Inputs::beside`.
using BesideForces = std::vector<HungForces>;

/// Of the main line at its start and its end: greatest tension at the support or behind its saddle, along its pull on
/// the support.
using EndTensions = std::array<Vec3, 2>;

/// Everything of one pose.
struct Account {
  Balance balance;
  EndTensions main_line_N;
  std::vector<OnLine> lines;
  std::vector<OnBlock> blocks;
  double block_residual{};
};

/// The same of a pose whose main line is another one.
struct Spanned {
  Balance balance;
  EndTensions main_line_N;
};

class Books {
 public:
  /// The arguments must outlive it.
  Books(const Inputs&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&);

  /// Why nothing can be balanced: an end or a sheave on the ground that no anchor holds, a parallel line that does not
  /// hang. Empty where all is well.
  const std::string& refusal() const { return refusal_; }
  /// The ways the main line can slip that differ.
  std::span<const Slip> slips() const;

  Account account(int sweep, int pose, Slip) const;
  /// A pose of any sweep of a path, with what acts on the wheels named by the caller: together they hold them.
  Account account(const reeving::Sweep&, int pose, const Spanning&, std::span<const Acting> on_wheels, Slip) const;
  /// The same with the main line exchanged for a shape whose last wheel is the brake trolley's; of `line` its wheels'
  /// forces are left out for what acts on them.
  Account account(const reeving::Sweep&, int pose, const Spanning&, const HungForces& line, Point3 trolley,
                  std::span<const Acting> on_wheels, Slip) const;
  /// The pose with its main line and wheels exchanged for others, a rider elsewhere; the last wheel is the brake
  /// trolley's.
  Spanned on_span(int sweep, int pose, const Blown& main_line, const HungForces&, Slip, const BesideForces&) const;
  /// The pose with its main line exchanged for a bare one in the wind, the trolley held where it rests.
  Spanned bare(int sweep, int pose, const HungForces&, const Blown& main_line, Slip, const BesideForces&) const;

  /// Every parallel line, bare, as the weather of the sweep leaves it.
  const BesideForces& bare_beside(int sweep) const;
  const BesideForces& bare_beside_on(int path) const;
  /// Force of the main line on its start or its end support, what runs on behind a saddle included; NaN where that does
  /// not hang.
  Vec3 on_support(const Spanning&, bool start, Slip) const;

 private:
  class Reeved;
  const reeving::Sweep& sweep_of(int sweep) const { return reeved_.sweeps[static_cast<std::size_t>(sweep)]; }
  Point3 anchor(int index) const { return in_.anchors[static_cast<std::size_t>(index)]; }
  Solved<HungForces> behind(const Spanning&, bool start, Slip) const;
  EndTensions support(Balance&, const Spanning&, Slip) const;
  void hang(Balance&, const BesideForces&) const;

  const Inputs& in_;
  const mainline::MainLine& main_line_;
  const reeving::Inputs& reeving_;
  const reeving::Reeving& reeved_;
  std::vector<int> support_line_;          // per block: the line whose wheel is on it, -1 without
  std::vector<BesideForces> bare_beside_;  // per state of the main line
  std::string refusal_;
};

/// The greatest sum of any group of forces that are in equilibrium: the most that one section between them carries.
double greatest_group_N(const std::vector<Vec3>& forces_N);

}  // namespace fairlead::loads
