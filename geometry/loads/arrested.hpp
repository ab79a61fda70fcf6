// The instants of riders' arrests, as numbers that the loads are found from.
#pragma once

#include <string>
#include <vector>

#include "geometry/quantity/vectors.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::loads {

/// One instant of one corner: it loads the rig as it is then, nothing is mixed from several.
struct ArrestInstant {
  int corner{};
  double t_s{};                         ///< after contact
  double travel_m{}, rider_travel_m{};  ///< of the brake trolley, >= 0; of the rider's, upstream of it when apart
  double unit_tension_N{};
  reeving::Friction friction{};         ///< the sense in which the lines run: paid out or returning
  Vec3 lanyard_N;                       ///< of the rider on his trolley, site frame
  Vec3 rider_m_per_s2, brake_m_per_s2;  ///< accelerations of the two trolleys
  bool apart = false;
  bool operator==(const ArrestInstant&) const = default;
};

/// Who is arrested, and in what weather.
struct ArrestCorner {
  std::string name;
  int path{};             ///< of the main line: its state, and lightest or heaviest
  double beyond_share{};  ///< by so much tension and load may be greater at an instant that is not among them
  bool operator==(const ArrestCorner&) const = default;
};

/// `instants` are in the order of path, friction, travel, and between them they show the worst of every corner over
/// each cell of travel for all that grows evenly with tension and load.
struct Arrested {
  std::vector<ArrestCorner> corners;
  std::vector<ArrestInstant> instants;
  std::vector<double> cells_m;  ///< where each cell of travel begins, from 0 on
  double rider_trolley_kg{}, brake_trolley_kg{};
  std::string missing = "no arrest was solved";  ///< why some or all corners are not among them; empty: all are
  bool operator==(const Arrested&) const = default;
};

}  // namespace fairlead::loads
