// What the comparison of two revisions is reported from.
#pragma once

#include "geometry/studies/difference.hpp"
#include "report/dossier.hpp"

namespace fairlead {

struct Changes {
  Judged was, is;
  Difference difference;
};

}  // namespace fairlead
