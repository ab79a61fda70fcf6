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
    case Action::returning:
      return "returning";
    case Action::wind:
      return wind_words(wind_Pa, reeving);
    default:
      return "peak line tension";
  }
}

}  // namespace

const mainline::StatePath& Rigged::path_of(int sweep) const {
  return main_line.paths[static_cast<std::size_t>(reeving_in.sweeps[static_cast<std::size_t>(sweep)].path)];
}

const mainline::State& Rigged::state_of(int sweep) const {
  return main_line.states[static_cast<std::size_t>(path_of(sweep).state)];
}

const mainline::State& Rigged::state_on(int path) const {
  return main_line.states[static_cast<std::size_t>(main_line.paths[static_cast<std::size_t>(path)].state)];
}

double Rigged::weight_on(int path) const {
  const auto found = std::ranges::find(reeving_in.sweeps, path, &reeving::SweepInputs::path);
  return found->trolley_weight_N + found->rider_weight_N;
}

int Rigged::at_rest_sweep(std::size_t path) const {
  const auto& sweeps = reeving_in.sweeps;
  const auto found = std::find_if(sweeps.begin(), sweeps.end(), [&](const reeving::SweepInputs& s) {
    return s.path == static_cast<int>(path) && s.running == reeving::Running::at_rest && s.wind_Pa == Vec3{};
  });
  return found == sweeps.end() ? -1 : static_cast<int>(found - sweeps.begin());
}

int Rigged::empty_at_rest_sweep(int state) const {
  for (std::size_t p = 0; p < main_line.paths.size(); ++p)
    if (main_line.paths[p].state == state && main_line.paths[p].loading == mainline::Loading::empty)
      return at_rest_sweep(p);
  return -1;
}

LoadCase with_forces(const Balance& balance) {
  LoadCase load_case;
  load_case.on_anchor_N = balance.on_anchor_N();
  load_case.out_of_balance_N = balance.left_over().force_N();
  load_case.out_of_balance_N_m = balance.left_over().couple_N_m();
  load_case.largest_N = balance.left_over().largest_N();
  return load_case;
}

Action action_of(const reeving::Inputs& reeving, int sweep) {
  const reeving::SweepInputs& in = reeving.sweeps[static_cast<std::size_t>(sweep)];
  if (in.running == reeving::Running::paying_out) return Action::peak_tension;
  if (in.wind_Pa != Vec3{}) return Action::wind;
  return in.friction == reeving::Friction::returning ? Action::returning : Action::at_rest;
}

std::string words_for(Slip slip) {
  switch (slip) {
    case Slip::none:
      return "";
    case Slip::backward:
      return ", main line slipping backward over its saddles";
    case Slip::forward:
      return ", main line slipping forward over its saddles";
  }
  return "";
}

std::string wind_words(Vec3 push, const reeving::Inputs& reeving) {
  // It blows from the side opposite to where it pushes; across points to the left as one looks downstream.
  return dot(push, reeving.across) > 0 ? "side wind from the right" : "side wind from the left";
}

LoadCase case_in_zone(const Rigged& rig, const CaseKey& key) {
  const reeving::SweepInputs& sweep = rig.reeving_in.sweeps[static_cast<std::size_t>(key.sweep)];
  LoadCase load_case = with_forces(rig.books.account(key.sweep, key.pose, key.slip).balance);
  load_case.name = fmt::format("{}, {}, {}{}", words_for(key.action, sweep.wind_Pa, rig.reeving_in),
                               mainline::word_for(rig.path_of(key.sweep).loading),
                               mainline::name_of(rig.main_line, rig.state_of(key.sweep)), words_for(key.slip));
  load_case.action = key.action;
  load_case.sweep = key.sweep;
  load_case.pose = key.pose;
  load_case.travel_m =
      rig.reeved.sweeps[static_cast<std::size_t>(key.sweep)].poses[static_cast<std::size_t>(key.pose)].travel_m;
  return load_case;
}

LoadCase case_of(const Single& single) {
  LoadCase load_case = with_forces(single.balance);
  load_case.name = single.name;
  load_case.action = single.action;
  load_case.travel_m = single.travel_m;
  return load_case;
}

}  // namespace fairlead::loads
