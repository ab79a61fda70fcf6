#include "geometry/layout/read.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {

Table assumptions(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Assumptions", {"taken for granted"}, {}, {}};
  for (std::string& said : rig.idea ? fairlead::assumptions(*rig.idea) : fairlead::assumptions(rig.layout))
    table.rows.push_back({std::move(said)});
  for (const std::string& said : rig.assumptions) table.rows.push_back({said});
  return table;
}

}  // namespace fairlead::tables
