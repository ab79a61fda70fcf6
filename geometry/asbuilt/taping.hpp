// Tapes and rises from mark to mark, adjusted together with what was shot in the frame of the points file.
#pragma once

#include <string>
#include <vector>

#include "geometry/survey/measurements_file.hpp"
#include "geometry/survey/network.hpp"

namespace fairlead {

/// One reading between two points that the layout knows, of a measurement whose item is "P1 to A3".
struct SiteReading {
  std::string from, to;
  NetworkReading::Kind kind{};
  double value_m{}, uncertainty_m{};
  unsigned line{};  ///< of the measurements file
};

bool is_between_marks(Measurand);

/// The readings between marks among the measurements, in their order; what is wrong with the others is added to the
/// errors. `known`: ids of marks and pegs.
std::vector<SiteReading> site_readings(const std::vector<Measurement>&, const std::vector<std::string>& known,
                                       PointsErrors&);

/// A point as a network takes it: as shot, or about where it stands.
struct ReadPoint {
  std::string id;
  NetworkPoint point;
};

struct Taping {
  std::vector<SiteReading> readings;
  std::vector<std::string> ids;  ///< of the network's points, in their order
  Adjustment adjustment;
  std::vector<int> placed;  ///< of those that are not open, in their order: indices into Placing::points
};

/// "the tape P1 to A3"
std::string words_of(const SiteReading&);

/// "the tape P1 to A3", "the point A3", or either where they can not be told apart; empty where nothing is checked.
std::string worst_of(const Taping&);

/// Why the readings do not agree; empty where they do.
std::string disagreement(const Taping&);

}  // namespace fairlead
