// The tables of a register of parts.
#pragma once

#include "geometry/records/records.hpp"
#include "report/tables/table.hpp"

namespace fairlead::tables {

/// Wear is read to hundredths of a millimetre: "15.66 mm (0.617 in)".
std::string diameter(double m, const Style&);

/// Every part in service with its serial, batch, days and cycles.
Table register_of_parts(const Records&);
/// What is no pass, the worst first: with why, and by whose limit.
Table records_open(const Records&, const Style&);
/// What passes, with days and wear left.
Table records_passed(const Records&, const Style&);

}  // namespace fairlead::tables
