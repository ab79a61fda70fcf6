// What the commands that take results of unmanned tests share.
#pragma once

#include <string>
#include <vector>

#include "cli/options.hpp"
#include "geometry/trial/trial.hpp"

namespace fairlead::cli {

/// The rows of a results file, none where there is no file; where it can not be read its errors are appended to
/// `message`.
std::vector<TrialRow> trial_rows(const std::string& file, std::string& message);

/// The plan of a rig, and what the rows of `file` make of it where there is one. Throws Unusable where they can not be
/// held against the plan.
trial::Trial trial_of(const Rig&, const std::string& file, std::vector<TrialRow>, const Work&);

}  // namespace fairlead::cli
