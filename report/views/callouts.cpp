// What the views name, and in how many words.
#include <fmt/format.h>

#include <algorithm>

#include "report/views/detail.hpp"
#include "report/views/figures.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::views {

using namespace drawing;

std::string figure(double metres, const Style& style) {
  if (words::one_of(style) == Units::us) return words::shown(metres, Dimension::length, {Units::us});
  return fmt::format("{:.3f}", metres);
}

namespace {

std::string force(double newtons, const Style& style) { return words::shown(newtons, Dimension::force, style); }
/// A diameter behind its sign: millimetres without unit, or inches.
std::string diameter(double metres, const Style& style) {
  if (words::one_of(style) == Units::us) return fmt::format("Ø{:.3g} in", metres / 0.0254);
  return fmt::format("Ø{:g}", 1000 * metres);
}

/// Points of a curve from a share of its length to another, the middle first: where a leader may end.
std::vector<Paper> along(const View& view, const Curve3& curve, double from, double to) {
  constexpr int to_each_side = 10;
  std::vector<Paper> targets;
  if (curve.empty()) return targets;
  for (int i = 0; i <= to_each_side; ++i)
    for (int side : {1, -1}) {
      const double share = (from + to) / 2 + side * (to - from) / 2 * i / to_each_side;
      const auto index = static_cast<std::size_t>(std::lround(share * static_cast<double>(curve.size() - 1)));
      if (i > 0 || side > 0) targets.push_back(view.of(curve[index]));
    }
  return targets;
}

const std::string& id_of(const Layout& layout, const AnchorSeen& anchor) {
  return layout.anchors[static_cast<std::size_t>(anchor.index)].id.value;
}
std::string anchor_words(const Layout& layout, const AnchorSeen& anchor, const Style& style) {
  const double newtons = norm(anchor.governing_N);
  return "Anchor " + id_of(layout, anchor) + (newtons > 0 ? "\nload " + force(newtons, style) : "");
}

class Namer {
 public:
  Namer(const Scene& scene, const View& view, Facing facing, Naming naming, const Style& style)
      : scene_(scene),
        layout_(scene.rig->layout),
        view_(view),
        elevation_(facing == Facing::elevation),
        full_(naming == Naming::full && elevation_),
        detail_(naming == Naming::brief && elevation_ ? redirect_window(scene) : std::nullopt),
        style_(style) {}

  std::vector<Callout> all() {
    lines();
    trolleys();
    marks();
    sheaves();
    unit_and_anchors();
    riders();
    return std::move(out_);
  }

 private:
  void add(std::vector<Paper> targets, std::string text, Layer layer = Layer::text, double radius_mm = 0) {
    if (!targets.empty()) out_.push_back({std::move(targets), std::move(text), layer, radius_mm});
  }
  std::string up(double metres) const { return figure(metres, style_); }
  /// The detail names it, larger and with more room.
  bool in_detail(Point3 p) const {
    const double chainage = scene_.rig->frame.chainage_m(p);
    return detail_ && chainage >= detail_->from_m && chainage <= detail_->to_m && p.z >= detail_->low_m &&
           p.z <= detail_->high_m;
  }

  void lines() {
    if (!scene_.rest) return;
    // In plan the braking line lies on the main line from the redirect to the unit; beyond it the main line is alone.
    add(along(view_, scene_.rest->main_line, elevation_ ? 0.1 : 0.87, elevation_ ? 0.85 : 0.97),
        fmt::format("Main line {}", diameter(layout_.main_line.diameter_m, style_)));
    if (scene_.rest->line.empty())
      return add({view_.of(layout_.brake_unit.outlet)}, "Braking line not drawn: see notes", Layer::cautions);
    const auto& braking = layout_.lines[static_cast<std::size_t>(scene_.rig->braking_line)];
    std::string line = fmt::format("{} braking line {}", braking.id.value, diameter(braking.diameter_m, style_));
    if (elevation_) line += fmt::format("\nat rest, sag {}", up(scene_.rest->greatest_sag_m));
    add(along(view_, scene_.rest->line.back(), 0.2, 0.8), line);
    if (!scene_.full || !elevation_) return;
    add(along(view_, scene_.full->line.back(), 0.3, 0.9),
        fmt::format("Braking line at full travel, {}\nat the unit: predicted, untested",
                    force(scene_.full->outlet_tension_N, style_)));
    add(along(view_, scene_.full->main_line, 0.6, 0.9), "Main line, rider at full travel");
  }

  void trolleys() {
    const double reach = trolley_mm / 2 + 0.4;
    if (scene_.rest) {
      std::string text = "Brake trolley at rest mark";
      if (elevation_) text += ", CH " + up(layout_.brake_trolley.rest_m);
      if (full_ && layout_.landing)
        text += fmt::format("\nmain line {} above platform",
                            up(scene_.rest->trolley.wheel.z - layout_.landing->platform_level_m));
      add({view_.of(scene_.rest->trolley.wheel)}, text, Layer::text, reach);
    }
    if (scene_.full && elevation_)
      add({view_.of(scene_.full->trolley.wheel)}, "Brake trolley at full travel,\nheaviest rider", Layer::text, reach);
  }

  void marks() {
    if (layout_.backup_brake && scene_.rest)
      if (const auto at = scene_.on_main_line(*scene_.rest, layout_.backup_brake->engages_m))
        add({view_.of(*at) + Paper{0, 2.4}, view_.of(*at) - Paper{0, 2.4}},
            elevation_ ? "Backup brake engages, CH " + up(layout_.backup_brake->engages_m) : "Backup brake");
    if (!layout_.landing) return;
    const Landing& landing = *layout_.landing;
    const auto deck = [&](double share) {
      const double chainage = landing.platform_from_m + share * (landing.platform_to_m - landing.platform_from_m);
      return view_.of(scene_.at(chainage, elevation_ ? 0 : 1, landing.platform_level_m));
    };
    if (elevation_)
      add({deck(0.6), deck(0.75), deck(0.45), deck(0.9), deck(0.3)},
          fmt::format("Landing platform, {} {}", layout_.site.axes[2], up(landing.platform_level_m)));
    else
      add({deck(0), deck(1)}, "Platform edge");
  }

  void sheaves() {
    for (const SheaveSeen& seen : scene_.sheaves) {
      if (in_detail(seen.centre)) continue;
      const Sheave& sheave = layout_.sheaves[static_cast<std::size_t>(seen.index)];
      std::string text = sheave.id.value + " redirect";
      if (full_) text += fmt::format(" {}", diameter(sheave.pitch_diameter_m, style_));
      if (full_ && scene_.rest) {
        const double upstream = layout_.brake_trolley.rest_m - scene_.rig->frame.chainage_m(seen.centre);
        const double above = seen.centre.z - scene_.rest->trolley.wheel.z;
        text += fmt::format("\n{} {} and {} {} the rest mark", up(std::abs(upstream)),
                            upstream >= 0 ? "upstream of" : "downstream of", up(std::abs(above)),
                            above >= 0 ? "above" : "below");
      }
      const double radius = std::max(view_.mm_per_m() * seen.radius_m, least_sheave_radius_mm);
      add({view_.of(seen.centre)}, text, Layer::text, radius);
    }
  }

  void unit_and_anchors() {
    const Vec3 axis = unit(layout_.brake_unit.axis);
    const Paper outlet = view_.of(layout_.brake_unit.outlet);
    const Paper out{fairlead::dot(axis, view_.right), fairlead::dot(axis, view_.up)};
    const double seen = length(out);
    add({outlet + (seen > 0.1 ? (-4 / seen) * out : Paper{4, 0})}, "Brake unit", Layer::text, 2.2);
    for (const AnchorSeen& a : scene_.anchors) {
      if (in_detail(a.position)) continue;
      const Paper at = view_.of(a.position);
      add({at}, elevation_ ? anchor_words(layout_, a, style_) : "Anchor " + id_of(layout_, a), Layer::text,
          anchor_radius_mm);
    }
  }

  void riders() {
    const auto rider = [&](const std::optional<RiderSeen>& seen, const std::string& text) {
      if (!seen) return;
      const Box b = rider_box(view_, *seen);
      add({{b.left + 0.3 * b.width(), b.bottom},
           {b.left, b.bottom + 0.25 * b.height()},
           {b.right - 0.3 * b.width(), b.bottom},
           {b.left, b.bottom + 0.6 * b.height()},
           {b.right, b.bottom + 0.25 * b.height()},
           {b.left + 0.3 * b.width(), b.top}},
          text, Layer::envelope);
    };
    rider(scene_.rider_under_redirect, elevation_ ? "Rider passing redirect,\nlightest" : "Rider passing redirect");
    rider(scene_.rider_at_contact, elevation_ ? "Rider at contact,\nheaviest" : "Rider at contact");
  }

  const Scene& scene_;
  const Layout& layout_;
  const View& view_;
  bool elevation_, full_;
  std::optional<DetailWindow> detail_;
  const Style& style_;
  std::vector<Callout> out_;
};

}  // namespace

std::vector<Callout> callouts(const Scene& scene, const View& view, Facing facing, Naming naming, const Style& style) {
  return Namer(scene, view, facing, naming, style).all();
}

std::vector<Callout> detail_callouts(const Scene& scene, const View& view, const SheaveSeen& redirect, const Box& frame,
                                     const Style& style) {
  const Layout& layout = scene.rig->layout;
  const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(redirect.index)];
  std::vector<Callout> out;
  out.push_back({{view.of(redirect.centre)},
                 fmt::format("{} redirect {}", sheave.id.value, diameter(sheave.pitch_diameter_m, style)),
                 Layer::text,
                 std::max(view.mm_per_m() * redirect.radius_m, least_sheave_radius_mm)});
  for (const AnchorSeen& anchor : scene.anchors)
    out.push_back({{view.of(anchor.position)}, anchor_words(layout, anchor, style), Layer::text, anchor_radius_mm});
  std::string mark = "Rest mark CH " + figure(layout.brake_trolley.rest_m, style);
  if (layout.landing)
    mark += fmt::format("\n{} above platform",
                        figure(scene.rest->trolley.wheel.z - layout.landing->platform_level_m, style));
  out.push_back({{view.of(scene.rest->trolley.wheel)}, mark, Layer::text, trolley_mm / 2 + 0.4});
  if (!scene.rest->line.empty()) {
    out.push_back({along(view, scene.rest->line.back(), 0, 1), "to the unit", Layer::braking_line});
    out.push_back({along(view, scene.rest->line.front(), 0.2, 0.9), "to the trolley", Layer::braking_line});
  }
  if (scene.full)
    out.push_back({along(view, scene.full->line.front(), 0, 1), "to the trolley at full travel", Layer::braking_line});
  out.push_back({along(view, scene.rest->main_line, 0, 1),
                 fmt::format("Main line {}", diameter(layout.main_line.diameter_m, style))});
  for (Callout& c : out) std::erase_if(c.targets, [&](Paper target) { return !frame.contains(target); });
  std::erase_if(out, [](const Callout& c) { return c.targets.empty(); });
  return out;
}

}  // namespace fairlead::views
