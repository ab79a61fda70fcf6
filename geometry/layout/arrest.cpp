// What must agree between the riders, their approach and what stops them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/layout/sections.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

void brake_unit(const UnplacedUnit& unit, Errors& errors) {
  if (!(unit.rest_extension_m < unit.extension_limit_m))
    errors.add(unit.rest_extension_m.place, "brake unit: \"rest_extension\" leaves nothing of \"extension_limit\"");
  if (unit.retraction_N.value.points().front().x != 0)
    errors.add(unit.retraction_N.place, "brake unit: \"retraction\" does not begin at extension 0",
               "let its first row say what the spring pulls at 0 m");
  if (unit.magnetic_N && unit.magnetic_N->value.points().front() != CurvePoint{0, 0})
    errors.add(unit.magnetic_N->place, "brake unit: \"magnetic\" does not begin at rest, where magnets do not pull",
               "let its first row be [\"0 m/s\", \"0 N\"]");
}

void backup_brake(const UnplacedBackup& brake, Errors& errors) {
  if (!brake.resistance_N) return;
  const std::vector<CurvePoint>& rows = brake.resistance_N->value.points();
  const Place place = brake.resistance_N->place;
  if (rows.front().x != 0)
    errors.add(place, "backup brake: \"resistance\" does not begin at compression 0",
               "let its first row say what resists at 0 m");
  // One length read in two units differs by four roundings at most.
  if (!(rows.back().x >= *brake.stroke_m * (1 - 4 * std::numeric_limits<double>::epsilon())))
    errors.add(
        place,
        fmt::format("backup brake: \"resistance\" ends at {}, short of \"stroke\"",
                    print_quantity({rows.back().x, Dimension::length})),
        fmt::format("let its last row say what resists at {}", print_quantity({*brake.stroke_m, Dimension::length})));
}

// What resists the trolley pulls the anchor that holds the brake.
void backup_hold(const BackupBrake& brake, Errors& errors) {
  if (!brake.resistance_N) return;
  const std::vector<CurvePoint>& rows = brake.resistance_N->value.points();
  const auto most =
      std::max_element(rows.begin(), rows.end(), [](const CurvePoint& a, const CurvePoint& b) { return a.y < b.y; });
  if (brake.force_N && !(most->y <= *brake.force_N))
    errors.add(
        brake.force_N->place,
        fmt::format("backup brake: its \"resistance\" rises to {}, and what resists the trolley pulls the anchor",
                    print_quantity({most->y, Dimension::force})),
        "let \"force\" be no less");
}

void landing(const UnplacedLanding& landing, Errors& errors) {
  if (!(landing.platform_from_m < landing.platform_to_m))
    errors.add(landing.platform_to_m.place, "landing: \"platform_to\" does not lie beyond \"platform_from\"");
  if (landing.earliest_rest_m && landing.latest_rest_m && !(*landing.earliest_rest_m <= *landing.latest_rest_m))
    errors.add(landing.latest_rest_m->place, "landing: \"latest_rest\" lies before \"earliest_rest\"");
}

// How fast riders arrive is measured, or follows from where they set off and what slows them.
void arrival(const Layout& layout, Errors& errors) {
  const Riders& riders = layout.riders;
  if (!layout.approach) {
    if (!riders.arrival_speed_m_per_s)
      errors.add(riders.place, "riders: nothing says how fast they arrive",
                 "give the \"arrival_speed\" measured, or a section [approach]");
    return;
  }
  const auto needs = [&](bool given, std::string_view key) {
    if (!given)
      errors.add(layout.approach->place, fmt::format("approach: \"{}\" of the riders is missing", key),
                 "add it to [riders], or leave out [approach]");
  };
  needs(riders.rolling_resistance.has_value(), "rolling_resistance");
  needs(riders.drag_area_m2.has_value(), "drag_area");
}

}  // namespace

void check_arrest(const Layout& layout, const Unsound& unsound, Errors& errors) {
  const auto sound = [&](std::string_view section) { return !unsound.contains(section); };
  if (sound("brake_unit")) brake_unit(layout.brake_unit, errors);
  if (sound("backup_brake") && layout.backup_brake) {
    backup_brake(*layout.backup_brake, errors);
    backup_hold(*layout.backup_brake, errors);
  }
  if (sound("landing") && layout.landing) landing(*layout.landing, errors);
  if (sound("riders") && sound("approach")) arrival(layout, errors);
}

void check_consistency(Concept& idea, const Unsound& unsound, Errors& errors) {
  const auto sound = [&](std::string_view section) { return !unsound.contains(section); };
  if (sound("concept") && idea.zone.slope_angle_rad)
    idea.zone.slope = {std::tan(*idea.zone.slope_angle_rad), idea.zone.slope_angle_rad->place};
  if (sound("brake_unit")) brake_unit(idea.brake_unit, errors);
  if (sound("backup_brake") && idea.backup_brake) {
    backup_brake(*idea.backup_brake, errors);
    if (!(idea.backup_brake->engages_m > 0))
      errors.add(idea.backup_brake->engages_m.place, "backup brake: it does not engage downstream of the rest mark",
                 "its chainage counts from there");
  }
  if (sound("landing") && idea.landing) landing(*idea.landing, errors);
  if (sound("riders") && idea.riders.body)
    errors.add(idea.riders.body->place, "riders body: a concept names no file",
               "leave it out: nothing is beside a rider yet");
  if (sound("riders") && !idea.riders.arrival_speed_m_per_s)
    errors.add(idea.riders.place, "riders: nothing says how fast they arrive",
               "give the \"arrival_speed\" that is aimed at: a concept has no main line to find it on");
}

}  // namespace fairlead
