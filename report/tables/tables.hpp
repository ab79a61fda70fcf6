// Every table a report may print, for terminal and sheets alike. What was not solved gives a table without rows whose
// note says why.
#pragma once

#include "geometry/rig/line_numbers.hpp"
#include "report/tables/table.hpp"

namespace fairlead {
struct AsBuilt;
struct Changes;
}  // namespace fairlead

namespace fairlead::tables {

/// Worst first; within one outcome in the order of the checks.
Table findings(const Dossier&, const Style&);
/// The same as numbers: value, worst between the poses, limit and its basis.
Table judged(const Dossier&);
/// How far all marks may be off at once; without rows where no box was found or none was asked for, and why.
Table tolerance_box(const Dossier&, const Style&);
/// How far each mark may be off by itself, and what gives way first: never for a sheet, where it would be read as a
/// tolerance of all.
Table windows(const Dossier&, const Style&);
/// The marks that a crew sets out, by the names that a points file has for them.
Table set_out_points(const Dossier&, const Style&);
/// The same with columns for a pen, and what else is measured of a built rig by the names that a file of measurements
/// has for it.
Table marks_to_read(const Dossier&, const Style&);
Table quantities_to_read(const Dossier&);
/// What is measured and not set out: where blocks and hanging sheaves come to rest, structures, marks on the main line.
Table check_places(const Dossier&);
/// The marks as they are measured from the main line. This and the next five: without rows before Dossier::setting_out
/// is there.
Table line_offsets(const Dossier&, const Style&);
/// The tapes that fix every mark, and one to check it by.
Table ties(const Dossier&, const Style&);
/// "above their plane, 0.345 m off it": where a mark stands of the three that its tapes run from.
std::string side_of(const Frame&, const TiedMark&, const Style&);
/// The marks as a level finds them.
Table levels(const Dossier&);
/// Tension and sag to string the bare main line by.
Table stringing(const Dossier&);
/// What a spring balance reads on the empty trolley.
Table hand_pulls(const Dossier&, const Style&);
/// The bare main line, measured, cold and warm.
Table main_line_bare(const Dossier&);
/// The main line under brake trolley and riders, at the rest mark and at the end of the planned travel.
Table main_line_loaded(const Dossier&);
/// How high the bare line and the heaviest rider's wheel lie at round chainages, and at the supports.
Table main_line_levels(const Dossier&, const Style&);
/// Per anchor the governing case, its concurrent components, capacity and utilisation.
Table anchor_loads(const Dossier&, const Style& = {});
/// Every leg, guy and pole: what it carries at most, pulled and pushed, and whether it goes slack.
Table members(const Dossier&, const Style&);
/// The same of the rest, with each member lost that may be.
Table members_lost(const Dossier&, const Style&);
/// What holds one anchor, case by case; without rows where no member does.
Table member_cases(const Dossier&, std::size_t anchor);
/// Every case computed, with its load on every anchor: along, across, up.
Table load_cases(const Dossier&, const Style& = {});
Table loads_by_case(const Dossier&);
/// Every part whose strength is judged.
Table strength(const Dossier&);
Table lines(const Dossier&);
Table line_lengths(const Dossier&);
/// What the adjuster of every line has to take up, part by part.
Table adjusters(const Dossier&, const Style&);
Table sheave_schedule(const Dossier&, const Style&);
Table anchor_schedule(const Dossier&, const Style&);
Table member_schedule(const Dossier&, const Style&);
Table connectors(const Dossier&, const Style&);
/// How every line and cable ends, over what it bends most, and what that leaves of its strength.
Table line_strength(const Dossier&);
/// Per line at rest and at worst, with the governing case.
Table line_tensions(const Dossier&, const Style&);
/// Of every line whose stiffness is given.
Table stretch(const Dossier&, const Style&);
/// The empty trolley in every state: line out and tensions at its mark, and where it rests.
Table rest_positions(const Dossier&);
/// Every leg where it hangs lowest at rest, and where it is blown out farthest.
Table legs(const Dossier&, const Style&);
Table sheaves(const Dossier&, const Style&);
/// What a crew turns a sheave by.
Table sheave_axles(const Dossier&);
/// "fixed", "free on a link of 0.400 m".
std::string mount_of(const Layout&, const Sheave&, const Style&);
/// Of a sheave that swivels or hangs free: what its mount is made fast by.
Point3 eye_of(const Layout&, const Sheave&);
bool any_mounted(const Layout&);
/// Of such a sheave, by its index among the rig's bodies: its centre with the trolley at its mark, lines at rest.
std::optional<Point3> centre_at_rest(const Rig&, std::size_t body);
enum class Position { rest, full_travel };
/// Every end and contact of every line, numbered.
Table contact_points(const Dossier&, Position, const Style&);
/// Where the blocks stand at rest and at full travel, and what they carry.
Table blocks(const Dossier&, const Style&);
/// The true ratio along the travel beside the nominal one.
Table reduction(const Dossier&, const Style&);
/// Bare and under the block.
Table support_lines(const Dossier&);
/// Least gap of every pair judged, nearest first.
Table clearances(const Dossier&, const Style&);
/// The moment under a redirect, the moment a block is passed, and the line beside the trolley.
Table named_instants(const Dossier&, const Style&);
/// Which pairs were left out, wholly or in part, and why.
Table exclusions(const Dossier&, const Style&);
/// Riders on their way to the brake trolley, by speed and weather.
Table arrivals(const Dossier&, const Style&);
/// Every corner of the arrest: a wide table, for a screen in parts.
Table corners(const Dossier&, const Style&);
/// The worst of every result of the arrest, its limit and the corner it comes from.
Table governing(const Dossier&, const Style&);
/// The empty trolley's way back to its mark, by state of the main line.
Table resets(const Dossier&, const Style&);
/// The backup brake alone, and how far from its mark the trolley may be when the next rider is sent.
Table dispatch(const Dossier&, const Style&);
/// Stopping travel of riders between lightest and heaviest; without rows before Dossier::arrest is there.
Table braking_chart(const Dossier&, const Style&);
/// The greatest values of one corner and when they are reached.
Table arrest_peaks(const Rig&, int corner, const Style&);
/// What governs the arrest, step by step, and one anchor; without rows before Dossier::arrest is there.
Table calculation(const Dossier&);
Table anchor_calculation(const Dossier&, const Style&);
/// Ratios and slopes beside each other; likewise.
Table reductions(const Dossier&, const Style&);
/// All that the layout gives of main line, brake unit, trolley and backup brake, but limits.
Table given(const Dossier&, const Style&);
/// Every limit that the layout gives, and who says so.
Table limits(const Dossier&);
Table assumptions(const Dossier&);

/// Order in which findings are told: worst first, else as they came. Indices into judged.findings.
std::vector<std::size_t> worst_first(const std::vector<Finding>&);

/// "heaviest rider, cold, line at rest, wind to the left": a sweep of the reeving.
std::string passage(const Rig&, int sweep);
/// "sheave R1", "wheel of block B1": a sheave of the reeving.
std::string sheave_name(const Rig&, std::size_t sheave);
/// "rider", "line L1", "frame of sheave R1".
std::string thing(const Rig&, clearance::Thing);
/// "at contact, nearest to": between the rider and what is nearest to the rider then.
std::string_view moment(clearance::Moment::When);

/// "peak line tension, heaviest rider, cold, travel 0.000 m"
std::string case_name(const loads::LoadCase&, const Style&);

/// One pose of one sweep: what tables and drawings show as the rig at rest and at full travel.
struct ShownPose {
  const reeving::Sweep* sweep{};
  std::size_t index{};
  const reeving::Pose& pose() const { return sweep->poses[index]; }
};
/// The empty trolley at its mark, and the heaviest rider at full travel with the unit pulling its most; without wind,
/// in that weather, else in the first there is. Nothing where the reeving is not solved.
std::optional<ShownPose> rest_pose(const Rig&, std::optional<mainline::Weather> = std::nullopt);
std::optional<ShownPose> full_pose(const Rig&, std::optional<mainline::Weather> = std::nullopt);
/// "empty, cold, line at rest, travel 0.000 m"
std::string told(const Rig&, const ShownPose&, const Style&);

/// The anchor, block or trolley that a sheave is on.
std::string carrier_of(const Layout&, const Sheave&);
/// Null where no line runs over it.
const Line* line_over(const Layout&, SheaveId);
/// What is tied to an anchor, in words: "sheave R1", "main line".
std::vector<std::string> hangs_on(const Layout&, std::size_t anchor);
/// The members that hold an anchor, by id.
std::vector<std::string> held_by(const Layout&, std::size_t anchor);
/// Its ends, and the sheaves or the block between, in the order of the layout.
std::vector<std::string> runs_over(const Layout&, Item line);
/// Between no tension and the rest position as measured, and from there to the greatest stretch; nothing where it has
/// no stiffness.
std::optional<double> stretch_at_rest_m(const Rig&, Item line);
std::optional<double> stretch_from_rest_m(const Rig&, Item line);
/// Old numbers beside new ones, of what reads differently; the rest by name in a note. Empty where nothing does. Why
/// the reeving is not solved stands with the lines, not the sheaves.
Table main_line_changes(const Changes&, const Style&);
Table anchor_load_changes(const Changes&, const Style&);
Table line_changes(const Changes&, const Style&);
Table sheave_changes(const Changes&, const Style&);

/// What the points were fitted to, and how well.
Table control_points(const AsBuilt&, const Style&);
/// Tapes and rises from mark to mark, what their adjustment leaves over, and the marks that they do not place.
Table tapes(const AsBuilt&, const Style&);
/// How far every mark stands from where it is drawn, and what would take it back.
Table built_marks(const AsBuilt&, const Style&);
/// How far every point moved between two surveys, and whether that is shown.
Table moved_since(const AsBuilt&);
/// What was measured that is no place.
Table built_values(const AsBuilt&, const Style&);
/// What was not measured, and how many findings it leaves open.
Table not_measured(const AsBuilt&);
/// Control marks of tapes alone; empty where points were shot.
Table resting_on_held(const AsBuilt&);
/// The findings that did not come out in every draw as they did as measured.
Table built_shares(const AsBuilt&);

/// The plan of unmanned tests: hand pulls, then test masses in their order. Undetermined where there is no plan.
Table trial_hand_pulls(const Dossier&, const Style&);
Table trial_masses(const Dossier&, const Style&);
/// What every measured number is accepted by.
Table trial_acceptance(const Dossier&, const Style&);
/// Rows to be filled in by hand, a test each.
Table trial_hand_record(const Dossier&, const Style&);
Table trial_mass_record(const Dossier&, const Style&);
/// Every test's verdict, and everything measured against what was predicted. Empty without results.
Table trial_verdicts(const Dossier&, const Style&);
Table trial_results(const Dossier&, const Style&);
/// What the tests tell of the layout's uncertain inputs, and what they can not tell apart.
Table trial_fit(const Dossier&, const Style&);
/// The findings that come out otherwise with what was fitted. Empty without a fit that is believed.
Table trial_findings(const Dossier&, const Style&);

// Their numbers come from geometry.
using fairlead::all_lines, fairlead::reeved_line, fairlead::finished_length_m, fairlead::unloaded_length_m,
    fairlead::cut_length_m, fairlead::rest_tension_N, fairlead::greatest_tension_N;

}  // namespace fairlead::tables
