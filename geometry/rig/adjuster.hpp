// What the adjuster of a line has to take up.
#pragma once

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// Parts of what an adjuster has to take up, each not negative, so that the line can be set to length in every state
/// of the main line: the empty trolley at its mark, the unit's rest extension out, every block where it rests on the
/// main line as measured. Lengths are those of the line unloaded and at the temperature of that measure.
struct AdjusterNeed {
  double shorter_m{}, longer_m{};  ///< in some state, than on the main line as measured
  double stretch_m{};    ///< from unloaded to its tension at rest: made to its hanging length it is too long by this
  double tolerance_m{};  ///< +-
  std::string unknown;   ///< why a part of it is missing, and taken as nothing

  double take_in_m() const { return shorter_m + stretch_m + tolerance_m; }
  double let_out_m() const { return longer_m + tolerance_m; }
  double whole_m() const { return take_in_m() + let_out_m(); }
};

/// Thermal expansion taken of a steel [[line]] (common practice, no source); fibre and webbing are taken not to
/// change.
inline constexpr double steel_expansion_per_K = 12e-6;

/// Length needed in a state of the main line, made at the temperature at which that was measured; by the state's index.
/// Empty where it is not known.
std::vector<double> made_lengths_m(const Rig&, int line);

/// Of a [[line]], by its index.
Solved<AdjusterNeed> adjuster_need(const Rig&, int line);

}  // namespace fairlead
