#include <fmt/format.h>

#include <algorithm>

#include "geometry/rig/air.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

mainline::Span span_of(const Range& range) { return {range.low, range.high}; }

/// Of layout and concept alike.
void assume(const UnplacedUnit& unit, std::vector<std::string>& assumptions) {
  if (!unit.return_drag)
    assumptions.push_back(
        "brake unit: no drag while line is drawn in, for no return_drag is given; it makes the return slower");
}

void assume(const Layout& layout, std::vector<std::string>& assumptions) {
  assume(layout.brake_unit, assumptions);
  if (!layout.site.altitude_m)
    assumptions.push_back("site: altitude 0 m for the density of the air on riders, where it is greatest");
  if (!layout.site.wind_along_m_per_s)
    assumptions.push_back("site: no wind along the line, for no wind_along is given");
}

/// What riders and weather are missing for an arrest; empty where nothing is.
std::string missing(const Riders& riders) {
  std::string keys;
  const auto needs = [&](bool given, const char* key) {
    if (!given) keys += (keys.empty() ? "" : " and ") + std::string(key);
  };
  needs(riders.rolling_resistance.has_value(), "riders.rolling_resistance");
  needs(riders.drag_area_m2.has_value(), "riders.drag_area");
  return keys;
}

/// What a layout and a concept have alike; chainage `zero_m` is where `along` counts from.
arrest::Inputs common(const Riders& riders, const UnplacedUnit& unit, const UnplacedTrolley& trolley,
                      const UnplacedBackup* backup, double zero_m) {
  arrest::Inputs in;
  in.rider_kg = {riders.mass_kg.value.low, riders.mass_kg.value.high};
  in.rider_trolley_kg = riders.trolley_mass_kg;
  in.brake_trolley_kg = trolley.mass_kg;
  in.hanging_m = riders.hanging_length_m;
  if (riders.lanyard_stiffness_N_per_m) {
    in.lanyard_N_per_m = *riders.lanyard_stiffness_N_per_m;
    in.lanyard_damping = riders.lanyard_damping;
  }
  if (trolley.bumper_stiffness_N_per_m) {
    in.bumper_N_per_m = *trolley.bumper_stiffness_N_per_m;
    in.bumper_give_m = *trolley.bumper_give_m;
    in.bumper_damping = trolley.bumper_damping;
  }
  in.rolling = span_of(*riders.rolling_resistance);
  in.drag_area_m2 = *riders.drag_area_m2;
  if (riders.arrival_speed_m_per_s) in.measured_speed_m_per_s = span_of(*riders.arrival_speed_m_per_s);
  in.unit = brake_law(unit);
  in.brake_share = {(1 - unit.tolerance) * unit.force_left, 1 + unit.tolerance};
  if (unit.return_drag) in.return_share = *unit.return_drag;
  in.moving_mass_kg = unit.moving_mass_kg;
  in.extension_limit_m = unit.extension_limit_m;
  in.static_N = trolley.static_resistance_N;
  in.held_back = trolley.held_back && trolley.held_back->value;
  in.coupled = trolley.couples && trolley.couples->value;
  if (backup) {
    in.backup_m = backup->engages_m - zero_m;
    if (backup->resistance_N) in.backup_N = backup->resistance_N->value;
    if (backup->stroke_m) in.backup_stroke_m = backup->stroke_m->value;
  }
  return in;
}

template <class Backup>
const UnplacedBackup* given(const std::optional<Backup>& backup) {
  return backup ? &*backup : nullptr;
}

}  // namespace

Solved<arrest::Inputs> arrest_inputs(const Layout& layout, const Frame& frame, const mainline::MainLine& main_line,
                                     std::vector<std::string>& assumptions) {
  if (const std::string keys = missing(layout.riders); !keys.empty())
    return unsolved("the layout does not give " + keys);
  const double zero_m = frame.chainage_of_origin_m;
  arrest::Inputs in =
      common(layout.riders, layout.brake_unit, layout.brake_trolley, given(layout.backup_brake), zero_m);
  const double altitude_m = layout.site.altitude_m ? layout.site.altitude_m->value : 0;
  for (const mainline::State& state : main_line.states)
    in.air_kg_per_m3.push_back(air_density_kg_per_m3(altitude_m, state.temperature_K));
  if (layout.site.wind_along_m_per_s) in.wind_m_per_s = *layout.site.wind_along_m_per_s;
  if (layout.approach) {
    in.start_m = layout.approach->start_m - zero_m;
    in.push_off_m_per_s = span_of(layout.approach->push_off_m_per_s);
  }
  in.rest_m = layout.brake_trolley.rest_m - zero_m;
  in.travel_m = layout.brake_trolley.travel_m;
  assume(layout, assumptions);
  return in;
}

Solved<arrest::Inputs> arrest_inputs(const Concept& idea, std::vector<std::string>& assumptions) {
  if (const std::string keys = missing(idea.riders); !keys.empty())
    return unsolved("the concept does not give " + keys);
  constexpr double mild_K = 288.15;
  arrest::Inputs in = common(idea.riders, idea.brake_unit, idea.brake_trolley, given(idea.backup_brake), 0);
  in.air_kg_per_m3 = {air_density_kg_per_m3(0, mild_K)};
  in.travel_m = idea.zone.travel_m;
  assume(idea.brake_unit, assumptions);
  assumptions.push_back(
      fmt::format("concept: still air of {:.4g} kg/m3, sea level at 15 C, for it has no site", in.air_kg_per_m3[0]));
  return in;
}

}  // namespace fairlead
