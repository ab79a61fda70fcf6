#include <fmt/format.h>

#include <algorithm>

#include "report/tables/tables.hpp"

namespace fairlead::tables {
namespace {

const std::string sign = "Force of the rig on the anchor, components positive along the site's axes, unfactored.";

Cell component(double N) { return cell(N, Dimension::force); }

/// What the check of the anchor's utilisation found; it alone knows the capacity.
const Finding* utilisation_of(const std::vector<Finding>& findings, std::size_t anchor) {
  const Item item{Item::Kind::anchor, static_cast<int>(anchor)};
  for (const Finding& finding : findings)
    if (finding.check->name == "anchor-utilisation" && finding.subject == item) return &finding;
  return nullptr;
}

Cell capacity_of(const Finding* found) {
  if (!found) return {};
  for (const Fact& fact : found->facts)
    if (const auto* quantity = std::get_if<Quantity>(&fact.value); quantity && fact.name == "capacity")
      return *quantity;
  return {};
}

/// How a breaking strength became a capacity; a working load limit is one as it stands.
std::string factor_note(const Anchor& anchor, const Limits& limits) {
  if (!anchor.mbs_N) return {};
  return limits.design_factor ? fmt::format("Capacity of {}: its mbs over the design factor {}.", anchor.id.value,
                                            print_quantity({limits.design_factor->at, Dimension::none}))
                              : fmt::format("No capacity of {}: its mbs needs a design factor.", anchor.id.value);
}

/// A, B, ... Z, A1, B1, ...
std::string case_letter(std::ptrdiff_t i) {
  const std::string letter(1, static_cast<char>('A' + i % 26));
  return i < 26 ? letter : letter + std::to_string(i / 26);
}

}  // namespace

Table anchor_loads(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{"Anchor loads",
              {"anchor", axes[0], axes[1], axes[2], "size", "capacity", "utilisation", "case"},
              {},
              {sign + " The components of a row act at once."}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) {
    table.notes = {"Undetermined: " + rig.loads.result->error().why};
    return table;
  }
  std::vector<std::string> names;  // of the governing cases, in the order of the rows
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const Anchor& anchor = rig.layout.anchors[i];
    const Extreme& force = loads->demands.at(i).force_N;
    const Finding* found = utilisation_of(dossier.judged.findings, i);
    const Cell utilisation = found && found->measured ? cell(found->value, Dimension::ratio) : Cell{};
    std::vector<Cell> row{anchor.id.value,    {}, {}, {}, component(force.value), capacity_of(found), utilisation,
                          std::string("none")};
    if (const std::string note = factor_note(anchor, rig.layout.limits); !note.empty()) table.notes.push_back(note);
    if (force.pose >= 0) {
      const loads::LoadCase& governing = loads->cases.at(static_cast<std::size_t>(force.pose));
      const Vec3 on = governing.on_anchor_N.at(i);
      row[1] = component(on.x), row[2] = component(on.y), row[3] = component(on.z);
      auto named = std::find(names.begin(), names.end(), governing.name);
      if (named == names.end()) named = names.insert(named, governing.name);
      row[7] = case_letter(named - names.begin());
    }
    table.rows.push_back(std::move(row));
  }
  for (std::size_t i = 0; i < names.size(); ++i)
    table.notes.push_back(fmt::format("Case {}: {}.", case_letter(static_cast<std::ptrdiff_t>(i)), names[i]));
  return table;
}

Table load_cases(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{"Load cases", {"case", "anchor", axes[0], axes[1], axes[2], "size"}, {}, {sign}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) {
    table.notes = {"Undetermined: " + rig.loads.result->error().why};
    return table;
  }
  for (const loads::LoadCase& load_case : loads->cases)
    for (std::size_t i = 0; i < load_case.on_anchor_N.size(); ++i) {
      const Vec3 on = load_case.on_anchor_N[i];
      table.rows.push_back({i == 0 ? Cell{load_case.name} : Cell{}, rig.layout.anchors.at(i).id.value, component(on.x),
                            component(on.y), component(on.z), component(norm(on))});
    }
  return table;
}

}  // namespace fairlead::tables
