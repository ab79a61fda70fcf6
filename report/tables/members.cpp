#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "geometry/checks/capacity.hpp"
#include "geometry/layout/member_fields.hpp"
#include "report/tables/parts.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

const std::string& id_of(const Layout& layout, std::size_t member) { return layout.members.at(member).id.value; }

/// Empty of a way in which nothing loads it.
void put(std::vector<Cell>& row, const Extreme& force, CaseLetters& letters) {
  row.push_back(force.pose < 0 ? Cell{} : cell(force.value, Dimension::force));
  row.push_back(force.pose < 0 ? Cell{} : Cell{letters.of(force.pose)});
}

/// What one member carries in one case; in words where that is no force.
Cell carried(const loads::LoadCase& load_case, std::size_t member) {
  const auto index = static_cast<int>(member);
  if (load_case.lost == index) return "lost";
  const double N = load_case.in_member_N.at(member);
  if (!std::isfinite(N)) return "not held";
  if (std::find(load_case.slack.begin(), load_case.slack.end(), index) != load_case.slack.end()) return "slack";
  return cell(N, Dimension::force);
}

}  // namespace

Table members(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  Table table{"Legs, guys and poles",
              {"member", "kind", "holds", "greatest tension", "case", "greatest compression", "case", "goes slack",
               "utilisation"},
              {},
              {},
              {{3, 5}}};
  if (layout.members.empty()) return table;
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  CaseLetters letters(*loads, style);
  for (std::size_t m = 0; m < layout.members.size(); ++m) {
    const Member& member = layout.members[m];
    const loads::MemberDemand& demand = loads->members.at(m);
    std::vector<Cell> row{member.id.value, std::string(word_of(member.kind.value)),
                          layout.anchors.at(static_cast<std::size_t>(member.anchor)).id.value};
    put(row, demand.tension_N, letters);
    put(row, demand.compression_N, letters);
    row.push_back(demand.slack_case < 0 ? std::string("never") : "case " + letters.of(demand.slack_case));
    row.push_back(utilisation_of(dossier, {Item::Kind::member, static_cast<int>(m)}));
    table.rows.push_back(std::move(row));
  }
  table.notes = {"With all members there, without their weight. Goes slack: the first case listed in which it does."};
  for (std::size_t a = 0; a < loads->anchors.size(); ++a)
    if (const auto& not_held = loads->anchors[a].not_held)
      table.notes.push_back(fmt::format("Undetermined for {}: {} (case {}).", layout.anchors.at(a).id.value,
                                        not_held->why, letters.of(not_held->load_case)));
  letters.explain(table);
  return table;
}

Table member_cases(const Dossier& dossier, std::size_t anchor) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  std::vector<std::size_t> holding;
  for (std::size_t m = 0; m < layout.members.size(); ++m)
    if (layout.members[m].anchor == static_cast<AnchorId>(anchor)) holding.push_back(m);
  Table table{"What holds anchor " + layout.anchors.at(anchor).id.value, {"case no.", "action"}, {}, {}};
  const loads::Loads* loads = rig.loads.solved();
  if (holding.empty() || !loads) return table;
  for (const std::size_t m : holding)
    table.headings.push_back(std::string(word_of(layout.members[m].kind.value)) + " " + id_of(layout, m));
  for (std::size_t c = 0; c < loads->cases.size(); ++c) {
    const loads::LoadCase& load_case = loads->cases[c];
    std::vector<Cell> row{case_number(c), std::string(words::word_for(load_case.action))};
    for (const std::size_t m : holding) row.push_back(carried(load_case, m));
    table.rows.push_back(std::move(row));
  }
  table.compared.emplace_back(holding.size());
  std::iota(table.compared.back().begin(), table.compared.back().end(), std::size_t{2});
  table.notes = {
      "The forces of a row act at once, with the loads on the anchors of the same case. Tension positive, "
      "compression negative; unfactored. Slack: nothing pulls it. Case no.: of the load cases."};
  return table;
}

Table members_lost(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"One member lost",
              {"lost", "member", "greatest tension", "case", "greatest compression", "case", "utilisation"},
              {},
              {},
              {{2, 4}}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads || loads->lost.empty()) return table;
  CaseLetters letters(*loads, style);
  for (const loads::LostDemand& lost : loads->lost) {
    const auto gone = static_cast<std::size_t>(lost.member);
    if (lost.not_held) {
      table.notes.push_back(fmt::format("Without {} the rest do not hold: {} (case {}).", id_of(rig.layout, gone),
                                        lost.not_held->why, letters.of(lost.not_held->load_case)));
      continue;
    }
    for (std::size_t m = 0; m < rig.layout.members.size(); ++m) {
      if (m == gone || rig.layout.members[m].anchor != rig.layout.members[gone].anchor) continue;
      std::vector<Cell> row{id_of(rig.layout, gone), id_of(rig.layout, m)};
      put(row, lost.others.at(m).tension_N, letters);
      put(row, lost.others.at(m).compression_N, letters);
      const Use use = use_of(rig, m, lost.others.at(m));
      row.push_back(use.why.empty() ? cell(use.utilisation.value, Dimension::ratio) : Cell{"not judged"});
      table.rows.push_back(std::move(row));
    }
  }
  letters.explain(table);
  return table;
}

}  // namespace fairlead::tables
