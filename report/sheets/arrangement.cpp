#include "report/sheets/arrangement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "report/sheets/site_axes.hpp"
#include "report/sheets/title_row.hpp"
#include "report/views/parts.hpp"
#include "report/views/section_mark.hpp"

namespace fairlead::sheets {

using namespace drawing;
using views::Facing;

namespace {

constexpr double least_margin_mm = 1;  // of what is drawn, to its group's sides
constexpr double title_row_mm = TitleRow::height_mm, between_mm = 3;

}  // namespace

ViewGroup::ViewGroup(const views::Scene& scene, const Style& style, const Stationery& paper, const Font& font,
                     double scale, Spacing spacing, std::optional<views::DetailWindow> detail)
    : scene_(scene),
      style_(style),
      paper_(paper),
      scale_(scale),
      above_mm_(spacing == Spacing::ample ? 5 : 3),
      plan_band_mm_(spacing == Spacing::ample ? 13 : 9),
      detail_(detail) {
  // Drawn once on a paper nobody sees, to know how far the dimensions reach.
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const View elevation = view_of(scene, Facing::elevation, scale, {0, 0});
  Box drawn = views::extent(scene, elevation, Facing::elevation);
  const double drawn_height = drawn.height();
  drawn.top += above_mm_;
  const views::Reach reach = views::draw_elevation_dimensions(canvas, scene, elevation, drawn, style);
  elevation_above_mm_ = reach.top - (drawn.top - above_mm_);
  elevation_height_mm_ = title_row_mm + elevation_above_mm_ + drawn_height + (drawn.bottom - reach.bottom);
  const View plan_view = view_of(scene, Facing::plan, scale, {0, 0});
  const Box plan = views::extent(scene, plan_view, Facing::plan);
  plan_height_mm_ = title_row_mm + 2 * plan_band_mm_ + plan.height();
  views::draw_rig(canvas, scene, elevation, Facing::elevation);
  views::draw_rig(canvas, scene, plan_view, Facing::plan);
  const Box whole = bounds(scratch, font);
  left_margin_mm_ = drawn.left - whole.left + least_margin_mm;
  const double beside = std::max(0.0, whole.right - drawn.right) + least_margin_mm;
  constexpr double lettering_mm = views::match_lettering_mm;
  if (scene.before) left_margin_mm_ = std::max(left_margin_mm_, lettering_mm);
  width_mm_ = left_margin_mm_ + std::max(drawn.width() + (scene.after ? std::max(beside, lettering_mm) : beside),
                                         title_row(canvas, "ELEVATION").width_mm());
  height_mm_ = elevation_height_mm_ + between_mm + views::chainage_scale_height_mm + between_mm + plan_height_mm_;
}

TitleRow ViewGroup::title_row(const Canvas& canvas, std::string name) const {
  return {canvas, std::move(name), scale_, views::bar_unit(style_), paper_.field().width() - left_margin_mm_};
}

std::vector<std::string> ViewGroup::draw(const Canvas& canvas, Paper top_left, double slack_mm) const {
  Drawing& drawing = canvas.drawing();
  // What room there is to spare goes where names are crowded: above the elevation and about the plan.
  const double elevation_mm = elevation_height_mm_ + slack_mm / 2, plan_mm = plan_height_mm_ + slack_mm / 2;
  const double band_mm = plan_band_mm_ + slack_mm / 4, extra_above_mm = above_mm_ + slack_mm / 2;
  const double x = top_left.x_mm + left_margin_mm_, right = top_left.x_mm + width_mm_;
  const double taken = views::chainage_scale_height_mm + 2 * between_mm;
  const double upper_mm = paper_.first_angle ? elevation_mm : plan_mm;
  const double elevation_top = paper_.first_angle ? top_left.y_mm : top_left.y_mm - upper_mm - taken;
  const double plan_top = paper_.first_angle ? top_left.y_mm - upper_mm - taken : top_left.y_mm;

  View elevation = view_of(scene_, Facing::elevation, scale_, {x, 0});
  Box drawn = views::extent(scene_, elevation, Facing::elevation);
  elevation.at.y_mm += elevation_top - title_row_mm - elevation_above_mm_ - slack_mm / 2 - drawn.top;
  drawn = views::extent(scene_, elevation, Facing::elevation);
  const View plan = view_of(scene_, Facing::plan, scale_, {x, plan_top - plan_mm + band_mm});
  drawing.views.push_back(elevation);
  drawing.views.push_back(plan);

  if (scene_.is_part()) {
    views::draw_match_lines(canvas, scene_, elevation, elevation_top - title_row_mm, elevation_top - elevation_mm,
                            style_);
    views::draw_match_lines(canvas, scene_, plan, plan_top - title_row_mm, plan_top - plan_mm, style_);
  }
  title_row(canvas, "ELEVATION").draw(canvas, {x, elevation_top}, right - x, elevation);
  title_row(canvas, "PLAN").draw(canvas, {x, plan_top}, right - x, plan);
  views::draw_rig(canvas, scene_, elevation, Facing::elevation);
  if (detail_) views::mark_detail(canvas, scene_, *detail_, elevation);
  views::draw_elevation_dimensions(canvas, scene_, elevation,
                                   {drawn.left, drawn.bottom, drawn.right, drawn.top + extra_above_mm}, style_);
  views::draw_chainages(canvas, scene_, elevation, top_left.y_mm - upper_mm - between_mm, style_);
  views::draw_rig(canvas, scene_, plan, Facing::plan);
  views::mark_section(canvas, scene_, plan, views::extent(scene_, plan, Facing::plan));

  Obstacles obstacles(canvas.font());
  obstacles.add(drawing);
  const Box own = views::own_window(scene_, elevation);
  const double from = scene_.before ? own.left + 1 : top_left.x_mm, to = scene_.after ? own.right - 1 : right;
  const Box around_plan{from, plan_top - plan_mm, to, plan_top - title_row_mm + 1};
  const Box around_elevation{from, elevation_top - elevation_mm, to, elevation_top - title_row_mm + 1};
  if (detail_) views::letter_detail(canvas, scene_, *detail_, elevation, obstacles);
  place_axes(canvas, scene_, plan, obstacles, around_plan);
  const auto naming = detail_ ? views::Naming::brief : views::Naming::full;
  auto key = place(canvas, callouts(scene_, elevation, Facing::elevation, naming, style_), obstacles, around_elevation);
  const int next = static_cast<int>(key.size()) + 1;
  for (std::string& text :
       place(canvas, callouts(scene_, plan, Facing::plan, naming, style_), obstacles, around_plan, next))
    key.push_back(std::move(text));
  return key;
}

namespace {

constexpr double detail_title_mm = 9, detail_gap_mm = 6, legend_width_mm = 64, least_band_mm = 72;

}  // namespace

std::optional<DetailBand> DetailBand::fit(const views::Scene& scene, const views::DetailWindow& window,
                                          const Canvas& canvas, double width_mm, double greatest_height_mm,
                                          double main_scale) {
  DetailBand band(scene, window);
  const double frame_mm = width_mm - detail_gap_mm - legend_width_mm;
  const double legend_mm = legend(scene).height(canvas, legend_width_mm);
  if (legend_mm > greatest_height_mm) return std::nullopt;
  band.height_mm_ = std::min(greatest_height_mm, std::max(legend_mm, least_band_mm));
  const double tall_mm = band.height_mm_ - detail_title_mm;
  for (double scale : {10.0, 20.0, 50.0, 100.0}) {
    if (2 * scale > main_scale) break;
    const double mm_per_m = 1000 / scale;
    if (mm_per_m * (window.to_m - window.from_m) > frame_mm || mm_per_m * (window.high_m - window.low_m) > tall_mm)
      continue;
    band.scale_ = scale;
    band.window_ = views::filling(scene, window, frame_mm / mm_per_m, tall_mm / mm_per_m);
    return band;
  }
  return std::nullopt;
}

std::vector<std::string> DetailBand::draw(const Canvas& canvas, const Style& style, Paper top_left, double width_mm,
                                          int first_balloon) const {
  const double height = 1000 / scale_ * (window_.high_m - window_.low_m);
  canvas.text(top_left - Paper{0, title_cap_mm}, "DETAIL A", title_cap_mm, Layer::text);
  const double after = canvas.width("DETAIL A", title_cap_mm) + 3;
  canvas.text(top_left + Paper{after, -title_cap_mm}, fmt::format("1:{:g}, redirect and rest mark", scale_),
              note_cap_mm, Layer::text);
  auto key = views::draw_detail(canvas, *scene_, window_, scale_, top_left - Paper{0, detail_title_mm + height}, style,
                                first_balloon);
  legend(*scene_).draw(canvas, top_left + Paper{width_mm - legend_width_mm, 0}, legend_width_mm);
  return key;
}

namespace {

constexpr double gap_mm = 4, greatest_gap_mm = 9;

/// Infinite where the box is too narrow for the block.
double height_in(const Canvas& canvas, const Block& block, const Box& box) {
  if (!(block.least_width(canvas) <= box.width())) return std::numeric_limits<double>::infinity();
  return block.height(canvas, box.width());
}

double stacked_height(const Canvas& canvas, const Region& region) {
  double sum = 0;
  for (const Block* block : region.blocks)
    sum += block->height(canvas, region.box.width()) + (block == region.blocks.front() ? 0 : gap_mm);
  return sum;
}

}  // namespace

bool share(const Canvas& canvas, const std::vector<Block>& blocks, Region& first, Region& second, std::size_t kept) {
  std::vector<std::array<double, 2>> heights;
  for (const Block& block : blocks)
    heights.push_back({height_in(canvas, block, first.box), height_in(canvas, block, second.box)});
  double least = std::numeric_limits<double>::infinity();
  unsigned chosen = 0;
  const unsigned must = (1u << std::min(kept, blocks.size())) - 1;
  for (unsigned mask = 0; mask < 1u << blocks.size(); ++mask) {
    if ((mask & must) != must) continue;
    double left[] = {first.box.height() + gap_mm, second.box.height() + gap_mm};
    for (std::size_t i = 0; i < blocks.size(); ++i) left[mask >> i & 1u] -= heights[i][mask >> i & 1u] + gap_mm;
    // A region without blocks has its gap to spare; neither may be overfull.
    if (!(left[0] >= 0 && left[1] >= 0)) continue;
    // Even margins look better than one full and one empty region; the first way found wins a tie.
    const double uneven = std::abs(left[0] - left[1]);
    if (!(uneven < least)) continue;
    least = uneven;
    chosen = mask;
  }
  if (!std::isfinite(least)) return false;
  for (std::size_t i = 0; i < blocks.size(); ++i) (chosen >> i & 1u ? second : first).blocks.push_back(&blocks[i]);
  return true;
}

void draw(const Canvas& canvas, const Region& region) {
  if (region.blocks.empty()) return;
  const double width = region.box.width();
  const double left_over = region.box.height() - stacked_height(canvas, region);
  const double gap = std::min(greatest_gap_mm, gap_mm + left_over / static_cast<double>(region.blocks.size()));
  double y = region.box.top;
  for (const Block* block : region.blocks) {
    block->draw(canvas, {region.box.left, y}, width);
    y -= block->height(canvas, width) + gap;
  }
}

}  // namespace fairlead::sheets
