#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

/// A unit to print in and its decimals, from the given size of the SI value up.
struct Style {
  double from;
  std::string_view unit;
  int decimals;
};

// Rows of one dimension from its greatest size down; the last begins at zero.
struct Styles {
  Dimension dimension;
  std::span<const Style> si, us;
};

constexpr double inch_m = 0.0254;  // exact
constexpr Style ratio[] = {{0, "", 3}};
constexpr Style probability[] = {{0, "", 4}};
constexpr Style length_si[] = {{0.1, "m", 3}, {0, "mm", 1}};
constexpr Style length_us[] = {{0, "in", 2}};  // of less than an inch; above to 1/16, from 0.1 m up feet and inches
constexpr Style area_si[] = {{0.01, "m2", 3}, {0, "mm2", 1}};
constexpr Style area_us[] = {{0.1, "ft2", 2}, {0, "in2", 3}};
constexpr Style angle[] = {{0, "deg", 2}};
constexpr Style mass_si[] = {{1, "kg", 1}, {0, "kg", 3}};
constexpr Style mass_us[] = {{0, "lb", 1}};
constexpr Style force_si[] = {{1e6, "MN", 2}, {1e4, "kN", 1}, {1e3, "kN", 2}, {100, "N", 0}, {0, "N", 1}};
constexpr Style force_us[] = {{100, "lbf", 0}, {0, "lbf", 1}};
constexpr Style moment_si[] = {{1e3, "kN m", 2}, {0, "N m", 1}};
constexpr Style moment_us[] = {{0, "lbf ft", 1}};
constexpr Style speed_si[] = {{0, "m/s", 2}};
constexpr Style speed_us[] = {{0, "mph", 1}};
constexpr Style acceleration_si[] = {{0, "m/s2", 2}};
constexpr Style acceleration_us[] = {{0, "ft/s2", 1}};
constexpr Style time[] = {{0, "s", 2}};
constexpr Style temperature_si[] = {{0, "°C", 1}};
constexpr Style temperature_us[] = {{0, "°F", 1}};
constexpr Style density_si[] = {{0, "kg/m3", 3}};
constexpr Style density_us[] = {{0, "lb/ft3", 4}};
constexpr Style mass_per_length_si[] = {{0, "kg/m", 3}};
constexpr Style mass_per_length_us[] = {{0, "lb/ft", 3}};
constexpr Style force_per_length_si[] = {{0, "N/m", 2}};
constexpr Style force_per_length_us[] = {{0, "lbf/ft", 3}};

constexpr Styles styles[] = {
    {Dimension::ratio, ratio, ratio},
    {Dimension::probability, probability, probability},
    {Dimension::length, length_si, length_us},
    {Dimension::area, area_si, area_us},
    {Dimension::angle, angle, angle},
    {Dimension::mass, mass_si, mass_us},
    {Dimension::force, force_si, force_us},
    {Dimension::rating, force_si, force_us},
    {Dimension::moment, moment_si, moment_us},
    {Dimension::speed, speed_si, speed_us},
    {Dimension::acceleration, acceleration_si, acceleration_us},
    {Dimension::time, time, time},
    {Dimension::temperature, temperature_si, temperature_us},
    {Dimension::density, density_si, density_us},
    {Dimension::mass_per_length, mass_per_length_si, mass_per_length_us},
    {Dimension::force_per_length, force_per_length_si, force_per_length_us},
};

// A number that was meant to be whole may lie a rounding above it.
double rounded_up(double number) { return std::ceil(number - 1e-9 * std::max(1.0, std::abs(number))); }

// -0.04 with one decimal is "-0.0" to fmt: a sign that says nothing.
std::string decimal(double number, int decimals, Rounding rounding) {
  const double scale = std::pow(10, decimals);
  if (rounding == Rounding::up) number = rounded_up(number * scale) / scale;
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.starts_with('-') && text.find_first_of("123456789") == text.npos) text.erase(0, 1);
  return text;
}

// A tape's sixteenths of an inch: "5/8", "1/16"; empty where it is none.
std::string fraction(int sixteenths) {
  int above = sixteenths, below = 16;
  for (; above > 0 && above % 2 == 0; above /= 2) below /= 2;
  return above > 0 ? fmt::format(" {}/{}", above, below) : "";
}

double sixteenths_of(double metres, Rounding rounding) {
  const double exact = std::abs(metres) / inch_m * 16;
  return rounding == Rounding::up && metres > 0 ? rounded_up(exact) : std::round(exact);
}

std::string feet_and_inches(double metres, Rounding rounding) {
  const double sixteenths = sixteenths_of(metres, rounding);
  const double feet = std::floor(sixteenths / 192), inches = std::floor(sixteenths / 16) - 12 * feet;
  const int rest = static_cast<int>(sixteenths - 16 * (12 * feet + inches));
  return fmt::format("{}{:.0f}'-{:.0f}{}\"", metres < 0 ? "-" : "", feet, inches, fraction(rest));
}

std::string whole_inches(double metres, Rounding rounding) {
  const double sixteenths = sixteenths_of(metres, rounding), inches = std::floor(sixteenths / 16);
  return fmt::format("{}{:.0f}{} in", metres < 0 ? "-" : "", inches,
                     fraction(static_cast<int>(sixteenths - 16 * inches)));
}

// Thermal expansion is read and tabled as so many millionths.
std::string millionths(double per_kelvin, std::string_view unit, int digits, Rounding rounding) {
  return fmt::format("{}e-6 {}", decimal(per_kelvin * 1e6, digits < 0 ? 1 : digits, rounding), unit);
}

// In one system of units, SI or US.
std::string print_one(Quantity quantity, bool us, int digits, Rounding rounding) {
  const double si = quantity.si;
  if (quantity.dimension == Dimension::length && us && std::abs(si) >= 0.1) return feet_and_inches(si, rounding);
  if (quantity.dimension == Dimension::length && us && std::abs(si) >= inch_m) return whole_inches(si, rounding);
  if (quantity.dimension == Dimension::per_temperature)
    return us ? millionths(si / 1.8, "/F", digits, rounding) : millionths(si, "/K", digits, rounding);
  for (const Styles& rows : styles)
    if (rows.dimension == quantity.dimension)
      for (const Style& style : us ? rows.us : rows.si)
        if (std::abs(si) >= style.from || style.from == 0) {
          const Unit* unit = find_unit(style.unit, quantity.dimension);
          const double number = unit ? (si - unit->offset) / unit->to_si : si;
          return decimal(number, digits < 0 ? style.decimals : digits, rounding) + (unit ? " " : "") +
                 std::string(style.unit);
        }
  return digits < 0 ? fmt::format("{:.6g}", si) : decimal(si, digits, rounding);
}

}  // namespace

std::string print_quantity(Quantity quantity, Units system, int digits, Rounding rounding) {
  if (std::isnan(quantity.si)) return "unknown";
  if (std::isinf(quantity.si)) return quantity.si > 0 ? "infinite" : "-infinite";
  const bool us_first = system == Units::us;
  const std::string first = print_one(quantity, us_first, digits, rounding);
  const std::string second = print_one(quantity, !us_first, digits, rounding);
  const bool both = system == Units::both || quantity.dimension == Dimension::rating;
  return both && first != second ? fmt::format("{} ({})", first, second) : first;
}

}  // namespace fairlead
