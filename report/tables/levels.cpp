#include <fmt/format.h>

#include "report/tables/parts.hpp"

namespace fairlead::tables {

Table levels(const Dossier& dossier) {
  Table table{"Levels", {"mark", "rise", "fall"}, {}, {}, {{1, 2}}};
  if (!dossier.setting_out) return table;
  const SettingOut& out = *dossier.setting_out;
  if (out.bench < 0) return undetermined(std::move(table), {"no mark has a place"});
  const std::string& bench = out.marks[static_cast<std::size_t>(out.bench)].point.id;
  const auto row = [&](const std::string& name, double rise_m) {
    const Cell by = cell(rise_m < 0 ? -rise_m : rise_m, Dimension::length);
    table.rows.push_back({name, rise_m < 0 ? Cell{} : by, rise_m < 0 ? by : Cell{}});
  };
  for (const SetOut& mark : out.marks)
    if (mark.rise_m) row(mark.point.id, *mark.rise_m);
  if (out.platform_rise_m) row("landing platform", *out.platform_rise_m);
  table.notes = {fmt::format("Backsight to {}. A staff on a mark reads less than on {} by the rise, more by the fall.",
                             bench, bench)};
  return table;
}

}  // namespace fairlead::tables
