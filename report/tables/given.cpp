#include <algorithm>
#include <array>

#include "geometry/layout/field.hpp"
#include "geometry/layout/told.hpp"
#include "report/tables/tables.hpp"
#include "report/words/changes.hpp"

namespace fairlead::tables {

Table given(const Dossier& dossier, const Style& style) {
  constexpr std::array<std::string_view, 4> sections{"main_line", "brake_unit", "brake_trolley", "backup_brake"};
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Main line, brake unit and trolley as given", {"of", "what", "value", "that is"}, {}, {}};
  for (const ToldPart& part : told(layout)) {
    if (std::ranges::find(sections, part.section) == sections.end()) continue;
    for (const ToldKey& key : part.keys)
      if (key.key->stricter == Stricter::not_a_limit)
        table.rows.push_back({words::part_name(part.section, part.id), words::key_name(key.name),
                              words::shown(key.told, layout, style), std::string(key.key->says)});
  }
  table.notes.push_back("Limits stand with the findings.");
  return table;
}

}  // namespace fairlead::tables
