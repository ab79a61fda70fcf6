#include "geometry/studies/reductions.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/arrest/reset.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead {
namespace {

/// What stays the same from design to design.
struct Alike {
  const arrest::Inputs& in;
  double efficiency{}, rest_extension_m{};
};

Solved<arrest::Track> track_of(const Alike& alike, const Reductions::Design& design, double hanging_kg) {
  const arrest::Inputs& in = alike.in;
  return arrest::Track::plain({.ratio = design.ratio,
                               .efficiency = alike.efficiency,
                               .slope = design.slope,
                               .travel_m = in.travel_m,
                               .rest_extension_m = alike.rest_extension_m,
                               .weight_N = hanging_kg * standard_gravity,
                               .inertia_kg = in.moving_mass_kg / (design.ratio * design.ratio)});
}

Reductions::Rider rider_of(const Alike& alike, const Reductions::Design& design, const arrest::Corner& corner,
                           double speed_m_per_s) {
  const arrest::Inputs& in = alike.in;
  const arrest::Bodies bodies = arrest::bodies_of(in, corner, in.air_kg_per_m3.front());
  const arrest::Unit unit = arrest::unit_of(in, corner);
  const auto track = track_of(alike, design, bodies.rider_kg + bodies.rider_trolley_kg + bodies.brake_trolley_kg);
  Reductions::Rider rider;
  if (!track) return {tl::unexpected(track.error()), std::nullopt};
  rider.motion = arrest::solve_motion(*track, bodies, unit, {.speed_m_per_s = speed_m_per_s});
  if (rider.motion &&
      (rider.motion->outcome == arrest::Outcome::stops || rider.motion->outcome == arrest::Outcome::creeps))
    rider.rest = arrest::settle(*track, bodies, unit, rider.motion->end_travel_m);
  return rider;
}

/// Rising, and no value twice.
void insert_sorted(std::vector<double>& values, double value) {
  const auto at = std::lower_bound(values.begin(), values.end(), value);
  if (at == values.end() || *at != value) values.insert(at, value);
}

}  // namespace

Solved<Reductions> reductions(const Rig& rig, const Work& work) {
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return tl::unexpected(rig.arrest.result->error());
  const arrest::Inputs& in = *rig.arrest.inputs;
  Reductions all{.travel_m = in.travel_m,
                 .arrival_m_per_s = {INFINITY, 0},
                 .ratios = {1, 2, 3, 4},
                 .slopes = {-0.04, -0.02, 0, 0.02, 0.04}};
  if (rig.idea) {
    all.efficiency = rig.idea->zone.efficiency;
    insert_sorted(all.ratios, rig.idea->zone.ratio);
    insert_sorted(all.slopes, rig.idea->zone.slope);
  }
  for (const arrest::CornerResult& corner : arrest->corners) {
    if (!(corner.arrival_speed_m_per_s > 0)) continue;
    all.arrival_m_per_s.low = std::min(all.arrival_m_per_s.low, corner.arrival_speed_m_per_s);
    all.arrival_m_per_s.high = std::max(all.arrival_m_per_s.high, corner.arrival_speed_m_per_s);
  }
  if (!(all.arrival_m_per_s.high > 0)) return unsolved("no rider arrives");
  for (const double ratio : all.ratios)
    for (const double slope : all.slopes) all.designs.push_back({.ratio = ratio, .slope = slope});
  const Alike alike{in, all.efficiency, rig.layout.brake_unit.rest_extension_m};
  const bool windy = in.wind_m_per_s > 0;
  const arrest::Corner farthest{
      .heaviest = true, .fastest = true, .wind = windy ? arrest::Wind::tail : arrest::Wind::none},
      shortest{.wind = windy ? arrest::Wind::head : arrest::Wind::none, .high_rolling = true, .strong_brake = true};
  std::vector<Solved<arrest::Track>> empty(all.designs.size(), unsolved("not solved"));
  for_each_index(work, static_cast<int>(all.designs.size()), [&](int index) {
    const auto i = static_cast<std::size_t>(index);
    Reductions::Design& design = all.designs[i];
    design.farthest = rider_of(alike, design, farthest, all.arrival_m_per_s.high);
    design.shortest = rider_of(alike, design, shortest, all.arrival_m_per_s.low);
    empty[i] = track_of(alike, design, in.brake_trolley_kg);
    if (empty[i]) design.least_reserve_N = arrest::least_reserve_N(in, *empty[i]);
  });
  for (const auto& track : empty)
    if (!track) return tl::unexpected(track.error());
  return all;
}

}  // namespace fairlead
