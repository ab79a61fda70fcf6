// Everything that was solved and found, as JSON for other programs: SI, the unit in the key. schema.json beside this
// file says what every key means.
#pragma once

#include <string>

#include "report/dossier.hpp"

namespace fairlead::json {

std::string write(const Dossier&);

}  // namespace fairlead::json
