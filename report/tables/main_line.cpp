#include <algorithm>

#include "report/tables/tables.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

Table unsolved_table(Table table, const Solved<mainline::MainLine>& result) {
  table.notes = {"Undetermined: " + result.error().why};
  return table;
}

}  // namespace

Table main_line_bare(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Main line, bare",
              {"state", "temperature", "unstretched", "H", "T at start", "T at end", "sag at mid-span"},
              {},
              {"H: horizontal tension. T: tension at the supports. Sag: below the chord."},
              {{3, 4, 5}}};
  const mainline::MainLine* main_line = rig.main_line.solved();
  if (!main_line) return unsolved_table(std::move(table), *rig.main_line.result);
  for (const mainline::State& state : main_line->states)
    table.rows.push_back({words::name_of(*main_line, state), cell(state.temperature_K, Dimension::temperature),
                          cell(state.cable.unstretched_m, Dimension::length),
                          cell(state.bare.pieces[0].H_N, Dimension::force),
                          cell(state.start_tension_N, Dimension::force), cell(state.end_tension_N, Dimension::force),
                          cell(state.sag_m, Dimension::length)});
  return table;
}

Table main_line_loaded(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Main line, loaded",
              {"load and state", "weight", "greatest H", "height at rest mark", "bisector at rest mark",
               "drive at rest mark", "drive at end of travel", "comes to rest at"},
              {},
              {"Without the braking line's pull. Height: above the upstream support. Comes to rest at: chainage.",
               "Bisector: the slope square to the bisector of the line at the wheel, rising positive. Drive: the "
               "force that drives the load along, positive toward the landing."},
              {{5, 6}}};
  const mainline::MainLine* main_line = rig.main_line.solved();
  if (!main_line) return unsolved_table(std::move(table), *rig.main_line.result);
  const double zero_m = rig.frame.chainage_of_origin_m;
  const double rest_m = rig.layout.brake_trolley.rest_m - zero_m;
  const double end_m = rest_m + rig.layout.brake_trolley.travel_m;
  for (const mainline::StatePath& path : main_line->paths) {
    const auto& knots = path.path.knots();
    const auto tightest =
        std::max_element(knots.begin(), knots.end(), [](const auto& a, const auto& b) { return a.H_N < b.H_N; });
    table.rows.push_back(
        {words::name_of(*main_line, path), cell(path.path.weight_N(), Dimension::force),
         cell(tightest->H_N, Dimension::force), cell(path.path.height_m(rest_m), Dimension::length),
         cell(path.path.tau_rad(rest_m), Dimension::angle), cell(path.path.drive_force_N(rest_m), Dimension::force),
         cell(path.path.drive_force_N(end_m), Dimension::force),
         path.rest_points_m.empty() ? Cell{} : cell(path.rest_points_m.back() + zero_m, Dimension::length)});
  }
  return table;
}

}  // namespace fairlead::tables
