#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

using clearance::Gap;
using clearance::Passing;

/// "1348.120, 911.000, 331.400": coordinates in the order of the site's axes.
std::string point(Point3 p, const Style& style) {
  const auto length = [&](double m) { return words::travel(m, style); };
  return fmt::format("{}, {}, {}", length(p.x), length(p.y), length(p.z));
}

std::string points(const Gap& gap, const Style& style) {
  return fmt::format("{} and {}", point(gap.on_a, style), point(gap.on_b, style));
}

std::string points_note(const Rig& rig) {
  const auto& axes = rig.layout.site.axes;
  return fmt::format("Points: {}, {}, {}, on the surfaces, where the least was seen.", axes[0], axes[1], axes[2]);
}

Cell length(double m) { return cell(m, Dimension::length); }

const std::string at_least_note =
    "At least: what the gap does not fall below, between the poses solved too. 0 or less: they meet.";

/// One of every passage that differs from others in the wind alone: the one that comes nearest.
std::vector<const Passing*> worst_of_winds(const Rig& rig, const std::vector<Passing>& passings) {
  const auto sweep = [&](const Passing& p) -> const reeving::Sweep& {
    return rig.reeving.solved()->sweeps.at(static_cast<std::size_t>(p.sweep));
  };
  const auto gap_m = [](const Passing& p) {
    return p.gaps.empty() ? std::numeric_limits<double>::infinity() : p.gaps.front().least_m.value;
  };
  std::vector<const Passing*> worst;
  for (const Passing& passing : passings) {
    const auto same = std::find_if(worst.begin(), worst.end(), [&](const Passing* other) {
      return other->other == passing.other && sweep(*other).path == sweep(passing).path &&
             sweep(*other).running == sweep(passing).running;
    });
    if (same == worst.end())
      worst.push_back(&passing);
    else if (gap_m(passing) < gap_m(**same))
      *same = &passing;
  }
  return worst;
}

/// "at contact"
std::string_view moment_name(clearance::Moment::When when) {
  const std::string_view words = moment(when);
  return words.substr(0, words.find(','));
}

std::string part_of(const Rig& rig, clearance::Thing thing_, int leg) {
  const std::string name = thing(rig, thing_);
  return leg < 0 ? name : fmt::format("leg {} of {}", leg + 1, name);
}

}  // namespace

Table clearances(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Clearances",
              {"of", "from", "least gap", "at least", "at travel", "passage", "nearest points"},
              {},
              {},
              {{2, 3}}};
  const clearance::Clearances* found = rig.clearance.solved();
  if (!found) return undetermined(std::move(table), rig.clearance.result->error());
  std::vector<const Gap*> gaps;
  for (const Gap& gap : found->gaps) gaps.push_back(&gap);
  std::stable_sort(gaps.begin(), gaps.end(),
                   [](const Gap* a, const Gap* b) { return a->least_m.value < b->least_m.value; });
  for (const Gap* gap : gaps)
    table.rows.push_back({thing(rig, gap->a), thing(rig, gap->b), length(gap->least_m.value),
                          length(gap->least_m.bound), length(gap->travel_m), passage(rig, gap->sweep),
                          points(*gap, style)});
  table.notes = {at_least_note + " A negative travel: the rider is that far upstream of the mark.", points_note(rig)};
  return table;
}

Table named_instants(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Named instants",
              {"instant", "passage", "at travel", "rider's nearest", "least gap", "at least", "nearest points"},
              {},
              {},
              {{4, 5}}};
  const clearance::Clearances* found = rig.clearance.solved();
  if (!found) return undetermined(std::move(table), rig.clearance.result->error());
  const auto gap_cells = [&](const Gap& gap) {
    return std::vector<Cell>{thing(rig, gap.b), length(gap.least_m.value), length(gap.least_m.bound),
                             points(gap, style)};
  };
  for (const Passing* met : worst_of_winds(rig, found->passings)) {
    const Passing& passing = *met;
    const bool redirect = passing.other.kind != clearance::Thing::Kind::block;
    std::vector<Cell> row{(redirect ? "under " : "passing ") + thing(rig, passing.other), passage(rig, passing.sweep)};
    if (passing.met != Passing::Met::at_travel) {
      row.push_back(std::string("never: it stays ") +
                    (passing.met == Passing::Met::stays_upstream ? "upstream" : "downstream"));
    } else {
      row.push_back(length(passing.travel_m));
      if (!passing.gaps.empty())
        for (Cell& cell : gap_cells(passing.gaps.front())) row.push_back(std::move(cell));
    }
    row.resize(table.headings.size());
    table.rows.push_back(std::move(row));
  }
  for (const clearance::Moment& moment : found->moments) {
    if (moment.when == clearance::Moment::When::beside) continue;
    std::vector<Cell> row{fmt::format("rider {}", moment_name(moment.when)), passage(rig, moment.gap.sweep),
                          length(moment.gap.travel_m)};
    for (Cell& cell : gap_cells(moment.gap)) row.push_back(std::move(cell));
    table.rows.push_back(std::move(row));
  }
  if (const auto& hands = found->hands; hands && hands->gap.sweep >= 0) {
    std::vector<Cell> row{std::string("hands beside the brake trolley"), passage(rig, hands->gap.sweep),
                          length(hands->gap.travel_m)};
    for (Cell& cell : gap_cells(hands->gap)) row.push_back(std::move(cell));
    table.rows.push_back(std::move(row));
    table.notes.push_back(
        fmt::format("Of the line's {} beside the brake trolley at most {} lie within the rider's reach.",
                    words::shown(hands->stretch_m, Dimension::length, style),
                    words::shown(hands->inside_m, Dimension::length, style)));
  }
  if (!table.rows.empty()) {
    table.notes.insert(
        table.notes.begin(),
        "Under, passing: the rider's wheel at the chainage of the sheave's centre, of the block's point. "
        "In wind from the worse side.");
    table.notes.push_back(at_least_note);
    table.notes.push_back(points_note(rig));
  }
  return table;
}

Table exclusions(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Not judged for clearance", {"of", "from", "within", "why"}, {}, {}};
  const clearance::Clearances* found = rig.clearance.solved();
  if (!found) return undetermined(std::move(table), rig.clearance.result->error());
  for (const clearance::Exclusion& left_out : found->excluded)
    table.rows.push_back(
        {part_of(rig, left_out.a, left_out.leg_a), part_of(rig, left_out.b, left_out.leg_b),
         left_out.within_m > 0 ? words::shown(left_out.within_m, Dimension::length, style) : std::string("everywhere"),
         std::string(clearance::reason(left_out.why))});
  return table;
}

}  // namespace fairlead::tables
