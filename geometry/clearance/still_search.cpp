#include "geometry/clearance/still_search.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "geometry/clearance/found.hpp"
#include "geometry/clearance/scanned.hpp"

namespace fairlead::clearance {
namespace {

double at(const std::vector<double>& values, int i) { return values.empty() ? 0 : values[static_cast<std::size_t>(i)]; }

/// Of the hull of some corners; infinite where a scan is farther than within_m.
double hull_gap_m(std::span<const Point3> corners, const Scanned& scan, double within_m) {
  const auto near = scan.piece(0, 0, 0).nearest(sites::Hull{corners}, {.within_m = within_m});
  return near ? near->distance_m : std::numeric_limits<double>::infinity();
}
double hull_gap_m(std::span<const Point3> corners, const Fixed& fixed, double) {
  std::vector<Vec3> from_first;
  for (const Point3& corner : corners) from_first.push_back(corner - corners.front());
  return nearest(Hull{corners.front(), from_first}, fixed.piece(0, 0, 0)).distance_m;
}

template <class Piece>
Nearest piece_gap(const Piece& piece, const Scanned& scan, double within_m) {
  return nearest(piece, scan.piece(0, 0, 0), within_m);
}
template <class Piece>
Nearest piece_gap(const Piece& piece, const Fixed& fixed, double) {
  return nearest(piece, fixed.piece(0, 0, 0));
}

/// Pieces from `piece` and poses from `first`, the ends among them.
struct Part {
  int piece, last_piece, first, last;
};

template <class A, class Still>
class StillSearch {
 public:
  StillSearch(const A& a, const Still& still, bool exchanged, int poses, int sweep, double resolution_m, Least& least)
      : a_(a), still_(still), poses_(poses), found_(least, a.slack_m, exchanged, sweep, resolution_m) {
    constexpr double infinite = std::numeric_limits<double>::infinity();
    for (int pose = 0; pose + 1 < poses; ++pose) {
      const double open = at(a.stray_m, pose) + at(a.turn_m, pose);
      if (!(open < infinite)) found_.bound(-infinite);
      open_m_.push_back(open < infinite ? open : 0);
    }
    // The ends first: where something comes nearer all the way it is nearest there.
    show(0);
    if (poses > 1) show(poses - 1);
    if (poses == 1) found_.bound(found_.shown_m() - found_.slack_m());
    for (int first = 0; first + 1 < poses; first += poses_per_block)
      for (int i = 0; i < a.pieces(); i += most_pieces)
        search({i, std::min(i + most_pieces, a.pieces()) - 1, first, std::min(first + poses_per_block, poses - 1)});
  }

 private:
  /// More corners than these are taken as the box around them: they cost as much each.
  static constexpr std::size_t most_corners = 40;
  /// Along more of a line that runs over even ground all of it is about as near, and no part of it can be passed over.
  static constexpr int most_pieces = 4;

  /// Of the hull of corners_, surface to surface; `within_m` where it is no nearer than that. A scan is never nearer
  /// than 0 to a hull; a plane may be.
  double corners_gap_m(double within_m) {
    const double within = within_m + a_.radius_m;
    if (std::is_same_v<Still, Scanned> && !(within > 0)) return within_m;
    if constexpr (std::is_same_v<Still, Scanned>)
      if (bar_gap_m(within) >= within) return within_m;
    if (corners_.size() > most_corners) box_them();
    return std::min(hull_gap_m(corners_, still_, within) - a_.radius_m, within_m);
  }

  /// Of a bar that holds the corners, from the middle of the first half of them along the first axis to that of the
  /// last: less than that of their hull, and much sooner told of a line that hardly moves.
  double bar_gap_m(double within_m) const {
    const Point3 from = corners_.front();
    double low = 0, high = 0;
    Vec3 sum;
    for (const Point3& corner : corners_) {
      const double along = dot(corner - from, still_.axes()[0]);
      low = std::min(low, along);
      high = std::max(high, along);
      sum += corner - from;
    }
    const Vec3 middle = 1 / static_cast<double>(corners_.size()) * sum;
    Vec3 lean;  // how the corners run aside of the axis as they go along it
    double spread = 0;
    for (const Point3& corner : corners_) {
      const Vec3 off = corner - from - middle;
      const double along = dot(off, still_.axes()[0]);
      lean += along * (off - along * still_.axes()[0]);
      spread += along * along;
    }
    const Vec3 way = still_.axes()[0] + (spread > 0 ? 1 / spread : 0) * lean;
    const double at_middle = dot(middle, still_.axes()[0]);
    const Point3 a = from + middle + (low - at_middle) * way, b = from + middle + (high - at_middle) * way;
    double radius_m = 0;
    for (const Point3& corner : corners_)
      radius_m = std::max(radius_m, norm(corner - a - dot(corner - a, still_.axes()[0]) * way));
    const auto near = still_.piece(0, 0, 0).nearest(sites::Capsule{a, b}, {.within_m = within_m + radius_m});
    return near ? near->distance_m - radius_m : within_m;
  }

  void box_them() {
    const Point3 from = corners_.front();
    std::array<double, 3> low{}, high{};
    for (const Point3& corner : corners_)
      for (std::size_t k = 0; k < 3; ++k) {
        const double along = dot(corner - from, still_.axes()[k]);
        low[k] = std::min(low[k], along);
        high[k] = std::max(high[k], along);
      }
    corners_.clear();
    for (std::size_t i = 0; i < 8; ++i) {
      Point3 corner = from;
      for (std::size_t k = 0; k < 3; ++k) corner = corner + (i >> k & 1 ? high[k] : low[k]) * still_.axes()[k];
      corners_.push_back(corner);
    }
  }

  double most_open_m(int first, int last) const {
    return *std::max_element(open_m_.begin() + first, open_m_.begin() + last) + found_.slack_m();
  }

  void show(int pose) {
    for (int i = 0; i < a_.pieces(); ++i) show(i, pose, 0);
  }
  void show(int i, int pose, double share) {
    const double within_m = found_.shown_m() + a_.radius_m;
    corners_.clear();
    a_.corners(i, pose, share, corners_);
    if (corners_.size() > most_corners && corners_gap_m(found_.shown_m()) >= found_.shown_m()) return;
    const Nearest met = piece_gap(a_.piece(i, pose, share), still_, within_m);
    if (!(met.distance_m <= within_m)) return;
    // Hulls without a radius are a rider's, whose turning corners bulge beyond them.
    const bool within = std::is_same_v<A, MovingHulls> && a_.radius_m == 0;
    found_.value(surfaces(met, a_.radius_m, 0), pose, share, share == 0 ? 0 : open_m_[static_cast<std::size_t>(pose)],
                 within);
  }

  void search(const Part& part) {
    const double open_m = most_open_m(part.first, part.last), enough_m = found_.settled_m(open_m);
    corners_.clear();
    for (int pose = part.first; pose <= part.last; ++pose)
      for (int i = part.piece; i <= part.last_piece; ++i) a_.corners(i, pose, 0, corners_);
    const double least_m = corners_gap_m(enough_m);
    if (least_m >= enough_m) return found_.bound(least_m - open_m);
    if (part.piece < part.last_piece) {
      const int middle = (part.piece + part.last_piece) / 2;
      search({part.piece, middle, part.first, part.last});
      search({middle + 1, part.last_piece, part.first, part.last});
      return;
    }
    const int i = part.piece;
    if (part.last - part.first == 1) {
      show(i, part.first, 0);
      show(i, part.last, 0);
      return between(i, part.first, 0, 1);
    }
    const int middle = (part.first + part.last) / 2;
    show(i, middle, 0);
    search({i, i, part.first, middle});
    search({i, i, middle, part.last});
  }

  void between(int i, int pose, double from, double to) {
    const double open_m = most_open_m(pose, pose + 1), enough_m = found_.settled_m(open_m);
    corners_.clear();
    a_.corners(i, pose, from, corners_);
    if (to == 1)
      a_.corners(i, pose + 1, 0, corners_);
    else
      a_.corners(i, pose, to, corners_);
    const double least_m = corners_gap_m(enough_m);
    if (least_m >= enough_m || (to - from) * change_m(i, pose) <= found_.resolution_m())
      return found_.bound(least_m - open_m);
    const double middle = (from + to) / 2;
    show(i, pose, middle);
    between(i, pose, from, middle);
    between(i, pose, middle, to);
  }

  double change_m(int i, int pose) const {
    double most = at(a_.turn_m, pose);
    for (const Vec3& move : a_.moves(i, pose)) most = std::max(most, norm(move));
    return most;
  }

  const A& a_;
  const Still& still_;
  int poses_;
  Found found_;
  std::vector<double> open_m_;  ///< after each pose but the last; 0 where it is infinite, which the bound then says
  std::vector<Point3> corners_;
};

}  // namespace

template <class A, class Still>
void search_still(const A& a, const Still& still, bool exchanged, int poses, int sweep, double resolution_m,
                  Least& least) {
  StillSearch(a, still, exchanged, poses, sweep, resolution_m, least);
}

template void search_still(const Chain&, const Scanned&, bool, int, int, double, Least&);
template void search_still(const MovingBox&, const Scanned&, bool, int, int, double, Least&);
template void search_still(const MovingHulls&, const Scanned&, bool, int, int, double, Least&);
template void search_still(const MovingHulls&, const Fixed&, bool, int, int, double, Least&);

}  // namespace fairlead::clearance
