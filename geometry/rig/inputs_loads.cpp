#include <fmt/format.h>

#include <numbers>

#include "geometry/rig/air.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// Its weight grows with what hangs on it all along.
mainline::Cable heavier(mainline::Cable cable, double by_N_per_m) {
  cable.weight_N_per_m += by_N_per_m;
  return cable;
}

/// Ice of one thickness all round: a ring.
double ice_N_per_m(const Site& site, double diameter_m) {
  const double t = *site.ice_thickness_m;
  return standard_gravity * site.ice_density_kg_per_m3 * std::numbers::pi * t * (diameter_m + t);
}

/// What hangs between the anchors in weather without riders.
class Unridden {
 public:
  Unridden(const Layout& layout, const Frame& frame, const mainline::Inputs& line_in, const mainline::MainLine& line,
           const std::vector<loads::Beside>& beside)
      : layout_(layout), frame_(frame), line_in_(line_in), line_(line), beside_(beside) {}

  std::vector<loads::Weather> all() {
    const Site& site = layout_.site;
    for (std::size_t s = 0; s < line_.states.size(); ++s) {
      const mainline::State& state = line_.states[s];
      if (state.weather == mainline::Weather::measured) continue;
      if (site.storm_wind_m_per_s)
        from_both_sides(loads::Action::storm, s, state.temperature_K, *site.storm_wind_m_per_s);
      if (state.weather != mainline::Weather::cold || !site.ice_thickness_m) continue;
      const double iced_K = site.ice_temperature_K ? site.ice_temperature_K->value : site.coldest_K.value;
      add(loads::Action::ice, s, iced_K, {});
      if (site.ice_wind_m_per_s) from_both_sides(loads::Action::ice_and_wind, s, iced_K, *site.ice_wind_m_per_s);
    }
    return std::move(all_);
  }

 private:
  void from_both_sides(loads::Action action, std::size_t state, double temperature_K, double speed_m_per_s) {
    const double height_m = layout_.site.altitude_m ? layout_.site.altitude_m->value : 0;
    const double push_Pa = wind_on_line_Pa(air_density_kg_per_m3(height_m, temperature_K), speed_m_per_s);
    for (const double side : {1.0, -1.0}) add(action, state, temperature_K, side * push_Pa * frame_.across);
  }

  loads::Blown blown(loads::Action action, const mainline::Cable& cable, double diameter_m, Vec3 wind_Pa) const {
    if (action == loads::Action::storm) return {cable, diameter_m * wind_Pa};
    return {heavier(cable, ice_N_per_m(layout_.site, diameter_m)),
            (diameter_m + 2 * *layout_.site.ice_thickness_m) * wind_Pa};
  }

  void add(loads::Action action, std::size_t s, double temperature_K, Vec3 wind_Pa) {
    const mainline::State& state = line_.states[s];
    const auto at = [&](const mainline::Cable& cable, double expansion_per_K) {
      return mainline::at_temperature(cable, expansion_per_K, temperature_K - state.temperature_K);
    };
    const mainline::Cable bare = at(state.cable, line_in_.expansion_per_K);
    const double trolley_N_per_m = layout_.brake_trolley.mass_kg * standard_gravity / bare.unstretched_m;
    loads::Weather weather{action,
                           static_cast<int>(s),
                           blown(action, heavier(bare, trolley_N_per_m), layout_.main_line.diameter_m, wind_Pa),
                           {}};
    for (std::size_t i = 0; i < beside_.size(); ++i) {
      const ParallelLine& line = layout_.parallel_lines[i];
      weather.beside.push_back(
          blown(action, at(beside_[i].in_state[s], line.expansion_per_K), line.diameter_m, wind_Pa));
    }
    all_.push_back(std::move(weather));
  }

  const Layout& layout_;
  const Frame& frame_;
  const mainline::Inputs& line_in_;
  const mainline::MainLine& line_;
  const std::vector<loads::Beside>& beside_;
  std::vector<loads::Weather> all_;
};

/// A parallel line in every state of the main line: as warm, and as stiff as it can be where the main line is.
Solved<loads::Beside> beside_of(const Layout& layout, const ParallelLine& line, const mainline::MainLine& main_line,
                                std::vector<std::string>& assumptions) {
  const auto given = line.ea_N ? std::optional(Range{*line.ea_N, *line.ea_N}) : std::nullopt;
  const std::string name = fmt::format("parallel_line.{}", line.id.value);
  const Range ea_N = stiffness_N(name, given, line.construction, line.diameter_m, assumptions);
  loads::Beside beside{static_cast<int>(line.from), static_cast<int>(line.to), {}, 0};
  for (const mainline::State& state : main_line.states) {
    const auto cable = hung_cable(layout, line, 1 / (state.stiff ? ea_N.high : ea_N.low));
    if (!cable)
      return unsolved(fmt::format("parallel line \"{}\": {}", line.id.value, cable.error().why), cable.error().residual,
                      cable.error().iterations);
    beside.in_state.push_back(
        mainline::at_temperature(*cable, line.expansion_per_K, state.temperature_K - line.at_temperature_K));
  }
  if (line.rider_mass_kg)
    beside.rider_N = *line.rider_mass_kg * standard_gravity;
  else
    assumptions.push_back(name + ": always bare, nobody rides on it: rider_mass is not given");
  return beside;
}

void hold_arrest(const Layout& layout, const Courses& courses, loads::Inputs& in) {
  const auto held_by = [](const Held& held) {
    const auto* anchor = std::get_if<AnchorId>(&held);
    return anchor ? static_cast<int>(*anchor) : loads::no_anchor;
  };
  const auto anchor_of = [](const Sheave& sheave) {
    const auto* anchor = std::get_if<AnchorId>(&sheave.on);
    return anchor ? static_cast<int>(*anchor) : loads::no_anchor;
  };
  for (const Course& course : courses.courses) {
    in.line_anchors.push_back({held_by(course.from), held_by(course.to)});
    for (const int index : course.sheaves) {
      const Sheave* sheave = index < 0 ? nullptr : &layout.sheaves[static_cast<std::size_t>(index)];
      const bool stands = sheave && sheave->mount == Mount::fixed;
      in.sheave_anchor.push_back(stands ? anchor_of(*sheave) : loads::no_anchor);
    }
  }
  for (const Item& body : bodies_of(layout, courses))
    in.block_anchor.push_back(body.kind == Item::Kind::sheave
                                  ? anchor_of(layout.sheaves[static_cast<std::size_t>(body.index)])
                                  : loads::no_anchor);
  in.unit_anchor = static_cast<int>(layout.brake_unit.on);
  if (layout.brake_unit.mass_kg) in.unit_weight_N = *layout.brake_unit.mass_kg * standard_gravity;
}

void hold_main_line(const Layout& layout, loads::Inputs& in, std::vector<std::string>& assumptions) {
  const MainLine& line = layout.main_line;
  in.start_anchor = static_cast<int>(line.from);
  in.end_anchor = static_cast<int>(line.to);
  if (line.from_back_anchor) in.start_back_anchor = static_cast<int>(*line.from_back_anchor);
  if (line.to_back_anchor) in.end_back_anchor = static_cast<int>(*line.to_back_anchor);
  if (!line.from_back_anchor && !line.to_back_anchor) return;
  assumptions.push_back("main_line: nothing is fed over its saddles; the length it has between them stays");
  if (line.saddle_friction)
    in.saddle_friction = *line.saddle_friction;
  else
    assumptions.push_back("main_line: the same tension on both sides of its saddles: saddle_friction is not given");
}

void hold_backup(const Layout& layout, const Frame& frame, loads::Inputs& in, std::vector<std::string>& assumptions) {
  const auto& brake = layout.backup_brake;
  if (brake && brake->on && brake->force_N)
    in.backup = {static_cast<int>(*brake->on), *brake->force_N, brake->engages_m - frame.chainage_of_origin_m};
  else if (brake)
    assumptions.push_back("backup_brake: no load case has what it pulls on its anchor: on and force are not given");
}

/// On the side of a rider who faces along the line no more than his drag area is known.
std::vector<loads::RiddenWind> ridden_wind(const Layout& layout, const mainline::MainLine& main_line) {
  std::vector<loads::RiddenWind> all;
  const auto& speed_m_per_s = layout.site.wind_across_m_per_s;
  if (!speed_m_per_s) return all;
  for (const mainline::State& state : main_line.states) {
    const auto& area_m2 = layout.riders.drag_area_m2;
    const SidePush push = side_push(layout.site.altitude_m ? layout.site.altitude_m->value : 0, state.temperature_K,
                                    *speed_m_per_s, area_m2 ? area_m2->value : 0);
    loads::RiddenWind& wind =
        all.emplace_back(loads::RiddenWind{push.line_Pa * layout.main_line.diameter_m, push.rider_N, {}});
    for (const ParallelLine& line : layout.parallel_lines)
      wind.beside_N_per_m.push_back(push.line_Pa * line.diameter_m);
  }
  return all;
}

void note_weather(const Layout& layout, std::vector<std::string>& assumptions) {
  const Site& site = layout.site;
  if (site.wind_across_m_per_s)
    assumptions.push_back(
        "site: with riders in a side wind the main line and lines beside it load their anchors wherever riders are on "
        "the open span; in an arrest and with the backup brake they are taken in still air");
  if (!site.ice_thickness_m && !site.storm_wind_m_per_s) return;
  assumptions.push_back(
      "site: in ice and storm the brake trolley's weight is spread along the main line; the lines of the arrest system "
      "bear neither");
  if (site.ice_thickness_m && !site.ice_temperature_K)
    assumptions.push_back("site: ice on the main line at the lowest design temperature, where it is tightest");
  if ((site.ice_wind_m_per_s || site.storm_wind_m_per_s) && !site.wind_across_m_per_s && !site.altitude_m)
    assumptions.push_back("site: altitude 0 m for the density of the air in the wind, where it is greatest");
}

}  // namespace

Solved<loads::Inputs> loads_inputs(const Layout& layout, const Frame& frame, const Courses& courses,
                                   const mainline::Inputs& line_in, const mainline::MainLine& main_line,
                                   std::vector<std::string>& assumptions) {
  loads::Inputs in;
  for (const Anchor& anchor : layout.anchors) in.anchors.push_back(anchor.position);
  hold_arrest(layout, courses, in);
  hold_main_line(layout, in, assumptions);
  hold_backup(layout, frame, in, assumptions);
  if (layout.riders.rescuer_mass_kg) in.rescuer_N = *layout.riders.rescuer_mass_kg * standard_gravity;
  for (const ParallelLine& line : layout.parallel_lines) {
    auto beside = beside_of(layout, line, main_line, assumptions);
    if (!beside) return tl::unexpected(beside.error());
    in.beside.push_back(std::move(*beside));
  }
  in.weather = Unridden(layout, frame, line_in, main_line, in.beside).all();
  in.ridden_wind = ridden_wind(layout, main_line);
  note_weather(layout, assumptions);
  return in;
}

}  // namespace fairlead
