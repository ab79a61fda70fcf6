#include <fmt/format.h>

#include "geometry/asbuilt/as_built.hpp"
#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {

std::string write(const AsBuilt& as_built, const Style& style) {
  const Dossier dossier{as_built.built};
  std::string text = words::headline(as_built.built) + "\n\nAS BUILT\n" + whose(as_built.design.rig.layout);
  const Survey& survey = as_built.survey;
  if (survey.terms.tapes_alone)
    text += fmt::format("not measured, held as drawn: {}\n", fmt::join(survey.terms.control, ", "));
  else
    text += fmt::format("measured: {}, {} points\nsha256 {}\n", survey.points_file,
                        survey.points.size() + survey.points_left_out, survey.points_sha256);
  if (!survey.measurements_file.empty())
    text += fmt::format("measured: {}\nsha256 {}\n", survey.measurements_file, survey.measurements_sha256);
  if (survey.earlier)
    text += fmt::format("compared with: {}, {} points\nsha256 {}\n", survey.earlier->points_file,
                        survey.earlier->points.size() + survey.earlier->points_left_out, survey.earlier->points_sha256);
  for (const Table& table :
       {tables::control_points(as_built, style), tables::tapes(as_built, style), tables::built_marks(as_built, style),
        tables::moved_since(as_built), tables::built_values(as_built, style), tables::resting_on_held(as_built),
        tables::not_measured(as_built)})
    if (!table.rows.empty() || !table.notes.empty()) text += '\n' + write(table, style);
  text += findings_text(as_built.built.rig.layout, as_built.built.findings, style);
  const Table shares = tables::built_shares(as_built);
  if (!shares.rows.empty() || !shares.notes.empty()) text += '\n' + write(shares, style);
  return text + closing_text(dossier);
}

}  // namespace fairlead::text
