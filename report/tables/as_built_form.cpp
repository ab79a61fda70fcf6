#include "geometry/asbuilt/characteristics.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {

Table marks_to_read(const Dossier& dossier, const Style& style) {
  Table table = set_out_points(dossier, style);
  table.title = "RECORD OF MARKS AS BUILT";
  for (const std::string& axis : dossier.judged.rig.layout.site.axes) table.headings.push_back(axis + " as built");
  for (const char* also : {"uncertainty", "read by"}) table.headings.emplace_back(also);
  for (auto& row : table.rows) row.resize(table.headings.size());
  return table;
}

Table quantities_to_read(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"RECORD OF WHAT IS MEASURED BESIDES",
              {"item", "quantity", "what it is", "as built", "uncertainty", "read by"},
              {},
              {}};
  for (const Characteristic& one : characteristics(rig, {}))
    for (const Measurand measurand : one.measurands) {
      table.rows.push_back({file_word(rig.layout, one.item), std::string(kind_of(measurand).word), one.name});
      table.rows.back().resize(table.headings.size());
    }
  return table;
}

}  // namespace fairlead::tables
