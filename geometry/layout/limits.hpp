// The sections [limits] and [[waiver]]: what the checks judge against, and what was let pass by whom. Their tables:
// limits_fields.hpp.
#pragma once

#include "geometry/layout/given.hpp"

namespace fairlead {

struct Limits {
  std::optional<Limit> fleet_angle_rad;
  std::optional<Limit> lead_in_wind_rad;     ///< of a line at rest in the side wind, off a groove or the outlet
  std::optional<Limit> plane_thickness_m;    ///< of the line's points about their best plane
  std::optional<Limit> across_offset_m;      ///< from the main line's vertical plane
  std::optional<Limit> anchor_utilisation;   ///< demand over capacity
  std::optional<Limit> design_factor;        ///< divides an mbs; never a wll
  std::optional<Limit> extension_reserve_m;  ///< least, of the brake unit
  std::optional<Limit> rest_shift_m;         ///< greatest, of the trolley's rest place either way of its mark
  // Least distances:
  std::optional<Limit> line_clearance_m;        ///< line to structure
  std::optional<Limit> line_to_line_m;          ///< line to line, its own legs included
  std::optional<Limit> line_to_main_line_m;     ///< line to main line
  std::optional<Limit> block_clearance_m;       ///< block to everything
  std::optional<Limit> rider_clearance_m;       ///< rider envelope to structure and ground
  std::optional<Limit> rider_line_clearance_m;  ///< rider and hands to lines, block, redirect and its frame
  std::optional<Limit> block_run_m;             ///< left between block and sheaves, unit and terminations
  std::optional<Limit> lift_share;        ///< greatest upward pull on the trolley over the weight on its wheel's line
  std::optional<Limit> efficiency;        ///< least, of the reduction: what its sheaves leave of the work
  std::optional<Limit> sheave_ratio;      ///< least, tread of a sheave over its line's diameter; of steel lines
  std::optional<Limit> groove_ratio;      ///< greatest, width of a groove over its line's diameter
  std::optional<Limit> wrap_rad;          ///< least, of a line on its sheaves
  std::optional<Limit> slack_tension_N;   ///< least of a leg that is not slack
  std::optional<Limit> main_line_factor;  ///< beats design_factor for the mbs of the main line and support lines
  // Of a rider's stop and of the empty trolley's way back:
  std::optional<Limit> stop_reserve_m;                 ///< least, left of the way to the backup brake
  std::optional<Limit> swing_rad;                      ///< greatest, of a rider forward or back
  std::optional<Limit> rider_load_raw;                 ///< greatest, lanyard force over the rider's weight
  std::optional<Limit> rider_load_filtered;            ///< the same, low-passed at 5 Hz
  std::optional<Limit> rider_load_held;                ///< the same, held for 0.2 s
  std::optional<Limit> rider_load_onset_per_s;         ///< greatest, rise of the load low-passed at 5 Hz
  std::optional<Limit> trolley_deceleration_m_per_s2;  ///< greatest, low-passed at 5 Hz
  std::optional<Limit> reset_reserve_N;                ///< least, of the force that brings the trolley back
  std::optional<Limit> return_speed_m_per_s;           ///< greatest, of the empty trolley at its rest mark
  Place place{};
};

struct Waiver {
  Words check;
  std::optional<std::string> subject;  ///< id; absent: every subject of the check
  std::string who, why;
  Given<Date> until;
  Place subject_place{}, place{};
};

}  // namespace fairlead
