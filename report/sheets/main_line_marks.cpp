#include "report/sheets/main_line_marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "report/drawing/symbols.hpp"
#include "report/sheets/main_line_curves.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using mainline::Loading;

namespace {

constexpr double support_mm = 1.2, dot_mm = 0.5;  // radii
constexpr Pen ordinate{narrow_mm, LineType::dashed, Layer::dimensions};

/// The curves' lowest value at a chainage, straight between their points; the least of the axis where none has one.
double lowest_at(const ChainagePlot& plot, double x) {
  double lowest = INFINITY;
  for (const PlotCurve& curve : plot.curves)
    for (std::size_t i = 1; i < curve.values.size(); ++i) {
      const Paper a = curve.values[i - 1], b = curve.values[i];
      if (a.x_mm <= x && x <= b.x_mm)
        lowest = std::min(lowest, a.y_mm + (x - a.x_mm) / (b.x_mm - a.x_mm) * (b.y_mm - a.y_mm));
    }
  return std::isfinite(lowest) ? lowest : plot.y.low;
}

/// Where a path is lowest, m: it falls to there and rises from there on; one of its ends where it does either alone.
double lowest_m(const mainline::Path& path) {
  double low = path.from_m(), high = path.to_m();
  constexpr int halvings = 50;  // of a span to the last bits
  for (int i = 0; i < halvings; ++i) {
    const double middle = (low + high) / 2;
    (path.slope(middle) < 0 ? low : high) = middle;
  }
  return (low + high) / 2;
}

class Marks {
 public:
  Marks(const Canvas& canvas, const Box& box, const ChainagePlot& plot, const Rig& rig, const Style& style)
      : canvas_(canvas), box_(box), plot_(plot), rig_(rig), layout_(rig.layout), style_(style) {}

  void supports() {
    const Frame& frame = rig_.frame;
    for (const auto& [anchor, x_m, z_m] :
         {std::tuple(layout_.main_line.from, 0.0, 0.0), {layout_.main_line.to, frame.span_m, frame.rise_m}}) {
      const Paper here = place_of(chainage_m(x_m), level_m(z_m));
      canvas_.circle(here, support_mm, {medium_mm, LineType::continuous, Layer::anchors});
      name({here},
           fmt::format("Support {},\nCH {}, level {}", layout_.anchors[static_cast<std::size_t>(anchor)].id.value,
                       told(chainage_m(x_m)), told(level_m(z_m))),
           support_mm);
    }
  }

  /// Upright lines from the foot of the plot to the lowest curve.
  void ordinates() {
    const double rest_m = layout_.brake_trolley.rest_m, end_m = rest_m + layout_.brake_trolley.travel_m;
    upright(rest_m, "Rest mark CH " + told(rest_m));
    upright(end_m, "End of planned travel CH " + told(end_m));
    if (const auto& backup = layout_.backup_brake)
      upright(backup->engages_m, "Backup brake engages, CH " + told(backup->engages_m));
  }

  void platform() {
    if (!layout_.landing) return;
    const Landing& landing = *layout_.landing;
    const double from_m = landing.platform_from_m, to_m = landing.platform_to_m;
    const auto deck = [&](double share) {
      return place_of(from_m + share * (to_m - from_m), landing.platform_level_m);
    };
    for (auto& piece : clip({deck(0), deck(1)}, plot_area(box_))) {
      hatch_below(canvas_, piece.front(), piece.back(), Layer::structure);
      canvas_.line(std::move(piece), {wide_mm, LineType::continuous, Layer::structure});
    }
    std::vector<Paper> targets{deck(0.1), deck(0), deck(0.3), deck(0.6)};
    std::erase_if(targets, [&](Paper p) { return !plot_area(box_).contains(p); });
    if (!targets.empty())
      name(std::move(targets),
           fmt::format("Platform,\nCH {} to {}, level {}", told(from_m), told(to_m), told(landing.platform_level_m)));
  }

  void rest_points() {
    for (const Loading loading : {Loading::empty, Loading::lightest, Loading::heaviest}) {
      double low_m = INFINITY, high_m = -INFINITY;
      bool nowhere = false;
      std::vector<Paper> dots;
      for (const mainline::StatePath& path : rig_.main_line.solved()->paths) {
        if (path.loading != loading) continue;
        nowhere = nowhere || path.rest_points_m.empty();
        if (path.rest_points_m.empty()) continue;
        const double x_m = path.rest_points_m.back();
        low_m = std::min(low_m, chainage_m(x_m)), high_m = std::max(high_m, chainage_m(x_m));
        dots.push_back(dot(chainage_m(x_m), level_m(path.path.height_m(x_m))));
      }
      if (dots.empty()) continue;
      std::string text = fmt::format("{} left alone\ncomes to rest, CH {}", name_of_load(loading), told(low_m));
      if (told(low_m) != told(high_m)) text += " to " + told(high_m);
      if (nowhere) text += ",\nin other states nowhere on the line";
      name(std::move(dots), std::move(text), dot_mm);
    }
  }

  void lowest() {
    Paper lowest{0, INFINITY};
    for (const mainline::StatePath& one : rig_.main_line.solved()->paths) {
      const double x_m = lowest_m(one.path), z_m = one.path.height_m(x_m);
      if (z_m < lowest.y_mm) lowest = {x_m, z_m};
    }
    const double at_m = chainage_m(lowest.x_mm), high_m = level_m(lowest.y_mm);
    name({dot(at_m, high_m)}, fmt::format("Lowest place of a wheel,\nCH {}, level {}", told(at_m), told(high_m)),
         dot_mm);
  }

  void zero_line() {
    canvas_.line({place_of(plot_.x.low, 0), place_of(plot_.x.high, 0)},
                 {medium_mm, LineType::continuous, Layer::dimensions});
  }

  std::vector<Callout> names;

 private:
  std::string told(double m) const { return words::travel(m, style_); }
  double chainage_m(double x_m) const { return x_m + rig_.frame.chainage_of_origin_m; }
  double level_m(double z_m) const { return z_m + rig_.frame.origin.z; }
  Paper place_of(double x, double y) const { return plotted(box_, plot_.x, plot_.y, {x, y}); }

  void name(std::vector<Paper> targets, std::string text, double radius_mm = 0) {
    names.push_back({std::move(targets), std::move(text), Layer::text, radius_mm, small_cap_mm});
  }
  Paper dot(double x, double y) const {
    const Paper here = place_of(x, y);
    canvas_.circle(here, dot_mm, {0, LineType::continuous, Layer::text}, Fill::ink);
    return here;
  }
  void upright(double x, std::string text) {
    if (!(x >= plot_.x.low && x <= plot_.x.high)) return;
    const Paper foot = place_of(x, plot_.y.low), head = place_of(x, lowest_at(plot_, x));
    canvas_.line({foot, head}, ordinate);
    std::vector<Paper> targets;
    for (const double share : {0.4, 0.2, 0.6, 0.1, 0.8}) targets.push_back(foot + share * (head - foot));
    name(std::move(targets), std::move(text));
  }

  const Canvas& canvas_;
  const Box& box_;
  const ChainagePlot& plot_;
  const Rig& rig_;
  const Layout& layout_;
  const Style& style_;
};

}  // namespace

std::vector<Callout> mark_long_section(const Canvas& canvas, const Box& box, const ChainagePlot& plot, const Rig& rig,
                                       const Style& style) {
  Marks marks(canvas, box, plot, rig, style);
  marks.ordinates();
  marks.supports();
  marks.platform();
  marks.rest_points();
  marks.lowest();
  return std::move(marks.names);
}

std::vector<Callout> mark_drives(const Canvas& canvas, const Box& box, const ChainagePlot& plot, const Rig& rig,
                                 const Style& style) {
  Marks marks(canvas, box, plot, rig, style);
  marks.zero_line();
  marks.ordinates();
  return std::move(marks.names);
}

}  // namespace fairlead::sheets
