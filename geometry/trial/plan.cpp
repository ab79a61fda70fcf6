#include "geometry/trial/plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/trial/hand_pulls.hpp"

namespace fairlead::trial {
namespace {

/// Of the fastest arrival: the slowest still comes to the brake trolley on a line that does not rise to it.
constexpr std::array speeds{0.5, 0.75, 1.0};

const Limits& limits_of(const Rig& rig) { return rig.layout.limits; }

/// The layout's limit moved to what is measured; without it the key that would set it.
template <class Move>
void accept(Expected& expected, const std::optional<Limit>& limit, const char* key, Acceptance::Sense sense,
            const Move& move) {
  if (limit)
    expected.limit = Acceptance{sense, move(limit->at.value), limit->basis};
  else
    expected.unlimited = key;
}

Expected observed(Trialled what, double wanted, const char* criterion) {
  const auto sense = wanted > 0 ? Acceptance::Sense::at_least : Acceptance::Sense::at_most;
  return {.what = what, .limit = Acceptance{sense, wanted, criterion}};
}

Expected extension_of(const Rig& rig) {
  Expected expected{.what = Trialled::extension};
  const double whole_m = rig.layout.brake_unit.extension_limit_m;
  accept(expected, limits_of(rig).extension_reserve_m, "limits.extension_reserve", Acceptance::Sense::at_most,
         [&](double reserve_m) { return whole_m - reserve_m; });
  return expected;
}

Expected stopping_travel_of(const Rig& rig) {
  Expected expected{.what = Trialled::stopping_travel};
  const std::optional<double>& backup_m = rig.arrest.inputs->backup_m;
  if (!backup_m) {
    expected.unlimited = "backup_brake.engages";
    return expected;
  }
  const double to_backup_m = *backup_m - rig.arrest.inputs->rest_m;
  accept(expected, limits_of(rig).stop_reserve_m, "limits.stop_reserve", Acceptance::Sense::at_most,
         [&](double reserve_m) { return to_backup_m - reserve_m; });
  return expected;
}

Expected let_back_of(const Rig& rig) {
  Expected expected{.what = Trialled::let_back};
  accept(expected, limits_of(rig).reset_reserve_N, "limits.reset_reserve", Acceptance::Sense::at_least,
         [](double newtons) { return newtons; });
  return expected;
}

void add_return(const Rig& rig, std::vector<Expected>& all) {
  Expected shift{.what = Trialled::rest_shift};
  accept(shift, limits_of(rig).rest_shift_m, "limits.rest_shift", Acceptance::Sense::size_at_most,
         [](double m) { return m; });
  all.push_back(observed(Trialled::returned, 1, "it comes back by itself"));
  all.push_back({.what = Trialled::return_time});
  all.push_back(std::move(shift));
}

double fastest_judged(const Rig& rig) { return rig.approach.solved()->fastest_m_per_s; }

/// Nothing for a value that is not known, and why.
void predict(Expected& expected, const Solved<Span>& span) {
  if (span)
    expected.predicted = *span;
  else
    expected.why = span.error().why;
}

void add_hand_pulls(const Rig& rig, Plan& plan) {
  const auto pulled = hand_pulled(rig);
  const double travel_m = rig.layout.brake_trolley.travel_m;
  for (std::size_t i = 0; i < pulled.size(); ++i) {
    Test test{.id = fmt::format("H{}", i + 1),
              .kind = Kind::hand_pull,
              .travel_m = travel_m * static_cast<double>(i) / static_cast<double>(pulled.size() - 1)};
    test.expected = expected_of(rig, test.kind, test.travel_m);
    for (Expected& one : test.expected) {
      if (one.what == Trialled::pull_on) predict(one, pulled[i].pull_on_N);
      if (one.what == Trialled::let_back) predict(one, pulled[i].let_back_N);
      if (one.what == Trialled::extension) predict(one, pulled[i].extension_m);
      if (one.what == Trialled::return_time) predict(one, return_time_s(rig, {test.travel_m, test.travel_m}));
    }
    plan.tests.push_back(std::move(test));
  }
}

/// The release nearest the brake trolley at which one end of the arrival speeds is `wanted`: from farther up a mass
/// arrives faster, for it comes past the nearer place at some speed. None where not even the farthest will do.
std::optional<double> release_for(const Rig& rig, const TestMass& mass, const Unknowns& unknown, double wanted,
                                  double Span::*end) {
  const Span at = releases(rig);
  const auto reaches = [&](double release_m) {
    const auto speed_there = arrival_speed(rig, mass, release_m, unknown, end);
    return speed_there && *speed_there >= wanted;
  };
  if (!reaches(at.low)) return std::nullopt;
  double far = at.low, near = at.high - mainline::meeting_m;
  constexpr double close_m = 1e-3;
  while (near - far > close_m) {
    const double middle = (near + far) / 2;
    (reaches(middle) ? far : near) = middle;
  }
  return far;
}

/// No farther up than the place found, at a chainage that a tape reads.
double rounded(const Rig& rig, double release_m) {
  const double zero_m = rig.frame.chainage_of_origin_m;
  return std::ceil((release_m + zero_m) / release_step_m) * release_step_m - zero_m;
}

Test test_of(const Rig& rig, const TestMass& mass, const Unknowns& unknown, double speed, double release_m) {
  Test test{.kind = Kind::test_mass, .mass_kg = mass.kg, .at_most_m_per_s = speed, .release_m = release_m};
  test.slow_release_m = release_for(rig, mass, unknown, speed, &Span::low);
  test.energy_J = (mass.kg + rig.arrest.inputs->rider_trolley_kg) / 2 * speed * speed;
  test.expected = expected_of(rig, test.kind, 0);
  const auto predicted = predict(rig, mass, release_m, unknown);
  if (predicted) {
    test.may_stall = predicted->may_stall;
    test.ill = predicted->ill;
  }
  expect(rig, predicted, test.expected);
  return test;
}

void add_test_masses(const Rig& rig, const std::vector<TestMass>& masses, const Work& work, Plan& plan) {
  const Unknowns unknown = unknowns_of(rig);
  struct Slot {
    std::optional<Test> test;
    std::string gap;
  };
  std::vector<Slot> slots(masses.size() * speeds.size());
  for_each_index(
      work, static_cast<int>(slots.size()),
      [&](int index) {
        const auto i = static_cast<std::size_t>(index);
        const TestMass& mass = masses[i / speeds.size()];
        const double speed = speeds[i % speeds.size()] * plan.fastest_m_per_s;
        if (const auto release_m = release_for(rig, mass, unknown, speed, &Span::high)) {
          slots[i].test = test_of(rig, mass, unknown, speed, rounded(rig, *release_m));
          return;
        }
        slots[i].gap = fmt::format(
            "{:.4g} kg let go at rest arrives at {:.2f} m/s from nowhere below the riders' push-off: this plan leaves "
            "that arrival untested",
            mass.kg, speed);
        const double farthest_m = rounded(rig, releases(rig).low);
        const auto there = arrival_speeds(rig, mass, farthest_m, unknown);
        if (there && there->high > 0) slots[i].test = test_of(rig, mass, unknown, there->high, farthest_m);
      },
      "trial plan");
  std::vector<Test> tests;
  for (Slot& slot : slots) {
    if (slot.test) tests.push_back(std::move(*slot.test));
    if (!slot.gap.empty()) plan.gaps.push_back(std::move(slot.gap));
  }
  std::ranges::stable_sort(tests, {}, &Test::energy_J);
  // Two speeds that a mass does not reach give one test, from the push-off.
  const auto same = [](const Test& a, const Test& b) { return a.mass_kg == b.mass_kg && a.release_m == b.release_m; };
  tests.erase(std::unique(tests.begin(), tests.end(), same), tests.end());
  for (std::size_t i = 0; i < tests.size(); ++i) {
    tests[i].id = fmt::format("M{}", i + 1);
    plan.tests.push_back(std::move(tests[i]));
  }
}

std::vector<double> masses_of(const Rig& rig) {
  const auto& [lightest, heaviest] = rig.arrest.inputs->rider_kg;
  std::vector<double> kg{lightest, std::round((lightest + heaviest) / 2), heaviest};
  kg.erase(std::unique(kg.begin(), kg.end()), kg.end());
  return kg;
}

}  // namespace

const Test* Plan::find(std::string_view id) const {
  const auto found = std::ranges::find(tests, id, &Test::id);
  return found == tests.end() ? nullptr : &*found;
}

std::vector<Expected> expected_of(const Rig& rig, Kind kind, double travel_m) {
  std::vector<Expected> all;
  if (kind == Kind::hand_pull) {
    all.push_back({.what = Trialled::pull_on});
    all.push_back(let_back_of(rig));
    all.push_back(extension_of(rig));
    if (travel_m > 0) add_return(rig, all);
    return all;
  }
  all.push_back({.what = Trialled::arrival_speed,
                 .limit = Acceptance{Acceptance::Sense::at_most, fastest_judged(rig),
                                     "fastest arrival that the arrest was judged for"}});
  all.push_back(stopping_travel_of(rig));
  all.push_back(extension_of(rig));
  all.push_back({.what = Trialled::line_tension, .if_there = true});
  all.push_back(observed(Trialled::touches, 0, "nothing touches"));
  all.push_back(observed(Trialled::slack, 0, "no line goes slack"));
  all.push_back(observed(Trialled::backup_reached, 0, "the backup brake is not reached"));
  add_return(rig, all);
  return all;
}

void expect(const Rig& rig, const Solved<Predicted>& predicted, std::vector<Expected>& all) {
  for (Expected& one : all) {
    const bool of_ride = one.what == Trialled::arrival_speed || one.what == Trialled::stopping_travel ||
                         one.what == Trialled::extension || one.what == Trialled::line_tension ||
                         one.what == Trialled::return_time;
    if (!of_ride) continue;
    if (!predicted)
      one.why = predicted.error().why;
    else if (one.what == Trialled::arrival_speed)
      one.predicted = predicted->arrival_speed_m_per_s;
    else if (one.what == Trialled::stopping_travel)
      one.predicted = predicted->stopping_travel_m;
    else if (one.what == Trialled::extension)
      one.predicted = predicted->extension_m;
    else if (one.what == Trialled::line_tension)
      one.predicted = predicted->line_tension_N;
    else
      predict(one, return_time_s(rig, predicted->stopping_travel_m));
  }
}

Solved<Plan> plan(const Rig& rig, const Work& work) {
  if (!rig.arrest.solved()) return tl::unexpected(rig.arrest.result->error());
  if (rig.arrest_held) return unsolved("the arrest is that of another place of the marks");
  Plan all{.fastest_m_per_s = fastest_judged(rig)};
  if (!(all.fastest_m_per_s > 0)) return unsolved("no rider arrives, and so no test mass is let go");
  const auto masses = test_masses(rig, masses_of(rig), work);
  if (!masses) return tl::unexpected(masses.error());
  add_hand_pulls(rig, all);
  add_test_masses(rig, *masses, work, all);
  return all;
}

}  // namespace fairlead::trial
