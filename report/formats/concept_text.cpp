#include <fmt/format.h>

#include <cmath>

#include "geometry/studies/arrest_figures.hpp"
#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {
namespace {

/// What stands for main line and reduction.
std::string zone_text(const Concept& idea, const Style& style) {
  const ConceptZone& zone = idea.zone;
  const double slope = zone.slope;
  return words::wrapped(
      "",
      fmt::format(
          "Ideal {:.4g}:1, {:.4g} % of the work left by its sheaves; a straight main line, {}; {} of travel "
          "from the rest mark, where {} of line are out.",
          zone.ratio.value, 100 * zone.efficiency,
          slope == 0 ? "level" : fmt::format("{} {:.4g} %", slope < 0 ? "falling" : "rising", 100 * std::abs(slope)),
          words::shown(zone.travel_m, Dimension::length, style),
          words::shown(idea.brake_unit.rest_extension_m, Dimension::length, style)));
}

/// The checks that need a place: silence would read as a pass.
std::string waiting_text(const Judged& judged) {
  std::string names;
  for (const Check* check : words::without_subject(judged.findings))
    names += fmt::format("{}{}", names.empty() ? "" : ", ", check->name);
  return '\n' + words::wrapped("Not looked at before there is a layout: ", names);
}

}  // namespace

std::string write_concept(const Dossier& dossier, const Style& style) {
  const Judged& judged = dossier.judged;
  std::string text = words::headline(judged) + "\n\nARREST OF A CONCEPT: a first estimate, predicted, untested\n" +
                     whose(judged.rig.layout);
  text += zone_text(*judged.rig.idea, style);
  text += list_text("What a first estimate leaves out", words::first_estimate());
  text += findings_text(judged.rig.layout, judged.findings, style);
  text += waiting_text(judged);
  for (const Table& table :
       {tables::governing(dossier, style), tables::dispatch(dossier, style), tables::resets(dossier, style),
        tables::reductions(dossier, style), tables::corners(dossier, style)})
    text += '\n' + write_in_parts(table, style);
  return text + closing_text(dossier);
}

}  // namespace fairlead::text
