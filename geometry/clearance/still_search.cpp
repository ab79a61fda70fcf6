#include "geometry/clearance/still_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include "geometry/clearance/found.hpp"
#include "geometry/clearance/scanned.hpp"

namespace fairlead::clearance {
namespace {

double at(const std::vector<double>& values, int i) { return values.empty() ? 0 : values[static_cast<std::size_t>(i)]; }

template <class A>
constexpr bool is_hull = std::is_same_v<A, MovingHulls>;

double infinite() { return std::numeric_limits<double>::infinity(); }
double length(Vec3 v) { return std::sqrt(dot(v, v)); }

/// Pieces from `piece` and poses from `first`, the ends among them; of one piece from a pose to the next, shares of the
/// way.
struct Part {
  int piece, last_piece, first, last;
  double from = 0, to = 1;
  double change_m = -1;  ///< of one piece from a pose to the next; less than 0: not told yet
  double least_m = -infinite(), open_m{};

  /// No instant in it is nearer.
  double bound_m() const { return least_m - open_m; }
  bool one_step() const { return piece == last_piece && last - first == 1; }
};

template <class A, class Still>
class StillSearch final : public Begun {
 public:
  StillSearch(const A& a, const Still& still, bool exchanged, int poses, int sweep, double resolution_m, Least& least)
      : a_(a), still_(still), found_(least, a.slack_m, exchanged, sweep, resolution_m) {
    for (int pose = 0; pose + 1 < poses; ++pose) {
      const double open = at(a.stray_m, pose) + at(a.turn_m, pose);
      if (!(open < infinite())) found_.bound(-infinite());
      open_m_.push_back(open < infinite() ? open : 0);
    }
    // The ends first: where something comes nearer all the way it is nearest there.
    show(0);
    if (poses > 1) show(poses - 1);
    if (poses == 1) found_.bound(found_.shown_m() - found_.slack_m());
    for (int first = 0, block = 0; first + 1 < poses; first += poses_per_block, ++block)
      for (int i = 0; i < a.pieces(); i += most_pieces)
        look(block,
             {i, std::min(i + most_pieces, a.pieces()) - 1, first, std::min(first + poses_per_block, poses - 1)});
  }

  double bound_m() const override { return waiting_.empty() ? infinite() : waiting_.front().bound_m(); }

  void finish() override {
    while (!waiting_.empty()) {
      std::pop_heap(waiting_.begin(), waiting_.end(), nearer_on_top);
      const Part part = waiting_.back();
      waiting_.pop_back();
      if (found_.settled(part.least_m, part.open_m))
        found_.bound(part.bound_m());
      else
        halve(part);
    }
  }

 private:
  /// More corners than these are taken as the box around them: they cost as much each.
  static constexpr std::size_t most_corners = 40;
  /// Along more of a line that runs over even ground all of it is about as near, and no part of it can be passed over.
  static constexpr int most_pieces = 4;

  static bool nearer_on_top(const Part& a, const Part& b) { return a.bound_m() > b.bound_m(); }

  /// At a part of a whole block of poses. Of solids the boxes along the site's axes tell most of what is far away, and
  /// no corner of it is looked at.
  void look(int block, const Part& part) {
    if constexpr (std::is_same_v<Still, Fixed>) {
      Bounds all = a_.swept(block, part.piece);
      for (int i = part.piece + 1; i <= part.last_piece; ++i) all = hull(all, a_.swept(block, i));
      const double open_m = most_open_m(part.first, part.last), least_m = gap_m(all);
      if (found_.settled(least_m, open_m)) return found_.bound(least_m - open_m);
    }
    wait(part);
  }
  double gap_m(const Bounds& bounds) const {
    const Vec3 half = 0.5 * (bounds.high - bounds.low);
    return nearest(Box{bounds.low + half, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}, half}, still_.piece(0, 0, 0)).distance_m -
           a_.radius_m;
  }

  /// Keeps a part for later, unless it needs no second look.
  void wait(Part part) {
    part.open_m = most_open_m(part.first, part.last);
    const double enough_m = found_.settled_m(part.open_m);
    part.least_m = std::max(part.least_m, part_gap_m(part, enough_m));
    const bool finest = part.change_m >= 0 && (part.to - part.from) * part.change_m <= found_.resolution_m();
    if (part.least_m >= enough_m || finest) return found_.bound(part.bound_m());
    waiting_.push_back(part);
    std::push_heap(waiting_.begin(), waiting_.end(), nearer_on_top);
  }

  void halve(Part part) {
    Part other = part;
    if (part.piece < part.last_piece) {
      part.last_piece = (part.piece + part.last_piece) / 2;
      other.piece = part.last_piece + 1;
    } else if (!part.one_step()) {
      part.last = other.first = (part.first + part.last) / 2;
      show(part.piece, part.last, 0);
    } else {
      if (part.change_m < 0) {
        show(part.piece, part.first, 0);
        show(part.piece, part.last, 0);
        part.change_m = other.change_m = change_m(part.piece, part.first);
      }
      part.to = other.from = (part.from + part.to) / 2;
      show(part.piece, part.first, part.to);
    }
    wait(part);
    wait(other);
  }

  /// Of the hull of all that the part passes.
  double part_gap_m(const Part& part, double within_m) {
    corners_.clear();
    if (part.one_step()) {
      a_.corners(part.piece, part.first, part.from, corners_);
      if (part.to == 1)
        a_.corners(part.piece, part.last, 0, corners_);
      else
        a_.corners(part.piece, part.first, part.to, corners_);
    } else {
      for (int pose = part.first; pose <= part.last; ++pose)
        for (int i = part.piece; i <= part.last_piece; ++i) a_.corners(i, pose, 0, corners_);
    }
    const double box_m = corners_gap_m(within_m);
    const bool rough = corners_.size() > most_corners && part.one_step();
    return rough && box_m < within_m ? std::max(box_m, gap_m(corners_, within_m)) : box_m;
  }

  /// Of the hull of corners_, or of a box around them; `within_m` where it is no nearer than that.
  double corners_gap_m(double within_m) const {
    return corners_.size() > most_corners ? gap_m(box_around_them(), within_m) : gap_m(corners_, within_m);
  }

  /// Of a hull, surface to surface; `within_m` where it is no nearer than that. A scan is never nearer than 0 to a
  /// hull; a plane may be.
  double gap_m(std::span<const Point3> corners, double within_m) const {
    const double within = within_m + a_.radius_m;
    double middles_m = infinite();
    if constexpr (std::is_same_v<Still, Scanned>) {
      if (!(within > 0)) return within_m;
      if (const auto near = still_.piece(0, 0, 0).nearest(sites::Hull{corners}, {.within_m = within}))
        middles_m = near->distance_m;
    } else {
      middles_m = hull_gap(corners).distance_m;
    }
    return std::min(middles_m - a_.radius_m, within_m);
  }
  Nearest hull_gap(std::span<const Point3> corners) const {
    thread_local std::vector<Vec3> from_first;
    from_first.clear();
    for (const Point3& corner : corners) from_first.push_back(corner - corners.front());
    return nearest(Hull{corners.front(), from_first}, still_.piece(0, 0, 0));
  }

  /// Along the first axis it leans as the corners do: of a line, and of what goes along it, little but them.
  std::array<Point3, 8> box_around_them() const {
    const auto& [first, second, third] = still_.axes();
    const Point3 from = corners_.front();
    Vec3 sum;
    for (const Point3& corner : corners_) sum += corner - from;
    const Vec3 middle = 1 / static_cast<double>(corners_.size()) * sum;
    Vec3 lean;
    double spread = 0;
    for (const Point3& corner : corners_) {
      const Vec3 off = corner - from - middle;
      const double along = dot(off, first);
      lean += along * (off - along * first);
      spread += along * along;
    }
    const Vec3 way = first + (spread > 0 ? 1 / spread : 0) * lean;
    Vec3 low, high;
    for (const Point3& corner : corners_) {
      const double along = dot(corner - from, first);
      const Vec3 off = corner - from - along * way, place{along, dot(off, second), dot(off, third)};
      low = {std::min(low.x, place.x), std::min(low.y, place.y), std::min(low.z, place.z)};
      high = {std::max(high.x, place.x), std::max(high.y, place.y), std::max(high.z, place.z)};
    }
    std::array<Point3, 8> box;
    for (std::size_t i = 0; i < 8; ++i)
      box[i] =
          from + (i & 1 ? high.x : low.x) * way + (i & 2 ? high.y : low.y) * second + (i & 4 ? high.z : low.z) * third;
    return box;
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
    Nearest met;
    if constexpr (!is_hull<A>)
      met = piece_gap(a_.piece(i, pose, share), within_m);
    else if constexpr (std::is_same_v<Still, Scanned>)
      met = nearest(std::span<const Point3>(corners_), still_.piece(0, 0, 0), within_m);
    else
      met = hull_gap(corners_);
    if (!(met.distance_m <= within_m)) return;
    // Hulls without a radius are a rider's, whose turning corners bulge beyond them.
    const bool within = is_hull<A> && a_.radius_m == 0;
    found_.value(surfaces(met, a_.radius_m, 0), pose, share, share == 0 ? 0 : open_m_[static_cast<std::size_t>(pose)],
                 within);
  }
  template <class Piece>
  Nearest piece_gap(const Piece& piece, double within_m) const {
    return nearest(piece, still_.piece(0, 0, 0), within_m);
  }

  double change_m(int i, int pose) const {
    double most = at(a_.turn_m, pose);
    for (const Vec3& move : a_.moves(i, pose)) most = std::max(most, length(move));
    return most;
  }

  const A& a_;
  const Still& still_;
  Found found_;
  std::vector<double> open_m_;  ///< after each pose but the last; 0 where it is infinite, which the bound then says
  std::vector<Point3> corners_;
  std::vector<Part> waiting_;  ///< a heap
};

}  // namespace

template <class A, class Still>
std::unique_ptr<Begun> begin_search(const A& a, const Still& still, bool exchanged, int poses, int sweep,
                                    double resolution_m, Least& least) {
  return std::make_unique<StillSearch<A, Still>>(a, still, exchanged, poses, sweep, resolution_m, least);
}

template std::unique_ptr<Begun> begin_search(const Chain&, const Scanned&, bool, int, int, double, Least&);
template std::unique_ptr<Begun> begin_search(const MovingBox&, const Scanned&, bool, int, int, double, Least&);
template std::unique_ptr<Begun> begin_search(const MovingHulls&, const Scanned&, bool, int, int, double, Least&);
template std::unique_ptr<Begun> begin_search(const MovingHulls&, const Fixed&, bool, int, int, double, Least&);

}  // namespace fairlead::clearance
