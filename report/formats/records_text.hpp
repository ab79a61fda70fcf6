// The whole output of `fairlead records`.
#pragma once

#include <string>

#include "geometry/records/records.hpp"
#include "report/tables/table.hpp"

namespace fairlead::text {

/// "RECORDS IN ORDER: 12 pass", "RECORDS NOT IN ORDER: 1 fail, 2 not judged".
std::string headline(const Records&);

/// The verdict first, then what is not in order, what is, the register, and the cautions.
std::string write(const Records&, const Layout&, const Style&);

}  // namespace fairlead::text
