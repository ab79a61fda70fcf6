// What a report is made from.
#pragma once

#include <string>

#include "geometry/checks/check.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {

struct Dossier {
  Judged judged;
};

/// How numbers and words are shown.
struct Style {
  Units units = Units::both;
};

}  // namespace fairlead
