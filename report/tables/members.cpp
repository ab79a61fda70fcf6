#include <fmt/format.h>

#include "geometry/layout/member_fields.hpp"
#include "report/tables/parts.hpp"

namespace fairlead::tables {
namespace {

std::string word_for(MemberKind kind) {
  for (const auto& choice : choices_of<MemberKind>)
    if (choice.value == kind) return std::string(choice.word);
  return "unknown";
}

const std::string& id_of(const Layout& layout, std::size_t member) { return layout.members.at(member).id.value; }

/// Empty of a way in which nothing loads it.
void put(std::vector<Cell>& row, const Extreme& force, CaseLetters& letters) {
  row.push_back(force.pose < 0 ? Cell{} : cell(force.value, Dimension::force));
  row.push_back(force.pose < 0 ? Cell{} : Cell{letters.of(force.pose)});
}

}  // namespace

Table members(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  Table table{"Legs, guys and poles",
              {"member", "kind", "holds", "greatest tension", "case", "greatest compression", "case", "goes slack",
               "utilisation"},
              {},
              {}};
  if (layout.members.empty()) return table;
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  CaseLetters letters(*loads, style);
  for (std::size_t m = 0; m < layout.members.size(); ++m) {
    const Member& member = layout.members[m];
    const loads::MemberDemand& demand = loads->members.at(m);
    std::vector<Cell> row{member.id.value, word_for(member.kind),
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

Table members_lost(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "One member lost", {"lost", "member", "greatest tension", "case", "greatest compression", "case"}, {}, {}};
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
      table.rows.push_back(std::move(row));
    }
  }
  letters.explain(table);
  return table;
}

}  // namespace fairlead::tables
