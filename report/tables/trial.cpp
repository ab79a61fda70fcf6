#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/trial.hpp"

namespace fairlead::tables {
namespace {

using trial::Expected;
using trial::Kind;
using trial::Plan;
using trial::Test;

constexpr const char* untested = ": predicted, untested";

const Plan* plan_of(const Dossier& dossier) {
  return dossier.trial && dossier.trial->plan ? &*dossier.trial->plan : nullptr;
}

/// Why there is no plan.
Table without_plan(const Dossier& dossier, Table table) {
  return dossier.trial ? undetermined(std::move(table), dossier.trial->plan.error()) : table;
}

const Expected* of(const Test& test, Trialled what) {
  const auto found = std::ranges::find(test.expected, what, &Expected::what);
  return found == test.expected.end() ? nullptr : &*found;
}

double greater(double a, const mainline::Span& span) { return std::max({a, std::abs(span.low), std::abs(span.high)}); }

/// Of all tests: a column of them has one unit.
double greatest_predicted(const Plan& plan, Kind kind, Trialled what) {
  double greatest = 0;
  for (const Test& test : plan.tests)
    if (const Expected* one = of(test, what); test.kind == kind && one && one->predicted)
      greatest = greater(greatest, *one->predicted);
  return greatest;
}

/// The interval; a dash where nothing is expected, and in the notes why one is missing.
std::string predicted(const Plan& plan, const Test& test, Trialled what, const Style& style, Table& table) {
  const Expected* one = of(test, what);
  if (!one) return "-";
  if (one->predicted)
    return words::shown(*one->predicted, kind_of(what).dimension, style, greatest_predicted(plan, test.kind, what));
  table.notes.push_back(fmt::format("{}, {} undetermined: {}.", test.id, words::name_of(what), one->why));
  return "undetermined";
}

std::string chainage(const Rig& rig, double along_m, const Style& style) {
  return words::travel(along_m + rig.frame.chainage_of_origin_m, style);
}

template <class Row>
Table plan_table(const Dossier& dossier, Kind kind, Table table, const Row& row) {
  const Plan* plan = plan_of(dossier);
  if (!plan) return without_plan(dossier, std::move(table));
  for (const Test& test : plan->tests)
    if (test.kind == kind) table.rows.push_back(row(test, table));
  return table;
}

bool tested(const Dossier& dossier) { return dossier.trial && dossier.trial->results; }

/// "50.3 kg from 102.780 m": a test mass as it was let go.
std::string as_made(const Rig& rig, const trial::Tested& one, const Style& style) {
  return fmt::format("{} from {}", words::shown(one.mass_kg, Dimension::mass, style),
                     chainage(rig, one.release_m, style));
}

/// The same of a test of the plan; what was not made says so.
std::string made_of(const Dossier& dossier, const Test& test, const Style& style) {
  for (const trial::Tested& one : dossier.trial->results->tested)
    if (one.made && dossier.trial->plan->tests[one.test].id == test.id) return as_made(dossier.judged.rig, one, style);
  return "not made";
}

}  // namespace

Table trial_hand_pulls(const Dossier& dossier, const Style& style) {
  Table all = plan_table(dossier, Kind::hand_pull,
                         {std::string("Hand pulls") + (tested(dossier) ? ": predicted" : untested),
                          {"test", "travel", "pull on", "let back", "line out of the unit", "back at the mark in"},
                          {},
                          {}},
                         [&](const Test& test, Table& table) {
                           const auto span = [&](Trialled what) {
                             return predicted(*plan_of(dossier), test, what, style, table);
                           };
                           return std::vector<Cell>{test.id,
                                                    words::travel(test.travel_m, style),
                                                    span(Trialled::pull_on),
                                                    span(Trialled::let_back),
                                                    span(Trialled::extension),
                                                    span(Trialled::return_time)};
                         });
  if (!all.rows.empty())
    all.notes.emplace_back(
        "Of the empty brake trolley along the main line: drawn slowly toward the landing, and let slowly back. Between "
        "these over every state of the main line, the range of rolling resistance and friction either way; the unit's "
        "retraction counts as the layout has it.");
  return all;
}

Table trial_masses(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table all = plan_table(
      dossier, Kind::test_mass,
      {std::string("Test masses in their order") + (tested(dossier) ? ": predicted" : untested),
       {"test", "mass", "release at chainage", "energy, kJ", "arrival speed", "stopping travel", "line out of the unit",
        "greatest line tension", "back at the mark in", "slow release"},
       {},
       {}},
      [&](const Test& test, Table& table) {
        const auto span = [&](Trialled what) { return predicted(*plan_of(dossier), test, what, style, table); };
        std::vector<Cell> row{test.id,
                              cell(test.mass_kg, Dimension::mass),
                              chainage(rig, test.release_m, style),
                              fmt::format("{:.2f}", test.energy_J / 1000),
                              span(Trialled::arrival_speed),
                              span(Trialled::stopping_travel),
                              span(Trialled::extension),
                              span(Trialled::line_tension),
                              span(Trialled::return_time),
                              test.slow_release_m ? chainage(rig, *test.slow_release_m, style) : "none"};
        if (tested(dossier)) row.emplace_back(made_of(dossier, test, style));
        if (test.ill)
          table.notes.push_back(
              fmt::format("{} is not to be made as it stands: in some corner it {}.", test.id, *test.ill));
        return row;
      });
  if (all.rows.empty()) return all;
  if (tested(dossier)) {
    all.headings.emplace_back("as it was made");
    all.notes.emplace_back(
        "Predicted for mass and release as planned. Of a test that was made otherwise the prediction for how it was "
        "made stands with its results.");
  }
  std::string stalling;
  for (const Test& test : plan_of(dossier)->tests)
    if (test.may_stall) stalling += (stalling.empty() ? "" : ", ") + test.id;
  if (!stalling.empty())
    all.notes.push_back("May stall short of the brake trolley: " + stalling + ". Have what fetches the mass ready.");
  all.notes.emplace_back(
      "Between these over head and tail wind, cold and warm main line, rolling resistance and brake at both ends of "
      "their ranges. Energy: of mass and trolley arriving as fast as the fastest corner. Slow release: where the "
      "slowest corner arrives just so fast; none: from nowhere below the riders' push-off.");
  all.notes.push_back(fmt::format(
      "Fastest arrival that the arrest was judged for: {}. Heavier masses than the riders' range, where the "
      "makers or the code ask for them, are not predicted here.",
      words::shown(plan_of(dossier)->fastest_m_per_s, Dimension::speed, style)));
  for (const std::string& gap : plan_of(dossier)->gaps) all.notes.push_back(gap + '.');
  return all;
}

Table trial_acceptance(const Dossier& dossier, const Style& style) {
  Table table{"Accepted by", {"measured", "tests", "accepted", "basis"}, {}, {}};
  const Plan* plan = plan_of(dossier);
  if (!plan) return without_plan(dossier, std::move(table));
  std::vector<Trialled> told;
  for (const Kind kind : {Kind::hand_pull, Kind::test_mass})
    for (const Test& test : plan->tests)
      for (const Expected& one : test.expected) {
        if (test.kind != kind || std::ranges::find(told, one.what) != told.end()) continue;
        told.push_back(one.what);
        std::string tests;
        for (const Kind other : {Kind::hand_pull, Kind::test_mass})
          if (std::ranges::any_of(plan->tests,
                                  [&](const Test& t) { return t.kind == other && of(t, one.what) != nullptr; }))
            tests += (tests.empty() ? "" : ", ") + std::string(other == Kind::hand_pull ? "hand" : "mass");
        table.rows.push_back({std::string(words::name_of(one.what)), tests,
                              one.limit               ? words::shown(*one.limit, one.what, style)
                              : one.unlimited.empty() ? "as predicted"
                                                      : "not judged",
                              one.limit               ? one.limit->basis
                              : one.unlimited.empty() ? "no limit of its own"
                                                      : "the layout gives no " + one.unlimited});
      }
  table.notes = {
      "Everything with a predicted interval must also come as predicted. A limit is the layout's and none is assumed; "
      "what it does not limit is not judged."};
  return table;
}

Table trial_hand_record(const Dossier& dossier, const Style& style) {
  return plan_table(dossier, Kind::hand_pull,
                    {"RECORD OF HAND PULLS",
                     {"test", "travel", "temperature", "pull on", "let back", "line out of the unit", "came back",
                      "time back", "off its mark", "read by"},
                     {},
                     {}},
                    [&](const Test& test, Table&) {
                      std::vector<Cell> row(10);
                      row[0] = test.id;
                      row[1] = words::travel(test.travel_m, style);
                      return row;
                    });
}

Table trial_mass_record(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  return plan_table(dossier, Kind::test_mass,
                    {"RECORD OF TEST MASSES",
                     {"test", "mass, release planned", "as weighed", "let go at", "temperature", "wind along",
                      "arrival speed", "stopping travel", "line out", "line tension", "touched, slack, backup",
                      "came back, in", "off its mark", "next test allowed by"},
                     {},
                     {}},
                    [&](const Test& test, Table&) {
                      std::vector<Cell> row(14);
                      row[0] = test.id;
                      row[1] = fmt::format("{}, {}", words::shown(test.mass_kg, Dimension::mass, style),
                                           chainage(rig, test.release_m, style));
                      return row;
                    });
}

Table trial_verdicts(const Dossier& dossier, const Style& style) {
  Table table{"Tests", {"test", "verdict", "made", "because"}, {}, {}};
  if (!tested(dossier) || !plan_of(dossier)) return table;
  const Rig& rig = dossier.judged.rig;
  for (const trial::Tested& one : dossier.trial->results->tested) {
    const Test& test = plan_of(dossier)->tests[one.test];
    std::string because;
    const auto add = [&](const std::string& words) { because += (because.empty() ? "" : "; ") + words; };
    for (const std::string& missing : one.missing)
      if (one.made) add(missing + " not written down");
    for (const trial::Compared& compared : one.compared) {
      if (!one.made || compared.verdict == Verdict::pass || (compared.expected.if_there && !compared.value)) continue;
      const bool limit = compared.limit == compared.verdict && compared.limit != Verdict::pass && compared.value &&
                         compared.agreement != trial::Agreement::no_return;
      add(fmt::format("{} {}", words::name_of(compared.expected.what),
                      limit && compared.agreement != trial::Agreement::outside
                          ? (compared.limit == Verdict::not_judged ? "has no limit" : "not accepted")
                          : words::word_for(compared.agreement)));
    }
    std::string made = "not made";
    if (one.made)
      made = test.kind == Kind::hand_pull ? "travel " + words::travel(test.travel_m, style) : as_made(rig, one, style);
    if (!one.made) because = "untested";
    table.rows.push_back({test.id, std::string(words::word_for(one.verdict)), made, because});
  }
  return table;
}

Table trial_results(const Dossier& dossier, const Style& style) {
  Table table{"Predicted against measured",
              {"test", "measured", "predicted", "as read", "uncertainty", "accepted", "outcome"},
              {},
              {}};
  if (!tested(dossier) || !plan_of(dossier)) return table;
  for (const trial::Tested& one : dossier.trial->results->tested) {
    if (!one.made) continue;
    const Test& test = plan_of(dossier)->tests[one.test];
    for (const trial::Compared& compared : one.compared) {
      const Expected& expected = compared.expected;
      if (!compared.value && expected.if_there) continue;
      const Dimension dimension = kind_of(expected.what).dimension;
      const bool counted = dimension == Dimension::none, answered = expected.what == Trialled::returned;
      double greatest = std::abs(compared.value.value_or(0));
      if (expected.predicted) greatest = greater(greatest, *expected.predicted);
      if (expected.limit) greatest = std::max(greatest, std::abs(expected.limit->at));
      const auto number = [&](double si) {
        if (answered) return std::string(si != 0 ? "yes" : "no");
        return counted ? fmt::format("{:.0f}", si) : words::shown_beside(si, dimension, style, greatest);
      };
      table.rows.push_back({test.id, std::string(words::name_of(expected.what)),
                            expected.predicted ? words::shown(*expected.predicted, dimension, style, greatest) : "-",
                            compared.value ? number(*compared.value) : "-",
                            compared.value && !counted ? number(compared.uncertainty) : "-",
                            expected.limit ? words::shown(*expected.limit, expected.what, style, greatest) : "-",
                            std::string(words::word_for(compared.verdict)) +
                                (compared.agreement == trial::Agreement::within ||
                                         (!expected.predicted && compared.agreement != trial::Agreement::no_return)
                                     ? ""
                                     : ", " + std::string(words::word_for(compared.agreement)))});
      if (compared.agreement == trial::Agreement::outside)
        table.notes.push_back(fmt::format("{}, {}: {}.", test.id, words::name_of(expected.what),
                                          words::meaning(expected.what, *compared.value > expected.predicted->high)));
      if (!expected.why.empty())
        table.notes.push_back(
            fmt::format("{}, {} not predicted: {}.", test.id, words::name_of(expected.what), expected.why));
    }
  }
  table.notes.emplace_back(
      "Predicted anew for every test as it was made: mass and release with their uncertainty, wind and temperature as "
      "measured, else over all that the layout allows. As predicted: within the interval widened by 1.96 of the "
      "reading's standard uncertainties, if these are no more than the interval or 5 % of its middle. Against a limit "
      "1.645 of them count.");
  double fastest = 0;
  for (const trial::Tested& one : dossier.trial->results->tested)
    for (const trial::Compared& compared : one.compared)
      if (compared.expected.what == Trialled::arrival_speed && compared.value)
        fastest = std::max(fastest, *compared.value);
  table.notes.push_back(fmt::format(
      "Fastest arrival measured: {}; the arrest was judged up to {}. What is faster than measured stays untested.",
      words::shown(fastest, Dimension::speed, style),
      words::shown(plan_of(dossier)->fastest_m_per_s, Dimension::speed, style)));
  return table;
}

}  // namespace fairlead::tables
