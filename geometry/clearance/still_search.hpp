// The least gap of something that moves to something that stands over a passage: seen, and bounded from below between
// the poses.
//
// Between poses everything is first taken to move straight and evenly. Over some poses, or a share of the way between
// two, all that a piece passes lies in the hull of its corners at each of these poses, or at both ends of that share;
// what turns is off that by what is told as open. So no instant is nearer than that hull, whatever stands there, a
// solid or the triangles of a scan. Pieces and poses are taken together at first, in boxes along the line, and the part
// that may come nearest is halved, until none leaves room for less than was shown already.
#pragma once

#include <memory>

#include "geometry/clearance/search.hpp"

namespace fairlead::clearance {

/// A search that has taken a first look at everything.
class Begun {
 public:
  virtual ~Begun() = default;
  virtual double bound_m() const = 0;  ///< of what is not settled yet, nothing is nearer; infinite where all is
  virtual void finish() = 0;
};

/// As search() does, with a first look now and the rest in finish(): of several passages the nearest is then finished
/// first, and little is left to do in the others. exchanged: the least names the still one's point first. All that is
/// told must live as long.
template <class A, class Still>
std::unique_ptr<Begun> begin_search(const A&, const Still&, bool exchanged, int poses, int sweep, double resolution_m,
                                    Least&);

extern template std::unique_ptr<Begun> begin_search(const Chain&, const Scanned&, bool, int, int, double, Least&);
extern template std::unique_ptr<Begun> begin_search(const MovingBox&, const Scanned&, bool, int, int, double, Least&);
extern template std::unique_ptr<Begun> begin_search(const MovingHulls&, const Scanned&, bool, int, int, double, Least&);
extern template std::unique_ptr<Begun> begin_search(const MovingHulls&, const Fixed&, bool, int, int, double, Least&);

}  // namespace fairlead::clearance
