// The marks to set out as a points file.
#pragma once

#include <string>

#include "geometry/survey/points_file.hpp"
#include "report/dossier.hpp"

namespace fairlead::formats {

/// Order, unit and layout in comment lines, then every mark that has a place; those that have none are named in a
/// comment. read_points gives the same points back. Unsolved where a name or a place fits no points file. The dossier
/// has its setting out.
Solved<std::string> points_csv(const Dossier&, const PointsFormat&);

}  // namespace fairlead::formats
