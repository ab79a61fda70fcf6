// What the plan of unmanned tests and its results say in words.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/trial/trial.hpp"
#include "report/dossier.hpp"

namespace fairlead::words {

/// "arrival speed", "line out of the unit".
std::string_view name_of(Trialled);

/// "4.10 to 5.20 m/s", "44 to 190 N (10 to 43 lbf)"; in the unit that suits the greatest of what it is compared with.
std::string shown(const mainline::Span&, Dimension, const Style&, double greatest = 0);
/// One number so; by itself where it would read as nought there, as the uncertainty of a great force may.
std::string shown_beside(double si, Dimension, const Style&, double greatest);

/// "at most 15.5 m", "0".
std::string shown(const trial::Acceptance&, Trialled, const Style&, double greatest = 0);

std::string_view word_for(trial::Agreement);

/// What it may mean that a number lies outside its predicted interval, below or above.
std::string_view meaning(Trialled, bool above);

/// "brake force", "rolling resistance"
std::string_view name_of(trial::Input);
/// "brake force up with pull of the reeving down": a way in which inputs change together, the least parts left out.
std::string told(const trial::Untold&);

/// As of what was judged; but unmanned tests that were not passed, or what they told of the rig, clear nobody: "NOT
/// CLEARED by its unmanned tests: fail. Without them: CLEARED by these checks: 14 pass".
std::string headline(const Dossier&);

/// 0 exactly when that headline says cleared.
int exit_status(const Dossier&);

/// How the tests are made, for this rig; whole sentences.
std::vector<std::string> trial_steps(const Rig&, const Style&);
/// When they are stopped; whole sentences' ends.
std::vector<std::string> stop_criteria(const Rig&, const Style&);

}  // namespace fairlead::words
