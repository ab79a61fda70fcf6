#include "geometry/loads/loads.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "geometry/loads/accounts.hpp"
#include "geometry/loads/columns.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {

constexpr double closes = 1e-9;  ///< of the largest force: rounding of some hundred terms, not a force left out

void Accounts::note(const Balance& balance) {
  const Sum& left = balance.left_over();
  loads_.worst_force_residual = greater(loads_.worst_force_residual, left.force_residual());
  loads_.worst_moment_residual = greater(loads_.worst_moment_residual, left.moment_residual());
}

void Accounts::note(const Account& account) {
  note(account.balance);
  loads_.worst_block_residual = greater(loads_.worst_block_residual, account.block_residual);
  for (const OnLine& line : account.lines)
    loads_.worst_line_residual = greater(loads_.worst_line_residual, line.residual);
}

void Accounts::write_row(const Account& account, const reeving::Sweep& sweep, std::size_t p, std::size_t row,
                         std::size_t rows) {
  std::size_t column = 0;
  const auto put = [&](Vec3 value) { table_[column++ * rows + row] = value; };
  for (const Vec3 force_N : account.balance.on_anchor_N()) put(force_N);
  const std::size_t sheaves = reeving_in_.sheaves.size(), lines = reeving_in_.lines.size();
  for (std::size_t i = 0; i < sheaves; ++i) put(sweep.turns[p * sheaves + i].force_N);
  for (std::size_t l = 0; l < lines; ++l) {
    put({sweep.tension_N[p * lines + l]});
    put({account.lines[l].from_N});
    put({account.lines[l].to_N});
  }
  for (const OnBlock& block : account.blocks) {
    put({block.through_N});
    put({block.lean_N_m});
  }
  for (const Vec3 end_N : account.main_line_N) put(end_N);
  for (const HungForces& line : books_.bare_beside_on(sweep.path)) put({line.tension_N});
}

/// Keeps the first of equals.
void Accounts::take(std::size_t column, Extreme seen, CaseKey at) {
  Worst& worst = worst_[column];
  if (!(seen.value <= worst.value) && !std::isnan(worst.value)) {
    worst.value = seen.value;
    worst.at = at;
  }
  worst.bound = greater(worst.bound, seen.bound);
}

static bool all_finite(const reeving::Stray& stray) {
  const auto finite = [](double v) { return std::isfinite(v); };
  return finite(stray.trolley_m) && finite(stray.rider_m) && std::ranges::all_of(stray.blocks_m, finite) &&
         std::ranges::all_of(stray.legs_m, finite);
}

/// Between two poses a line gains what the unit pays out, or nothing.
void Accounts::note_lengths(const Account& account, const reeving::Pose& pose, const Account& at_rest,
                            const reeving::Pose& rest) {
  for (std::size_t l = 0; l < account.lines.size(); ++l) {
    const bool paid_out = reeving_in_.lines[l].closing == reeving::Closing::unit;
    const double gained_m = account.lines[l].unstretched_m - at_rest.lines[l].unstretched_m;
    const double left_m = gained_m - (paid_out ? pose.extension_m - rest.extension_m : 0);
    loads_.worst_length_residual =
        greater(loads_.worst_length_residual, std::abs(left_m) / at_rest.lines[l].unstretched_m);
  }
}

void Accounts::walk(int s, Slip slip) {
  const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
  const std::size_t poses = sweep.poses.size();
  table_.resize(columns_.count * poses);
  travel_m_.clear();
  known_.clear();
  const CaseKey first{action_of(reeving_in_, s), s, 0, slip};
  standing_.begin(poses, first);
  const Account at_rest = books_.account(s, sweep.rest_pose, slip);
  const reeving::Pose& rest = sweep.poses[static_cast<std::size_t>(sweep.rest_pose)];
  for (std::size_t p = 0; p < poses; ++p) {
    const reeving::Pose& pose = sweep.poses[p];
    travel_m_.push_back(pose.travel_m);
    known_.push_back(p < sweep.strays.size() && all_finite(sweep.strays[p]));
    const Account account = books_.account(s, static_cast<int>(p), slip);
    note(account);
    note_lengths(account, pose, at_rest, rest);
    write_row(account, sweep, p, p, poses);
    standing_.pose(p, account.balance.on_anchor_N());
  }
  standing_.end(travel_m_, known_);
  for (std::size_t c = 0; c < columns_.count; ++c) {
    const Extreme seen = worst_over({&table_[c * poses], poses}, travel_m_, known_);
    take(c, seen, {first.action, s, seen.pose, slip});
  }
  if (first.action == Action::peak_tension) note_spread(s);
}

void Accounts::take_single(const Single& single, CaseKey key) {
  note(single.balance);
  standing_.single(single.balance.on_anchor_N(), single.gap_N, key);
  for (std::size_t a = 0; a < in_.anchors.size(); ++a) {
    if (std::ranges::count(single.left_out, static_cast<int>(a)) > 0) continue;
    // Other lines on this anchor shift the force by what they add to the bound as well.
    const double force_N = size(single.balance.on_anchor_N()[a]);
    take(a, {force_N, force_N + single.gap_N[a]}, key);
  }
  const auto take_tension = [&](std::size_t column, const Tension& t) { take(column, {t.value_N, t.bound_N}, key); };
  for (const std::size_t end : {0, 1}) take_tension(columns_.main_line + end, single.main_line[end]);
  for (std::size_t i = 0; i < single.beside.size(); ++i) take_tension(columns_.beside + i, single.beside[i]);
}

tl::expected<void, Unsolved> Accounts::walk_singles() {
  for (const auto& cases : {span_cases, backup_cases, weather_cases}) {
    auto found = cases(rig_);
    if (!found) return tl::unexpected(found.error());
    std::ranges::move(*found, std::back_inserter(singles_));
  }
  for (std::size_t i = 0; i < singles_.size(); ++i)
    take_single(singles_[i], {singles_[i].action, -1, static_cast<int>(i)});
  return {};
}

/// Two persons from the rest mark on, with the brake trolley: the anchors and the main line at every pose.
tl::expected<void, Unsolved> Accounts::walk_rescue(int s, Slip slip) {
  const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
  const auto rest = static_cast<std::size_t>(sweep.rest_pose);
  const std::size_t poses = sweep.poses.size() - rest, anchors = in_.anchors.size();
  table_.assign((anchors + 2) * poses, {});
  standing_.begin(poses, {Action::rescue, s, sweep.rest_pose, slip});
  travel_m_.clear();
  known_.clear();
  for (std::size_t p = 0; p < poses; ++p) {
    const auto single = rescue_in_zone(rig_, s, static_cast<int>(rest + p), slip);
    if (!single) return tl::unexpected(single.error());
    note(single->balance);
    travel_m_.push_back(sweep.poses[rest + p].travel_m);
    known_.push_back(rest + p < sweep.strays.size() && all_finite(sweep.strays[rest + p]));
    standing_.pose(p, single->balance.on_anchor_N());
    for (std::size_t a = 0; a < anchors; ++a) table_[a * poses + p] = single->balance.on_anchor_N()[a];
    for (const std::size_t end : {0, 1}) table_[(anchors + end) * poses + p] = {single->main_line[end].value_N};
  }
  standing_.end(travel_m_, known_);
  for (std::size_t c = 0; c < anchors + 2; ++c) {
    const Extreme seen = worst_over({&table_[c * poses], poses}, travel_m_, known_);
    take(c < anchors ? c : columns_.main_line + c - anchors, seen,
         {Action::rescue, s, static_cast<int>(rest) + seen.pose, slip});
  }
  return {};
}

/// The cases that are always listed, and those that govern something.
void Accounts::list_keys() {
  struct Most {
    double value = -1;
    CaseKey key;
    void meet(double other, CaseKey at) {
      if (other > value) value = other, key = at;
    }
  };
  for (int s = 0; s < static_cast<int>(reeved_.sweeps.size()); ++s) {
    const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
    const bool empty = main_line_.paths[static_cast<std::size_t>(sweep.path)].loading == mainline::Loading::empty;
    const Action action = action_of(reeving_in_, s);
    const bool still = action == Action::at_rest || action == Action::returning;
    if ((still && empty) || action == Action::wind)
      for (const Slip slip : books_.slips()) keys_.push_back({action, s, sweep.rest_pose, slip});
  }
  for (const mainline::Loading loading : {mainline::Loading::lightest, mainline::Loading::heaviest}) {
    Most pull;  // where the trolley's line pulls hardest
    for (int s = 0; s < static_cast<int>(reeved_.sweeps.size()); ++s) {
      const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
      if (action_of(reeving_in_, s) != Action::peak_tension ||
          main_line_.paths[static_cast<std::size_t>(sweep.path)].loading != loading)
        continue;
      for (std::size_t p = 0; p < sweep.poses.size(); ++p)
        pull.meet(sweep.poses[p].trolley_tension_N, {Action::peak_tension, s, static_cast<int>(p)});
    }
    if (!(pull.value >= 0)) continue;
    for (const Slip slip : books_.slips()) {
      pull.key.slip = slip;
      keys_.push_back(pull.key);
    }
  }
  list_arrest();
  std::map<std::string, Most> families;
  for (std::size_t i = 0; i < singles_.size(); ++i)
    if (!singles_[i].family.empty())
      families[singles_[i].family].meet(singles_[i].measure_N, {singles_[i].action, -1, static_cast<int>(i)});
  for (const auto& [family, most] : families) keys_.push_back(most.key);
  for (const Worst& worst : worst_)
    if (worst.value > 0) keys_.push_back(worst.at);
  standing_.add_keys(keys_);
  std::ranges::sort(keys_);
  keys_.erase(std::unique(keys_.begin(), keys_.end()), keys_.end());
}

Extreme Accounts::extreme(std::size_t column) const {
  const Worst& worst = worst_[column];
  if (!(worst.value > 0)) return {worst.value, worst.bound, -1};
  const auto at = std::ranges::lower_bound(keys_, worst.at) - keys_.begin();
  return {worst.value, worst.bound, static_cast<int>(at)};
}

LoadCase Accounts::case_at(const CaseKey& key) const {
  if (key.action == Action::arrest || key.action == Action::arrest_return)
    return arrest_->load_case(static_cast<std::size_t>(key.pose), key.slip);
  if (key.sweep < 0) return case_of(singles_[static_cast<std::size_t>(key.pose)]);
  if (key.action != Action::rescue) return case_in_zone(rig_, key);
  LoadCase load_case = case_of(rescue_in_zone(rig_, key.sweep, key.pose, key.slip).value());
  load_case.sweep = key.sweep;
  load_case.pose = key.pose;
  return load_case;
}

void Accounts::fill() {
  for (const CaseKey& key : keys_) {
    loads_.cases.push_back(case_at(key));
    standing_.describe(key, loads_.cases.back());
  }
  standing_.fill(keys_, loads_);
  for (std::size_t a = 0; a < in_.anchors.size(); ++a) loads_.demands.push_back({extreme(a)});
  for (std::size_t c = columns_.sheaves; c < columns_.lines; ++c) loads_.sheaves.push_back({extreme(c)});
  for (std::size_t c = columns_.lines; c < columns_.blocks; c += 3)
    loads_.lines.push_back({extreme(c), extreme(c + 1), extreme(c + 2)});
  for (std::size_t c = columns_.blocks; c < columns_.main_line; c += 2)
    loads_.blocks.push_back({extreme(c), extreme(c + 1)});
  // A hanging line pulls hardest at one of its supports.
  const Extreme start = extreme(columns_.main_line), end = extreme(columns_.main_line + 1);
  loads_.main_line.force_N = end.value > start.value ? end : start;
  loads_.main_line.force_N.bound = greater(start.bound, end.bound);
  for (std::size_t c = columns_.beside; c < columns_.count; ++c) loads_.beside.push_back({extreme(c)});
}

tl::expected<void, Unsolved> Accounts::closed() const {
  // NaN closes nothing: written so that it fails.
  if (!(loads_.worst_block_residual <= closes))
    return unsolved("the forces on a travelling block do not balance", loads_.worst_block_residual);
  if (!(loads_.worst_line_residual <= closes))
    return unsolved("the tension of a line does not follow from its load alone", loads_.worst_line_residual);
  if (!(loads_.worst_length_residual <= closes))
    return unsolved("a line gains a length that the brake unit does not pay out", loads_.worst_length_residual);
  if (!(loads_.worst_force_residual <= closes && loads_.worst_moment_residual <= closes))
    return unsolved("the forces on the anchors do not balance the weights",
                    greater(loads_.worst_force_residual, loads_.worst_moment_residual));
  return {};
}

Solved<Loads> Accounts::solve(const Work& work) {
  if (!books_.refusal().empty()) return unsolved(books_.refusal());
  for (int s = 0; s < static_cast<int>(reeved_.sweeps.size()); ++s)
    for (const Slip slip : books_.slips()) walk(s, slip);
  if (auto walked = walk_singles(); !walked) return tl::unexpected(walked.error());
  walk_arrest(work);
  if (in_.rescuer_N > 0)
    for (std::size_t p = 0; p < main_line_.paths.size(); ++p)
      if (const int s = rig_.at_rest_sweep(p); s >= 0 && main_line_.paths[p].loading == mainline::Loading::heaviest)
        for (const Slip slip : books_.slips())
          if (auto walked = walk_rescue(s, slip); !walked) return tl::unexpected(walked.error());
  list_keys();
  fill();
  if (auto good = closed(); !good) return tl::unexpected(good.error());
  return std::move(loads_);
}

Solved<Loads> solve(const Inputs& in, const mainline::MainLine& main_line, const reeving::Inputs& reeving_in,
                    const reeving::Reeving& reeved, const Work& work) {
  return Accounts(in, main_line, reeving_in, reeved).solve(work);
}

}  // namespace fairlead::loads
