#include "report/views/parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "report/views/figures.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

/// Chainages of what is a symbol on paper or the end of a dimension: none should lie at a match line.
std::vector<double> marks_of(const Scene& scene) {
  const Layout& layout = scene.rig->layout;
  std::vector<double> marks{layout.brake_trolley.rest_m, layout.brake_trolley.rest_m + layout.brake_trolley.travel_m};
  const auto add = [&](const Point3& p) { marks.push_back(scene.rig->frame.chainage_m(p)); };
  add(layout.brake_unit.outlet);
  for (const auto* sheaves : {&scene.sheaves, &scene.ghosts})
    for (const SheaveSeen& s : *sheaves) add(s.centre);
  for (const AnchorSeen& a : scene.anchors) add(a.position);
  for (const MemberSeen& m : scene.members) add(m.seen_to(m.in_elevation)), add(m.seen_to(m.in_plan));
  for (const auto* pose : {&scene.rest, &scene.full})
    if (*pose) {
      add((*pose)->trolley.wheel);
      for (const BlockSeen& b : (*pose)->blocks) add(b.at);
      for (const DeadEnd& end : (*pose)->dead_ends) add(end.at);
    }
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) add((*rider)->low), add((*rider)->high);
  if (layout.backup_brake) marks.push_back(layout.backup_brake->engages_m);
  if (const auto& landing = layout.landing) {
    marks.insert(marks.end(), {landing->platform_from_m, landing->platform_to_m});
    for (const auto& end : {landing->earliest_rest_m, landing->latest_rest_m})
      if (end) marks.push_back(*end);
  }
  for (const StructureSeen& s : scene.structures)
    for (const Point3& p : s.points) add(p);
  return marks;
}

/// As far from every mark as a symbol and its leader need, and not far from where the parts would be equal. At a round
/// chainage, for it is set out and read.
double break_near(double equal_m, double reach_m, const std::vector<double>& marks, double mm_per_m) {
  constexpr double enough_mm = 20, dear = 0.1;  // a millimetre off equal costs a tenth of one of room
  const double step_m = reach_m >= 2 ? 1 : 0.1;
  double best_m = equal_m, best = -std::numeric_limits<double>::infinity();
  for (double step = std::ceil((equal_m - reach_m) / step_m); step * step_m <= equal_m + reach_m; ++step) {
    const double at_m = step * step_m;
    double room_mm = enough_mm;
    for (const double mark : marks) room_mm = std::min(room_mm, std::abs(mark - at_m) * mm_per_m);
    const double score = room_mm - dear * std::abs(at_m - equal_m) * mm_per_m;
    if (score > best) best = score, best_m = at_m;
  }
  return best_m;
}

}  // namespace

std::string match_letters(std::size_t index) {
  constexpr std::string_view letters = "MNPQRTUVWXYZ";
  const std::string one(index / letters.size() + 1, letters[index % letters.size()]);
  return one + '-' + one;
}

std::vector<Scene> parts_of(const Scene& scene, double scale, std::size_t count, std::size_t first_sheet) {
  const double mm_per_m = 1000 / scale, beyond_m = beyond_match_mm / mm_per_m;
  const double each_m = (scene.to_m - scene.from_m) / static_cast<double>(count);
  const std::vector<double> marks = marks_of(scene);
  std::vector<Scene> parts(count, scene);
  for (std::size_t i = 0; i + 1 < count; ++i) {
    const double at_m = break_near(scene.from_m + static_cast<double>(i + 1) * each_m, 0.2 * each_m, marks, mm_per_m);
    parts[i].after = MatchLine{at_m, match_letters(i), first_sheet + i + 1};
    parts[i].to_m = at_m + beyond_m;
    parts[i + 1].before = MatchLine{at_m, match_letters(i), first_sheet + i};
    parts[i + 1].from_m = at_m - beyond_m;
  }
  return parts;
}

namespace {

constexpr double however_far_mm = 1e6;

Box between(const Scene& scene, const View& view, double from_m, double to_m) {
  return {view.of(scene.at(from_m, 0, 0)).x_mm, -however_far_mm, view.of(scene.at(to_m, 0, 0)).x_mm, however_far_mm};
}

}  // namespace

Box part_window(const Scene& scene, const View& view) {
  Box window = between(scene, view, scene.from_m, scene.to_m);
  // Where nothing is broken off, a symbol may stand out.
  if (!scene.before) window.left = -however_far_mm;
  if (!scene.after) window.right = however_far_mm;
  return window;
}

Box own_window(const Scene& scene, const View& view) {
  return between(scene, view, scene.before ? scene.before->chainage_m : scene.from_m,
                 scene.after ? scene.after->chainage_m : scene.to_m);
}

void draw_match_lines(const Canvas& canvas, const Scene& scene, const View& view, double top_mm, double bottom_mm,
                      const Style& style) {
  // Two rows read from the right of the sheet.
  const auto letter = [&](const MatchLine& match, double left_mm) {
    constexpr double gap_mm = 1.5;
    const auto row = [&](double x_mm, const std::string& text, double cap_mm) {
      canvas.text({x_mm, (top_mm + bottom_mm) / 2}, text, cap_mm, Layer::text, Align::centre, std::numbers::pi / 2);
    };
    const double first_mm = left_mm + gap_mm + heading_cap_mm;
    row(first_mm, "MATCH LINE " + match.letters, heading_cap_mm);
    row(first_mm + gap_mm + note_cap_mm,
        fmt::format("CH {}, see sheet {}", figure(match.chainage_m, style), match.beyond), note_cap_mm);
  };
  const Box all = part_window(scene, view), own = own_window(scene, view);
  const Pen chain{extra_mm, LineType::dash_dot, Layer::symbols};  // ISO 128's 04.2: wide, long dash and dot
  if (scene.before) {
    canvas.line({{own.left, top_mm}, {own.left, bottom_mm}}, chain);
    letter(*scene.before, all.left - match_lettering_mm);
  }
  if (scene.after) {
    canvas.line({{own.right, top_mm}, {own.right, bottom_mm}}, chain);
    letter(*scene.after, all.right);
  }
}

}  // namespace fairlead::views
