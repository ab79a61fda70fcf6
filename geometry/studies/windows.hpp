// How far one number may be off, all others as drawn, before the first check that passes as drawn does not.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/studies/held_findings.hpp"
#include "geometry/studies/variable.hpp"

namespace fairlead {

/// One way from the drawn value. Every amount was judged by itself; between the greatest that holds and the drawn value
/// at least one more was, about half way.
struct Reach {
  double holds = 0;              ///< greatest amount seen to hold; 0 where none was
  std::optional<double> fails;   ///< least amount seen not to; none: all of the search holds
  std::optional<Finding> first;  ///< of what does not hold there, the one that gives way nearest to the drawn value
};

struct Window {
  Reach less, more;
};

struct Search {
  double reach = 1;          ///< how far is looked, SI
  double fine = 1e-3;        ///< `fails` is within this of `holds`,
  double fine_share = 0.02;  ///< or within this share of it
};

struct Windows {
  std::vector<Variable> variables;
  std::vector<Window> windows;  ///< one a variable
  Search search;
  std::vector<Finding> unwatched{};  ///< what does not pass as drawn, waived or not: no window says anything of it
};

/// Windows are searched on work.threads threads; the result does not depend on how many.
Windows windows(const HeldFindings&, std::vector<Variable>, const Search&, const Work&);

}  // namespace fairlead
