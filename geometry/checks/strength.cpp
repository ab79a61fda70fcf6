#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/layout/termination_fields.hpp"
#include "geometry/rig/courses.hpp"
#include "geometry/rig/strength_left.hpp"

namespace fairlead {
namespace {

/// The main line and support lines may have a factor of their own.
Capacity capacity_of_cable(const std::optional<Real>& mbs_N, const Limits& limits, Place part) {
  const auto& factor = limits.main_line_factor ? limits.main_line_factor : limits.design_factor;
  if (!mbs_N) return {std::nullopt, part, "it carries load and has no mbs"};
  if (!factor) return {std::nullopt, mbs_N->place, "its mbs needs limits.main_line_factor or limits.design_factor"};
  return {*mbs_N / factor->at, mbs_N->place, ""};
}

/// One place of a line: what pulls there, and the share of its breaking strength that holds there.
struct Spot {
  Extreme force;
  std::optional<double> held = 1.0;
  std::string where{};  ///< "at its from_end (wedge)"; of the bare line ""
  std::string why{};    ///< the share is not known
};

/// A termination under what pulls at that end.
void add_end(std::vector<Spot>& spots, const std::optional<Termination>& end, std::string_view key, double diameter_m,
             const Extreme& force) {
  if (!end) return;
  spots.push_back({force, efficiency_of(*end, diameter_m), fmt::format("at its {} ({})", key, word_of(end->kind.value)),
                   fmt::format("the efficiency of its {} is not known", key)});
}

class Judge {
 public:
  Judge(const Rig& rig, std::vector<Finding>& out)
      : rig_(rig), out_(out), loads_(rig.loads.solved()), courses_(courses_of(rig.layout)) {}

  void run() {
    const Layout& layout = rig_.layout;
    judge_cable({Item::Kind::main_line, 0}, layout.main_line, layout.main_line.place,
                loads_ ? std::optional(loads_->main_line.force_N) : std::nullopt);
    each(layout.parallel_lines, Item::Kind::parallel_line, [&](const ParallelLine& line, Item item) {
      judge_cable(item, line, line.id.place,
                  loads_ ? std::optional(loads_->beside[static_cast<std::size_t>(item.index)].force_N) : std::nullopt);
    });
    each(layout.support_lines, Item::Kind::support_line,
         [&](const SupportLine& line, Item item) { judge_cable(item, line, line.id.place, along(item)); });
    each(layout.lines, Item::Kind::line, [&](const Line& line, Item item) {
      judge(item, capacity_of({}, line.mbs_N, layout.limits, line.id.place), spots_of(line, item));
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
    judge(item, capacity, force ? std::vector<Spot>{{.force = *force}} : std::vector<Spot>{});
  }

  void judge(Item item, const Capacity& capacity, const std::vector<Spot>& spots) {
    if (loads_ && spots.empty()) return;  // no line of the reeving loads it
    Finding finding{.check = &strength, .subject = item};
    finding.place = capacity.place;
    if (!loads_) {
      leave_undetermined(finding, rig_.loads.result->error());
    } else if (!capacity.force_N) {
      leave_not_judged(finding, capacity.why);
    } else {
      measure_load(spots, *capacity.force_N, finding);
    }
    out_.push_back(finding);
  }

  /// Its ends hold the most that pulls anywhere along it: where it has back anchors they stand behind its saddles.
  template <class Cable>
  void judge_cable(Item item, const Cable& cable, Place part, const std::optional<Extreme>& force) {
    std::vector<Spot> spots;
    if (force) {
      spots.push_back({.force = *force});
      add_end(spots, cable.from_end, "from_end", cable.diameter_m, *force);
      add_end(spots, cable.to_end, "to_end", cable.diameter_m, *force);
    }
    judge(item, capacity_of_cable(cable.mbs_N, rig_.layout.limits, part), spots);
  }

  /// Sheave and termination are different places: the weaker one governs, their losses do not multiply.
  std::vector<Spot> spots_of(const Line& line, Item item) const {
    std::vector<Spot> spots;
    const loads::LineDemand* demand = demand_of(item);
    if (!demand) return spots;
    spots.push_back({.force = demand->tension_N});
    const auto tightest = tightest_sheave(rig_.layout, line);
    if (tightest && (tightest->held || line.material == LineMaterial::steel)) {
      const std::string& id = rig_.layout.sheaves[static_cast<std::size_t>(tightest->sheave)].id.value;
      spots.push_back({demand->tension_N, tightest->held,
                       fmt::format("over sheave {} (D/d {:.1f})", id, tightest->ratio),
                       fmt::format("sheave {} is thinner than the line (D/d {:.2f}), and no table says what holds over "
                                   "it: give sheave_strength",
                                   id, tightest->ratio)});
    }
    const bool reversed = std::any_of(courses_->courses.begin(), courses_->courses.end(),
                                      [&](const Course& course) { return course.item == item && course.reversed; });
    add_end(spots, line.from_end, "from_end", line.diameter_m, reversed ? demand->to_N : demand->from_N);
    add_end(spots, line.to_end, "to_end", line.diameter_m, reversed ? demand->from_N : demand->to_N);
    return spots;
  }

  void measure_load(const std::vector<Spot>& spots, double capacity_N, Finding& finding) const {
    const Spot* weakest = nullptr;
    std::string unknown;
    for (const Spot& spot : spots) {
      if (!spot.held) {
        unknown = spot.why;
        continue;
      }
      const double used = spot.force.value / (capacity_N * *spot.held),
                   at_most = spot.force.bound / (capacity_N * *spot.held);
      finding.bound = weakest ? greater(finding.bound, at_most) : at_most;
      if (weakest && (std::isnan(finding.value) || used <= finding.value)) continue;
      weakest = &spot;
      finding.value = used;
    }
    finding.measured = true;
    // That a part carries no more than its capacity is no author's limit.
    finding.verdict = finding.value <= finding.bound && finding.bound <= 1 ? Verdict::pass
                      : finding.value > 1                                  ? Verdict::fail
                                                                           : Verdict::undetermined;
    if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the capacity";
    if (!unknown.empty() && finding.verdict != Verdict::fail) leave_not_judged(finding, unknown);
    finding.facts.push_back({"force", Quantity{weakest->force.value, Dimension::force}});
    finding.facts.push_back({"capacity", Quantity{capacity_N * *weakest->held, Dimension::force}});
    if (!weakest->where.empty()) {
      finding.facts.push_back({"held", Quantity{*weakest->held, Dimension::ratio}});
      finding.facts.push_back({"where", weakest->where});
    }
    add_case(finding, *loads_, weakest->force.pose, "nothing loads it");
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
    .sentence =
        "{force} of {capacity}, utilisation {value} ({case}); at travel {travel}; {where} {held} of its "
        "strength holds",
    .formula =
        "greatest force of any load case / wll, or x factor / mbs, <= 1; of a line the mbs at each end times the "
        "termination's efficiency, and along it times what its tightest sheave leaves",
    .source =
        "own definition; the factor applies to a breaking strength only (common practice, no source); efficiencies "
        "for steel of US Army TM 5-3810-305-10, table 4; over steel by D/d 40: 0.95, 30: 0.93, 20: 0.91, 15: "
        "0.89, 10: 0.86, 8: 0.83, 6: 0.79, 4: 0.75, 2: 0.65, 1: 0.50 (published rigging tables)",
    .remedy = "use a part of at least {force} working load, or ease what loads it; or let it hold more {where}",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
