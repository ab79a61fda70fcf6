// The least gap of something that moves to something that stands over a passage: seen, and bounded from below between
// the poses.
//
// Between poses everything is first taken to move straight and evenly. Over some poses, or a share of the way between
// two, all that a piece passes lies in the hull of its corners at each of these poses, or at both ends of that share;
// what turns is off that by what is told as open. So no instant is nearer than that hull, whatever stands there, a
// solid or the triangles of a scan. Pieces and poses are taken together at first, in boxes along the line, and parted
// while that leaves room for less than was shown already.
#pragma once

#include "geometry/clearance/search.hpp"

namespace fairlead::clearance {

/// As search() does. exchanged: the least names the still one's point first.
template <class A, class Still>
void search_still(const A&, const Still&, bool exchanged, int poses, int sweep, double resolution_m, Least&);

extern template void search_still(const Chain&, const Scanned&, bool, int, int, double, Least&);
extern template void search_still(const MovingBox&, const Scanned&, bool, int, int, double, Least&);
extern template void search_still(const MovingHulls&, const Scanned&, bool, int, int, double, Least&);
extern template void search_still(const MovingHulls&, const Fixed&, bool, int, int, double, Least&);

}  // namespace fairlead::clearance
