#include "report/words/explain.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/words/wrap.hpp"

namespace fairlead::words {
namespace {

/// The keys of the layout that a check compares with.
struct LimitKeys {
  std::string_view check, keys;
};
constexpr LimitKeys limit_keys[] = {
    {"reduction", "none: the brake trolley must be the fast end"},
    {"pay-out", "none: it must pay out all the way"},
    {"efficiency", "limits.efficiency; sheave.friction, or sheave.bearing under a steel line"},
    {"fleet-angle", "limits.fleet_angle, or sheave.fleet_angle of the sheave itself"},
    {"sheave-ratio", "limits.sheave_ratio under a steel line, or sheave.sheave_ratio of the sheave itself"},
    {"groove", "limits.groove_ratio; narrower than its line it fails without it"},
    {"wrap", "limits.wrap"},
    {"slack-leg", "limits.slack_tension"},
    {"lead-angle", "brake_unit.lead_angle"},
    {"lead-in-wind", "limits.lead_in_wind"},
    {"coplanarity", "limits.plane_thickness"},
    {"across-offset", "limits.across_offset"},
    {"block-run", "limits.block_run; block.size, line.from_termination and line.to_termination say what takes of it"},
    {"crossing", "none: they must not meet"},
    {"line-structure", "limits.line_clearance; structure.clear_of says which structures"},
    {"line-line", "limits.line_to_line"},
    {"line-main-line", "limits.line_to_main_line"},
    {"block-clearance", "limits.block_clearance; block.size; structure.clear_of says which structures"},
    {"rider-structure",
     "limits.rider_clearance; riders.envelope, reach or body; structure.clear_of says which structures"},
    {"rider-lines", "limits.rider_line_clearance; riders.envelope, block.size and sheave.frame"},
    {"hands-at-trolley", "limits.rider_line_clearance; riders.envelope"},
    {"under-redirect", "limits.rider_line_clearance; riders.envelope and sheave.frame"},
    {"passing-block", "limits.rider_line_clearance; riders.envelope and block.size"},
    {"pull-angle", "brake_trolley.pull_angle"},
    {"side-pull", "brake_trolley.side_pull"},
    {"trolley-lift", "limits.lift_share; 1 and more fails without it"},
    {"trolley-pitch", "none: it must not tip; brake_trolley.wheelbase"},
    {"strength",
     "none: no part carries more than its wll, or its mbs over limits.design_factor, limits.main_line_factor for main "
     "line and support lines; from_end, to_end and line.sheave_strength say what is left of an mbs"},
    {"clips", "none: no fewer, shorter or looser than the table; clips, turnback and torque of from_end and to_end"},
    {"anchor-utilisation", "limits.anchor_utilisation; limits.design_factor where the anchor has an mbs"},
    {"member-utilisation",
     "limits.anchor_utilisation; member.wll or member.mbs over limits.design_factor, member.compression_limit"},
    {"member-lost", "none: no member carries more than its capacity; member.may_be_lost says which are tried"},
    {"load-direction", "anchor.cone_angle about anchor.cone_axis"},
    {"base-moment", "anchor.base_moment at anchor.base"},
    {"anchor-movement", "anchor.movement"},
    {"rider-arrives", "none: every rider must reach the brake trolley; approach.start and approach.push_off"},
    {"rider-mass", "brake_unit.rider_mass, against riders.mass"},
    {"rider-stops", "limits.stop_reserve; backup_brake.engages, without it brake_trolley.travel"},
    {"arrest-extension", "limits.extension_reserve; brake_unit.extension_limit"},
    {"line-speed", "brake_unit.line_speed_limit"},
    {"rider-load",
     "limits.rider_load_raw, limits.rider_load_filtered, limits.rider_load_held and limits.rider_load_onset, each that "
     "is "
     "given"},
    {"trolley-deceleration", "limits.trolley_deceleration"},
    {"swing", "limits.swing; a lanyard that goes slack fails without it"},
    {"final-rest", "landing.earliest_rest and landing.latest_rest"},
    {"reset-reserve", "limits.reset_reserve; what does not come back by itself fails without it"},
    {"return-speed", "limits.return_speed"},
    {"model-range", "none: the model holds up to the ratio of its formula"},
    {"backup-alone", "none: it must stop every rider; backup_brake.resistance and backup_brake.stroke"},
    {"adjuster-range", "line.adjuster; line.length_tolerance and line.ea, without which it is not judged"},
    {"rest-shift", "limits.rest_shift"},
    {"extension-reserve", "limits.extension_reserve; brake_unit.extension_limit"},
    {"certificate-date", "brake_unit.certificate_due"},
    {"backup-brake", "none: it must stand beyond the planned travel"},
};

/// Placeholders as a reader takes them: "line [value] off the groove's plane".
std::string bracketed(std::string_view text) {
  std::string out(text);
  std::replace(out.begin(), out.end(), '{', '[');
  std::replace(out.begin(), out.end(), '}', ']');
  return out;
}

}  // namespace

std::string_view limit_keys_of(const Check& check) {
  for (const LimitKeys& known : limit_keys)
    if (known.check == check.name) return known.keys;
  return {};
}

std::string_view wear_references() {
  return "No limit is assumed. To choose one by, besides what the maker says (recalled, not read): 30 CFR 56.19024 has "
         "hoist ropes retired below 90 % of their baseline diameter; 29 CFR 1926.1413 has crane ropes looked at where "
         "more than 5 % of the nominal diameter is gone. Neither was written for zip lines.";
}

std::optional<std::string> explain_wear(std::string_view name) {
  if (name != "wear" && name != "baseline_mm" && name != "least_mm") return std::nullopt;
  std::string out = "Wear of a part in service (fairlead records)\n\n";
  const auto line = [&](std::string_view heading, std::string_view text) {
    out += wrapped(fmt::format("{:14}", heading), text);
  };
  line("baseline_mm", "diameter as it was put in service, in the register of parts");
  line("least_mm", "the least it may have, in the register, with who sets it in the column basis");
  line("measured", "quantity diameter of the file of measurements, where it is worn most, with its uncertainty");
  line("formula", "pass: diameter - 1.645 u >= least; fail: diameter + 1.645 u < least; worn: 1 - diameter / baseline");
  line("limit", wear_references());
  return out;
}

std::string explain(const Check& check) {
  std::string out = fmt::format("{}\n\n", check.title);
  const auto line = [&](std::string_view heading, std::string_view text) {
    if (!text.empty()) out += wrapped(fmt::format("{:14}", heading), bracketed(text));
  };
  line("check", check.name);
  line("says", check.sentence);
  line("formula", check.formula);
  line("source", check.source);
  line("limit", limit_keys_of(check));
  line("what helps", check.remedy);
  return out;
}

std::string explain_all() {
  std::size_t widest = 0;
  for (const Check* check : all_checks()) widest = std::max(widest, check->name.size());
  std::string out;
  for (const Check* check : all_checks()) out += wrapped(fmt::format("{:{}}  ", check->name, widest), check->title);
  return out;
}

}  // namespace fairlead::words
