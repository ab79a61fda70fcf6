// What the views name, and in how many words.
#include <fmt/format.h>

#include <algorithm>

#include "report/views/detail.hpp"
#include "report/views/figures.hpp"
#include "report/views/parts.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::views {

using namespace drawing;

std::string figure(double metres, const Style& style) {
  if (words::in_tenths({metres, Dimension::length}, style)) return fmt::format("{:.2f}", metres / words::foot_m);
  if (words::one_of(style) == Units::us) return words::shown(metres, Dimension::length, words::single(style));
  return fmt::format("{:.3f}", metres);
}

namespace {

std::string force(double newtons, const Style& style) { return words::shown(newtons, Dimension::force, style); }
/// A diameter behind its sign: millimetres without unit, or inches.
std::string diameter(double metres, const Style& style) {
  if (words::one_of(style) == Units::us) return fmt::format("Ø{:.3g} in", metres / 0.0254);
  return fmt::format("Ø{:g}", 1000 * metres);
}

/// The leg there is most room beside.
const Curve3& longest(const LineSeen& line) {
  return *std::max_element(line.legs.begin(), line.legs.end(), [](const Curve3& a, const Curve3& b) {
    return norm(a.back() - a.front()) < norm(b.back() - b.front());
  });
}

double block_radius_mm(const View& view, const BlockSeen& block) {
  constexpr double symbol_mm = 1.9;
  std::vector<Paper> corners;
  for (const Point3& p : block.body) corners.push_back(view.of(p));
  return corners.empty() ? symbol_mm : std::max(symbol_mm, bounds(corners).height() / 2);
}

double sheave_radius_mm(const View& view, const SheaveSeen& sheave) {
  return std::max(view.mm_per_m() * sheave.radius_m, least_sheave_radius_mm);
}

/// Points along a member, its middle first; none where the view looks along it.
std::vector<Paper> on_member(const View& view, const MemberSeen& member, Facing facing) {
  constexpr double least_mm = 3;
  const Vec3 whole = seen_end(member, facing) - member.from;
  if (!(length(view.of(whole)) >= least_mm)) return {};
  std::vector<Paper> targets;
  for (const double share : {0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.9})
    targets.push_back(view.of(member.from + share * whole));
  return targets;
}

const std::string& id_of(const Layout& layout, const AnchorSeen& anchor) {
  return layout.anchors[static_cast<std::size_t>(anchor.index)].id.value;
}
std::string anchor_words(const Layout& layout, const AnchorSeen& anchor, const Style& style) {
  const double newtons = norm(anchor.governing_N);
  return "Anchor " + id_of(layout, anchor) + (newtons > 0 ? "\nload " + force(newtons, style) : "");
}

}  // namespace

std::string member_name(const Layout& layout, const MemberSeen& member) {
  std::string name = words::member_words(layout, member.index);
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name;
}

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

std::string line_words(const Scene& scene, const LineSeen& line, const Style& style) {
  const Layout& layout = scene.rig->layout;
  const Item item = scene.rig->lines[static_cast<std::size_t>(line.line)];
  const auto index = static_cast<std::size_t>(item.index);
  if (item.kind == Item::Kind::support_line) {
    const SupportLine& support = layout.support_lines[index];
    return fmt::format("{} support line {}", support.id.value, diameter(support.diameter_m, style));
  }
  const Line& given = layout.lines[index];
  return fmt::format("{} {} line {}", given.id.value, line.role == Role::braking ? "braking" : "reduction",
                     diameter(given.diameter_m, style));
}

std::string ghost_words(const Scene& scene, const SheaveSeen& ghost, const Style& style) {
  const auto at_rest = std::find_if(scene.sheaves.begin(), scene.sheaves.end(),
                                    [&](const SheaveSeen& s) { return s.index == ghost.index; });
  const std::string& id = scene.rig->layout.sheaves[static_cast<std::size_t>(ghost.index)].id.value;
  if (at_rest == scene.sheaves.end()) return id + " at full travel";
  return fmt::format("{} at full travel,\n{} from its place at rest", id,
                     figure(norm(ghost.centre - at_rest->centre), style));
}

std::string line_id(const Scene& scene, int line) {
  return words::id_of(scene.rig->layout, scene.rig->lines[static_cast<std::size_t>(line)]);
}

namespace {

class Namer {
 public:
  Namer(const Scene& scene, const View& view, Facing facing, Naming naming, const Style& style)
      : scene_(scene),
        layout_(scene.rig->layout),
        view_(view),
        facing_(facing),
        elevation_(facing == Facing::elevation),
        full_(naming == Naming::full && elevation_),
        detail_(naming == Naming::brief && elevation_ ? redirect_window(scene) : std::nullopt),
        style_(style) {}

  std::vector<Callout> all() {
    lines();
    blocks();
    structures();
    trolleys();
    marks();
    sheaves();
    ghosts();
    members();
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
    const bool plan = facing_ == Facing::plan;
    add(along(view_, scene_.rest->main_line, plan ? 0.87 : 0.1, plan ? 0.97 : 0.85),
        fmt::format("Main line {}", diameter(layout_.main_line.diameter_m, style_)));
    for (const CableSeen& cable : scene_.cables)
      add(along(view_, cable.curve, 0.2, 0.8), fmt::format("{} {}", cable.name, diameter(cable.diameter_m, style_)));
    if (scene_.rest->lines.empty())
      return add({view_.of(layout_.brake_unit.outlet)}, "Lines not drawn: see notes", Layer::cautions);
    for (const LineSeen& line : scene_.rest->lines) {
      // Reduction and support line run along the braking line and the main line in plan: the elevation names them.
      if (facing_ == Facing::plan && line.role != Role::braking) continue;
      std::string text = line_words(scene_, line, style_);
      if (elevation_ && line.role == Role::braking) text += fmt::format("\nat rest, sag {}", up(line.greatest_sag_m));
      add(along(view_, longest(line), 0.2, 0.8), text);
    }
    if (!scene_.full || !elevation_) return;
    if (const LineSeen* braking = scene_.full->braking())
      add(along(view_, braking->legs.back(), 0.3, 0.9),
          fmt::format("{} line at full travel, {}\nat the unit: predicted, untested",
                      scene_.full->lines.size() > 1 ? braking_id() : "Braking",
                      force(scene_.full->outlet_tension_N, style_)));
    add(along(view_, scene_.full->main_line, 0.6, 0.9), "Main line, rider at full travel");
  }
  std::string braking_id() const { return layout_.lines[static_cast<std::size_t>(scene_.rig->braking_line)].id.value; }

  void blocks() {
    if (!elevation_ || !scene_.rest) return;
    const auto name = [&](const RigPose& pose, std::string_view when) {
      for (const BlockSeen& block : pose.blocks) {
        if (full_ || !in_detail(block.at))
          add({view_.of(block.at)},
              fmt::format("Block {} {},\nCH {}", layout_.blocks[static_cast<std::size_t>(block.index)].id.value, when,
                          up(scene_.rig->frame.chainage_m(block.at))),
              Layer::text, block_radius_mm(view_, block));
      }
    };
    name(*scene_.rest, "at rest");
    if (scene_.full) name(*scene_.full, "at full travel");
  }

  void structures() {
    for (const StructureSeen& structure : scene_.structures) {
      std::vector<Paper> targets;
      for (const auto& piece : structure_outline(scene_, structure, view_, facing_))
        for (std::size_t i = 1; i < piece.size(); ++i)
          for (double share : {0.5, 0.25, 0.75, 0.1, 0.9})
            targets.push_back(piece[i - 1] + share * (piece[i] - piece[i - 1]));
      add(std::move(targets), structure_words(structure));
    }
    for (const ScanSeen& scan : scene_.scans)
      add(on_scan(elevation_ ? scan.in_elevation : scan.in_plan, structures_window(scene_, view_, facing_)),
          "Scan " + layout_.structures[static_cast<std::size_t>(scan.index)].id.value);
  }
  /// Some of the marks that are drawn of a scan, spread over all of them.
  std::vector<Paper> on_scan(const std::vector<std::array<Point3, 2>>& marks, const Box& window) const {
    constexpr std::size_t most = 24;
    std::vector<Paper> drawn, targets;
    for (const auto& [from, to] : marks)
      if (window.contains(view_.of(from)) && window.contains(view_.of(to))) drawn.push_back(view_.of(from));
    for (std::size_t i = 0; i < std::min(most, drawn.size()); ++i)
      targets.push_back(drawn[i * drawn.size() / std::min(most, drawn.size())]);
    return targets;
  }
  std::string structure_words(const StructureSeen& seen) const {
    const std::string& id = layout_.structures[static_cast<std::size_t>(seen.index)].id.value;
    return seen.kind == StructureKind::plane ? id + " (plane)" : id;
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
      add({view_.of(seen.centre)}, text, Layer::text, sheave_radius_mm(view_, seen));
    }
  }

  /// In one view only: in the detail where there is one.
  void ghosts() {
    if (!elevation_) return;
    for (const SheaveSeen& ghost : scene_.ghosts)
      if (!in_detail(ghost.centre))
        add({view_.of(ghost.centre)}, ghost_words(scene_, ghost, style_), Layer::text, sheave_radius_mm(view_, ghost));
  }

  void members() {
    for (const MemberSeen& member : scene_.members)
      add(on_member(view_, member, facing_), member_name(layout_, member));
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
      const Box b = rider_box(scene_.rig->frame, view_, *seen);
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
  Facing facing_;
  bool elevation_, full_;
  std::optional<DetailWindow> detail_;
  const Style& style_;
  std::vector<Callout> out_;
};

}  // namespace

std::vector<Callout> callouts(const Scene& scene, const View& view, Facing facing, Naming naming, const Style& style) {
  std::vector<Callout> out = Namer(scene, view, facing, naming, style).all();
  if (!scene.is_part()) return out;
  // Each part names its own, and what runs through several of them in each.
  const Box own = own_window(scene, view);
  for (Callout& c : out) std::erase_if(c.targets, [&](Paper target) { return !own.contains(target); });
  std::erase_if(out, [](const Callout& c) { return c.targets.empty(); });
  return out;
}

std::vector<Callout> detail_callouts(const Scene& scene, const View& view, const Box& frame, const Style& style) {
  const Layout& layout = scene.rig->layout;
  std::vector<Callout> out;
  const auto sheaves = [&](const std::vector<SheaveSeen>& all, std::string_view what) {
    for (const SheaveSeen& seen : all) {
      const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(seen.index)];
      out.push_back({{view.of(seen.centre)},
                     fmt::format("{} {} {}", sheave.id.value, what, diameter(sheave.pitch_diameter_m, style)),
                     Layer::text,
                     sheave_radius_mm(view, seen)});
    }
  };
  for (const SheaveSeen& ghost : scene.ghosts)
    out.push_back(
        {{view.of(ghost.centre)}, ghost_words(scene, ghost, style), Layer::text, sheave_radius_mm(view, ghost)});
  for (const MemberSeen& member : scene.members)
    out.push_back({on_member(view, member, Facing::elevation), member_name(layout, member), Layer::text});
  sheaves(scene.sheaves, "redirect");
  sheaves(scene.rest->sheaves, "sheave");
  for (const DeadEnd& end : scene.rest->dead_ends)
    out.push_back({{view.of(end.at)}, "Dead end " + line_id(scene, end.line), Layer::text, 0.6});
  for (const AnchorSeen& anchor : scene.anchors)
    out.push_back({{view.of(anchor.position)}, anchor_words(layout, anchor, style), Layer::text, anchor_radius_mm});
  std::string mark = "Rest mark CH " + figure(layout.brake_trolley.rest_m, style);
  if (layout.landing)
    mark += fmt::format("\n{} above platform",
                        figure(scene.rest->trolley.wheel.z - layout.landing->platform_level_m, style));
  out.push_back({{view.of(scene.rest->trolley.wheel)}, mark, Layer::text, trolley_mm / 2 + 0.4});
  for (const LineSeen& line : scene.rest->lines) {
    const std::string id = line_id(scene, line.line);
    for (const Curve3& leg : line.legs) {
      const bool first = &leg == &line.legs.front(), last = &leg == &line.legs.back();
      std::string text = id;
      if (line.role != Role::support && last && line.role == Role::braking) text += " to the unit";
      if (first && line.line == scene.rig->reeving.inputs->pulling) text += " to the trolley";
      if (line.role == Role::support && !first) continue;
      out.push_back({along(view, leg, 0.05, 0.95), text, layer_of(line.role)});
    }
  }
  if (scene.full) {
    const int pulling = scene.rig->reeving.inputs->pulling;
    out.push_back({along(view, scene.full->lines[static_cast<std::size_t>(pulling)].legs.front(), 0, 1),
                   "to the trolley at full travel",
                   layer_of(scene.full->lines[static_cast<std::size_t>(pulling)].role)});
  }
  out.push_back({along(view, scene.rest->main_line, 0, 1),
                 fmt::format("Main line {}", diameter(layout.main_line.diameter_m, style))});
  for (Callout& c : out) std::erase_if(c.targets, [&](Paper target) { return !frame.contains(target); });
  std::erase_if(out, [](const Callout& c) { return c.targets.empty(); });
  return out;
}

}  // namespace fairlead::views
