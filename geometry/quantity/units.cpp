#include "geometry/quantity/units.hpp"

#include <numbers>

namespace fairlead {
namespace {

constexpr double g = standard_gravity;
constexpr double lb = 0.45359237;  // kg, exact
constexpr double lbf = lb * g;
constexpr double foot = 0.3048, inch = 0.0254, mile = 1609.344;  // m, exact
constexpr double degree = std::numbers::pi / 180;

// No name begins with a digit: "31/K" must not have two readings. 0 F is 459.67 of its degrees above absolute zero.
constexpr Unit units[] = {
    {"%", Dimension::ratio, 0.01},
    {"m", Dimension::length, 1},
    {"mm", Dimension::length, 1e-3},
    {"cm", Dimension::length, 1e-2},
    {"km", Dimension::length, 1e3},
    {"in", Dimension::length, inch},
    {"\"", Dimension::length, inch},
    {"ft", Dimension::length, foot},
    {"'", Dimension::length, foot},
    {"yd", Dimension::length, 0.9144},
    {"mi", Dimension::length, mile},
    {"US survey ft", Dimension::length, 1200.0 / 3937.0},
    {"m2", Dimension::area, 1},
    {"mm2", Dimension::area, 1e-6},
    {"cm2", Dimension::area, 1e-4},
    {"in2", Dimension::area, inch* inch},
    {"ft2", Dimension::area, foot* foot},
    {"rad", Dimension::angle, 1},
    {"mrad", Dimension::angle, 1e-3},
    {"deg", Dimension::angle, degree},
    {"°", Dimension::angle, degree},
    {"gon", Dimension::angle, 0.9 * degree},
    {"kg", Dimension::mass, 1},
    {"g", Dimension::mass, 1e-3},
    {"t", Dimension::mass, 1e3},
    {"tonne", Dimension::mass, 1e3},
    {"lb", Dimension::mass, lb},
    {"N", Dimension::force, 1},
    {"daN", Dimension::force, 10},
    {"kN", Dimension::force, 1e3},
    {"MN", Dimension::force, 1e6},
    {"kgf", Dimension::force, g},
    {"lbf", Dimension::force, lbf},
    {"kip", Dimension::force, 1e3 * lbf},
    {"N", Dimension::rating, 1},
    {"daN", Dimension::rating, 10},
    {"kN", Dimension::rating, 1e3},
    {"MN", Dimension::rating, 1e6},
    {"lbf", Dimension::rating, lbf},
    {"kip", Dimension::rating, 1e3 * lbf},
    {"kgf", Dimension::rating, g},
    {"kg", Dimension::rating, g},
    {"t", Dimension::rating, 1e3 * g},
    {"tonne", Dimension::rating, 1e3 * g},
    {"lb", Dimension::rating, lbf},
    {"N m", Dimension::moment, 1},
    {"kN m", Dimension::moment, 1e3},
    {"lbf ft", Dimension::moment, lbf* foot},
    {"ft lb", Dimension::moment, lbf* foot},
    {"m/s", Dimension::speed, 1},
    {"km/h", Dimension::speed, 1 / 3.6},
    {"ft/s", Dimension::speed, foot},
    {"mph", Dimension::speed, mile / 3600},
    {"m/s2", Dimension::acceleration, 1},
    {"ft/s2", Dimension::acceleration, foot},
    {"g", Dimension::acceleration, g},
    {"s", Dimension::time, 1},
    {"ms", Dimension::time, 1e-3},
    {"min", Dimension::time, 60},
    {"h", Dimension::time, 3600},
    {"K", Dimension::temperature, 1},
    {"C", Dimension::temperature, 1, 273.15},
    {"°C", Dimension::temperature, 1, 273.15},
    {"F", Dimension::temperature, 5.0 / 9.0, 459.67 * 5 / 9},
    {"°F", Dimension::temperature, 5.0 / 9.0, 459.67 * 5 / 9},
    {"kg/m3", Dimension::density, 1},
    {"lb/ft3", Dimension::density, lb / (foot * foot * foot)},
    {"kg/m", Dimension::mass_per_length, 1},
    {"g/m", Dimension::mass_per_length, 1e-3},
    {"lb/ft", Dimension::mass_per_length, lb / foot},
    {"N/m", Dimension::force_per_length, 1},
    {"kN/m", Dimension::force_per_length, 1e3},
    {"lbf/ft", Dimension::force_per_length, lbf / foot},
    {"lbf/in", Dimension::force_per_length, lbf / inch},
    {"/K", Dimension::per_temperature, 1},
    {"/C", Dimension::per_temperature, 1},
    {"/F", Dimension::per_temperature, 1.8},
    {"%", Dimension::probability, 0.01},
};

}  // namespace

std::span<const Unit> all_units() { return units; }

const Unit* find_unit(std::string_view name, Dimension dimension) {
  for (const Unit& unit : all_units())
    if (unit.dimension == dimension && unit.name == name) return &unit;
  return nullptr;
}

std::string_view dimension_words(Dimension dimension) {
  switch (dimension) {
    case Dimension::none:
      return "a number";
    case Dimension::ratio:
      return "a ratio";
    case Dimension::length:
      return "a length";
    case Dimension::area:
      return "an area";
    case Dimension::angle:
      return "an angle";
    case Dimension::mass:
      return "a mass";
    case Dimension::force:
      return "a force";
    case Dimension::rating:
      return "a load rating";
    case Dimension::moment:
      return "a moment";
    case Dimension::speed:
      return "a speed";
    case Dimension::acceleration:
      return "an acceleration";
    case Dimension::time:
      return "a time";
    case Dimension::temperature:
      return "a temperature";
    case Dimension::density:
      return "a density";
    case Dimension::mass_per_length:
      return "a mass per length";
    case Dimension::force_per_length:
      return "a force per length";
    case Dimension::per_temperature:
      return "a thermal expansion";
    case Dimension::probability:
      return "a probability";
  }
  return "a number";
}

bool bare_number_allowed(Dimension dimension) {
  switch (dimension) {
    case Dimension::none:
    case Dimension::ratio:
    case Dimension::probability:
    case Dimension::length:
    case Dimension::mass:
    case Dimension::force:
    case Dimension::rating:
    case Dimension::speed:
    case Dimension::time:
    case Dimension::mass_per_length:
      return true;
    default:
      return false;
  }
}

}  // namespace fairlead
