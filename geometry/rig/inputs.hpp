// From the author's words to each stage's plain numbers. Nothing else reads a Layout for the mechanics.
#pragma once

#include "geometry/rig/rig.hpp"

namespace fairlead {

Frame frame_of(const Layout&);

/// What is written down as assumed on the way is appended to `assumptions`.
Solved<mainline::Inputs> main_line_inputs(const Layout&, const Frame&, std::vector<std::string>& assumptions);

/// The one line from brake trolley to brake unit and the sheaves it runs over, in that order.
struct Chain {
  int line{};
  std::vector<int> sheaves;                     ///< indices into layout.sheaves
  std::vector<std::optional<Turning>> turning;  ///< as the line runs from trolley to unit
};
/// Unsolved when there is none or more than one, or when it runs through what this version cannot solve.
Solved<Chain> braking_chain(const Layout&);

Solved<reeving::Inputs> reeving_inputs(const Layout&, const Frame&, const Chain&, const mainline::MainLine&,
                                       Resolution);

loads::Inputs loads_inputs(const Layout&, const Chain&);

}  // namespace fairlead
