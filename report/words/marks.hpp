// The physical marks that a crew sets out, in words.
#pragma once

#include <string>

#include "geometry/studies/set_out_points.hpp"

namespace fairlead::words {

/// "bearing point: where the load acts", "centre of the axle of sheave R1".
std::string mark_of(const Layout&, const SetOutPoint&);

}  // namespace fairlead::words
