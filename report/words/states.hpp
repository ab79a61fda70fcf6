// What the states of the rig are called in print.
#pragma once

#include <string>

#include "geometry/mainline/names.hpp"
#include "geometry/rig/rig.hpp"

namespace fairlead::words {

using mainline::name_of;
using mainline::word_for;
std::string_view word_for(reeving::Friction);  ///< "none", "paying out", "returning"
std::string_view word_for(reeving::Running);   ///< "at rest", "paying out"
std::string_view word_for(LineMaterial);       ///< "steel", "fibre", "webbing"
std::string_view word_for(loads::Action);      ///< "at rest", "rescue", "ice and wind"
std::string_view turning_of(int sense);        ///< of a reeved sheave: "anticlockwise", "clockwise"

/// "heaviest rider, cold"
std::string name_of(const mainline::MainLine&, const mainline::StatePath&);

/// "heaviest rider, cold, paying out"
std::string name_of(const mainline::MainLine&, const reeving::Sweep&);

}  // namespace fairlead::words
