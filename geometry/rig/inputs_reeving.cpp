#include <fmt/format.h>
#include <algorithm>
#include <limits>

#include "geometry/layout/items.hpp"
#include "geometry/layout/rider_shape.hpp"
#include "geometry/reeving/contact.hpp"
#include "geometry/rig/air.hpp"
#include "geometry/rig/drawn.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// Where the passage of a rider begins: the whole envelope still upstream of the first fixed sheave it
/// meets.
double upstream_travel_m(const Layout& layout, const Frame& frame, const reeving::Inputs& in) {
  double first_m = in.rest_m;
  for (const reeving::Sheave& s : in.sheaves)
    if (s.body == reeving::on_ground || (s.body >= 0 && !in.blocks[static_cast<std::size_t>(s.body)].shifts()))
      first_m = std::min(first_m, dot(s.centre - frame.origin, frame.along) - s.radius_m);
  const auto rider = shape_of(layout.riders);
  const double half_length_m = rider ? 0.5 * box_around(*rider).length_m : 1.0;
  return std::max(first_m - 1.0 - half_length_m, 0.01 * frame.span_m) - in.rest_m;
}

reeving::End end_of(const Held& held, Point3 drawn) {
  if (std::holds_alternative<BrakeTrolleyEnd>(held)) return {{}, reeving::on_trolley};
  if (const auto* block = std::get_if<BlockId>(&held)) return {drawn, static_cast<reeving::Body>(*block)};
  return {drawn, reeving::on_ground};
}

/// Every support line of the layout as it was measured, in their order.
using SupportCables = std::vector<mainline::Cable>;

/// Everything of the reeving that is drawn, then solved.
class Drawing {
 public:
  Drawing(const Layout& layout, const Frame& frame, const Courses& courses, const SupportCables& supports,
          reeving::Inputs& in)
      : layout_(layout),
        frame_(frame),
        courses_(courses),
        supports_(supports),
        in_(in),
        blocks_(drawn_blocks(layout, frame, courses)),
        bodies_(bodies_of(layout, courses)) {}

  tl::expected<void, Unsolved> draw() {
    const mainline::Load trolley{in_.rest_m, layout_.brake_trolley.mass_kg * standard_gravity};
    const auto shape = mainline::hang_rolling(in_.reference.cable, {&trolley, 1});
    if (!shape) return tl::unexpected(shape.error());
    attachment_ = in_.origin + in_.rest_m * in_.along + shape->wheels[0].z_m * in_.up + in_.attachment;
    draw_blocks();
    for (std::size_t l = 0; l < courses_.courses.size(); ++l) {
      if (courses_.courses[l].item.kind == Item::Kind::support_line)
        draw_support(courses_.courses[l]);
      else if (auto drawn = draw_line(l); !drawn)
        return drawn;
    }
    return {};
  }

 private:
  void draw_blocks() {
    for (std::size_t i = 0; i < layout_.blocks.size(); ++i) {
      const Block& given = layout_.blocks[i];
      reeving::Block block{.drawn = blocks_[i]};
      block.centre_of_mass = blocks_[i] + site_vector(frame_, given.centre_of_mass);
      block.weight_N = given.mass_kg * standard_gravity;
      if (std::any_of(layout_.support_lines.begin(), layout_.support_lines.end(),
                      [i](const SupportLine& line) { return line.carries == static_cast<BlockId>(i); }))
        block.joint = reeving::Joint::carrier;
      const bool closes = std::any_of(courses_.courses.begin(), courses_.courses.end(),
                                      [i](const Course& c) { return c.closed_by == static_cast<BlockId>(i); });
      if (closes) block.rest_m = *given.rest_m - frame_.chainage_of_origin_m;
      in_.blocks.push_back(block);
    }
    in_.blocks.resize(bodies_.size());
  }

  /// A mounted sheave as it is drawn between the points before and after it, with its body.
  void mount(const Sheave& given, std::size_t body, Point3 before, Point3 after, reeving::Sheave& drawn) {
    reeving::Block& block = in_.blocks[body];
    const Point3 anchor = layout_.anchors[static_cast<std::size_t>(std::get<AnchorId>(given.on))].position;
    if (given.mount == Mount::free) {
      const HungSheave hung = hung_on_link(anchor, *given.link_m, drawn.axle, before, after, in_.up);
      drawn.centre = hung.centre;
      drawn.axle = hung.axle;
      block.joint = reeving::Joint::ball;
      block.drawn = anchor;
    } else {
      block.joint = reeving::Joint::hinge;
      block.hinge_axis = unit(*given.swivel_axis);
      block.drawn = given.swivel_at ? given.swivel_at->value : anchor;
    }
    block.centre_of_mass = drawn.centre + site_vector(frame_, given.centre_of_mass);
    block.weight_N = *given.mass_kg * standard_gravity;
  }

  reeving::Body body_of(int sheave) const {
    const Carrier& carrier = layout_.sheaves[static_cast<std::size_t>(sheave)].on;
    if (const auto* block = std::get_if<BlockId>(&carrier)) return static_cast<reeving::Body>(*block);
    const auto mounted = std::find(bodies_.begin(), bodies_.end(), Item{Item::Kind::sheave, sheave});
    return mounted == bodies_.end() ? reeving::on_ground : static_cast<reeving::Body>(mounted - bodies_.begin());
  }

  tl::expected<void, Unsolved> draw_line(std::size_t index) {
    const Course& course = courses_.courses[index];
    const Line& given = layout_.lines[static_cast<std::size_t>(course.item.index)];
    const std::vector<Point3> points = drawn_points(layout_, frame_, course, blocks_, attachment_);
    reeving::Line line{.from = end_of(course.from, points.front()),
                       .to = end_of(course.to, points.back()),
                       .first_sheave = static_cast<int>(in_.sheaves.size()),
                       .sheaves = static_cast<int>(course.sheaves.size()),
                       .weight_N_per_m = given.mass_kg_per_m * standard_gravity,
                       .diameter_m = given.diameter_m,
                       .compliance_per_N = given.ea_N ? 1 / *given.ea_N : 0};
    line.closing = static_cast<int>(index) == courses_.braking ? reeving::Closing::unit
                   : course.closed_by                          ? reeving::Closing::block_at_rest
                                                               : reeving::Closing::length;
    for (std::size_t i = 0; i < course.sheaves.size(); ++i) {
      const Sheave& sheave = layout_.sheaves[static_cast<std::size_t>(course.sheaves[i])];
      reeving::Sheave drawn{.centre = points[i + 1],
                            .axle = unit(sheave.axle),
                            .radius_m = 0.5 * sheave.pitch_diameter_m,
                            .body = body_of(course.sheaves[i]),
                            .friction = friction_of(sheave, given).value_or(1),
                            .friction_wrap_rad = sheave.friction_wrap_rad ? sheave.friction_wrap_rad->value : 0};
      if (sheave.mount != Mount::fixed)
        mount(sheave, static_cast<std::size_t>(drawn.body), points[i], points[i + 2], drawn);
      auto sense = sense_of(course.turning[i], points[i], points[i + 2], drawn);
      if (!sense)
        return unsolved(
            fmt::format("line \"{}\" can run over sheave \"{}\" either way round: write turning = "
                        "\"clockwise\" or \"anticlockwise\" in its route",
                        given.id.value, sheave.id.value));
      drawn.sense = *sense;
      in_.sheaves.push_back(drawn);
    }
    in_.lines.push_back(line);
    return {};
  }

  static std::optional<int> sense_of(std::optional<Turning> given, Point3 before, Point3 after,
                                     const reeving::Sheave& sheave) {
    if (given) return *given == Turning::anticlockwise ? 1 : -1;
    return reeving::derive_sense(before, after, sheave);
  }

  void draw_support(const Course& course) {
    const SupportLine& given = layout_.support_lines[static_cast<std::size_t>(course.item.index)];
    const auto anchor = [&](AnchorId id) {
      return reeving::End{layout_.anchors[static_cast<std::size_t>(id)].position, reeving::on_ground};
    };
    const auto block = static_cast<std::size_t>(given.carries);
    const mainline::Cable& cable = supports_[static_cast<std::size_t>(course.item.index)];
    in_.lines.push_back({.from = anchor(given.from),
                         .to = anchor(given.to),
                         .first_sheave = static_cast<int>(in_.sheaves.size()),
                         .sheaves = 1,
                         .weight_N_per_m = cable.weight_N_per_m,
                         .diameter_m = given.diameter_m,
                         .compliance_per_N = cable.compliance_per_N,
                         .closing = reeving::Closing::length});
    in_.sheaves.push_back(
        {.centre = blocks_[block] + site_vector(frame_, given.wheel), .body = static_cast<reeving::Body>(block)});
  }

  const Layout& layout_;
  const Frame& frame_;
  const Courses& courses_;
  const SupportCables& supports_;
  reeving::Inputs& in_;
  std::vector<Point3> blocks_;
  std::vector<Item> bodies_;
  Point3 attachment_;
};

/// Unstretched length of every line of known length at a temperature; NaN for the others. Fibre and short steel lines
/// are taken not to change with temperature; support lines do.
std::vector<double> lengths_at(const Layout& layout, const Courses& courses, const SupportCables& supports,
                               double temperature_K) {
  std::vector<double> lengths;
  for (const Course& course : courses.courses) {
    lengths.push_back(std::numeric_limits<double>::quiet_NaN());
    if (course.item.kind == Item::Kind::support_line) {
      const auto index = static_cast<std::size_t>(course.item.index);
      const SupportLine& line = layout.support_lines[index];
      const double warmer_K = temperature_K - line.at_temperature_K;
      lengths.back() = mainline::at_temperature(supports[index], line.expansion_per_K, warmer_K).unstretched_m;
    } else if (const Line& line = layout.lines[static_cast<std::size_t>(course.item.index)]; line.length_m) {
      lengths.back() = *line.length_m;
    }
  }
  return lengths;
}

double rider_weight_N(const Layout& layout, mainline::Loading loading) {
  if (loading == mainline::Loading::empty) return 0;
  const Range& riders = layout.riders.mass_kg;
  return standard_gravity *
         (layout.riders.trolley_mass_kg + (loading == mainline::Loading::lightest ? riders.low : riders.high));
}

/// Lines rest where the wind blows them: judged where they come nearest to a rider, the heaviest on the warm line below
/// what hangs over it and the lightest on the cold one.
bool in_the_wind(mainline::Weather weather, mainline::Loading loading) {
  return (weather == mainline::Weather::warm && loading == mainline::Loading::heaviest) ||
         (weather == mainline::Weather::cold && loading == mainline::Loading::lightest);
}

/// Says what is taken where no friction is known.
void assume_friction(const Layout& layout, const Courses& courses, std::vector<std::string>& assumptions) {
  for (const Course& course : courses.courses)
    for (const int index : course.sheaves) {
      if (index < 0) continue;
      const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(index)];
      const Line& line = layout.lines[static_cast<std::size_t>(course.item.index)];
      const auto friction = friction_of(sheave, line);
      if (!friction)
        assumptions.push_back(fmt::format("sheave {}: no friction, for none is given{}", sheave.id.value,
                                          sheave.bearing ? "; tables by bearing are for steel lines" : ""));
      else if (!sheave.friction)
        assumptions.push_back(
            fmt::format("sheave {}: friction K = {} by its {} bearing (Wire Rope Users Manual, 4th "
                        "ed., p. 86-88, second-hand; for steel)",
                        sheave.id.value, *friction, *sheave.bearing == Bearing::rolling ? "rolling" : "plain"));
    }
}

/// Which sweeps there are is decided here and nowhere else. On every path the line at rest, for riders where it matters
/// also with a side wind from either side; with a rider also at the unit's peak tension. Without sheave friction an
/// empty trolley's return is its sweep at rest. With it, lines rest as they came back, and on every path also as they
/// are about to be paid out: what stands still is somewhere between the two.
void add_sweeps(const Layout& layout, const Courses& courses, const SupportCables& supports,
                const mainline::MainLine& main_line, reeving::Inputs& in) {
  const auto state_of = [&](const mainline::State& s) {
    return reeving::State{s.cable, lengths_at(layout, courses, supports, s.temperature_K)};
  };
  const bool rubs =
      std::any_of(in.sheaves.begin(), in.sheaves.end(), [](const reeving::Sheave& s) { return s.friction > 1; });
  for (const mainline::State& state : main_line.states) in.states.push_back(state_of(state));
  for (std::size_t p = 0; p < main_line.paths.size(); ++p) {
    const mainline::StatePath& path = main_line.paths[p];
    const mainline::State& state = main_line.states[static_cast<std::size_t>(path.state)];
    reeving::SweepInputs sweep;
    sweep.path = static_cast<int>(p);
    sweep.state = in.states[static_cast<std::size_t>(path.state)];
    sweep.reference =
        state_of(*std::find_if(main_line.states.begin(), main_line.states.end(), [&](const mainline::State& s) {
          return s.weather == mainline::Weather::measured && s.stiff == state.stiff && s.taut == state.taut;
        }));
    sweep.trolley_weight_N = layout.brake_trolley.mass_kg * standard_gravity;
    sweep.rider_weight_N = rider_weight_N(layout, path.loading);
    sweep.running = reeving::Running::at_rest;
    if (rubs) sweep.friction = reeving::Friction::returning;
    in.sweeps.push_back(sweep);
    const auto about_to_pay_out = [&] {
      sweep.friction = reeving::Friction::paying_out;
      in.sweeps.push_back(sweep);
    };
    if (path.loading == mainline::Loading::empty) {
      if (rubs) about_to_pay_out();
      continue;
    }
    if (const auto& wind = layout.site.wind_across_m_per_s; wind && in_the_wind(state.weather, path.loading)) {
      const double density =
          air_density_kg_per_m3(layout.site.altitude_m ? layout.site.altitude_m->value : 0, state.temperature_K);
      for (const double side : {1.0, -1.0}) {
        sweep.wind_Pa = side * wind_on_line_Pa(density, *wind) * in.across;
        in.sweeps.push_back(sweep);
      }
      sweep.wind_Pa = {};
    }
    if (rubs) about_to_pay_out();
    sweep.running = reeving::Running::paying_out;
    in.sweeps.push_back(sweep);
  }
}

}  // namespace

reeving::BrakeUnit brake_law(const UnplacedUnit& given) {
  reeving::BrakeUnit unit;
  unit.retraction_N = given.retraction_N;
  if (given.eddy)
    unit.magnetic_N = reeving::EddyLaw{given.eddy->peak_N, given.eddy->critical_speed_m_per_s};
  else
    unit.magnetic_N = given.magnetic_N->value;
  unit.tolerance = given.tolerance;
  return unit;
}

std::optional<double> friction_of(const Sheave& sheave, const Line& line) {
  if (sheave.friction) return sheave.friction->value;
  if (!sheave.bearing || line.material != LineMaterial::steel) return std::nullopt;
  return *sheave.bearing == Bearing::rolling ? 1.04 : 1.09;
}

Solved<reeving::Inputs> reeving_inputs(const Layout& layout, const Frame& frame, const Courses& courses, double ratio,
                                       const mainline::MainLine& main_line, double fastest_m_per_s,
                                       Resolution resolution, std::vector<std::string>& assumptions) {
  constexpr double rounding = 1e-9;
  if (!(ratio >= 1 - rounding))
    return unsolved(fmt::format("the reduction is upside down: the brake unit's line runs {:.3g} times faster than the "
                                "trolley; lead the trolley's line over the block's sheaves and tie the braking line to "
                                "the block",
                                1 / ratio),
                    ratio);
  SupportCables supports;
  for (const SupportLine& line : layout.support_lines) {
    const auto cable = support_cable(layout, line, assumptions);
    if (!cable) return tl::unexpected(cable.error());
    supports.push_back(*cable);
  }
  if (layout.site.wind_across_m_per_s && !layout.site.altitude_m)
    assumptions.push_back("site: altitude 0 m for the density of the air in the wind, where it is greatest");
  reeving::Inputs in;
  in.origin = frame.origin;
  in.along = frame.along;
  in.across = frame.across;
  in.up = frame.up;
  in.rest_m = layout.brake_trolley.rest_m - frame.chainage_of_origin_m;
  in.travel_m = layout.brake_trolley.travel_m;
  in.attachment = site_vector(frame, layout.brake_trolley.attachment);
  in.braking = courses.braking;
  in.pulling = courses.pulling;
  in.nominal_ratio = ratio;
  in.outlet_axis = unit(layout.brake_unit.axis);
  in.unit = brake_law(layout.brake_unit);
  in.rest_extension_m = layout.brake_unit.rest_extension_m;
  const mainline::State& measured = main_line.states.front();
  in.reference = {measured.cable, lengths_at(layout, courses, supports, measured.temperature_K)};
  in.speed_m_per_s = fastest_m_per_s;
  in.length_resolution_m = resolution.length_m;
  in.angle_resolution_rad = resolution.angle_rad;
  assume_friction(layout, courses, assumptions);
  if (auto drawn = Drawing(layout, frame, courses, supports, in).draw(); !drawn) return tl::unexpected(drawn.error());
  in.upstream_m = upstream_travel_m(layout, frame, in);
  add_sweeps(layout, courses, supports, main_line, in);
  return in;
}

}  // namespace fairlead
