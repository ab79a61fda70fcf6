#include "report/words/numbers.hpp"

#include <fmt/format.h>

namespace fairlead::words {

bool in_both(Dimension dimension, const Style& style) {
  return style.units == Units::both && (dimension == Dimension::force || dimension == Dimension::rating);
}

Units one_of(const Style& style) { return style.units == Units::us ? Units::us : Units::si; }

std::string shown(Quantity quantity, const Style& style) {
  return print_quantity(quantity, in_both(quantity.dimension, style) ? Units::both : one_of(style));
}

std::string travel(double m, const Style& style) {
  if (style.units == Units::us) return print_quantity({m, Dimension::length}, Units::us);
  return fmt::format("{:.3f} m", m == 0 ? 0.0 : m);  // no "-0.000"
}

std::string shown(const Layout& layout, Point3 p, const Style& style) {
  const auto& axes = layout.site.axes;
  const auto length = [&](double m) { return shown(m, Dimension::length, style); };
  return fmt::format("{} {}, {} {}, {} {}", axes[0], length(p.x), axes[1], length(p.y), axes[2], length(p.z));
}

}  // namespace fairlead::words
