// Everything that was solved and found, as JSON for other programs: SI, the unit in the key. schema.json beside this
// file says what every key means.
#pragma once

#include <string>

#include "report/dossier.hpp"

namespace fairlead {
struct AsBuilt;
struct Changes;
}  // namespace fairlead

namespace fairlead::json {

std::string write(const Dossier&);

/// How riders stop in a concept: concept_schema.json says what every key means.
std::string write_concept(const Dossier&);

/// What changed between two revisions; changes_schema.json says what every key means.
std::string write(const Changes&);

/// The rig as built; as_built_schema.json says what every key means.
std::string write(const AsBuilt&);

/// The plan of unmanned tests and what came of it; trial_schema.json says what every key means. The dossier has its
/// trial.
std::string write_trial(const Dossier&);

}  // namespace fairlead::json
