#include "report/sheets/arrangement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "report/drawing/symbols.hpp"

namespace fairlead::sheets {

using namespace drawing;
using views::Facing;

namespace {

constexpr double left_margin_mm = 6, right_margin_mm = 2;  // of the views: upright dimensions stand there
constexpr double title_row_mm = 10, above_mm = 5, plan_band_mm = 13, between_mm = 3;

/// The scale bar's length: the longest of a round series that stays short of 60 mm.
double bar_metres(double scale) {
  double metres = 0.1;
  for (double next : {0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0})
    if (next * 1000 / scale <= 60) metres = next;
  return metres;
}

void direction_of_travel(const Canvas& canvas, Paper left) {
  constexpr double arrow_mm = 34;
  const double ends = canvas.width("UPSTREAM", note_cap_mm);
  const Paper from = left + Paper{ends + 2, note_cap_mm / 2}, to = from + Paper{arrow_mm, 0};
  canvas.text(left, "UPSTREAM", note_cap_mm, Layer::symbols);
  arrow(canvas, from, to, {medium_mm, LineType::continuous, Layer::symbols});
  canvas.text(0.5 * (from + to) + Paper{0, 0.9}, "direction of travel", small_cap_mm, Layer::symbols, Align::centre);
  canvas.text(to + Paper{2, -note_cap_mm / 2}, "LANDING", note_cap_mm, Layer::symbols);
}

/// Name and scale of a view at the left, the direction of travel, and its scale bar at the right.
void title_row(const Canvas& canvas, Paper top_left, double width_mm, const std::string& name, const View& view) {
  const double baseline = top_left.y_mm - title_cap_mm - 1;
  canvas.text({top_left.x_mm, baseline}, name, title_cap_mm, Layer::text);
  const double after = top_left.x_mm + canvas.width(name, title_cap_mm) + 3;
  const std::string scale = fmt::format("scale 1:{:g}", view.scale);
  canvas.text({after, baseline}, scale, note_cap_mm, Layer::text);
  const double metres = bar_metres(view.scale), bar_mm = metres * view.mm_per_m();
  const double bar_left = top_left.x_mm + width_mm - bar_mm - 6;
  scale_bar(canvas, {bar_left, baseline}, view, metres, metres == 2 || metres == 20 || metres == 0.2 ? 4 : 5);
  const double travel_mm = canvas.width("UPSTREAM", note_cap_mm) + 38 + canvas.width("LANDING", note_cap_mm);
  const double scale_end = after + canvas.width(scale, note_cap_mm);
  direction_of_travel(canvas, {scale_end + (bar_left - scale_end - travel_mm) / 2, baseline});
}

/// Puts the directions of the site's axes where nothing else stands, as low and far right as can be.
void place_axes(const Canvas& canvas, const views::Scene& scene, const View& view, Obstacles& obstacles,
                const Box& within) {
  const auto& names = scene.rig->layout.site.axes;
  const std::vector<Axis> axes{{{1, 0, 0}, names[0]}, {{0, 1, 0}, names[1]}, {{0, 0, 1}, names[2]}};
  const auto trial = [&](Paper root) {
    Drawing drawing;
    axes_sign(Canvas(drawing, canvas.font()), root, view, axes);
    std::vector<Paper> all;
    for (const auto& entity : drawing.entities) {
      if (const auto* stroke = std::get_if<Stroke>(&entity))
        all.insert(all.end(), stroke->path.begin(), stroke->path.end());
      if (const auto* label = std::get_if<Label>(&entity))
        for (const Paper p : text_quad(*label, canvas.font())) all.push_back(p);
    }
    return bounds(all).grown(1);
  };
  const Box at_origin = trial({0, 0});
  for (double y = within.bottom - at_origin.bottom; y + at_origin.top <= within.top; y += 2)
    for (double x = within.right - at_origin.right; x + at_origin.left >= within.left; x -= 3) {
      const Quad here = quad({x + at_origin.left, y + at_origin.bottom, x + at_origin.right, y + at_origin.top});
      if (!obstacles.clear(here)) continue;
      axes_sign(canvas, {x, y}, view, axes);
      obstacles.add(here);
      return;
    }
  axes_sign(canvas, {within.right - at_origin.right, within.bottom - at_origin.bottom}, view, axes);
}

}  // namespace

ViewGroup::ViewGroup(const views::Scene& scene, const Style& style, const Stationery& paper, const Font& font,
                     double scale)
    : scene_(scene), style_(style), paper_(paper), scale_(scale) {
  // Drawn once on a paper nobody sees, to know how far the dimensions reach.
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const View elevation = view_of(scene, Facing::elevation, scale, {0, 0});
  Box drawn = views::extent(scene, elevation, Facing::elevation);
  const double drawn_height = drawn.height();
  drawn.top += above_mm;
  const views::Reach reach = views::draw_elevation_dimensions(canvas, scene, elevation, drawn, style);
  elevation_above_mm_ = reach.top - (drawn.top - above_mm);
  elevation_height_mm_ = title_row_mm + elevation_above_mm_ + drawn_height + (drawn.bottom - reach.bottom);
  const Box plan = views::extent(scene, view_of(scene, Facing::plan, scale, {0, 0}), Facing::plan);
  plan_height_mm_ = title_row_mm + 2 * plan_band_mm + plan.height();
  width_mm_ = left_margin_mm + drawn.width() + right_margin_mm;
  height_mm_ = elevation_height_mm_ + between_mm + views::chainage_scale_height_mm + between_mm + plan_height_mm_;
}

std::vector<std::string> ViewGroup::draw(const Canvas& canvas, Paper top_left) const {
  Drawing& drawing = canvas.drawing();
  const double x = top_left.x_mm + left_margin_mm;
  const double taken = views::chainage_scale_height_mm + 2 * between_mm;
  const double upper_mm = paper_.first_angle ? elevation_height_mm_ : plan_height_mm_;
  const double elevation_top = paper_.first_angle ? top_left.y_mm : top_left.y_mm - upper_mm - taken;
  const double plan_top = paper_.first_angle ? top_left.y_mm - upper_mm - taken : top_left.y_mm;
  const double right = top_left.x_mm + width_mm_;

  View elevation = view_of(scene_, Facing::elevation, scale_, {x, 0});
  Box drawn = views::extent(scene_, elevation, Facing::elevation);
  elevation.at.y_mm += elevation_top - title_row_mm - elevation_above_mm_ - drawn.top;
  drawn = views::extent(scene_, elevation, Facing::elevation);
  View plan = view_of(scene_, Facing::plan, scale_, {x, plan_top - plan_height_mm_ + plan_band_mm});
  drawing.views.push_back(elevation);
  drawing.views.push_back(plan);

  title_row(canvas, {x, elevation_top}, right - x, "ELEVATION", elevation);
  title_row(canvas, {x, plan_top}, right - x, "PLAN", plan);
  views::draw_rig(canvas, scene_, elevation, Facing::elevation);
  views::draw_elevation_dimensions(canvas, scene_, elevation,
                                   {drawn.left, drawn.bottom, drawn.right, drawn.top + above_mm}, style_);
  views::draw_chainages(canvas, scene_, elevation, top_left.y_mm - upper_mm - between_mm);
  views::draw_rig(canvas, scene_, plan, Facing::plan);

  Obstacles obstacles(canvas.font());
  obstacles.add(drawing);
  const Box around_plan{top_left.x_mm, plan_top - plan_height_mm_, right, plan_top - title_row_mm + 1};
  const Box around_elevation{top_left.x_mm, elevation_top - elevation_height_mm_, right,
                             elevation_top - title_row_mm + 1};
  place_axes(canvas, scene_, plan, obstacles, around_plan);
  auto key = place(canvas, callouts(scene_, elevation, Facing::elevation, style_), obstacles, around_elevation);
  const int next = static_cast<int>(key.size()) + 1;
  for (std::string& text : place(canvas, callouts(scene_, plan, Facing::plan, style_), obstacles, around_plan, next))
    key.push_back(std::move(text));
  return key;
}

namespace {

constexpr double gap_mm = 5, greatest_gap_mm = 9;

double stacked_height(const Canvas& canvas, const std::vector<const Block*>& blocks, double width_mm) {
  double sum = 0;
  for (const Block* block : blocks) sum += block->height(canvas, width_mm) + (block == blocks.front() ? 0 : gap_mm);
  return sum;
}

}  // namespace

bool share(const Canvas& canvas, const std::vector<Block>& blocks, Region& first, Region& second) {
  double least = std::numeric_limits<double>::infinity();
  for (unsigned mask = 0; mask < 1u << blocks.size(); ++mask) {
    Region a{first.box, {}}, b{second.box, {}};
    for (std::size_t i = 0; i < blocks.size(); ++i) (mask >> i & 1u ? b : a).blocks.push_back(&blocks[i]);
    const double a_left = a.box.height() - stacked_height(canvas, a.blocks, a.box.width());
    const double b_left = b.box.height() - stacked_height(canvas, b.blocks, b.box.width());
    if (!(a_left >= 0 && b_left >= 0)) continue;
    // Even margins look better than one full and one empty region; the first way found wins a tie.
    const double uneven = std::abs(a_left - b_left);
    if (!(uneven < least)) continue;
    least = uneven;
    first.blocks = a.blocks;
    second.blocks = b.blocks;
  }
  return std::isfinite(least);
}

void draw(const Canvas& canvas, const Region& region) {
  if (region.blocks.empty()) return;
  const double width = region.box.width();
  const double left_over = region.box.height() - stacked_height(canvas, region.blocks, width);
  const double gap = std::min(greatest_gap_mm, gap_mm + left_over / static_cast<double>(region.blocks.size()));
  double y = region.box.top;
  for (const Block* block : region.blocks) {
    block->draw(canvas, {region.box.left, y}, width);
    y -= block->height(canvas, width) + gap;
  }
}

}  // namespace fairlead::sheets
