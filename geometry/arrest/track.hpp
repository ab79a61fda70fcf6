// What main line and reeving do to the trolleys along the arrest zone, as smooth functions of the travel.
#pragma once

#include <array>
#include <vector>

#include "geometry/mainline/path.hpp"
#include "geometry/quantity/solved.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::arrest {

/// Everything of the track at one travel. The braking line's tension at the unit T enters linearly: two sweeps tell how
/// the rig answers it (its lift of the trolley, the sag and stretch it takes out of the lines).
struct TrackPoint {
  double drive_N{};       ///< of weight and main line on both trolleys and the rider, along x, had the unit no tension
  double pull{};          ///< retarding force along x per newton of T, line paid out
  double pull_back{};     ///< the same, line drawn in
  double extension_m{};   ///< had the unit no tension
  double give_m_per_N{};  ///< of the extension: what more is out per newton of T (below 0: sag and stretch come out)
  double pay_out{}, give_slope{};  ///< changes with x of the two before
  double lift{};                ///< of the line's pull on the trolley off the main line, square to it, per newton of T
  double slope{}, curvature{};  ///< of the path: dz/dx, d2z/dx2
  double inertia_kg{}, inertia_slope{};  ///< of lines, blocks and the unit's rotor, as felt along x
};

/// What presses the wheels of trolleys of that mass on the line, square to their path: at v with vv its square, while
/// the unit pulls with tension_N (0 where the brake trolley is not among them).
double pressing_N(const TrackPoint&, double mass_kg, double vv, double tension_N);

/// Cubic splines over evenly spaced travels, C2, from the rest mark to the end of the planned travel. Beyond either end
/// they go on for `margin_m`, for a step that looks over it; outside that everything is NaN.
class Track {
 public:
  static constexpr double margin_m = 1;
  TrackPoint at(double x_m) const;
  /// Minus the work of drive_N from the mark on, J.
  double potential_J(double x_m) const;
  double to_m() const { return to_m_; }

  /// From the sweeps of one path (main line's state and loading): the line at rest, which is also how the unit pulls
  /// without drag, and paid out at the peak tension. `returning` tells friction's other sense; nullptr: no friction.
  /// moving_mass_kg: of the unit's rotor and drum, as felt at its line.
  static Solved<Track> from_sweeps(const reeving::Inputs&, const reeving::Sweep& rest, const reeving::Sweep& peak,
                                   const reeving::Sweep* returning, double moving_mass_kg);

  /// From the sweep of the empty trolley with its lines returning, and its path on the main line.
  static Solved<Track> empty(const reeving::Inputs&, const reeving::Sweep& returning, const mainline::Path&,
                             double moving_mass_kg);

  /// A straight main line and an ideal reduction.
  struct Plain {
    double ratio = 1;       ///< n of n:1
    double efficiency = 1;  ///< of the reduction: paying out the trolley feels T / (n efficiency), drawing in
                            ///< T efficiency / n
    double slope{};         ///< dz/dx, rising toward the landing
    double travel_m{};
    double rest_extension_m{};
    double weight_N{};  ///< of all that hangs on the line after contact
    double inertia_kg{};
  };
  static Solved<Track> plain(const Plain&);

  /// The same rig with another reduction in place of its own: pulls and pay-out go with 1/n.
  Track with_ratio(double from, double to, double rest_extension_m) const;

 private:
  enum Function { drive, pull, pull_back, extension, give, lift, height, inertia, functions };
  /// Of every function the value at the cell's start and the three coefficients in t = 0..1, power by power: what all
  /// functions are at one place is asked for far more often than what one of them is.
  struct Cell {
    std::array<std::array<double, functions>, 4> power;
    double potential_J;
  };
  struct Place {
    std::size_t cell;
    double t;
  };
  Place place(double x_m) const;
  using Values = std::array<std::vector<double>, functions>;
  static Solved<Track> through(double step_m, const Values&);

  std::vector<Cell> cells_;
  double step_m_{}, to_m_{};
};

}  // namespace fairlead::arrest
