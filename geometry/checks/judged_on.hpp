// The one date that certificates and waivers are judged at.
#pragma once

#include "geometry/layout/layout.hpp"

namespace fairlead {

/// --date, else the project's date, else none; never today's.
inline std::optional<Date> judged_on(const Layout& layout) {
  if (layout.judged_on) return layout.judged_on->value;
  if (layout.project.date) return layout.project.date->value;
  return std::nullopt;
}

}  // namespace fairlead
