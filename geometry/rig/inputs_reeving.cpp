#include <fmt/format.h>
#include <algorithm>
#include <limits>

#include "geometry/reeving/contact.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

bool is_trolley(const LineEnd& end) { return std::holds_alternative<BrakeTrolleyEnd>(end); }
bool is_unit(const LineEnd& end) { return std::holds_alternative<BrakeUnitEnd>(end); }

std::optional<Turning> reversed(std::optional<Turning> turning) {
  if (!turning) return turning;
  return *turning == Turning::clockwise ? Turning::anticlockwise : Turning::clockwise;
}

reeving::BrakeUnit unit_of(const BrakeUnit& given) {
  reeving::BrakeUnit unit;
  unit.retraction_N = given.retraction_N;
  if (given.eddy)
    unit.magnetic_N = reeving::EddyLaw{given.eddy->peak_N, given.eddy->critical_speed_m_per_s};
  else
    unit.magnetic_N = given.magnetic_N->value;
  unit.tolerance = given.tolerance;
  return unit;
}

/// Where the passage of a rider begins: the whole envelope still upstream of the first sheave it meets.
double upstream_travel_m(const Layout& layout, const Frame& frame, const reeving::Inputs& in) {
  double first_m = in.rest_m;
  for (const reeving::Sheave& s : in.sheaves)
    first_m = std::min(first_m, dot(s.centre - frame.origin, frame.along) - s.radius_m);
  const double half_length_m = layout.riders.envelope ? 0.5 * layout.riders.envelope->length_m : 1.0;
  return std::max(first_m - 1.0 - half_length_m, 0.01 * frame.span_m) - in.rest_m;
}

/// Fills in the sense of every sheave that the author left to the geometry, from where the line stands at rest.
Solved<std::vector<int>> turning_senses(const Layout& layout, const Chain& chain, const reeving::Inputs& in) {
  const mainline::Load trolley{in.rest_m, layout.brake_trolley.mass_kg * standard_gravity};
  const auto shape = mainline::hang_rolling(in.reference.cable, {&trolley, 1});
  if (!shape) return tl::unexpected(shape.error());
  const Point3 wheel = in.origin + in.rest_m * in.along + shape->wheels[0].z_m * in.up;
  std::vector<Point3> points{wheel + in.attachment};
  for (const reeving::Sheave& s : in.sheaves) points.push_back(s.centre);
  points.push_back(in.outlet());
  std::vector<int> senses;
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) {
    if (chain.turning[i]) {
      senses.push_back(*chain.turning[i] == Turning::anticlockwise ? 1 : -1);
      continue;
    }
    const auto sense = reeving::derive_sense(points[i], points[i + 2], in.sheaves[i]);
    if (!sense)
      return unsolved(fmt::format(
          "the line can run over sheave \"{}\" either way round: write turning = \"clockwise\" or \"anticlockwise\" "
          "in its route",
          layout.sheaves[static_cast<std::size_t>(chain.sheaves[i])].id.value));
    senses.push_back(*sense);
  }
  return senses;
}

/// Which sweeps there are is decided here and nowhere else. On every path the line at rest; with a rider also at
/// the unit's peak tension. Without sheave friction an empty trolley's return is its sweep at rest.
void add_sweeps(const Layout& layout, const mainline::MainLine& main_line, reeving::Inputs& in) {
  const double trolley_N = layout.brake_trolley.mass_kg * standard_gravity;
  for (std::size_t p = 0; p < main_line.paths.size(); ++p) {
    const mainline::StatePath& path = main_line.paths[p];
    const mainline::State& state = main_line.states[static_cast<std::size_t>(path.state)];
    reeving::SweepInputs sweep;
    sweep.path = static_cast<int>(p);
    sweep.state = {state.cable, in.reference.unstretched_m};
    const mainline::Cable& measured =
        std::find_if(main_line.states.begin(), main_line.states.end(), [&](const mainline::State& s) {
          return s.weather == mainline::Weather::measured && s.stiff == state.stiff && s.taut == state.taut;
        })->cable;
    sweep.reference = {measured, in.reference.unstretched_m};
    sweep.trolley_weight_N = trolley_N;
    if (path.loading != mainline::Loading::empty) {
      const Range& riders = layout.riders.mass_kg;
      sweep.rider_weight_N =
          standard_gravity *
          (layout.riders.trolley_mass_kg + (path.loading == mainline::Loading::lightest ? riders.low : riders.high));
    }
    sweep.running = reeving::Running::at_rest;
    in.sweeps.push_back(sweep);
    if (path.loading == mainline::Loading::empty) continue;
    sweep.running = reeving::Running::paying_out;
    in.sweeps.push_back(sweep);
  }
}

}  // namespace

Solved<Chain> braking_chain(const Layout& layout) {
  int found = -1;
  for (std::size_t i = 0; i < layout.lines.size(); ++i) {
    const Line& line = layout.lines[i];
    const bool from_block = !is_trolley(line.from) && !is_unit(line.from),
               to_block = !is_trolley(line.to) && !is_unit(line.to);
    if (from_block || to_block)
      return unsolved(
          fmt::format("line \"{}\" does not run straight from the brake trolley to the brake unit; "
                      "travelling blocks and joined lines are not solved by this version",
                      line.id.value));
    if (is_trolley(line.from) == is_trolley(line.to))
      return unsolved(fmt::format("line \"{}\" begins and ends at the same thing", line.id.value));
    if (found >= 0) return unsolved("more than one line runs from the brake trolley to the brake unit");
    found = static_cast<int>(i);
  }
  if (found < 0) return unsolved("no line runs from the brake trolley to the brake unit");
  const Line& line = layout.lines[static_cast<std::size_t>(found)];
  if (line.route.empty()) return unsolved(fmt::format("line \"{}\" runs over no sheave", line.id.value));
  Chain chain{found, {}, {}};
  const bool forward = is_trolley(line.from);
  for (const Over& over : line.route) {
    const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(over.sheave)];
    if (!std::holds_alternative<AnchorId>(sheave.on))
      return unsolved(
          fmt::format("sheave \"{}\" travels; only sheaves on anchors are solved by this version", sheave.id.value));
    chain.sheaves.push_back(static_cast<int>(over.sheave));
    chain.turning.push_back(forward ? over.turning : reversed(over.turning));
  }
  if (!forward) {
    std::reverse(chain.sheaves.begin(), chain.sheaves.end());
    std::reverse(chain.turning.begin(), chain.turning.end());
  }
  return chain;
}

Solved<reeving::Inputs> reeving_inputs(const Layout& layout, const Frame& frame, const Chain& chain,
                                       const mainline::MainLine& main_line, Resolution resolution) {
  reeving::Inputs in;
  in.origin = frame.origin;
  in.along = frame.along;
  in.across = frame.across;
  in.up = frame.up;
  in.rest_m = layout.brake_trolley.rest_m - frame.chainage_of_origin_m;
  in.travel_m = layout.brake_trolley.travel_m;
  const Vec3 offset = layout.brake_trolley.attachment;
  in.attachment = offset.x * frame.along + offset.y * frame.across + offset.z * frame.up;
  for (const int index : chain.sheaves) {
    const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(index)];
    in.sheaves.push_back({sheave.position->value, unit(sheave.axle), 0.5 * sheave.pitch_diameter_m, 0});
  }
  in.outlet_axis = unit(layout.brake_unit.axis);
  in.unit = unit_of(layout.brake_unit);
  in.rest_extension_m = layout.brake_unit.rest_extension_m;
  in.reference = {main_line.states.front().cable, {std::numeric_limits<double>::quiet_NaN()}};
  const Line& line = layout.lines[static_cast<std::size_t>(chain.line)];
  in.lines.push_back({.from = {{}, reeving::on_trolley},
                      .to = {layout.brake_unit.outlet, reeving::on_ground},
                      .sheaves = static_cast<int>(in.sheaves.size()),
                      .weight_N_per_m = line.mass_kg_per_m * standard_gravity,
                      .diameter_m = line.diameter_m});
  in.speed_m_per_s = layout.riders.arrival_speed_m_per_s.value.high;
  in.length_resolution_m = resolution.length_m;
  in.angle_resolution_rad = resolution.angle_rad;
  const auto turned = turning_senses(layout, chain, in);
  if (!turned) return tl::unexpected(turned.error());
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) in.sheaves[i].sense = (*turned)[i];
  in.upstream_m = upstream_travel_m(layout, frame, in);
  add_sweeps(layout, main_line, in);
  return in;
}

loads::Inputs loads_inputs(const Layout& layout, const Chain& chain) {
  loads::Inputs in;
  for (const Anchor& anchor : layout.anchors) in.anchors.push_back(anchor.position);
  for (const int index : chain.sheaves)
    in.sheave_anchor.push_back(
        static_cast<int>(std::get<AnchorId>(layout.sheaves[static_cast<std::size_t>(index)].on)));
  in.unit_anchor = static_cast<int>(layout.brake_unit.on);
  in.start_anchor = static_cast<int>(layout.main_line.from);
  in.end_anchor = static_cast<int>(layout.main_line.to);
  if (layout.brake_unit.mass_kg) in.unit_weight_N = *layout.brake_unit.mass_kg * standard_gravity;
  return in;
}

}  // namespace fairlead
