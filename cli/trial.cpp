#include "geometry/trial/trial.hpp"

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/trialled.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/words/trial.hpp"

namespace fairlead::cli {

int trial(const JudgeOptions& options, const TrialOptions& asked) {
  const std::string format = format_of(asked.format, asked.output, {"json", "text"});
  const Work work = work_of(options);
  std::string message;
  std::optional<Layout> layout;
  try {
    layout = read(options);
  } catch (const Unusable& refused) {
    message = refused.message;
  }
  ResultsFile results = results_file(asked.results, message);
  if (!message.empty()) throw Unusable{message};

  Dossier dossier{fairlead::judge(std::move(*layout), {}, work)};
  refuse_changed_scans(dossier.judged.rig.layout);
  dossier.trial = std::make_shared<const trial::Trial>(trial_of(dossier.judged.rig, std::move(results), work));
  const std::string text =
      format == "json" ? json::write_trial(dossier) : text::write_trial(dossier, style_of(options));
  asked.output.empty() ? print(text) : write(asked.output, text, words::headline(dossier));
  return dossier.trial->plan ? words::exit_status(dossier) : not_cleared;
}

}  // namespace fairlead::cli
