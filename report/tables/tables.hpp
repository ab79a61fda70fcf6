// Every table a report may print, for terminal and sheets alike. What was not solved gives a table without rows whose
// note says why.
#pragma once

#include "report/tables/table.hpp"

namespace fairlead::tables {

/// Worst first; within one outcome in the order of the checks.
Table findings(const Dossier&, const Style&);
/// Where the rig is set out: anchors, sheaves, the unit's outlet and the marks on the main line.
Table setting_out(const Dossier&);
/// The bare main line, measured, cold and warm.
Table main_line_bare(const Dossier&);
/// The main line under brake trolley and riders, at the rest mark and at the end of the planned travel.
Table main_line_loaded(const Dossier&);
/// Per anchor the governing case, its concurrent components, capacity and utilisation.
Table anchor_loads(const Dossier&);
/// Every case computed, with its load on every anchor.
Table load_cases(const Dossier&);
Table lines(const Dossier&);
Table sheaves(const Dossier&, const Style&);
Table limits(const Dossier&);
Table assumptions(const Dossier&);

/// Order in which findings are told: worst first, else as they came. Indices into judged.findings.
std::vector<std::size_t> worst_first(const std::vector<Finding>&);

/// Length to cut a line at: finished length and the tails of both terminations; nothing where either is unknown.
std::optional<double> finished_length_m(const Rig&, std::size_t line);
std::optional<double> cut_length_m(const Rig&, std::size_t line);

}  // namespace fairlead::tables
