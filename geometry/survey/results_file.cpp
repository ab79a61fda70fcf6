#include "geometry/survey/results_file.hpp"

#include <array>
#include <utility>

namespace fairlead {
namespace {

/// No zip line is longer, none carries more, nobody waits longer.
constexpr double far_m = 1e5, heaviest_kg = 1e4, strongest_N = 1e6, fastest_m_per_s = 100, longest_s = 3600;
constexpr double coldest_K = 273.15 - 90, warmest_K = 273.15 + 90, most_counted = 1000;

constexpr std::array<QuantityKind, trialled> kinds{{{"mass", Dimension::mass, 1e-3, heaviest_kg},
                                                    {"release", Dimension::length, -far_m, far_m},
                                                    {"temperature", Dimension::temperature, coldest_K, warmest_K},
                                                    {"wind", Dimension::speed, -fastest_m_per_s, fastest_m_per_s},
                                                    {"arrival_speed", Dimension::speed, 0, fastest_m_per_s},
                                                    {"stopping_travel", Dimension::length, 0, far_m},
                                                    {"extension", Dimension::length, 0, far_m},
                                                    {"line_tension", Dimension::force, 0, strongest_N},
                                                    {"pull_on", Dimension::force, -strongest_N, strongest_N},
                                                    {"let_back", Dimension::force, -strongest_N, strongest_N},
                                                    {"return_time", Dimension::time, 0, longest_s},
                                                    {"rest_shift", Dimension::length, -far_m, far_m},
                                                    {"returned", Dimension::none, 0, 1},
                                                    {"touches", Dimension::none, 0, most_counted},
                                                    {"slack", Dimension::none, 0, most_counted},
                                                    {"backup_reached", Dimension::none, 0, most_counted}}};

constexpr QuantitiesFormat format{
    .item = "test", .row = "result", .item_hint = "write the test's name in the plan: H1, M1, ...", .kinds = kinds};

}  // namespace

const QuantityKind& kind_of(Trialled what) { return kinds.at(static_cast<std::size_t>(what)); }

tl::expected<std::vector<TrialRow>, PointsErrors> read_trial_results(std::string_view text) {
  auto rows = read_quantities(text, format);
  if (!rows) return tl::unexpected<PointsErrors>(std::move(rows.error()));
  std::vector<TrialRow> all;
  all.reserve(rows->size());
  for (QuantityRow& row : *rows) {
    const auto what = static_cast<Trialled>(row.quantity);
    all.push_back({std::move(row), what});
  }
  return all;
}

}  // namespace fairlead
