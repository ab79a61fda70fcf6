// What the states of the main line are called: in load cases, reports and drawings alike.
#pragma once

#include <string>
#include <string_view>

#include "geometry/mainline/states.hpp"

namespace fairlead::mainline {

std::string_view word_for(Weather);  ///< "as measured", "cold", "warm"
std::string_view word_for(Loading);  ///< "empty", "lightest rider", "heaviest rider"

/// ", stiffest, tightest": the ends of the ranges a state stands at.
std::string ends_of(const MainLine&, const State&);
/// "cold, stiffest, tightest"; the ends of ranges are named only where the layout leaves both open.
std::string name_of(const MainLine&, const State&);

}  // namespace fairlead::mainline
