#include "geometry/trial/trial.hpp"

#include <span>

#include "report/json/json.hpp"
#include "report/json/stages.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/trial.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 1;  ///< rises when a key changes its meaning or goes

std::string_view word_for(trial::Acceptance::Sense sense) {
  switch (sense) {
    case trial::Acceptance::Sense::at_most:
      return "at most";
    case trial::Acceptance::Sense::at_least:
      return "at least";
    case trial::Acceptance::Sense::size_at_most:
      break;
  }
  return "at most either way";
}

void write_expected(Writer& out, const trial::Expected& one) {
  const QuantityKind& kind = kind_of(one.what);
  out.text("quantity", kind.word);
  out.text("unit", words::si_unit(kind.dimension));
  one.predicted ? write_span(out, "predicted", *one.predicted) : out.null("predicted");
  one.why.empty() ? out.null("not_predicted") : out.text("not_predicted", one.why);
  out.flag("if_there", one.if_there);
  one.unlimited.empty() ? out.null("unlimited") : out.text("unlimited", one.unlimited);
  if (!one.limit) return out.null("limit");
  out.object("limit", [&] {
    out.text("sense", word_for(one.limit->sense));
    out.number("at", one.limit->at);
    out.text("basis", one.limit->basis);
  });
}

void write_test(Writer& out, const Rig& rig, const trial::Test& test) {
  const bool mass = test.kind == trial::Kind::test_mass;
  const double zero_m = rig.frame.chainage_of_origin_m;
  const auto of_mass = [&](double value) { return mass ? std::optional(value) : std::nullopt; };
  out.text("id", test.id);
  out.text("kind", mass ? "test mass" : "hand pull");
  out.number("travel_m", mass ? std::nullopt : std::optional(test.travel_m));
  out.number("mass_kg", of_mass(test.mass_kg));
  out.number("at_most_m_per_s", of_mass(test.at_most_m_per_s));
  out.number("release_chainage_m", of_mass(test.release_m + zero_m));
  out.number("slow_release_chainage_m",
             test.slow_release_m ? std::optional(*test.slow_release_m + zero_m) : std::nullopt);
  out.number("energy_J", of_mass(test.energy_J));
  out.flag("may_stall", test.may_stall);
  test.ill ? out.text("not_to_be_made", *test.ill) : out.null("not_to_be_made");
  out.objects("measure", test.expected, [&](const trial::Expected& one) { write_expected(out, one); });
}

void write_compared(Writer& out, const trial::Compared& one) {
  write_expected(out, one.expected);
  out.number("value", one.value);
  out.number("uncertainty", one.value && one.uncertainty > 0 ? std::optional(one.uncertainty) : std::nullopt);
  out.count("line", static_cast<long>(one.line));
  out.text("agreement", words::word_for(one.agreement));
  out.text("against_limit", one.value ? words::word_for(one.limit) : words::word_for(Verdict::undetermined));
  out.text("verdict", words::word_for(one.verdict));
}

void write_results(Writer& out, const Rig& rig, const trial::Plan& plan, const trial::Results& results) {
  out.object("results", [&] {
    out.text("file", results.file);
    out.text("sha256", results.sha256);
    out.text("verdict", words::word_for(results.verdict));
    out.objects("tests", results.tested, [&](const trial::Tested& one) {
      const trial::Test& test = plan.tests.at(one.test);
      const bool mass = test.kind == trial::Kind::test_mass && one.made;
      out.text("id", test.id);
      out.text("verdict", words::word_for(one.verdict));
      out.flag("made", one.made);
      out.column("not_written_down", one.missing, [](const std::string& word) { return std::string_view(word); });
      out.number("mass_kg", mass ? std::optional(one.mass_kg) : std::nullopt);
      out.number("release_chainage_m",
                 mass ? std::optional(one.release_m + rig.frame.chainage_of_origin_m) : std::nullopt);
      one.wind_m_per_s ? write_span(out, "wind_m_per_s", *one.wind_m_per_s) : out.null("wind_m_per_s");
      one.temperature_K ? write_span(out, "temperature_K", *one.temperature_K) : out.null("temperature_K");
      one.ill ? out.text("ill", *one.ill) : out.null("ill");
      out.objects("measured", one.compared, [&](const trial::Compared& compared) { write_compared(out, compared); });
    });
  });
}

std::string_view key_of(trial::Input what) {
  switch (what) {
    case trial::Input::brake:
      return "brake_share";
    case trial::Input::rolling:
      return "rolling_resistance";
    case trial::Input::drag:
      return "drag_area_m2";
    case trial::Input::pull:
      break;
  }
  return "pull_share";
}

void write_fit(Writer& out, const trial::Plan& plan, const Solved<trial::Fit>& fitted) {
  write_unsolved(out, fitted);
  static const trial::Fit none;
  const trial::Fit& fit = fitted ? *fitted : none;
  const auto known = [&](double value) { return fitted ? std::optional(value) : std::nullopt; };
  const std::span<const trial::Fitted> inputs(fit.fitted.data(), fitted ? fit.fitted.size() : 0);
  out.objects("inputs", inputs, [&](const trial::Fitted& one) {
    out.text("input", key_of(one.what));
    out.number("before", one.prior);
    out.number("before_u", one.prior_u);
    out.flag("own_range", one.own_prior);
    out.number("fitted", one.value);
    out.number("u", one.u);
    out.column("correlation", fit.correlation[static_cast<std::size_t>(one.what)], [](double c) { return c; });
  });
  out.objects("residuals", fit.residuals, [&](const trial::FitResidual& one) {
    out.text("test", plan.tests.at(one.test).id);
    out.text("quantity", kind_of(one.what).word);
    out.number("over_u", one.over_u);
  });
  out.number("chi_squared", known(fit.chi_squared));
  out.count("redundancy", fit.redundancy);
  out.number("probability", known(fit.probability));
  out.flag("agrees", fit.agrees);
  out.objects("not_told", fit.untold, [&](const trial::Untold& way) {
    out.column("direction", way.direction, [](double part) { return part; });
    out.number("left", way.left);
    out.text("words", words::told(way));
  });
}

/// What the results tell of the inputs, and the layout judged by it.
void write_learnt(Writer& out, const trial::Trial& trial) {
  if (!trial.learnt || !trial.plan) {
    out.null("fit");
    return out.null("judged_anew");
  }
  out.object("fit", [&] { write_fit(out, *trial.plan, trial.learnt->fit); });
  out.object("judged_anew", [&] {
    const Solved<Judged>& judged = *trial.learnt->judged;
    write_unsolved(out, judged);
    static const std::vector<Finding> none;
    judged ? out.text("headline", words::headline(*judged)) : out.null("headline");
    out.objects("findings", judged ? judged->findings : none, [&](const Finding& finding) {
      out.text("check", finding.check->name);
      out.text("subject", words::id_of(judged->rig.layout, finding.subject));
      out.text("outcome", words::word_for(words::outcome_of(finding)));
      out.number("value", finding.measured ? std::optional(finding.value) : std::nullopt);
    });
  });
}

}  // namespace

std::string write_trial(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  const trial::Trial& trial = *dossier.trial;
  return Writer::document([&](Writer& out) {
    out.count("format_version", format_version);
    out.text("program", "fairlead");
    out.text("program_version", words::program_version());
    out.object("layout", [&] { write_identity(out, layout); });
    write_verdict(out, dossier);
    write_unsolved(out, trial.plan);
    static const trial::Plan none;
    const trial::Plan& plan = trial.plan ? *trial.plan : none;
    out.number("fastest_arrival_m_per_s", trial.plan ? std::optional(plan.fastest_m_per_s) : std::nullopt);
    out.objects("tests", plan.tests, [&](const trial::Test& test) { write_test(out, rig, test); });
    out.column("left_untested", plan.gaps, [](const std::string& gap) { return std::string_view(gap); });
    const Style si{Units::si};
    const auto sentence = [](const std::string& text) { return std::string_view(text); };
    out.column("steps", words::trial_steps(rig, si), sentence);
    out.column("stop_criteria", words::stop_criteria(rig, si), sentence);
    trial.results ? write_results(out, rig, plan, *trial.results) : out.null("results");
    write_learnt(out, trial);
    write_findings(out, dossier.judged);
    write_reservations(out, dossier);
  });
}

}  // namespace fairlead::json
