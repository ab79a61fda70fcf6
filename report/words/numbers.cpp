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

namespace {

/// "2 5/8", "-5/16", "0": inches of a tape.
std::string in_sixteenths(int sixteenths) {
  int above = std::abs(sixteenths) % 16, below = 16;
  for (; above > 0 && above % 2 == 0; above /= 2) below /= 2;
  const int inches = std::abs(sixteenths) / 16;
  const std::string fraction = above > 0 ? fmt::format("{}/{}", above, below) : "";
  const std::string whole = inches > 0 || above == 0 ? fmt::format("{}", inches) : "";
  return (sixteenths < 0 ? "-" : "") + whole + (whole.empty() || fraction.empty() ? "" : " ") + fraction;
}

constexpr double inch_m = 0.0254;

}  // namespace

Alike::Alike(Quantity greatest, const Style& style, bool fine) : dimension_(greatest.dimension), style_(single(style)) {
  if (!std::isfinite(greatest.si)) return;
  if (in_tenths(greatest, style_)) {
    unit_ = find_unit("ft", Dimension::length), name_ = tenths_unit, decimals_ = 2;
    return;
  }
  const std::string text = print_quantity(greatest, style_.units);
  const bool inches = dimension_ == Dimension::length && style_.units == Units::us;
  feet_and_inches_ = inches && text.ends_with('"');
  sixteenths_ = inches && !feet_and_inches_ && std::abs(greatest.si) >= inch_m;
  const std::size_t blank = sixteenths_ ? text.rfind(' ') : text.find(' ');
  if (feet_and_inches_ || blank == std::string::npos) return;
  unit_ = find_unit(text.substr(blank + 1), dimension_);
  if (!unit_) return;
  name_ = unit_->name;
  const std::size_t point = text.substr(0, blank).find('.');
  decimals_ = point == std::string::npos ? 0 : static_cast<int>(blank - point - 1);
  // Beside 20 kN a load of 0.12 kN still has to be read.
  if (name_ == "kN") decimals_ = 2;
  if (fine && (name_ == "kN" || decimals_ == 0)) ++decimals_;
}

std::string Alike::number(double si) const {
  const Quantity quantity{si, dimension_};
  if (!std::isfinite(si)) return print_quantity(quantity, style_.units);
  const int sixteenths = feet_and_inches_ || sixteenths_ ? static_cast<int>(std::lround(si / inch_m * 16)) : 0;
  if (sixteenths_) return in_sixteenths(sixteenths);
  if (feet_and_inches_ && std::abs(sixteenths) < 12 * 16)
    return fmt::format("{}0'-{}\"", sixteenths < 0 ? "-" : "", in_sixteenths(std::abs(sixteenths)));
  if (!unit_) return words::shown(quantity, style_);
  const std::string text = fmt::format("{:.{}f}", (si - unit_->offset) / unit_->to_si, decimals_);
  return text.find_first_of("123456789") == std::string::npos ? fmt::format("{:.{}f}", 0.0, decimals_) : text;
}

std::string Alike::shown(double si) const {
  return !unit_ || !std::isfinite(si) ? number(si) : fmt::format("{} {}", number(si), name_);
}

bool small_beside(Quantity greatest, Quantity small) {
  constexpr double small_N = 95, nothing_N = 0.5;
  return (greatest.dimension == Dimension::force || greatest.dimension == Dimension::rating) &&
         std::abs(greatest.si) >= small_N && std::abs(small.si) > nothing_N && std::abs(small.si) < small_N;
}

Quantity greater(Quantity a, Quantity b) {
  if (!std::isfinite(b.si)) return a;
  return !std::isfinite(a.si) || std::abs(b.si) > std::abs(a.si) ? b : a;
}

std::string travel(double m, const Style& style) {
  constexpr double as_a_way_m = 1;  // a travel of nothing reads as one of ten metres does
  if (style.units == Units::us)
    return Alike(greater({as_a_way_m, Dimension::length}, {m, Dimension::length}), style).shown(m);
  return fmt::format("{:.3f} m", m == 0 ? 0.0 : m);  // no "-0.000"
}

std::string allowance(double m, const Style& style) {
  // A number that was rounded down to whole ones may lie a rounding below it.
  constexpr double rounding = 1e-9;
  if (style.units != Units::us) return fmt::format("{:.0f} mm", std::floor(m * 1000 + rounding));
  return in_sixteenths(static_cast<int>(std::floor(m / inch_m * 16 + rounding))) + " in";
}

std::string shown(const Layout& layout, Point3 p, const Style& style) {
  const auto& axes = layout.site.axes;
  const auto length = [&](double m) { return shown(m, Dimension::length, style); };
  return fmt::format("{} {}, {} {}, {} {}", axes[0], length(p.x), axes[1], length(p.y), axes[2], length(p.z));
}

}  // namespace fairlead::words
