#include "report/words/numbers.hpp"

#include <fmt/format.h>

namespace fairlead::words {

std::string shown(Quantity quantity, const Style& style) {
  const bool force = quantity.dimension == Dimension::force || quantity.dimension == Dimension::rating;
  return print_quantity(quantity, style.units == Units::both && !force ? Units::si : style.units);
}

std::string shown(const Layout& layout, Point3 p, const Style& style) {
  const auto& axes = layout.site.axes;
  const auto length = [&](double m) { return shown(m, Dimension::length, style); };
  return fmt::format("{} {}, {} {}, {} {}", axes[0], length(p.x), axes[1], length(p.y), axes[2], length(p.z));
}

}  // namespace fairlead::words
