#include "geometry/checks/legs.hpp"

#include "geometry/rig/courses.hpp"

namespace fairlead {
namespace {

Item item_of(const Held& held) {
  if (const auto* anchor = std::get_if<AnchorId>(&held)) return {Item::Kind::anchor, static_cast<int>(*anchor)};
  if (const auto* block = std::get_if<BlockId>(&held)) return {Item::Kind::block, static_cast<int>(*block)};
  return {std::holds_alternative<BrakeUnitEnd>(held) ? Item::Kind::brake_unit : Item::Kind::brake_trolley, 0};
}

double metres(const std::optional<Real>& given) { return given ? given->value : 0; }

}  // namespace

std::vector<LegOf> legs_of(const Rig& rig) {
  std::vector<LegOf> legs;
  const auto courses = courses_of(rig.layout);
  if (!rig.reeving.inputs || !courses) return legs;
  const reeving::Inputs& in = *rig.reeving.inputs;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const Course& course = courses->courses[l];
    LegSide from{item_of(course.from), in.lines[l].from.body}, end{item_of(course.to), in.lines[l].to.body};
    if (course.item.kind == Item::Kind::line) {
      const Line& line = rig.layout.lines[static_cast<std::size_t>(course.item.index)];
      from.termination_m = metres(course.reversed ? line.to_termination_m : line.from_termination_m);
      end.termination_m = metres(course.reversed ? line.from_termination_m : line.to_termination_m);
    }
    for (std::size_t k = 0; k < course.sheaves.size(); ++k) {
      const reeving::Body body = in.sheaves[static_cast<std::size_t>(in.lines[l].first_sheave) + k].body;
      const Item sheave =
          course.sheaves[k] >= 0 ? Item{Item::Kind::sheave, course.sheaves[k]} : Item{Item::Kind::block, body};
      legs.push_back({course.item, from, {sheave, body}});
      from = {sheave, body};
    }
    legs.push_back({course.item, from, end});
  }
  return legs;
}

std::size_t leg_onto(const reeving::Inputs& in, std::size_t sheave) {
  std::size_t line = 0;
  while (static_cast<std::size_t>(in.lines[line].first_sheave + in.lines[line].sheaves) <= sheave) ++line;
  return sheave + line;
}

std::optional<int> redirect_of(const Rig& rig) {
  if (rig.reeved.empty() || rig.reeved.front() < 0) return std::nullopt;
  const Sheave& first = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved.front())];
  return std::holds_alternative<AnchorId>(first.on) ? std::optional(rig.reeved.front()) : std::nullopt;
}

Place place_of(const Sheave& sheave) {
  return sheave.position ? sheave.position->place : sheave.offset ? sheave.offset->place : sheave.link_m->place;
}

}  // namespace fairlead
