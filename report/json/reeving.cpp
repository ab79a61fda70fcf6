#include <vector>

#include "report/json/stages.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

void write_unit(Writer& out, const reeving::BrakeUnit& unit) {
  out.object("unit", [&] {
    write_curve(out, "retraction", "extension_m", "tension_N", unit.retraction_N);
    if (const auto* eddy = std::get_if<reeving::EddyLaw>(&unit.magnetic_N)) {
      out.object("eddy", [&] {
        out.number("peak_N", eddy->peak_N);
        out.number("critical_speed_m_per_s", eddy->critical_speed_m_per_s);
      });
      out.null("magnetic");
    } else {
      out.null("eddy");
      write_curve(out, "magnetic", "line_speed_m_per_s", "tension_N", std::get<Curve>(unit.magnetic_N));
    }
    out.number("tolerance", unit.tolerance);
  });
}

std::string_view word_for(reeving::Closing closing) {
  switch (closing) {
    case reeving::Closing::unit:
      return "brake unit";
    case reeving::Closing::length:
      return "length";
    case reeving::Closing::block_at_rest:
      return "block at rest";
  }
  return "unknown";
}

std::string_view word_for(reeving::Joint joint) {
  switch (joint) {
    case reeving::Joint::none:
      return "none";
    case reeving::Joint::carrier:
      return "carrier";
    case reeving::Joint::ball:
      return "ball";
    case reeving::Joint::hinge:
      return "hinge";
  }
  return "unknown";
}

/// What a point of the reeving moves with.
std::string body(const Rig& rig, reeving::Body body) {
  if (body == reeving::on_ground) return "ground";
  if (body == reeving::on_trolley) return "brake trolley";
  return words::id_of(rig.layout, rig.bodies.at(static_cast<std::size_t>(body)));
}

void write_sheaves(Writer& out, const Rig& rig) {
  std::size_t i = 0;
  out.objects("sheaves", rig.reeving.inputs->sheaves, [&](const reeving::Sheave& sheave) {
    const int reeved = rig.reeved.at(i++);
    const bool wheel = reeved < 0;
    wheel ? out.null("id") : out.text("id", rig.layout.sheaves.at(static_cast<std::size_t>(reeved)).id.value);
    out.text("moves_with", body(rig, sheave.body));
    out.vector("centre_m", sheave.centre);
    wheel ? out.null("axle") : out.vector("axle", sheave.axle);
    out.number("radius_m", sheave.radius_m);
    wheel ? out.null("turning") : out.text("turning", words::turning_of(sheave.sense));
    out.number("friction", sheave.friction);
    out.number("friction_wrap_rad", sheave.friction_wrap_rad);
  });
}

void write_end(Writer& out, std::string_view key, const Rig& rig, const reeving::End& end) {
  out.object(key, [&] {
    out.text("moves_with", body(rig, end.body));
    end.body == reeving::on_trolley ? out.null("at_m") : out.vector("at_m", end.at);
  });
}

void write_lines(Writer& out, const Rig& rig) {
  std::size_t i = 0;
  out.objects("lines", rig.reeving.inputs->lines, [&](const reeving::Line& line) {
    const Item item = rig.lines.at(i++);
    out.text("kind", words::kind_of(item.kind));
    out.text("id", words::id_of(rig.layout, item));
    write_end(out, "from", rig, line.from);
    write_end(out, "to", rig, line.to);
    out.count("first_sheave", line.first_sheave);
    out.count("sheaves", line.sheaves);
    out.number("weight_N_per_m", line.weight_N_per_m);
    out.number("diameter_m", line.diameter_m);
    out.number("compliance_per_N", line.compliance_per_N);
    out.text("closing", word_for(line.closing));
  });
}

void write_blocks(Writer& out, const Rig& rig) {
  std::size_t i = 0;
  out.objects("blocks", rig.reeving.inputs->blocks, [&](const reeving::Block& block) {
    out.text("id", words::id_of(rig.layout, rig.bodies.at(i++)));
    out.vector("drawn_m", block.drawn);
    out.vector("centre_of_mass_m", block.centre_of_mass);
    out.number("weight_N", block.weight_N);
    out.text("joint", word_for(block.joint));
    block.joint == reeving::Joint::hinge ? out.vector("hinge_axis", block.hinge_axis) : out.null("hinge_axis");
    out.number("rest_m", block.rest_m);
  });
}

void write_inputs(Writer& out, const Rig& rig) {
  if (!rig.reeving.inputs) return out.null("inputs");
  const reeving::Inputs& in = *rig.reeving.inputs;
  out.object("inputs", [&] {
    out.number("rest_m", in.rest_m);
    out.number("travel_m", in.travel_m);
    out.number("upstream_m", in.upstream_m);
    out.vector("attachment_m", in.attachment);
    write_sheaves(out, rig);
    write_lines(out, rig);
    out.count("pulling", in.pulling);
    out.count("braking", in.braking);
    write_blocks(out, rig);
    out.vector("outlet_m", in.outlet());
    out.vector("outlet_axis", in.outlet_axis);
    write_unit(out, in.unit);
    out.number("rest_extension_m", in.rest_extension_m);
    write_state(out, "reference", in.reference);
    out.number("speed_m_per_s", in.speed_m_per_s);
    out.number("length_resolution_m", in.length_resolution_m);
    out.number("angle_resolution_rad", in.angle_resolution_rad);
  });
}

}  // namespace

void write_curve(Writer& out, std::string_view key, std::string_view x_key, std::string_view y_key,
                 const Curve& curve) {
  out.object(key, [&] {
    out.column(x_key, curve.points(), [](const CurvePoint& p) { return p.x; });
    out.column(y_key, curve.points(), [](const CurvePoint& p) { return p.y; });
  });
}

void write_state(Writer& out, std::string_view key, const reeving::State& state) {
  out.object(key, [&] {
    write_cable(out, "cable", state.cable);
    out.column("unstretched_m", state.unstretched_m, [](double length_m) { return length_m; });
  });
}

void write_members(Writer& out, const Extreme& extreme) {
  out.number("value", extreme.value);
  out.number("bound", extreme.bound);
  out.count("pose", extreme.pose);
}

void write_extreme(Writer& out, std::string_view key, const Extreme& extreme) {
  out.object(key, [&] { write_members(out, extreme); });
}

void write_reeving(Writer& out, const Rig& rig) {
  static const reeving::Reeving nothing;
  const reeving::Reeving* solved = rig.reeving.solved();
  const reeving::Reeving& reeving = solved ? *solved : nothing;
  const auto known = [&](double value) { return solved ? std::optional<double>(value) : std::nullopt; };
  const auto itself = [](double value) { return value; };
  out.object("reeving", [&] {
    write_unsolved(out, *rig.reeving.result);
    out.number("nominal_ratio", rig.nominal_ratio);
    write_inputs(out, rig);
    out.number("peak_tension_N", known(reeving.peak_tension_N));
    out.number("peak_line_speed_m_per_s", known(reeving.peak_line_speed_m_per_s));
    out.number("retraction_at_full_N", known(reeving.retraction_at_full_N));
    out.column("friction", reeving.friction, itself);
    out.column("finished_length_m", reeving.finished_length_m, itself);
    out.column("rest_tension_N", reeving.rest_tension_N, itself);
    write_sweeps(out, rig);
  });
}

}  // namespace fairlead::json
