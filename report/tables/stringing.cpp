#include <fmt/format.h>

#include "report/tables/parts.hpp"

namespace fairlead::tables {
namespace {

/// What the layout says was measured of the main line.
std::string measured(const MainLine& line) {
  if (line.unstretched_length_m) return "its unstretched length";
  if (line.sag_m) return "its sag at mid-span";
  switch (line.tension_at.value) {
    case TensionAt::start:
      return "its tension at the start";
    case TensionAt::end:
      return "its tension at the end";
    case TensionAt::horizontal:
      return "its horizontal tension";
  }
  return "its tension";
}

std::vector<Cell> row_of(const mainline::Stringing& at, const char* which, const mainline::Strung& line) {
  std::string says = at.as_measured ? "as measured" : "";
  if (*which) says += (says.empty() ? "" : ", ") + std::string(which);
  return {cell(at.temperature_K, Dimension::temperature), std::move(says),
          cell(line.start_tension_N, Dimension::force),   cell(line.end_tension_N, Dimension::force),
          cell(line.horizontal_N, Dimension::force),      cell(line.sag_m, Dimension::length),
          cell(line.greatest_sag_m, Dimension::length),   cell(line.three_returns_s, Dimension::time)};
}

}  // namespace

Table stringing(const Dossier& dossier) {
  Table table{
      "Stringing the main line",
      {"temperature", "line", "T at start", "T at end", "H", "sag at mid-span", "greatest sag", "three returns"},
      {},
      {},
      {{2, 3, 4}, {5, 6}}};
  if (!dossier.setting_out) return table;
  const auto& rows = dossier.setting_out->stringing;
  if (!rows) return undetermined(std::move(table), rows.error());
  bool open = false;
  for (const mainline::Stringing& at : *rows) {
    if (at.tightest.horizontal_N > at.slackest.horizontal_N) {
      open = true;
      table.rows.push_back(row_of(at, "tightest", at.tightest));
      table.rows.push_back(row_of(at, "slackest", at.slackest));
    } else {
      table.rows.push_back(row_of(at, "", at.tightest));
    }
  }
  table.notes = {
      fmt::format("Bare, without trolley. What the layout states of it is {}.",
                  measured(dossier.judged.rig.layout.main_line)),
      "T: tension at the supports, start upstream. H: horizontal tension. Sag: plumb below the chord; greatest: a line "
      "of sight set down by as much at both supports just touches the line.",
      "Three returns: from a blow on the line beside one support until its wave comes back for the third time, at the "
      "root of tension over mass (common practice, no source)."};
  if (open)
    table.notes.emplace_back(
        "Tightest, slackest: of all that the layout's ranges of stiffness and measure leave open.");
  return table;
}

}  // namespace fairlead::tables
