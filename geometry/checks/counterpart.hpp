// One finding beside the same one of another judgement.
#pragma once

#include <optional>
#include <vector>

#include "geometry/checks/check.hpp"

namespace fairlead {

/// How many findings of the same check and subject stand before it.
std::size_t ordinal(const std::vector<Finding>&, std::size_t finding);

/// The n-th finding of the check and subject of `of`; null where there is none.
const Finding* counterpart(const std::vector<Finding>&, const Finding& of, std::size_t n);

/// The limit of a finding, or what its verdict turns on where that is nobody's choice; none where it turns on no
/// number.
std::optional<double> limit_of(const Finding&);

/// What is left to its limit as a share of the limit, of a fail negative. Nothing where the finding is neither a pass
/// nor a fail, was not measured, or its limit is none or 0.
std::optional<double> reserve_of(const Finding&);

}  // namespace fairlead
