#include <functional>

#include "geometry/checks/corners.hpp"
#include "report/json/stages.hpp"

namespace fairlead::json {
namespace {

using arrest::Approach;
using arrest::Arrest;
using arrest::Corner;
using arrest::CornerResult;
using arrest::Governing;
using arrest::Inputs;
using arrest::Motion;
using arrest::Peak;

/// Short, for programs: the words of a finding are longer.
std::string_view code_of(arrest::Wind wind) {
  switch (wind) {
    case arrest::Wind::none:
      return "none";
    case arrest::Wind::head:
      return "head";
    case arrest::Wind::tail:
      return "tail";
  }
  return "unknown";
}

std::string_view code_of(arrest::Outcome outcome) {
  switch (outcome) {
    case arrest::Outcome::stops:
      return "stops";
    case arrest::Outcome::creeps:
      return "creeps";
    case arrest::Outcome::lanyard_slack:
      return "lanyard slack";
    case arrest::Outcome::travel_exhausted:
      return "travel exhausted";
    case arrest::Outcome::extension_exhausted:
      return "extension exhausted";
  }
  return "unknown";
}

std::string_view code_of(arrest::FinalRest::How how) {
  using How = arrest::FinalRest::How;
  switch (how) {
    case How::holds:
      return "holds";
    case How::held_back:
      return "held back";
    case How::crept_on:
      return "crept on";
    case How::rolled_back:
      return "rolled back";
    case How::pushed_back:
      return "pushed back";
    case How::runs_on:
      return "runs on";
  }
  return "unknown";
}

}  // namespace

void write_arrest_inputs(Writer& out, const Solved<Inputs>& inputs) {
  if (!inputs) return out.null("inputs");
  const Inputs& in = *inputs;
  out.object("inputs", [&] {
    out.column("rider_kg", in.rider_kg, std::identity());
    out.number("rider_trolley_kg", in.rider_trolley_kg);
    out.number("brake_trolley_kg", in.brake_trolley_kg);
    out.number("hanging_m", in.hanging_m);
    out.number("lanyard_N_per_m", in.lanyard_N_per_m);
    out.number("lanyard_damping", in.lanyard_damping);
    out.number("bumper_N_per_m", in.bumper_N_per_m);
    out.number("bumper_damping", in.bumper_damping);
    out.number("bumper_give_m", in.bumper_give_m);
    write_span(out, "rolling", in.rolling);
    out.number("drag_area_m2", in.drag_area_m2);
    out.column("air_kg_per_m3", in.air_kg_per_m3, std::identity());
    out.number("wind_m_per_s", in.wind_m_per_s);
    const auto& measured = in.measured_speed_m_per_s;
    measured ? write_span(out, "measured_speed_m_per_s", *measured) : out.null("measured_speed_m_per_s");
    out.number("start_m", in.start_m);
    in.start_m ? write_span(out, "push_off_m_per_s", in.push_off_m_per_s) : out.null("push_off_m_per_s");
    write_span(out, "brake_share", in.brake_share);
    out.number("return_share", in.return_share);
    out.number("moving_mass_kg", in.moving_mass_kg);
    out.number("extension_limit_m", in.extension_limit_m);
    out.number("static_N", in.static_N);
    out.flag("held_back", in.held_back);
    out.flag("coupled", in.coupled);
    out.number("rest_m", in.rest_m);
    out.number("travel_m", in.travel_m);
    out.number("backup_m", in.backup_m);
    in.backup_N ? write_curve(out, "backup", "compression_m", "force_N", *in.backup_N) : out.null("backup");
    out.number("backup_stroke_m", in.backup_stroke_m);
  });
}

namespace {

void write_corner(Writer& out, const Rig& rig, const Corner& corner) {
  out.text("name", name_of(rig, corner));
  out.count("path", corner.path);
  out.flag("heaviest", corner.heaviest);
  out.flag("fastest", corner.fastest);
  out.text("wind", code_of(corner.wind));
  out.flag("high_rolling", corner.high_rolling);
  out.flag("strong_brake", corner.strong_brake);
}

void write_computed(Writer& out, const Solved<Approach>& approach) {
  out.object("computed", [&] {
    write_unsolved(out, approach);
    if (!approach) return;
    out.number("arrival_speed_m_per_s", approach->arrival_speed_m_per_s);
    out.number("acceleration_m_per_s2", approach->acceleration_m_per_s2);
    out.number("time_s", approach->time_s);
    out.number("greatest_speed_m_per_s", approach->greatest_speed_m_per_s);
    out.number("speed_over_wave", approach->speed_over_wave);
    out.number("worked_J", approach->worked_J);
    out.number("resisted_J", approach->resisted_J);
    out.number("energy_residual", approach->energy_residual, residual_digits);
    out.number("stalled_at_m", approach->stalled_at_m);
    out.number("hangs_at_m", approach->hangs_at_m);
    out.number("back_at_start_m_per_s", approach->back_at_start_m_per_s);
  });
}

void write_peak(Writer& out, std::string_view key, const Peak& peak) {
  out.object(key, [&] {
    out.number("value", peak.value);
    out.number("at_s", peak.at_s);
    out.number("travel_m", peak.travel_m);
  });
}

}  // namespace

void write_motion(Writer& out, const Solved<Motion>& motion) {
  out.object("motion", [&] {
    write_unsolved(out, motion);
    if (!motion) return;
    const auto number = [&](std::string_view key, double Motion::*member) { out.number(key, (*motion).*member); };
    const auto peak = [&](std::string_view key, Peak Motion::*member) { write_peak(out, key, (*motion).*member); };
    out.text("outcome", code_of(motion->outcome));
    number("lean_rad", &Motion::lean_rad);
    number("speed_after_contact_m_per_s", &Motion::speed_after_contact_m_per_s);
    number("swing_rate_after_contact_rad_per_s", &Motion::swing_rate_after_contact_rad_per_s);
    number("lost_at_contact_J", &Motion::lost_at_contact_J);
    number("stop_travel_m", &Motion::stop_travel_m);
    number("stop_time_s", &Motion::stop_time_s);
    number("end_travel_m", &Motion::end_travel_m);
    number("end_speed_m_per_s", &Motion::end_speed_m_per_s);
    number("end_s", &Motion::end_s);
    number("end_extension_m", &Motion::end_extension_m);
    peak("extension_m", &Motion::extension_m);
    peak("line_speed_m_per_s", &Motion::line_speed_m_per_s);
    peak("unit_tension_N", &Motion::unit_tension_N);
    peak("line_force_N", &Motion::line_force_N);
    peak("trolley_speed_m_per_s", &Motion::trolley_speed_m_per_s);
    peak("swing_forward_rad", &Motion::swing_forward_rad);
    peak("swing_back_rad", &Motion::swing_back_rad);
    peak("load_raw", &Motion::load_raw);
    peak("load_filtered", &Motion::load_filtered);
    peak("load_held", &Motion::load_held);
    peak("load_onset_per_s", &Motion::load_onset_per_s);
    peak("deceleration_raw_m_per_s2", &Motion::deceleration_raw_m_per_s2);
    peak("deceleration_filtered_m_per_s2", &Motion::deceleration_filtered_m_per_s2);
    peak("deceleration_held_m_per_s2", &Motion::deceleration_held_m_per_s2);
    out.count("separations", motion->separations);
    number("brake_work_J", &Motion::brake_work_J);
    number("rolling_and_drag_J", &Motion::rolling_and_drag_J);
    out.number("energy_residual", motion->energy_residual, residual_digits);
  });
}

void write_rest(Writer& out, const std::optional<arrest::FinalRest>& rest) {
  if (!rest) return out.null("rest");
  out.object("rest", [&] {
    out.text("how", code_of(rest->how));
    out.number("earliest_m", rest->earliest_m);
    out.number("latest_m", rest->latest_m);
    out.number("extension_m", rest->extension_m);
  });
}

namespace {

void write_result(Writer& out, const Rig& rig, const CornerResult& result) {
  write_corner(out, rig, result.corner);
  out.number("arrival_speed_m_per_s", result.arrival_speed_m_per_s);
  out.number("computed_speed_m_per_s", result.computed_speed_m_per_s);
  out.number("speed_over_wave", result.speed_over_wave);
  out.number("hangs_at_m", result.hangs_at_m);
  out.number("back_at_start_m_per_s", result.back_at_start_m_per_s);
  write_motion(out, result.motion);
  write_rest(out, result.rest);
}

void write_governing(Writer& out, const Governing& governing) {
  out.object("governing", [&] {
    out.count("stop_travel", governing.stop_travel);
    out.count("shortest_stop", governing.shortest_stop);
    out.count("farthest_travel", governing.farthest_travel);
    out.count("extension", governing.extension);
    out.count("line_speed", governing.line_speed);
    out.count("load_raw", governing.load_raw);
    out.count("load_filtered", governing.load_filtered);
    out.count("load_held", governing.load_held);
    out.count("load_onset", governing.load_onset);
    out.count("deceleration", governing.deceleration);
    out.count("swing_forward", governing.swing_forward);
    out.count("swing_back", governing.swing_back);
    out.count("unit_tension", governing.unit_tension);
    out.count("earliest_rest", governing.earliest_rest);
    out.count("latest_rest", governing.latest_rest);
    out.count("arrival_speed", governing.arrival_speed);
  });
}

void write_backup(Writer& out, const Solved<arrest::BackupAlone>& backup) {
  out.object("backup_alone", [&] {
    write_unsolved(out, backup);
    if (!backup) return;
    out.count("corner", backup->corner);
    out.number("speed_m_per_s", backup->speed_m_per_s);
    out.number("compression_m", backup->compression_m);
    out.number("residual_m_per_s", backup->residual_m_per_s);
    out.number("force_N", backup->force_N);
  });
}

void write_reset(Writer& out, const arrest::Reset& reset) {
  out.count("path", reset.path);
  out.number("least_reserve_N", reset.least_reserve_N);
  out.number("at_travel_m", reset.at_travel_m);
  out.column("travel_m", reset.travel_m, std::identity());
  out.column("reserve_N", reset.reserve_N, std::identity());
  out.flag("returns", reset.returns);
  out.number("time_s", reset.time_s);
  out.number("speed_at_mark_m_per_s", reset.speed_at_mark_m_per_s);
  out.number("ratio_at_which_it_stops", reset.ratio_at_which_it_stops);
}

}  // namespace

void write_approach(Writer& out, const Rig& rig) {
  static const arrest::Approaches nothing;
  const arrest::Approaches* solved = rig.approach.solved();
  const arrest::Approaches& approaches = solved ? *solved : nothing;
  out.object("approach", [&] {
    write_unsolved(out, *rig.approach.result);
    write_arrest_inputs(out, rig.approach.inputs);
    std::size_t i = 0;
    out.objects("corners", approaches.corners, [&](const Corner& corner) {
      write_corner(out, rig, corner);
      out.number("speed_m_per_s", approaches.speed_m_per_s[i]);
      write_computed(out, approaches.computed[i++]);
    });
    out.number("fastest_m_per_s", solved ? std::optional(solved->fastest_m_per_s) : std::nullopt);
  });
}

void write_arrest(Writer& out, const Rig& rig) {
  static const Arrest nothing;
  const Arrest* solved = rig.arrest.solved();
  const Arrest& arrest = solved ? *solved : nothing;
  const auto known = [&](double value) { return solved ? std::optional(value) : std::nullopt; };
  out.object("arrest", [&] {
    write_unsolved(out, *rig.arrest.result);
    out.flag("held", rig.arrest_held);
    out.objects("corners", arrest.corners, [&](const CornerResult& result) { write_result(out, rig, result); });
    write_governing(out, arrest.governing);
    write_backup(out, arrest.backup);
    out.object("not_reset", [&] {
      out.number("farthest_m", known(arrest.not_reset.farthest_m));
      out.count("first_failing", arrest.not_reset.first_failing);
    });
    out.objects("resets", arrest.resets, [&](const arrest::Reset& reset) { write_reset(out, reset); });
    out.number("lift_difference_m", known(arrest.lift_difference_m));
  });
}

}  // namespace fairlead::json
