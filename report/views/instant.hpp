// One instant of a passage, between two poses: the rider beside what the rig has there, from the side and from behind.
#pragma once

#include "report/drawing/canvas.hpp"
#include "report/views/scene.hpp"

namespace fairlead::views {

/// The scene of a rig at one travel of a sweep, straight between the poses before and after it; the rider stands where
/// it passes and reaches as far as it was searched. Nothing of the full travel is in it.
struct Instant {
  Scene scene;
  Point3 rider;  ///< the rider trolley's wheel
};
Instant instant_of(const Scene&, std::size_t sweep, double travel_m, const clearance::RiderHeld&);

/// The lightest rider under the first redirect: in the passage in which the redirect comes nearest, where clearances
/// are solved, else in the first one with the line at rest. None where no rider passes it.
struct UnderRedirect {
  Instant instant;
  int sweep{};
  double travel_m{};
};
std::optional<UnderRedirect> under_redirect(const Scene&);

/// Seen from upstream: the landing lies behind the paper, left of the main line is left. `at`: paper place of the
/// wheel.
drawing::View section_view(const Instant&, double scale, drawing::Paper at);
/// Whether a structure stands within `reach_m` of the rider along the main line, or to both sides of that.
bool in_section(const Instant&, const StructureSeen&, double reach_m);
/// What of the rig stands within `reach_m` of the rider along the main line, cut off at a frame.
void draw_section(const drawing::Canvas&, const Instant&, const drawing::View&, const drawing::Box& frame,
                  double reach_m);
/// The same from the side.
drawing::View side_view(const Instant&, double scale, drawing::Paper at);
void draw_side(const drawing::Canvas&, const Instant&, const drawing::View&, const drawing::Box& frame);

}  // namespace fairlead::views
