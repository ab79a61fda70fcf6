// Tape distances and levelled rises between marks, adjusted together with the points that were shot (GHILANI10).
//
// Every reading and every shot coordinate, over its standard uncertainty, is one equation; the places for which the sum
// of squares of what is left over is least are found by Gauss and Newton. What no reading fixes stays open, and so does
// a place that has another which explains the readings as well: tapes to marks in one plane do not tell the two sides
// of it apart, whatever the drawing says.
//
// A point may also be held: then its place is the datum, no unknown, and has no error of its own. What is read from it
// still tells whether it stands where it is held.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead {

struct NetworkPoint {
  Point3 at;                            ///< as shot or held; else about where it stands, to begin with
  std::optional<double> uncertainty_m;  ///< standard, of each coordinate, > 0; none: it was not shot
  bool held = false;                    ///< it stands at `at` and does not move; then it was not shot
};

struct NetworkReading {
  enum class Kind {
    distance,  ///< straight from mark to mark
    rise       ///< of the second above the first, along z
  } kind{};
  int from{}, to{};  ///< indices of points, not the same
  double value_m{};
  double uncertainty_m{};  ///< standard, > 0
};

struct Network {
  std::vector<NetworkPoint> points;
  std::vector<NetworkReading> readings;
};

/// More points than that are no rig's.
inline constexpr std::size_t most_network_points = 200;
/// Marks that hang together by readings alone: of more it is not looked through which of them may stand mirrored.
inline constexpr std::size_t most_hanging_together = 8;

/// What is left over, in its own standard deviations: a good one exceeds 3.29 once in a thousand (BAARDA68).
inline constexpr double rejected_beyond = 3.29;

struct Leftover {
  double residual_m{};    ///< adjusted - read
  double redundancy = 0;  ///< 0: nothing else checks it, an error stays unseen; 1: it adds nothing
  double standardised = std::numeric_limits<double>::quiet_NaN();  ///< not known without redundancy
};

/// Of a point that is held: what the readings tell of whether it stands there.
struct HeldPoint {
  int point{};                ///< index
  double chi_squared_less{};  ///< by so much the sum of squares falls, to first order, where it may stand elsewhere
  int redundancy_less{};      ///< and so many equations the fewer check; 0: no reading tells anything of it
  bool explains = false;      ///< that the readings do not agree: were it elsewhere, chi-squared would be no rare one
  /// Off by so much, whichever way, it is found in 80 % of surveys, by a test that is wrong in a thousandth (BAARDA68);
  /// not finite: in one way at least no reading would show it.
  double shows_from_m = std::numeric_limits<double>::infinity();
};

struct Adjustment {
  std::vector<Point3> at;                      ///< in the order of the points
  std::vector<std::string> open;               ///< why a point's place is not known; empty: it is
  std::vector<Leftover> readings;              ///< in their order
  std::vector<std::array<Leftover, 3>> shots;  ///< per point, x, y and z; of one that was not shot nothing is known
  std::vector<HeldPoint> held;                 ///< in the order of the points
  double chi_squared{};                        ///< sum of squares of all that is left over, over the uncertainties
  int redundancy{};                            ///< equations more than unknowns they fix
  double probability{};                        ///< of a chi-squared as great by chance
  bool agrees{};                               ///< that is not below a thousandth (BAARDA68)
  /// Whose standardised leftover is the greatest: of a reading, or of a point's coordinate; of both where the one can
  /// not be told from the other, as a tape from a point that nothing else is read from. -1: of none.
  int worst_reading = -1, worst_shot = -1;
  double worst{};  ///< its size
  int iterations{};
  /// F, square, row by row: F F^T is the covariance of the coordinates of the points that are not open, in their
  /// order. F times as many standard normal numbers is a draw of their errors.
  std::vector<double> factor_m;
};

/// Unsolved where a number is not finite, an uncertainty not above 0, a reading without two points, a point shot and
/// held, more than most_network_points, and where the iteration does not settle.
Solved<Adjustment> adjust(const Network&);

}  // namespace fairlead
