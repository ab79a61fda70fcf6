#include "report/tables/parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {

std::string letter(std::ptrdiff_t i) {
  const std::string first(1, static_cast<char>('A' + i % 26));
  return i < 26 ? first : first + std::to_string(i / 26);
}

Table undetermined(Table table, const Unsolved& why) {
  table.notes = {"Undetermined: " + why.why};
  return table;
}

std::string direction_of(Vec3 v) {
  const Vec3 u = unit(v);
  return fmt::format("({:.4f}, {:.4f}, {:.4f})", u.x, u.y, u.z);
}

const Finding* strength_of(const Dossier& dossier, Item item) {
  for (const Finding& finding : dossier.judged.findings)
    if (finding.subject == item && (finding.check->name == "anchor-utilisation" || finding.check->name == "strength" ||
                                    finding.check->name == "member-utilisation"))
      return &finding;
  return nullptr;
}

Cell utilisation_of(const Dossier& dossier, Item item) {
  const Finding* found = strength_of(dossier, item);
  return found && found->measured ? cell(found->value, Dimension::ratio) : Cell{};
}

Cell fact_of(const Finding* finding, std::string_view name) {
  if (!finding) return {};
  for (const Fact& fact : finding->facts) {
    if (fact.name != name) continue;
    if (const auto* quantity = std::get_if<Quantity>(&fact.value)) return *quantity;
    if (const auto* words = std::get_if<std::string>(&fact.value)) return *words;
  }
  return {};
}

bool rated_by_members(const Layout& layout, std::size_t anchor) {
  const Anchor& given = layout.anchors.at(anchor);
  return !given.wll_N && !given.mbs_N &&
         std::any_of(layout.members.begin(), layout.members.end(),
                     [&](const Member& member) { return member.anchor == static_cast<AnchorId>(anchor); });
}

const Finding* worst_member(const Dossier& dossier, std::size_t anchor) {
  const Layout& layout = dossier.judged.rig.layout;
  const Finding* worst = nullptr;
  for (const Finding& finding : dossier.judged.findings) {
    if (finding.check->name != "member-utilisation" ||
        layout.members.at(static_cast<std::size_t>(finding.subject.index)).anchor != static_cast<AnchorId>(anchor))
      continue;
    const auto outcome = words::outcome_of(finding);
    if (!worst || outcome < words::outcome_of(*worst) ||
        (outcome == words::outcome_of(*worst) && finding.value > worst->value))
      worst = &finding;
  }
  return worst;
}

std::string case_name(const loads::LoadCase& load_case, const Style& style) {
  const std::string travel = words::travel(load_case.travel_m, style);
  const bool on_span = load_case.action == loads::Action::rider_on_span ||
                       load_case.action == loads::Action::both_lines ||
                       (load_case.action == loads::Action::rescue && load_case.sweep < 0);
  if (load_case.moving)
    return fmt::format("{}, travel {}, {:.3f} s after contact", load_case.name, travel, load_case.moving->t_s);
  return on_span ? fmt::format("{}, rider at travel {}", load_case.name, travel)
                 : fmt::format("{}, travel {}", load_case.name, travel);
}

std::string Letters::of(const std::string& told) {
  auto found = std::find(told_.begin(), told_.end(), told);
  if (found == told_.end()) found = told_.insert(found, told);
  return letter(found - told_.begin());
}

void Letters::explain(Table& table) const {
  for (std::size_t i = 0; i < told_.size(); ++i)
    table.notes.push_back(fmt::format("Case {}: {}.", letter(static_cast<std::ptrdiff_t>(i)), told_[i]));
}

std::string CaseLetters::of(int load_case) {
  if (load_case < 0) return "none";
  return letters_.of(case_name(loads_.cases.at(static_cast<std::size_t>(load_case)), style_));
}

}  // namespace fairlead::tables
