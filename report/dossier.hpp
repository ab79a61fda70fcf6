// What a report is made from.
#pragma once

#include <optional>

#include "geometry/checks/check.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "geometry/studies/placement.hpp"
#include "geometry/studies/setting_out.hpp"

namespace fairlead {

struct Dossier {
  Judged judged;
  std::optional<Placement> placement{};     ///< absent until asked for
  std::optional<SettingOut> setting_out{};  ///< absent until asked for
  std::optional<ArrestFigures> arrest{};    ///< absent until asked for
};

/// How numbers and words are shown.
struct Style {
  Units units = Units::both;
};

}  // namespace fairlead
