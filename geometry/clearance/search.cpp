#include "geometry/clearance/search.hpp"

#include "geometry/clearance/found.hpp"
#include "geometry/clearance/scanned.hpp"
#include "geometry/clearance/still_search.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <span>
#include <stdexcept>
#include <utility>

namespace fairlead::clearance {
namespace {

double at(const std::vector<double>& values, int i) { return values.empty() ? 0 : values[static_cast<std::size_t>(i)]; }

/// A move as a whole, and the most an end of what moves is off it.
struct Glide {
  Vec3 move;
  double off_m{};
};

/// A lower bound on a gap that is `at_from` at first and `at_to` at last, after that share of the glide. The distance
/// of convex things that glide past each other is convex along their way, so it is nowhere below a tangent: n . move, n
/// the direction of the gap. What ends are off the glide comes off.
double least_by_tangents(const Glide& glide, double share, const Nearest& at_from, const Nearest& at_to) {
  // Nearer than a millimetre rounding would turn n, 500 km from the datum.
  constexpr double kClear_m = 1e-3;
  if (!(at_from.distance_m > kClear_m && at_to.distance_m > kClear_m)) return -std::numeric_limits<double>::infinity();
  const auto along_gap = [&](const Nearest& at) {
    const Vec3 way = at.on_b - at.on_a;
    return dot(way, glide.move) / std::sqrt(dot(way, way));
  };
  const double falls = glide.off_m - along_gap(at_from), rises = glide.off_m + along_gap(at_to);
  if (falls <= 0) return at_from.distance_m;
  if (rises <= 0) return at_to.distance_m;
  // Where at_from - falls t meets at_to - rises (share - t).
  const double t = (at_from.distance_m - at_to.distance_m + rises * share) / (falls + rises);
  return at_from.distance_m - falls * std::clamp(t, 0., share);
}

template <class Piece>
constexpr bool is_scan = std::is_same_v<std::remove_cvref_t<Piece>, sites::Site>;

/// Of a scan nothing is asked beyond within_m, and what lies there is infinitely far.
template <class P, class Q>
Nearest nearest_within(const P& p, const Q& q, double within_m) {
  if constexpr (is_scan<Q>)
    return nearest(p, q, within_m);
  else
    return nearest(p, q);
}

/// Two things of one kind each over one passage.
template <class A, class B>
class Duel {
 public:
  Duel(const A& a, const B& b) : a_(a), b_(b), radii_m_(a.radius_m + b.radius_m), slack_m_(a.slack_m + b.slack_m) {}

  double slack_m() const { return slack_m_; }
  /// What the poses leave open after a pose; infinite or NaN where nothing is known.
  double stray_m(int pose) const { return at(a_.stray_m, pose) + at(b_.stray_m, pose); }
  double turn_m(int pose) const { return at(a_.turn_m, pose) + at(b_.turn_m, pose); }

  Nearest gap(int pose, double share, double within_m = infinite_m) {
    bounds_b_.clear();
    for (int j = 0; j < b_.pieces(); ++j) bounds_b_.push_back(bounds_of_piece(b_.piece(j, pose, share)));
    Bounds all_b = bounds_b_.front();
    for (const Bounds& each : bounds_b_) all_b = hull(all_b, each);
    // From the two that were nearest last time: most others then need no second look.
    Nearest best = nearest_within(a_.piece(near_a_, pose, share), b_.piece(near_b_, pose, share), within_m + radii_m_);
    for (int i = 0; i < a_.pieces(); ++i) {
      const auto piece = a_.piece(i, pose, share);
      const Bounds bounds = bounds_of(piece);
      if (least_m(bounds, all_b) >= best.distance_m - radii_m_) continue;
      for (int j = 0; j < b_.pieces(); ++j) {
        if (least_m(bounds, bounds_b_[static_cast<std::size_t>(j)]) >= best.distance_m - radii_m_) continue;
        const Nearest met =
            nearest_within(piece, b_.piece(j, pose, share), std::min(best.distance_m, within_m + radii_m_));
        if (met.distance_m >= best.distance_m) continue;
        best = met;
        near_a_ = i;
        near_b_ = j;
      }
    }
    return clearance::surfaces(best, a_.radius_m, b_.radius_m);
  }

  Nearest gap(int i, int j, int pose, double share) const {
    return clearance::surfaces(nearest(a_.piece(i, pose, share), b_.piece(j, pose, share)), a_.radius_m, b_.radius_m);
  }

  /// Most that the gap of two pieces changes from a pose to the next.
  double change_m(int i, int j, int pose) const {
    double most2 = 0;
    const auto moves_b = b_.moves(j, pose);
    for (const Vec3& a : a_.moves(i, pose))
      for (const Vec3& b : moves_b) most2 = std::max(most2, dot(a - b, a - b));
    return std::sqrt(most2) + turn_m(pose);
  }

  /// How the second of two pieces moves on to the next pose as seen from the first.
  Glide glide(int i, int j, int pose) const {
    const Glide a = glide_of(a_.moves(i, pose)), b = glide_of(b_.moves(j, pose));
    return {b.move - a.move, a.off_m + b.off_m};
  }

  /// No point of the two comes nearer within a block of poses.
  double least_m(int block) const { return least_m(a_.swept(block), b_.swept(block)); }

  /// Calls visit(i, j) for pieces that may come nearer than `within_m` within a block of poses; gives back a lower
  /// bound on the gaps of all others.
  template <class Visit>
  double visit_near(int block, double within_m, Visit visit) const {
    double others_m = std::numeric_limits<double>::infinity();
    for (int i = 0; i < a_.pieces(); ++i) {
      const Bounds& bounds = a_.swept(block, i);
      if (const double all_m = least_m(bounds, b_.swept(block)); all_m >= within_m) {
        others_m = std::min(others_m, all_m);
        continue;
      }
      for (int j = 0; j < b_.pieces(); ++j) {
        const double piece_m = b_.pieces() > 1 ? least_m(bounds, b_.swept(block, j)) : -infinite_m;
        if (piece_m >= within_m)
          others_m = std::min(others_m, piece_m);
        else
          visit(i, j);
      }
    }
    return others_m;
  }

 private:
  static constexpr double infinite_m = std::numeric_limits<double>::infinity();

  template <class Piece>
  static Bounds bounds_of_piece(const Piece& piece) {
    if constexpr (is_scan<Piece>)
      return piece.bounds();
    else
      return bounds_of(piece);
  }

  static Glide glide_of(const std::array<Vec3, 1>& move) { return {move[0], 0}; }
  static Glide glide_of(std::span<const Vec3> moves) {
    Vec3 sum;
    for (const Vec3& move : moves) sum += move;
    Glide glide{1 / static_cast<double>(moves.size()) * sum, 0};
    for (const Vec3& move : moves)
      glide.off_m = std::max(glide.off_m, std::sqrt(dot(move - glide.move, move - glide.move)));
    return glide;
  }

  /// Where bounds overlap nothing is known: below a plane gaps are negative without end.
  double least_m(const Bounds& a, const Bounds& b) const {
    const double apart_m = gap_between(a, b);
    return apart_m > 0 ? apart_m - radii_m_ : -std::numeric_limits<double>::infinity();
  }

  const A& a_;
  const B& b_;
  double radii_m_, slack_m_;
  int near_a_{}, near_b_{};
  std::vector<Bounds> bounds_b_;
};

template <class A, class B>
class Search : Found {
 public:
  /// exchanged: the least names b's point first.
  Search(const A& a, const B& b, bool exchanged, int poses, int sweep, double resolution_m, Least& least)
      : Found(least, a.slack_m + b.slack_m, exchanged, sweep, resolution_m), duel_(a, b), poses_(poses) {
    constexpr double infinite = std::numeric_limits<double>::infinity();
    for (int pose = 0; pose + 1 < poses; ++pose) {
      const double open = duel_.stray_m(pose) + duel_.turn_m(pose);
      if (!(open < infinite)) bound(-infinite);
      open_m_.push_back(open < infinite ? open : 0);
    }
    if (poses == 1) {
      show(0);
      bound(shown_m() - slack_m());
    }
    // One pose of each block, so that the search starts near its end.
    for (int block = 0; first_of(block) + 1 < poses; ++block)
      if (!(duel_.least_m(block) >= shown_m())) show(first_of(block));
    for (int block = 0; first_of(block) + 1 < poses; ++block) search(block);
  }

 private:
  static int first_of(int block) { return block * poses_per_block; }

  void show(int pose) { value(duel_.gap(pose, 0), pose, 0, 0); }

  /// Most that is left open over a range of poses, chords included.
  double most_open_m(int first, int last) const {
    return *std::max_element(open_m_.begin() + first, open_m_.begin() + last) + slack_m();
  }

  void search(int block) {
    const int first = first_of(block), last = std::min(first + poses_per_block, poses_ - 1);
    const double open_m = most_open_m(first, last);
    const double least_m = duel_.least_m(block);
    if (settled(least_m, open_m)) return bound(least_m - open_m);
    const double others_m =
        duel_.visit_near(block, settled_m(open_m), [&](int i, int j) { search(i, j, first, last); });
    bound(others_m - open_m);
  }

  void search(int i, int j, int first, int last) {
    way_m_.assign(1, 0);
    for (int pose = first; pose < last; ++pose) way_m_.push_back(way_m_.back() + duel_.change_m(i, j, pose));
    range(i, j, first, first, last, gap(i, j, first, 0), gap(i, j, last, 0));
  }

  /// way_m_ begins at `start`.
  void range(int i, int j, int start, int first, int last, const Nearest& at_first, const Nearest& at_last) {
    const double change_m =
        way_m_[static_cast<std::size_t>(last - start)] - way_m_[static_cast<std::size_t>(first - start)];
    const double least_m = (at_first.distance_m + at_last.distance_m - change_m) / 2, open_m = most_open_m(first, last);
    if (settled(least_m, open_m)) return bound(least_m - open_m);
    if (last - first == 1) return between(i, j, first, at_first, at_last);
    const int middle = first + (last - first) / 2;
    const Nearest at_middle = gap(i, j, middle, 0);
    const bool before = at_first.distance_m <= at_last.distance_m;
    if (before) range(i, j, start, first, middle, at_first, at_middle);
    range(i, j, start, middle, last, at_middle, at_last);
    if (!before) range(i, j, start, first, middle, at_first, at_middle);
  }

  Nearest gap(int i, int j, int pose, double share) {
    const Nearest met = duel_.gap(i, j, pose, share);
    value(met, pose, share, share == 0 ? 0 : open_m_[static_cast<std::size_t>(pose)]);
    return met;
  }

  /// Two pieces on their way from a pose to the next. Turning counts as change from pose to pose; within, where a box
  /// only shifts, it is among what is open. Where something turns, the tangents at the last pose are not those of the
  /// shifted box.
  struct Way {
    int i, j, pose;
    double open_m, change_m;
    bool turns;
    Glide glide;
  };

  void between(int i, int j, int pose, const Nearest& at_first, const Nearest& at_last) {
    halve({i, j, pose, most_open_m(pose, pose + 1), duel_.change_m(i, j, pose), duel_.turn_m(pose) != 0,
           duel_.glide(i, j, pose)},
          0, 1, at_first, at_last);
  }

  void halve(const Way& way, double from, double to, const Nearest& at_from, const Nearest& at_to) {
    const double change_m = (to - from) * way.change_m;
    double least_m = (at_from.distance_m + at_to.distance_m - change_m) / 2;
    if (!way.turns && !settled(least_m, way.open_m))
      least_m = std::max(least_m, least_by_tangents(way.glide, to - from, at_from, at_to));
    if (settled(least_m, way.open_m) || change_m <= resolution_m()) return bound(least_m - way.open_m);
    const double middle = (from + to) / 2;
    const Nearest at_middle = gap(way.i, way.j, way.pose, middle);
    const bool before = at_from.distance_m <= at_to.distance_m;
    if (before) halve(way, from, middle, at_from, at_middle);
    halve(way, middle, to, at_middle, at_to);
    if (!before) halve(way, from, middle, at_from, at_middle);
  }

  Duel<A, B> duel_;
  int poses_;
  std::vector<double> open_m_;  ///< after each pose but the last; 0 where it is infinite, which the bound then says
  std::vector<double> way_m_;   ///< what the pieces at hand can have come nearer by, from the block's first pose on
};

template <class A, class B>
concept Measured = requires(const A& a, const B& b) {
  nearest(a.piece(0, 0, 0.), b.piece(0, 0, 0.));
};

/// Calls f(first, second, exchanged) in the order that nearest() knows them in.
template <class F>
auto in_order(const Mover& a, const Mover& b, F f) {
  using Told = decltype(f(std::declval<const Chain&>(), std::declval<const Chain&>(), false));
  return std::visit(
      [&]<class A, class B>(const A& one, const B& other) -> Told {
        if constexpr (Measured<A, B>)
          return f(one, other, false);
        else if constexpr (Measured<B, A>)
          return f(other, one, true);
        else
          throw std::logic_error("two things that both stand still have no passage");
      },
      a, b);
}

}  // namespace

Nearest gap_at(const Mover& a, const Mover& b, int pose, double share, double within_m) {
  return in_order(a, b, [&](const auto& first, const auto& second, bool exchanged) {
    Nearest met = Duel(first, second).gap(pose, share, within_m);
    if (exchanged) std::swap(met.on_a, met.on_b);
    return met;
  });
}

double open_at(const Mover& a, const Mover& b, int pose, double share) {
  return in_order(a, b, [&](const auto& first, const auto& second, bool) {
    const Duel duel(first, second);
    return duel.slack_m() + (share == 0 ? 0 : duel.stray_m(pose) + duel.turn_m(pose));
  });
}

Least search(std::span<const Meet> meets, double resolution_m) {
  Least least;
  std::vector<std::unique_ptr<Begun>> begun;
  for (const Meet& meet : meets)
    in_order(*meet.a, *meet.b, [&](const auto& first, const auto& second, bool exchanged) {
      using First = std::remove_cvref_t<decltype(first)>;
      using Second = std::remove_cvref_t<decltype(second)>;
      if constexpr (std::is_same_v<Second, Scanned> ||
                    (std::is_same_v<First, MovingHulls> && std::is_same_v<Second, Fixed>))
        begun.push_back(begin_search(first, second, exchanged, meet.poses, meet.sweep, resolution_m, least));
      else
        Search(first, second, exchanged, meet.poses, meet.sweep, resolution_m, least);
    });
  std::stable_sort(begun.begin(), begun.end(),
                   [](const auto& one, const auto& other) { return one->bound_m() < other->bound_m(); });
  for (const std::unique_ptr<Begun>& one : begun) one->finish();
  return least;
}

}  // namespace fairlead::clearance
