// What the commands that take results of unmanned tests share.
#pragma once

#include <string>
#include <vector>

#include "cli/options.hpp"
#include "geometry/trial/trial.hpp"

namespace fairlead::cli {

struct ResultsFile {
  std::string name, sha256;  ///< both empty where there is none
  std::vector<TrialRow> rows;
};

/// A results file, or none; where it can not be read its errors are appended to `message`.
ResultsFile results_file(const std::string& name, std::string& message);

/// The plan of a rig, and what the results make of it where there are any. Throws Unusable where they can not be held
/// against the plan.
trial::Trial trial_of(const Rig&, ResultsFile, const Work&);

}  // namespace fairlead::cli
