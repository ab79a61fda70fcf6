// What a survey's names stand for: the layout's marks and the pegs of its points file.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "geometry/studies/set_out_points.hpp"

namespace fairlead {

struct Known {
  int mark = -1;             ///< index into set_out_points; -1: a peg
  std::optional<Point3> at;  ///< site frame; none: a rest mark on an unsolved line
};

/// By their ids; of a mark and a peg of one id the mark.
std::map<std::string, Known> known_points(const Layout&, const std::vector<SetOutPoint>& marks);

/// "feet, taken for metres": the unit that was taken for another where lengths came out so many times too large, to
/// within a share of that; null where no two units are so far apart.
const char* wrong_unit(double times_too_large, double slack);

}  // namespace fairlead
