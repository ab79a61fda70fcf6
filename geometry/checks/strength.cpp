#include <algorithm>

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/layout/items.hpp"

namespace fairlead {
namespace {

/// What a part may carry. A working load limit already has its factor; a breaking strength is divided by one.
struct Capacity {
  std::optional<double> force_N;
  Place place;
  std::string why;  ///< there is none
};

Capacity capacity_of(const std::optional<Real>& wll_N, const std::optional<Real>& mbs_N,
                     const std::optional<Limit>& factor, Place else_place, const char* factor_name) {
  if (wll_N) return {wll_N->value, wll_N->place, ""};
  if (!mbs_N) return {std::nullopt, else_place, "it has neither a wll nor an mbs"};
  if (!factor) return {std::nullopt, mbs_N->place, std::string("its mbs needs ") + factor_name};
  return {*mbs_N / factor->at, mbs_N->place, ""};
}

class Judge {
 public:
  Judge(const Rig& rig, std::vector<Finding>& out) : rig_(rig), out_(out), loads_(rig.loads.solved()) {}

  void run() {
    const Layout& layout = rig_.layout;
    const auto& factor = layout.limits.design_factor;
    const auto& cable_factor = layout.limits.main_line_factor ? layout.limits.main_line_factor : factor;
    const char* cable_factor_name = "limits.main_line_factor or limits.design_factor";
    judge({Item::Kind::main_line, 0},
          capacity_of(std::nullopt, layout.main_line.mbs_N, cable_factor, layout.main_line.place, cable_factor_name),
          loads_ ? &loads_->main_line.force_N : nullptr);
    for (std::size_t i = 0; i < layout.support_lines.size(); ++i) {
      const SupportLine& line = layout.support_lines[i];
      const Item item{Item::Kind::support_line, static_cast<int>(i)};
      judge(item, capacity_of(std::nullopt, line.mbs_N, cable_factor, line.place, cable_factor_name),
            line_demand(item));
    }
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
      const Line& line = layout.lines[i];
      const Item item{Item::Kind::line, static_cast<int>(i)};
      judge(item, capacity_of(std::nullopt, line.mbs_N, factor, line.place, "limits.design_factor"), line_demand(item));
    }
    for (std::size_t i = 0; i < layout.sheaves.size(); ++i) {
      const Sheave& part = layout.sheaves[i];
      judge({Item::Kind::sheave, static_cast<int>(i)},
            capacity_of(part.wll_N, part.mbs_N, factor, part.place, "limits.design_factor"), sheave_demand(i));
    }
    for (std::size_t i = 0; i < layout.blocks.size(); ++i) {
      const Block& part = layout.blocks[i];
      judge({Item::Kind::block, static_cast<int>(i)},
            capacity_of(part.wll_N, part.mbs_N, factor, part.place, "limits.design_factor"),
            loads_ ? &loads_->blocks[i].force_N : nullptr);
    }
    for (std::size_t i = 0; i < layout.connectors.size(); ++i) {
      const Connector& part = layout.connectors[i];
      const auto demand = connector_demand(part);
      judge({Item::Kind::connector, static_cast<int>(i)},
            capacity_of(part.wll_N, part.mbs_N, factor, part.place, "limits.design_factor"),
            demand ? &*demand : nullptr, "no line it joins is solved");
    }
    const BrakeTrolley& trolley = layout.brake_trolley;
    judge({Item::Kind::brake_trolley, 0},
          capacity_of(trolley.wll_N, trolley.mbs_N, factor, trolley.place, "limits.design_factor"),
          loads_ ? &loads_->lines[static_cast<std::size_t>(rig_.reeving.inputs->pulling)].from_N : nullptr);
  }

 private:
  void judge(Item item, const Capacity& capacity, const Extreme* force,
             const char* no_demand = "nothing runs over it") {
    Finding finding{.check = &strength, .subject = item};
    finding.place = capacity.place;
    if (!loads_) {
      leave_undetermined(finding, rig_.loads.result->error());
    } else if (!capacity.force_N) {
      leave_not_judged(finding, capacity.why);
    } else if (!force) {
      leave_not_judged(finding, no_demand);
    } else {
      const double of_N = *capacity.force_N;
      const Extreme utilisation{force->value / of_N, force->bound / of_N, force->pose};
      finding.value = utilisation.value;
      finding.bound = utilisation.bound;
      finding.measured = true;
      finding.limit = Limit{{1, {}}, "a part carries no more than its capacity"};
      finding.verdict = at_most(utilisation, finding.limit);
      if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the capacity";
      finding.facts.push_back({"force", Quantity{force->value, Dimension::force}});
      finding.facts.push_back({"capacity", Quantity{of_N, Dimension::force}});
      const bool loaded = force->pose >= 0;
      if (loaded) finding.travel_m = loads_->cases[static_cast<std::size_t>(force->pose)].travel_m;
      finding.facts.push_back({"case", loaded ? loads_->cases[static_cast<std::size_t>(force->pose)].name
                                              : std::string("nothing loads it")});
    }
    out_.push_back(finding);
  }

  std::optional<std::size_t> reeved_line(Item item) const {
    const auto found = std::find(rig_.lines.begin(), rig_.lines.end(), item);
    if (!loads_ || found == rig_.lines.end()) return std::nullopt;
    return static_cast<std::size_t>(found - rig_.lines.begin());
  }
  const Extreme* line_demand(Item item) const {
    const auto line = reeved_line(item);
    return line ? &loads_->lines[*line].tension_N : nullptr;
  }
  const Extreme* sheave_demand(std::size_t sheave) const {
    const auto found = std::find(rig_.reeved.begin(), rig_.reeved.end(), static_cast<int>(sheave));
    if (!loads_ || found == rig_.reeved.end()) return nullptr;
    return &loads_->sheaves[static_cast<std::size_t>(found - rig_.reeved.begin())].force_N;
  }
  /// The greatest tension of any line it joins: at whichever end, a line carries no more than that.
  std::optional<Extreme> connector_demand(const Connector& connector) const {
    std::optional<Extreme> worst;
    for (std::size_t i = 0; i < rig_.layout.lines.size(); ++i) {
      const auto& joins = connector.joins;
      if (std::find(joins.begin(), joins.end(), rig_.layout.lines[i].id.value) == joins.end()) continue;
      const Extreme* demand = line_demand({Item::Kind::line, static_cast<int>(i)});
      if (!demand) continue;
      if (!worst) worst = *demand;
      if (demand->value > worst->value) worst->value = demand->value, worst->pose = demand->pose;
      worst->bound = greater(worst->bound, demand->bound);
    }
    return worst;
  }

  const Rig& rig_;
  std::vector<Finding>& out_;
  const loads::Loads* loads_;
};

void run(const Rig& rig, std::vector<Finding>& out) { Judge(rig, out).run(); }

}  // namespace

const Check strength{
    .name = "strength",
    .title = "Load of every part against its capacity",
    .sentence = "{force} of {capacity}, utilisation {value} ({case})",
    .formula = "greatest force of any load case / wll, or x design factor / mbs",
    .source = "own definition; the factor applies to a breaking strength only (common practice, no source)",
    .remedy = "use a part of at least {force} working load, or ease the lines that load it",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
