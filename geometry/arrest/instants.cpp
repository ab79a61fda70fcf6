#include "geometry/arrest/instants.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

/// Where friction holds the line still it may pull either way: such an instant counts with both.
enum class Runs { out, in };

/// What is compared with each other, in one number: where the trolleys are, whether apart, and how the lines run.
std::uint64_t group_of(const LoadInstant& at, Runs runs) {
  constexpr int offset = 1 << 20;  // a cell before the mark is below 0
  const auto cell = [](double travel_m) { return static_cast<std::uint64_t>(load_cell(travel_m) + offset); };
  return std::uint64_t{at.apart} << 62 | std::uint64_t{runs == Runs::in} << 61 | cell(at.travel_m) << 30 |
         cell(at.rider_travel_m);
}

/// What is compared of an instant; few of them are kept, so they are sorted without what else they hold.
struct Grouped {
  std::uint64_t group{};
  double tension_N{}, down_N{};
  int motion{};
  std::size_t index{};  ///< of the instants; those of a motion by their time
};

/// Twice the area between them, positive where c is to the left of the way from a to b: counted in greatest tensions
/// and loads.
struct Measure {
  double tension_N = 0, down_N = 0;

  double turn(const Grouped& a, const Grouped& b, const Grouped& c) const {
    return ((b.tension_N - a.tension_N) * (c.down_N - a.down_N) - (b.down_N - a.down_N) * (c.tension_N - a.tension_N)) /
           (tension_N * down_N);
  }
  double apart(const Grouped& a, const Grouped& b) const {
    const double tension = (b.tension_N - a.tension_N) / tension_N, down = (b.down_N - a.down_N) / down_N;
    return std::sqrt(tension * tension + down * down);
  }
  /// Of b from the way between a and c.
  double off(const Grouped& a, const Grouped& b, const Grouped& c) const {
    const double way = apart(a, c);
    return way > 0 ? std::abs(turn(a, c, b)) / way : apart(a, b);
  }
};

using Chain = std::vector<const Grouped*>;

/// Andrew's monotone chain, one way round: the lower half of the hull of sorted points, or read backward the upper.
template <class It>
Chain half_hull(It from, It to, const Measure& measure) {
  Chain chain;
  for (It i = from; i != to; ++i) {
    while (chain.size() > 1 && !(measure.turn(*chain[chain.size() - 2], *chain.back(), *i) > 0)) chain.pop_back();
    chain.push_back(&*i);
  }
  return chain;
}

/// After Douglas and Peucker: what lies between two that are kept is left out where none of it is far from their chord.
void thin(const Chain& chain, std::size_t from, std::size_t to, const Measure& measure,
          std::vector<std::size_t>& kept) {
  std::size_t far = from;
  double most = left_out_share;
  for (std::size_t i = from + 1; i < to; ++i)
    if (const double off = measure.off(*chain[from], *chain[i], *chain[to]); off > most) far = i, most = off;
  if (far == from) return;
  thin(chain, from, far, measure, kept);
  kept.push_back(chain[far]->index);
  thin(chain, far, to, measure, kept);
}

/// The indices of those at corners.
std::vector<std::size_t> hulls(std::vector<Grouped> all) {
  Measure measure;
  for (const Grouped& g : all) {
    measure.tension_N = std::max(measure.tension_N, g.tension_N);
    measure.down_N = std::max(measure.down_N, g.down_N);
  }
  std::ranges::sort(all, [](const Grouped& a, const Grouped& b) {
    if (a.group != b.group) return a.group < b.group;
    if (a.tension_N != b.tension_N) return a.tension_N < b.tension_N;
    if (a.down_N != b.down_N) return a.down_N < b.down_N;
    return a.motion != b.motion ? a.motion < b.motion : a.index < b.index;
  });
  std::vector<std::size_t> kept;
  for (auto from = all.begin(); from != all.end();) {
    const auto to = std::find_if(from, all.end(), [&](const Grouped& g) { return g.group != from->group; });
    kept.push_back(from->index);
    if (measure.apart(*from, *(to - 1)) > 0) kept.push_back((to - 1)->index);
    const Chain lower = half_hull(from, to, measure),
                upper = half_hull(std::make_reverse_iterator(to), std::make_reverse_iterator(from), measure);
    for (const Chain* chain : {&lower, &upper}) thin(*chain, 0, chain->size() - 1, measure, kept);
    from = to;
  }
  return kept;
}

void group(int motion, const LoadInstant& at, std::size_t index, std::vector<Grouped>& all) {
  for (const Runs runs : {Runs::out, Runs::in})
    if (runs == Runs::out ? at.line_speed_m_per_s >= 0 : at.line_speed_m_per_s <= 0)
      all.push_back({group_of(at, runs), at.unit_tension_N, at.down_N(), motion, index});
}

double lanyard_down_N(const Instant& i) { return i.lanyard_N * std::cos(i.lean_rad); }

LoadInstant load_of(const Track& track, const Bodies& bodies, const Instant& i) {
  const auto up_m_per_s2 = [&](double x_m, double v, double a) {
    const TrackPoint at = track.at(x_m);
    return at.slope * a + at.curvature * v * v;
  };
  constexpr double g = standard_gravity;
  LoadInstant load{.t_s = i.t_s,
                   .travel_m = i.brake_travel_m,
                   .rider_travel_m = i.travel_m,
                   .line_speed_m_per_s = i.line_speed_m_per_s,
                   .unit_tension_N = i.unit_tension_N,
                   .extension_m = i.extension_m,
                   .lanyard_N = i.lanyard_N,
                   .lean_rad = i.lean_rad,
                   .rider_acceleration_m_per_s2 = i.acceleration_m_per_s2,
                   .brake_acceleration_m_per_s2 = i.brake_acceleration_m_per_s2,
                   .apart = i.apart};
  load.rider_rise_m_per_s2 = up_m_per_s2(i.travel_m, i.speed_m_per_s, i.acceleration_m_per_s2);
  load.brake_rise_m_per_s2 = up_m_per_s2(i.brake_travel_m, i.brake_speed_m_per_s, i.brake_acceleration_m_per_s2);
  load.rider_down_N = lanyard_down_N(i) + bodies.rider_trolley_kg * (g + load.rider_rise_m_per_s2);
  load.brake_down_N = bodies.brake_trolley_kg * (g + load.brake_rise_m_per_s2);
  return load;
}

}  // namespace

int load_cell(double travel_m) {
  constexpr int narrow = static_cast<int>(near_m / narrow_cell_m);
  if (travel_m < near_m) return static_cast<int>(std::floor(travel_m / narrow_cell_m));
  return narrow + static_cast<int>(std::floor((travel_m - near_m) / wide_cell_m));
}

double cell_begins_m(int cell) {
  constexpr int narrow = static_cast<int>(near_m / narrow_cell_m);
  return cell < narrow ? narrow_cell_m * cell : near_m + wide_cell_m * (cell - narrow);
}

std::vector<LoadInstant> load_instants(const Track& track, const Bodies& bodies, const std::vector<Instant>& record,
                                       const std::vector<Instant>& edges) {
  std::vector<LoadInstant> loads;
  loads.reserve(record.size() + edges.size());
  std::vector<Grouped> all;
  all.reserve(loads.capacity());
  std::size_t farthest = 0;
  // While the trolleys stand under one tension the load alone goes up and down: what lies between its neighbours is at
  // no corner.
  const auto between = [](const Instant& before, const Instant& here, const Instant& after) {
    const auto alike = [&](const Instant& one) {
      return one.travel_m == here.travel_m && one.brake_travel_m == here.brake_travel_m &&
             one.unit_tension_N == here.unit_tension_N && one.apart == here.apart &&
             one.line_speed_m_per_s == here.line_speed_m_per_s;
    };
    if (!alike(before) || !alike(after)) return false;
    const double down_N = lanyard_down_N(here);
    return (lanyard_down_N(before) - down_N) * (lanyard_down_N(after) - down_N) < 0;
  };
  for (const std::vector<Instant>* instants : {&record, &edges})
    for (std::size_t i = 0; i < instants->size(); ++i) {
      const Instant& instant = (*instants)[i];
      if (i > 0 && i + 1 < instants->size() && between((*instants)[i - 1], instant, (*instants)[i + 1])) continue;
      const std::size_t index = loads.size();
      loads.push_back(load_of(track, bodies, instant));
      if (loads[index].extension_m > loads[farthest].extension_m) farthest = index;
      group(0, loads[index], index, all);
    }
  std::vector<LoadInstant> kept;
  for (const std::size_t index : hulls(std::move(all))) kept.push_back(loads[index]);
  if (!kept.empty()) kept.push_back(loads[farthest]);
  return kept;
}

std::vector<OfMotion> governing_instants(const std::vector<OfMotion>& instants) {
  std::vector<Grouped> all;
  all.reserve(instants.size());
  std::size_t farthest = 0;
  for (std::size_t i = 0; i < instants.size(); ++i) {
    group(instants[i].motion, instants[i].at, i, all);
    if (instants[i].at.extension_m > instants[farthest].at.extension_m) farthest = i;
  }
  std::vector<OfMotion> kept;
  for (const std::size_t index : hulls(std::move(all))) kept.push_back(instants[index]);
  if (!instants.empty()) kept.push_back(instants[farthest]);
  return kept;
}

}  // namespace fairlead::arrest
