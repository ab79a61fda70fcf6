// What a report is made from.
#pragma once

#include <optional>

#include "geometry/checks/check.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/studies/placement.hpp"

namespace fairlead {

struct Dossier {
  Judged judged;
  std::optional<Placement> placement{};  ///< absent until asked for
};

/// How numbers and words are shown.
struct Style {
  Units units = Units::both;
};

}  // namespace fairlead
