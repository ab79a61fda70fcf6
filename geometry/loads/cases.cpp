#include "geometry/loads/cases.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/mainline/names.hpp"

namespace fairlead::loads {
namespace {

std::string words_for(Action action, Vec3 wind_Pa, const reeving::Inputs& reeving) {
  switch (action) {
    case Action::at_rest:
      return "at rest";
    case Action::wind:
      // It blows from the side opposite to where it pushes; across points to the left as one looks downstream.
      return dot(wind_Pa, reeving.across) > 0 ? "side wind from the right" : "side wind from the left";
    case Action::peak_tension:
      return "peak line tension";
    case Action::rider_on_span:
      break;
  }
  return "rider on the open span";
}

LoadCase with_forces(const Balance& balance) {
  LoadCase load_case;
  load_case.on_anchor_N = balance.on_anchor_N();
  load_case.out_of_balance_N = balance.left_over().force_N();
  load_case.out_of_balance_N_m = balance.left_over().couple_N_m();
  load_case.largest_N = balance.left_over().largest_N();
  return load_case;
}

/// The sweep of that path with its lines at rest, without wind.
int at_rest_sweep(const reeving::Inputs& reeving, std::size_t path) {
  const auto found = std::find_if(reeving.sweeps.begin(), reeving.sweeps.end(), [&](const reeving::SweepInputs& s) {
    return s.path == static_cast<int>(path) && s.running == reeving::Running::at_rest && s.wind_Pa == Vec3{};
  });
  return found == reeving.sweeps.end() ? -1 : static_cast<int>(found - reeving.sweeps.begin());
}

}  // namespace

Action action_of(const reeving::Inputs& reeving, int sweep) {
  const reeving::SweepInputs& in = reeving.sweeps[static_cast<std::size_t>(sweep)];
  if (in.running == reeving::Running::paying_out) return Action::peak_tension;
  return in.wind_Pa == Vec3{} ? Action::at_rest : Action::wind;
}

Solved<std::vector<SpanCase>> span_cases(const Books& books, const mainline::MainLine& main_line,
                                         const reeving::Inputs& reeving, const reeving::Reeving& reeved) {
  std::vector<SpanCase> spans;
  for (std::size_t p = 0; p < main_line.paths.size(); ++p) {
    const mainline::StatePath& path = main_line.paths[p];
    const int sweep = at_rest_sweep(reeving, p);
    if (path.loading != mainline::Loading::heaviest || sweep < 0) continue;
    const reeving::SweepInputs& carried = reeving.sweeps[static_cast<std::size_t>(sweep)];
    const reeving::Pose& upstream = reeved.sweeps[static_cast<std::size_t>(sweep)].poses.front();
    const mainline::Load trolley{reeving.rest_m,
                                 carried.trolley_weight_N - dot(upstream.pull_on_trolley_N, reeving.up)};
    const auto worst = mainline::worst_rider(carried.state.cable, carried.rider_weight_N, trolley, path.path.from_m());
    if (!worst) return tl::unexpected(worst.error());
    for (const bool start : {true, false}) {
      const mainline::SupportWorst& one = start ? worst->start : worst->end;
      spans.push_back({p, start, one, books.on_span(sweep, 0, carried.state.cable, one.shape)});
    }
  }
  return spans;
}

LoadCase case_in_zone(const Books& books, const mainline::MainLine& main_line, const reeving::Inputs& reeving,
                      const reeving::Reeving& reeved, const CaseKey& key) {
  const reeving::SweepInputs& sweep = reeving.sweeps[static_cast<std::size_t>(key.sweep)];
  const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(sweep.path)];
  LoadCase load_case = with_forces(books.account(key.sweep, key.pose).balance);
  load_case.name =
      fmt::format("{}, {}, {}", words_for(key.action, sweep.wind_Pa, reeving), mainline::word_for(path.loading),
                  mainline::name_of(main_line, main_line.states[static_cast<std::size_t>(path.state)]));
  load_case.action = key.action;
  load_case.sweep = key.sweep;
  load_case.pose = key.pose;
  load_case.travel_m =
      reeved.sweeps[static_cast<std::size_t>(key.sweep)].poses[static_cast<std::size_t>(key.pose)].travel_m;
  return load_case;
}

LoadCase case_on_span(const mainline::MainLine& main_line, const reeving::Inputs& reeving, const SpanCase& span) {
  const mainline::StatePath& path = main_line.paths[span.path];
  LoadCase load_case = with_forces(span.balance);
  load_case.name = fmt::format("{} on the open span, {}, worst for the {} support", mainline::word_for(path.loading),
                               mainline::name_of(main_line, main_line.states[static_cast<std::size_t>(path.state)]),
                               span.start ? "start" : "landing");
  load_case.action = Action::rider_on_span;
  load_case.travel_m = span.worst.rider_x_m - reeving.rest_m;
  return load_case;
}

}  // namespace fairlead::loads
