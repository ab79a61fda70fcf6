#include "geometry/layout/termination_fields.hpp"
#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

std::string end_name(const Layout& layout, const LineEnd& end) {
  if (const auto* anchor = std::get_if<AnchorId>(&end))
    return words::id_of(layout, {Item::Kind::anchor, static_cast<int>(*anchor)});
  if (const auto* block = std::get_if<BlockId>(&end))
    return words::id_of(layout, {Item::Kind::block, static_cast<int>(*block)});
  if (const auto* connector = std::get_if<ConnectorId>(&end))
    return words::id_of(layout, {Item::Kind::connector, static_cast<int>(*connector)});
  return std::string(words::kind_of(std::holds_alternative<BrakeTrolleyEnd>(end) ? Item::Kind::brake_trolley
                                                                                 : Item::Kind::brake_unit));
}

/// What a schedule says of a line of either kind.
struct Facts {
  std::string material;
  double diameter_m{}, mass_kg_per_m{};
  std::optional<Real> mbs_N, tails_m;
  std::string ends;  ///< how they are made; empty where neither is given
};

std::string ends_of(const std::optional<Termination>& from, const std::optional<Termination>& to) {
  if (!from && !to) return {};
  const auto made = [](const std::optional<Termination>& end) {
    return end ? word_of(end->kind.value) : std::string_view("not given");
  };
  return std::string(made(from)) + ", " + std::string(made(to));
}

Facts facts_of(const Layout& layout, Item line) {
  const auto index = static_cast<std::size_t>(line.index);
  if (line.kind == Item::Kind::support_line) {
    const SupportLine& support = layout.support_lines.at(index);
    return {"support line", support.diameter_m, support.mass_kg_per_m,
            support.mbs_N,  std::nullopt,       ends_of(support.from_end, support.to_end)};
  }
  const Line& given = layout.lines.at(index);
  return {std::string(words::word_for(given.material.value)),
          given.diameter_m,
          given.mass_kg_per_m,
          given.mbs_N,
          given.tails_m,
          ends_of(given.from_end, given.to_end)};
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace

std::vector<std::string> runs_over(const Layout& layout, Item line) {
  const auto index = static_cast<std::size_t>(line.index);
  if (line.kind == Item::Kind::support_line) {
    const SupportLine& support = layout.support_lines.at(index);
    return {end_name(layout, support.from), end_name(layout, support.carries), end_name(layout, support.to)};
  }
  const Line& given = layout.lines.at(index);
  std::vector<std::string> names{end_name(layout, given.from)};
  for (const Over& over : given.route)
    names.push_back(words::id_of(layout, {Item::Kind::sheave, static_cast<int>(over.sheave)}));
  names.push_back(end_name(layout, given.to));
  return names;
}

Table lines(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{
      "Line schedule", {"line", "made of", "diameter", "mass", "breaking strength", "runs over", "ends"}, {}, {}};
  for (const Item line : all_lines(layout)) {
    const Facts facts = facts_of(layout, line);
    table.rows.push_back({words::id_of(layout, line), facts.material, cell(facts.diameter_m, Dimension::length),
                          cell(facts.mass_kg_per_m, Dimension::mass_per_length), cell(facts.mbs_N, Dimension::force),
                          joined(runs_over(layout, line)), facts.ends});
  }
  return table;
}

Table line_lengths(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Line lengths",
      {"line", "hanging length", "at tension", "unloaded", "tails", "cut length"},
      {},
      {"Hanging length: bearing to bearing along the line as it hangs at rest, brake trolley at its mark, all lines as "
       "measured, at that tension at its end farther from the trolley; of the line into the brake unit from its "
       "outlet. "
       "Unloaded: without its stretch. Tails: both terminations together. Cut length: unloaded, with the tails."}};
  for (const Item line : all_lines(rig.layout))
    table.rows.push_back({words::id_of(rig.layout, line), cell(finished_length_m(rig, line), Dimension::length),
                          line.kind == Item::Kind::line ? cell(rest_tension_N(rig, line), Dimension::force) : Cell{},
                          cell(unloaded_length_m(rig, line), Dimension::length),
                          cell(facts_of(rig.layout, line).tails_m, Dimension::length),
                          cell(cut_length_m(rig, line), Dimension::length)});
  std::string unstretched;
  for (const Line& line : rig.layout.lines)
    if (!line.ea_N) unstretched += (unstretched.empty() ? "" : ", ") + line.id.value;
  if (!unstretched.empty())
    table.notes.push_back("No stretch is given of " + unstretched +
                          ": unloaded is as it hangs, and the cut length allows for none.");
  if (!rig.reeving.solved()) table.notes.push_back("Lengths undetermined: " + rig.reeving.result->error().why);
  return table;
}

Table line_tensions(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Line tensions",
              {"line", "at rest", "greatest", "at most", "breaking strength", "utilisation", "case"},
              {},
              {"At rest: at the end farther from the trolley, as measured. Greatest: anywhere along the line; at most: "
               "what it does not pass between the poses solved."},
              {{2, 3}}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  CaseLetters letters(*loads, style);
  for (const Item line : all_lines(rig.layout)) {
    const auto tension_N = greatest_tension_N(rig, line);
    if (!tension_N) continue;
    table.rows.push_back({words::id_of(rig.layout, line), cell(rest_tension_N(rig, line), Dimension::force),
                          cell(tension_N->value, Dimension::force), cell(tension_N->bound, Dimension::force),
                          cell(facts_of(rig.layout, line).mbs_N, Dimension::force), utilisation_of(dossier, line),
                          letters.of(tension_N->pose)});
  }
  letters.explain(table);
  return table;
}

}  // namespace fairlead::tables
