#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/marks.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// "0.250 m left"
std::string told(double m, const char* positive, const char* negative, const Style& style) {
  const words::Sided sided = words::sided(m, style, positive, negative, "");
  return sided.side.empty() ? sided.distance : sided.distance + ' ' + sided.side;
}

}  // namespace

Table line_offsets(const Dossier& dossier, const Style& style) {
  Table table{"Offsets from the bare main line",
              {"mark", "chainage", "above start", "from the rest mark", "beside the line", "from the line's height"},
              {},
              {},
              {{1, 2}}};
  if (!dossier.setting_out) return table;
  double open_m = 0;
  std::optional<double> temperature_K;
  const Frame& frame = dossier.judged.rig.frame;
  for (const SetOut& mark : dossier.setting_out->marks) {
    std::vector<Cell> row{mark.point.id};
    row.resize(table.headings.size());
    if (mark.point.at) {
      row[1] = cell(frame.chainage_m(*mark.point.at), Dimension::length);
      row[2] = cell(dot(*mark.point.at - frame.origin, frame.up), Dimension::length);
    }
    if (!mark.from_line) {
      table.rows.push_back(std::move(row));
      table.notes.push_back(fmt::format("{}: {}.", mark.point.id, mark.from_line.error().why));
      continue;
    }
    const LineOffset& offset = *mark.from_line;
    row[3] = told(offset.from_rest_m, "downstream", "upstream", style);
    row[4] = told(offset.across_m, "left", "right", style);
    row[5] = told(offset.up_m, "above", "below", style);
    table.rows.push_back(std::move(row));
    open_m = greater(open_m, offset.open_m);
    temperature_K = offset.temperature_K;
  }
  table.notes.insert(table.notes.begin(),
                     "Above start: above the main line's upstream support. From the rest mark: horizontally along the "
                     "main line. Beside the line: left and right looking "
                     "toward the landing. From the line's height: plumb above or below its centre.");
  if (temperature_K)
    table.notes.insert(table.notes.begin(),
                       fmt::format("The main line hangs bare, without trolley, as it was measured at {}.",
                                   words::shown(*temperature_K, Dimension::temperature, style)));
  if (open_m > 0)
    table.notes.push_back(
        fmt::format("What the layout leaves open of the line moves its height by up to {} either way.",
                    words::shown(open_m, Dimension::length, style)));
  return table;
}

}  // namespace fairlead::tables
