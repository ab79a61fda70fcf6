#include <fmt/format.h>

#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/trial.hpp"

namespace fairlead::text {
namespace {

std::string list(std::string_view title, const std::vector<std::string>& sentences) {
  return list_text(title, std::vector<std::string_view>(sentences.begin(), sentences.end()));
}

}  // namespace

std::string write_trial(const Dossier& dossier, const Style& style) {
  const trial::Trial& trial = *dossier.trial;
  const Rig& rig = dossier.judged.rig;
  std::string text = words::headline(dossier) + '\n';
  if (trial.results)
    text += fmt::format("TRIAL: {}, {}\nsha256 {}\n", words::word_for(trial.results->verdict), trial.results->file,
                        trial.results->sha256);
  text += fmt::format("\nUNMANNED TESTS: {}\n", trial.results ? "predicted against measured" : "predicted, untested");
  text += whose(rig.layout);
  if (trial.results)
    for (const Table& table : {tables::trial_verdicts(dossier, style), tables::trial_results(dossier, style),
                               tables::trial_fit(dossier, style), tables::trial_findings(dossier, style)})
      if (!table.rows.empty() || !table.notes.empty()) text += '\n' + write(table, style);
  text += list("How they are made", words::trial_steps(rig, style));
  for (const Table& table : {tables::trial_hand_pulls(dossier, style), tables::trial_masses(dossier, style)})
    text += '\n' + write_in_parts(table, style);
  text += '\n' + write(tables::trial_acceptance(dossier, style), style);
  text += list("Stop, and find out why before anything else is let go", words::stop_criteria(rig, style));
  return text + closing_text(dossier);
}

}  // namespace fairlead::text
