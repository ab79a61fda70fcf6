#include <algorithm>
#include <cmath>
#include <limits>

#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

struct Reach {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  void add(double value) { low = std::min(low, value), high = std::max(high, value); }
  bool any() const { return low <= high; }
};

/// The least of 1, 2, 5, 10 ... units of the style that leaves no more than that many of them on a length.
double step_m(double length_m, const Style& style) {
  constexpr int most = 20;
  const double unit_m = words::one_of(style) == Units::us ? words::foot_m : 1;
  for (double decade = unit_m;; decade *= 10)
    for (const double step : {1.0, 2.0, 5.0})
      if (length_m <= most * step * decade) return step * decade;
}

/// Where the table stands: the supports, and every whole step between them.
std::vector<double> chainages_m(const Frame& frame, const Style& style) {
  const double from_m = frame.chainage_of_origin_m, to_m = from_m + frame.span_m, step = step_m(frame.span_m, style);
  constexpr double apart = 1e-3;  // of a step: a chainage nearer to a support is the support's
  std::vector<double> all{from_m};
  for (double i = std::floor(from_m / step + apart) + 1; i * step < to_m - apart * step; ++i) all.push_back(i * step);
  all.push_back(to_m);
  return all;
}

}  // namespace

Table main_line_levels(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Main line by chainage",
      {"chainage", "chord", "bare, highest", "bare, lowest", "heaviest rider, highest", "heaviest rider, lowest"},
      {},
      {"Levels in the site's frame; highest and lowest of all states. Heaviest rider: the wheel, alone on the "
       "line, without the braking line's pull; not solved close to the supports."},
      {{1, 2, 3, 4, 5}}};
  const mainline::MainLine* line = rig.main_line.solved();
  if (!line) return undetermined(std::move(table), rig.main_line.result->error());
  const Frame& frame = rig.frame;
  for (const double chainage_m : chainages_m(frame, style)) {
    // The last support's own chainage may round to just beyond it.
    const double x_m = std::min(chainage_m - frame.chainage_of_origin_m, frame.span_m);
    Reach bare, rider;
    for (const mainline::State& state : line->states) bare.add(line_at(state.cable, state.bare, x_m).z_m);
    for (const mainline::StatePath& path : line->paths)
      if (path.loading == mainline::Loading::heaviest && x_m >= path.path.from_m() && x_m <= path.path.to_m())
        rider.add(path.path.height_m(x_m));
    const auto level = [&](double z_m) { return cell(frame.origin.z + z_m, Dimension::length); };
    table.rows.push_back({cell(chainage_m, Dimension::length), level(frame.rise_m * x_m / frame.span_m),
                          level(bare.high), level(bare.low), rider.any() ? level(rider.high) : Cell{},
                          rider.any() ? level(rider.low) : Cell{}});
  }
  return table;
}

}  // namespace fairlead::tables
