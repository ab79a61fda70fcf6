// What a report is made from.
#pragma once

#include <memory>
#include <optional>

#include "geometry/checks/check.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/studies/placement.hpp"
#include "geometry/studies/setting_out.hpp"

namespace fairlead {

struct ArrestFigures;
namespace trial {
struct Trial;
}

struct Dossier {
  Judged judged;
  std::optional<Placement> placement{};           ///< absent until asked for
  std::optional<SettingOut> setting_out{};        ///< absent until asked for
  std::shared_ptr<const ArrestFigures> arrest{};  ///< absent until asked for
  std::shared_ptr<const trial::Trial> trial{};    ///< absent until asked for
};

/// How numbers and words are shown.
struct Style {
  Units units = Units::both;
  bool tenths{};  ///< US lengths from 0.1 m up as decimal feet, "12.34 ft (tenths)", in place of feet and inches
};

}  // namespace fairlead
