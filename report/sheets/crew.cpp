// Upright pages for those who set out, each of one anchor.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/studies/set_out_points.hpp"
#include "report/sheets/blocks.hpp"
#include "report/sheets/crew_words.hpp"
#include "report/sheets/furniture.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/marks.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

using crew::Part;
using crew::SeenMark;

PaperSize upright(PaperSize paper) { return paper >= PaperSize::ansi_a ? PaperSize::ansi_a : PaperSize::a4; }

/// Pages of one heading; a part that has no room left on a page begins the next.
class Flow {
 public:
  Flow(const Office& office, std::vector<Sheet>& out, std::string id, std::string mark, std::vector<std::string> there)
      : office_(office),
        paper_(stationery(upright(office.paper))),
        out_(out),
        id_(std::move(id)),
        mark_(std::move(mark)),
        there_(std::move(there)) {
    begin(false);
  }

  void put(const Part& part) {
    const double height = part.height(canvas(), field_.width());
    if (top_ - height < field_.bottom && !fresh_) begin(true);
    part.draw(canvas(), {field_.left, top_ - height, field_.right, top_});
    top_ -= height + gap_mm;
    fresh_ = false;
  }

 private:
  static constexpr double gap_mm = 4;

  Canvas canvas() const { return {out_.back().drawing, office_.font}; }

  void begin(bool continued) {
    out_.push_back({"Crew sheet " + id_, paper_.width_mm, paper_.height_mm, {}, true});
    field_ = paper_.field();
    const Box strip = title_strip(paper_);
    // Under every page, so that none goes up a pole without it; the strip says what the page is not.
    const Part cautions = crew::text("", {std::string(words::cautions()[1])});
    const double caution = cautions.height(canvas(), field_.width());
    cautions.draw(canvas(), {field_.left, strip.top + 3, field_.right, strip.top + 3 + caution});
    field_.bottom = strip.top + caution + 3 + gap_mm;
    top_ = field_.top;
    fresh_ = true;
    put(crew::heading(id_, continued ? mark_ + ", continued" : mark_, continued ? std::vector<std::string>{} : there_));
  }

  const Office& office_;
  Stationery paper_;
  std::vector<Sheet>& out_;
  std::string id_, mark_;
  std::vector<std::string> there_;
  Box field_;
  double top_{};
  bool fresh_ = true;  ///< nothing but its heading stands on the page
};

std::string joined(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& one : all) text += (text.empty() ? "" : ", ") + one;
  return text;
}

/// What stands on the pages of one heading; its own mark first.
struct Group {
  std::string id, mark;
  std::vector<std::string> there;
  std::vector<SeenMark> marks;
  std::vector<crew::Turned> turned;
  std::vector<Part> checks;  ///< what is not set out, but measured
};

class Crew {
 public:
  Crew(const Dossier& dossier, const Style& style, const Office& office)
      : dossier_(dossier),
        rig_(dossier.judged.rig),
        layout_(rig_.layout),
        style_(style),
        office_(office),
        points_(set_out_points(rig_)) {}

  std::vector<Sheet> take() {
    rest_mark();
    for (std::size_t anchor = 0; anchor < layout_.anchors.size(); ++anchor) pages_of(at_anchor(anchor));
    if (!unit_within_reach()) pages_of(unit());
    return std::move(out_);
  }

 private:
  std::string distance(double m) const { return words::travel(m, style_); }
  const Anchor& anchor_of(AnchorId anchor) const { return layout_.anchors.at(static_cast<std::size_t>(anchor)); }

  /// Whether who stands at its anchor reaches the unit's outlet too; else it has a page of its own.
  bool unit_within_reach() const {
    constexpr double reach_m = 1;  // of an arm and a rule
    const BrakeUnit& unit = layout_.brake_unit;
    return norm(unit.outlet.value - anchor_of(unit.on).position.value) <= reach_m;
  }

  bool stands_at(const SetOutPoint& point, AnchorId anchor) const {
    const auto index = static_cast<std::size_t>(point.item.index);
    switch (point.mark) {
      case Mark::bearing_point:
      case Mark::base:
        return index == static_cast<std::size_t>(anchor);
      case Mark::axle_centre:
      case Mark::swivel_eye:
        return layout_.sheaves.at(index).on == Carrier{anchor};
      case Mark::foot:
        return layout_.members.at(index).anchor == anchor;
      case Mark::outlet:
        return layout_.brake_unit.on == anchor && unit_within_reach();
      case Mark::rest_mark:
        return false;
    }
    return false;
  }

  std::vector<crew::Entry> offsets(const LineOffset& o, const std::string& up_from) const {
    const auto up = words::up_of(o.up_m, style_), across = words::across_of(o.across_m, style_),
               rest = words::from_rest_of(o.from_rest_m, style_);
    return {{up.side + up_from, up.distance}, {across.side, across.distance}, {rest.side, rest.distance}};
  }

  /// From the main line where it is measured from there, else from its nearer support.
  Part numbers(const std::string& name, const std::string& words, Point3 at, bool from_line, double cap_mm) const {
    const std::string coordinates = words::shown(layout_, at, style_);
    if (const auto offset = offset_from_line(rig_, at); offset && from_line)
      return crew::entries(name, words, offsets(*offset, ""), coordinates, cap_mm);
    const SupportOffset seen = offset_from_support(rig_, at);
    return crew::entries(name, words, offsets(seen.offset, ", from " + anchor_of(seen.support).id.value), coordinates,
                         cap_mm);
  }

  /// Of a support of the main line: by coordinates, and the other support beneath.
  Part support(AnchorId anchor) const {
    const MainLine& line = layout_.main_line;
    const auto& axes = layout_.site.axes;
    const bool start = anchor == line.from;
    const Point3 at = anchor_of(anchor).position;
    const auto rise = words::up_of(start ? rig_.frame.rise_m : -rig_.frame.rise_m, style_);
    return crew::entries(
        "", "", {{axes[0], distance(at.x)}, {axes[1], distance(at.y)}, {axes[2], distance(at.z)}},
        fmt::format("To the other support, {}: level {}, {} {}", anchor_of(start ? line.to : line.from).id.value,
                    distance(rig_.frame.span_m), rise.side, rise.distance),
        crew::greatest_number_cap_mm);
  }

  /// Sheaves that are turned or hung here, and the way out of the unit.
  void add_turned(AnchorId anchor, Group& group) const {
    for (std::size_t i = 0; i < layout_.sheaves.size(); ++i) {
      const Sheave& sheave = layout_.sheaves[i];
      if (sheave.on != Carrier{anchor}) continue;
      if (sheave.mount == Mount::fixed) group.turned.push_back(crew::axle_of(rig_, sheave));
      if (sheave.mount == Mount::swivel) group.turned.push_back(crew::swivel_of(rig_, sheave));
      if (sheave.mount != Mount::fixed) add_check(i, group);
    }
    if (layout_.brake_unit.on == anchor && unit_within_reach()) group.turned.push_back(crew::outlet_of(rig_));
  }

  /// Where the centre of a sheave on a mount comes to lie.
  void add_check(std::size_t sheave, Group& group) const {
    const Sheave& hung = layout_.sheaves[sheave];
    const std::string mount = tables::mount_of(layout_, hung, style_);
    group.there.push_back(fmt::format("Sheave {}: {}; its plane follows its line", hung.id.value, with_minus(mount)));
    const Item item{Item::Kind::sheave, static_cast<int>(sheave)};
    const auto body = std::find(rig_.bodies.begin(), rig_.bodies.end(), item);
    if (body == rig_.bodies.end()) return;
    if (const auto centre = tables::centre_at_rest(rig_, static_cast<std::size_t>(body - rig_.bodies.begin())))
      group.checks.push_back(numbers(hung.id, "check, not set out: its centre at rest tension, trolley at its mark",
                                     *centre, true, crew::number_cap_mm));
  }

  Group at_anchor(std::size_t index) const {
    const AnchorId anchor{static_cast<unsigned short>(index)};
    Group group{layout_.anchors[index].id, {}, {}, {}, {}, {}};
    for (const SetOutPoint& point : points_)
      if (point.at && stands_at(point, anchor))
        group.marks.push_back({&point, crew::holds_main_line(layout_, anchor)
                                           ? unsolved("it is not hung before its supports stand")
                                           : offset_from_line(rig_, *point.at)});
    group.mark = "bearing point: where the load acts";
    if (const std::string holds = joined(tables::hangs_on(layout_, index)); !holds.empty())
      group.there.push_back("Holds: " + holds);
    if (const std::string held = joined(tables::held_by(layout_, index)); !held.empty())
      group.there.push_back("Held by: " + held);
    add_turned(anchor, group);
    return group;
  }

  Group unit() const {
    const auto outlet = std::find_if(points_.begin(), points_.end(),
                                     [](const SetOutPoint& point) { return point.mark == Mark::outlet; });
    return {outlet->id,
            words::mark_of(layout_, *outlet),
            {"On: anchor " + anchor_of(layout_.brake_unit.on).id.value},
            {{&*outlet, offset_from_line(rig_, *outlet->at)}},
            {crew::outlet_of(rig_)},
            {}};
  }

  void pages_of(const Group& group) {
    Flow flow(office_, out_, group.id, group.mark, group.there);
    const SeenMark& own = group.marks.front();
    const auto anchor = static_cast<AnchorId>(own.point->item.index);
    const bool by_coordinates = own.point->item.kind == Item::Kind::anchor && crew::holds_main_line(layout_, anchor);
    flow.put(by_coordinates ? support(anchor)
                            : numbers("", "", own.at(), own.from_line.has_value(), crew::greatest_number_cap_mm));
    flow.put(crew::text("", crew::measured_from(rig_, group.marks, style_)));
    std::vector<views::SketchedMark> sketched;
    for (const SeenMark& mark : group.marks)
      if (mark.from_line) sketched.push_back({mark.point->id, *mark.from_line});
    if (own.from_line) flow.put(crew::sketches(sketched, rig_.frame.rise_m < 0, style_));
    for (const SeenMark& mark : group.marks)
      if (&mark != &own)
        flow.put(numbers(mark.point->id, words::mark_of(layout_, *mark.point), mark.at(), mark.from_line.has_value(),
                         crew::number_cap_mm));
    for (const Part& check : group.checks) flow.put(check);
    for (std::size_t i = 0; i < group.turned.size(); i += 2)
      flow.put(crew::lies({group.turned.begin() + static_cast<std::ptrdiff_t>(i),
                           group.turned.begin() + static_cast<std::ptrdiff_t>(std::min(i + 2, group.turned.size()))},
                          rig_.frame, layout_.site.axes[1]));
    std::vector<std::string> ids;
    for (const SeenMark& mark : group.marks) ids.push_back(mark.point->id);
    flow.put(crew::tapes(dossier_, ids, style_));
    flow.put(crew::together({crew::allowances(dossier_, ids, style_), crew::signatures()}));
  }

  /// A mark on the main line: by tapes laid along it and by level distances.
  Part on_line(const std::string& name, const std::string& words, double chainage_m, const std::string& beneath,
               double cap_mm) const {
    const Frame& frame = rig_.frame;
    const MainLine& line = layout_.main_line;
    const double start_m = frame.chainage_of_origin_m, end_m = start_m + frame.span_m;
    const std::string &from = anchor_of(line.from).id, &to = anchor_of(line.to).id;
    const auto taped = taped_along_line_m(rig_, chainage_m, end_m);
    return crew::entries(name, words,
                         {{"ALONG THE LINE, from " + to, taped ? distance(*taped) : "unknown"},
                          {"LEVEL, from " + to, distance(end_m - chainage_m)},
                          {"LEVEL, from " + from, distance(chainage_m - start_m)}},
                         beneath, cap_mm);
  }

  /// The supports, and what is marked between them, from upstream on.
  std::vector<views::MarkOnLine> marks_on_line(const std::string& rest) const {
    const double rest_m = layout_.brake_trolley.rest_m;
    const MainLine& line = layout_.main_line;
    std::vector<std::pair<double, views::MarkOnLine>> marks{{rest_m, {rest, "rest mark"}}};
    if (layout_.backup_brake) marks.push_back({layout_.backup_brake->engages_m, {"backup", "backup brake"}});
    std::stable_sort(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<views::MarkOnLine> all{{anchor_of(line.from).id, "support"}};
    for (auto& mark : marks) all.push_back(std::move(mark.second));
    all.push_back({anchor_of(line.to).id, "support"});
    return all;
  }

  void rest_mark() {
    const BrakeTrolley& trolley = layout_.brake_trolley;
    const auto rest = std::find_if(points_.begin(), points_.end(),
                                   [](const SetOutPoint& point) { return point.mark == Mark::rest_mark; });
    Flow flow(office_, out_, rest->id, words::mark_of(layout_, *rest),
              {"Set out before all marks that are measured from it"});
    flow.put(on_line("", "", trolley.rest_m, rest->at ? words::shown(layout_, *rest->at, style_) : "",
                     crew::greatest_number_cap_mm));
    std::vector<std::string> from;
    const double end_m = rig_.frame.chainage_of_origin_m + rig_.frame.span_m;
    if (const auto taped = taped_along_line_m(rig_, trolley.rest_m, end_m); !taped)
      from.push_back(fmt::format("Along the line: unknown: {}.", taped.error().why));
    from.push_back(fmt::format(
        "ALONG THE LINE: a tape laid on the bare main line at {}, from the bearing point, with no rider and no trolley "
        "on it. LEVEL: in plan, between plumb lines.",
        degrees(layout_.main_line.at_temperature_K, style_)));
    flow.put(crew::text("", from));
    flow.put(crew::main_line_sketch(marks_on_line(rest->id)));
    if (layout_.backup_brake)
      flow.put(on_line("backup", "where the backup brake engages: " + layout_.backup_brake->description.value,
                       layout_.backup_brake->engages_m, "", crew::number_cap_mm));
    flow.put(crew::tapes(dossier_, {rest->id}, style_));
    flow.put(crew::together({crew::allowances(dossier_, {rest->id}, style_), crew::signatures()}));
  }

  const Dossier& dossier_;
  const Rig& rig_;
  const Layout& layout_;
  const Style& style_;
  const Office& office_;
  std::vector<SetOutPoint> points_;
  std::vector<Sheet> out_;
};

}  // namespace

std::vector<Sheet> compose_crew(const Dossier& dossier, const Style& style, const Office& office) {
  std::vector<Sheet> sheets = Crew(dossier, style, office).take();
  const Stationery paper = stationery(upright(office.paper));
  int number = 0;
  for (Sheet& sheet : sheets) {
    const Canvas canvas(sheet.drawing, office.font);
    draw_frame(canvas, paper, true);
    draw_title_strip(canvas, paper, dossier.judged.rig.layout,
                     {sheet.title, "Crew sheet", "none", ++number, static_cast<int>(sheets.size())});
  }
  return sheets;
}

}  // namespace fairlead::sheets
