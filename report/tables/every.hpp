// Every table of a report at once.
#pragma once

#include "report/tables/table.hpp"

namespace fairlead::tables {

/// In the order in which the sheets show them, those without rows too. What compares two revisions is not among them,
/// nor are single windows: together they would be read as tolerances.
std::vector<Table> every(const Dossier&, const Style&);

}  // namespace fairlead::tables
