#include "report/sheets/main_line_plots.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/main_line_curves.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

/// Of ISO 5455's series: 1, 2 or 5 and noughts.
bool of_series(double scale) { return std::abs(round_up(scale) - scale) < 1e-6 * scale; }

}  // namespace

SectionScales section_scales(double long_m, double high_m, double sag_m, drawing::Size room) {
  constexpr double read_mm = 10, greatest = 50;
  for (double along = greatest;; along = round_up(1.5 * along)) {
    std::optional<SectionScales> best;
    if (!(1000 * long_m / along <= room.width_mm)) continue;
    for (const double times : {1.0, 2.0, 5.0, 10.0, 20.0}) {
      const double up = along / times;
      if (!of_series(up)) continue;
      if (!(1000 * high_m / up <= room.height_mm)) break;
      best = {along, up};
      if (1000 * sag_m / up >= read_mm) break;
    }
    if (best) return *best;
  }
}

namespace {

constexpr double beside_mm = 4, above_mm = 10, below_mm = 16;  ///< within the section, for the names of its marks
constexpr double head_mm = 36;                                 ///< title, and a row for every name
constexpr double drives_mm = 60;
constexpr double unseen_mm = narrow_mm / 2;  ///< a curve that is no farther off another hides beneath it
constexpr std::string_view calculated = "CALCULATED, NOT MEASURED";

struct Range {
  double low = INFINITY, high = -INFINITY;
  double size() const { return high - low; }
  void add(double value) { low = std::min(low, value), high = std::max(high, value); }
  Range grown(double share) const { return {low - share * size(), high + share * size()}; }
};

Range range_of(const std::vector<PlotCurve>& curves) {
  Range range;
  for (const PlotCurve& curve : curves)
    for (const Paper p : curve.values) range.add(p.y_mm);
  return range;
}

constexpr double about = 0.08;  // of what curves span, left free above and below them

}  // namespace

double axes_width_mm() { return plot_box({}).width(); }

ChainagePlot long_section(const Rig& rig, const Style& style, drawing::Size room) {
  const Frame& frame = rig.frame;
  Range range = range_of(heights(rig, 0)), sags;
  if (const auto& landing = rig.layout.landing) range.add(landing->platform_level_m);
  for (const mainline::State& state : rig.main_line.solved()->states) sags.add(state.sag_m);
  const SectionScales scales = section_scales(frame.span_m, range.size(), sags.low,
                                              {room.width_mm - axes_width_mm() - 2 * beside_mm,
                                               room.height_mm - head_mm - plot_box({}).height() - above_mm - below_mm});
  const double along_m = scales.along / 1000, up_m = scales.up / 1000;  // to a millimetre of paper
  const double from_m = frame.chainage_of_origin_m - beside_mm * along_m,
               to_m = frame.chainage_of_origin_m + frame.span_m + beside_mm * along_m;
  range = {range.low - below_mm * up_m, range.high + above_mm * up_m};
  return {"LONG SECTION OF THE MAIN LINE",
          scales.times() == 1 ? fmt::format("1:{:g} along and up", scales.along)
                              : fmt::format("1:{:g} along, 1:{:g} up: heights {:g} times the lengths", scales.along,
                                            scales.up, scales.times()),
          axis_of("chainage", Dimension::length, from_m, to_m, style),
          axis_of("level in the site's frame", Dimension::length, range.low, range.high, style),
          heights(rig, unseen_mm * up_m),
          calculated,
          {(to_m - from_m) / along_m, range.size() / up_m},
          Rules::ticks};
}

ChainagePlot tension_plot(const Rig& rig, const Style& style, const ChainagePlot& section, double height_mm) {
  const Range range = range_of(tensions(rig, 0)).grown(about);
  return {"HORIZONTAL TENSION UNDER THE LOAD",
          "upstream of the wheel, the load alone on the line at that chainage",
          section.x,
          axis_of("horizontal tension", Dimension::force, range.low, range.high, style),
          tensions(rig, unseen_mm * range.size() / height_mm),
          calculated,
          {section.area.width_mm, height_mm},
          Rules::across};
}

ChainagePlot drive_plot(const Rig& rig, const Style& style) {
  // From where a load comes to rest, or as far upstream as the travel is long, to the end of the travel.
  const BrakeTrolley& trolley = rig.layout.brake_trolley;
  const auto& paths = rig.main_line.solved()->paths;
  const double zero_m = rig.frame.chainage_of_origin_m;
  Range along;
  along.add(trolley.rest_m - trolley.travel_m);
  along.add(trolley.rest_m + trolley.travel_m);
  for (const mainline::StatePath& path : paths)
    if (!path.rest_points_m.empty()) along.add(zero_m + path.rest_points_m.back());
  along = along.grown(0.05);
  const mainline::Path& any = paths.front().path;
  const double from_m = std::max(along.low, zero_m + any.from_m()), to_m = std::min(along.high, zero_m + any.to_m());
  Range range = range_of(drives(rig, from_m, to_m, 0));
  range.add(0);
  range = range.grown(about);
  // Over the weight, for a brake trolley's own few newtons would be a line on the axis beside a rider's.
  return {"DRIVE ABOUT THE REST MARK",
          "force along the line over the weight of the load, positive toward the landing",
          axis_of("chainage", Dimension::length, from_m, to_m, style),
          axis_of("drive / weight", Dimension::none, range.low, range.high, style),
          drives(rig, from_m, to_m, unseen_mm * range.size() / drives_mm),
          untested,
          {0, drives_mm},
          Rules::ticks};
}

}  // namespace fairlead::sheets
