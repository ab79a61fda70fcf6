#include "tests/laws/moved.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::laws {
namespace {

std::optional<Turning> other(std::optional<Turning> turning) {
  if (!turning) return turning;
  return *turning == Turning::clockwise ? Turning::anticlockwise : Turning::clockwise;
}

void twice(Real& r) { r.value *= 2; }
void twice(Given<Range>& r) { r.value.low *= 2, r.value.high *= 2; }
void twice(Given<Curve>& c) {
  std::vector<CurvePoint> points = c.value.points();
  for (CurvePoint& p : points) p.y *= 2;
  c.value = Curve(std::move(points));
}
template <class T>
void twice(std::optional<T>& t) {
  if (t) twice(*t);
}

template <class Cable>
void heavier(Cable& cable) {
  twice(cable.mass_kg_per_m), twice(cable.ea_N), twice(cable.mbs_N), twice(cable.tension_N);
}

}  // namespace

Vec3 Motion::operator()(Vec3 v) const {
  if (mirrors) v.y = -v.y;
  const double c = std::cos(turn_rad), s = std::sin(turn_rad);
  return {c * v.x - s * v.y, s * v.x + c * v.y, v.z};
}

Layout moved(Layout layout, const Motion& motion) {
  const auto move = [&](auto& given) { given.value = motion(given.value); };
  const auto move_if = [&](auto& given) {
    if (given) given->value = motion(given->value);
  };
  const auto across = [&](Vec3& rig) {
    if (motion.mirrors) rig.y = -rig.y;
  };
  const auto across_if = [&](std::optional<Given<Vec3>>& rig) {
    if (rig) across(rig->value);
  };
  for (Anchor& a : layout.anchors) move(a.position);
  for (Sheave& s : layout.sheaves) {
    move_if(s.position), across_if(s.offset), move(s.axle);
    move_if(s.swivel_axis), move_if(s.swivel_at), across(s.centre_of_mass.value);
  }
  for (Line& l : layout.lines) {
    across_if(l.from_offset), across_if(l.to_offset);
    if (motion.mirrors)
      for (Over& over : l.route) over.turning = other(over.turning);
  }
  for (Block& b : layout.blocks) across(b.centre_of_mass.value);
  for (SupportLine& s : layout.support_lines) across(s.wheel.value);
  move(layout.brake_unit.outlet), move(layout.brake_unit.axis);
  across(layout.brake_trolley.attachment.value);
  move_if(layout.site.chainage_zero);
  for (Structure& s : layout.structures) {
    move_if(s.centre), move_if(s.from), move_if(s.to), move_if(s.through), move_if(s.normal);
    s.bearing_rad.value = (motion.mirrors ? -1 : 1) * s.bearing_rad.value + motion.turn_rad;
  }
  return layout;
}

Layout reversed(Layout layout) {
  for (Line& line : layout.lines) {
    std::swap(line.from, line.to);
    std::swap(line.from_place, line.to_place);
    std::swap(line.from_offset, line.to_offset);
    std::swap(line.from_termination_m, line.to_termination_m);
    std::reverse(line.route.begin(), line.route.end());
    for (Over& over : line.route) over.turning = other(over.turning);
  }
  for (SupportLine& line : layout.support_lines) {
    std::swap(line.from, line.to);
    std::swap(line.from_place, line.to_place);
    if (line.tension_at.value != TensionAt::horizontal)
      line.tension_at.value = line.tension_at.value == TensionAt::start ? TensionAt::end : TensionAt::start;
  }
  return layout;
}

Layout doubled(Layout layout) {
  heavier(layout.main_line);
  for (SupportLine& s : layout.support_lines) heavier(s);
  for (ParallelLine& p : layout.parallel_lines) heavier(p), twice(p.rider_mass_kg);
  for (Anchor& a : layout.anchors) twice(a.wll_N), twice(a.mbs_N);
  for (Sheave& s : layout.sheaves) twice(s.wll_N), twice(s.mbs_N), twice(s.mass_kg);
  for (Line& l : layout.lines) twice(l.mass_kg_per_m), twice(l.mbs_N), twice(l.ea_N);
  for (Block& b : layout.blocks) twice(b.mass_kg), twice(b.wll_N), twice(b.mbs_N);
  for (Connector& c : layout.connectors) twice(c.wll_N), twice(c.mbs_N);
  BrakeUnit& unit = layout.brake_unit;
  twice(unit.mass_kg), twice(unit.rider_mass_kg), twice(unit.retraction_N), twice(unit.magnetic_N);
  if (unit.eddy) twice(unit.eddy->peak_N);
  twice(layout.brake_trolley.mass_kg), twice(layout.brake_trolley.wll_N), twice(layout.brake_trolley.mbs_N);
  twice(layout.riders.mass_kg), twice(layout.riders.trolley_mass_kg), twice(layout.riders.rescuer_mass_kg);
  twice(unit.moving_mass_kg), twice(layout.brake_trolley.static_resistance_N);
  twice(layout.riders.drag_area_m2), twice(layout.riders.lanyard_stiffness_N_per_m);
  if (layout.backup_brake) twice(layout.backup_brake->force_N), twice(layout.backup_brake->resistance_N);
  twice(layout.site.ice_density_kg_per_m3);
  for (auto* wind : {&layout.site.wind_across_m_per_s, &layout.site.ice_wind_m_per_s, &layout.site.storm_wind_m_per_s})
    if (*wind) (*wind)->value *= std::sqrt(2.0);
  return layout;
}

}  // namespace fairlead::laws
