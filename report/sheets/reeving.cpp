// How the lines run, at rest and at full travel.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/plot.hpp"
#include "report/sheets/contact_points.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/sheets/title_row.hpp"
#include "report/tables/tables.hpp"
#include "report/views/detail.hpp"
#include "report/views/figures.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using views::DetailWindow;
using views::RigPose;
using views::Scene;

namespace {

constexpr std::string_view title = "Reeving at rest and at full travel", document_type = "Reeving drawing";
constexpr double gap_mm = 4, names_mm = 11;

bool applies(const Dossier& dossier) {
  const Scene scene = views::scene_of(dossier.judged.rig);
  return scene.rest && !scene.rest->lines.empty() && scene.full;
}

/// A scene in which nothing but the rig stands, in one pose.
Scene alone(const Scene& scene, const RigPose& pose, bool at_full_travel) {
  Scene one = scene;
  one.rest = pose;
  if (at_full_travel) {
    one.rest->sheaves.insert(one.rest->sheaves.end(), scene.ghosts.begin(), scene.ghosts.end());
    views::settle_mounted(one);
  }
  one.ghosts.clear();
  one.members.clear();
  one.full.reset();
  one.rider_under_redirect.reset();
  one.rider_at_contact.reset();
  one.structures.clear();
  one.surroundings = false;
  for (views::AnchorSeen& anchor : one.anchors) anchor.governing_N = {};
  return one;
}

/// The rig in one pose, at one scale with the other pose.
class PoseView {
 public:
  PoseView(Scene scene, std::string name, double scale)
      : scene_(std::move(scene)), name_(std::move(name)), scale_(scale) {
    const View view = views::view_of(scene_, views::Facing::elevation, scale, {0, 0});
    const Box drawn = views::extent(scene_, view, views::Facing::elevation);
    width_mm_ = drawn.width();
    drawn_mm_ = drawn.height();
  }
  double width_mm() const { return width_mm_ + 2; }
  double height_mm() const { return TitleRow::height_mm + drawn_mm_ + 2 * names_mm; }

  void draw(const Canvas& canvas, Paper top_left, double width_mm, double height_mm, const Style& style) const {
    const double spare = height_mm - this->height_mm();
    const double left = top_left.x_mm + (width_mm - width_mm_) / 2;
    View view = views::view_of(scene_, views::Facing::elevation, scale_, {left, 0});
    view.name = name_;
    view.at.y_mm += top_left.y_mm - TitleRow::height_mm - names_mm - spare / 2 - drawn_mm_;
    canvas.drawing().views.push_back(view);
    const std::size_t before = canvas.drawing().entities.size();
    TitleRow(canvas, name_, scale_, views::bar_unit(style), width_mm).draw(canvas, top_left, width_mm, view);
    views::draw_rig(canvas, scene_, view, views::Facing::elevation);
    Obstacles obstacles(canvas.font());
    obstacles.add(canvas.drawing(), before);
    place(
        canvas, names(view, style), obstacles,
        {top_left.x_mm, top_left.y_mm - height_mm, top_left.x_mm + width_mm, top_left.y_mm - TitleRow::height_mm + 1});
  }

 private:
  std::vector<Callout> names(const View& view, const Style& style) const {
    const RigPose& pose = *scene_.rest;
    const Layout& layout = scene_.rig->layout;
    const reeving::Sweep& sweep = scene_.rig->reeving.solved()->sweeps[pose.sweep];
    std::vector<Callout> all;
    for (const views::LineSeen& line : pose.lines) {
      const auto index = static_cast<std::size_t>(line.line);
      const double tension_N = sweep.tension_N[pose.pose * pose.lines.size() + index];
      const auto& leg = *std::max_element(line.legs.begin(), line.legs.end(), [](const auto& a, const auto& b) {
        return norm(a.back() - a.front()) < norm(b.back() - b.front());
      });
      all.push_back(
          {views::along(view, leg, 0.15, 0.85),
           fmt::format("{}\n{}, sag {}", views::line_words(scene_, line, style),
                       words::shown(tension_N, Dimension::force, style), views::figure(line.greatest_sag_m, style)),
           Layer::text});
    }
    for (const views::BlockSeen& block : pose.blocks)
      all.push_back({{view.of(block.at)},
                     fmt::format("Block {}, CH {}", layout.blocks[static_cast<std::size_t>(block.index)].id.value,
                                 views::figure(scene_.rig->frame.chainage_m(block.at), style)),
                     Layer::text,
                     1.9});
    all.push_back(
        {{view.of(pose.trolley.wheel)},
         fmt::format("Brake trolley, CH {}", views::figure(scene_.rig->frame.chainage_m(pose.trolley.wheel), style)),
         Layer::text,
         views::trolley_mm / 2 + 0.4});
    all.push_back({{view.of(layout.brake_unit.outlet)}, "Brake unit outlet", Layer::text, 1});
    return all;
  }

  Scene scene_;
  std::string name_;
  double scale_, width_mm_{}, drawn_mm_{};
};

/// The window about some points, with room about them.
DetailWindow window_about(const Scene& scene, const std::vector<Point3>& points, double about_m) {
  DetailWindow w{1e9, -1e9, 1e9, -1e9};
  for (const Point3& p : points) {
    const double chainage = scene.rig->frame.chainage_m(p);
    w.from_m = std::min(w.from_m, chainage - about_m);
    w.to_m = std::max(w.to_m, chainage + about_m);
    w.low_m = std::min(w.low_m, p.z - about_m);
    w.high_m = std::max(w.high_m, p.z + about_m);
  }
  return w;
}

/// The redirect, and every other sheave, anchor and dead end that stands near it.
std::vector<Point3> at_secondary_anchor(const Scene& scene) {
  constexpr double near_m = 1.5;
  std::vector<Point3> points;
  const views::SheaveSeen* redirect = views::first_redirect(scene);
  if (!redirect) return points;
  const auto add = [&](Point3 p) {
    if (norm(p - redirect->centre) <= near_m) points.push_back(p);
  };
  for (const views::SheaveSeen& s : scene.sheaves) {
    add(s.centre);
    if (s.carrier) add(*s.carrier);
  }
  for (const views::SheaveSeen& ghost : scene.ghosts) add(ghost.centre);
  for (const views::DeadEnd& end : scene.rest->dead_ends) add(end.at);
  return points;
}

std::vector<Point3> at_block(const views::BlockSeen& block, const RigPose& pose) {
  std::vector<Point3> points = block.body;
  points.push_back(block.at);
  points.insert(points.end(), block.wheels.begin(), block.wheels.end());
  for (const views::SheaveSeen& s : pose.sheaves)
    if (norm(s.centre - block.at) < 1) points.push_back(s.centre);
  return points;
}

/// An enlarged part of the rig at rest, its contact points numbered.
void draw_contacts(const Canvas& canvas, const Scene& scene, const std::vector<Point3>& about, const Box& box,
                   const std::string& name, const std::string& says, const Style& style) {
  const double width_mm = box.width(), height_mm = box.height() - TitleRow::height_mm;
  const double about_m = 0.12;
  DetailWindow window = window_about(scene, about, about_m);
  double scale = 50;
  for (double next : {5.0, 10.0, 20.0}) {
    const double mm = 1000 / next;
    if (mm * (window.to_m - window.from_m) > width_mm || mm * (window.high_m - window.low_m) > 0.8 * height_mm)
      continue;
    scale = next;
    break;
  }
  const double middle_m = (window.from_m + window.to_m) / 2, level_m = (window.low_m + window.high_m) / 2;
  const double half_m = width_mm * scale / 2000, tall_m = height_mm * scale / 2000;
  window = {middle_m - half_m, middle_m + half_m, level_m - tall_m, level_m + tall_m};

  canvas.text({box.left, box.top - title_cap_mm - 1}, name, title_cap_mm, Layer::text);
  canvas.text({box.left + canvas.width(name, title_cap_mm) + 3, box.top - title_cap_mm - 1},
              fmt::format("1:{:g}, {}", scale, says), note_cap_mm, Layer::text);
  const auto framed = views::draw_framed(canvas, scene, window, scale, {box.left, box.bottom}, name);
  Obstacles obstacles(canvas.font());
  obstacles.add(canvas.drawing(), framed.first_entity);
  const Box inside = framed.frame.grown(-1.5);
  std::vector<Callout> callouts;
  for (const ContactPoint& point : contact_points(*scene.rig, *scene.rest))
    callouts.push_back({{framed.view.of(point.at)}, std::to_string(point.number), Layer::text, 0});
  const Layout& layout = scene.rig->layout;
  const auto sheave = [&](const views::SheaveSeen& s) {
    const auto& id = layout.sheaves[static_cast<std::size_t>(s.index)].id.value;
    callouts.push_back({{framed.view.of(s.centre)},
                        id,
                        Layer::text,
                        std::max(views::least_sheave_radius_mm, s.radius_m * framed.view.mm_per_m())});
  };
  for (const views::SheaveSeen& s : scene.sheaves) sheave(s);
  for (const views::SheaveSeen& s : scene.rest->sheaves) sheave(s);
  for (const views::SheaveSeen& s : scene.ghosts)
    callouts.push_back({{framed.view.of(s.centre)},
                        views::ghost_words(scene, s, style),
                        Layer::text,
                        std::max(views::least_sheave_radius_mm, s.radius_m * framed.view.mm_per_m())});
  for (const views::AnchorSeen& a : scene.anchors)
    callouts.push_back({{framed.view.of(a.position)},
                        "Anchor " + layout.anchors[static_cast<std::size_t>(a.index)].id.value,
                        Layer::text,
                        views::anchor_radius_mm});
  for (const views::LineSeen& line : scene.rest->lines)
    for (const views::Curve3& leg : line.legs) {
      // One name serves both sides of a support line's wheel.
      if (line.role == views::Role::support && &leg != &line.legs.front()) continue;
      callouts.push_back(
          {views::along(framed.view, leg, 0, 1), views::line_id(scene, line.line), views::layer_of(line.role)});
    }
  for (Callout& c : callouts) std::erase_if(c.targets, [&](Paper p) { return !inside.contains(p); });
  std::erase_if(callouts, [](const Callout& c) { return c.targets.empty(); });
  place(canvas, callouts, obstacles, framed.frame.grown(-1));
}

/// Travel of the trolley against line paid out, beside the nominal ratio.
void draw_ratio(const Canvas& canvas, const Scene& scene, const Box& box, const Style& style) {
  const Rig& rig = *scene.rig;
  std::vector<PlotCurve> curves;
  double low = 1e9, high = -1e9;
  const auto take = [&](const RigPose& pose, std::string name, LineType type) {
    PlotCurve curve{{}, std::move(name), {medium_mm, type, Layer::text}};
    for (const reeving::Pose& p : rig.reeving.solved()->sweeps[pose.sweep].poses)
      if (std::isfinite(p.ratio) && p.travel_m <= rig.layout.brake_trolley.travel_m) {
        curve.values.push_back({p.travel_m, p.ratio});
        low = std::min(low, p.ratio);
        high = std::max(high, p.ratio);
      }
    curves.push_back(std::move(curve));
  };
  take(*scene.rest, "empty, at rest", LineType::continuous);
  take(*scene.full, "heaviest rider, peak tension", LineType::dashed);
  const double travel_m = rig.layout.brake_trolley.travel_m;
  if (rig.nominal_ratio) {
    low = std::min(low, *rig.nominal_ratio);
    high = std::max(high, *rig.nominal_ratio);
    curves.push_back({{{0, *rig.nominal_ratio},
                       {0.25 * travel_m, *rig.nominal_ratio},
                       {0.5 * travel_m, *rig.nominal_ratio},
                       {travel_m, *rig.nominal_ratio}},
                      fmt::format("nominal {:g}", *rig.nominal_ratio),
                      {narrow_mm, LineType::dash_dot, Layer::dimensions}});
  }
  if (!(high >= low)) return;
  const double about = std::max(0.25 * (high - low), 0.02);
  canvas.text({box.left, box.top - heading_cap_mm}, "TRUE RATIO OF TRAVEL TO LINE PAID OUT", note_cap_mm, Layer::text);
  const BarUnit unit = views::bar_unit(style);
  plot(canvas, {box.left, box.bottom, box.right, box.top - 6},
       {fmt::format("travel of the brake trolley, {}", unit.name), 0, travel_m, unit.metres},
       {"d travel / d extension", low - about, high + about, 1}, curves);
}

/// The greatest scale at which both poses and details beneath them find room; none where there is none.
std::optional<double> scale_in(const Box& field, const Scene& at_rest, const Scene& at_full) {
  constexpr double least_detail_mm = 68;
  for (const double scale : {20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
    const PoseView a(at_rest, "AT REST", scale), b(at_full, "AT FULL TRAVEL", scale);
    if (std::max(a.width_mm(), b.width_mm()) <= field.width() &&
        a.height_mm() + b.height_mm() + least_detail_mm + 2 * gap_mm <= field.height())
      return scale;
  }
  return std::nullopt;
}

/// Both poses one above the other, and beneath them the secondary anchor and every block.
void draw_poses(const Canvas& canvas, const Box& field, const Scene& scene, const Scene& at_rest, const Scene& at_full,
                double scale, const Style& style) {
  const double left_mm = field.width();
  const PoseView a(at_rest, "AT REST", scale), b(at_full, "AT FULL TRAVEL", scale);
  const double detail_mm = std::min(95.0, field.height() - a.height_mm() - b.height_mm() - 2 * gap_mm);
  const double spare = (field.height() - a.height_mm() - b.height_mm() - detail_mm - 2 * gap_mm) / 2;
  a.draw(canvas, {field.left, field.top}, left_mm, a.height_mm() + spare, style);
  b.draw(canvas, {field.left, field.top - a.height_mm() - spare - gap_mm}, left_mm, b.height_mm() + spare, style);

  // Side by side beneath the views: the secondary anchor, then each block.
  std::vector<std::pair<std::vector<Point3>, std::string>> parts;
  Scene near = at_rest;
  near.ghosts = scene.ghosts;
  if (auto points = at_secondary_anchor(near); !points.empty())
    parts.push_back({std::move(points), "secondary anchor at rest"});
  for (const views::BlockSeen& block : scene.rest->blocks)
    parts.push_back(
        {at_block(block, *scene.rest),
         fmt::format("block {} at rest", scene.rig->layout.blocks[static_cast<std::size_t>(block.index)].id.value)});
  constexpr double most_mm = 120;
  const double part_mm =
      std::min(most_mm, (left_mm - gap_mm * static_cast<double>(parts.size() - 1)) / static_cast<double>(parts.size()));
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const double left = field.left + static_cast<double>(i) * (part_mm + gap_mm);
    draw_contacts(canvas, near, parts[i].first, {left, field.bottom, left + part_mm, field.bottom + detail_mm},
                  std::string("DETAIL ") + static_cast<char>('B' + i), parts[i].second, style);
  }
}

Block ratio(const Scene& scene, const Style& style) {
  constexpr double least_mm = 120, plot_mm = 60;
  return {[](const Canvas&) { return least_mm; }, [](const Canvas&, double) { return plot_mm; },
          [&scene, &style](const Canvas& canvas, Paper at, double width_mm) {
            draw_ratio(canvas, scene, {at.x_mm, at.y_mm - plot_mm, at.x_mm + width_mm, at.y_mm}, style);
          }};
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  const Scene scene = views::scene_of(rig);
  Pages pages(dossier, office, out);
  const Scene at_rest = alone(scene, *scene.rest, false), at_full = alone(scene, *scene.full, true);
  const auto scale = scale_in(pages.left_column(), at_rest, at_full);
  Body body{std::string(title), document_type, scale ? fmt::format("1:{:g}", *scale) : "none", {}};
  if (scale) {
    draw_poses(Canvas(body.drawing, office.font), pages.left_column(), scene, at_rest, at_full, *scale, style);
    pages.begin(std::move(body), {pages.right_column()});
  } else {
    pages.begin(std::move(body), pages.columns());
    std::vector<std::string_view> sizes;
    for (Office other = office; const PaperSize size : paper_sizes) {
      other.paper = size;
      if (scale_in(Pages(dossier, other, out).left_column(), at_rest, at_full)) sizes.push_back(stationery(size).name);
    }
    pages.leave_out("The reeving at rest and at full travel", sizes);
  }
  pages.put(ratio(scene, style));
  pages.put(tables::contact_points(dossier, tables::Position::rest, style), style);
  pages.put(tables::contact_points(dossier, tables::Position::full_travel, style), style);
  if (!rig.layout.blocks.empty()) pages.put(tables::blocks(dossier, style), style);
  pages.put(tables::line_tensions(dossier, style), style);
  pages.put(tables::sheaves(dossier, style), style);
  pages.put(tables::reduction(dossier, style), style);
  for (const Table& table : {tables::rest_positions(dossier), tables::legs(dossier, style)})
    if (!table.rows.empty()) pages.put(table, style);
  pages.put(tables::strength(dossier), style);
}

}  // namespace

const SheetKind reeving_sheet{"reeving", applies, compose};

}  // namespace fairlead::sheets
