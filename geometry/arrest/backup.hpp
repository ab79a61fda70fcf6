// The backup brake by itself, and a brake trolley that was not at its mark.
#pragma once

#include <functional>

#include "geometry/arrest/arrest.hpp"

namespace fairlead::arrest {

/// What pushes all that hangs on the line on, along x, had it neither brake nor resistance; known up to to_m.
struct Drive {
  std::function<double(double x_m)> force_N;
  double to_m{};
};

/// The primary lost at contact: nothing is lost in the impact and nothing in the swing, all that hangs on the line
/// arrives as one mass (that is the most it can bring), and the backup brake's force over its compression is all that
/// stops it. The drive is that of both trolleys and the rider. Unsolved without force or stroke.
Solved<BackupAlone> backup_alone(const Inputs&, const Drive&, double hanging_kg, double drag_kg_per_m,
                                 double wind_m_per_s, double rolling, double arrival_speed_m_per_s);

}  // namespace fairlead::arrest
