// What is looked at beside the passages in the arrest zone: a rescue there, the backup brake, weather without riders.
#include <fmt/format.h>

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
  Spanned spanned = rig.books.on_span(sweep, pose, carried.state.cable, *shape, slip, beside);
  Single single = single_of(Action::rescue,
                            fmt::format("rescue in the arrest zone, {}{}",
                                        mainline::name_of(rig.main_line, rig.state_of(sweep)), words_for(slip)),
                            "", std::move(spanned.balance), spanned.main_line_N, beside);
  single.travel_m = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses[static_cast<std::size_t>(pose)].travel_m;
  return single;
}

Solved<std::vector<Single>> backup_cases(const Rigged& rig) {
  std::vector<Single> found;
  const Backup& backup = rig.in.backup;
  if (backup.anchor == no_anchor) return found;
  for (std::size_t p = 0; p < rig.main_line.paths.size(); ++p) {
    const int sweep = rig.at_rest_sweep(p);
    if (rig.main_line.paths[p].loading != mainline::Loading::heaviest || sweep < 0) continue;
    const reeving::SweepInputs& carried = rig.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
    const auto& poses = rig.reeved.sweeps[static_cast<std::size_t>(sweep)].poses;
    const int last = static_cast<int>(poses.size()) - 1;
    const auto shape = loaded(rig, sweep, last, carried.rider_weight_N + carried.trolley_weight_N);
    if (!shape) return tl::unexpected(shape.error());
    const mainline::LinePoint line = mainline::line_at(carried.state.cable, *shape, backup.engages_m);
    const Point3 at = rig.reeving_in.origin + backup.engages_m * rig.reeving_in.along + line.z_m * rig.reeving_in.up;
    const Vec3 force_N = backup.force_N * unit(rig.reeving_in.along + line.slope * rig.reeving_in.up);
    for (const Slip slip : rig.books.slips()) {
      Account account = rig.books.account(sweep, last, slip);
      // It pulls rider and trolley upstream as much, which their mass bears.
      account.balance.push(backup.anchor, at, force_N);
      account.balance.act(at, force_N);
      found.push_back(single_of(Action::backup_brake,
                                fmt::format("backup brake, heaviest rider at full travel, {}{}",
                                            mainline::name_of(rig.main_line, rig.state_of(sweep)), words_for(slip)),
                                "backup brake" + words_for(slip), std::move(account.balance), account.main_line_N,
                                rig.books.bare_beside(sweep)));
      found.back().measure_N = size(found.back().balance.on_anchor_N()[static_cast<std::size_t>(backup.anchor)]);
      found.back().travel_m = poses.back().travel_m;
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
