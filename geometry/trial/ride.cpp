#include "geometry/trial/ride.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "geometry/arrest/names.hpp"
#include "geometry/quantity/dimension.hpp"
#include "geometry/studies/rider_tracks.hpp"

namespace fairlead::trial {
namespace {

constexpr double g = standard_gravity;

const arrest::Inputs& inputs_of(const Rig& rig) { return *rig.arrest.inputs; }

/// A knot a metre, as riders' approaches have.
Solved<mainline::Path> path_toward(const Rig& rig, const mainline::State& state, double kg) {
  const arrest::Inputs& in = inputs_of(rig);
  const double from_m = releases(rig).low;
  const int knots = std::max(4, static_cast<int>(std::ceil(in.rest_m - from_m)) + 1);
  return mainline::Path::solve(state.cable, (kg + in.rider_trolley_kg) * g, from_m, in.rest_m - mainline::meeting_m,
                               knots, mainline::Load{in.rest_m, in.brake_trolley_kg * g});
}

/// The paths of the lightest rider: one a state in which riders come.
std::vector<int> rider_paths(const mainline::MainLine& main_line) {
  std::vector<int> paths;
  for (std::size_t p = 0; p < main_line.paths.size(); ++p)
    if (main_line.paths[p].loading == mainline::Loading::lightest) paths.push_back(static_cast<int>(p));
  return paths;
}

std::vector<Variant> variants_of(const mainline::MainLine& main_line, const TestMass& mass) {
  std::vector<Variant> variants;
  const auto state_of = [&](std::size_t s) -> const mainline::State& {
    return main_line.states[static_cast<std::size_t>(mass.states[s].state)];
  };
  for (std::size_t c = 0; c < mass.states.size(); ++c)
    for (std::size_t w = 0; w < mass.states.size(); ++w) {
      const mainline::State &cold = state_of(c), &warm = state_of(w);
      if (cold.weather == mainline::Weather::cold && warm.weather == mainline::Weather::warm &&
          cold.stiff == warm.stiff && cold.taut == warm.taut)
        variants.push_back({c, w});
    }
  return variants;
}

Solved<arrest::Approach> roll(const Rig& rig, const TestMass& mass, std::size_t state, double release_m,
                              const Conditions& on) {
  const arrest::Inputs& in = inputs_of(rig);
  const TestMass::OnState& at = mass.states[state];
  const auto s = static_cast<std::size_t>(at.state);
  return arrest::approach(at.toward, rig.main_line.solved()->states[s].cable.weight_N_per_m,
                          {.start_m = release_m,
                           .mass_kg = mass.kg + in.rider_trolley_kg,
                           .rolling = on.rolling,
                           .drag_area_m2 = on.drag_area_m2,
                           .density_kg_per_m3 = in.air_kg_per_m3[s],
                           .wind_m_per_s = on.wind_m_per_s});
}

/// The unit as the trolley feels it through a reeving that brings so much of its pull.
arrest::Unit unit_felt(const arrest::Inputs& in, const Conditions& on) {
  std::vector<CurvePoint> points = in.unit.retraction_N.points();
  for (CurvePoint& point : points) point.y *= on.pull_share;
  arrest::Unit unit{.law = in.unit,
                    .share = on.brake_share * on.pull_share,
                    .return_share = in.return_share,
                    .extension_limit_m = in.extension_limit_m};
  unit.law.retraction_N = Curve(std::move(points));
  return unit;
}

double between(const Span& span, double share) { return span.low + share * (span.high - span.low); }

std::vector<double> ends_of(const Span& span) {
  return span.low < span.high ? std::vector<double>{span.low, span.high} : std::vector<double>{span.low};
}

void widen(Span& span, double value) {
  span.low = std::min(span.low, value);
  span.high = greater(span.high, value);
}

}  // namespace

Span releases(const Rig& rig) {
  const arrest::Inputs& in = inputs_of(rig);
  return {in.start_m ? *in.start_m : rig.main_line.inputs->path_from_m, in.rest_m};
}

Solved<std::vector<TestMass>> test_masses(const Rig& rig, const std::vector<double>& kg, const Work& work) {
  const mainline::MainLine* main_line = rig.main_line.solved();
  if (!main_line) return tl::unexpected(rig.main_line.result->error());
  if (!rig.arrest.solved()) return tl::unexpected(rig.arrest.result->error());
  std::vector<TestMass> masses(kg.size());
  if (masses.empty()) return masses;
  for (const int path : rider_paths(*main_line)) {
    const int state = main_line->paths[static_cast<std::size_t>(path)].state;
    auto tracks = rider_tracks(rig, path, kg, work);
    if (!tracks) return tl::unexpected(tracks.error());
    for (std::size_t m = 0; m < kg.size(); ++m) {
      auto toward = path_toward(rig, main_line->states[static_cast<std::size_t>(state)], kg[m]);
      if (!toward) return tl::unexpected(toward.error());
      masses[m].kg = kg[m];
      masses[m].states.push_back({state, std::move(*toward), std::move((*tracks)[m])});
    }
  }
  for (TestMass& mass : masses) {
    mass.variants = variants_of(*main_line, mass);
    if (mass.variants.empty()) return unsolved("the main line has no path that is solved cold and warm");
  }
  return masses;
}

Unknowns unknowns_of(const Rig& rig) {
  const arrest::Inputs& in = inputs_of(rig);
  return {.wind_m_per_s = {-in.wind_m_per_s, in.wind_m_per_s}, .rolling = in.rolling, .brake_share = in.brake_share};
}

Solved<Ride> ride(const Rig& rig, const TestMass& mass, std::size_t state, double release_m, const Conditions& on) {
  const auto arrival = roll(rig, mass, state, release_m, on);
  if (!arrival) return tl::unexpected(arrival.error());
  if (arrival->stalled_at_m) return Ride{};
  const arrest::Inputs& in = inputs_of(rig);
  const TestMass::OnState& at = mass.states[state];
  arrest::Bodies bodies = arrest::bodies_of(in, {}, in.air_kg_per_m3[static_cast<std::size_t>(at.state)]);
  bodies.rider_kg = mass.kg;
  bodies.rolling = on.rolling;
  bodies.drag_kg_per_m = in.air_kg_per_m3[static_cast<std::size_t>(at.state)] / 2 * on.drag_area_m2;
  bodies.wind_m_per_s = on.wind_m_per_s;
  const auto motion = arrest::solve_motion(
      at.track, bodies, unit_felt(in, on),
      {.speed_m_per_s = arrival->arrival_speed_m_per_s, .acceleration_m_per_s2 = arrival->acceleration_m_per_s2});
  if (!motion) return tl::unexpected(motion.error());
  return Ride{.arrives = true,
              .arrival_speed_m_per_s = arrival->arrival_speed_m_per_s,
              .outcome = motion->outcome,
              .stopping_travel_m = motion->stop_travel_m,
              .extension_m = motion->extension_m.value,
              .line_tension_N = motion->unit_tension_N.value / on.pull_share};
}

Solved<Predicted> predict(const Rig& rig, const TestMass& mass, double release_m, const Unknowns& unknown) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  const Span nothing{inf, -inf};
  Predicted all{nothing, false, std::nullopt, nothing, nothing, nothing};
  const double drag_area_m2 = inputs_of(rig).drag_area_m2;
  std::vector<Conditions> corners;
  for (const double wind : ends_of(unknown.wind_m_per_s))
    for (const double rolling : ends_of(unknown.rolling))
      for (const double share : ends_of(unknown.brake_share)) corners.push_back({wind, rolling, share, drag_area_m2});
  corners.push_back({between(unknown.wind_m_per_s, 0.5), between(unknown.rolling, 0.5),
                     between(unknown.brake_share, 0.5), drag_area_m2});
  bool any = false;
  for (const Variant& variant : mass.variants)
    for (const Conditions& on : corners) {
      const auto cold = ride(rig, mass, variant.cold, release_m, on),
                 warm = ride(rig, mass, variant.warm, release_m, on);
      for (const auto* one : {&cold, &warm}) {
        if (!*one) return tl::unexpected(one->error());
        if (!(*one)->arrives) all.may_stall = true;
        if ((*one)->arrives && (*one)->outcome != arrest::Outcome::stops)
          all.ill = std::string(arrest::word_for((*one)->outcome));
      }
      if (!cold->arrives || !warm->arrives) continue;
      any = true;
      for (const double warmth : ends_of(unknown.warmth)) {
        const auto see = [&](Span& span, double Ride::*value) {
          widen(span, between({(*cold).*value, (*warm).*value}, warmth));
        };
        see(all.arrival_speed_m_per_s, &Ride::arrival_speed_m_per_s);
        see(all.stopping_travel_m, &Ride::stopping_travel_m);
        see(all.extension_m, &Ride::extension_m);
        see(all.line_tension_N, &Ride::line_tension_N);
      }
    }
  // Between a corner that arrives and one that stalls, some day it arrives at no speed at all.
  if (all.may_stall)
    for (Span* span : {&all.arrival_speed_m_per_s, &all.stopping_travel_m, &all.extension_m, &all.line_tension_N})
      span->low = 0;
  if (!any) return unsolved("the mass stalls short of the brake trolley", release_m);
  return all;
}

Solved<double> arrival_speed(const Rig& rig, const TestMass& mass, double release_m, const Unknowns& unknown,
                             double Span::*end) {
  const double drag_area_m2 = inputs_of(rig).drag_area_m2;
  const bool fastest = end == &Span::high;
  const Conditions on = fastest ? Conditions{unknown.wind_m_per_s.high, unknown.rolling.low, 1, drag_area_m2}
                                : Conditions{unknown.wind_m_per_s.low, unknown.rolling.high, 1, drag_area_m2};
  double speed = fastest ? 0 : std::numeric_limits<double>::infinity();
  for (std::size_t s = 0; s < mass.states.size(); ++s) {
    const auto arrival = roll(rig, mass, s, release_m, on);
    if (!arrival) return tl::unexpected(arrival.error());
    const double there = arrival->stalled_at_m ? 0 : arrival->arrival_speed_m_per_s;
    speed = fastest ? greater(speed, there) : std::min(speed, there);
  }
  return speed;
}

Solved<Span> arrival_speeds(const Rig& rig, const TestMass& mass, double release_m, const Unknowns& unknown) {
  const auto slowest = arrival_speed(rig, mass, release_m, unknown, &Span::low),
             fastest = arrival_speed(rig, mass, release_m, unknown, &Span::high);
  if (!slowest) return tl::unexpected(slowest.error());
  if (!fastest) return tl::unexpected(fastest.error());
  return Span{*slowest, *fastest};
}

}  // namespace fairlead::trial
