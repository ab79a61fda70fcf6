#include <numeric>
#include <vector>

#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

using reeving::BlockPlace;
using reeving::Leg;
using reeving::Placement;
using reeving::Pose;
using reeving::Stray;
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
        .add("efficiency", &Pose::efficiency)
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

/// Contacts and their tensions are those of the legs before and after; a leg's weight is its length times its line's.
void write_turn(Writer& out, const Sweep& sweep, std::size_t sheave, std::size_t sheaves) {
  Columns<Turn>(out, every(sweep.turns, sheave, sheaves))
      .add("on_leg", &Turn::on_leg)
      .add("off_leg", &Turn::off_leg)
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
      .add("H_N", &Leg::H_N);
  out.column("stray_m", sweep.strays, [leg](const Stray& stray) { return stray.legs_m[leg]; });
}

void write_block(Writer& out, const Sweep& sweep, std::size_t block, std::size_t blocks) {
  const auto rows = every(sweep.blocks, block, blocks);
  const auto placed = [&](std::string_view key, auto member) {
    out.column(key, rows, [member](const BlockPlace* row) { return row->placement.*member; });
  };
  placed("at_m", &Placement::at);
  placed("turned_x", &Placement::turned_x);
  placed("turned_y", &Placement::turned_y);
  placed("turned_z", &Placement::turned_z);
  Columns<BlockPlace>(out, rows)
      .add("centre_of_mass_m", &BlockPlace::centre_of_mass)
      .add("held_N", &BlockPlace::held_N)
      .add("held_couple_N_m", &BlockPlace::held_couple_N_m);
  out.column("stray_m", sweep.strays, [block](const Stray& stray) { return stray.blocks_m[block]; });
}

/// Between every pose and the next.
void write_strays(Writer& out, const Sweep& sweep) {
  out.object("strays", [&] {
    out.column("trolley_m", sweep.strays, [](const Stray& stray) { return stray.trolley_m; });
    out.column("rider_m", sweep.strays, [](const Stray& stray) { return stray.rider_m; });
  });
}

void write_worst(Writer& out, const Sweep& sweep) {
  out.object("worst", [&] {
    out.objects("fleet_rad", sweep.fleet_rad, [&](const Extreme& fleet) { write_members(out, fleet); });
    out.objects("least_wrap_rad", sweep.least_wrap_rad, [&](const Extreme& wrap) { write_members(out, wrap); });
    out.objects("least_tension_N", sweep.least_tension_N, [&](const Extreme& least) { write_members(out, least); });
    write_extreme(out, "lead_rad", sweep.lead_rad);
    write_extreme(out, "thickness_m", sweep.thickness_m);
    write_extreme(out, "across_m", sweep.across_m);
    write_extreme(out, "least_pay_out", sweep.least_pay_out);
    out.number("greatest_pay_out", sweep.greatest_pay_out);
    write_extreme(out, "least_efficiency", sweep.least_efficiency);
    write_extreme(out, "greatest_extension_m", sweep.greatest_extension_m);
    out.flag("beyond_data", sweep.beyond_data);
  });
}

std::vector<std::size_t> up_to(std::size_t count) {
  std::vector<std::size_t> indices(count);
  std::iota(indices.begin(), indices.end(), std::size_t{0});
  return indices;
}

void write_sweep(Writer& out, const Rig& rig, std::size_t index) {
  const reeving::Inputs& inputs = *rig.reeving.inputs;
  const reeving::SweepInputs& in = inputs.sweeps.at(index);
  const Sweep& sweep = rig.reeving.solved()->sweeps[index];
  const std::size_t sheaves = inputs.sheaves.size(), lines = inputs.lines.size(), blocks = inputs.blocks.size();
  out.text("name", tables::passage(rig, static_cast<int>(index)));
  out.count("path", sweep.path);
  out.text("running", words::word_for(sweep.running));
  out.text("friction", words::word_for(sweep.friction));
  out.column("tension_ratio", sweep.tension_ratio, [](double ratio) { return ratio; });
  out.number("trolley_weight_N", in.trolley_weight_N);
  out.number("rider_weight_N", in.rider_weight_N);
  out.vector("wind_Pa", in.wind_Pa);
  write_state(out, "state", in.state);
  write_state(out, "reference", in.reference);
  out.count("rest_pose", sweep.rest_pose);
  write_worst(out, sweep);
  write_poses(out, sweep);
  write_strays(out, sweep);
  out.objects("lines", up_to(lines), [&](std::size_t i) {
    out.vector("load_N_per_m", sweep.legs.at(inputs.legs_before(i)).load_N_per_m);  // the same in every pose
    out.column("tension_N", every(sweep.tension_N, i, lines), [](const double* tension_N) { return *tension_N; });
  });
  out.objects("turns", up_to(sheaves), [&](std::size_t i) { write_turn(out, sweep, i, sheaves); });
  out.objects("legs", up_to(inputs.legs()), [&](std::size_t i) { write_leg(out, sweep, i, inputs.legs()); });
  out.objects("blocks", up_to(blocks), [&](std::size_t i) { write_block(out, sweep, i, blocks); });
}

}  // namespace

void write_sweeps(Writer& out, const Rig& rig) {
  const reeving::Reeving* solved = rig.reeving.solved();
  out.objects("sweeps", up_to(solved ? solved->sweeps.size() : 0), [&](std::size_t i) { write_sweep(out, rig, i); });
}

}  // namespace fairlead::json
