// The arrest of the shipped layouts' main lines and reevings.
#pragma once

#include <map>
#include <string>

#include "geometry/arrest/arrest.hpp"
#include "geometry/rig/rig.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead::arrest {

/// Solved once, as a check begins: poses stand a quarter of a metre apart at most.
inline const Rig& shipped_rig(const std::string& file) {
  static std::map<std::string, Rig> rigs;
  auto found = rigs.find(file);
  if (found == rigs.end()) found = rigs.emplace(file, solve(shipped_layout(file), {}, {}, {.threads = 2})).first;
  return found->second;
}

/// The layout's own riders, speeds, unit and trolley; rolling resistance, air, wind and the slowest arrival as given
/// here.
inline Inputs inputs_of(const Rig& rig) {
  const Layout& l = rig.layout;
  const reeving::Inputs& reeving = *rig.reeving.inputs;
  Inputs in;
  in.rider_kg = {l.riders.mass_kg.value.low, l.riders.mass_kg.value.high};
  in.rider_trolley_kg = l.riders.trolley_mass_kg;
  in.brake_trolley_kg = l.brake_trolley.mass_kg;
  in.hanging_m = l.riders.hanging_length_m;
  in.rolling = {0.008, 0.02};
  in.drag_area_m2 = 0.5;
  in.air_kg_per_m3.assign(rig.main_line.solved()->states.size(), 1.2);
  in.wind_m_per_s = 6;
  in.measured_speed_m_per_s = mainline::Span{0.75 * reeving.speed_m_per_s, reeving.speed_m_per_s};
  in.unit = reeving.unit;
  in.brake_share = {1 - reeving.unit.tolerance, 1 + reeving.unit.tolerance};
  in.extension_limit_m = l.brake_unit.extension_limit_m;
  in.rest_m = reeving.rest_m;
  in.travel_m = reeving.travel_m;
  return in;
}

}  // namespace fairlead::arrest
