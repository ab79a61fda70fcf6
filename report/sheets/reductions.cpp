// Reductions and slopes beside each other.
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "geometry/studies/arrest_figures.hpp"
#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr LineType types[] = {LineType::continuous, LineType::dashed, LineType::dash_dot,
                              LineType::long_dash_short_dash};

bool applies(const Dossier& dossier) { return dossier.arrest && dossier.arrest->reductions; }

using Value = std::function<std::optional<double>(const Reductions::Design&)>;

std::optional<double> stop_of(const Reductions::Rider& rider) {
  if (!rider.motion || rider.motion->outcome != arrest::Outcome::stops) return std::nullopt;
  return rider.motion->stop_travel_m;
}

/// One curve a ratio over the slopes; a design without a value ends it.
void draw_plot(const Canvas& canvas, const Box& box, const Reductions& all, const std::string& name,
               Dimension dimension, const Value& value, const std::vector<PlotLimit>& limits, const Style& style) {
  std::vector<PlotCurve> curves;
  double low = 0, high = 0;
  for (const PlotLimit& limit : limits) high = std::max(high, limit.value);
  for (std::size_t r = 0; r < all.ratios.size(); ++r) {
    const Pen pen{medium_mm, types[r % std::size(types)], Layer::braking_line};
    PlotCurve piece{{}, fmt::format("{:g}:1", all.ratios[r]), pen};
    const auto close = [&] {
      if (piece.values.size() > 1) {
        curves.push_back(piece);
        piece.name.clear();
      }
      piece.values.clear();
    };
    for (std::size_t s = 0; s < all.slopes.size(); ++s) {
      const auto y = value(all.designs[r * all.slopes.size() + s]);
      if (!y) {
        close();
        continue;
      }
      piece.values.push_back({all.slopes[s], *y});
      low = std::min(low, *y);
      high = std::max(high, *y);
    }
    close();
  }
  const double about = 0.06 * (high - low);
  constexpr double names_mm = 40, percent = 0.01;
  predicted_plot(canvas, box, {"slope toward the landing, %", all.slopes.front(), all.slopes.back(), percent},
                 axis_of(name, dimension, low < 0 ? low - about : 0, high + about, style), curves, limits, names_mm);
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Reductions& all = *dossier.arrest->reductions;
  Pages pages(dossier, office, out);
  Body body{"Reductions and slopes compared", "Diagram", "none", {}};
  const Canvas canvas(body.drawing, office.font);
  Box above = pages.above_title_block(), beside = pages.columns().back();
  constexpr double gap_mm = 4, least_plots_mm = 100;
  const Block notes = block_of(Paragraphs(
      "NOTES",
      {{"–", "A curve a ratio; it ends where the rider no longer stops within the planned travel.", Layer::notes},
       {"–",
        "Straight main line and ideal reduction: for comparing ratios and slopes with one another, before there are "
        "coordinates. The layout itself is judged on its true lines.",
        Layer::notes}},
      {small_cap_mm}));
  const Table table = tables::reductions(dossier, style);
  // As far as the plots can still be read.
  pages.make_room(above, beside, {notes, block_of(table, style)}, least_plots_mm);
  const auto plot_at = [&](int i) {
    // Two by two, or one below the other.
    const int across = pages.upright() ? 1 : 2, down = 4 / across;
    const double width = (above.width() - (across - 1) * gap_mm) / across,
                 height = (above.height() - (down - 1) * gap_mm) / down;
    const int column = i % across, row = i / across;
    const double left = above.left + column * (width + gap_mm), top = above.top - row * (height + gap_mm);
    return Box{left, top - height, left + width, top};
  };
  const PlotLimit end{"end of planned travel", all.travel_m};
  draw_plot(
      canvas, plot_at(0), all, "stopping travel, farthest", Dimension::length,
      [](const auto& d) { return stop_of(d.farthest); }, {end}, style);
  draw_plot(
      canvas, plot_at(1), all, "stopping travel, shortest", Dimension::length,
      [](const auto& d) { return stop_of(d.shortest); }, {end}, style);
  draw_plot(
      canvas, plot_at(2), all, "greatest line speed", Dimension::speed,
      [](const auto& d) -> std::optional<double> {
        if (!d.farthest.motion || !d.shortest.motion) return std::nullopt;
        return greater(d.farthest.motion->line_speed_m_per_s.value, d.shortest.motion->line_speed_m_per_s.value);
      },
      {}, style);
  draw_plot(
      canvas, plot_at(3), all, "least reserve of the reset", Dimension::force,
      [](const auto& d) -> std::optional<double> { return d.least_reserve_N; }, {{"0: it stays", 0}}, style);
  pages.begin(std::move(body), {beside});
  pages.put(notes);
  pages.put(table, style);
}

}  // namespace

const SheetKind reductions_sheet{"reductions", applies, compose};

}  // namespace fairlead::sheets
