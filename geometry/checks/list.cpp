#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

constexpr const Check* checks[] = {
    &reduction,
    &pay_out,
    &efficiency,
    &fleet_angle,
    &sheave_ratio,
    &groove,
    &wrap,
    &slack_leg,
    &lead_angle,
    &lead_in_wind,
    &coplanarity,
    &across_offset,
    &block_run,
    &crossing,
    &line_structure,
    &line_line,
    &line_main_line,
    &block_clearance,
    &rider_structure,
    &rider_lines,
    &hands_at_trolley,
    &under_redirect,
    &passing_block,
    &pull_angle,
    &side_pull,
    &trolley_lift,
    &trolley_pitch,
    &anchor_utilisation,
    &member_utilisation,
    &member_lost,
    &load_direction,
    &base_moment,
    &anchor_movement,
    &strength,
    &clips,
    &rider_arrives,
    &rider_mass,
    &rider_stops,
    &arrest_extension,
    &line_speed,
    &rider_load,
    &trolley_deceleration,
    &swing,
    &final_rest,
    &reset_reserve,
    &return_speed,
    &model_range,
    &adjuster_range,
    &rest_shift,
    &extension_reserve,
    &certificate_date,
    &backup_brake,
    &backup_alone,
};

}  // namespace

std::span<const Check* const> all_checks() { return checks; }

const Check* find_check(std::string_view name) {
  for (const Check* check : checks)
    if (check->name == name) return check;
  return nullptr;
}

}  // namespace fairlead
