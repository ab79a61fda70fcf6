#include "geometry/studies/difference.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/checks/counterpart.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/layout/items.hpp"
#include "geometry/mainline/names.hpp"
#include "geometry/rig/line_numbers.hpp"
#include "geometry/studies/set_out_points.hpp"

namespace fairlead {
namespace {

/// One item as it is on either side.
struct Both {
  std::optional<Item> was, is;
};

class Differ {
 public:
  Differ(const Judged& was, const Judged& is) : was_(was), is_(is) {}

  Difference found() const {
    Difference found;
    found.inputs = differences(was_.rig.layout, is_.rig.layout);
    found.moved = moved_points(found.inputs);
    found.frame = frame();
    found.main_line = states();
    const Item main_line{Item::Kind::main_line, 0};
    found.main_line_load = load_of({main_line, main_line});
    for (const Both& anchor : matched(all_of(Item::Kind::anchor, was_), all_of(Item::Kind::anchor, is_)))
      found.anchors.push_back({load_of(anchor), id_of(anchor)});
    for (const Both& line : matched(all_lines(was_.rig.layout), all_lines(is_.rig.layout)))
      found.lines.push_back(line_of(line));
    for (const Both& sheave : matched(all_of(Item::Kind::sheave, was_), all_of(Item::Kind::sheave, is_)))
      found.sheaves.push_back({id_of(sheave), found_by(fleet_angle, sheave)});
    found.findings = findings();
    return found;
  }

 private:
  template <class Get>
  Pair pair(const Both& item, const Get& get) const {
    Pair numbers;
    if (item.was) numbers.was = get(was_, *item.was);
    if (item.is) numbers.is = get(is_, *item.is);
    return numbers;
  }

  static std::vector<Item> all_of(Item::Kind kind, const Judged& side) {
    const Layout& layout = side.rig.layout;
    const std::size_t count = kind == Item::Kind::anchor ? layout.anchors.size() : layout.sheaves.size();
    std::vector<Item> items;
    for (std::size_t i = 0; i < count; ++i) items.push_back({kind, static_cast<int>(i)});
    return items;
  }

  std::vector<Both> matched(const std::vector<Item>& old, const std::vector<Item>& now) const {
    std::vector<Both> all;
    for (const Item item : old) all.push_back({item, same_item(was_.rig.layout, item, is_.rig.layout)});
    for (const Item item : now)
      if (!same_item(is_.rig.layout, item, was_.rig.layout)) all.push_back({std::nullopt, item});
    return all;
  }

  std::string id_of(const Both& item) const {
    return item.was ? *given_id(was_.rig.layout, *item.was) : *given_id(is_.rig.layout, *item.is);
  }

  /// What a check found about an item.
  Pair found_by(const Check& check, const Both& item) const {
    return pair(item, [&](const Judged& side, Item subject) -> std::optional<double> {
      const Finding* finding = counterpart(side.findings, {.check = &check, .subject = subject}, 0);
      return finding && finding->measured ? std::optional(finding->value) : std::nullopt;
    });
  }

  std::vector<MovedPoint> moved_points(const std::vector<PartChange>& inputs) const {
    std::vector<MovedPoint> points;
    for (const PartChange& part : inputs)
      for (const KeyChange& key : part.keys)
        if (key.was && key.is && key.was->form == Told::Form::place)
          points.push_back(moved(part.section, part.id, key.name, at(*key.is) - at(*key.was)));
    const auto was = rest_mark(was_), is = rest_mark(is_);
    if (was && is && *was != *is) points.push_back(moved("brake_trolley", "", "rest_mark", *is - *was));
    return points;
  }

  static Point3 at(const Told& told) { return {told.numbers[0].si, told.numbers[1].si, told.numbers[2].si}; }

  static std::optional<Point3> rest_mark(const Judged& side) {
    for (const SetOutPoint& point : set_out_points(side.rig))
      if (point.mark == Mark::rest_mark) return point.at;
    return std::nullopt;
  }

  MovedPoint moved(const std::string& section, const std::string& id, const std::string& key, Vec3 by_m) const {
    const Frame& frame = was_.rig.frame;
    return {section, id, key, by_m, dot(by_m, frame.along), dot(by_m, frame.across), dot(by_m, frame.up), norm(by_m)};
  }

  FrameChange frame() const {
    const auto support = [](const Judged& side, AnchorId MainLine::*end) {
      const Layout& layout = side.rig.layout;
      return layout.anchors.at(static_cast<std::size_t>(layout.main_line.*end)).position.value;
    };
    const Frame &was = was_.rig.frame, &is = is_.rig.frame;
    FrameChange change;
    change.start_by_m = support(is_, &MainLine::from) - support(was_, &MainLine::from);
    change.end_by_m = support(is_, &MainLine::to) - support(was_, &MainLine::to);
    change.turned_rad = std::atan2(dot(is.along, was.across), dot(is.along, was.along));
    change.span_m = {was.span_m, is.span_m};
    change.rise_m = {was.rise_m, is.rise_m};
    return change;
  }

  std::vector<StateChange> states() const {
    std::vector<StateChange> all;
    for (const Judged* side : {&was_, &is_}) {
      const mainline::MainLine* line = side->rig.main_line.solved();
      if (!line) continue;
      for (const mainline::State& state : line->states) {
        const std::string name = mainline::name_of(*line, state);
        auto known = std::find_if(all.begin(), all.end(), [&](const StateChange& one) { return one.name == name; });
        if (known == all.end()) known = all.insert(all.end(), StateChange{name, {}, {}, {}});
        const auto end = side == &was_ ? &Pair::was : &Pair::is;
        known->sag_m.*end = state.sag_m;
        known->start_tension_N.*end = state.start_tension_N;
        known->end_tension_N.*end = state.end_tension_N;
      }
    }
    return all;
  }

  LoadChange load_of(const Both& part) const {
    const auto demand = [](const Judged& side, const std::optional<Item>& item) -> std::optional<Extreme> {
      const loads::Loads* loads = side.rig.loads.solved();
      if (!loads || !item) return std::nullopt;
      return item->kind == Item::Kind::main_line ? loads->main_line.force_N
                                                 : loads->demands.at(static_cast<std::size_t>(item->index)).force_N;
    };
    LoadChange change;
    if (const auto was = demand(was_, part.was)) change.force_N.was = was->value, change.case_was = was->pose;
    if (const auto is = demand(is_, part.is)) change.force_N.is = is->value, change.case_is = is->pose;
    change.utilisation = pair(part, utilisation_of);
    return change;
  }

  static std::optional<double> utilisation_of(const Judged& side, Item part) {
    std::optional<double> worst;
    for (const Finding& finding : side.findings) {
      if (!finding.measured) continue;
      if (finding.subject == part && (finding.check == &anchor_utilisation || finding.check == &strength))
        return finding.value;
      if (finding.check == &member_utilisation && part.kind == Item::Kind::anchor &&
          side.rig.layout.members.at(static_cast<std::size_t>(finding.subject.index)).anchor ==
              static_cast<AnchorId>(part.index))
        worst = worst ? greater(*worst, finding.value) : finding.value;
    }
    return worst;
  }

  LineChange line_of(const Both& line) const {
    const auto number = [&](auto of) {
      return pair(line, [&](const Judged& side, Item item) { return of(side.rig, item); });
    };
    const Pair greatest_N = pair(line, [](const Judged& side, Item item) -> std::optional<double> {
      const auto tension_N = greatest_tension_N(side.rig, item);
      return tension_N ? std::optional(tension_N->value) : std::nullopt;
    });
    return {line.was ? line.was->kind : line.is->kind,
            id_of(line),
            number(finished_length_m),
            number(unloaded_length_m),
            number(cut_length_m),
            number(rest_tension_N),
            greatest_N};
  }

  /// The finding's place in the other list.
  static std::optional<std::size_t> in_other(const Judged& from, std::size_t f, const Judged& to) {
    Finding wanted{.check = from.findings[f].check};
    const auto subject = same_item(from.rig.layout, from.findings[f].subject, to.rig.layout);
    if (!subject) return std::nullopt;
    wanted.subject = *subject;
    const Finding* found = counterpart(to.findings, wanted, ordinal(from.findings, f));
    return found ? std::optional(static_cast<std::size_t>(found - to.findings.data())) : std::nullopt;
  }

  std::vector<FindingChange> findings() const {
    std::vector<FindingChange> all;
    for (std::size_t f = 0; f < was_.findings.size(); ++f) all.push_back({f, in_other(was_, f, is_), {}});
    for (std::size_t f = 0; f < is_.findings.size(); ++f)
      if (!in_other(is_, f, was_)) all.push_back({std::nullopt, f, {}});
    for (FindingChange& one : all) {
      if (one.was) one.reserve.was = reserve_of(was_.findings[*one.was]);
      if (one.is) one.reserve.is = reserve_of(is_.findings[*one.is]);
    }
    return all;
  }

  const Judged &was_, &is_;
};

}  // namespace

std::optional<double> growth(const Pair& pair) {
  if (!pair.was || !pair.is || *pair.was == 0) return std::nullopt;
  return *pair.is / *pair.was - 1;
}

Difference difference(const Judged& was, const Judged& is) { return Differ(was, is).found(); }

}  // namespace fairlead
