#include <fmt/format.h>

#include <cmath>

#include "geometry/studies/arrest_figures.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {
namespace {

void replace(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// In the signs of print.
std::string printed(std::string formula) {
  replace(formula, "*", "×");
  replace(formula, " - ", " \u2212 ");
  replace(formula, "sqrt", "\u221a");
  replace(formula, "^2", "²");
  return formula;
}

std::string with_unit(const std::string& number, const std::string& unit) {
  return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

std::string inputs_of(const CalculationStep& step) {
  std::string all;
  for (const Figure& input : step.inputs)
    all += fmt::format("{}{} = {}: {}{}", all.empty() ? "" : "; ", input.symbol, with_unit(input.text(), input.unit),
                       input.says, input.from.empty() ? "" : fmt::format(" ({})", input.from));
  return all;
}

}  // namespace

Table calculation(const Dossier& dossier) {
  Table table{
      "Calculation: predicted, untested",
      {"no.", "step", "equation", "numbers put in", "result", "solver has", "may differ by", "inputs", "source"},
      {},
      {}};
  if (!dossier.arrest || !dossier.arrest->calculation) return table;
  int number = 0;
  for (const CalculationStep& step : dossier.arrest->calculation->steps) {
    const Figure& result = step.result;
    const auto in_unit = [&](double value, int decimals) {
      return with_unit(fmt::format("{:.{}f}", value, decimals), result.unit);
    };
    table.rows.push_back({fmt::format("{}.", ++number), step.title, printed(step.formula), printed(step.put_in),
                          with_unit(result.text(), result.unit),
                          step.solver ? in_unit(*step.solver, result.decimals + 1) : std::string("\u2013"),
                          step.solver ? in_unit(step.tolerance, result.decimals + 1) : std::string("\u2013"),
                          inputs_of(step), step.source});
  }
  table.notes.emplace_back(
      "Each result follows from the printed numbers alone and is rounded as printed; it may differ from the solver's "
      "by "
      "what that rounding can amount to. Angles in degrees, all else in SI units.");
  return table;
}

Table anchor_calculation(const Dossier& dossier, const Style& style) {
  Table table{"Anchor in long hand",
              {"force of", "tension, N", "direction along", "across", "up", "along, N", "across, N", "up, N"},
              {},
              {}};
  if (!dossier.arrest || !dossier.arrest->calculation || !dossier.arrest->calculation->anchor) return table;
  const AnchorCalculation& anchor = *dossier.arrest->calculation->anchor;
  const Rig& rig = dossier.judged.rig;
  table.title = "Anchor " + rig.layout.anchors[static_cast<std::size_t>(anchor.anchor)].id.value + " in long hand";
  const auto newtons = [](double force_N) { return fmt::format("{:.0f}", std::round(force_N) + 0.0); };  // no "-0"
  const auto row = [&](std::string what, std::string tension, const std::optional<Vec3>& direction, Vec3 force) {
    const auto part = [&](double Vec3::*axis) {
      return direction ? fmt::format("{:.4f}", *direction.*axis) : std::string();
    };
    table.rows.push_back({std::move(what), std::move(tension), part(&Vec3::x), part(&Vec3::y), part(&Vec3::z),
                          newtons(force.x), newtons(force.y), newtons(force.z)});
  };
  for (const AnchorForce& force : anchor.forces) row(force.what, force.tension.text(), force.direction, force.force_N);
  row("resultant", newtons(norm(anchor.sum_N)), std::nullopt, anchor.sum_N);
  row("solver has", newtons(norm(anchor.solver_N)), std::nullopt, anchor.solver_N);
  const loads::LoadCase& governing = rig.loads.solved()->cases[static_cast<std::size_t>(anchor.load_case)];
  table.notes.push_back("Governing case: " + case_name(governing, style) + ".");
  table.notes.push_back(fmt::format(
      "Force of the rig on the anchor = tension × direction. A component may differ from the solver's by {:.0f} N: "
      "rounding, and the weight of line on the sheaves.",
      std::ceil(anchor.tolerance_N)));
  return table;
}

}  // namespace fairlead::tables
