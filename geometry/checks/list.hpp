// Every check by name; each lives in the file of that name.
#pragma once

#include "geometry/checks/check.hpp"

namespace fairlead {

extern const Check efficiency, sheave_ratio, groove, wrap, slack_leg, pay_out, fleet_angle, lead_angle, lead_in_wind,
    coplanarity, across_offset, anchor_utilisation, extension_reserve, certificate_date, backup_brake, reduction,
    strength, block_run, pull_angle, side_pull, trolley_lift, trolley_pitch, line_structure, line_line, line_main_line,
    block_clearance, rider_structure, rider_lines, hands_at_trolley, under_redirect, passing_block, crossing,
    member_utilisation, member_lost, load_direction, base_moment, anchor_movement, adjuster_range, clips, rest_shift,
    rider_arrives, rider_mass, rider_stops, arrest_extension, line_speed, rider_load, trolley_deceleration, swing,
    final_rest, backup_alone, reset_reserve, return_speed, model_range;

}  // namespace fairlead
