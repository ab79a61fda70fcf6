// The trial of a rig with test masses: its plan, and what came of it.
#pragma once

#include <memory>

#include "geometry/trial/fit.hpp"

namespace fairlead::trial {

/// What the results tell of the layout's uncertain inputs.
struct Learnt {
  Solved<Fit> fit = unsolved("not solved");
  /// The layout with what was fitted, judged anew. Unsolved where the fit is, or does not agree with the readings.
  std::shared_ptr<const Solved<Judged>> judged = std::make_shared<const Solved<Judged>>(unsolved("not solved"));
};

struct Trial {
  Solved<Plan> plan = unsolved("not solved");
  std::optional<Results> results{};  ///< none: nothing was tested yet
  std::optional<Learnt> learnt{};    ///< none without results
};

Learnt learn(const Rig&, const Plan&, const Results&, const Work& = {});

/// The slowest and the fastest arrival that was measured; none where nothing was.
std::optional<mainline::Span> arrivals_measured(const Trial&);

/// Whether every test of the plan passed, and everything that was judged anew with what they told did: true without
/// results. What could not be fitted is not held against tests that passed; it is told.
bool passed(const Trial&);

}  // namespace fairlead::trial
