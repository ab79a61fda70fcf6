// The main line's curves over the chainages: how high it and the wheels on it lie, how tight it is, which way it drives
// a load.
#pragma once

#include <string_view>
#include <vector>

#include "geometry/rig/rig.hpp"
#include "report/drawing/plot.hpp"

namespace fairlead::sheets {

/// "empty trolley", "lightest rider", "heaviest rider"
std::string_view name_of_load(mainline::Loading);

// Of the bare line and of every loading two curves, thin along the highest of all states and wide along the lowest,
// over chainages in m. Their names say of which states they are: of more than one where another lies more than `unseen`
// beyond it anywhere. All of a solved main line.

/// Site levels, m: the chord, the bare line, and the wheel of a load that is alone on the line and rolls slowly.
std::vector<drawing::PlotCurve> heights(const Rig&, double unseen_m);
/// Horizontal tension, N, upstream of the wheel with the load there, and of the bare line.
std::vector<drawing::PlotCurve> tensions(const Rig&, double unseen_N);
/// The force that drives a load along over its weight, positive toward the landing, from one chainage to another and
/// as far beyond as the next knot of the paths lies.
std::vector<drawing::PlotCurve> drives(const Rig&, double from_m, double to_m, double unseen);

}  // namespace fairlead::sheets
