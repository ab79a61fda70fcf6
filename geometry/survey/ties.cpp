#include "geometry/survey/ties.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "geometry/solids/distance.hpp"

namespace fairlead {
namespace {

constexpr std::size_t most_looked_at = 40;

bool is_place(Point3 p) { return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z); }

// A mark that a tape can be pulled from, seen from the wanted one.
struct Station {
  int mark{};
  double distance_m{};
  Vec3 direction;
};

// The inverse of the three unit directions as rows has (u2 x u3, u3 x u1, u1 x u2) / det as columns; the trace of
// (A^T A)^-1 is the sum of its squares.
double dilution(Vec3 a, Vec3 b, Vec3 c) {
  const Vec3 bc = cross(b, c), ca = cross(c, a), ab = cross(a, b);
  return std::sqrt(dot(bc, bc) + dot(ca, ca) + dot(ab, ab)) / std::abs(dot(a, bc));
}

class Chooser {
 public:
  explicit Chooser(const TieInputs& in) : in_(in), marks_(in.known) {
    marks_.insert(marks_.end(), in.wanted.begin(), in.wanted.end());
  }

  Ties choose() {
    Ties ties;
    ties.wanted.assign(in_.wanted.size(), tl::unexpected<Unsolved>(Unsolved{}));
    std::vector<int> standing;
    for (std::size_t i = 0; i < (in_.in_turn ? in_.known.size() : marks_.size()); ++i)
      standing.push_back(static_cast<int>(i));
    // Whoever is fixed in one round serves the others from the next on.
    for (bool more = true; more;) {
      std::vector<int> fixed;
      for (std::size_t i = 0; i < in_.wanted.size(); ++i) {
        if (ties.wanted[i]) continue;
        const int mark = static_cast<int>(in_.known.size() + i);
        ties.wanted[i] = fix(mark, standing);
        if (!ties.wanted[i]) continue;
        ties.order.push_back(static_cast<int>(i));
        fixed.push_back(mark);
      }
      more = in_.in_turn && !fixed.empty();
      standing.insert(standing.end(), fixed.begin(), fixed.end());
    }
    return ties;
  }

 private:
  const Point3& at(int mark) const { return marks_[static_cast<std::size_t>(mark)]; }

  bool clear(Point3 from, Point3 to, double distance_m) const {
    const double run_m = distance_m - 2 * in_.fitting_m;
    if (run_m <= 0) return true;
    const Vec3 fitting = in_.fitting_m * unit(to - from);
    const solids::Segment run{from + fitting, to - fitting};
    return std::all_of(in_.obstacles.begin(), in_.obstacles.end(),
                       [&](const solids::Shape& shape) { return nearest(run, shape).distance_m >= in_.clear_by_m; });
  }

  struct Reach {
    std::vector<Station> stations;  // the nearest first
    int others = 0, too_far = 0, too_near = 0, blocked = 0;
  };

  Reach reach(int mark, const std::vector<int>& standing) const {
    const double shortest_m = 0.5 * in_.greatest_dilution * in_.greatest_dilution * in_.tape_error_m;
    Reach reach;
    for (const int other : standing) {
      if (other == mark || !is_place(at(other))) continue;
      ++reach.others;
      const Vec3 way = at(other) - at(mark);
      const double distance_m = norm(way);
      if (!(distance_m <= in_.longest_tape_m))
        ++reach.too_far;
      else if (!(distance_m >= shortest_m))
        ++reach.too_near;
      else if (!clear(at(mark), at(other), distance_m))
        ++reach.blocked;
      else
        reach.stations.push_back({other, distance_m, (1 / distance_m) * way});
    }
    std::sort(reach.stations.begin(), reach.stations.end(), [](const Station& a, const Station& b) {
      return std::tuple(a.distance_m, a.mark) < std::tuple(b.distance_m, b.mark);
    });
    if (reach.stations.size() > most_looked_at) reach.stations.resize(most_looked_at);
    std::sort(reach.stations.begin(), reach.stations.end(),
              [](const Station& a, const Station& b) { return a.mark < b.mark; });
    return reach;
  }

  tl::unexpected<Unsolved> too_few(const Reach& reach) const {
    std::string why = fmt::format("three tapes are needed, and of {} standing mark{} {} can be reached", reach.others,
                                  reach.others == 1 ? "" : "s", reach.stations.size());
    const auto add = [&](int count, const std::string& what) {
      if (count > 0) why += fmt::format("; {} {}", count, what);
    };
    add(reach.too_far, fmt::format("farther than {:.4g} m", in_.longest_tape_m));
    add(reach.blocked, "without a clear run");
    add(reach.too_near, "too near to give a direction");
    return unsolved(why);
  }

  Solved<TiedMark> fix(int mark, const std::vector<int>& standing) const {
    if (!is_place(at(mark))) return unsolved("its place is not known");
    const Reach in_reach = reach(mark, standing);
    const std::vector<Station>& stations = in_reach.stations;
    if (stations.size() < 3) return too_few(in_reach);
    std::array<std::size_t, 3> best{};
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < stations.size(); ++i)
      for (std::size_t j = i + 1; j < stations.size(); ++j)
        for (std::size_t k = j + 1; k < stations.size(); ++k)
          if (const double d = dilution(stations[i].direction, stations[j].direction, stations[k].direction);
              d < least) {
            least = d;
            best = {i, j, k};
          }
    if (!(least <= in_.greatest_dilution)) return too_flat(stations.size(), least);
    return fixed(mark, stations, best, least);
  }

  tl::unexpected<Unsolved> too_flat(std::size_t stations, double least) const {
    // Beyond this the mark lies in the plane of all, as far as rounding tells.
    constexpr double endless = 1e6;
    if (!(least < endless))
      return unsolved(fmt::format("it lies in one plane with all {} marks in reach", stations), least);
    return unsolved(fmt::format("its directions to the {} marks in reach are too flat: an error of the tapes would "
                                "stand {:.1f} fold in the mark, at most {:.4g} fold is allowed",
                                stations, least, in_.greatest_dilution),
                    least);
  }

  TiedMark fixed(int mark, const std::vector<Station>& stations, const std::array<std::size_t, 3>& best,
                 double least) const {
    const auto from = [&](std::size_t i) { return at(stations[best[i]].mark); };
    TiedMark tied{.dilution = least};
    for (std::size_t i = 0; i < 3; ++i) tied.ties[i] = {stations[best[i]].mark, mark, stations[best[i]].distance_m};
    const Vec3 normal = unit(cross(from(1) - from(0), from(2) - from(0)));
    const double height_m = dot(at(mark) - from(0), normal);
    tied.normal = height_m < 0 ? -normal : normal;
    tied.height_m = std::abs(height_m);
    tied.mirror = at(mark) - 2 * tied.height_m * tied.normal;
    tied.mirror_apart = 2 * tied.height_m > 2 * least * in_.tape_error_m;
    for (std::size_t i = 0; i < stations.size(); ++i) {
      if (std::find(best.begin(), best.end(), i) != best.end()) continue;
      const Station& fourth = stations[i];
      const TieCheck check{{fourth.mark, mark, fourth.distance_m}, norm(at(fourth.mark) - tied.mirror)};
      if (!tied.check || difference(check) > difference(*tied.check)) tied.check = check;
    }
    // The place by the three tapes and the fourth tape may both be off.
    if (tied.check) tied.check->tells_mirror = difference(*tied.check) > 2 * (least + 1) * in_.tape_error_m;
    return tied;
  }

  static double difference(const TieCheck& check) { return std::abs(check.tie.distance_m - check.at_mirror_m); }

  const TieInputs& in_;
  std::vector<Point3> marks_;  // known, then wanted
};

}  // namespace

Ties choose_ties(const TieInputs& in) { return Chooser(in).choose(); }

}  // namespace fairlead
