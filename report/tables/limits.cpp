#include "geometry/layout/field.hpp"
#include "geometry/layout/told.hpp"
#include "report/tables/tables.hpp"
#include "report/words/changes.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {

Table limits(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Limits", {"of", "limit", "value", "who says so", "that is", "place"}, {}, {}};
  for (const ToldPart& part : told(layout))
    for (const ToldKey& key : part.keys) {
      if (key.key->stricter == Stricter::not_a_limit || key.told.numbers.size() != 1) continue;
      const std::string owner = words::part_name(part.section, part.id);
      table.rows.push_back({part.section == "limits" ? "the rig" : owner, words::key_name(key.name),
                            key.told.numbers.front(), key.told.words.empty() ? "stated of it" : key.told.words,
                            std::string(key.key->says), words::place_without_folder(layout, key.told.place)});
    }
  table.notes.push_back("What has no limit here is not judged, and the findings say so.");
  return table;
}

}  // namespace fairlead::tables
