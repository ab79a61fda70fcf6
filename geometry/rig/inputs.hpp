// From the author's words to each stage's plain numbers. Nothing else reads a Layout for the mechanics.
#pragma once

#include "geometry/rig/courses.hpp"
#include "geometry/rig/rig.hpp"

namespace fairlead {

Frame frame_of(const Layout&);

/// What is written down as assumed on the way is appended to `assumptions`.
Solved<mainline::Inputs> main_line_inputs(const Layout&, const Frame&, std::vector<std::string>& assumptions);

/// Stiffness EA of a hung cable, as given or estimated from its construction.
Range stiffness_N(const std::string& name, const std::optional<Range>& ea_N,
                  const std::optional<Given<RopeConstruction>>&, double diameter_m,
                  std::vector<std::string>& assumptions);
mainline::MeasuredAt measured_at(TensionAt);

/// A support line as it was measured, as a bare cable of its own.
Solved<mainline::Cable> support_cable(const Layout&, const SupportLine&, std::vector<std::string>& assumptions);

reeving::BrakeUnit brake_law(const UnplacedUnit&);

/// Of approach and arrest alike. Unsolved where the layout does not give what riders are slowed by.
Solved<arrest::Inputs> arrest_inputs(const Layout&, const Frame&, const mainline::MainLine&,
                                     std::vector<std::string>& assumptions);
/// The same of a concept: along is travel, and the air that of sea level at 15 C.
Solved<arrest::Inputs> arrest_inputs(const Concept&, std::vector<std::string>& assumptions);

/// What of the reeving is known before it is solved. `ratio`: drawn.hpp's nominal ratio.
Solved<reeving::Inputs> reeving_inputs(const Layout&, const Frame&, const Courses&, double ratio,
                                       const mainline::MainLine&, double fastest_m_per_s, Resolution,
                                       std::vector<std::string>& assumptions);

/// Unstretched length of a cable that was measured bare, one value of stiffness taken.
Solved<mainline::Cable> hung_cable(const Layout&, const HungCable<Real>&, double compliance_per_N);

Solved<loads::Inputs> loads_inputs(const Layout&, const Frame&, const Courses&, const mainline::Inputs&,
                                   const mainline::MainLine&, std::vector<std::string>& assumptions);
/// The instants of every arrest that may govern, or why there are none.
loads::Arrested arrested(const Frame&, const mainline::MainLine&, const Stage<arrest::Inputs, arrest::Approaches>&,
                         const Stage<arrest::Inputs, arrest::Arrest>&);
/// K of a sheave, by its bearing where the line over it is steel (rolling 1.04, plain 1.09: Wire Rope Users Manual, 4th
/// ed., p. 86-88, second-hand); none where it is not known.
std::optional<double> friction_of(const Sheave&, const Line&);

/// Members, bases and directions of the anchors.
void add_standing(const Layout&, loads::Inputs&, std::vector<std::string>& assumptions);

/// A structure as a solid; a scan is none.
std::optional<clearance::Shape> solid_of(const Structure&);

/// Without an arrest it is not known how riders swing.
clearance::Inputs clearance_inputs(const Layout&, const Frame&, const Courses&, const mainline::MainLine&,
                                   const reeving::Inputs&, const arrest::Arrest*, Resolution,
                                   std::vector<std::string>& assumptions);

}  // namespace fairlead
