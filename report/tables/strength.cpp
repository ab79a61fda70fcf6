#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {

Table strength(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Utilisation of every part",
              {"part", "greatest load", "capacity", "utilisation", "at most", "verdict"},
              {},
              {"Capacity: a working load limit as it stands, a breaking strength over its factor, times what "
               "the end or sheave that governs leaves of it. At most: what the "
               "utilisation does not pass between the poses solved."},
              {{1, 2}}};
  for (const Finding& finding : dossier.judged.findings) {
    if (strength_of(dossier, finding.subject) != &finding) continue;
    table.rows.push_back({words::name_of(layout, finding.subject), fact_of(&finding, "force"),
                          fact_of(&finding, "capacity"),
                          finding.measured ? cell(finding.value, Dimension::ratio) : Cell{},
                          finding.measured ? cell(finding.bound, Dimension::ratio) : Cell{},
                          std::string(words::word_for(words::outcome_of(finding)))});
  }
  return table;
}

}  // namespace fairlead::tables
