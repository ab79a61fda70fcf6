// What the states of the rig are called in print.
#pragma once

#include <string>

#include "geometry/rig/rig.hpp"

namespace fairlead::words {

std::string_view word_for(mainline::Weather);  ///< "as measured", "cold", "warm"
std::string_view word_for(mainline::Loading);  ///< "empty", "lightest rider", "heaviest rider"
std::string_view word_for(reeving::Running);   ///< "at rest", "paying out", "returning"
std::string_view word_for(LineMaterial);       ///< "steel", "fibre", "webbing"
std::string_view turning_of(int sense);        ///< of a reeved sheave: "anticlockwise", "clockwise"

/// "cold, stiffest, tautest"; the ends of ranges are named only where the layout leaves both open.
std::string name_of(const mainline::MainLine&, const mainline::State&);

/// "heaviest rider, cold, paying out"
std::string name_of(const mainline::MainLine&, const reeving::Sweep&);

}  // namespace fairlead::words
