// The notes and the legend of an arrangement sheet.
#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/symbols.hpp"
#include "report/sheets/blocks.hpp"
#include "report/sheets/furniture.hpp"
#include "report/views/figures.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

std::string degrees(double kelvin, const Style& style) {
  return with_minus(words::shown(kelvin, Dimension::temperature, style));
}

namespace {

std::string quantity(double si, Dimension dimension, const Style& style) { return words::shown(si, dimension, style); }

std::vector<std::string> what_is_drawn(const Dossier& dossier, const Style& style, const views::Scene& scene) {
  const Layout& layout = dossier.judged.rig.layout;
  std::vector<std::string> notes;
  if (auto lines = not_drawn(scene); !lines.empty()) notes.push_back(std::move(lines));
  if (scene.rest)
    notes.push_back(fmt::format(
        "Main line drawn {} at {}, empty brake trolley at its rest mark, horizontal tension {}.", scene.state,
        degrees(scene.temperature_K, style), quantity(scene.horizontal_N, Dimension::force, style)));
  if (scene.rest && !scene.rest->lines.empty())
    notes.push_back(fmt::format("{} at rest drawn as {} with {} at the unit's outlet.",
                                scene.rest->lines.size() > 1 ? "Lines" : "Braking line",
                                scene.rest->lines.size() > 1 ? "they hang" : "it hangs",
                                quantity(scene.rest->outlet_tension_N, Dimension::force, style)));
  if (scene.full)
    notes.push_back(fmt::format(
        "Full travel drawn with a rider of {} and the peak tension of {} at the outlet, which follows from the unit's "
        "data: predicted, untested.",
        quantity(layout.riders.mass_kg.value.high, Dimension::mass, style),
        quantity(scene.full->outlet_tension_N, Dimension::force, style)));
  if (!scene.ghosts.empty())
    notes.push_back("Sheaves on mounts drawn where they hang with the lines at rest; dashed: at full travel.");
  if (scene.rider_at_contact) notes.push_back("Rider envelopes are drawn upright; clearances hold their swing.");
  return notes;
}

/// What of a member the views leave out.
std::string beyond_the_break(const Rig& rig, const views::MemberSeen& member, const Style& style) {
  const bool both = member.in_elevation < 1 && member.in_plan < 1;
  std::string name = words::member_words(rig.layout, member.index);
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return fmt::format("{}, broken off in {}, is {} long and runs on to {}.", name,
                     both                 ? "both views"
                     : member.in_plan < 1 ? "plan"
                                          : "elevation",
                     views::figure(norm(member.to - member.from), style), words::shown(rig.layout, member.to, style));
}

std::vector<Paragraph> balloon_key(const std::vector<std::string>& key) {
  std::vector<Paragraph> lines;
  for (std::size_t i = 0; i < key.size(); ++i) {
    std::string text = key[i];
    std::replace(text.begin(), text.end(), '\n', ' ');
    lines.push_back({fmt::format("({})", i + 1), std::move(text), Layer::notes});
  }
  return lines;
}

}  // namespace

std::string not_drawn(const views::Scene& scene) {
  if (scene.unsolved.empty()) return "";
  return fmt::format("{} NOT DRAWN: {}.", scene.rest ? "BRAKING LINE" : "LINES", scene.unsolved);
}

std::string drawn_as_symbols(const Layout& layout) {
  return fmt::format("Trolley, brake unit, anchors and backup brake are symbols, not to scale{}.",
                     layout.landing ? "; the platform's width is not in the layout" : "");
}

Block balloons(const std::vector<std::string>& key) {
  return block_of(Paragraphs("KEY", balloon_key(key), {small_cap_mm, note_cap_mm}));
}

Block notes(const Dossier& dossier, const Style& style, const views::Scene& scene, const Office& office,
            const std::vector<std::string>& key, const Typography& type) {
  const Layout& layout = dossier.judged.rig.layout;
  const bool feet = words::one_of(style) == Units::us;
  std::vector<std::string> all;
  all.push_back(fmt::format(
      "Do not scale. Dimensions and levels in {}; levels in the site's frame ({}). {}-angle projection. Laid out after "
      "ISO 5457, 7200, 128 and 129.",
      feet && style.tenths ? "decimal feet, ft (tenths)"
      : feet               ? "feet and inches"
                           : "metres",
      layout.site.datum ? layout.site.datum->value : "datum not stated",
      stationery(office).first_angle ? "First" : "Third"));
  all.push_back(fmt::format(
      "Chainage along the main line in plan from {}; across: positive to the left looking toward the landing.",
      layout.site.chainage_zero ? "the layout's chainage zero" : "its upstream support"));
  for (std::string& note : what_is_drawn(dossier, style, scene)) all.push_back(std::move(note));
  all.push_back(
      "Loads: force of the rig on the anchor, positive along the site's axes, up positive; unfactored; the components "
      "of a row act at once. Arrows give direction only, their tips at the anchors; in plan only loads that leave the "
      "main line's plane.");
  all.push_back(drawn_as_symbols(layout));
  for (const int i : scene.anchors_outside) {
    const Anchor& anchor = layout.anchors[static_cast<std::size_t>(i)];
    std::string held;
    for (std::size_t m = 0; m < layout.members.size(); ++m)
      if (layout.members[m].anchor == static_cast<AnchorId>(i))
        held += fmt::format("{}{}", held.empty() ? ", and with it " : ", ",
                            words::member_words(layout, static_cast<int>(m)));
    all.push_back(fmt::format("Anchor {} stands outside the views, at chainage {}{}.", anchor.id.value,
                              views::figure(dossier.judged.rig.frame.chainage_m(anchor.position), style), held));
  }
  for (const views::MemberSeen& member : scene.members)
    if (member.cut()) all.push_back(beyond_the_break(dossier.judged.rig, member, style));
  if (!office.more.empty()) {
    // Said here, as its sheets are many.
    std::string index(office.font.said(office.first.empty() ? index_beginning : index_elsewhere_beginning));
    if (!office.first.empty()) index += fmt::format(": {}", office.font.said(office.first));
    for (std::size_t i = 0; i < office.more.size();) {
      std::size_t same = i;
      while (same < office.more.size() && office.more[same] == office.more[i]) ++same;
      index += fmt::format("; {}", office.font.said(office.more[i]));
      if (same > i + 1) index += ' ' + std::string(office.font.said(fmt::format("({} sheets)", same - i)));
      i = same;
    }
    all.push_back(index + ".");
  }
  for (const views::ScanSeen& scan : scene.scans) {
    const std::string& id = layout.structures[static_cast<std::size_t>(scan.index)].id.value;
    all.push_back(
        scan.in_elevation.empty() && scan.in_plan.empty()
            ? fmt::format("Scan {} is NOT DRAWN: none of it lies where the views cut it. Clearances hold it.", id)
            : fmt::format("Of scan {} only what the views cut is drawn, thinned; clearances hold all of it.", id));
  }
  for (const int i : scene.structures_outside)
    all.push_back(
        fmt::format("Structure {} stands outside the views.", layout.structures[static_cast<std::size_t>(i)].id.value));
  std::vector<Paragraph> lines;
  for (std::size_t i = 0; i < all.size(); ++i)
    lines.push_back({fmt::format("{}.", i + 1), with_minus(all[i]),
                     all[i].find("NOT DRAWN") != std::string::npos ? Layer::cautions : Layer::notes});
  for (Paragraph& paragraph : balloon_key(key)) lines.push_back(std::move(paragraph));
  return block_of(Paragraphs("NOTES", lines, type));
}

namespace {

struct Sample {
  std::string text;
  std::function<void(const Canvas&, Paper left)> draw;  ///< into 16 mm to the right of `left`
};
constexpr double sample_mm = 16, heading_mm = 5.5;
double entry_height_mm(std::size_t entries) { return entries > 10 ? 4.7 : 5.5; }

Sample line_sample(std::string text, Pen pen) {
  return {std::move(text), [pen](const Canvas& c, Paper at) { c.line({at, at + Paper{sample_mm, 0}}, pen); }};
}

/// A sample of each kind of line there is, at rest and at full travel.
void add_lines(const views::Scene& scene, std::vector<Sample>& all) {
  using views::Role;
  if (!scene.rest) return;
  const auto any = [&](Role role) {
    return std::any_of(scene.rest->lines.begin(), scene.rest->lines.end(),
                       [role](const views::LineSeen& line) { return line.role == role; });
  };
  for (const auto& [role, name] :
       {std::pair{Role::braking, "braking"}, {Role::reduction, "reduction"}, {Role::support, "support"}}) {
    if (!any(role)) continue;
    all.push_back(line_sample(fmt::format("{} line at rest", name), views::standing_pen(role)));
    if (scene.full && role != Role::support)
      all.push_back(line_sample(fmt::format("{} line at full travel", name), views::extreme_pen(role)));
  }
}

void add_block(const views::Scene& scene, std::vector<Sample>& all) {
  if (!scene.rest || scene.rest->blocks.empty()) return;
  all.push_back({"travelling block; thin: at full travel", [](const Canvas& c, Paper at) {
                   const Box box{at.x_mm + 6.4, at.y_mm - 1, at.x_mm + 9.6, at.y_mm + 1};
                   c.box(box, {medium_mm, LineType::continuous, Layer::sheaves});
                 }});
  if (!scene.rest->dead_ends.empty())
    all.push_back({"dead end of a line", [](const Canvas& c, Paper at) {
                     views::draw_dead_end(c, at + Paper{8, 0}, Layer::reduction_line);
                   }});
}

void add_members(const views::Scene& scene, std::vector<Sample>& all) {
  if (scene.members.empty()) return;
  all.push_back({"leg, guy or pole, to its far end", [](const Canvas& c, Paper at) {
                   c.line({at, at + Paper{sample_mm - 1, 0}}, views::member_pen);
                   views::draw_far_end(c, at + Paper{sample_mm - 1, 0});
                 }});
  if (std::any_of(scene.members.begin(), scene.members.end(), [](const views::MemberSeen& m) { return m.cut(); }))
    all.push_back({"break: it runs on, see notes", [](const Canvas& c, Paper at) {
                     c.line({at, at + Paper{sample_mm - 1, 0}}, views::member_pen);
                     break_mark(c, at + Paper{sample_mm - 1, 0}, 0, Layer::anchors, 2.2);
                   }});
}

std::vector<Sample> samples(const views::Scene& scene) {
  using views::Facing;
  const auto extreme = LineType::dash_double_dot;
  std::vector<Sample> all;
  if (scene.rest) all.push_back(line_sample("main line, empty", {extra_mm, LineType::continuous, Layer::main_line}));
  if (scene.full) all.push_back(line_sample("main line at full travel", {narrow_mm, extreme, Layer::main_line}));
  add_lines(scene, all);
  if (scene.rider_at_contact) all.push_back(line_sample("rider envelope", {narrow_mm, extreme, Layer::envelope}));
  if (std::any_of(scene.anchors.begin(), scene.anchors.end(),
                  [](const views::AnchorSeen& a) { return norm(a.governing_N) > 0; }))
    all.push_back(
        {"force of the rig on the anchor", [](const Canvas& c, Paper at) {
           arrow(c, at + Paper{1, 0}, at + Paper{sample_mm - 1, 0}, {medium_mm, LineType::continuous, Layer::loads});
         }});
  const auto trolley = [&](const char* text, Pen pen) {
    all.push_back({text, [pen](const Canvas& c, Paper at) {
                     views::draw_trolley(c, at + Paper{8, 0}, at + Paper{7, 0}, Facing::elevation, pen);
                   }});
  };
  if (scene.rest) trolley("brake trolley at rest", {wide_mm, LineType::continuous, Layer::braking_line});
  if (scene.full) trolley("brake trolley at full travel", {narrow_mm, LineType::dashed, Layer::braking_line});
  add_members(scene, all);
  all.push_back({"anchor: where the load acts", [](const Canvas& c, Paper at) {
                   views::draw_anchor(c, at + Paper{8, 0});
                 }});
  all.push_back(
      {"sheave, true radius or Ø1.6 symbol", [](const Canvas& c, Paper at) {
         c.circle(at + Paper{8, 0}, views::least_sheave_radius_mm, {medium_mm, LineType::continuous, Layer::sheaves});
         c.circle(at + Paper{8, 0}, 0.25, {0, LineType::continuous, Layer::sheaves}, Fill::ink);
       }});
  if (!scene.ghosts.empty())
    all.push_back({"sheave on a mount at full travel", [](const Canvas& c, Paper at) {
                     c.circle(at + Paper{8, 0}, 1.6, views::ghost_pen);
                   }});
  all.push_back({"brake unit, outlet to the left", [](const Canvas& c, Paper at) {
                   views::draw_unit(c, at + Paper{4.5, 0}, {-1, 0});
                 }});
  add_block(scene, all);
  if (std::any_of(scene.scans.begin(), scene.scans.end(),
                  [](const views::ScanSeen& s) { return !s.in_elevation.empty() || !s.in_plan.empty(); }))
    all.push_back(
        {"scan, where a view cuts it", [](const Canvas& c, Paper at) {
           for (double x : {2.0, 4.5, 5.5, 8.0, 10.5, 11.5, 14.0})
             c.circle(at + Paper{x, 0.4 * std::sin(x)}, 0.15, {0, LineType::continuous, Layer::structure}, Fill::ink);
         }});
  if (scene.rig->layout.backup_brake && scene.rest)
    all.push_back({"backup brake engages", [](const Canvas& c, Paper at) {
                     views::draw_backup_brake(c, at + Paper{8, 0});
                   }});
  return all;
}

}  // namespace

Block legend(const views::Scene& scene) {
  const std::vector<Sample> all = samples(scene);
  constexpr double text_gap_mm = 2, column_gap_mm = 4;
  const double pitch = entry_height_mm(all.size());
  const auto column_width = [all](const Canvas& canvas) {
    double widest = 0;
    for (const Sample& s : all) widest = std::max(widest, canvas.width(s.text, small_cap_mm));
    return sample_mm + text_gap_mm + widest + column_gap_mm;
  };
  const auto columns = [column_width](const Canvas& canvas, double width) {
    return std::max(1, static_cast<int>((width + column_gap_mm) / column_width(canvas)));
  };
  const auto rows = [all, columns](const Canvas& canvas, double width) {
    const int per_row = columns(canvas, width);
    return (static_cast<int>(all.size()) + per_row - 1) / per_row;
  };
  return {column_width,
          [rows, pitch](const Canvas& canvas, double width) { return heading_mm + rows(canvas, width) * pitch; },
          [=](const Canvas& canvas, Paper at, double width) {
            canvas.text(at - Paper{0, note_cap_mm}, "LEGEND", note_cap_mm, Layer::notes);
            const int down = rows(canvas, width);
            for (int i = 0; i < static_cast<int>(all.size()); ++i) {
              const int column = i / down, row = i % down;
              const Paper left = at + Paper{column * column_width(canvas), -heading_mm - (row + 0.5) * pitch};
              all[static_cast<std::size_t>(i)].draw(canvas, left);
              canvas.text(left + Paper{sample_mm + text_gap_mm, -small_cap_mm / 2},
                          all[static_cast<std::size_t>(i)].text, small_cap_mm, Layer::notes);
            }
          }};
}

}  // namespace fairlead::sheets
