#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"

namespace fairlead::text {

std::string write_setting_out(const Dossier& dossier, const Style& style) {
  std::string text = words::headline(dossier.judged) + "\n\nSETTING OUT\n" + whose(dossier.judged.rig.layout);
  for (const Table& table :
       {tables::set_out_points(dossier, style), tables::line_offsets(dossier, style), tables::ties(dossier, style),
        tables::levels(dossier), tables::sheave_axles(dossier), tables::check_places(dossier),
        tables::line_lengths(dossier), tables::stringing(dossier), tables::hand_pulls(dossier, style)})
    if (!table.rows.empty() || !table.notes.empty()) text += '\n' + write(table, style);
  if (dossier.placement)
    for (const Table& table : {tables::tolerance_box(dossier, style), tables::windows(dossier, style)})
      text += '\n' + write(table, style);
  text += assumptions_text(dossier);
  text += list_text("Cautions", words::cautions());
  return text;
}

}  // namespace fairlead::text
