// The path of a rolling load along the main line as an energy-consistent track.
#pragma once

#include <optional>
#include <vector>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// The track of one rolling weight, alone on the line or upstream of a load that rests: C2 in x, so that energy closes.
/// potential_J(x) is the potential of loads and line together, from 0 at from_m; drive_force_N(x) = -d potential/dx
/// of the very interpolant = -weight tan tau at the knots. slope is dz/dx of the path, which is not tan tau. Outside
/// from_m..to_m everything is NaN, but for `continued`.
class Path {
 public:
  struct Knot {
    double x_m{}, z_m{}, slope{}, curvature{}, tau_rad{}, potential_J{}, H_N{};
    double drive_force_N{}, drive_slope_N_per_m{};  ///< of the line on the wheel, along x, and its change with x
  };
  /// The path at one place, for who wants all of it at once.
  struct Point {
    double z_m{}, slope{}, curvature{}, potential_J{}, drive_force_N{};
    double H_N{};  ///< upstream of the wheel, straight between knots
  };
  double height_m(double x_m) const;
  double slope(double x_m) const;
  double curvature(double x_m) const;  ///< d2z/dx2
  double potential_J(double x_m) const;
  double drive_force_N(double x_m) const;
  double tau_rad(double x_m) const;
  /// Beyond the ends the path keeps its curvature, its drive force that one's slope, H its value, all without a jump:
  /// for an integrator that steps over an end before it finds where it passed it.
  Point continued(double x_m) const;
  double from_m() const { return knots_.front().x_m; }
  double to_m() const { return knots_.back().x_m; }
  double weight_N() const { return weight_N_; }
  /// Where the load would come to rest without losses: tau = 0, drive force falling through zero; in rising x.
  std::vector<double> rest_points_m() const;
  const std::vector<Knot>& knots() const { return knots_; }

  /// Solves the path over [from_m, to_m] (strictly inside the span) at evenly spaced knots, at least 4. A resting load
  /// is held at its x, beyond to_m, and goes up and down with the line. As to_m nears it the height goes over into that
  /// of both weights on one wheel, and so does the sum of the forces on both wheels; the drive force of the one does
  /// not.
  static Solved<Path> solve(const Cable&, double weight_N, double from_m, double to_m, int knots,
                            std::optional<Load> resting = std::nullopt);

 private:
  struct Between;
  Between between(double x_m) const;
  static Point beyond(const Knot& end, double x_m);

  std::vector<Knot> knots_;
  double weight_N_{};
};

/// Nearer than this a rider and what rests on the line have met, m: a path toward it ends here. What it leaves out of
/// the energy is a millionth of the drive force, and the stretch between the wheels still has seven digits.
constexpr double meeting_m = 1e-6;

}  // namespace fairlead::mainline
