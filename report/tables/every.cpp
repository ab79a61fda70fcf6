#include "report/tables/every.hpp"

#include "geometry/studies/arrest_figures.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {
namespace {

/// Of the corners that govern the arrest, each under its own title.
void add_peaks(const Dossier& dossier, const Style& style, std::vector<Table>& all) {
  if (!dossier.arrest) return;
  for (const ArrestHistory& history : dossier.arrest->histories) {
    Table table = arrest_peaks(dossier.judged.rig, history.corner, style);
    table.title += " of the corner that governs the " + std::string(history.governs);
    all.push_back(std::move(table));
  }
}

}  // namespace

std::vector<Table> every(const Dossier& dossier, const Style& style) {
  std::vector<Table> all{findings(dossier, style),
                         judged(dossier),
                         limits(dossier),
                         given(dossier, style),
                         assumptions(dossier),
                         contact_points(dossier, Position::rest, style),
                         contact_points(dossier, Position::full_travel, style),
                         blocks(dossier, style),
                         sheaves(dossier, style),
                         legs(dossier, style),
                         line_tensions(dossier, style),
                         reduction(dossier, style),
                         support_lines(dossier),
                         rest_positions(dossier),
                         main_line_bare(dossier),
                         main_line_loaded(dossier),
                         main_line_levels(dossier, style),
                         set_out_points(dossier, style),
                         marks_to_read(dossier, style),
                         quantities_to_read(dossier),
                         line_offsets(dossier, style),
                         ties(dossier, style),
                         levels(dossier),
                         sheave_axles(dossier),
                         check_places(dossier),
                         stringing(dossier),
                         hand_pulls(dossier, style),
                         anchor_loads(dossier, style),
                         members(dossier, style),
                         members_lost(dossier, style),
                         load_cases(dossier, style),
                         loads_by_case(dossier),
                         strength(dossier),
                         lines(dossier),
                         line_lengths(dossier),
                         stretch(dossier, style),
                         line_strength(dossier),
                         adjusters(dossier, style),
                         sheave_schedule(dossier, style),
                         anchor_schedule(dossier, style),
                         member_schedule(dossier, style),
                         connectors(dossier, style),
                         clearances(dossier, style),
                         named_instants(dossier, style),
                         exclusions(dossier, style),
                         arrivals(dossier, style),
                         governing(dossier, style),
                         corners(dossier, style),
                         braking_chart(dossier, style),
                         resets(dossier, style),
                         dispatch(dossier, style),
                         calculation(dossier),
                         anchor_calculation(dossier, style),
                         reductions(dossier, style)};
  for (std::size_t anchor = 0; anchor < dossier.judged.rig.layout.anchors.size(); ++anchor)
    all.push_back(member_cases(dossier, anchor));
  add_peaks(dossier, style, all);
  if (dossier.trial)
    for (Table table :
         {trial_hand_pulls(dossier, style), trial_masses(dossier, style), trial_acceptance(dossier, style),
          trial_hand_record(dossier, style), trial_mass_record(dossier, style), trial_verdicts(dossier, style),
          trial_results(dossier, style), trial_fit(dossier, style), trial_findings(dossier, style)})
      if (!table.rows.empty()) all.push_back(std::move(table));
  if (dossier.placement) all.push_back(tolerance_box(dossier, style));
  return all;
}

}  // namespace fairlead::tables
