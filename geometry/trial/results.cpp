#include "geometry/trial/results.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead::trial {
namespace {

/// By their words in the file.
std::vector<std::string> quantities_of(const Test& test) {
  std::vector<std::string> words;
  if (test.kind == Kind::test_mass)
    for (const Trialled what : {Trialled::mass, Trialled::release, Trialled::temperature, Trialled::wind})
      words.emplace_back(kind_of(what).word);
  for (const Expected& one : test.expected) words.emplace_back(kind_of(one.what).word);
  return words;
}

class Refusals {
 public:
  Refusals(const Rig& rig, const Plan& plan) : rig_(rig), plan_(plan) {}

  PointsErrors of(const std::vector<TrialRow>& rows) {
    for (const TrialRow& row : rows) look(row);
    return std::move(errors_);
  }

 private:
  void add(const TrialRow& row, Columns at, std::string message, std::string instead) {
    if (errors_.first.size() < most)
      errors_.first.push_back(error_at(row, at, std::move(message), std::move(instead)));
    else
      ++errors_.more;
  }

  void look(const TrialRow& row) {
    constexpr std::size_t longest_id = 80;
    const Test* test = plan_.find(row.item);
    if (!test) {
      std::vector<std::string> known;
      for (const Test& one : plan_.tests) known.push_back(one.id);
      const auto near = row.item.size() <= longest_id ? nearest(row.item, known) : std::nullopt;
      return add(row, row.item_at, fmt::format("the plan has no test \"{}\"", row.item.substr(0, longest_id)),
                 near ? fmt::format("did you mean \"{}\"?", *near) : fmt::format("known: {}", fmt::join(known, ", ")));
    }
    const std::vector<std::string> quantities = quantities_of(*test);
    if (std::ranges::find(quantities, kind_of(row.what).word) == quantities.end())
      return add(row, row.quantity_at, fmt::format("test {} has no {} to measure", test->id, kind_of(row.what).word),
                 fmt::format("known: {}", fmt::join(quantities, ", ")));
    const double zero_m = rig_.frame.chainage_of_origin_m;
    const Span may = releases(rig_);
    if (row.what == Trialled::release && !(row.value - zero_m >= may.low && row.value - zero_m < may.high))
      add(row, row.value_at,
          fmt::format("the release is at chainage {}", print_quantity({row.value, Dimension::length})),
          fmt::format("it may be from {} to {}, short of the brake trolley",
                      print_quantity({may.low + zero_m, Dimension::length}),
                      print_quantity({may.high + zero_m, Dimension::length})));
    const Site& site = rig_.layout.site;
    if (row.what == Trialled::temperature && !(site.coldest_K <= row.value && row.value <= site.warmest_K))
      add(row, row.value_at, fmt::format("the temperature is {}", print_quantity({row.value, Dimension::temperature})),
          fmt::format("the layout was judged from {} to {}: check it, or widen site.coldest and site.warmest",
                      print_quantity({site.coldest_K, Dimension::temperature}),
                      print_quantity({site.warmest_K, Dimension::temperature})));
  }

  static constexpr std::size_t most = 200;
  const Rig& rig_;
  const Plan& plan_;
  PointsErrors errors_;
};

Verdict against(const Acceptance& limit, double value, double uncertainty) {
  const double off = one_way * uncertainty;
  const double seen = limit.sense == Acceptance::Sense::size_at_most ? std::abs(value) : value;
  if (limit.sense == Acceptance::Sense::at_least)
    return seen - off >= limit.at ? Verdict::pass : seen + off < limit.at ? Verdict::fail : Verdict::undetermined;
  return seen + off <= limit.at ? Verdict::pass : seen - off > limit.at ? Verdict::fail : Verdict::undetermined;
}

Agreement agreement_of(const Span& predicted, double value, double uncertainty) {
  const double off = either_way * uncertainty;
  if (!(predicted.low <= value + off && value - off <= predicted.high)) return Agreement::outside;
  const double width = predicted.high - predicted.low, middle = std::abs(predicted.low + predicted.high) / 2;
  return off <= std::max(width, telling_share * middle) ? Agreement::within : Agreement::too_rough;
}

Verdict verdict_of(Agreement agreement) {
  switch (agreement) {
    case Agreement::within:
      return Verdict::pass;
    case Agreement::outside:
      return Verdict::fail;
    case Agreement::not_measured:
    case Agreement::not_predicted:
    case Agreement::too_rough:
    case Agreement::no_return:
      break;
  }
  return Verdict::undetermined;
}

/// Only the limit speaks of what is counted, and of where the trolley stands after its return.
bool is_predicted(Trialled what) { return kind_of(what).dimension != Dimension::none && what != Trialled::rest_shift; }

bool is_of_return(Trialled what) { return what == Trialled::return_time || what == Trialled::rest_shift; }

Compared compared_with(const Expected& expected, const TrialRow* row, bool stayed_away) {
  Compared one{.expected = expected};
  if (!row) return one;
  one.value = row->value;
  one.uncertainty = row->uncertainty;
  one.line = row->line;
  if (stayed_away && is_of_return(expected.what)) {
    one.agreement = Agreement::no_return;
    one.limit = one.verdict = Verdict::not_judged;
    return one;
  }
  one.limit = expected.limit               ? against(*expected.limit, row->value, row->uncertainty)
              : expected.unlimited.empty() ? Verdict::pass
                                           : Verdict::not_judged;
  one.agreement =
      expected.predicted ? agreement_of(*expected.predicted, row->value, row->uncertainty) : Agreement::not_predicted;
  one.verdict = is_predicted(expected.what) ? worse(one.limit, verdict_of(one.agreement)) : one.limit;
  return one;
}

/// A test of the plan with what was written down of it.
struct Made {
  std::array<const TrialRow*, trialled> rows{};

  const TrialRow* of(Trialled what) const { return rows[static_cast<std::size_t>(what)]; }
};

Span about(const TrialRow& row) {
  return {row.value - either_way * row.uncertainty, row.value + either_way * row.uncertainty};
}

void take_conditions(const Rig& rig, const Test& test, const Made& made, Tested& tested) {
  tested.mass_kg = test.mass_kg;
  tested.release_m = test.release_m;
  if (test.kind != Kind::test_mass) return;
  if (const TrialRow* row = made.of(Trialled::mass))
    tested.mass_kg = row->value;
  else
    tested.missing.emplace_back(kind_of(Trialled::mass).word);
  if (const TrialRow* row = made.of(Trialled::release))
    tested.release_m = row->value - rig.frame.chainage_of_origin_m;
  else
    tested.missing.emplace_back(kind_of(Trialled::release).word);
  if (const TrialRow* row = made.of(Trialled::wind)) tested.wind_m_per_s = about(*row);
  if (const TrialRow* row = made.of(Trialled::temperature)) tested.temperature_K = about(*row);
}

Unknowns unknowns_as_made(const Rig& rig, const Tested& tested) {
  Unknowns unknown = unknowns_of(rig);
  if (tested.wind_m_per_s) unknown.wind_m_per_s = *tested.wind_m_per_s;
  const Site& site = rig.layout.site;
  const double width_K = site.warmest_K - site.coldest_K;
  if (tested.temperature_K && width_K > 0)
    unknown.warmth = {std::max(0.0, (tested.temperature_K->low - site.coldest_K) / width_K),
                      std::min(1.0, (tested.temperature_K->high - site.coldest_K) / width_K)};
  return unknown;
}

void join(Span& all, const Span& one) {
  all.low = std::min(all.low, one.low);
  all.high = greater(all.high, one.high);
}

/// Over both ends of what the mass weighs and of where it was let go.
Solved<Predicted> predicted_as_made(const Rig& rig, const Tested& tested, const Made& made, const Work& work) {
  const Span kg = about(*made.of(Trialled::mass));
  const double release_off_m = either_way * made.of(Trialled::release)->uncertainty;
  if (!(kg.low > 0)) return unsolved("the mass's uncertainty is as large as the mass", kg.low);
  const auto masses = test_masses(rig, {kg.low, kg.high}, work);
  if (!masses) return tl::unexpected(masses.error());
  const Unknowns unknown = unknowns_as_made(rig, tested);
  std::optional<Predicted> all;
  const Span may = releases(rig);
  for (const TestMass& mass : *masses)
    for (const double off : {-release_off_m, release_off_m}) {
      const double release_m = std::clamp(tested.release_m + off, may.low, may.high - mainline::meeting_m);
      auto one = predict(rig, mass, release_m, unknown);
      if (!one) return one;
      if (!all) {
        all = *one;
        continue;
      }
      join(all->arrival_speed_m_per_s, one->arrival_speed_m_per_s);
      join(all->stopping_travel_m, one->stopping_travel_m);
      join(all->extension_m, one->extension_m);
      join(all->line_tension_N, one->line_tension_N);
      all->may_stall = all->may_stall || one->may_stall;
      if (one->ill) all->ill = one->ill;
    }
  return *all;
}

Tested tested_of(const Rig& rig, const Test& test, const Made& made, const Work& work) {
  Tested tested;
  tested.made = std::ranges::any_of(made.rows, [](const TrialRow* row) { return row != nullptr; });
  take_conditions(rig, test, made, tested);
  std::vector<Expected> expected = test.expected;
  if (test.kind == Kind::test_mass && tested.made) {
    for (Expected& one : expected) one.predicted.reset();
    const Solved<Predicted> predicted =
        tested.missing.empty()
            ? predicted_as_made(rig, tested, made, work)
            : Solved<Predicted>(unsolved(fmt::format("not written down: {}", fmt::join(tested.missing, ", "))));
    expect(rig, predicted, expected);
    if (predicted) tested.ill = predicted->ill;
  }
  tested.verdict = tested.made ? Verdict::pass : Verdict::undetermined;
  const TrialRow* returned = made.of(Trialled::returned);
  const bool stayed_away = returned && !(returned->value >= 1);
  for (const Expected& one : expected) {
    tested.compared.push_back(compared_with(one, made.of(one.what), stayed_away));
    const Compared& last = tested.compared.back();
    if (!one.if_there || last.value) tested.verdict = worse(tested.verdict, last.verdict);
  }
  if (!tested.missing.empty()) tested.verdict = worse(tested.verdict, Verdict::undetermined);
  return tested;
}

}  // namespace

Verdict worse(Verdict a, Verdict b) {
  for (const Verdict one : {Verdict::fail, Verdict::undetermined, Verdict::not_judged})
    if (a == one || b == one) return one;
  return Verdict::pass;
}

tl::expected<Results, PointsErrors> compare(const Rig& rig, const Plan& plan, std::string file,
                                            std::vector<TrialRow> rows, const Work& work) {
  if (PointsErrors errors = Refusals(rig, plan).of(rows); !errors.first.empty())
    return tl::unexpected<PointsErrors>(std::move(errors));
  Results results{.file = std::move(file), .rows = std::move(rows), .tested = {}, .verdict = Verdict::pass};
  std::vector<Made> made(plan.tests.size());
  for (const TrialRow& row : results.rows)
    made[static_cast<std::size_t>(plan.find(row.item) - plan.tests.data())].rows[static_cast<std::size_t>(row.what)] =
        &row;
  results.tested.resize(plan.tests.size());
  for_each_index(
      work, static_cast<int>(plan.tests.size()),
      [&](int index) {
        const auto i = static_cast<std::size_t>(index);
        results.tested[i] = tested_of(rig, plan.tests[i], made[i], {});
        results.tested[i].test = i;
      },
      "trial results");
  for (const Tested& one : results.tested) results.verdict = worse(results.verdict, one.verdict);
  if (results.tested.empty()) results.verdict = Verdict::undetermined;
  return results;
}

}  // namespace fairlead::trial
