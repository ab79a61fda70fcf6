#include "report/sheets/section.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/dimension.hpp"
#include "report/drawing/symbols.hpp"
#include "report/sheets/blocks.hpp"
#include "report/tables/tables.hpp"
#include "report/views/detail.hpp"
#include "report/views/figures.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/views/section_mark.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using views::Facing;

namespace {

constexpr double title_mm = 19, beside_mm = 30, above_mm = 12, below_mm = 32;

}  // namespace

std::optional<SectionFigure> SectionFigure::of(const views::Scene& scene, const Style& style) {
  auto passing = views::under_redirect(scene);
  if (!passing) return std::nullopt;
  return SectionFigure(std::move(*passing), style);
}

/// Returns what was drawn to scale.
Box SectionFigure::draw_rig(const Canvas& canvas, const View& view) const {
  // Ground that runs on to both sides is shown as far as everything else is.
  views::Instant bounded = passing_.instant;
  std::erase_if(bounded.scene.structures, [](const auto& s) { return s.kind == StructureKind::plane; });
  Box window = views::structures_window(scene(), view, Facing::section);
  Drawing scratch;
  views::draw_section(Canvas(scratch, canvas.font()), bounded, view, window, reach_m);
  constexpr double about_mm = 6;
  const Box all = bounds(scratch, canvas.font()).grown(about_mm);
  window.left = std::max(window.left, all.left);
  window.right = std::min(window.right, all.right);

  Drawing whole;
  const Canvas draw(whole, canvas.font());
  for (const views::ScanSeen& scan : scene().scans) views::draw_scan(draw, scene(), scan, view, Facing::section);
  Drawing clipped;
  views::draw_clipped(Canvas(clipped, canvas.font()), whole, window);
  views::draw_section(Canvas(clipped, canvas.font()), passing_.instant, view, window, reach_m);
  for (const auto& [name, at] : cables())
    if (window.contains(view.of(at)))
      Canvas(clipped, canvas.font()).circle(view.of(at), 0.5, {0, LineType::continuous, Layer::main_line}, Fill::ink);
  Box box = bounds(clipped, canvas.font());
  auto& entities = canvas.drawing().entities;
  entities.insert(entities.end(), clipped.entities.begin(), clipped.entities.end());
  if (const auto& landing = scene().rig->layout.landing)
    box.bottom = std::min(box.bottom, view.of(scene().at(*scene().section_m, 0, landing->platform_level_m)).y_mm);
  return box;
}

bool SectionFigure::near(Point3 p) const {
  return std::abs(scene().rig->frame.chainage_m(p) - *scene().section_m) <= reach_m;
}

std::vector<std::pair<std::string, Point3>> SectionFigure::cables() const {
  std::vector<std::pair<std::string, Point3>> cut;
  for (const views::CableSeen& cable : scene().cables)
    if (const auto at = views::at_chainage(scene().rig->frame, cable.curve, *scene().section_m))
      cut.push_back({cable.name, *at});
  return cut;
}

std::vector<views::StructureSeen> SectionFigure::shown_structures() const {
  std::vector<views::StructureSeen> shown = scene().structures;
  std::erase_if(shown, [&](const auto& structure) { return !views::in_section(passing_.instant, structure, reach_m); });
  return shown;
}

namespace {

/// What stands above the section: name and scale with a bar at the right, and what it shows in two lines.
class Heading {
 public:
  Heading(const Rig& rig, const views::UnderRedirect& passing, double scale, const Style& style)
      : name_(fmt::format("SECTION {0}-{0}", views::section_letter)),
        scale_(fmt::format("1:{:g}", scale)),
        where_(fmt::format("at CH {}, looking toward the landing",
                           views::figure(*passing.instant.scene.section_m, style))),
        when_(fmt::format("{}, at travel {}", tables::passage(rig, passing.sweep),
                          with_minus(words::travel(passing.travel_m, style)))),
        unit_(views::bar_unit(style)),
        mm_per_unit_(1000 / scale * unit_.metres) {
    constexpr double most_mm = 48;
    for (const double next : {0.5, 1.0, 2.0, 5.0, 10.0})
      if (next * mm_per_unit_ <= most_mm) count_ = next;
  }
  double width_mm(const Canvas& canvas) const {
    const double row_mm = canvas.width(name_, title_cap_mm) + gap_mm + canvas.width(scale_, note_cap_mm) + 2 * gap_mm +
                          count_ * mm_per_unit_ + unit_mm;
    return std::max({row_mm, canvas.width(where_, small_cap_mm), canvas.width(when_, small_cap_mm)});
  }
  void draw(const Canvas& canvas, const Box& box, const View& view) const {
    const double row = box.top - title_cap_mm - 1;
    canvas.text({box.left, row}, name_, title_cap_mm, Layer::text);
    canvas.text({box.left + canvas.width(name_, title_cap_mm) + gap_mm, row}, scale_, note_cap_mm, Layer::text);
    canvas.text({box.left, row - 4.2}, where_, small_cap_mm, Layer::text);
    canvas.text({box.left, row - 7.6}, when_, small_cap_mm, Layer::text);
    scale_bar(canvas, {box.right - unit_mm - count_ * mm_per_unit_, row}, view, unit_, count_,
              count_ == 2 || count_ == 0.2 ? 4 : 5);
  }

 private:
  static constexpr double gap_mm = 3, unit_mm = 8;
  std::string name_, scale_, where_, when_;
  BarUnit unit_;
  double mm_per_unit_, count_ = 0.2;
};

}  // namespace

drawing::Size SectionFigure::size(const Font& font, double scale) const {
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const double heading_mm = Heading(*scene().rig, passing_, scale, *style_).width_mm(canvas);
  const Box drawn = draw_rig(canvas, views::section_view(passing_.instant, scale, {0, 0}));
  return {std::max(heading_mm, drawn.width() + 2 * beside_mm), title_mm + above_mm + drawn.height() + below_mm};
}

std::vector<std::string> SectionFigure::draw(const Canvas& canvas, const Box& box, double scale,
                                             std::size_t balloons) const {
  Drawing scratch;
  const Box from_wheel = draw_rig(Canvas(scratch, canvas.font()), views::section_view(passing_.instant, scale, {0, 0}));
  const double spare = box.height() - size(canvas.font(), scale).height_mm;
  const Paper wheel{box.centre().x_mm - from_wheel.centre().x_mm,
                    box.top - title_mm - above_mm - spare / 2 - from_wheel.top};
  const View view = views::section_view(passing_.instant, scale, wheel);
  canvas.drawing().views.push_back(view);
  Drawing mine;
  const Canvas here(mine, canvas.font());
  Heading(*scene().rig, passing_, scale, *style_).draw(here, box, view);
  const Box drawn = draw_rig(here, view);
  heights(here, view, drawn);
  widths(here, view, drawn);
  Obstacles obstacles(canvas.font());
  obstacles.add(mine);
  auto& entities = canvas.drawing().entities;
  entities.insert(entities.end(), mine.entities.begin(), mine.entities.end());
  return place(canvas, names(view), obstacles, {box.left, box.bottom, box.right, box.top - title_mm + 4},
               static_cast<int>(balloons) + 1);
}

void SectionFigure::heights(const Canvas& canvas, const View& view, const Box& drawn) const {
  const Paper wheel = view.of(passing_.instant.rider), axle = view.of(views::first_redirect(scene())->centre);
  const auto up = [&](Paper from, Paper to) {
    return DimensionLine{from, to, views::figure((to.y_mm - from.y_mm) / view.mm_per_m(), *style_)};
  };
  std::vector<DimensionLine> left{up(wheel, axle)};
  if (const auto& landing = scene().rig->layout.landing) {
    const double level = view.of(scene().at(*scene().section_m, 0, landing->platform_level_m)).y_mm;
    canvas.line({{drawn.left - first_row_mm, level}, {drawn.right + first_row_mm, level}},
                {hair_mm, LineType::dash_dot, Layer::structure});
    left = {up({drawn.left, level}, wheel), up({drawn.left, level}, axle)};
  }
  dimension_rows(canvas, Measures::up, left, drawn.left, -1);
  if (const auto& rider = scene().rider_under_redirect) {
    const Box envelope = views::rider_box(scene().rig->frame, view, *rider);
    dimension_rows(canvas, Measures::up, {up({envelope.right, envelope.top}, axle)}, drawn.right, 1);
  }
}

/// The rider to both sides of the main line, from there to structures at the rider's height, and whatever else stands
/// aside.
void SectionFigure::widths(const Canvas& canvas, const View& view, const Box& drawn) const {
  const auto across = [&](Paper from, Paper to) {
    return DimensionLine{from, to, views::figure(std::abs(to.x_mm - from.x_mm) / view.mm_per_m(), *style_)};
  };
  const Paper wheel = view.of(passing_.instant.rider);
  std::vector<DimensionLine> below;
  if (const auto& rider = scene().rider_under_redirect) {
    const Box envelope = views::rider_box(scene().rig->frame, view, *rider);
    const Paper left{envelope.left, envelope.bottom}, middle{wheel.x_mm, envelope.bottom},
        right{envelope.right, envelope.bottom};
    below = {across(left, middle), across(middle, right)};
    Box level = drawn;
    level.bottom = envelope.bottom, level.top = envelope.top;
    std::optional<Paper> next_left, next_right;
    for (const views::StructureSeen& structure : shown_structures())
      for (const auto& piece : views::structure_outline(scene(), structure, view, Facing::section))
        for (const auto& part : clip(piece, level))
          for (const Paper p : part) {
            if (p.x_mm <= left.x_mm && (!next_left || p.x_mm > next_left->x_mm)) next_left = p;
            if (p.x_mm >= right.x_mm && (!next_right || p.x_mm < next_right->x_mm)) next_right = p;
          }
    if (next_left) below.push_back(across(*next_left, left));
    if (next_right) below.push_back(across(right, *next_right));
  }
  std::vector<Point3> aside;
  for (const views::AnchorSeen& anchor : scene().anchors)
    if (near(anchor.position)) aside.push_back(anchor.position);
  for (const auto& [name, at] : cables()) aside.push_back(at);
  constexpr double least_mm = 1;
  for (const Point3& at : aside)
    if (std::abs(view.of(at).x_mm - wheel.x_mm) >= least_mm) below.push_back(across(wheel, view.of(at)));
  dimension_rows(canvas, Measures::along, below, drawn.bottom, -1);
}

std::vector<Callout> SectionFigure::names(const View& view) const {
  const Rig& rig = *scene().rig;
  const Layout& layout = rig.layout;
  std::vector<Callout> all;
  const auto add = [&](std::vector<Paper> at, std::string text, double radius_mm = 0, Layer layer = Layer::text) {
    if (!at.empty()) all.push_back({std::move(at), std::move(text), layer, radius_mm});
  };
  add({view.of(passing_.instant.rider)}, "Main line", 0.6);
  for (const auto& [name, at] : cables()) add({view.of(at)}, name, 0.6);
  for (const auto* sheaves : {&scene().sheaves, &scene().rest->sheaves})
    for (const views::SheaveSeen& s : *sheaves)
      if (near(s.centre))
        add({view.of(s.centre)}, layout.sheaves[static_cast<std::size_t>(s.index)].id.value + " redirect",
            std::max(views::least_sheave_radius_mm, view.mm_per_m() * s.radius_m));
  for (const views::AnchorSeen& anchor : scene().anchors)
    if (near(anchor.position))
      add({view.of(anchor.position)}, "Anchor " + layout.anchors[static_cast<std::size_t>(anchor.index)].id.value,
          views::anchor_radius_mm);
  if (const auto& rider = scene().rider_under_redirect) {
    const Box b = views::rider_box(rig.frame, view, *rider);
    std::vector<Paper> targets;
    for (const double share : {0.3, 0.5, 0.15, 0.7, 0.85})
      for (const double x : {b.left, b.right}) targets.push_back({x, b.bottom + share * b.height()});
    for (const double share : {0.25, 0.75}) targets.push_back({b.left + share * b.width(), b.bottom});
    add(std::move(targets), "Rider passing redirect", 0, Layer::envelope);
  }
  if (layout.landing) {
    const double y = view.of(scene().at(*scene().section_m, 0, layout.landing->platform_level_m)).y_mm;
    add({{view.at.x_mm + 6, y}, {view.at.x_mm - 6, y}, {view.at.x_mm + 14, y}},
        fmt::format("Landing platform,\n{} {}", layout.site.axes[2],
                    views::figure(layout.landing->platform_level_m, *style_)));
  }
  for (const views::StructureSeen& structure : shown_structures()) {
    std::vector<Paper> targets;
    for (const auto& piece : views::structure_outline(scene(), structure, view, Facing::section))
      for (std::size_t i = 1; i < piece.size(); ++i)
        for (const double share : {0.5, 0.25, 0.75})
          targets.push_back(piece[i - 1] + share * (piece[i] - piece[i - 1]));
    add(std::move(targets), layout.structures[static_cast<std::size_t>(structure.index)].id.value);
  }
  for (const views::MemberSeen& member : scene().members) {
    std::vector<Paper> targets;
    for (const double share : {0.5, 0.4, 0.3, 0.2, 0.1, 0.05, 0.6, 0.8})
      if (const Point3 p = member.seen_to(share); near(p)) targets.push_back(view.of(p));
    add(std::move(targets), views::member_name(layout, member));
  }
  return all;
}

}  // namespace fairlead::sheets
