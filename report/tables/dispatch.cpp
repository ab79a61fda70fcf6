#include <fmt/format.h>

#include <cmath>

#include "report/tables/corner_columns.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

void add_backup(const Rig& rig, const Solved<arrest::BackupAlone>& backup, Table& table) {
  if (!backup) {
    table.notes.push_back("Backup brake alone: " + backup.error().why + ".");
    return;
  }
  const auto add = [&](const char* what, double si, Dimension dimension) {
    table.rows.push_back({std::string(what), cell(si, dimension), {}});
  };
  add("backup brake alone: met at", backup->speed_m_per_s, Dimension::speed);
  table.rows.back().back() = numbered_corner(rig, backup->corner);
  add("it gives by", backup->compression_m, Dimension::length);
  add("its greatest force", backup->force_N, Dimension::force);
  add("left at the end of its stroke", backup->residual_m_per_s, Dimension::speed);
  table.notes.emplace_back(
      "Backup brake alone: the primary brake lost at contact, all that hangs on the line arriving as one mass; its "
      "worst corner.");
}

void add_dispatch(const Rig& rig, const arrest::NotReset& not_reset, const Style& style, Table& table) {
  const std::string step = words::shown(arrest::dispatch_step_m, Dimension::length, style);
  const bool holds = std::isfinite(not_reset.farthest_m);
  const std::string failing = numbered_corner(rig, not_reset.first_failing);
  table.rows.push_back({"trolley from its mark at dispatch, at most",
                        holds ? cell(not_reset.farthest_m, Dimension::length) : Cell{"not even at its mark"},
                        not_reset.first_failing < 0 ? Cell{"none to the end of the travel"}
                                                    : Cell{failing + (holds ? " (fails a step on)" : " (fails)")}});
  table.notes.push_back(fmt::format(
      "At dispatch: the brake trolley left downstream of its mark, as far as every corner still stops within "
      "travel and extension, the lanyard tight, in steps of {}. Send nobody before it is back at its mark.",
      step));
}

}  // namespace

Table dispatch(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Backup brake alone, and a trolley not at its mark: predicted, untested", {"result", "value", "corner"}, {}, {}};
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return undetermined(std::move(table), rig.arrest.result->error());
  add_backup(rig, arrest->backup, table);
  add_dispatch(rig, arrest->not_reset, style, table);
  return table;
}

}  // namespace fairlead::tables
