// What is looked at beside the passages in the arrest zone: a rescue there, the backup brake, weather without riders.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/loads/cases.hpp"
#include "geometry/mainline/names.hpp"

namespace fairlead::loads {
namespace {

std::vector<Tension> as_they_hang(const BesideForces& beside) {
  std::vector<Tension> tensions;
  for (const HungForces& line : beside) tensions.push_back({line.tension_N, line.tension_N});
  return tensions;
}

Single single_of(Action action, std::string name, std::string family, Balance balance, const EndTensions& main_line_N,
                 const BesideForces& beside) {
  Single single{.action = action,
                .name = std::move(name),
                .family = std::move(family),
                .balance = std::move(balance),
                .beside = as_they_hang(beside)};
  single.gap_N.resize(single.balance.on_anchor_N().size());
  for (const std::size_t end : {0, 1}) {
    const double tension_N = size(main_line_N[end]);
    single.main_line[end] = {tension_N, tension_N};
  }
  return single;
}

/// The main line at a pose of a sweep, under another weight on the trolley's wheels.
Solved<mainline::Shape> loaded(const Rigged& rig, int sweep, int pose, double weight_N) {
  const reeving::Pose& at = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses[static_cast<std::size_t>(pose)];
  const mainline::Load load{dot(at.trolley - rig.reeving_in.origin, rig.reeving_in.along),
                            weight_N - dot(at.pull_on_trolley_N, rig.reeving_in.up)};
  return mainline::hang_rolling(rig.reeving_in.sweeps[static_cast<std::size_t>(sweep)].state.cable, {&load, 1});
}

std::string words_for(const Weather& weather, const Rigged& rig) {
  const mainline::State& state = rig.main_line.states[static_cast<std::size_t>(weather.state)];
  const std::string wind = wind_words(weather.main_line.wind_N_per_m, rig.reeving_in);
  switch (weather.action) {
    case Action::storm:
      return fmt::format("storm, {}, nobody on the line, {}", wind, mainline::name_of(rig.main_line, state));
    case Action::ice_and_wind:
      return fmt::format("ice, {}, nobody on the line{}", wind, mainline::ends_of(rig.main_line, state));
    default:
      return fmt::format("ice, nobody on the line{}", mainline::ends_of(rig.main_line, state));
  }
}

/// In the order of the lines; unsolved where one does not hang.
Solved<BesideForces> beside_in(const Rigged& rig, const Weather& weather) {
  BesideForces all;
  for (std::size_t i = 0; i < rig.in.beside.size(); ++i) {
    const auto& ends = rig.in.anchors;
    const Beside& line = rig.in.beside[i];
    const Blown& blown = weather.beside[i];
    auto hung = hang_between(ends[static_cast<std::size_t>(line.from)], ends[static_cast<std::size_t>(line.to)],
                             blown.cable, blown.wind_N_per_m);
    if (!hung) return tl::unexpected(hung.error());
    all.push_back(std::move(*hung));
  }
  return all;
}

}  // namespace

Solved<Single> rescue_in_zone(const Rigged& rig, int sweep, int pose, Slip slip) {
  const reeving::SweepInputs& carried = rig.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
  const auto shape = loaded(rig, sweep, pose, carried.rider_weight_N + rig.in.rescuer_N + carried.trolley_weight_N);
  if (!shape) return tl::unexpected(shape.error());
  const BesideForces& beside = rig.books.bare_beside(sweep);
  const mainline::Cable& cable = carried.state.cable;
  const HungForces line = forces_of(rig.reeving_in.origin, rig.reeving_in.along, rig.reeving_in.up, cable, *shape);
  Spanned spanned = rig.books.on_span(sweep, pose, {cable, {}}, line, slip, beside);
  Single single = single_of(Action::rescue,
                            fmt::format("rescue in the arrest zone, {}{}",
                                        mainline::name_of(rig.main_line, rig.state_of(sweep)), words_for(slip)),
                            "", std::move(spanned.balance), spanned.main_line_N, beside);
  single.travel_m = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses[static_cast<std::size_t>(pose)].travel_m;
  return single;
}

namespace {

/// The sweep of a path that pays out; -1 without.
int peak_sweep(const Rigged& rig, std::size_t path) {
  const auto& sweeps = rig.reeving_in.sweeps;
  const auto found = std::ranges::find_if(sweeps, [&](const reeving::SweepInputs& s) {
    return s.path == static_cast<int>(path) && s.running == reeving::Running::paying_out;
  });
  return found == sweeps.end() ? -1 : static_cast<int>(found - sweeps.begin());
}

/// At the last pose of a sweep, the brake's pull put where it holds the line.
Solved<Account> with_backup(const Rigged& rig, int sweep, Slip slip) {
  const reeving::SweepInputs& carried = rig.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
  const int last = static_cast<int>(rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses.size()) - 1;
  const auto shape = loaded(rig, sweep, last, carried.rider_weight_N + carried.trolley_weight_N);
  if (!shape) return tl::unexpected(shape.error());
  const Backup& backup = rig.in.backup;
  const mainline::LinePoint line = mainline::line_at(carried.state.cable, *shape, backup.engages_m);
  const Point3 at = rig.reeving_in.origin + backup.engages_m * rig.reeving_in.along + line.z_m * rig.reeving_in.up;
  const Vec3 force_N = backup.force_N * unit(rig.reeving_in.along + line.slope * rig.reeving_in.up);
  Account account = rig.books.account(sweep, last, slip);
  // It pulls rider and trolley upstream as much, which their mass bears.
  account.balance.push(backup.anchor, at, force_N);
  account.balance.act(at, force_N);
  return account;
}

Single backup_case(const Rigged& rig, int sweep, Slip slip, std::string_view words, Account account) {
  Single single = single_of(Action::backup_brake,
                            fmt::format("{}, heaviest rider at full travel, {}{}", words,
                                        mainline::name_of(rig.main_line, rig.state_of(sweep)), words_for(slip)),
                            std::string(words) + words_for(slip), std::move(account.balance), account.main_line_N,
                            rig.books.bare_beside(sweep));
  single.measure_N = size(single.balance.on_anchor_N()[static_cast<std::size_t>(rig.in.backup.anchor)]);
  single.travel_m = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses.back().travel_m;
  return single;
}

}  // namespace

Solved<std::vector<Single>> backup_cases(const Rigged& rig) {
  std::vector<Single> found;
  if (rig.in.backup.anchor == no_anchor) return found;
  for (std::size_t p = 0; p < rig.main_line.paths.size(); ++p) {
    const int rest = rig.at_rest_sweep(p), peak = peak_sweep(rig, p);
    if (rig.main_line.paths[p].loading != mainline::Loading::heaviest || rest < 0 || peak < 0) continue;
    const auto tension_N = [&](int sweep) {
      return rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses.back().outlet_tension_N;
    };
    for (const Slip slip : rig.books.slips()) {
      auto standing = with_backup(rig, rest, slip), braking = with_backup(rig, peak, slip);
      if (!standing) return tl::unexpected(standing.error());
      if (!braking) return tl::unexpected(braking.error());
      found.push_back(backup_case(rig, rest, slip, "backup brake", std::move(*standing)));
      found.push_back(
          backup_case(rig, peak, slip, "backup brake and primary at its peak tension", std::move(*braking)));
      // The primary lost, its line without tension: as far below the retraction as that is below the peak tension, in
      // proportion.
      Single& alone = found[found.size() - 2];
      const double share = tension_N(rest) / (tension_N(peak) - tension_N(rest));
      for (std::size_t a = 0; a < alone.gap_N.size(); ++a) {
        const Vec3 held_N = alone.balance.on_anchor_N()[a], more_N = found.back().balance.on_anchor_N()[a] - held_N;
        alone.gap_N[a] = greater(0, size(held_N - share * more_N) - size(held_N));
      }
    }
  }
  return found;
}

Solved<std::vector<Single>> weather_cases(const Rigged& rig) {
  std::vector<Single> found;
  for (const Weather& weather : rig.in.weather) {
    const int sweep = rig.empty_at_rest_sweep(weather.state);
    if (sweep < 0) return unsolved("the lines of the arrest system are not solved for weather without riders");
    const auto line = hang_between(rig.in.anchors[static_cast<std::size_t>(rig.in.start_anchor)],
                                   rig.in.anchors[static_cast<std::size_t>(rig.in.end_anchor)], weather.main_line.cable,
                                   weather.main_line.wind_N_per_m);
    if (!line) return unsolved("in ice or storm: " + line.error().why, line.error().residual);
    const auto beside = beside_in(rig, weather);
    if (!beside) return unsolved("in ice or storm: " + beside.error().why, beside.error().residual);
    const mainline::State& state = rig.main_line.states[static_cast<std::size_t>(weather.state)];
    for (const Slip slip : rig.books.slips()) {
      const int pose = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].rest_pose;
      Spanned spanned = rig.books.bare(sweep, pose, *line, weather.main_line, slip, *beside);
      found.push_back(
          single_of(weather.action, words_for(weather, rig) + words_for(slip),
                    fmt::format("{} {} {}{}", static_cast<int>(weather.action), mainline::word_for(state.weather),
                                wind_words(weather.main_line.wind_N_per_m, rig.reeving_in), words_for(slip)),
                    std::move(spanned.balance), spanned.main_line_N, *beside));
      found.back().measure_N = greater(size(spanned.main_line_N[0]), size(spanned.main_line_N[1]));
    }
  }
  return found;
}

}  // namespace fairlead::loads
