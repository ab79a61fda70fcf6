// Sheaves that swivel or hang free: what a crew makes fast, and where the centre then comes to lie.
#include <fmt/format.h>

#include <algorithm>

#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// Centre of the sheave on a mount, as drawn.
Point3 drawn_centre(const reeving::Inputs& in, reeving::Body body) {
  for (const reeving::Sheave& sheave : in.sheaves)
    if (sheave.body == body) return sheave.centre;
  return in.blocks[static_cast<std::size_t>(body)].drawn;
}

std::string length(double m, const Style& style) { return words::shown(m, Dimension::length, style); }

}  // namespace

Point3 eye_of(const Layout& layout, const Sheave& sheave) {
  if (sheave.swivel_at) return *sheave.swivel_at;
  return layout.anchors.at(static_cast<std::size_t>(std::get<AnchorId>(sheave.on))).position;
}

std::string mount_of(const Layout& layout, const Sheave& sheave, const Style& style) {
  switch (sheave.mount) {
    case Mount::fixed:
      return "fixed";
    case Mount::swivel: {
      const Vec3 axis = unit(sheave.swivel_axis->value);
      const double off_m = norm(cross(sheave.position->value - eye_of(layout, sheave), axis));
      return fmt::format("swivels about {}, {} off its axis", direction_of(axis), length(off_m, style));
    }
    case Mount::free:
      return fmt::format("free on a link of {}", length(*sheave.link_m, style));
  }
  return {};
}

bool any_mounted(const Layout& layout) {
  return std::any_of(layout.sheaves.begin(), layout.sheaves.end(),
                     [](const Sheave& sheave) { return sheave.mount != Mount::fixed; });
}

std::optional<Point3> centre_at_rest(const Rig& rig, std::size_t body) {
  const auto rest = rest_pose(rig);
  if (!rest || !rig.reeving.inputs) return std::nullopt;
  const reeving::Inputs& in = *rig.reeving.inputs;
  const reeving::Placement& place = rest->sweep->blocks[rest->index * rig.bodies.size() + body].placement;
  return place.move(drawn_centre(in, static_cast<reeving::Body>(body)), in.blocks[body].drawn);
}

}  // namespace fairlead::tables
