#include "geometry/survey/measurements_file.hpp"

#include <array>
#include <numbers>
#include <utility>

namespace fairlead {
namespace {

constexpr double pi = std::numbers::pi;
/// No tape and no zip line is longer, no chainage or level farther out.
constexpr double far_m = 1e5;
constexpr double coldest_K = 273.15 - 90, warmest_K = 273.15 + 90;

constexpr std::array<MeasurandKind, measurands> kinds{{{"tension", Dimension::force, 1, 1e7},
                                                       {"sag", Dimension::length, 1e-3, far_m},
                                                       {"temperature", Dimension::temperature, coldest_K, warmest_K},
                                                       {"rest_extension", Dimension::length, 0, far_m},
                                                       {"rest", Dimension::length, -far_m, far_m},
                                                       {"length", Dimension::length, 1e-3, far_m},
                                                       {"bearing", Dimension::angle, 0, 2 * pi},
                                                       {"tilt", Dimension::angle, -pi / 2, pi / 2},
                                                       {"platform_from", Dimension::length, -far_m, far_m},
                                                       {"platform_to", Dimension::length, -far_m, far_m},
                                                       {"platform_level", Dimension::length, -far_m, far_m},
                                                       {"engages", Dimension::length, -far_m, far_m},
                                                       {"distance", Dimension::length, 1e-3, far_m},
                                                       {"rise", Dimension::length, -far_m, far_m},
                                                       {"diameter", Dimension::length, 1e-5, 10}}};

constexpr QuantitiesFormat format{
    .item = "item",
    .row = "measurement",
    .item_hint = "write the id of what was measured, main_line, brake_unit, or two marks like \"P1 to A3\"",
    .kinds = kinds};

}  // namespace

const MeasurandKind& kind_of(Measurand measurand) { return kinds.at(static_cast<std::size_t>(measurand)); }

tl::expected<std::vector<Measurement>, PointsErrors> read_measurements(std::string_view text) {
  auto rows = read_quantities(text, format);
  if (!rows) return tl::unexpected<PointsErrors>(std::move(rows.error()));
  std::vector<Measurement> all;
  all.reserve(rows->size());
  for (QuantityRow& row : *rows) {
    const auto measurand = static_cast<Measurand>(row.quantity);
    all.push_back({std::move(row), measurand});
  }
  return all;
}

}  // namespace fairlead
