// What a search for the least gap has found so far, and what of the rest it need not look at.
#pragma once

#include <algorithm>
#include <utility>

#include "geometry/clearance/search.hpp"

namespace fairlead::clearance {

class Found {
 public:
  /// exchanged: the least names the points of what is looked at second first.
  Found(Least& least, double slack_m, bool exchanged, int sweep, double resolution_m)
      : least_(least), slack_m_(slack_m), exchanged_(exchanged), sweep_(sweep), resolution_m_(resolution_m) {}

  double shown_m() const { return least_.shown_m; }
  double slack_m() const { return slack_m_; }
  double resolution_m() const { return resolution_m_; }

  /// A stretch nowhere below this holds no value worth finding; once what is open is off, and it is not below this or
  /// the bound there is already, it takes nothing from the bound either.
  double settled_m(double open_m) const {
    const double enough_m = least_.shown_m - resolution_m_ * std::max(1., least_.shown_m);
    return std::max(enough_m, std::min(enough_m, least_.bound_m) + open_m);
  }
  bool settled(double least_m, double open_m) const { return least_m >= settled_m(open_m); }

  void bound(double gap_m) { least_.bound_m = std::min(least_.bound_m, gap_m); }

  /// Of the straight way, on chords. within: what the chords stand for holds them, so that what meets them meets it.
  void value(const Nearest& met, int pose, double share, double open_m, bool within = false) {
    least_.shown_m = std::min(least_.shown_m, met.distance_m);
    const double value_m = met.distance_m + (within && met.distance_m <= 0 ? 0 : slack_m_) + open_m;
    if (!(value_m < least_.value_m)) return;
    least_.value_m = value_m;
    least_.nearest = met;
    if (exchanged_) std::swap(least_.nearest.on_a, least_.nearest.on_b);
    least_.sweep = sweep_;
    least_.pose = pose;
    least_.share = share;
  }

 private:
  Least& least_;
  double slack_m_;
  bool exchanged_;
  int sweep_;
  double resolution_m_;
};

/// From the middles of lines, and the hulls within margins, to their surfaces.
inline Nearest surfaces(Nearest met, double radius_a_m, double radius_b_m) {
  const Vec3 way = met.on_b - met.on_a;
  const double length = norm(way);
  if (length > 0) {
    met.on_a = met.on_a + radius_a_m / length * way;
    met.on_b = met.on_b - radius_b_m / length * way;
  }
  met.distance_m -= radius_a_m + radius_b_m;
  return met;
}

}  // namespace fairlead::clearance
