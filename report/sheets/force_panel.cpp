#include "report/sheets/force_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/plot.hpp"
#include "report/drawing/symbols.hpp"
#include "report/sheets/blocks.hpp"
#include "report/tables/parts.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double inset_mm = 2, head_mm = 14, foot_mm = 16, longest_mm = 27;
constexpr Pen rule{narrow_mm, LineType::continuous, Layer::tables}, axis{hair_mm, LineType::dash_dot, Layer::loads},
    component{narrow_mm, LineType::dashed, Layer::loads}, vector_pen{wide_mm, LineType::continuous, Layer::loads};

std::string force_words(double newtons, const Style& style) {
  return with_minus(words::shown(newtons, Dimension::force, style));
}

/// Newtons per 10 mm of arrow: round in the style's own unit of force.
struct ForceScale {
  double per_10mm{};
  std::string says;
};
ForceScale force_scale(double newtons, const Style& style) {
  const bool us = words::one_of(style) == Units::us;
  const double unit = us ? 4.4482216152605 : 1000;
  const double figure = round_up(newtons / unit * 10 / longest_mm);
  return {figure * unit, fmt::format("10 mm = {:g} {}", figure, us ? "lbf" : "kN")};
}

/// A direction of the rig that a force is told along, and whether it runs left on paper.
struct Told {
  std::string_view name;
  Vec3 direction;
  bool to_the_left = false;
};

/// The force in one view: arrow, its two components and their figures.
class Diagram {
 public:
  Diagram(const Canvas& canvas, std::string name, Told level, Told upright, Vec3 force, double mm_per_N,
          const Style& style)
      : canvas_(canvas), level_(level), upright_(upright), force_(force), style_(style) {
    view_.name = std::move(name);
    view_.right = level.to_the_left ? -level.direction : level.direction;
    view_.up = upright.direction;
    view_.scale = 1000 / mm_per_N;
  }

  void draw(const Box& box, std::string_view title) {
    const Box free{box.left, box.bottom + 2 * row_mm, box.right, box.top - row_mm};
    const Paper along = view_.of(force_);
    const Paper origin = free.centre() - 0.5 * along;
    view_.at = origin;
    canvas_.drawing().views.push_back(view_);
    canvas_.text({box.left, box.top - small_cap_mm}, std::string(title), small_cap_mm, Layer::loads);
    cross(origin, origin + along, free);
    const Paper corner = origin + Paper{along.x_mm, 0};
    constexpr double drawn_mm = 1.5;  // a shorter component is not told from the arrow
    if (std::abs(along.x_mm) > drawn_mm && std::abs(along.y_mm) > drawn_mm) {
      canvas_.line({origin, corner}, component);
      canvas_.line({corner, origin + along}, component);
    }
    if (length(along) > drawn_mm) arrow(canvas_, origin, origin + along, vector_pen);
    views::draw_anchor(canvas_, origin + along);
    double y = free.bottom - row_mm + 1;
    for (const Told& told : {level_, upright_}) {
      canvas_.text(
          {box.left, y},
          fmt::format("{} {}", told.name, force_words(fairlead::dot(force_, told.direction), words::single(style_))),
          small_cap_mm, Layer::text);
      y -= row_mm;
    }
  }

 private:
  static constexpr double row_mm = 3;
  /// Axes through the anchor, along all of the arrow.
  void cross(Paper from, Paper at, const Box& box) const {
    constexpr double beyond_mm = 5;
    const auto [left, right] = std::minmax(from.x_mm, at.x_mm);
    const auto [low, high] = std::minmax(from.y_mm, at.y_mm);
    canvas_.line({{std::max(box.left, left - beyond_mm), at.y_mm}, {std::min(box.right, right + beyond_mm), at.y_mm}},
                 axis);
    canvas_.line({{at.x_mm, std::max(box.bottom, low - beyond_mm)}, {at.x_mm, std::min(box.top, high + beyond_mm)}},
                 axis);
  }

  const Canvas& canvas_;
  Told level_, upright_;
  Vec3 force_;
  const Style& style_;
  View view_;
};

/// A bar as long as the share of the capacity that is taken; a line marks what the layout allows. Of an anchor that its
/// members hold: of the worst of them.
void utilisation_bar(const Canvas& canvas, const Box& box, const Dossier& dossier, std::size_t anchor,
                     const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  const bool by_members = tables::rated_by_members(layout, anchor);
  const Finding* finding = by_members ? tables::worst_member(dossier, anchor) : utilisation_of(dossier, anchor);
  const std::string of =
      by_members && finding ? fmt::format("rated by its members: {} ", words::id_of(layout, finding->subject)) : "";
  const auto capacity = capacity_of(finding);
  if (!finding || !finding->measured || !capacity) {
    const std::string_view outcome = finding && by_members ? words::word_for(words::outcome_of(*finding)) : "";
    canvas.text({box.left, box.bottom + 1},
                by_members && finding ? fmt::format("{}{}", of, outcome) : "utilisation not judged", small_cap_mm,
                Layer::cautions);
    return;
  }
  const bool adverse = words::outcome_of(*finding) == words::Outcome::fail;
  canvas.text({box.left, box.top - small_cap_mm},
              fmt::format("{}{} of {}: {}", of, words::shown(finding->value, Dimension::ratio, style),
                          words::shown(*capacity, style), words::word_for(words::outcome_of(*finding))),
              small_cap_mm, adverse ? Layer::cautions : Layer::tables);
  const double greatest = std::max(1.2, 1.1 * finding->value);
  const auto x = [&](double share) { return box.left + share / greatest * box.width(); };
  const Box bar{box.left, box.bottom, x(finding->value), box.bottom + 2.2};
  canvas.box({box.left, box.bottom, box.right, box.bottom + 2.2}, {hair_mm, LineType::continuous, Layer::tables});
  canvas.area(Canvas::corners(bar), adverse ? Layer::cautions : Layer::tables);
  const double allowed = finding->limit ? finding->limit->at.value : 1;
  canvas.line({{x(allowed), box.bottom - 0.8}, {x(allowed), box.bottom + 3}},
              {medium_mm, LineType::continuous, Layer::tables});
}

}  // namespace

const Finding* utilisation_of(const Dossier& dossier, std::size_t anchor) {
  const Item item{Item::Kind::anchor, static_cast<int>(anchor)};
  for (const Finding& f : dossier.judged.findings)
    if (f.check->name == "anchor-utilisation" && f.subject == item) return &f;
  return nullptr;
}

std::optional<Quantity> capacity_of(const Finding* finding) {
  if (!finding) return std::nullopt;
  for (const Fact& fact : finding->facts)
    if (const auto* quantity = std::get_if<Quantity>(&fact.value); quantity && fact.name == "capacity")
      return *quantity;
  return std::nullopt;
}

void draw_force_panel(const Canvas& canvas, const Box& box, const Dossier& dossier, std::size_t anchor,
                      const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Box inside = box.grown(-inset_mm);
  canvas.box(box, rule);
  canvas.text({inside.left, inside.top - heading_cap_mm}, "Anchor " + rig.layout.anchors[anchor].id.value,
              heading_cap_mm, Layer::text);
  const loads::Loads& loads = *rig.loads.solved();
  const Extreme& demand = loads.demands[anchor].force_N;
  if (demand.pose < 0) {
    canvas.text({inside.left, inside.centre().y_mm}, "carries no load of this rig", note_cap_mm, Layer::notes);
    return;
  }
  canvas.text({inside.right, inside.top - heading_cap_mm}, force_words(demand.value, style), heading_cap_mm,
              Layer::loads, Align::right);
  const loads::LoadCase& governing = loads.cases[static_cast<std::size_t>(demand.pose)];
  const auto lines = canvas.wrap(with_minus(tables::case_name(governing, style)), small_cap_mm, inside.width());
  for (std::size_t i = 0; i < lines.size() && i < 2; ++i)
    canvas.lettering({inside.left, inside.top - heading_cap_mm - 3.6 - 2.8 * static_cast<double>(i)}, lines[i],
                     small_cap_mm, Layer::text);

  const Vec3 force = governing.on_anchor_N[anchor];
  const ForceScale scale = force_scale(norm(force), style);
  const double bottom = inside.bottom + foot_mm, top = inside.top - head_mm;
  const std::string& id = rig.layout.anchors[anchor].id.value;
  const Told along{"along", rig.frame.along}, across{"across", rig.frame.across}, up{"up", rig.frame.up},
      leftward{"across", rig.frame.across, true};
  constexpr double between_mm = 2;
  const double each_mm = (inside.width() - 2 * between_mm) / 3;
  double left = inside.left;
  const auto view = [&](std::string_view facing, std::string_view title, const Told& level, const Told& upright) {
    Diagram(canvas, fmt::format("force on {}, {}", id, facing), level, upright, force, 10 / scale.per_10mm, style)
        .draw({left, bottom, left + each_mm, top}, title);
    left += each_mm + between_mm;
  };
  view("elevation", "ELEVATION", along, up);
  view("plan", "PLAN", along, across);
  view("section", "FROM UPSTREAM", leftward, up);
  const Paper bar{inside.left, inside.bottom + 10.5};
  canvas.line({bar, bar + Paper{10, 0}}, {wide_mm, LineType::continuous, Layer::loads});
  for (double x : {0.0, 10.0})
    canvas.line({bar + Paper{x, -0.8}, bar + Paper{x, 0.8}}, {narrow_mm, LineType::continuous, Layer::loads});
  canvas.text(bar + Paper{12, -0.9}, "force scale " + scale.says, small_cap_mm, Layer::loads);
  utilisation_bar(canvas, {inside.left, inside.bottom + 1, inside.right, inside.bottom + 6.6}, dossier, anchor, style);
}

}  // namespace fairlead::sheets
