#include "geometry/mainline/stringing.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "geometry/mainline/piece.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::mainline {
namespace {

double greatest_sag_m(const Cable& cable, const Piece& piece) {
  const double slope = cable.rise_m / cable.span_m;
  const double parallel_m = (piece.V_N + piece.H_N * slope) / cable.weight_N_per_m;
  const Stretch to = stretch(parallel_m, piece.H_N, piece.V_N, cable.weight_N_per_m, cable.compliance_per_N);
  return slope * to.x + to.drop;
}

/// From one support to the other. The speed in metres of unstretched line is sqrt(T / (m (1 + T/EA))).
double passage_s(const Cable& cable, const Piece& piece) {
  const double kg_per_m = cable.weight_N_per_m / standard_gravity;
  const auto slowness = [&](double s_m) {
    const double T = std::hypot(piece.H_N, piece.V_N - cable.weight_N_per_m * s_m);
    return std::sqrt(kg_per_m * (1 / T + cable.compliance_per_N));
  };
  return boost::math::quadrature::gauss<double, 30>::integrate(slowness, 0.0, cable.unstretched_m);
}

Solved<Strung> strung(const Cable& cable) {
  const auto bare = hang(cable);
  if (!bare) return tl::unexpected(bare.error());
  const SupportForces f = support_forces(cable, *bare);
  const Piece& piece = bare->pieces[0];
  return Strung{.cable = cable,
                .horizontal_N = piece.H_N,
                .start_tension_N = std::hypot(f.start_x_N, f.start_z_N),
                .end_tension_N = std::hypot(f.end_x_N, f.end_z_N),
                .sag_m = mid_span_sag(cable, *bare),
                .greatest_sag_m = greatest_sag_m(cable, piece),
                .three_returns_s = 6 * passage_s(cable, piece)};
}

Solved<Stringing> strung_at(const Inputs& in, const MainLine& line, double temperature_K) {
  Stringing row{.temperature_K = temperature_K, .as_measured = temperature_K == in.measured_K};
  bool first = true;
  for (const State& state : line.states) {
    if (state.weather != Weather::measured) continue;
    const auto here = strung(at_temperature(state.cable, in.expansion_per_K, temperature_K - in.measured_K));
    if (!here) return tl::unexpected(here.error());
    if (first || here->horizontal_N > row.tightest.horizontal_N) row.tightest = *here;
    if (first || here->horizontal_N < row.slackest.horizontal_N) row.slackest = *here;
    first = false;
  }
  return row;
}

std::vector<double> temperatures_K(const Inputs& in) {
  constexpr double freezing_K = 273.15, step_K = 5, same_K = 1e-6;
  const double first = std::floor((in.coldest_K - freezing_K + same_K) / step_K),
               last = std::ceil((in.warmest_K - freezing_K - same_K) / step_K);
  std::vector<double> all{in.measured_K};
  for (double fives = first; fives <= last; ++fives)
    if (const double T = freezing_K + step_K * fives; std::abs(T - in.measured_K) > same_K) all.push_back(T);
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace

Solved<std::vector<Stringing>> stringing(const Inputs& in, const MainLine& line) {
  std::vector<Stringing> rows;
  for (const double temperature_K : temperatures_K(in)) {
    const auto row = strung_at(in, line, temperature_K);
    if (!row) return tl::unexpected(row.error());
    rows.push_back(*row);
  }
  return rows;
}

}  // namespace fairlead::mainline
