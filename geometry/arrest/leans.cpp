#include "geometry/arrest/leans.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::arrest {
namespace {

void widen(Leans& leans, double low_rad, double high_rad) {
  leans.back_rad = std::min(leans.back_rad, low_rad);
  leans.forward_rad = std::max(leans.forward_rad, high_rad);
}

std::size_t step_of(double travel_m) {
  return static_cast<std::size_t>(std::max(0., std::floor(travel_m / leans_step_m)));
}

/// Of a parabola through three even instants the middle of a stretch is off its chord by an eighth of this; told twice.
double most_past(const std::vector<Instant>& record) {
  double second = 0;
  for (std::size_t i = 2; i < record.size(); ++i)
    second = std::max(second, std::abs(record[i].lean_rad - 2 * record[i - 1].lean_rad + record[i - 2].lean_rad));
  return second / 4;
}

}  // namespace

std::vector<Leans> leans_over_travel(const std::vector<Instant>& record, double stop_time_s) {
  std::vector<Leans> all;
  if (record.empty()) return all;
  const double past_rad = most_past(record);
  Leans at_stop;
  for (std::size_t i = 0; i < record.size(); ++i) {
    const Instant &now = record[i], &next = record[std::min(i + 1, record.size() - 1)];
    const double low = std::min(now.lean_rad, next.lean_rad) - past_rad,
                 high = std::max(now.lean_rad, next.lean_rad) + past_rad;
    const std::size_t from = step_of(std::min(now.travel_m, next.travel_m)),
                      to = step_of(std::max(now.travel_m, next.travel_m));
    if (all.size() <= to) all.resize(to + 1);
    for (std::size_t step = from; step <= to; ++step) widen(all[step], low, high);
    if (now.t_s >= stop_time_s) widen(at_stop, low, high);
  }
  for (Leans& leans : all) widen(leans, at_stop.back_rad, at_stop.forward_rad);
  return all;
}

void take_in(std::vector<Leans>& all, const std::vector<Leans>& one) {
  if (all.size() < one.size()) all.resize(one.size());
  for (std::size_t i = 0; i < one.size(); ++i) widen(all[i], one[i].back_rad, one[i].forward_rad);
}

}  // namespace fairlead::arrest
