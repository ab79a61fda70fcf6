#include "geometry/studies/braking_chart.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/studies/rider_tracks.hpp"

namespace fairlead {
namespace {

/// Between nine speeds a curve leaves its chords by a hundredth of a metre.
constexpr int masses = 5, speeds = 9;
constexpr double slower = 0.6, faster = 1.2, beyond_measured = 0.05;

/// One rider in the weather of the chart.
struct Case {
  arrest::Track track;
  arrest::Bodies bodies;
  arrest::Unit unit;
  double acceleration_m_per_s2{};

  BrakingChart::Point at(double speed_m_per_s) const {
    const auto motion = arrest::solve_motion(
        track, bodies, unit, {.speed_m_per_s = speed_m_per_s, .acceleration_m_per_s2 = acceleration_m_per_s2});
    if (!motion) return {.speed_m_per_s = speed_m_per_s};
    return {speed_m_per_s, motion->outcome, motion->stop_travel_m};
  }
};

/// What the chart shows whatever was measured.
mainline::Span common_speeds(const BrakingChart& chart) {
  return {slower * chart.arrival_m_per_s.low, faster * chart.arrival_m_per_s.high};
}

/// Rising: even ones, no farther apart where the chart reaches farther, and the arrivals themselves.
std::vector<double> speeds_of(const BrakingChart& chart) {
  std::vector<double> all{chart.arrival_m_per_s.low, chart.arrival_m_per_s.high};
  const mainline::Span& range = chart.speed_m_per_s;
  const mainline::Span common = common_speeds(chart);
  const int steps =
      static_cast<int>(std::ceil((speeds - 1) * (range.high - range.low) / (common.high - common.low) - 1e-9));
  for (int i = 0; i <= steps; ++i) all.push_back(range.low + (range.high - range.low) * i / steps);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

std::vector<BrakingChart::Point> curve_of(const Case& rider, const std::vector<double>& at) {
  std::vector<BrakingChart::Point> points;
  for (const double speed_m_per_s : at) {
    const BrakingChart::Point next = rider.at(speed_m_per_s);
    if (!points.empty() && next.outcome != points.back().outcome) {
      BrakingChart::Point low = points.back(), high = next;
      while (high.speed_m_per_s - low.speed_m_per_s > BrakingChart::speed_step_m_per_s) {
        const BrakingChart::Point middle = rider.at((low.speed_m_per_s + high.speed_m_per_s) / 2);
        (middle.outcome == low.outcome ? low : high) = middle;
      }
      if (low.speed_m_per_s > points.back().speed_m_per_s) points.push_back(low);
      if (high.speed_m_per_s < next.speed_m_per_s) points.push_back(high);
    }
    points.push_back(next);
  }
  return points;
}

/// The corner of the other extreme rider that is like this one in everything else; -1 where there is none.
int counterpart(const arrest::Arrest& arrest, const mainline::MainLine& main_line, arrest::Corner corner,
                bool heaviest) {
  const auto state_of = [&](int path) { return main_line.paths[static_cast<std::size_t>(path)].state; };
  for (std::size_t c = 0; c < arrest.corners.size(); ++c) {
    const arrest::Corner& other = arrest.corners[c].corner;
    if (other.heaviest != heaviest || state_of(other.path) != state_of(corner.path)) continue;
    corner.path = other.path;
    corner.heaviest = heaviest;
    if (other == corner) return static_cast<int>(c);
  }
  return -1;
}

Solved<std::vector<Case>> cases_of(const Rig& rig, const arrest::Corner& corner, const Work& work) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const auto state = static_cast<std::size_t>(main_line.paths[static_cast<std::size_t>(corner.path)].state);
  const int ends[] = {counterpart(*rig.arrest.solved(), main_line, corner, false),
                      counterpart(*rig.arrest.solved(), main_line, corner, true)};
  if (ends[0] < 0 || ends[1] < 0) return unsolved("no corner of the other extreme rider is like the governing one");
  const auto path_of = [&](int end) { return rig.arrest.solved()->corners[static_cast<std::size_t>(end)].corner.path; };

  std::vector<double> between_kg;
  const double step_kg = (in.rider_kg[1] - in.rider_kg[0]) / (masses - 1);
  for (int m = 1; m + 1 < masses && step_kg > 0; ++m) between_kg.push_back(std::round(in.rider_kg[0] + m * step_kg));
  auto tracks = rider_tracks(rig, corner.path, between_kg, work);
  if (!tracks) return tl::unexpected(tracks.error());
  for (const bool heaviest : {false, true}) {
    auto track = arrest::track_of(in, path_of(ends[heaviest ? 1 : 0]), *rig.reeving.inputs, *rig.reeving.solved());
    if (!track) return tl::unexpected(track.error());
    tracks->insert(heaviest ? tracks->end() : tracks->begin(), std::move(*track));
  }
  std::vector<double> rider_kg{in.rider_kg[0]};
  rider_kg.insert(rider_kg.end(), between_kg.begin(), between_kg.end());
  if (step_kg > 0) rider_kg.push_back(in.rider_kg[1]);

  std::vector<Case> cases;
  for (std::size_t m = 0; m < rider_kg.size(); ++m) {
    Case rider{.track = std::move((*tracks)[m]),
               .bodies = arrest::bodies_of(in, corner, in.air_kg_per_m3[state]),
               .unit = arrest::unit_of(in, corner)};
    rider.bodies.rider_kg = rider_kg[m];
    const bool nearer_heaviest = rider_kg[m] > (in.rider_kg[0] + in.rider_kg[1]) / 2;
    rider.acceleration_m_per_s2 =
        rig.approach.solved()->acceleration_m_per_s2(static_cast<std::size_t>(ends[nearer_heaviest ? 1 : 0]));
    cases.push_back(std::move(rider));
  }
  return cases;
}

void add_limits(const Layout& layout, BrakingChart& chart) {
  const double rest_m = layout.brake_trolley.rest_m;
  chart.travel_m = layout.brake_trolley.travel_m;
  if (layout.backup_brake) chart.backup_m = layout.backup_brake->engages_m - rest_m;
  if (!layout.landing) return;
  if (layout.landing->earliest_rest_m) chart.earliest_rest_m = *layout.landing->earliest_rest_m - rest_m;
  if (layout.landing->latest_rest_m) chart.latest_rest_m = *layout.landing->latest_rest_m - rest_m;
}

}  // namespace

Solved<BrakingChart> braking_chart(const Rig& rig, const Work& work, const std::optional<mainline::Span>& measured) {
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return tl::unexpected(rig.arrest.result->error());
  if (rig.arrest_held) return unsolved("the arrest is that of another place of the marks");
  BrakingChart chart;
  chart.corner = arrest->governing.stop_travel;
  if (chart.corner < 0) return unsolved("no corner of the arrest is solved");
  chart.arrival_m_per_s = {INFINITY, 0};
  for (const arrest::CornerResult& corner : arrest->corners) {
    if (!(corner.arrival_speed_m_per_s > 0)) continue;
    chart.arrival_m_per_s.low = std::min(chart.arrival_m_per_s.low, corner.arrival_speed_m_per_s);
    chart.arrival_m_per_s.high = std::max(chart.arrival_m_per_s.high, corner.arrival_speed_m_per_s);
  }
  chart.speed_m_per_s = common_speeds(chart);
  if (measured)
    chart.speed_m_per_s = {std::min(chart.speed_m_per_s.low, (1 - beyond_measured) * measured->low),
                           std::max(chart.speed_m_per_s.high, (1 + beyond_measured) * measured->high)};
  add_limits(rig.layout, chart);
  const auto cases = cases_of(rig, arrest->corners[static_cast<std::size_t>(chart.corner)].corner, work);
  if (!cases) return tl::unexpected(cases.error());
  const std::vector<double> at = speeds_of(chart);
  chart.curves.resize(cases->size());
  for_each_index(work, static_cast<int>(cases->size()), [&](int index) {
    const auto i = static_cast<std::size_t>(index);
    chart.curves[i] = {(*cases)[i].bodies.rider_kg, curve_of((*cases)[i], at)};
  });
  return chart;
}

}  // namespace fairlead
