// What passes as drawn, and whether it still does with some numbers changed.
#pragma once

#include <vector>

#include "geometry/checks/check.hpp"

namespace fairlead {

/// A changed layout against the findings that pass as drawn.
struct Outcome {
  bool holds = false;  ///< every one of them passes there too, and no new finding fails to
  /// Per finding that passes as drawn: how much is left to its limit, in its own unit; negative beyond it. NaN where it
  /// turns on no number or was not found there.
  std::vector<double> left;
  std::vector<char> passes;       ///< likewise, by its verdict
  std::vector<Finding> findings;  ///< likewise, as it is there; where it was not found as drawn but undetermined
  std::vector<Finding> others;    ///< what does not pass there and has no counterpart as drawn
};

/// Judges changed layouts at the resolution that the drawn one needed: a gap between value and bound counts as not
/// holding, so that what holds does so at any finer one.
class HeldFindings {
 public:
  explicit HeldFindings(const Judged& design, const Work& = {});

  const std::vector<Finding>& findings() const { return findings_; }  ///< that pass as drawn
  const std::vector<double>& left() const { return drawn_.left; }     ///< as drawn, as in Outcome
  const Layout& layout() const { return design_.rig.layout; }
  Outcome at(Layout, const Work&) const;

 private:
  Outcome outcome(const std::vector<Finding>&) const;

  const Judged& design_;
  Judged at_resolution_;
  std::vector<Finding> findings_;
  std::vector<std::size_t> ordinal_;
  Outcome drawn_;
};

}  // namespace fairlead
