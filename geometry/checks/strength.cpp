#include <algorithm>

#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/rig/courses.hpp"

namespace fairlead {
namespace {

/// The main line and support lines may have a factor of their own.
Capacity capacity_of_cable(const std::optional<Real>& mbs_N, const Limits& limits, Place part) {
  const auto& factor = limits.main_line_factor ? limits.main_line_factor : limits.design_factor;
  if (!mbs_N) return {std::nullopt, part, "it carries load and has no mbs"};
  if (!factor) return {std::nullopt, mbs_N->place, "its mbs needs limits.main_line_factor or limits.design_factor"};
  return {*mbs_N / factor->at, mbs_N->place, ""};
}

class Judge {
 public:
  Judge(const Rig& rig, std::vector<Finding>& out)
      : rig_(rig), out_(out), loads_(rig.loads.solved()), courses_(courses_of(rig.layout)) {}

  void run() {
    const Layout& layout = rig_.layout;
    judge({Item::Kind::main_line, 0}, capacity_of_cable(layout.main_line.mbs_N, layout.limits, layout.main_line.place),
          loads_ ? std::optional(loads_->main_line.force_N) : std::nullopt);
    each(layout.parallel_lines, Item::Kind::parallel_line, [&](const ParallelLine& line, Item item) {
      judge(item, capacity_of_cable(line.mbs_N, layout.limits, line.id.place),
            loads_ ? std::optional(loads_->beside[static_cast<std::size_t>(item.index)].force_N) : std::nullopt);
    });
    each(layout.support_lines, Item::Kind::support_line, [&](const SupportLine& line, Item item) {
      judge(item, capacity_of_cable(line.mbs_N, layout.limits, line.id.place), along(item));
    });
    each(layout.lines, Item::Kind::line, [&](const Line& line, Item item) {
      judge(item, capacity_of({}, line.mbs_N, layout.limits, line.id.place), along(item));
    });
    each(layout.sheaves, Item::Kind::sheave, [&](const Sheave& sheave, Item item) {
      judge(item, capacity_of(sheave.wll_N, sheave.mbs_N, layout.limits, sheave.id.place), on_sheave(item.index));
    });
    each(layout.blocks, Item::Kind::block, [&](const Block& block, Item item) {
      judge(item, capacity_of(block.wll_N, block.mbs_N, layout.limits, block.id.place),
            loads_ ? std::optional(loads_->blocks[static_cast<std::size_t>(item.index)].force_N) : std::nullopt);
    });
    each(layout.connectors, Item::Kind::connector, [&](const Connector& connector, Item item) {
      judge(item, capacity_of(connector.wll_N, connector.mbs_N, layout.limits, connector.id.place),
            on_connector(connector, item.index));
    });
    const BrakeTrolley& trolley = layout.brake_trolley;
    judge({Item::Kind::brake_trolley, 0},
          capacity_of(trolley.wll_N, trolley.mbs_N, layout.limits, trolley.attachment.place),
          loads_ ? std::optional(loads_->lines[static_cast<std::size_t>(rig_.reeving.inputs->pulling)].from_N)
                 : std::nullopt);
  }

 private:
  template <class Part, class Use>
  static void each(const std::vector<Part>& parts, Item::Kind kind, Use use) {
    for (std::size_t i = 0; i < parts.size(); ++i) use(parts[i], Item{kind, static_cast<int>(i)});
  }

  void judge(Item item, const Capacity& capacity, const std::optional<Extreme>& force) {
    if (loads_ && !force) return;  // no line of the reeving loads it
    Finding finding{.check = &strength, .subject = item};
    finding.place = capacity.place;
    if (!loads_) {
      leave_undetermined(finding, rig_.loads.result->error());
    } else if (!capacity.force_N) {
      leave_not_judged(finding, capacity.why);
    } else {
      measure_load(*force, *capacity.force_N, finding);
    }
    out_.push_back(finding);
  }

  void measure_load(const Extreme& force, double capacity_N, Finding& finding) const {
    finding.value = force.value / capacity_N;
    finding.bound = force.bound / capacity_N;
    finding.measured = true;
    // That a part carries no more than its capacity is no author's limit.
    finding.verdict = finding.value <= finding.bound && finding.bound <= 1 ? Verdict::pass
                      : finding.value > 1                                  ? Verdict::fail
                                                                           : Verdict::undetermined;
    if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the capacity";
    finding.facts.push_back({"force", Quantity{force.value, Dimension::force}});
    finding.facts.push_back({"capacity", Quantity{capacity_N, Dimension::force}});
    add_case(finding, *loads_, force.pose, "nothing loads it");
  }

  const loads::LineDemand* demand_of(Item line) const {
    const auto found = std::find(rig_.lines.begin(), rig_.lines.end(), line);
    return loads_ && found != rig_.lines.end() ? &loads_->lines[static_cast<std::size_t>(found - rig_.lines.begin())]
                                               : nullptr;
  }
  std::optional<Extreme> along(Item line) const {
    const loads::LineDemand* demand = demand_of(line);
    return demand ? std::optional(demand->tension_N) : std::nullopt;
  }
  std::optional<Extreme> on_sheave(int sheave) const {
    const auto found = std::find(rig_.reeved.begin(), rig_.reeved.end(), sheave);
    if (!loads_ || found == rig_.reeved.end()) return std::nullopt;
    return loads_->sheaves[static_cast<std::size_t>(found - rig_.reeved.begin())].force_N;
  }

  bool joins(const Connector& connector, const Held& held) const {
    const auto named = [&](const std::string& id) {
      return std::find(connector.joins.begin(), connector.joins.end(), id) != connector.joins.end();
    };
    if (const auto* anchor = std::get_if<AnchorId>(&held))
      return named(rig_.layout.anchors[static_cast<std::size_t>(*anchor)].id.value);
    if (const auto* block = std::get_if<BlockId>(&held))
      return named(rig_.layout.blocks[static_cast<std::size_t>(*block)].id.value);
    return named(std::holds_alternative<BrakeUnitEnd>(held) ? "brake_unit" : "brake_trolley");
  }

  /// The greatest tension at the line ends it joins to something; where it does not show which end that is, anywhere
  /// along the line.
  std::optional<Extreme> on_connector(const Connector& connector, int index) const {
    std::optional<Extreme> worst;
    if (!loads_ || !courses_) return worst;
    const auto take = [&](const Extreme& load) {
      if (!worst) worst = load;
      if (load.value > worst->value) worst->value = load.value, worst->pose = load.pose;
      worst->bound = greater(worst->bound, load.bound);
    };
    const LineEnd itself = static_cast<ConnectorId>(index);
    for (const Course& course : courses_->courses) {
      if (course.item.kind != Item::Kind::line) continue;
      const Line& line = rig_.layout.lines[static_cast<std::size_t>(course.item.index)];
      const auto& ids = connector.joins;
      if (std::find(ids.begin(), ids.end(), line.id.value) == ids.end()) continue;
      const loads::LineDemand& demand = *demand_of(course.item);
      const bool from = line.from == itself || line.to == itself ? (line.from == itself) != course.reversed
                                                                 : joins(connector, course.from);
      const bool to = line.from == itself || line.to == itself ? (line.to == itself) != course.reversed
                                                               : joins(connector, course.to);
      if (from) take(demand.from_N);
      if (to) take(demand.to_N);
      if (!from && !to) take(demand.tension_N);
    }
    return worst;
  }

  const Rig& rig_;
  std::vector<Finding>& out_;
  const loads::Loads* loads_;
  Solved<Courses> courses_;
};

void run(const Rig& rig, std::vector<Finding>& out) { Judge(rig, out).run(); }

}  // namespace

const Check strength{
    .name = "strength",
    .title = "Load of every part against its capacity",
    .sentence = "{force} of {capacity}, utilisation {value} ({case}); at travel {travel}",
    .formula = "greatest force of any load case / wll, or x factor / mbs, <= 1",
    .source = "own definition; the factor applies to a breaking strength only (common practice, no source)",
    .remedy = "use a part of at least {force} working load, or ease what loads it",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
