// The bare main line's tension by points shot on it: the catenary between the measured supports that lies nearest them.
#pragma once

#include <string>
#include <vector>

#include "geometry/asbuilt/placing.hpp"
#include "geometry/mainline/cable.hpp"

namespace fairlead {

/// In the line's plane frame: x from the start support, z from its height; across to the left.
struct ShotOnPlane {
  double x_m{}, z_m{}, across_m{};
};

/// Least squares of the shots, and of both supports' heights, which were shot as well.
struct LineByShots {
  double horizontal_N{}, tension_N{};  ///< the second where the layout measures it: at an end, or horizontal
  double uncertainty_N{};              ///< standard, of the tension; what the line weighs is taken as exact
  std::vector<double> above_m;         ///< each shot over the line
  double chi_squared{};
  int redundancy{};
  double probability{};  ///< of a chi-squared as great by chance
  bool agrees{};         ///< not below a thousandth, and no shot stands aside
  int worst = -1;        ///< index of the shot farthest from the line for its uncertainty; -1: none
  int aside = -1;        ///< index of a shot that stands off the line's plane by more than rejected_beyond allows
};

/// `line`: span, rise, weight and compliance; its length is not read. `u_m` > 0: standard, of every coordinate.
/// Unsolved where there is no shot, one stands beyond the supports, and where they leave the tension open by more than
/// a fifth.
Solved<LineByShots> line_by_shots(const mainline::Cable& line, mainline::MeasuredAt, const std::vector<ShotOnPlane>&,
                                  double u_m);

/// The same of a layout whose supports stand where they were measured. `at`: the shots, site frame.
Solved<LineByShots> line_by_shots(const Layout&, const std::vector<Point3>& at, double u_m);

/// Why the tension is not believed; empty where it is. `ids`: of the shots.
std::string disagreement(const LineByShots&, const std::vector<ShotOnLine>& ids);

}  // namespace fairlead
