// Every number of a solved rig, told in the rig's own directions, so that two rigs can be held against each other.
#pragma once

#include <string>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead::laws {

enum class Kind { length, angle, ratio, force, couple, count };

/// One that a search found is known to lie between `least` and `value`; of any other the two are the same.
struct Number {
  std::string what;
  double value{}, least{};
  Kind kind{};
};

/// How a rig is told.
struct Telling {
  bool mirrored = false;  ///< left for right
  /// What riders in a side wind come near to and load as well. Not where weights are doubled: drag areas are then as
  /// well as the wind's pressure, so that they are pushed four times as hard, and lean otherwise.
  bool riders_in_side_wind = true;
};

/// Empty where a stage is unsolved.
std::vector<Number> numbers_of(const Rig&, const Telling& = {});

}  // namespace fairlead::laws
