#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/sentence.hpp"
#include "report/words/trial.hpp"

namespace fairlead::tables {
namespace {

Dimension dimension_of(trial::Input what) { return what == trial::Input::drag ? Dimension::area : Dimension::ratio; }

std::string number(double value, trial::Input what, const Style& style) {
  if (dimension_of(what) == Dimension::ratio) return fmt::format("{:.4f}", value);
  return style.units == Units::us ? words::shown(value, Dimension::area, style) : fmt::format("{:.4f} m2", value);
}

/// How sure of itself the fit is, and which reading it likes least.
std::string agreement(const trial::Plan& plan, const trial::Fit& fit) {
  std::string words =
      fmt::format("Chi-squared {:.1f} of {} degrees, which chance exceeds with {:.1f} %{}.", fit.chi_squared,
                  fit.redundancy, 100 * fit.probability,
                  fit.agrees ? "" : ": the readings disagree with every choice, and nothing is judged by it");
  const auto worst = std::ranges::max_element(
      fit.residuals, {}, [](const trial::FitResidual& residual) { return std::abs(residual.over_u); });
  if (worst != fit.residuals.end())
    words += fmt::format(" Farthest off is the {} of {}, by {:.1f} of its uncertainties.", words::name_of(worst->what),
                         plan.tests[worst->test].id, std::abs(worst->over_u));
  return words;
}

void add_correlations(const trial::Fit& fit, Table& table) {
  constexpr double strong = 0.7;
  for (std::size_t i = 0; i < trial::inputs; ++i)
    for (std::size_t j = i + 1; j < trial::inputs; ++j)
      if (const double c = fit.correlation[i][j]; std::abs(c) > strong)
        table.notes.push_back(
            fmt::format("Hard to tell apart: {} and {}, correlation {:.2f}: the readings suit as well with {}.",
                        words::name_of(static_cast<trial::Input>(i)), words::name_of(static_cast<trial::Input>(j)), c,
                        c > 0 ? "both up or both down" : "one up and the other down"));
  for (const trial::Untold& way : fit.untold)
    table.notes.push_back(
        fmt::format("Not told by these tests: {}; {:.0f} % of what the layout's ranges left open there is open still.",
                    words::told(way), 100 * way.left));
}

}  // namespace

Table trial_fit(const Dossier& dossier, const Style& style) {
  Table table{"What the tests tell of the inputs",
              {"input", "before", "uncertainty", "fitted", "uncertainty", "95 % between"},
              {},
              {}};
  if (!dossier.trial || !dossier.trial->learnt) return table;
  const auto& fitted = dossier.trial->learnt->fit;
  if (!fitted) return undetermined(std::move(table), fitted.error());
  bool own = false;
  for (const trial::Fitted& one : fitted->fitted) {
    const auto shown = [&](double value) { return number(value, one.what, style); };
    own = own || one.own_prior;
    table.rows.push_back(
        {std::string(words::name_of(one.what)), shown(one.prior), shown(one.prior_u) + (one.own_prior ? " *" : ""),
         shown(one.value), shown(one.u),
         shown(one.value - trial::either_way * one.u) + " to " + shown(one.value + trial::either_way * one.u)});
  }
  table.notes.emplace_back(
      "Brake force: share of the nominal magnetic drag. Pull of the reeving: share of the computed pull that comes to "
      "the trolley. Before: middle of the layout's range, with half of it over the root of 3 as standard uncertainty. "
      "Least squares weighted by the uncertainties over arrival speeds, stopping travels, line tensions and hand "
      "pulls; "
      "wind is fitted for every test.");
  if (own) table.notes.emplace_back("* The layout gives no range: own figure, to be replaced by a better one.");
  table.notes.push_back(agreement(*dossier.trial->plan, *fitted));
  add_correlations(*fitted, table);
  const auto& judged = *dossier.trial->learnt->judged;
  if (!judged) table.notes.push_back("Not judged anew: " + judged.error().why + ".");
  return table;
}

Table trial_findings(const Dossier& dossier, const Style& style) {
  Table table{"Judged anew with what was fitted", {"check", "before", "now", "finding"}, {}, {}};
  if (!dossier.trial || !dossier.trial->learnt || !*dossier.trial->learnt->judged) return table;
  const Judged& now = **dossier.trial->learnt->judged;
  const auto& before = dossier.judged.findings;
  std::size_t alike = 0;
  for (std::size_t f = 0; f < now.findings.size(); ++f) {
    const Finding& finding = now.findings[f];
    const bool known = f < before.size() && before[f].check == finding.check && before[f].subject == finding.subject;
    const auto outcome = words::outcome_of(finding);
    const auto arrest = words::arrest_checks();
    const bool of_stops = std::ranges::find(arrest, finding.check) != arrest.end();
    if (known && words::outcome_of(before[f]) == outcome && (!of_stops || before[f].value == finding.value)) {
      ++alike;
      continue;
    }
    table.rows.push_back({std::string(finding.check->name),
                          known ? std::string(words::word_for(words::outcome_of(before[f]))) : "-",
                          std::string(words::word_for(outcome)), words::sentence(now.rig.layout, finding, style)});
  }
  table.notes.push_back(words::headline(now) + ".");
  table.notes.push_back(fmt::format(
      "{} more findings come out as before; the numbers of those that tell how riders stop stand above.", alike));
  table.notes.emplace_back(
      "The fitted brake force, with the pull of the reeving in it, takes the tolerance's place, either way to 95 %; "
      "what is left of it hot, wet or worn stays the layout's, and the range of rolling resistance only grows: one "
      "day's tests see neither.");
  return table;
}

}  // namespace fairlead::tables
