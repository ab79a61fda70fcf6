// A 2:1 reduction on a support line, made by hand: wheels on the solved main line, legs as catenaries of a given
// tension between given points, the block where 2:1 puts it. Every instant can be asked for, so that what is said of
// the time between poses can be held against it.
#pragma once

#include "geometry/clearance/clearance.hpp"

namespace fairlead::clearance {

struct Scene {
  reeving::Inputs rig;
  Inputs in;
  double tension_N = 90;            ///< of the legs on the reduction line; the braking line has twice as much
  Vec3 wind_N_per_m;                ///< on every line
  Vec3 pull_N;                      ///< of the line on the trolley, as the main line feels it
  double block_turn_rad_per_m = 0;  ///< about across, with travel

  Scene();
  /// A line of its own, off to the left, over a sheave on an anchor.
  void add_line_over(const reeving::Sheave&, const SheaveBody&);

  /// Everything at one travel, as one pose.
  reeving::Sweep instant(const reeving::SweepInputs&, double travel_m) const;
  /// Poses at these travels, each with how far the instants between two poses stray, sampled and a fifth added.
  reeving::Sweep sweep(const reeving::SweepInputs&, const std::vector<double>& travels_m) const;
  /// One sweep with the rig's first sweep inputs: `poses` evenly over the whole passage, the mark among them.
  reeving::Reeving passage(int poses) const;

  /// The least of every gap, in the order of Clearances::gaps, over so many instants of that passage, each looked at
  /// alone.
  std::vector<double> brute_force(int instants) const;
};

std::optional<Gap> find_gap(const Clearances&, Thing a, Thing b);

inline constexpr Thing rider{Thing::Kind::rider, 0}, main_line{Thing::Kind::main_line, 0};
inline Thing line(int i) { return {Thing::Kind::line, i}; }
inline Thing structure(int i) { return {Thing::Kind::structure, i}; }
inline Thing block(int i) { return {Thing::Kind::block, i}; }

}  // namespace fairlead::clearance
