// Figures as the views write them, and what the detail names.
#pragma once

#include <string>

#include "report/views/arrest.hpp"

namespace fairlead::views {

/// A length on the drawing: metres without unit, as its notes say, or feet and inches, or
/// decimal feet without unit.
std::string figure(double metres, const Style&);

/// Points of a curve from a share of its length to another, the middle first: where a leader may end.
std::vector<drawing::Paper> along(const drawing::View&, const Curve3&, double from, double to);

/// "L1 braking line Ø8", "S1 support line Ø10".
std::string line_words(const Scene&, const LineSeen&, const Style&);
std::string line_id(const Scene&, int line);

/// "Leg S1", "Guy G2", "Pole M1"
std::string member_name(const Layout&, const MemberSeen&);

/// "R1 at full travel,\n0.147 from its place at rest"
std::string ghost_words(const Scene&, const SheaveSeen& ghost, const Style&);

/// Only what lies inside `frame` is named.
std::vector<drawing::Callout> detail_callouts(const Scene&, const drawing::View&, const drawing::Box& frame,
                                              const Style&);

}  // namespace fairlead::views
