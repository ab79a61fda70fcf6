// What the instants of arrests add to the accounts.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "geometry/loads/accounts.hpp"

namespace fairlead::loads {

/// Of the table as it is, from the last pose before each cell to the first behind it.
void Accounts::note_spread(int s) {
  const std::vector<double>& cells_m = in_.arrested.cells_m;
  if (cells_m.empty()) return;
  const auto path = static_cast<std::size_t>(reeved_.sweeps[static_cast<std::size_t>(s)].path);
  spread_.resize(main_line_.paths.size());
  std::vector<double>& spread = spread_[path];
  spread.resize(columns_.count * cells_m.size());
  const std::size_t poses = travel_m_.size();
  std::size_t first = 0;
  for (std::size_t cell = 0; cell < cells_m.size(); ++cell) {
    while (first + 1 < poses && travel_m_[first + 1] <= cells_m[cell]) ++first;
    std::size_t last = first;
    while (last + 1 < poses && !(cell + 1 < cells_m.size() && travel_m_[last] >= cells_m[cell + 1])) ++last;
    for (std::size_t c = 0; c < columns_.count; ++c) {
      const Vec3* const of = &table_[c * poses];
      double& most = spread[cell * columns_.count + c];
      for (std::size_t p = first; p <= last; ++p)
        most = greater(most, greater(size(of[p] - of[first]), size(of[p] - of[last])));
    }
  }
}

CaseKey Accounts::arrest_key(std::size_t i, Slip slip) const {
  const bool back = in_.arrested.instants[i].friction == reeving::Friction::returning;
  return {back ? Action::arrest_return : Action::arrest, -1, static_cast<int>(i), slip};
}

/// Per column by how much it may be greater elsewhere in an instant's cells of travel, or at one that was left out:
/// over a cell it changes as at the peak tension, in proportion to tension or load, whichever grew more.
void Accounts::find_gaps(std::size_t i, std::vector<double>& gaps) const {
  const ArrestInstant& at = in_.arrested.instants[i];
  const ArrestCorner& corner = in_.arrested.corners[static_cast<std::size_t>(at.corner)];
  const auto path = static_cast<std::size_t>(corner.path);
  const std::vector<double>& cells_m = in_.arrested.cells_m;
  const auto cell_at = [&](double travel_m) {
    return static_cast<std::size_t>(std::ranges::upper_bound(cells_m, greater(travel_m, 0)) - cells_m.begin() - 1);
  };
  const std::size_t cell = cell_at(at.travel_m), rider_cell = cell_at(at.rider_travel_m);
  const bool known = path < spread_.size() && !spread_[path].empty();
  const double rests_N = rig_.weight_on(corner.path), lanyard_N = size(at.lanyard_N);
  const double grown = greater(at.unit_tension_N / reeved_.peak_tension_N, greater(lanyard_N / rests_N, 1));
  for (std::size_t c = 0; c < columns_.count; ++c) {
    gaps[c] = std::numeric_limits<double>::infinity();
    if (!known) continue;
    const auto over = [&](std::size_t where) { return grown * spread_[path][where * columns_.count + c]; };
    gaps[c] = over(cell) + (at.apart ? over(rider_cell) : 0) + 2 * corner.beyond_share * size(table_[c]);
  }
  // What is left along the main line it would pull on at one support or the other.
  const double left_N = in_.saddle_friction * std::abs(arrest_->moving(i).left_along_N);
  for (const int anchor : {in_.start_anchor, in_.end_anchor, in_.start_back_anchor, in_.end_back_anchor})
    if (anchor != no_anchor) gaps[static_cast<std::size_t>(anchor)] += left_N;
  for (const std::size_t end : {0, 1}) gaps[columns_.main_line + end] += left_N;
}

void Accounts::walk_arrest(const Work& work) {
  loads_.without_arrest = in_.arrested.missing;
  auto solved = ArrestPoses::solve(rig_, work);
  if (!solved) {
    // The other cases are told; without this one nothing passes on them.
    loads_.without_arrest = solved.error().why;
    return;
  }
  arrest_ = std::move(*solved);
  table_.assign(columns_.count, {});
  std::vector<double> gaps(columns_.count);
  std::optional<Account> first;
  for (std::size_t i = 0; i < arrest_->count(); ++i)
    for (const Slip slip : books_.slips()) {
      const reeving::Sweep& sweep = arrest_->sweep_of(i);
      const auto pose = static_cast<std::size_t>(arrest_->pose_of(i));
      const Account account = arrest_->account(i, slip);
      if (pose == 0) first = account;
      note(account);
      note_lengths(account, sweep.poses[pose], *first, sweep.poses[0]);
      write_row(account, sweep, pose, 0, 1);
      find_gaps(i, gaps);
      const CaseKey key = arrest_key(i, slip);
      for (std::size_t c = 0; c < columns_.count; ++c) {
        const double value = size(table_[c]);
        take(c, {value, value + gaps[c]}, key);
      }
      standing_.single(account.balance.on_anchor_N(), gaps, key);
    }
}

/// Of the lightest and the heaviest: greatest tension, hardest pull of the lanyard and greatest extension while line is
/// paid out; greatest tension on the way back.
void Accounts::list_arrest() {
  if (!arrest_) return;
  std::map<std::pair<mainline::Loading, int>, std::pair<double, std::size_t>> most;
  for (std::size_t i = 0; i < in_.arrested.instants.size(); ++i) {
    const ArrestInstant& at = in_.arrested.instants[i];
    const auto loading = rig_.loading_on(in_.arrested.corners[static_cast<std::size_t>(at.corner)].path);
    const auto meet = [&](int what, double value) {
      const auto [known, first] = most.try_emplace({loading, what}, value, i);
      if (!first && value > known->second.first) known->second = {value, i};
    };
    if (at.friction == reeving::Friction::returning) {
      meet(3, at.unit_tension_N);
      continue;
    }
    meet(0, at.unit_tension_N);
    meet(1, size(at.lanyard_N));
    meet(2, arrest_->extension_m(i));
  }
  for (const auto& [what, found] : most)
    for (const Slip slip : books_.slips()) keys_.push_back(arrest_key(found.second, slip));
}

}  // namespace fairlead::loads
