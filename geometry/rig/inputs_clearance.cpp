#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/layout/rider_shape.hpp"
#include "geometry/rig/air.hpp"
#include "geometry/rig/drawn.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

Vec3 half_of(const Size& size) { return 0.5 * Vec3{size.along_m, size.across_m, size.up_m}; }

clearance::Box upright(const Frame& frame, Point3 centre, const Size& size) {
  return {centre, frame.along, frame.across, frame.up, half_of(size)};
}

/// Flanges stand a line's diameter above its centre, and a groove without a width is two diameters wide (common
/// practice, no source).
clearance::SheaveBody body_of(const Sheave& sheave, const Frame& frame, Point3 centre, double line_diameter_m) {
  clearance::SheaveBody body;
  body.rim_radius_m = 0.5 * sheave.pitch_diameter_m + line_diameter_m;
  body.width_m = sheave.groove_m ? sheave.groove_m->value : 2 * line_diameter_m;
  if (sheave.frame_m && std::holds_alternative<AnchorId>(sheave.on))
    body.frame = upright(frame, centre, *sheave.frame_m);
  return body;
}

/// The passages that come nearest: what hangs below the main line is met by the heaviest rider on the warm line, what
/// hangs above it by the lightest on the cold one; an empty trolley's lines rest as well.
bool looked_at(const mainline::MainLine& main_line, const reeving::SweepInputs& sweep) {
  const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(sweep.path)];
  const mainline::Weather weather = main_line.states[static_cast<std::size_t>(path.state)].weather;
  switch (path.loading) {
    case mainline::Loading::empty:
      return true;
    case mainline::Loading::lightest:
      return weather == mainline::Weather::cold;
    case mainline::Loading::heaviest:
      return weather == mainline::Weather::warm;
  }
  return true;
}

/// Cold, every load is looked at: under a heavy one the line is lowest there and higher beyond.
bool spans(const mainline::MainLine& main_line, const reeving::SweepInputs& sweep) {
  const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(sweep.path)];
  return looked_at(main_line, sweep) ||
         main_line.states[static_cast<std::size_t>(path.state)].weather == mainline::Weather::cold;
}

/// On the side of a rider who faces along the line no more than his drag area is known.
clearance::SideWind side_wind(const Layout& layout, double temperature_K, double rider_weight_N) {
  clearance::SideWind wind;
  const auto& speed = layout.site.wind_across_m_per_s;
  if (!speed) return wind;
  const auto& area_m2 = layout.riders.drag_area_m2;
  const SidePush push = side_push(layout.site.altitude_m ? layout.site.altitude_m->value : 0, temperature_K, *speed,
                                  area_m2 ? area_m2->value : 0);
  wind.line_N_per_m = push.line_Pa * layout.main_line.diameter_m;
  if (rider_weight_N > 0 && area_m2) {
    wind.rider_N = push.rider_N;
    const double hangs_N = rider_weight_N - layout.riders.trolley_mass_kg * standard_gravity;
    wind.lean_rad = std::atan2(wind.rider_N, hangs_N);
  }
  return wind;
}

/// Lines without wind, one passage for each path and way of running: main line and rider do not feel sheaves.
void add_spans(const Layout& layout, const Frame& frame, const mainline::MainLine& main_line,
               const reeving::Inputs& reeving, clearance::Inputs& in, std::vector<std::string>& assumptions) {
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s) {
    const reeving::SweepInputs& sweep = reeving.sweeps[s];
    const bool seen = std::any_of(in.spans.begin(), in.spans.end(), [&](const clearance::Span& span) {
      const reeving::SweepInputs& other = reeving.sweeps[static_cast<std::size_t>(span.sweep)];
      return other.path == sweep.path && other.running == sweep.running;
    });
    if (seen || !(sweep.wind_Pa == Vec3{}) || !spans(main_line, sweep)) continue;
    const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(sweep.path)];
    const double temperature_K = main_line.states[static_cast<std::size_t>(path.state)].temperature_K;
    in.spans.push_back(
        {static_cast<int>(s), looked_at(main_line, sweep), side_wind(layout, temperature_K, sweep.rider_weight_N)});
  }
  in.push_off_m = layout.approach ? layout.approach->start_m - frame.chainage_of_origin_m : 0.01 * frame.span_m;
  if (!layout.approach) assumptions.push_back("riders set off at a hundredth of the span: no approach.start given");
  if (layout.site.wind_across_m_per_s && !layout.riders.drag_area_m2)
    assumptions.push_back("no side wind on riders, for no riders.drag_area is given");
}

/// Of all corners; not known where one of them is not solved, or ends with the rider falling into a slack lanyard. Who
/// hangs short of the brake trolley never swings in contact with it. Beyond where anyone comes the last leans go on.
std::optional<clearance::Swing> swing_of(const arrest::Arrest& arrest) {
  std::vector<arrest::Leans> all{{}};
  for (const arrest::CornerResult& corner : arrest.corners) {
    if (corner.hangs_at_m || corner.back_at_start_m_per_s) continue;
    if (!corner.motion || corner.motion->outcome == arrest::Outcome::lanyard_slack) return std::nullopt;
    arrest::take_in(all, corner.leans);
  }
  clearance::Swing swing{.leans = {}, .step_m = arrest::leans_step_m};
  for (const arrest::Leans& leans : all) swing.leans.push_back({leans.back_rad, leans.forward_rad});
  return swing;
}

/// How whole a scan is; whatever it is, every triangle counts as it stands.
std::string words_of(const Structure& scan) {
  const sites::Soundness& sound = scan.site->soundness();
  const bool cloud = scan.site->is_cloud();
  std::string words = fmt::format("structure \"{}\": {} {} of {}, each taken as it stands", scan.id.value, sound.items,
                                  cloud ? "points" : "triangles", scan.file->value);
  const auto add = [&](std::uint32_t count, std::string_view what) {
    if (count > 0) words += fmt::format("; {} {}", count, what);
  };
  add(sound.flat, "without an area");
  add(sound.fanned, "polygons cut into triangles");
  add(sound.loose_vertices, "vertices of no triangle left out");
  if (sound.edges) {
    add(sound.edges->duplicate, "triangles there twice");
    add(sound.edges->open, "edges with one triangle (a rim, or a hole)");
    add(sound.edges->non_manifold, "edges with more than two");
    add(sound.edges->inverted, "edges whose triangles face to different sides");
  } else if (!cloud) {
    words += "; too many for holes to be looked for";
  }
  for (const std::string& note : sound.notes) words += "; " + note;
  return words;
}

}  // namespace

std::optional<clearance::Shape> solid_of(const Structure& structure) {
  switch (structure.kind.value) {
    case StructureKind::box: {
      const double c = std::cos(structure.bearing_rad), s = std::sin(structure.bearing_rad);
      return clearance::Box{structure.centre->value, {c, s, 0}, {-s, c, 0}, {0, 0, 1}, half_of(*structure.size_m)};
    }
    case StructureKind::post:
      return clearance::Post{structure.from->value, structure.to->value, 0.5 * *structure.diameter_m};
    case StructureKind::plane:
      return clearance::Plane{structure.through->value, unit(structure.normal->value)};
    case StructureKind::scan:
      break;
  }
  return std::nullopt;
}

clearance::Inputs clearance_inputs(const Layout& layout, const Frame& frame, const Courses& courses,
                                   const mainline::MainLine& main_line, const reeving::Inputs& reeving,
                                   const arrest::Arrest* arrest, Resolution resolution,
                                   std::vector<std::string>& assumptions) {
  clearance::Inputs in;
  for (const Structure& structure : layout.structures)
    in.structures.push_back({solid_of(structure).value_or(clearance::Plane{}), structure.site,
                             keeps_clear(structure, Mover::lines), keeps_clear(structure, Mover::block),
                             keeps_clear(structure, Mover::rider)});
  for (const Structure& structure : layout.structures)
    if (structure.site) assumptions.push_back(words_of(structure));
  if (const auto shape = shape_of(layout.riders)) {
    const RiderExtents box = box_around(*shape);
    in.rider = clearance::Envelope{box.width_m, box.length_m, box.above_m, box.below_m};
    if (!layout.riders.envelope) {
      in.rider->corners = shape->corners;
      in.rider->margin_m = shape->margin_m;
    }
    if (arrest) in.swing = swing_of(*arrest);
    if (in.swing && shape->sideways_rad) in.swing->sideways_rad = shape->sideways_rad->value;
    if (!shape->sideways_rad)
      assumptions.push_back(fmt::format("riders swing along the main line alone: no riders.{}.sideways given",
                                        layout.riders.envelope ? "envelope"
                                        : layout.riders.reach  ? "reach"
                                                               : "body"));
    // Beyond this a rider in contact stays clear of a line above him by the limit, whatever it does and however he
    // leans: the top of the envelope turns about the wheel, and the line is tied beside it.
    const auto& limit = layout.limits.rider_line_clearance_m;
    in.hands_m = std::hypot(0.5 * box.length_m, box.above_m) + norm(reeving.attachment) + (limit ? limit->at.value : 0);
  }
  for (const Course& course : courses.courses)
    for (const int index : course.sheaves) {
      const bool wheel = index < 0;
      in.sheaves.push_back(wheel ? clearance::SheaveBody{}
                                 : body_of(layout.sheaves[static_cast<std::size_t>(index)], frame,
                                           reeving.sheaves[in.sheaves.size()].centre,
                                           layout.lines[static_cast<std::size_t>(course.item.index)].diameter_m));
    }
  for (std::size_t i = 0; i < layout.blocks.size(); ++i) {
    const auto& size = layout.blocks[i].size_m;
    in.blocks.push_back(size ? std::optional(upright(frame, reeving.blocks[i].drawn, *size)) : std::nullopt);
  }
  in.blocks.resize(reeving.blocks.size());
  in.main_line_radius_m = 0.5 * layout.main_line.diameter_m;
  in.resolution_m = 0.25 * resolution.length_m;
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s)
    if (looked_at(main_line, reeving.sweeps[s])) in.sweeps.push_back(static_cast<int>(s));
  if (!in.structures.empty()) add_spans(layout, frame, main_line, reeving, in, assumptions);
  return in;
}

}  // namespace fairlead
