// Any text is a finite quantity, or is refused in words; what is printed of a quantity reads back. The first byte
// chooses the dimension.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "geometry/quantity/units.hpp"

namespace {

using namespace fairlead;

void require(bool holds) {
  if (!holds) std::abort();
}

// How far a value may move when it is printed with six decimals and read back: half the last digit of the greatest
// unit of its dimension, or 1/32 in, and the rounding of the arithmetic (300: offsets of the temperature scales).
double read_back_error(double si, Dimension dimension) {
  double greatest_unit = dimension == Dimension::length ? 0.0254 / 32 / 0.5e-6 : 1;
  for (const Unit& unit : all_units())
    if (unit.dimension == dimension) greatest_unit = std::max(greatest_unit, unit.to_si);
  return 0.5e-6 * greatest_unit + 1e-15 * (std::abs(si) + 300);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto dimension = static_cast<Dimension>(data[0] % (static_cast<int>(Dimension::probability) + 1));
  const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
  const auto read = read_quantity(text, dimension);
  if (!read) {
    const UnitError& error = read.error();
    require(!error.message.empty() && !error.instead.empty());
    require(error.from <= text.size() && error.length <= text.size() - error.from);
    return 0;
  }
  require(std::isfinite(*read));
  if (dimension == Dimension::temperature) require(*read >= 0);
  // A rating prints in both systems, which is not one quantity; beyond 1e15 the last digit is no longer its own.
  if (dimension == Dimension::rating || std::abs(*read) > 1e15) return 0;
  for (const Units system : {Units::si, Units::us}) {
    const auto again = read_quantity(print_quantity({*read, dimension}, system, 6), dimension);
    require(again.has_value() || dimension == Dimension::temperature);  // 0 K in F may round below absolute zero
    if (again) require(std::abs(*again - *read) <= read_back_error(*read, dimension));
  }
  return 0;
}
