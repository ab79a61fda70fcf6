// One upright page an anchor, for those who set it out.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/studies/set_out_points.hpp"
#include "report/sheets/blocks.hpp"
#include "report/sheets/crew_parts.hpp"
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

PaperSize upright(PaperSize paper) {
  return paper == PaperSize::ansi_b || paper == PaperSize::letter ? PaperSize::letter : PaperSize::a4;
}

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
    // Under every page, so that none goes up a pole without them.
    const Part cautions = crew::text("", {std::string(words::cautions()[0]), std::string(words::cautions()[1])});
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

/// What is said of one anchor, and of the brake unit.
class Crew {
 public:
  Crew(const Dossier& dossier, const Style& style, const Office& office)
      : rig_(dossier.judged.rig), style_(style), office_(office), points_(set_out_points(rig_)) {}

  std::vector<Sheet> take() {
    for (std::size_t anchor = 0; anchor < rig_.layout.anchors.size(); ++anchor) page_of(anchor);
    return std::move(out_);
  }

 private:
  struct Seen {
    const SetOutPoint* point{};
    Solved<LineOffset> from_line;
    Point3 at() const { return *point->at; }
  };

  bool stands_at(const SetOutPoint& point, AnchorId anchor) const {
    const auto index = static_cast<std::size_t>(point.item.index);
    switch (point.mark) {
      case Mark::bearing_point:
      case Mark::base:
        return index == static_cast<std::size_t>(anchor);
      case Mark::axle_centre:
      case Mark::swivel_eye:
        return rig_.layout.sheaves.at(index).on == Carrier{anchor};
      case Mark::foot:
        return rig_.layout.members.at(index).anchor == anchor;
      case Mark::outlet:
        return rig_.layout.brake_unit.on == anchor;
      case Mark::rest_mark:
        return false;
    }
    return false;
  }

  /// The main line hangs from it, so that nothing can be measured from the line before it stands.
  bool holds_main_line(AnchorId anchor) const {
    const MainLine& line = rig_.layout.main_line;
    return anchor == line.from || anchor == line.to;
  }

  std::string distance(double m) const { return words::travel(m, style_); }
  std::string id_of(AnchorId anchor) const { return rig_.layout.anchors.at(static_cast<std::size_t>(anchor)).id; }

  std::vector<crew::Entry> offsets(const LineOffset& o, const std::string& up_from) const {
    const auto up = words::up_of(o.up_m, style_), across = words::across_of(o.across_m, style_),
               rest = words::from_rest_of(o.from_rest_m, style_);
    return {{up.side + up_from, up.distance}, {across.side, across.distance}, {rest.side, rest.distance}};
  }

  /// By coordinates, and the other support beneath.
  Part support(AnchorId anchor, Point3 at) const {
    const MainLine& line = rig_.layout.main_line;
    const auto& axes = rig_.layout.site.axes;
    const bool start = anchor == line.from;
    const auto rise = words::up_of(start ? rig_.frame.rise_m : -rig_.frame.rise_m, style_);
    return crew::entries("", "", {{axes[0], distance(at.x)}, {axes[1], distance(at.y)}, {axes[2], distance(at.z)}},
                         fmt::format("To the other support, {}: level {}, {} {}", id_of(start ? line.to : line.from),
                                     distance(rig_.frame.span_m), rise.side, rise.distance),
                         crew::greatest_number_cap_mm);
  }

  Part numbers(const Seen& mark, bool first) const {
    const std::string name = first ? "" : mark.point->id, what = first ? "" : words::mark_of(rig_.layout, *mark.point);
    const double cap = first ? crew::greatest_number_cap_mm : crew::number_cap_mm;
    const std::string coordinates = words::shown(rig_.layout, mark.at(), style_);
    if (mark.from_line) return crew::entries(name, what, offsets(*mark.from_line, ""), coordinates, cap);
    const SupportOffset seen = offset_from_support(rig_, mark.at());
    return crew::entries(name, what, offsets(seen.offset, ", from " + id_of(seen.support)), coordinates, cap);
  }

  /// What the numbers are measured from.
  std::vector<std::string> measured_from(const std::vector<Seen>& marks) const {
    std::vector<std::string> all;
    // What holds for several marks is said once.
    for (std::size_t i = 0; i < marks.size();) {
      if (marks[i].from_line) {
        ++i;
        continue;
      }
      const std::string& why = marks[i].from_line.error().why;
      std::string ids;
      for (; i < marks.size() && !marks[i].from_line && marks[i].from_line.error().why == why; ++i)
        ids += (ids.empty() ? "" : ", ") + marks[i].point->id;
      all.push_back(fmt::format("{}: not measured from the main line: {}.", ids, why));
    }
    const auto seen = std::find_if(marks.begin(), marks.end(), [](const Seen& mark) { return mark.from_line; });
    if (seen != marks.end()) add_heights(*seen, all);
    if (seen != marks.end() || marks.size() > 1 || !holds_main_line(static_cast<AnchorId>(marks[0].point->item.index)))
      all.push_back(
          "LEFT and RIGHT: level and square to the main line, looking toward the landing. UPSTREAM and DOWNSTREAM: "
          "level along it, from the rest mark.");
    return all;
  }

  /// What line a height is measured from, and what would be measured on a colder and a warmer day.
  void add_heights(const Seen& mark, std::vector<std::string>& all) const {
    const LineOffset& offset = *mark.from_line;
    std::string sentence = fmt::format(
        "UP and DOWN: plumb from the centre of the bare main line at {}, with no rider and no trolley on it; the line "
        "is {} thick.",
        degrees(offset.temperature_K, style_),
        words::shown(rig_.layout.main_line.diameter_m, Dimension::length, style_));
    if (offset.open_m > 0)
      sentence += fmt::format(" Its height is known to {} either way only.",
                              words::shown(offset.open_m, Dimension::length, style_));
    all.push_back(std::move(sentence));
    const auto cold = offset_from_line(rig_, mark.at(), mainline::Weather::cold),
               warm = offset_from_line(rig_, mark.at(), mainline::Weather::warm);
    if (!cold || !warm) return;
    const auto in = [&](const LineOffset& o) {
      const auto up = words::up_of(o.up_m, style_);
      return fmt::format("{} {} at {}", up.side, up.distance, degrees(o.temperature_K, style_));
    };
    all.push_back(fmt::format("The same mark {} on another day: {}, {}.", mark.point->id, in(*cold), in(*warm)));
  }

  std::vector<Seen> marks_at(AnchorId anchor) const {
    std::vector<Seen> marks;
    for (const SetOutPoint& point : points_)
      if (point.at && stands_at(point, anchor))
        marks.push_back({&point, holds_main_line(anchor)
                                     ? unsolved("the main line is not hung before its supports stand")
                                     : offset_from_line(rig_, *point.at)});
    return marks;
  }

  void page_of(std::size_t index) {
    const AnchorId anchor{static_cast<unsigned short>(index)};
    const std::vector<Seen> marks = marks_at(anchor);
    const Seen& first = marks.front();
    std::vector<std::string> there;
    if (const std::string holds = joined(tables::hangs_on(rig_.layout, index)); !holds.empty())
      there.push_back("Holds: " + holds);
    if (const std::string held = joined(tables::held_by(rig_.layout, index)); !held.empty())
      there.push_back("Held by: " + held);
    Flow flow(office_, out_, id_of(anchor), words::mark_of(rig_.layout, *first.point), there);
    flow.put(holds_main_line(anchor) ? support(anchor, first.at()) : numbers(first, true));
    flow.put(crew::text("", measured_from(marks)));
    std::vector<views::SketchedMark> sketched;
    for (const Seen& mark : marks)
      if (mark.from_line) sketched.push_back({mark.point->id, *mark.from_line});
    if (first.from_line) flow.put(crew::sketches(sketched, rig_.frame.rise_m < 0, style_));
    for (const Seen& mark : marks)
      if (&mark != &first) flow.put(numbers(mark, false));
    flow.put(crew::signatures());
  }

  const Rig& rig_;
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
    draw_frame(canvas, paper);
    draw_title_strip(canvas, paper, dossier.judged.rig.layout,
                     {sheet.title, "Crew sheet", "none", ++number, static_cast<int>(sheets.size())});
  }
  return sheets;
}

}  // namespace fairlead::sheets
