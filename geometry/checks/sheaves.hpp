// The sheaves that carry lines, for the checks that look at each of them.
#pragma once

#include "geometry/checks/check.hpp"

namespace fairlead {

/// One sheave under a line, as the layout has it.
struct SheaveUnder {
  std::size_t reeved{};  ///< index into the reeving's sheaves
  int index{};           ///< into layout.sheaves
  const Sheave* sheave{};
  const Line* line{};
};

/// In the order of the reeving; wheels on support lines left out.
std::vector<SheaveUnder> sheaves_under_lines(const Rig&);

}  // namespace fairlead
