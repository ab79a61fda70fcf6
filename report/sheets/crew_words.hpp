// What crew pages say in sentences.
#pragma once

#include <string>
#include <vector>

#include "geometry/studies/line_offsets.hpp"
#include "geometry/studies/set_out_points.hpp"
#include "report/sheets/crew_parts.hpp"

namespace fairlead::sheets::crew {

struct SeenMark {
  const SetOutPoint* point{};
  Solved<LineOffset> from_line;  ///< or why it is not measured from there
  Point3 at() const { return *point->at; }
};

/// Whether a main line's end hangs from it, so that nothing can be measured from the line before it stands.
bool holds_main_line(const Layout&, AnchorId);

/// What the numbers of an anchor's marks are measured from; at least one mark, the anchor's own first.
std::vector<std::string> measured_from(const Rig&, const std::vector<SeenMark>&, const Style&);

/// By which tapes each of these marks is found, on which side of them it stands and what tells it from its mirror
/// image; or why there are none.
Part tapes(const Dossier&, const std::vector<std::string>& ids, const Style&);

/// How far off its place each of these marks may stand while all others are off by as much as they may; or that it was
/// not computed, or why there is no answer.
Part allowances(const Dossier&, const std::vector<std::string>& ids, const Style&);

/// "12.5°"; never "-0.0°" nor "360.0°"
std::string degrees_of(double rad);

/// The axle of a fixed sheave, by its left end.
Turned axle_of(const Rig&, const Sheave&);
/// The axis that a sheave swivels about.
Turned swivel_of(const Rig&, const Sheave&);
/// The way the brake unit's line leaves it.
Turned outlet_of(const Rig&);

}  // namespace fairlead::sheets::crew
