// Where the search for a pose's balance begins when no neighbour is known: the blocks on point sheaves and weightless
// lines.
//
// The lines give like springs, T(length) rising and never zero, so the energy of blocks and lines is convex in the
// blocks' places: Newton's iteration with a step that is halved until the energy falls along it comes to the one place
// from anywhere. The springs are then stiffened. Attitudes are those drawn.
#pragma once

#include <vector>

#include "geometry/reeving/balance.hpp"

namespace fairlead::reeving {

struct PointStart {
  std::vector<Vec3> shift;        ///< per block, from where it is drawn
  std::vector<double> tension_N;  ///< per line
  std::vector<double> spare_m;    ///< per line: how much longer it is than its way; > 0: it hangs slack
};

/// `attachment` in the site frame; force_N as the balance's.
PointStart start_on_points(const Inputs&, const SweepInputs&, const Outlet&, Point3 attachment, double force_N);

}  // namespace fairlead::reeving
