#include <algorithm>

#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/run_left.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// The least run of one leg, over all sweeps.
struct Least {
  const LegOf* leg{};
  bool bodies{};  ///< between bodies; otherwise from a termination
  WorstOfSweeps worst;
};

/// The lesser of two; an unknown one is the least of all.
void take(Least& least, const Least& other) {
  const double bound = lesser(least.worst.extreme.bound, other.worst.extreme.bound);
  if (lesser(least.worst.extreme.value, other.worst.extreme.value) != least.worst.extreme.value) least = other;
  least.worst.extreme.bound = bound;
}

class Runs {
 public:
  Runs(const Rig& rig, const reeving::Reeving& reeving) : rig_(rig), reeving_(reeving), legs_(legs_of(rig)) {}

  const std::vector<LegOf>& legs() const { return legs_; }

  /// Between the bodies at both ends of a leg, or beyond its terminations.
  Least of(std::size_t leg, bool bodies) const {
    return {&legs_[leg], bodies, worst_of_sweeps(reeving_, Sense::least, [&](const reeving::Sweep& sweep) {
              return least_run_m(rig_, sweep, legs_, leg, bodies);
            })};
  }

 private:
  const Rig& rig_;
  const reeving::Reeving& reeving_;
  std::vector<LegOf> legs_;
};

bool on_block(const LegOf& leg, int block) { return leg.from.body == block || leg.to.body == block; }
bool terminated(const LegOf& leg) { return leg.from.termination_m > 0 || leg.to.termination_m > 0; }

void judge(const Rig& rig, Item subject, Place place, const std::optional<Least>& least, std::vector<Finding>& out) {
  Finding finding{.check = &block_run, .subject = subject};
  finding.place = place;
  if (!least) {
    leave_undetermined(finding, rig.reeving.result->error());
    out.push_back(finding);
    return;
  }
  const auto& limit = rig.layout.limits.block_run_m;
  measure(finding, least->worst, Sense::least, limit);
  // What has run home has failed whatever run was asked for, or not asked for.
  if (finding.value <= 0) finding.verdict = Verdict::fail;
  const LegOf& leg = *least->leg;
  const bool block = subject.kind == Item::Kind::block;
  const bool first = block ? leg.from.body == subject.index : leg.from.termination_m > 0;
  finding.facts.push_back({"line", leg.line});
  finding.facts.push_back({"here", block ? subject : (first ? leg.from : leg.to).item});
  finding.facts.push_back({"there", (first ? leg.to : leg.from).item});
  finding.facts.push_back({"what", std::string(least->bodies ? "between their bodies" : "beyond the termination")});
  if (least->worst.sweep >= 0) finding.facts.push_back({"case", passage_of(rig, least->worst.sweep)});
  finding.facts.push_back({"short", Quantity{(limit ? limit->at.value : 0) - finding.value, Dimension::length}});
  out.push_back(finding);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  std::optional<Runs> runs;
  if (reeving) runs.emplace(rig, *reeving);
  const auto least_of = [&](auto concerns, auto which) -> std::optional<Least> {
    if (!runs) return std::nullopt;
    std::optional<Least> least;
    for (std::size_t i = 0; i < runs->legs().size(); ++i) {
      const LegOf& leg = runs->legs()[i];
      if (!concerns(leg)) continue;
      for (const bool bodies : {true, false}) {
        if (!which(leg, bodies)) continue;
        const Least other = runs->of(i, bodies);
        least ? take(*least, other) : void(least = other);
      }
    }
    return least;
  };
  for (std::size_t b = 0; b < rig.layout.blocks.size(); ++b) {
    const int block = static_cast<int>(b);
    judge(rig, {Item::Kind::block, block}, rig.layout.blocks[b].id.place,
          least_of([block](const LegOf& leg) { return on_block(leg, block); },
                   [](const LegOf& leg, bool bodies) { return bodies || terminated(leg); }),
          out);
  }
  for (std::size_t l = 0; l < rig.layout.lines.size(); ++l) {
    const Line& line = rig.layout.lines[l];
    if (!line.from_termination_m && !line.to_termination_m) continue;
    const Item item{Item::Kind::line, static_cast<int>(l)};
    const auto stays = [&rig](reeving::Body body) {
      return body < 0 || body >= static_cast<int>(rig.layout.blocks.size());
    };
    const auto apart = [item, stays](const LegOf& leg) {
      return leg.line == item && stays(leg.from.body) && stays(leg.to.body) && terminated(leg);
    };
    const auto least = least_of(apart, [](const LegOf&, bool bodies) { return !bodies; });
    if (least || !runs) judge(rig, item, line.id.place, least, out);
  }
}

}  // namespace

const Check block_run{
    .name = "block-run",
    .title = "Run left before a block, an eye or a connector runs home",
    .sentence = "{value} left on {line} between {here} and {there} ({what}) at travel {travel} ({case})",
    .formula = "least chord of a leg, stretch included, less what bodies or terminations take of it",
    .source = "own definition",
    .remedy =
        "set {there} and {here} at least {short} further apart, or shorten the planned travel or the terminations",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
