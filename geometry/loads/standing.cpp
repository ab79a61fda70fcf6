#include "geometry/loads/standing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/loads/columns.hpp"

namespace fairlead::loads {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr double no_load_N = 1;       ///< below this a force has no direction worth judging
constexpr std::size_t of_anchor = 8;  ///< columns of an anchor: moment, angle; movement and pull along, across, up

double angle_between(Vec3 a, Vec3 b) { return std::atan2(size(cross(a, b)), dot(a, b)); }

}  // namespace

// Columns: of every anchor; then, with all members there and with each lost that may be, two of every member.
Standing::Standing(const Inputs& in, const reeving::Inputs& reeving)
    : in_(in),
      axes_{reeving.along, reeving.across, reeving.up},
      members_of_(in.anchors.size()),
      slack_(in.members.size()) {
  for (std::size_t m = 0; m < in.members.size(); ++m) {
    members_of_[static_cast<std::size_t>(in.members[m].anchor)].push_back(m);
    if (in.members[m].may_be_lost) may_be_lost_.push_back(static_cast<int>(m));
  }
  not_held_.resize(in.anchors.size() + may_be_lost_.size());
  worst_.resize(of_anchor * in.anchors.size() + 2 * in.members.size() * (1 + may_be_lost_.size()));
}

std::size_t Standing::member_column(std::size_t member, int lost) const {
  const auto which = static_cast<std::size_t>(std::ranges::find(may_be_lost_, lost) - may_be_lost_.begin());
  const std::size_t block = lost < 0 ? 0 : 1 + which;
  return of_anchor * in_.anchors.size() + 2 * (block * in_.members.size() + member);
}

int Standing::lost_of(std::size_t column) const {
  const std::size_t anchors = of_anchor * in_.anchors.size();
  if (column < anchors + 2 * in_.members.size()) return -1;
  return may_be_lost_[(column - anchors) / (2 * in_.members.size()) - 1];
}

anchorage::Node Standing::node_of(std::size_t anchor, int lost) const {
  anchorage::Node node{in_.anchors[anchor], {}};
  for (const std::size_t m : members_of_[anchor])
    if (static_cast<int>(m) != lost) node.members.push_back(in_.members[m].part);
  return node;
}

void Standing::note(std::optional<Event>& event, std::string why, CaseKey at, int lost) {
  if (event) return;
  at.lost = lost;
  event = Event{std::move(why), at};
}

std::vector<double> Standing::row(const std::vector<Vec3>& on_anchor_N, const CaseKey& key) {
  std::vector<double> row(worst_.size());
  for (std::size_t a = 0; a < in_.anchors.size(); ++a) {
    const Vec3 force_N = on_anchor_N[a];
    double* const of = &row[of_anchor * a];
    if (a < in_.footings.size()) {
      const Footing& footing = in_.footings[a];
      if (footing.base) of[0] = size(cross(in_.anchors[a] - *footing.base, force_N));
      // Written so that an unknown force is an unknown angle.
      if (footing.cone_axis && !(size(force_N) <= no_load_N)) of[1] = angle_between(*footing.cone_axis, force_N);
    }
    for (std::size_t axis = 0; axis < 3; ++axis) of[5 + axis] = dot(force_N, axes_[axis]);
    if (members_of_[a].empty()) continue;
    const auto hold = [&](int lost, std::optional<Event>& not_held) {
      auto held = anchorage::hold(node_of(a, lost), force_N);
      if (!held) note(not_held, held.error().why, key, lost);
      std::size_t i = 0;
      for (const std::size_t m : members_of_[a]) {
        if (static_cast<int>(m) == lost) continue;
        const double pull_N = held ? held->force_N[i] : unknown;
        double* const column = &row[member_column(m, lost)];
        column[0] = greater(pull_N, 0), column[1] = greater(-pull_N, 0);
        if (held && lost < 0 && std::ranges::find(held->slack, static_cast<int>(i)) != held->slack.end())
          note(slack_[m], "", key, -1);
        ++i;
      }
      return held;
    };
    const auto held = hold(-1, not_held_[a]);
    for (std::size_t axis = 0; axis < 3; ++axis)
      of[2 + axis] = held && held->moved_m ? dot(*held->moved_m, axes_[axis]) : unknown;
    for (std::size_t l = 0; l < may_be_lost_.size(); ++l)
      if (in_.members[static_cast<std::size_t>(may_be_lost_[l])].anchor == static_cast<int>(a))
        hold(may_be_lost_[l], not_held_[in_.anchors.size() + l]);
  }
  return row;
}

CaseKey Standing::key_of(std::size_t pose) const {
  CaseKey key = first_;
  key.pose += static_cast<int>(pose);
  return key;
}

void Standing::begin(std::size_t poses, const CaseKey& first) {
  poses_ = poses;
  first_ = first;
  table_.assign(worst_.size() * poses, {});
}

void Standing::pose(std::size_t p, const std::vector<Vec3>& on_anchor_N) {
  const std::vector<double> numbers = row(on_anchor_N, key_of(p));
  for (std::size_t c = 0; c < numbers.size(); ++c) table_[c * poses_ + p] = {numbers[c]};
}

void Standing::end(std::span<const double> travel_m, const std::vector<bool>& known) {
  for (std::size_t c = 0; c < worst_.size(); ++c) {
    const Extreme seen = worst_over({&table_[c * poses_], poses_}, travel_m, known);
    take(c, seen, key_of(static_cast<std::size_t>(seen.pose)));
  }
}

std::size_t Standing::anchor_of(std::size_t column) const {
  const std::size_t anchors = of_anchor * in_.anchors.size();
  if (column < anchors) return column / of_anchor;
  return static_cast<std::size_t>(in_.members[(column - anchors) / 2 % in_.members.size()].anchor);
}

void Standing::single(const std::vector<Vec3>& on_anchor_N, const std::vector<double>& gap_N, const CaseKey& key) {
  const std::vector<double> numbers = row(on_anchor_N, key);
  for (std::size_t c = 0; c < numbers.size(); ++c) {
    const std::size_t a = anchor_of(c);
    const double value = std::abs(numbers[c]), force_N = size(on_anchor_N[a]);
    const double share = gap_N[a] == 0 ? 0 : gap_N[a] / force_N;
    // A force that may turn right round, asin of more than 1, has no angle known.
    take(c, {value, value + (c == of_anchor * a + 1 ? std::asin(share) : value * share)}, key);
  }
}

/// Keeps the first of equals.
void Standing::take(std::size_t column, Extreme seen, CaseKey at) {
  Worst& worst = worst_[column];
  if (!(seen.value <= worst.value) && !std::isnan(worst.value)) {
    worst.value = seen.value;
    worst.at = at;
    worst.at.lost = lost_of(column);
  }
  worst.bound = greater(worst.bound, seen.bound);
}

void Standing::add_keys(std::vector<CaseKey>& keys) const {
  for (std::size_t c = 0; c < worst_.size(); ++c)
    if (worst_[c].value > 0 && !is_pull(c)) keys.push_back(worst_[c].at);
  for (const Events* events : {&slack_, &not_held_})
    for (const auto& event : *events)
      if (event) keys.push_back(event->at);
}

void Standing::describe(const CaseKey& key, LoadCase& load_case) const {
  load_case.in_member_N.resize(in_.members.size());
  load_case.lost = key.lost;
  for (std::size_t a = 0; a < in_.anchors.size(); ++a) {
    if (members_of_[a].empty()) continue;
    const auto held = anchorage::hold(node_of(a, key.lost), load_case.on_anchor_N[a]);
    std::size_t i = 0;
    for (const std::size_t m : members_of_[a]) {
      if (static_cast<int>(m) == key.lost) continue;
      load_case.in_member_N[m] = held ? held->force_N[i] : unknown;
      if (held && std::ranges::find(held->slack, static_cast<int>(i)) != held->slack.end())
        load_case.slack.push_back(static_cast<int>(m));
      ++i;
    }
  }
  std::ranges::sort(load_case.slack);
  if (key.lost < 0) return;
  load_case.action = Action::member_lost;
  load_case.name = fmt::format("{} lost, {}", in_.members[static_cast<std::size_t>(key.lost)].name, load_case.name);
}

namespace {

int index_of(const CaseKey& key, const std::vector<CaseKey>& keys) {
  return static_cast<int>(std::ranges::lower_bound(keys, key) - keys.begin());
}

}  // namespace

/// A component of a force governs nothing.
bool Standing::is_pull(std::size_t column) const {
  return column < of_anchor * in_.anchors.size() && column % of_anchor >= 5;
}

Extreme Standing::extreme(std::size_t column, const std::vector<CaseKey>& keys) const {
  const Worst& worst = worst_[column];
  return {worst.value, worst.bound, worst.value > 0 && !is_pull(column) ? index_of(worst.at, keys) : -1};
}

MemberDemand Standing::demand(std::size_t member, int lost, const std::vector<CaseKey>& keys) const {
  const std::size_t column = member_column(member, lost);
  MemberDemand demand{extreme(column, keys), extreme(column + 1, keys)};
  if (lost < 0 && slack_[member]) demand.slack_case = index_of(slack_[member]->at, keys);
  return demand;
}

void Standing::fill(const std::vector<CaseKey>& keys, Loads& loads) const {
  const auto not_held = [&](std::size_t event) -> std::optional<NotHeld> {
    if (!not_held_[event]) return std::nullopt;
    return NotHeld{not_held_[event]->why, index_of(not_held_[event]->at, keys)};
  };
  for (std::size_t a = 0; a < in_.anchors.size(); ++a) {
    const std::size_t column = of_anchor * a;
    AnchorDemand demand{extreme(column, keys), extreme(column + 1, keys), {}, {}, not_held(a)};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      demand.moved_m[axis] = extreme(column + 2 + axis, keys);
      demand.pull_N[axis] = extreme(column + 5 + axis, keys);
    }
    loads.anchors.push_back(std::move(demand));
  }
  for (std::size_t m = 0; m < in_.members.size(); ++m) loads.members.push_back(demand(m, -1, keys));
  for (std::size_t l = 0; l < may_be_lost_.size(); ++l) {
    LostDemand lost{may_be_lost_[l], {}, not_held(in_.anchors.size() + l)};
    for (std::size_t m = 0; m < in_.members.size(); ++m) lost.others.push_back(demand(m, may_be_lost_[l], keys));
    loads.lost.push_back(std::move(lost));
  }
}

}  // namespace fairlead::loads
