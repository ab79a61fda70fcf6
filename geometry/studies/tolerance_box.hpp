// How far all numbers may be off at once, in any combination, with every check still held.
#pragma once

#include <string>
#include <vector>

#include "geometry/studies/held_findings.hpp"
#include "geometry/studies/variable.hpp"

namespace fairlead {

/// What narrows the box most: a finding, what it loses of its reserve to every variable being off at once, its reserve
/// as drawn, and the share of that loss that was only seen where several are off together.
struct Binding {
  Finding finding;
  double reserve{}, loss{}, together{};
};

/// Of every variable the amount, either way, that it may be off by while all others are off by up to theirs.
///
/// Judged by itself at each end of each amount, and, finding by finding, with all variables off the ways that eat into
/// that finding, and the opposite ways. A finding's bound is the sum of its single losses and the greatest amount by
/// which any judged combination fell short of that sum; the box is made smaller until every finding keeps its limit by
/// that bound and every judged combination passes. Proven only where findings bend no more between the judged
/// combinations than at them: estimated otherwise.
struct ToleranceBox {
  std::vector<Variable> variables;
  std::vector<double> amount;    ///< SI, rounded down to `step`
  double step{}, most{};         ///< amounts are multiples of step; none is taken beyond `most`
  int judged = 0;                ///< combinations, the single ones among them
  std::vector<Binding> binding;  ///< the findings with no reserve left, most used first
};

struct BoxSearch {
  double most = 0.1;  ///< nobody sets out worse than a decimetre
  double step = 1e-3;
};

/// Unsolved, in words, where something that is not waived does not pass as drawn, and where no step of the search gives
/// a box. Combinations are judged on work.threads threads; the result does not depend on how many.
Solved<ToleranceBox> tolerance_box(const Judged& design, const HeldFindings&, std::vector<Variable>, const BoxSearch&,
                                   const Work&);

}  // namespace fairlead
