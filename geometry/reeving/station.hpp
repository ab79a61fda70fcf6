// A solved pose with what its neighbours start from and what the bounds between poses need.
#pragma once

#include <optional>
#include <vector>

#include "geometry/reeving/contact.hpp"

namespace fairlead::reeving {

/// What is settled before a sweep begins.
struct Outlet {
  /// Per line. Of the braking line: unstretched from outlet to its other end, at rest on the sweep's reference lines,
  /// where the extension is Inputs::rest_extension_m. Of a line that closes on a block's rest: always. Of the others
  /// (State::unstretched_m has them): not read.
  std::vector<double> unstretched_m;
  std::optional<double> held_tension_N{};  ///< at the outlet; absent: the retraction at the pose's extension
};

/// All lines as they hang, for one place of every body and one tension of every line.
struct Reeved {
  Point3 attachment;
  std::vector<Placement> blocks;
  std::vector<Tension> tension;       ///< per line
  std::vector<MetLeg> legs;           ///< Inputs::legs of them, line by line
  std::vector<double> wrap_rad;       ///< per sheave; 0 at a wheel
  std::vector<double> length_m;       ///< per line: its legs and wraps as they hang
  std::vector<double> unstretched_m;  ///< per line: sum of lengths x (1 - mean end tension x compliance)
};

/// Changes per metre of travel, exact; zero at travel < 0.
struct Rates {
  double slope{};                       ///< dz/dx of the wheel's path with the line's pull
  double carried_N_per_m{};             ///< of the weight on the trolley's wheel
  std::vector<double> tension_N_per_m;  ///< per line: of Tension::at_N
  std::vector<Move> blocks;  ///< shift of the block's own point, and turn (right-hand, rad, site frame) about it
};

struct Station {
  Pose pose;
  Reeved lines;
  mainline::Shape shape;
  double carried_N{};             ///< by the trolley's wheel
  double retraction_slope{};      ///< dT/dE, N/m, toward greater extension; 0 where the tension is held
  std::vector<double> fleet_rad;  ///< per sheave, the greater size of both sides; 0 at a wheel
  Rates rates;
};

}  // namespace fairlead::reeving
