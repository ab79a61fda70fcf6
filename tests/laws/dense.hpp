// Poses solved anew between those of a rig's sweeps.
#pragma once

#include <stdexcept>

#include "geometry/reeving/pose.hpp"
#include "geometry/rig/rig.hpp"

namespace fairlead::laws {

/// One sweep of a solved rig, to be solved at any travel.
class Passage {
 public:
  Passage(const Rig& rig, std::size_t index)
      : in(*rig.reeving.inputs), acting(in.sweeps[index]), sweep(rig.reeving.solved()->sweeps[index]) {
    auto settled = reeving::rest_outlet(in, acting.reference, acting.trolley_weight_N);
    if (!settled) throw std::runtime_error(settled.error().why);
    outlet = std::move(*settled);
    outlet.tension_ratio = sweep.tension_ratio;
    if (acting.running == reeving::Running::paying_out) outlet.held_tension_N = rig.reeving.solved()->peak_tension_N;
  }

  reeving::Station at(double travel_m) const {
    auto pose = solve_pose(in, acting, outlet, travel_m);
    if (!pose) throw std::runtime_error(pose.error().why);
    return std::move(*pose);
  }
  double from_m() const { return sweep.poses.front().travel_m; }
  double to_m() const { return sweep.poses.back().travel_m; }

  /// Leg k of a line as it hangs.
  reeving::Leg leg(const reeving::Reeved& lines, std::size_t line, int k) const {
    const reeving::MetLeg& met = lines.legs[in.legs_before(line) + static_cast<std::size_t>(k)];
    const reeving::LegEnd from = from_end(in, lines, static_cast<int>(line), k),
                          to = to_end(in, lines, static_cast<int>(line), k);
    reeving::Leg hung;
    hung.from = from.centre + from.radius_m * met.from_e;
    hung.to = to.centre + to.radius_m * met.to_e;
    hung.length_m = met.hang.length_m;
    hung.H_N = met.hang.horizontal_N();
    hung.load_N_per_m = -met.hang.weight_N_per_m * met.hang.up;
    return hung;
  }

  const reeving::Inputs& in;
  const reeving::SweepInputs& acting;
  const reeving::Sweep& sweep;
  reeving::Outlet outlet;
};

}  // namespace fairlead::laws
