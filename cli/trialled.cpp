#include "cli/trialled.hpp"

#include "cli/rows.hpp"

namespace fairlead::cli {

ResultsFile results_file(const std::string& name, std::string& message) {
  static constexpr FileKind kind{"a file of results", "the file of results", largest_quantities_file};
  ResultsFile file{.name = name};
  if (!name.empty()) file.rows = contents(name, kind, file.sha256, message, read_trial_results);
  return file;
}

trial::Trial trial_of(const Rig& rig, ResultsFile file, const Work& work) {
  trial::Trial trial{.plan = trial::plan(rig, work)};
  if (file.name.empty()) return trial;
  if (!trial.plan)
    throw Unusable{"error: " + rig.layout.files.front() +
                   ": there is no plan to hold results against: " + trial.plan.error().why + "\n"};
  auto results = trial::compare(rig, *trial.plan, file.name, std::move(file.rows), work);
  if (!results) throw Unusable{printed(file.name, results.error())};
  trial.results = std::move(*results);
  trial.results->sha256 = std::move(file.sha256);
  trial.learnt = trial::learn(rig, *trial.plan, *trial.results, work);
  return trial;
}

}  // namespace fairlead::cli
