// A concept: how riders are to stop, before anything has a place. Its table: concept_fields.hpp.
#pragma once

#include "geometry/layout/brake.hpp"
#include "geometry/layout/limits.hpp"
#include "geometry/layout/project.hpp"
#include "geometry/layout/riders.hpp"

namespace fairlead {

/// The section [concept]: what stands for the main line and the reduction.
struct ConceptZone {
  Real ratio;       ///< n of n:1, 1 or more
  Real efficiency;  ///< share of the work that the sheaves of the reduction leave
  Real slope;       ///< rise over run of the main line in the arrest zone, positive rising toward the landing
  std::optional<Real> slope_angle_rad;  ///< exactly one of both is given; `slope` follows
  Real travel_m;                        ///< of the brake trolley, from its rest mark
  Place place{};
};

/// Chainages count from the rest mark.
struct Concept {
  std::vector<std::string> files;    ///< the concept's own, then "command line"
  std::string sha256;                ///< of the file's bytes, 64 hex digits
  std::vector<std::string> changes;  ///< made on the command line, "concept.ratio = 3"
  Project project;
  ConceptZone zone;
  UnplacedUnit brake_unit;
  UnplacedTrolley brake_trolley;
  std::optional<UnplacedBackup> backup_brake;
  Riders riders;  ///< with an arrival speed
  std::optional<UnplacedLanding> landing;
  Limits limits;
};

}  // namespace fairlead
