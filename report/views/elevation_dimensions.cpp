#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/dimension.hpp"
#include "report/views/figures.hpp"
#include "report/views/parts.hpp"
#include "report/views/rig_symbols.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

class Dimensioner {
 public:
  Dimensioner(const Canvas& canvas, const Scene& scene, const View& view, const Box& drawn, const Style& style)
      : canvas_(canvas), scene_(scene), layout_(scene.rig->layout), view_(view), drawn_(drawn), style_(style) {}

  double above() const {
    if (!scene_.rest) return drawn_.top;
    const Paper rest = view_.of(scene_.rest->trolley.wheel) + Paper{0, 1.5};
    const auto on_line = [&](double chainage) {
      const auto p = scene_.on_main_line(*scene_.rest, chainage);
      return p ? view_.of(*p) : rest;
    };
    const Paper full = on_line(layout_.brake_trolley.rest_m + layout_.brake_trolley.travel_m);
    std::vector<DimensionLine> lines{between(rest, full, "travel ")};
    if (const SheaveSeen* redirect = first_redirect(scene_)) {
      lines.push_back(between(view_.of(redirect->centre), rest));
      lines.push_back(between(view_.of(redirect->centre), outlet()));
    }
    for (const BlockSeen& block : scene_.rest->blocks) {
      lines.push_back(between(view_.of(block.at), outlet()));
      if (!scene_.full) continue;
      for (const BlockSeen& full_block : scene_.full->blocks)
        if (full_block.index == block.index)
          lines.push_back(between(view_.of(full_block.at), view_.of(block.at), "block "));
    }
    if (layout_.backup_brake) lines.push_back(between(full, on_line(layout_.backup_brake->engages_m)));
    return dimension_rows(canvas_, Measures::along, own(lines), drawn_.top - first_row_mm / 2, 1);
  }

  double below(const Landing& landing) const {
    std::vector<DimensionLine> lines{between(deck(landing.platform_from_m), deck(landing.platform_to_m), "platform ")};
    if (landing.earliest_rest_m && landing.latest_rest_m)
      lines.push_back(between(deck(*landing.earliest_rest_m), deck(*landing.latest_rest_m), "pick-up window "));
    return dimension_rows(canvas_, Measures::along, own(lines), drawn_.bottom, -1);
  }

  /// Heights above the platform, whose level runs on to both sides as a thin line for them to stand on.
  void heights(const Landing& landing) const {
    const Paper from = deck(landing.platform_from_m), to = deck(landing.platform_to_m);
    const Pen datum{hair_mm, LineType::dash_dot, Layer::structure};
    const double left = scene_.before ? drawn_.left : drawn_.left - first_row_mm / 2;
    const double upstream = std::min(from.x_mm, drawn_.right), downstream = std::max(to.x_mm, drawn_.left);
    if (left < upstream) canvas_.line({{left, from.y_mm}, {upstream, from.y_mm}}, datum);
    if (downstream < drawn_.right) canvas_.line({{downstream, to.y_mm}, {drawn_.right, to.y_mm}}, datum);
    Obstacles obstacles(canvas_.font());
    obstacles.add(canvas_.drawing());
    const auto height = [&](Paper at, double edge_mm, int side) {
      const std::string text = figure((at.y_mm - from.y_mm) / view_.mm_per_m(), style_);
      const auto draw = [&](const Canvas& canvas, double off_mm) {
        const double edge = edge_mm + side * off_mm;
        dimension_rows(canvas, Measures::up, {{{edge + side * first_row_mm, from.y_mm}, at, text}}, edge, side,
                       &obstacles);
      };
      constexpr double most_off_mm = 14;
      for (double off_mm = 0; off_mm <= most_off_mm; off_mm += 2) {
        Drawing trial;
        draw(Canvas(trial, canvas_.font()), off_mm);
        if (clear(trial, obstacles)) return draw(canvas_, off_mm);
      }
      place(canvas_, {Callout{{at}, text + " above platform", Layer::dimensions, 1}}, obstacles, drawn_);
    };
    const Box mine = own_window(scene_, view_);
    const SheaveSeen* redirect = first_redirect(scene_);
    if (redirect && mine.contains(view_.of(redirect->centre)))
      height(view_.of(redirect->centre), drawn_.left + first_row_mm / 2, -1);
    if (mine.contains(outlet())) height(outlet(), outlet().x_mm + unit_length_mm, 1);
  }

 private:
  /// Its lettering stands free and between the rows above and below, and its lines run through no other.
  bool clear(const Drawing& trial, const Obstacles& obstacles) const {
    for (const auto& entity : trial.entities) {
      if (const auto* label = std::get_if<Label>(&entity)) {
        const Quad text = text_quad(*label, canvas_.font());
        if (!obstacles.clear(text) || bounds(text).bottom < drawn_.bottom || bounds(text).top > drawn_.top)
          return false;
      }
      if (const auto* stroke = std::get_if<Stroke>(&entity))
        for (std::size_t i = 1; i < stroke->path.size(); ++i)
          if (obstacles.over_text(stroke->path[i - 1], stroke->path[i])) return false;
    }
    return true;
  }
  /// Of a part those that it shows all or a piece of; one across a match line says what it spans.
  std::vector<DimensionLine> own(std::vector<DimensionLine> all) const {
    if (!scene_.is_part()) return all;
    // Pieces may be as long as each other: in the order of the wholes their rows are the same on every part.
    const auto span = [](const DimensionLine& d) { return std::abs(d.to.x_mm - d.from.x_mm); };
    std::stable_sort(all.begin(), all.end(),
                     [&](const DimensionLine& a, const DimensionLine& b) { return span(a) < span(b); });
    const Box mine = own_window(scene_, view_);
    const auto chainage = [&](double x_mm) {
      return figure(scene_.from_m + (x_mm - view_.of(scene_.at(scene_.from_m, 0, 0)).x_mm) / view_.mm_per_m(), style_);
    };
    std::vector<DimensionLine> out;
    for (DimensionLine d : all) {
      if (d.to.x_mm < d.from.x_mm) std::swap(d.from, d.to);
      if (d.to.x_mm < mine.left || d.from.x_mm > mine.right) continue;
      d.open_low = d.from.x_mm<mine.left, d.open_high = d.to.x_mm> mine.right;
      if (d.open_low || d.open_high) d.text += fmt::format(", CH {} to {}", chainage(d.from.x_mm), chainage(d.to.x_mm));
      d.from.x_mm = std::max(d.from.x_mm, mine.left), d.to.x_mm = std::min(d.to.x_mm, mine.right);
      out.push_back(std::move(d));
    }
    return out;
  }
  Paper outlet() const { return view_.of(layout_.brake_unit.outlet); }
  Paper deck(double chainage_m) const { return view_.of(scene_.at(chainage_m, 0, layout_.landing->platform_level_m)); }
  DimensionLine between(Paper a, Paper b, std::string_view what = "") const {
    return {a, b, std::string(what) + figure(std::abs(b.x_mm - a.x_mm) / view_.mm_per_m(), style_)};
  }

  const Canvas& canvas_;
  const Scene& scene_;
  const Layout& layout_;
  const View& view_;
  const Box& drawn_;
  const Style& style_;
};

}  // namespace

Reach draw_elevation_dimensions(const Canvas& canvas, const Scene& scene, const View& view, const Box& drawn,
                                const Style& style) {
  const Dimensioner dimensioner(canvas, scene, view, drawn, style);
  Reach reach{dimensioner.above(), drawn.bottom};
  if (const auto& landing = scene.rig->layout.landing) {
    reach.bottom = dimensioner.below(*landing);
    dimensioner.heights(*landing);
  }
  return reach;
}

}  // namespace fairlead::views
