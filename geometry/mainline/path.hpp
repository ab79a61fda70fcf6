// The path of a rolling load along the main line as an energy-consistent track.
#pragma once

#include <vector>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// The track of one rolling weight, nothing else on the line: C2 in x, so that energy closes.
/// potential_J(x) is the load's and the line's potential together, from 0 at from_m; drive_force_N(x) = -d potential/dx
/// of the very interpolant = -weight tan tau at the knots. slope is dz/dx of the path, which is not tan tau. Outside
/// from_m..to_m everything is NaN.
class Path {
 public:
  struct Knot {
    double x_m{}, z_m{}, slope{}, curvature{}, tau_rad{}, potential_J{}, H_N{};
    double drive_force_N{}, drive_slope_N_per_m{};  ///< of the line on the wheel, along x, and its change with x
  };
  double height_m(double x_m) const;
  double slope(double x_m) const;
  double curvature(double x_m) const;  ///< d2z/dx2
  double potential_J(double x_m) const;
  double drive_force_N(double x_m) const;
  double tau_rad(double x_m) const;
  double from_m() const { return knots_.front().x_m; }
  double to_m() const { return knots_.back().x_m; }
  double weight_N() const { return weight_N_; }
  /// Where the load would come to rest without losses: tau = 0, drive force falling through zero; in rising x.
  std::vector<double> rest_points_m() const;
  const std::vector<Knot>& knots() const { return knots_; }

  /// Solves the path over [from_m, to_m] (strictly inside the span) at evenly spaced knots, at least 4.
  static Solved<Path> solve(const Cable&, double weight_N, double from_m, double to_m, int knots);

 private:
  struct Between;
  Between between(double x_m) const;

  std::vector<Knot> knots_;
  double weight_N_{};
};

}  // namespace fairlead::mainline
