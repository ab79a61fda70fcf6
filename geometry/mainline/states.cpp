#include "geometry/mainline/states.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::mainline {
namespace {

/// One metre between knots: over 200 m the quintic then follows the solved path to 1e-7 m.
int knots_over(double length_m) { return std::max(16, static_cast<int>(std::ceil(length_m)) + 1); }

/// The ends of a range, one where both are equal.
std::vector<double> ends(const Span& span) {
  if (span.low == span.high) return {span.low};
  return {span.low, span.high};
}

Solved<Cable> as_measured(const Inputs& in, double compliance_per_N, double measure) {
  Cable cable{in.span_m, in.rise_m, 0, in.mass_kg_per_m * standard_gravity, compliance_per_N};
  Solved<double> length = unsolved("the main line's length is not known");
  switch (in.known) {
    case Inputs::Known::unstretched_length:
      length = measure;
      break;
    case Inputs::Known::sag:
      length = length_from_sag(in.span_m, in.rise_m, cable.weight_N_per_m, compliance_per_N, measure);
      break;
    case Inputs::Known::tension:
      length =
          length_from_tension(in.span_m, in.rise_m, cable.weight_N_per_m, compliance_per_N, measure, in.measured_at);
      break;
  }
  if (!length) return tl::unexpected(length.error());
  cable.unstretched_m = *length;
  return cable;
}

Solved<State> state_of(const Cable& measured, const Inputs& in, Weather weather, bool stiff, bool taut) {
  State state;
  state.weather = weather;
  state.stiff = stiff;
  state.taut = taut;
  state.temperature_K = weather == Weather::measured ? in.measured_K
                        : weather == Weather::cold   ? in.coldest_K
                                                     : in.warmest_K;
  state.cable = at_temperature(measured, in.expansion_per_K, state.temperature_K - in.measured_K);
  const auto bare = hang(state.cable);
  if (!bare) return tl::unexpected(bare.error());
  state.bare = *bare;
  state.sag_m = mid_span_sag(state.cable, *bare);
  const SupportForces f = support_forces(state.cable, *bare);
  state.start_tension_N = std::hypot(f.start_x_N, f.start_z_N);
  state.end_tension_N = std::hypot(f.end_x_N, f.end_z_N);
  return state;
}

}  // namespace

Solved<MainLine> solve(const Inputs& in) {
  MainLine line;
  // A greater tension is a tighter line; a greater length or sag a slacker one.
  const bool high_is_taut = in.known == Inputs::Known::tension;
  for (const Weather weather : {Weather::measured, Weather::cold, Weather::warm})
    for (const double compliance : ends(in.compliance_per_N))
      for (const double measure : ends(in.measure)) {
        const bool stiff = compliance == in.compliance_per_N.low;
        const bool taut = measure == (high_is_taut ? in.measure.high : in.measure.low);
        const auto measured = as_measured(in, compliance, measure);
        if (!measured) return tl::unexpected(measured.error());
        const auto state = state_of(*measured, in, weather, stiff, taut);
        if (!state) return tl::unexpected(state.error());
        line.states.push_back(*state);
      }
  const int knots = knots_over(in.path_to_m - in.path_from_m);
  for (std::size_t s = 0; s < line.states.size(); ++s) {
    if (line.states[s].weather == Weather::measured) continue;
    for (const Loading loading : {Loading::empty, Loading::lightest, Loading::heaviest}) {
      const double mass_kg = loading == Loading::empty      ? in.empty_kg
                             : loading == Loading::lightest ? in.lightest_kg
                                                            : in.heaviest_kg;
      auto path = Path::solve(line.states[s].cable, mass_kg * standard_gravity, in.path_from_m, in.path_to_m, knots);
      if (!path) return tl::unexpected(path.error());
      StatePath on{static_cast<int>(s), loading, std::move(*path), {}};
      on.rest_points_m = on.path.rest_points_m();
      line.paths.push_back(std::move(on));
    }
  }
  return line;
}

}  // namespace fairlead::mainline
