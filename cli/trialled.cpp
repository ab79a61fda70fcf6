#include "cli/trialled.hpp"

#include "cli/rows.hpp"

namespace fairlead::cli {

std::vector<TrialRow> trial_rows(const std::string& file, std::string& message) {
  static constexpr FileKind kind{"a file of results", "the file of results", largest_quantities_file};
  if (file.empty()) return {};
  return contents(file, kind, message, read_trial_results);
}

trial::Trial trial_of(const Rig& rig, const std::string& file, std::vector<TrialRow> rows, const Work& work) {
  trial::Trial trial{.plan = trial::plan(rig, work)};
  if (file.empty()) return trial;
  if (!trial.plan)
    throw Unusable{"error: " + rig.layout.files.front() +
                   ": there is no plan to hold results against: " + trial.plan.error().why + "\n"};
  auto results = trial::compare(rig, *trial.plan, file, std::move(rows), work);
  if (!results) throw Unusable{printed(file, results.error())};
  trial.results = std::move(*results);
  trial.learnt = trial::learn(rig, *trial.plan, *trial.results, work);
  return trial;
}

}  // namespace fairlead::cli
