#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

constexpr const Check* checks[] = {
    &pay_out,           &fleet_angle,      &lead_angle,   &coplanarity, &across_offset, &anchor_utilisation,
    &extension_reserve, &certificate_date, &backup_brake,
};

}  // namespace

std::span<const Check* const> all_checks() { return checks; }

const Check* find_check(std::string_view name) {
  for (const Check* check : checks)
    if (check->name == name) return check;
  return nullptr;
}

}  // namespace fairlead
