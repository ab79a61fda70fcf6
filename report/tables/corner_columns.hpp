// What tables of the arrest say of every corner.
#pragma once

#include <string>
#include <vector>

#include "report/tables/tables.hpp"

namespace fairlead::tables {

/// Rider, speed, wind, rolling resistance, brake and main line, a column each; only what there are two of. `cells`: a
/// row a corner.
struct CornerColumns {
  std::vector<std::string> headings;
  std::vector<std::vector<Cell>> cells;
};
CornerColumns corner_columns(const Rig&, const std::vector<arrest::Corner>&);

/// "17": as tables number the corners, from 1; "none" of -1.
std::string corner_number(int corner);

/// "17: heaviest rider, fastest, ..."; "none" of -1.
std::string numbered_corner(const Rig&, int corner);

/// The same place from the layout's zero: of one along the main line, and of a travel.
double chainage_of_along_m(const Rig&, double along_m);
double chainage_of_travel_m(const Rig&, double travel_m);

}  // namespace fairlead::tables
