// The one table of units: text to SI and SI to text.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "geometry/quantity/dimension.hpp"
#include "tl/expected.hpp"

namespace fairlead {

struct Unit {
  std::string_view name;  ///< as written: "ft", "lbf", "deg"
  Dimension dimension;
  double to_si;       ///< SI value = offset + to_si * number
  double offset = 0;  ///< K, for C and F only
};
std::span<const Unit> all_units();

/// Why a text is no quantity of the wanted dimension, and what to write instead.
struct UnitError {
  std::string message, instead;
  unsigned from{}, length{};  ///< the offending part of the text, in bytes
};

/// Reads "1.5 deg", "12 ft 6 in", "12'-6 1/2\"", "43 km/h", "4 %", "2700 lb" (a rating: as a force).
tl::expected<double, UnitError> read_quantity(std::string_view text, Dimension);

/// True where a bare number may stand for this dimension (taken as SI).
bool bare_number_allowed(Dimension);

enum class Units { si, us, both };

/// "12.345 m", "1.50 deg", "19.4 kN (4365 lbf)": the unit and digits that suit the dimension. NaN prints "unknown".
std::string print_quantity(Quantity, Units = Units::si, int digits = -1);

}  // namespace fairlead
