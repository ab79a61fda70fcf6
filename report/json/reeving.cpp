#include <vector>

#include "report/json/stages.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

using reeving::Leg;
using reeving::Pose;
using reeving::Sweep;
using reeving::Turn;

/// Every `stride`-th item from `first`: one sheave's turns, or one leg, over all poses.
template <class T>
std::vector<const T*> every(const std::vector<T>& items, std::size_t first, std::size_t stride) {
  std::vector<const T*> picked;
  for (std::size_t i = first; i < items.size(); i += stride) picked.push_back(&items[i]);
  return picked;
}

/// Columns of one object's members over all poses.
template <class T>
class Columns {
 public:
  Columns(Writer& out, std::vector<const T*> rows) : out_(out), rows_(std::move(rows)) {}
  template <class M>
  Columns& add(std::string_view key, M T::*member) {
    out_.column(key, rows_, [member](const T* row) { return row->*member; });
    return *this;
  }

 private:
  Writer& out_;
  std::vector<const T*> rows_;
};

void write_curve(Writer& out, std::string_view key, std::string_view x_key, std::string_view y_key,
                 const Curve& curve) {
  out.object(key, [&] {
    out.column(x_key, curve.points(), [](const CurvePoint& p) { return p.x; });
    out.column(y_key, curve.points(), [](const CurvePoint& p) { return p.y; });
  });
}

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

void write_inputs(Writer& out, const Rig& rig) {
  if (!rig.reeving.inputs) return out.null("inputs");
  const reeving::Inputs& in = *rig.reeving.inputs;
  out.object("inputs", [&] {
    out.number("rest_m", in.rest_m);
    out.number("travel_m", in.travel_m);
    out.number("upstream_m", in.upstream_m);
    out.vector("attachment_m", in.attachment);
    std::size_t i = 0;
    out.objects("sheaves", in.sheaves, [&](const reeving::Sheave& sheave) {
      out.text("id", rig.layout.sheaves.at(static_cast<std::size_t>(rig.reeved.at(i++))).id.value);
      out.vector("centre_m", sheave.centre);
      out.vector("axle", sheave.axle);
      out.number("radius_m", sheave.radius_m);
      out.text("turning", words::turning_of(sheave.sense));
    });
    out.vector("outlet_m", in.outlet());
    out.vector("outlet_axis", in.outlet_axis);
    write_unit(out, in.unit);
    out.number("rest_extension_m", in.rest_extension_m);
    write_cable(out, "reference_cable", in.reference.cable);
    out.number("line_weight_N_per_m", in.lines.front().weight_N_per_m);
    out.number("speed_m_per_s", in.speed_m_per_s);
    out.number("length_resolution_m", in.length_resolution_m);
    out.number("angle_resolution_rad", in.angle_resolution_rad);
  });
}

void write_poses(Writer& out, const Sweep& sweep) {
  out.object("poses", [&] {
    Columns<Pose>(out, every(sweep.poses, 0, 1))
        .add("travel_m", &Pose::travel_m)
        .add("trolley_m", &Pose::trolley)
        .add("attachment_m", &Pose::attachment)
        .add("rider_m", &Pose::rider)
        .add("extension_m", &Pose::extension_m)
        .add("ratio", &Pose::ratio)
        .add("pay_out", &Pose::pay_out)
        .add("lead_rad", &Pose::lead_rad)
        .add("trolley_tension_N", &Pose::trolley_tension_N)
        .add("outlet_tension_N", &Pose::outlet_tension_N)
        .add("pull_on_trolley_N", &Pose::pull_on_trolley_N)
        .add("pull_on_unit_N", &Pose::pull_on_unit_N)
        .add("hold_N", &Pose::hold_N)
        .add("start_support_N", &Pose::start_support_N)
        .add("end_support_N", &Pose::end_support_N)
        .add("main_line_weight_N", &Pose::main_line_weight_N)
        .add("main_line_moment_N_m", &Pose::main_line_moment_N_m)
        .add("line_weight_N", &Pose::line_weight_N)
        .add("tau_rad", &Pose::tau_rad)
        .add("lift_by_line_m", &Pose::lift_by_line_m);
  });
}

void write_turn(Writer& out, const Sweep& sweep, std::size_t sheave, std::size_t sheaves) {
  Columns<Turn>(out, every(sweep.turns, sheave, sheaves))
      .add("on_m", &Turn::on)
      .add("off_m", &Turn::off)
      .add("on_leg", &Turn::on_leg)
      .add("off_leg", &Turn::off_leg)
      .add("on_tension_N", &Turn::on_tension_N)
      .add("off_tension_N", &Turn::off_tension_N)
      .add("wrap_rad", &Turn::wrap_rad)
      .add("on_fleet_rad", &Turn::on_fleet_rad)
      .add("off_fleet_rad", &Turn::off_fleet_rad)
      .add("force_N", &Turn::force_N)
      .add("wrap_centre_m", &Turn::wrap_centre)
      .add("couple_N_m", &Turn::couple_N_m);
}

void write_leg(Writer& out, const Sweep& sweep, std::size_t leg, std::size_t legs) {
  Columns<Leg>(out, every(sweep.legs, leg, legs))
      .add("from_m", &Leg::from)
      .add("to_m", &Leg::to)
      .add("length_m", &Leg::length_m)
      .add("sag_m", &Leg::sag_m)
      .add("from_tension_N", &Leg::from_tension_N)
      .add("to_tension_N", &Leg::to_tension_N)
      .add("H_N", &Leg::H_N)
      .add("weight_N", &Leg::weight_N);
}

void write_worst(Writer& out, const Sweep& sweep) {
  out.object("worst", [&] {
    out.objects("fleet_rad", sweep.fleet_rad, [&](const Extreme& fleet) {
      out.number("value", fleet.value);
      out.number("bound", fleet.bound);
      out.count("pose", fleet.pose);
    });
    write_extreme(out, "lead_rad", sweep.lead_rad);
    write_extreme(out, "thickness_m", sweep.thickness_m);
    write_extreme(out, "across_m", sweep.across_m);
    write_extreme(out, "least_pay_out", sweep.least_pay_out);
    write_extreme(out, "greatest_extension_m", sweep.greatest_extension_m);
    out.flag("beyond_data", sweep.beyond_data);
  });
}

std::vector<std::size_t> up_to(std::size_t count) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < count; ++i) indices.push_back(i);
  return indices;
}

void write_sweep(Writer& out, const Rig& rig, const Sweep& sweep, const reeving::SweepInputs& in) {
  const std::size_t sheaves = rig.reeved.size();
  out.text("name", words::name_of(*rig.main_line.solved(), sweep));
  out.count("path", sweep.path);
  out.text("running", words::word_for(sweep.running));
  out.number("trolley_weight_N", in.trolley_weight_N);
  out.number("rider_weight_N", in.rider_weight_N);
  write_cable(out, "cable", in.state.cable);
  out.count("rest_pose", sweep.rest_pose);
  write_worst(out, sweep);
  write_poses(out, sweep);
  out.objects("turns", up_to(sheaves), [&](std::size_t i) { write_turn(out, sweep, i, sheaves); });
  out.objects("legs", up_to(sheaves + 1), [&](std::size_t i) { write_leg(out, sweep, i, sheaves + 1); });
}

}  // namespace

void write_extreme(Writer& out, std::string_view key, const Extreme& extreme) {
  out.object(key, [&] {
    out.number("value", extreme.value);
    out.number("bound", extreme.bound);
    out.count("pose", extreme.pose);
  });
}

void write_reeving(Writer& out, const Rig& rig) {
  static const reeving::Reeving nothing;
  const reeving::Reeving* solved = rig.reeving.solved();
  const reeving::Reeving& reeving = solved ? *solved : nothing;
  const auto known = [&](double value) { return solved ? std::optional<double>(value) : std::nullopt; };
  out.object("reeving", [&] {
    write_unsolved(out, *rig.reeving.result);
    write_inputs(out, rig);
    out.number("peak_tension_N", known(reeving.peak_tension_N));
    out.number("peak_line_speed_m_per_s", known(reeving.peak_line_speed_m_per_s));
    out.number("retraction_at_full_N", known(reeving.retraction_at_full_N));
    out.number("finished_length_m", solved ? std::optional<double>(reeving.finished_length_m.front()) : std::nullopt);
    std::size_t i = 0;
    out.objects("sweeps", reeving.sweeps,
                [&](const Sweep& sweep) { write_sweep(out, rig, sweep, rig.reeving.inputs->sweeps.at(i++)); });
  });
}

}  // namespace fairlead::json
