#include "report/sheets/arrangement_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/overlap.hpp"
#include "report/sheets/arrangement.hpp"
#include "report/views/parts.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double gap_mm = 3;

/// From the first chainage of a part's own to the last.
struct Span {
  double from_m{}, to_m{};
};
Span own(const views::Scene& part) {
  return {part.before ? part.before->chainage_m : part.from_m, part.after ? part.after->chainage_m : part.to_m};
}

/// Main line, lines and anchors at rest over a width; the height is no more to scale than it has room to be.
void sketch_rig(const Canvas& canvas, const views::Scene& scene, Span all, const Box& frame) {
  const Frame& site = scene.rig->frame;
  std::vector<std::pair<views::Curve3, Pen>> curves;
  if (scene.rest) {
    curves.emplace_back(scene.rest->main_line, Pen{medium_mm, LineType::continuous, Layer::main_line});
    for (const views::LineSeen& line : scene.rest->lines)
      for (const views::Curve3& leg : line.legs)
        curves.emplace_back(leg, Pen{hair_mm, LineType::continuous, Layer::braking_line});
  }
  double low_m = scene.rig->layout.brake_unit.outlet.value.z, high_m = low_m;
  const auto take = [&](const Point3& p) { low_m = std::min(low_m, p.z), high_m = std::max(high_m, p.z); };
  for (const auto& [curve, pen] : curves) std::for_each(curve.begin(), curve.end(), take);
  for (const views::AnchorSeen& anchor : scene.anchors) take(anchor.position);
  const double mm_per_m = frame.width() / (all.to_m - all.from_m);
  const double up_mm_per_m = high_m > low_m ? std::min(mm_per_m, frame.height() / (high_m - low_m)) : mm_per_m;
  const auto at = [&](const Point3& p) {
    return Paper{frame.left + mm_per_m * (site.chainage_m(p) - all.from_m),
                 frame.centre().y_mm + up_mm_per_m * (p.z - (low_m + high_m) / 2)};
  };
  for (const auto& [curve, pen] : curves) {
    std::vector<Paper> path;
    for (const Point3& p : curve) path.push_back(at(p));
    for (std::vector<Paper>& piece : clip(simplified(path), frame)) canvas.line(std::move(piece), pen);
  }
  for (const views::AnchorSeen& anchor : scene.anchors)
    canvas.circle(at(anchor.position), 0.5, {0, LineType::continuous, Layer::anchors}, Fill::ink);
}

/// The whole in small with a frame about each part; this one's is tinted.
Block key_sketch(const std::vector<views::Scene>& parts, std::size_t here) {
  constexpr double heading_mm = 7, sketch_mm = 14, number_mm = 4;
  Block block;
  block.least_width = [](const Canvas&) { return 100.0; };
  block.height = [](const Canvas&, double) { return heading_mm + sketch_mm + number_mm; };
  block.draw = [parts, here](const Canvas& canvas, Paper top_left, double width_mm) {
    canvas.text(top_left - Paper{0, note_cap_mm}, "KEY SKETCH, not to scale", note_cap_mm, Layer::notes);
    const Span all{own(parts.front()).from_m, own(parts.back()).to_m};
    const Box frame{top_left.x_mm, top_left.y_mm - heading_mm - sketch_mm, top_left.x_mm + width_mm,
                    top_left.y_mm - heading_mm};
    const auto x_of = [&](double chainage_m) {
      return frame.left + (chainage_m - all.from_m) / (all.to_m - all.from_m) * frame.width();
    };
    constexpr Pen edge{narrow_mm, LineType::continuous, Layer::notes},
        match{medium_mm, LineType::dash_dot, Layer::symbols};
    const Span mine = own(parts[here]);
    canvas.area(Canvas::corners({x_of(mine.from_m), frame.bottom, x_of(mine.to_m), frame.top}), Layer::notes,
                Fill::tint);
    canvas.box(frame, edge);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const double left = x_of(own(parts[i]).from_m), right = x_of(own(parts[i]).to_m);
      canvas.text({(left + right) / 2, frame.bottom - 1.5 - small_cap_mm}, fmt::format("part {}", i + 1), small_cap_mm,
                  Layer::notes, Align::centre);
      if (!parts[i].after) continue;
      canvas.line({{right, frame.bottom}, {right, frame.top}}, match);
      canvas.text({right, frame.top + 0.9}, parts[i].after->letters, small_cap_mm, Layer::notes, Align::centre);
    }
    sketch_rig(canvas, parts.front(), all, {frame.left, frame.bottom + 2, frame.right, frame.top - 2});
  };
  block.name = "the key sketch";
  return block;
}

/// The sheets of one way to part a scene.
class Parts {
 public:
  Parts(const Style& style, const Office& office, const Box& corner, const views::Scene& whole, double scale,
        std::vector<views::Scene> parts)
      : style_(style),
        office_(office),
        paper_(stationery(office)),
        corner_(corner),
        whole_(whole),
        scale_(scale),
        parts_(std::move(parts)) {}

  std::optional<std::vector<Body>> sheets() const {
    std::vector<Body> bodies;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      auto body = sheet(i);
      if (!body || !faults(body->drawing, office_.font, paper_.frame).empty()) return std::nullopt;
      bodies.push_back(std::move(*body));
    }
    return bodies;
  }

 private:
  std::optional<Body> sheet(std::size_t i) const {
    if (const auto window = shown_enlarged(i))
      for (const double slack_mm : slacks_mm)
        if (auto body = sheet(i, window, slack_mm)) return body;
    for (const double slack_mm : slacks_mm)
      if (auto body = sheet(i, std::nullopt, slack_mm)) return body;
    return std::nullopt;
  }
  /// The detail, where all of it is a part's own.
  std::optional<views::DetailWindow> shown_enlarged(std::size_t i) const {
    const auto window = views::redirect_window(whole_);
    const Span mine = own(parts_[i]);
    if (!window || left_width_mm() <= 0 || window->from_m < mine.from_m || window->to_m > mine.to_m)
      return std::nullopt;
    return window;
  }
  double left_width_mm() const { return corner_.left - gap_mm - paper_.field().left; }

  std::optional<Body> sheet(std::size_t i, const std::optional<views::DetailWindow>& window, double slack_mm) const {
    const Box field = paper_.field();
    const ViewGroup group(parts_[i], style_, paper_, office_.font, scale_, Spacing::ample, window);
    const double below = field.top - group.height_mm() - slack_mm - gap_mm, width_mm = std::max(0.0, left_width_mm());
    if (group.width_mm() > field.width() || below < corner_.top + gap_mm) return std::nullopt;

    Body body{fmt::format("General arrangement of the arrest end, part {} of {}", i + 1, parts_.size()),
              "Arrangement drawing",
              fmt::format("1:{:g}", scale_),
              {}};
    const Canvas canvas(body.drawing, office_.font);
    std::optional<DetailBand> band;
    if (window) {
      band = DetailBand::fit(whole_, *window, canvas, width_mm, below - field.bottom, scale_);
      if (!band) return std::nullopt;
      body.scale += fmt::format(" (1:{:g})", band->scale());
    }
    auto key = group.draw(canvas, {field.left + (field.width() - group.width_mm()) / 2, field.top}, slack_mm);
    if (band)
      for (std::string& text : band->draw(canvas, style_, {field.left, field.bottom + band->height_mm()}, width_mm,
                                          static_cast<int>(key.size()) + 1))
        key.push_back(std::move(text));

    std::vector<Block> blocks{key_sketch(parts_, i)};
    if (!key.empty()) blocks.push_back(balloons(key));
    if (!band && width_mm > 0) blocks.push_back(legend(whole_));
    Region left{{field.left, field.bottom, field.left + (band ? 0 : width_mm), below}, {}};
    Region right{{std::max(corner_.left, field.left), corner_.top + gap_mm, field.right, below}, {}};
    if (!share(canvas, blocks, left, right, 1)) return std::nullopt;
    sheets::draw(canvas, left);
    sheets::draw(canvas, right);
    return body;
  }

  static constexpr double slacks_mm[] = {24, 12, 0};  // room for names, as far as what stands below leaves it
  const Style& style_;
  const Office& office_;
  Stationery paper_;
  const Box& corner_;
  const views::Scene& whole_;
  double scale_;
  std::vector<views::Scene> parts_;
};

/// As few as the width could hold, then more until the names have room too.
std::optional<std::vector<Body>> fewest_parts(const Style& style, const Office& office, const Box& corner,
                                              const views::Scene& scene, double scale, std::size_t first_sheet) {
  constexpr std::size_t more = 3;
  const double room_mm = stationery(office).field().width(), all_mm = 1000 / scale * (scene.to_m - scene.from_m);
  const auto fewest = std::max(std::size_t{2}, static_cast<std::size_t>(std::ceil(all_mm / room_mm)));
  for (std::size_t count = fewest; count <= fewest + more; ++count)
    if (auto sheets =
            Parts(style, office, corner, scene, scale, views::parts_of(scene, scale, count, first_sheet)).sheets())
      return sheets;
  return std::nullopt;
}

}  // namespace

std::optional<InParts> arrangement_in_parts(const Style& style, const Office& office, const Box& corner, const Rig& rig,
                                            std::span<const double> scales, std::size_t first_sheet) {
  const auto parted = [&](views::MemberReach reach, double scale) -> std::optional<InParts> {
    views::Scene scene = views::scene_of(rig, reach);
    auto sheets = fewest_parts(style, office, corner, scene, scale, first_sheet);
    if (!sheets) return std::nullopt;
    return InParts{std::move(*sheets), std::move(scene)};
  };
  for (std::size_t i = scales.size(); i-- > 0;) {
    if (office.scale ? scales[i] != *office.scale : !legible(scales[i])) continue;
    auto found = parted({}, scales[i]);
    if (!found) continue;
    for (const views::MemberReach reach : views::member_reaches(rig))
      if (auto wider = parted(reach, scales[i]); wider && wider->sheets.size() <= found->sheets.size()) return wider;
    return found;
  }
  return std::nullopt;
}

}  // namespace fairlead::sheets
