// The one table of units: text to SI and SI to text.
#pragma once

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
/// Every unit there is, a dimension's own together, its SI unit first.
std::span<const Unit> all_units();

/// The unit of this name and dimension, or null.
const Unit* find_unit(std::string_view name, Dimension);

/// "a length", "an angle": to be read after "is".
std::string_view dimension_words(Dimension);

/// Why a text is no quantity of the wanted dimension, and what to write instead.
struct UnitError {
  std::string message, instead;
  unsigned from{}, length{};  ///< the offending part of the text, in bytes
};

/// Reads "1.5 deg", "12 ft 6 in", "12'-6 1/2\"", "43 km/h", "4 %", "2700 lb" (a rating: as a force), or a bare number
/// where one may stand. The sign of feet with inches holds for both. The value is finite, and no temperature lies
/// below absolute zero.
tl::expected<double, UnitError> read_quantity(std::string_view text, Dimension);

/// The same of a number without a unit, as the file has it.
tl::expected<double, UnitError> read_bare_number(double number, Dimension);

/// True where a bare number may stand for this dimension (taken as SI).
bool bare_number_allowed(Dimension);

enum class Units { si, us, both };

/// up: never below the number, for what must be reached at least.
enum class Rounding { nearest, up };

/// "12.345 m", "1.50 deg", "19.4 kN (4365 lbf)": the unit and digits that suit the dimension and the size; `digits`
/// decimals where it is not negative. US lengths from an inch up are inches, from 0.1 m up feet and inches, to 1/16
/// whatever `digits`. A rating always stands in both. NaN prints "unknown", infinity "infinite". What is printed of one
/// unit reads back to within half its last digit, rounded up within one.
std::string print_quantity(Quantity, Units = Units::si, int digits = -1, Rounding = Rounding::nearest);

}  // namespace fairlead
