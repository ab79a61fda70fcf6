#include "geometry/studies/calculation.hpp"

#include <fmt/format.h>

#include <cmath>

#include "geometry/studies/calculation_parts.hpp"
#include "geometry/studies/expression.hpp"

namespace fairlead {
namespace calculating {
namespace {

double rounded(double value, int decimals) {
  const double scale = std::pow(10, decimals);
  return std::round(value * scale) / scale + 0.0;
}

double half_digit(int decimals) { return 0.5 * std::pow(10, -decimals); }

/// What a formula reads with `word_for(input, whether it stands in brackets of its own)` in place of every symbol in
/// braces.
template <class WordFor>
std::string filled(std::string_view formula, const std::vector<Figure>& inputs, const WordFor& word_for) {
  std::string text;
  while (!formula.empty()) {
    const std::size_t open = formula.find('{'), close = formula.find('}');
    text += formula.substr(0, open);
    if (open == formula.npos) break;
    const std::string_view symbol = formula.substr(open + 1, close - open - 1);
    for (const Figure& input : inputs)
      if (input.symbol == symbol)
        text += word_for(input, text.ends_with('(') && formula.substr(close + 1).starts_with(')'));
    formula.remove_prefix(close + 1);
  }
  return text;
}

/// The result with one input that much off.
double shifted(std::string_view formula, const std::vector<Figure>& inputs, const Figure& off, double by) {
  return evaluate(filled(formula, inputs, [&](const Figure& f, bool) {
    return fmt::format("({:.17g})", f.value + (f.symbol == off.symbol ? by : 0));
  }));
}

}  // namespace

Figure figure(std::string symbol, std::string says, std::string from, double value, int decimals, std::string unit) {
  return {std::move(symbol), std::move(says), std::move(from),     rounded(value, decimals),
          decimals,          std::move(unit), half_digit(decimals)};
}

CalculationStep step(std::string title, Figure result, std::string_view formula, std::vector<Figure> inputs,
                     std::optional<double> solver, std::string source) {
  CalculationStep step{.title = std::move(title), .solver = solver, .source = std::move(source)};
  step.formula = result.symbol + " = " + filled(formula, inputs, [](const Figure& f, bool) { return f.symbol; });
  step.put_in = filled(formula, inputs, [](const Figure& f, bool bracketed) {
    return f.value < 0 && !bracketed ? fmt::format("({})", f.text()) : f.text();
  });
  const double exact = evaluate(step.put_in);
  result.value = rounded(exact, result.decimals);
  step.tolerance = half_digit(result.decimals);
  for (const Figure& input : inputs) {
    const double up = shifted(formula, inputs, input, input.off), down = shifted(formula, inputs, input, -input.off);
    step.tolerance += greater(std::abs(up - exact), std::abs(down - exact));
  }
  step.inputs = std::move(inputs);
  result.off = step.tolerance;
  step.result = std::move(result);
  return step;
}

}  // namespace calculating

std::string Figure::text() const { return fmt::format("{:.{}f}", value, decimals); }

Solved<Calculation> calculation(const Rig& rig) {
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return tl::unexpected(rig.arrest.result->error());
  if (rig.arrest_held) return unsolved("the arrest is that of another place of the marks");
  Calculation all{.corner = arrest->governing.stop_travel};
  if (all.corner < 0) return unsolved("no corner of the arrest is solved");
  calculating::add_approach(rig, all.corner, all.steps);
  calculating::add_contact(rig, all.corner, all.steps);
  calculating::add_rest(rig, all.steps);
  calculating::add_reset(rig, all.steps);
  calculating::add_backup(rig, all.steps);
  all.anchor = calculating::redirect_anchor(rig);
  return all;
}

}  // namespace fairlead
