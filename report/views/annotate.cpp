// The words and figures of the two views.
#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/dimension.hpp"
#include "report/views/arrest.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

/// A length on the drawing: metres without unit, as its notes say, or feet and inches.
std::string figure(double metres, const Style& style) {
  if (words::one_of(style) == Units::us) return words::shown(metres, Dimension::length, {Units::us});
  return fmt::format("{:.3f}", metres);
}

std::string force(double newtons, const Style& style) { return words::shown(newtons, Dimension::force, style); }

/// Points of a curve from a share of its length to another, the middle first: where a leader may end.
std::vector<Paper> along(const View& view, const Curve3& curve, double from, double to) {
  std::vector<Paper> targets;
  if (curve.empty()) return targets;
  const double middle = (from + to) / 2;
  for (double off : {0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0}) {
    const double share = middle + off * (to - from) / 2;
    targets.push_back(
        view.of(curve[static_cast<std::size_t>(std::lround(share * static_cast<double>(curve.size() - 1)))]));
  }
  return targets;
}

class Namer {
 public:
  Namer(const Scene& scene, const View& view, Facing facing, const Style& style)
      : scene_(scene),
        layout_(scene.rig->layout),
        frame_(scene.rig->frame),
        view_(view),
        facing_(facing),
        style_(style) {}

  std::vector<Callout> all() {
    lines();
    marks();
    sheaves();
    unit_and_anchors();
    riders();
    return std::move(out_);
  }

 private:
  bool elevation() const { return facing_ == Facing::elevation; }

  void add(std::vector<Paper> targets, std::string text, Layer layer = Layer::text, double radius_mm = 0) {
    if (targets.empty()) return;
    out_.push_back({std::move(targets), std::move(text), layer, true, radius_mm});
  }

  void lines() {
    if (!scene_.rest) return;
    const auto& braking = layout_.lines[static_cast<std::size_t>(scene_.rig->braking_line)];
    add(along(view_, scene_.rest->main_line, 0.1, 0.95),
        fmt::format("Main line Ø{:g}", 1000 * layout_.main_line.diameter_m));
    const std::string line = fmt::format("{} braking line Ø{:g}", braking.id.value, 1000 * braking.diameter_m);
    if (!elevation()) return add(along(view_, scene_.rest->line.back(), 0.2, 0.8), line);
    add(along(view_, scene_.rest->line.back(), 0.2, 0.8),
        fmt::format("{}, at rest\nsag {}", line, figure(scene_.rest->greatest_sag_m, style_)));
    if (!scene_.full) return;
    add(along(view_, scene_.full->line.back(), 0.3, 0.9),
        fmt::format("Braking line at full travel,\n{} at the unit: predicted, untested",
                    force(scene_.full->outlet_tension_N, style_)));
    // Downstream of the full travel the loaded line runs steep and free of the empty one.
    add(along(view_, scene_.full->main_line, 0.05, 0.5), "Main line with the heaviest rider\nat full travel");
  }

  double level(const Point3& p) const { return p.z - layout_.landing->platform_level_m; }

  void marks() {
    const double rest = layout_.brake_trolley.rest_m, travel = layout_.brake_trolley.travel_m;
    if (scene_.rest) {
      std::string text = fmt::format("Brake trolley at rest mark CH {}", figure(rest, style_));
      if (elevation() && layout_.landing)
        text += fmt::format("\nmain line {} above platform", figure(level(scene_.rest->trolley.wheel), style_));
      add({view_.of(scene_.rest->trolley.wheel)}, text, Layer::text, trolley_mm / 2 + 0.4);
    }
    if (scene_.full && elevation())
      add({view_.of(scene_.full->trolley.wheel)},
          fmt::format("Brake trolley at full travel {},\nheaviest rider", figure(travel, style_)), Layer::text,
          trolley_mm / 2 + 0.4);
    if (layout_.backup_brake && scene_.rest)
      if (const auto at = scene_.on_main_line(*scene_.rest, layout_.backup_brake->engages_m))
        add({view_.of(*at) + Paper{0, 2.4}, view_.of(*at) - Paper{0, 2.4}},
            elevation() ? fmt::format("Backup brake engages CH {}", figure(layout_.backup_brake->engages_m, style_))
                        : "Backup brake");
    if (!layout_.landing) return;
    const Landing& landing = *layout_.landing;
    const auto deck = [&](double share) {
      const double chainage = landing.platform_from_m + share * (landing.platform_to_m - landing.platform_from_m);
      const double half = elevation() ? 0 : 1;
      return view_.of(scene_.at(chainage, half, landing.platform_level_m));
    };
    if (elevation())
      add({deck(0.6), deck(0.75), deck(0.45), deck(0.9), deck(0.3)},
          fmt::format("Landing platform, {} {}", layout_.site.axes[2], figure(landing.platform_level_m, style_)));
    else
      add({deck(0), deck(1)}, "Platform edge");
  }

  void sheaves() {
    for (const SheaveSeen& seen : scene_.sheaves) {
      const Sheave& sheave = layout_.sheaves[static_cast<std::size_t>(seen.index)];
      std::string text = fmt::format("{} redirect Ø{:g}", sheave.id.value, 1000 * sheave.pitch_diameter_m);
      const double radius = std::max(view_.mm_per_m() * seen.radius_m, least_sheave_radius_mm);
      if (elevation() && scene_.rest) {
        const double upstream = layout_.brake_trolley.rest_m - frame_.chainage_m(seen.centre);
        const double above = seen.centre.z - scene_.rest->trolley.wheel.z;
        text += fmt::format("\n{} {} and {} {} the rest mark", figure(std::abs(upstream), style_),
                            upstream >= 0 ? "upstream of" : "downstream of", figure(std::abs(above), style_),
                            above >= 0 ? "above" : "below");
      }
      add({view_.of(seen.centre)}, text, Layer::text, radius);
    }
  }

  void unit_and_anchors() {
    const Vec3 axis = unit(layout_.brake_unit.axis);
    const Paper outlet = view_.of(layout_.brake_unit.outlet);
    const Paper out{fairlead::dot(axis, view_.right), fairlead::dot(axis, view_.up)};
    const double seen = length(out);
    const Paper middle = outlet + (seen > 0.1 ? (-4 / seen) * out : Paper{4, 0});
    add({middle}, elevation() ? "Brake unit, outlet facing upstream" : "Brake unit", Layer::text, 2.2);
    for (const AnchorSeen& a : scene_.anchors) {
      const std::string& id = layout_.anchors[static_cast<std::size_t>(a.index)].id.value;
      const double newtons = norm(a.governing_N);
      const Paper at = view_.of(a.position);
      if (!elevation() || !(newtons > 0)) {
        add({at}, "Anchor " + id, Layer::text, anchor_radius_mm);
        continue;
      }
      const Vec3 u = unit(a.governing_N);
      const Paper tip = at + force_arrow_mm * Paper{fairlead::dot(u, view_.right), fairlead::dot(u, view_.up)};
      add({at}, "Anchor " + id, Layer::text, anchor_radius_mm);
      add({0.5 * (at + tip), tip, at}, fmt::format("{}: {}", id, force(newtons, style_)), Layer::loads);
    }
  }

  void riders() {
    const auto rider = [&](const std::optional<RiderSeen>& seen, const std::string& text) {
      if (!seen) return;
      const Box b = rider_box(view_, *seen);
      add({{b.left, b.bottom + 0.25 * b.height()},
           {b.left, b.bottom + 0.6 * b.height()},
           {b.right, b.bottom + 0.25 * b.height()},
           {b.left + 0.3 * b.width(), b.bottom},
           {b.right - 0.3 * b.width(), b.bottom},
           {b.left + 0.3 * b.width(), b.top}},
          text, Layer::envelope);
    };
    const bool words = elevation();
    rider(scene_.rider_under_redirect,
          words ? "Rider envelope passing the redirect\n(lightest rider)" : "Rider passing redirect");
    rider(scene_.rider_at_contact, words ? "Rider envelope at contact\n(heaviest rider)" : "Rider at contact");
  }

  const Scene& scene_;
  const Layout& layout_;
  const Frame& frame_;
  const View& view_;
  Facing facing_;
  const Style& style_;
  std::vector<Callout> out_;
};

}  // namespace

std::vector<Callout> callouts(const Scene& scene, const View& view, Facing facing, const Style& style) {
  return Namer(scene, view, facing, style).all();
}

Reach draw_elevation_dimensions(const Canvas& canvas, const Scene& scene, const View& view, const Box& drawn,
                                const Style& style) {
  const Layout& layout = scene.rig->layout;
  const Frame& frame = scene.rig->frame;
  Reach reach{drawn.top, drawn.bottom};
  const Paper outlet = view.of(layout.brake_unit.outlet);
  const auto distance = [&](Paper a, Paper b) { return figure(std::abs(b.x_mm - a.x_mm) / view.mm_per_m(), style); };

  std::vector<DimensionLine> above;
  const auto chain = [&](Paper a, Paper b, const std::string& what) {
    above.push_back({a, b, what.empty() ? distance(a, b) : what + " " + distance(a, b)});
  };
  if (scene.rest) {
    const Paper rest = view.of(scene.rest->trolley.wheel) + Paper{0, 1.5};
    const auto on_line = [&](double chainage) {
      const auto p = scene.on_main_line(*scene.rest, chainage);
      return p ? view.of(*p) : rest;
    };
    const Paper full = on_line(layout.brake_trolley.rest_m + layout.brake_trolley.travel_m);
    for (const SheaveSeen& s : scene.sheaves) {
      chain(view.of(s.centre), rest, "");
      chain(view.of(s.centre), outlet, "");
    }
    chain(rest, full, "travel");
    if (layout.backup_brake) chain(full, on_line(layout.backup_brake->engages_m), "");
  }
  reach.top = dimension_rows(canvas, Measures::along, above, drawn.top - first_row_mm / 2, 1);

  if (!layout.landing) return reach;
  const Landing& landing = *layout.landing;
  const auto deck = [&](double chainage) { return view.of(scene.at(chainage, 0, landing.platform_level_m)); };
  std::vector<DimensionLine> below;
  if (landing.earliest_rest_m && landing.latest_rest_m) {
    const Paper a = deck(*landing.earliest_rest_m), b = deck(*landing.latest_rest_m);
    below.push_back({a, b, "pick-up window " + distance(a, b)});
  }
  const Paper edge = deck(landing.platform_from_m), far = deck(landing.platform_to_m);
  below.push_back({edge, far, "platform " + distance(edge, far)});
  reach.bottom = dimension_rows(canvas, Measures::along, below, drawn.bottom, -1);

  // The platform's level runs on as a thin line to both sides, for the heights that stand on it.
  const Pen datum{hair_mm, LineType::dash_dot, Layer::structure};
  canvas.line({{drawn.left, edge.y_mm}, edge}, datum);
  canvas.line({far, {drawn.right, far.y_mm}}, datum);
  const auto height = [&](Paper at, double edge_mm, int side) {
    const double off_mm = edge_mm + side * first_row_mm;
    dimension_rows(canvas, Measures::up,
                   {{{off_mm, edge.y_mm}, at, figure((at.y_mm - edge.y_mm) / view.mm_per_m(), style)}}, edge_mm, side);
  };
  if (!scene.sheaves.empty()) {
    const double first = view.of(scene.at(frame.chainage_m(scene.sheaves.front().centre), 0, 0)).x_mm;
    height(view.of(scene.sheaves.front().centre), std::min(first, drawn.left + first_row_mm), -1);
  }
  height(outlet, outlet.x_mm + unit_length_mm, 1);
  return reach;
}

}  // namespace fairlead::views
