// The reductions of the reeving's tests with all that the loads ask for besides.
#pragma once

#include <stdexcept>

#include "geometry/loads/loads.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::loads {

enum AnchorOf { start, landing, secondary, at_unit, support_from, support_to, anchors_in_all };

struct Reduced {
  reeving::Inputs reeving;
  mainline::MainLine main_line;
  reeving::Reeving reeved;
  Inputs held;
};

/// A reduction of n parts under a brake trolley of 8 kg, which the line under the redirect does not lift off; its
/// support line runs over one wheel, 30 mm downstream of the block's own point.
inline reeving::Inputs rig_of(int n, bool carried = true, double line_kg_per_m = 0.12, bool askew = false) {
  const reeving::ReductionParts parts{.parts = n, .carried = carried, .line_kg_per_m = line_kg_per_m};
  reeving::Inputs in = n == 1  ? reeving::worked_rig()
                       : askew ? reeving::skew_reduction(parts)
                               : reeving::reduction(parts);
  in.lines[0].weight_N_per_m = line_kg_per_m * standard_gravity;
  for (reeving::SweepInputs& s : in.sweeps) s.trolley_weight_N = 8 * standard_gravity;
  if (n > 1 && carried) {
    in.sheaves.pop_back();
    in.sheaves.back().centre.x = in.blocks[0].drawn.x + 0.03;
    in.lines[2].sheaves = 1;
  }
  return in;
}

/// The worked main line, as cold and as warm as it was measured.
inline mainline::MainLine worked_main_line() {
  mainline::Inputs in;
  in.span_m = 220;
  in.rise_m = -11;
  in.mass_kg_per_m = 1.05;
  in.compliance_per_N = {1 / 11e6, 1 / 11e6};
  in.expansion_per_K = 12e-6;
  in.known = mainline::Inputs::Known::tension;
  in.measure = {15e3, 15e3};
  in.measured_at = mainline::MeasuredAt::horizontal;
  in.measured_K = in.coldest_K = in.warmest_K = 288.15;
  in.empty_kg = 4;
  in.lightest_kg = 36.5;
  in.heaviest_kg = 126.5;
  in.path_from_m = 10;
  in.path_to_m = 205;
  return *mainline::solve(in);
}

/// Everything on the ground but the supports, the unit and the support line's ends is on the secondary anchor.
inline Inputs held_by(const reeving::Inputs& in) {
  Inputs held;
  held.anchors.resize(anchors_in_all);
  held.anchors[start] = in.origin;
  held.anchors[landing] = in.origin + 220 * in.along - 11 * in.up;
  held.anchors[secondary] = in.sheaves[0].centre;
  held.anchors[at_unit] = in.outlet();
  held.start_anchor = start;
  held.end_anchor = landing;
  held.unit_anchor = at_unit;
  held.unit_weight_N = 300;
  for (const reeving::Sheave& s : in.sheaves)
    held.sheave_anchor.push_back(s.body == reeving::on_ground ? secondary : no_anchor);
  held.block_anchor.assign(in.blocks.size(), no_anchor);
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const reeving::Line& line = in.lines[l];
    LineAnchors ends;
    if (l == 2) ends.from = support_from, ends.to = support_to;
    if (l != 2 && line.to.body == reeving::on_ground && static_cast<int>(l) != in.braking) ends.to = secondary;
    held.line_anchors.push_back(ends);
  }
  return held;
}

/// Solves the rig cold; the sweep at rest with the heaviest rider also warm, which is the same.
inline Reduced reduced(reeving::Inputs in) {
  for (reeving::SweepInputs& s : in.sweeps)
    s.path = s.rider_weight_N == 0 ? 0 : s.rider_weight_N < 50 * standard_gravity ? 1 : 2;
  in.sweeps.push_back(in.sweeps[3]);
  in.sweeps.back().path = 5;
  auto reeved = reeving::solve(in);
  if (!reeved) throw std::runtime_error(reeved.error().why);
  return {in, worked_main_line(), std::move(*reeved), held_by(in)};
}

inline Solved<Loads> solve(const Reduced& rig) { return solve(rig.held, rig.main_line, rig.reeving, rig.reeved); }

inline Loads loads_of(const Reduced& rig) {
  auto loads = solve(rig);
  if (!loads) throw std::runtime_error(loads.error().why);
  return std::move(*loads);
}

}  // namespace fairlead::loads
