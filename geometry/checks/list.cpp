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
    &adjuster_range,
    &rest_shift,
    &extension_reserve,
    &certificate_date,
    &backup_brake,
};

}  // namespace

std::span<const Check* const> all_checks() { return checks; }

const Check* find_check(std::string_view name) {
  for (const Check* check : checks)
    if (check->name == name) return check;
  return nullptr;
}

}  // namespace fairlead
