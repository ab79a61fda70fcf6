// What hangs between the anchors beside the arrest lines: the main line, the rest of it behind its saddles, and the
// lines parallel to it.
#include <limits>

#include "geometry/loads/books.hpp"
#include "geometry/loads/reeved.hpp"

namespace fairlead::loads {

std::span<const Slip> Books::slips() const {
  static constexpr Slip free[] = {Slip::none}, held[] = {Slip::backward, Slip::forward};
  const bool saddles = in_.start_back_anchor != no_anchor || in_.end_back_anchor != no_anchor;
  if (saddles && in_.saddle_friction > 1) return held;
  return free;
}

const BesideForces& Books::bare_beside(int sweep) const {
  return bare_beside_on(reeving_.sweeps[static_cast<std::size_t>(sweep)].path);
}

const BesideForces& Books::bare_beside_on(int path) const {
  return bare_beside_[static_cast<std::size_t>(main_line_.paths[static_cast<std::size_t>(path)].state)];
}

Solved<HungForces> Books::behind(const Spanning& line, bool start, Slip slip) const {
  const double K = in_.saddle_friction, share = slip == Slip::backward ? K : slip == Slip::forward ? 1 / K : 1;
  return pull_between(anchor(start ? in_.start_anchor : in_.end_anchor),
                      anchor(start ? in_.start_back_anchor : in_.end_back_anchor), line.cable, line.wind_N_per_m,
                      share * size(start ? line.on_start_N : line.on_end_N));
}

Vec3 Books::on_support(const Spanning& line, bool start, Slip slip) const {
  const Vec3 span_N = start ? line.on_start_N : line.on_end_N;
  if ((start ? in_.start_back_anchor : in_.end_back_anchor) == no_anchor) return span_N;
  constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  const auto rest = behind(line, start, slip);
  return rest ? span_N + rest->on_from_N : Vec3{unknown, unknown, unknown};
}

EndTensions Books::support(Balance& balance, const Spanning& line, Slip slip) const {
  EndTensions tensions{line.on_start_N, line.on_end_N};
  for (const bool start : {true, false}) {
    const int at = start ? in_.start_anchor : in_.end_anchor,
              back = start ? in_.start_back_anchor : in_.end_back_anchor;
    Vec3& pull_N = tensions[start ? 0 : 1];
    balance.push(at, anchor(at), pull_N);
    if (back == no_anchor) continue;
    const auto rest = behind(line, start, slip);
    if (!rest) {
      pull_N = std::numeric_limits<double>::quiet_NaN() * pull_N;
      balance.push(at, anchor(at), pull_N);
      continue;
    }
    balance.push(at, anchor(at), rest->on_from_N);
    balance.push(back, anchor(back), rest->on_to_N);
    for (const Acting& acting : rest->acting) balance.act(acting.at, acting.force_N);
    if (rest->tension_N > size(pull_N)) pull_N = (rest->tension_N / size(pull_N)) * pull_N;
  }
  return tensions;
}

void Books::hang(Balance& balance, const BesideForces& beside) const {
  for (std::size_t i = 0; i < beside.size(); ++i) {
    const Beside& line = in_.beside[i];
    balance.push(line.from, anchor(line.from), beside[i].on_from_N);
    balance.push(line.to, anchor(line.to), beside[i].on_to_N);
    for (const Acting& acting : beside[i].acting) balance.act(acting.at, acting.force_N);
  }
}

Account Books::account(int sweep_index, int pose_index, Slip slip) const {
  const reeving::Pose& pose = sweep_of(sweep_index).poses[static_cast<std::size_t>(pose_index)];
  const reeving::SweepInputs& carried = reeving_.sweeps[static_cast<std::size_t>(sweep_index)];
  const bool apart = pose.travel_m < 0 && carried.rider_weight_N > 0;
  const double trolley_N = carried.trolley_weight_N + (apart ? 0 : carried.rider_weight_N);
  std::array<Acting, 2> on_wheels{{{pose.trolley, -trolley_N * reeving_.up + pose.hold_N}}};
  if (apart) {
    // What holds the rider upstream is not told: it is what the main line's supports and the trolley's wheel leave.
    const Vec3 on_trolley_N = trolley_N * reeving_.up - pose.hold_N - pose.pull_on_trolley_N;
    const double hold_N = dot(pose.start_support_N + pose.end_support_N + on_trolley_N, reeving_.along);
    on_wheels[1] = {pose.rider, -carried.rider_weight_N * reeving_.up + hold_N * reeving_.along};
  }
  return account(sweep_of(sweep_index), pose_index, {carried.state.cable, {}, pose.start_support_N, pose.end_support_N},
                 std::span(on_wheels).first(apart ? 2 : 1), slip);
}

Account Books::account(const reeving::Sweep& sweep, int pose_index, const Spanning& line,
                       std::span<const Acting> on_wheels, Slip slip) const {
  const reeving::Pose& pose = sweep.poses[static_cast<std::size_t>(pose_index)];
  Reeved reeved(*this, sweep, pose_index, pose.trolley);
  Balance& balance = reeved.balance;
  const EndTensions main_line_N = support(balance, line, slip);
  hang(balance, bare_beside_on(sweep.path));
  // The main line's weight, with its moment about the start support alone known: put where that moment says.
  const double centre_m = pose.main_line_moment_N_m / pose.main_line_weight_N;
  balance.act(reeving_.origin + centre_m * reeving_.along, -pose.main_line_weight_N * reeving_.up);
  for (const Acting& acting : on_wheels) balance.act(acting.at, acting.force_N);
  return {std::move(balance), main_line_N, std::move(reeved.lines), std::move(reeved.blocks), reeved.block_residual};
}

Account Books::account(const reeving::Sweep& sweep, int pose_index, const Spanning& spanning, const HungForces& line,
                       Point3 trolley, std::span<const Acting> on_wheels, Slip slip) const {
  Reeved reeved(*this, sweep, pose_index, trolley);
  Balance& balance = reeved.balance;
  const EndTensions main_line_N = support(balance, spanning, slip);
  hang(balance, bare_beside_on(sweep.path));
  balance.act(line.acting.front().at, line.acting.front().force_N);
  for (const Acting& acting : on_wheels) balance.act(acting.at, acting.force_N);
  return {std::move(balance), main_line_N, std::move(reeved.lines), std::move(reeved.blocks), reeved.block_residual};
}

Spanned Books::on_span(int sweep, int pose_index, const Blown& main_line, const HungForces& line, Slip slip,
                       const BesideForces& beside) const {
  const Point3 trolley = line.acting.back().at;
  Balance balance = Reeved(*this, sweep_of(sweep), pose_index, trolley).balance;
  const EndTensions main_line_N =
      support(balance, {main_line.cable, main_line.wind_N_per_m, line.on_from_N, line.on_to_N}, slip);
  hang(balance, beside);
  for (const Acting& acting : line.acting) balance.act(acting.at, acting.force_N);
  // Every wheel is held against what the main line does to it; the trolley also against the pull of its own line, which
  // is part of the rig.
  balance.act(trolley, -sweep_of(sweep).poses[static_cast<std::size_t>(pose_index)].pull_on_trolley_N);
  return {std::move(balance), main_line_N};
}

Spanned Books::bare(int sweep, int pose_index, const HungForces& line, const Blown& main_line, Slip slip,
                    const BesideForces& beside) const {
  const reeving::Pose& pose = sweep_of(sweep).poses[static_cast<std::size_t>(pose_index)];
  Balance balance = Reeved(*this, sweep_of(sweep), pose_index, pose.trolley).balance;
  const EndTensions main_line_N =
      support(balance, {main_line.cable, main_line.wind_N_per_m, line.on_from_N, line.on_to_N}, slip);
  hang(balance, beside);
  for (const Acting& acting : line.acting) balance.act(acting.at, acting.force_N);
  balance.act(pose.trolley, -pose.pull_on_trolley_N);
  return {std::move(balance), main_line_N};
}

}  // namespace fairlead::loads
