#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/words/names.hpp"

namespace fairlead::cli {
namespace {

/// With its ratios and slopes beside each other: they are what a concept is for.
Dossier judge_concept(const Concept& idea, const Work& work) {
  Dossier dossier{fairlead::judge(idea, work)};
  dossier.arrest =
      std::make_shared<const ArrestFigures>(ArrestFigures{.reductions = reductions(dossier.judged.rig, work)});
  return dossier;
}

}  // namespace

int arrest(const JudgeOptions& options, const ArrestOptions& arrest) {
  const bool as_json = format_of(arrest.format, arrest.output, {"json", "text"}) == "json";
  std::variant<Layout, Concept> whole = read_either(options);
  const auto* idea = std::get_if<Concept>(&whole);
  const Work work = work_of(options);
  const Dossier dossier =
      idea ? judge_concept(*idea, work) : Dossier{fairlead::judge(std::move(std::get<Layout>(whole)), {}, work)};
  refuse_changed_scans(dossier.judged.rig.layout);
  const Style style = style_of(options);
  const std::string text = as_json ? (idea ? json::write_concept(dossier) : json::write(dossier))
                                   : (idea ? text::write_concept(dossier, style) : text::write_arrest(dossier, style));
  arrest.output.empty() ? print(text) : write(arrest.output, text, words::headline(dossier.judged));
  return exit_status(dossier.judged.findings);
}

}  // namespace fairlead::cli
