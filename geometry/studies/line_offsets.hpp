// Where a place stands as a crew measures it: from the main line as it hangs bare.
#pragma once

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// A place seen from the bare main line, without trolley or rider, at one temperature.
struct LineOffset {
  double up_m{};           ///< plumb above the centre of the line; where its height is open, above the middle of that
  double across_m{};       ///< from the line's vertical plane; positive to the left looking toward the landing
  double from_rest_m{};    ///< horizontal from the brake trolley's rest mark, downstream positive
  double temperature_K{};  ///< of the line
  double open_m{};  ///< the line's height there is known to within this either way: ranges the layout leaves open
};

/// Unsolved where the main line is, where its shape cannot be told, and beyond its supports, where there is no line to
/// measure from.
Solved<LineOffset> offset_from_line(const Rig&, Point3, mainline::Weather = mainline::Weather::measured);

/// What a tape laid along the bare main line reads between two chainages, at the temperature it was measured at; the
/// middle, where the layout leaves its shape open. Not negative. Unsolved as above.
Solved<double> taped_along_line_m(const Rig&, double from_chainage_m, double to_chainage_m);

/// What a place beyond a support, or at a line that is not solved, can still be measured from: the support nearer to
/// it, with `up_m` above that and no temperature.
struct SupportOffset {
  AnchorId support{};
  LineOffset offset;
};
SupportOffset offset_from_support(const Rig&, Point3);

}  // namespace fairlead
