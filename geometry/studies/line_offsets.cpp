#include "geometry/studies/line_offsets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace fairlead {
namespace {

/// A support itself is on the line: what rounding leaves of metres hundreds of kilometres from the datum.
constexpr double rounding_m = 1e-6;

/// Unsolved beyond a support.
Solved<double> on_span(const Frame& frame, double x_m) {
  const auto beyond = [](double m, const char* which) {
    return unsolved(fmt::format("it stands {:.3f} m beyond the main line's {} support", m, which), m);
  };
  if (!std::isfinite(x_m)) return unsolved("its place along the main line is no number");
  if (x_m < -rounding_m) return beyond(-x_m, "upstream");
  if (x_m > frame.span_m + rounding_m) return beyond(x_m - frame.span_m, "landing");
  return std::min(std::max(x_m, 0.0), frame.span_m);
}

/// Simpson's rule over the slope, whose arc is smooth between the supports. The error of a strip is its length times
/// (strip / c)^4 / 2880 at most, c = H / w: a taut line's c is longer than its span, which leaves 1e-12 of the length.
double length_along_m(const mainline::State& state, double from_m, double to_m) {
  constexpr int strips = 256;
  const double half = (to_m - from_m) / (2 * strips);
  double sum = 0;
  for (int i = 0; i <= 2 * strips; ++i) {
    const double slope = mainline::line_at(state.cable, state.bare, std::min(from_m + i * half, to_m)).slope;
    const double weight = i == 0 || i == 2 * strips ? 1 : i % 2 == 1 ? 4 : 2;
    sum += weight * std::hypot(1, slope);
  }
  return sum * half / 3;
}

/// What a number of the line is in all its states of one weather; where none is solved or it is no number, why not.
template <class Get>
Solved<Range> range_over(const mainline::MainLine& line, mainline::Weather weather, const char* what, const Get& get) {
  Range range{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const mainline::State& state : line.states) {
    if (state.weather != weather) continue;
    const double m = get(state);
    if (!std::isfinite(m)) return unsolved(fmt::format("the bare main line's {} there is no number", what));
    range = {std::min(range.low, m), std::max(range.high, m)};
  }
  if (!(range.low <= range.high)) return unsolved("the main line was not solved in that weather");
  return range;
}

}  // namespace

Solved<LineOffset> offset_from_line(const Rig& rig, Point3 at, mainline::Weather weather) {
  const Solved<mainline::MainLine>& line = *rig.main_line.result;
  if (!line) return tl::unexpected(line.error());
  if (!std::isfinite(at.x + at.y + at.z)) return unsolved("its place is no number");
  const Frame& frame = rig.frame;
  const auto x_m = on_span(frame, dot(at - frame.origin, frame.along));
  if (!x_m) return tl::unexpected(x_m.error());

  LineOffset out;
  const auto height_m = range_over(*line, weather, "height", [&](const mainline::State& state) {
    out.temperature_K = state.temperature_K;
    return mainline::line_at(state.cable, state.bare, *x_m).z_m;
  });
  if (!height_m) return tl::unexpected(height_m.error());
  out.up_m = dot(at - frame.origin, frame.up) - (height_m->low + height_m->high) / 2;
  out.across_m = frame.across_m(at);
  out.from_rest_m = frame.chainage_m(at) - rig.layout.brake_trolley.rest_m;
  out.open_m = (height_m->high - height_m->low) / 2;
  return out;
}

Solved<double> taped_along_line_m(const Rig& rig, double from_chainage_m, double to_chainage_m) {
  const Solved<mainline::MainLine>& line = *rig.main_line.result;
  if (!line) return tl::unexpected(line.error());
  const Frame& frame = rig.frame;
  const auto from_m = on_span(frame, from_chainage_m - frame.chainage_of_origin_m);
  const auto to_m = on_span(frame, to_chainage_m - frame.chainage_of_origin_m);
  if (!from_m) return tl::unexpected(from_m.error());
  if (!to_m) return tl::unexpected(to_m.error());
  const auto length_m = range_over(*line, mainline::Weather::measured, "length", [&](const mainline::State& state) {
    return length_along_m(state, std::min(*from_m, *to_m), std::max(*from_m, *to_m));
  });
  if (!length_m) return tl::unexpected(length_m.error());
  return (length_m->low + length_m->high) / 2;
}

SupportOffset offset_from_support(const Rig& rig, Point3 at) {
  const Frame& frame = rig.frame;
  const MainLine& line = rig.layout.main_line;
  SupportOffset out;
  out.support = dot(at - frame.origin, frame.along) < frame.span_m / 2 ? line.from : line.to;
  const Point3 support = rig.layout.anchors.at(static_cast<std::size_t>(out.support)).position;
  out.offset.up_m = dot(at - support, frame.up);
  out.offset.across_m = frame.across_m(at);
  out.offset.from_rest_m = frame.chainage_m(at) - rig.layout.brake_trolley.rest_m;
  return out;
}

}  // namespace fairlead
