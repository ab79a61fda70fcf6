// The register of parts as JSON.
#pragma once

#include <string>

#include "geometry/records/records.hpp"

namespace fairlead::json {

/// report/json/records_schema.json says what stands where.
std::string write(const Records&, const Layout&);

}  // namespace fairlead::json
