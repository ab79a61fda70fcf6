#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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
  if (const auto& envelope = layout.riders.envelope) {
    in.rider = clearance::Envelope{envelope->width_m, envelope->length_m, envelope->above_m, envelope->below_m};
    if (arrest) in.swing = swing_of(*arrest);
    if (in.swing && envelope->sideways_rad) in.swing->sideways_rad = envelope->sideways_rad->value;
    if (!envelope->sideways_rad)
      assumptions.push_back("riders swing along the main line alone: no riders.envelope.sideways given");
    // Beyond this a rider in contact stays clear of a line above him by the limit, whatever it does and however he
    // leans: the top of the envelope turns about the wheel, and the line is tied beside it.
    const auto& limit = layout.limits.rider_line_clearance_m;
    in.hands_m = std::hypot(0.5 * envelope->length_m, envelope->above_m) + norm(reeving.attachment) +
                 (limit ? limit->at.value : 0);
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
  return in;
}

}  // namespace fairlead
