#include "report/words/numbers.hpp"

#include <fmt/format.h>

#include <cmath>

namespace fairlead::words {

bool in_both(Dimension dimension, const Style& style) {
  return style.units == Units::both && (dimension == Dimension::force || dimension == Dimension::rating);
}

Units one_of(const Style& style) { return style.units == Units::us ? Units::us : Units::si; }

Style single(const Style& style) { return {one_of(style), style.tenths}; }

bool in_tenths(Quantity quantity, const Style& style) {
  constexpr double least_m = 0.1;  // below it inches, as print_quantity has them
  return style.tenths && one_of(style) == Units::us && quantity.dimension == Dimension::length &&
         std::abs(quantity.si) >= least_m && std::isfinite(quantity.si);
}

std::string_view si_unit(Dimension dimension) {
  switch (dimension) {
    case Dimension::none:
    case Dimension::ratio:
    case Dimension::probability:
      return "1";
    case Dimension::length:
      return "m";
    case Dimension::area:
      return "m2";
    case Dimension::angle:
      return "rad";
    case Dimension::mass:
      return "kg";
    case Dimension::force:
    case Dimension::rating:
      return "N";
    case Dimension::moment:
      return "N m";
    case Dimension::speed:
      return "m/s";
    case Dimension::acceleration:
      return "m/s2";
    case Dimension::time:
      return "s";
    case Dimension::temperature:
      return "K";
    case Dimension::density:
      return "kg/m3";
    case Dimension::mass_per_length:
      return "kg/m";
    case Dimension::force_per_length:
      return "N/m";
    case Dimension::per_temperature:
      return "1/K";
  }
  return "1";
}

std::string shown(Quantity quantity, const Style& style, Rounding rounding) {
  if (in_tenths(quantity, style))
    return fmt::format("{:.2f} {}", quantity.si / foot_m + 0.01 * raised(rounding), tenths_unit);
  return print_quantity(quantity, in_both(quantity.dimension, style) ? Units::both : one_of(style), -1, rounding);
}

std::string travel(double m, const Style& style) {
  if (style.units == Units::us) return shown(m, Dimension::length, style);
  return fmt::format("{:.3f} m", m == 0 ? 0.0 : m);  // no "-0.000"
}

std::string allowance(double m, const Style& style) {
  // A number that was rounded down to whole ones may lie a rounding below it.
  constexpr double rounding = 1e-9;
  if (style.units != Units::us) return fmt::format("{:.0f} mm", std::floor(m * 1000 + rounding));
  const int sixteenths = static_cast<int>(std::floor(m / 0.0254 * 16 + rounding));
  int above = sixteenths % 16, below = 16;
  for (; above > 0 && above % 2 == 0; above /= 2) below /= 2;
  const std::string fraction = above > 0 ? fmt::format("{}/{}", above, below) : "";
  const std::string whole = sixteenths >= 16 || above == 0 ? fmt::format("{}", sixteenths / 16) : "";
  return whole + (whole.empty() || fraction.empty() ? "" : " ") + fraction + " in";
}

std::string shown(const Layout& layout, Point3 p, const Style& style) {
  const auto& axes = layout.site.axes;
  const auto length = [&](double m) { return shown(m, Dimension::length, style); };
  return fmt::format("{} {}, {} {}, {} {}", axes[0], length(p.x), axes[1], length(p.y), axes[2], length(p.z));
}

}  // namespace fairlead::words
