// Numbers as a report shows them.
#pragma once

#include <string>

#include "geometry/layout/layout.hpp"
#include "report/dossier.hpp"

namespace fairlead::words {

/// In the style's units. Both: SI, and US in brackets for forces, which is where two people with two wrenches meet.
std::string shown(Quantity, const Style&);
inline std::string shown(double si, Dimension dimension, const Style& style) { return shown({si, dimension}, style); }

/// "east 12.345 m, north 3.210 m, up 5.600 m", with the layout's words for its axes.
std::string shown(const Layout&, Point3, const Style&);

}  // namespace fairlead::words
