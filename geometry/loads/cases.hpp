// Load cases: what acts, what it is called, and its forces.
#pragma once

#include <compare>

#include "geometry/loads/books.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {

/// One pose of one sweep, or with sweep -1 one of the span cases. In the order of the list of cases.
struct CaseKey {
  Action action{};
  int sweep = -1, pose = -1;
  auto operator<=>(const CaseKey&) const = default;
};

/// A rider on the open span at the worst place for one support, in one state of the main line.
struct SpanCase {
  std::size_t path{};  ///< index into the main line's paths
  bool start{};        ///< worst for the start support, else for the landing support
  mainline::SupportWorst worst;
  Balance balance;
};

Action action_of(const reeving::Inputs&, int sweep);

/// Every path of the heaviest rider, each support: the line and the trolley as they are with the rider farthest
/// upstream that the reeving knows.
Solved<std::vector<SpanCase>> span_cases(const Books&, const mainline::MainLine&, const reeving::Inputs&,
                                         const reeving::Reeving&);

LoadCase case_in_zone(const Books&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&,
                      const CaseKey&);
LoadCase case_on_span(const mainline::MainLine&, const reeving::Inputs&, const SpanCase&);

}  // namespace fairlead::loads
