// The sections [project] and [site]: whose rig it is and where it stands. Their tables: project_fields.hpp.
#pragma once

#include <array>

#include "geometry/layout/given.hpp"

namespace fairlead {

/// One row of the revision table.
struct Revision {
  std::string revision, change, by;
  Given<Date> date;
};

struct Project {
  Words owner, title, number, revision;
  std::optional<Given<Date>> date;  ///< of issue
  std::optional<Words> creator, checker, approver;
  std::vector<Revision> history;
  Place place{};
};

struct Site {
  Words name;
  std::array<std::string, 3> axes{"east", "north", "up"};  ///< words for x, y, z
  std::optional<Words> datum;
  std::optional<Real> altitude_m;
  Real coldest_K, warmest_K;
  std::optional<Real> wind_along_m_per_s, wind_across_m_per_s;
  // Nobody rides in this weather: loads of the bare main line.
  std::optional<Real> ice_thickness_m;  ///< all round
  Real ice_density_kg_per_m3;
  std::optional<Real> ice_temperature_K;       ///< absent: `coldest`
  std::optional<Real> ice_wind_m_per_s;        ///< across, on the ice
  std::optional<Real> storm_wind_m_per_s;      ///< across, without ice
  std::optional<Given<Point3>> chainage_zero;  ///< absent: the main line's start
  Place place{};
};

}  // namespace fairlead
