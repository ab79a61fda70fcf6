#include <algorithm>

#include "geometry/rig/air.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

mainline::Span span_of(const Range& range) { return {range.low, range.high}; }

void assume(const Layout& layout, std::vector<std::string>& assumptions) {
  const BrakeUnit& unit = layout.brake_unit;
  if (!unit.return_drag)
    assumptions.push_back(
        "brake unit: no drag while line is drawn in, for no return_drag is given; it makes the return slower");
  if (!layout.site.altitude_m)
    assumptions.push_back("site: altitude 0 m for the density of the air on riders, where it is greatest");
  if (!layout.site.wind_along_m_per_s)
    assumptions.push_back("site: no wind along the line, for no wind_along is given");
}

/// What riders and weather are missing for an arrest; empty where nothing is.
std::string missing(const Layout& layout) {
  std::string keys;
  const auto needs = [&](bool given, const char* key) {
    if (!given) keys += (keys.empty() ? "" : " and ") + std::string(key);
  };
  needs(layout.riders.rolling_resistance.has_value(), "riders.rolling_resistance");
  needs(layout.riders.drag_area_m2.has_value(), "riders.drag_area");
  return keys;
}

}  // namespace

Solved<arrest::Inputs> arrest_inputs(const Layout& layout, const Frame& frame, const mainline::MainLine& main_line,
                                     std::vector<std::string>& assumptions) {
  if (const std::string keys = missing(layout); !keys.empty()) return unsolved("the layout does not give " + keys);
  const Riders& riders = layout.riders;
  const BrakeUnit& unit = layout.brake_unit;
  arrest::Inputs in;
  in.rider_kg = {riders.mass_kg.value.low, riders.mass_kg.value.high};
  in.rider_trolley_kg = riders.trolley_mass_kg;
  in.brake_trolley_kg = layout.brake_trolley.mass_kg;
  in.hanging_m = riders.hanging_length_m;
  if (riders.lanyard_stiffness_N_per_m) {
    in.lanyard_N_per_m = *riders.lanyard_stiffness_N_per_m;
    in.lanyard_damping = riders.lanyard_damping;
  }
  in.rolling = span_of(*riders.rolling_resistance);
  in.drag_area_m2 = *riders.drag_area_m2;
  const double altitude_m = layout.site.altitude_m ? layout.site.altitude_m->value : 0;
  for (const mainline::State& state : main_line.states)
    in.air_kg_per_m3.push_back(air_density_kg_per_m3(altitude_m, state.temperature_K));
  if (layout.site.wind_along_m_per_s) in.wind_m_per_s = *layout.site.wind_along_m_per_s;
  if (riders.arrival_speed_m_per_s) in.measured_speed_m_per_s = span_of(*riders.arrival_speed_m_per_s);
  if (layout.approach) {
    in.start_m = layout.approach->start_m - frame.chainage_of_origin_m;
    in.push_off_m_per_s = span_of(layout.approach->push_off_m_per_s);
  }
  in.unit = brake_law(unit);
  in.brake_share = {(1 - unit.tolerance) * unit.force_left, 1 + unit.tolerance};
  if (unit.return_drag) in.return_share = *unit.return_drag;
  in.moving_mass_kg = unit.moving_mass_kg;
  in.extension_limit_m = unit.extension_limit_m;
  in.static_N = layout.brake_trolley.static_resistance_N;
  in.held_back = layout.brake_trolley.held_back && layout.brake_trolley.held_back->value;
  in.coupled = layout.brake_trolley.couples && layout.brake_trolley.couples->value;
  in.rest_m = layout.brake_trolley.rest_m - frame.chainage_of_origin_m;
  in.travel_m = layout.brake_trolley.travel_m;
  if (const auto& backup = layout.backup_brake) {
    in.backup_m = backup->engages_m - frame.chainage_of_origin_m;
    if (backup->resistance_N) in.backup_N = backup->resistance_N->value;
    if (backup->stroke_m) in.backup_stroke_m = backup->stroke_m->value;
  }
  assume(layout, assumptions);
  return in;
}

}  // namespace fairlead
