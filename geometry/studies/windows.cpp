#include "geometry/studies/windows.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fairlead {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// One amount and what was judged there.
struct Seen {
  double at{};
  Outcome outcome;
};

/// Where a finding that passes at `from` gives way if it went on as between the two; infinite where it does not.
double gives_way(double from, double left_from, double to, double left_to) {
  if (!(left_to < left_from)) return infinity;
  return from + (to - from) * left_from / (left_from - left_to);
}

class OneWay {
 public:
  OneWay(const HeldFindings& held, const Variable& variable, double sign, const Search& search, const Work& work)
      : held_(held), variable_(variable), sign_(sign), search_(search), work_(work) {
    seen_.push_back({0, {.holds = true, .left = held.left(), .passes = {}, .findings = {}, .others = {}}});
  }

  Reach found() {
    // A millimetre in a reach of a metre takes ten halvings; the rest is for checks that jump.
    constexpr int most_looks = 40;
    for (int looks = 0; looks < most_looks; ++looks) {
      if (!settled())
        look(next(looks));
      else if (!looked_half_way())
        look(holding().at / 2);  // what gives way there and holds again farther out ends the window too
      else
        break;
    }
    Reach reach;
    reach.holds = holding().at;
    if (failing()) {
      reach.fails = failing()->at;
      reach.first = first();
    }
    return reach;
  }

 private:
  /// The least amount that does not hold; all looked at before it do.
  std::size_t first_failing() const {
    return static_cast<std::size_t>(std::ranges::find_if(seen_, [](const Seen& seen) { return !seen.outcome.holds; }) -
                                    seen_.begin());
  }
  const Seen& holding() const { return seen_[first_failing() - 1]; }
  const Seen* failing() const { return first_failing() < seen_.size() ? &seen_[first_failing()] : nullptr; }

  double fine(double at) const { return std::max(search_.fine, search_.fine_share * at); }
  bool settled() const {
    const double low = holding().at;
    return failing() ? failing()->at - low <= fine(low) : low >= search_.reach;
  }
  bool looked_half_way() const {
    const double low = holding().at;
    return low == 0 ||
           std::ranges::any_of(seen_, [&](const Seen& seen) { return seen.at >= 0.25 * low && seen.at <= 0.75 * low; });
  }

  void look(double at) {
    Layout layout = held_.layout();
    variable_.shift(layout, sign_ * at);
    Seen seen{at, held_.at(std::move(layout), {.stop = work_.stop})};
    const auto behind = std::ranges::find_if(seen_, [&](const Seen& other) { return other.at > at; });
    seen_.insert(behind, std::move(seen));
  }

  /// Where the first finding is expected to give way.
  double expected() const {
    const std::size_t end = first_failing();
    const bool past = end < seen_.size();
    if (!past && end < 2) return infinity;
    const Seen &from = seen_[past ? end - 1 : end - 2], &to = seen_[past ? end : end - 1];
    double nearest = infinity;
    for (std::size_t f = 0; f < held_.left().size(); ++f)
      if (!past || !to.outcome.passes[f])
        nearest = std::min(nearest, gives_way(from.at, from.outcome.left[f], to.at, to.outcome.left[f]));
    return nearest;
  }

  double next(int looks) const {
    constexpr double first_share = 0.05, farther = 4;  // of the reach; the most that one step goes beyond the last
    const double low = holding().at;
    if (!failing() && low == 0) return first_share * search_.reach;
    const double high = failing() ? failing()->at : std::min(search_.reach, farther * low);
    const double middle = (low + high) / 2, at = expected();
    // A secant may creep; every third look halves.
    const bool halve = failing() && looks % 3 == 2;
    if (halve || !(at > low && at < high)) return failing() ? middle : high;
    const double aside = 0.4 * fine(at), before = at - aside, beyond = at + aside;
    if (before > low + aside) return before;
    return beyond < high ? beyond : failing() ? middle : high;
  }

  /// The finding that gives way first between what holds and what does not.
  Finding first() const {
    const Outcome& out = failing()->outcome;
    const Finding* found = nullptr;
    double nearest = infinity;
    for (std::size_t f = 0; f < out.findings.size(); ++f) {
      if (out.passes[f]) continue;
      const double at = gives_way(holding().at, holding().outcome.left[f], failing()->at, out.left[f]);
      if (!found || at < nearest) found = &out.findings[f], nearest = at;
    }
    return found ? *found : out.others.front();
  }

  const HeldFindings& held_;
  const Variable& variable_;
  double sign_;
  const Search& search_;
  const Work& work_;
  std::vector<Seen> seen_;  ///< in rising order of amount, the drawn place first
};

}  // namespace

Windows windows(const HeldFindings& held, std::vector<Variable> variables, const Search& search, const Work& work) {
  Windows out;
  out.variables = std::move(variables);
  out.search = search;
  out.windows.resize(out.variables.size());
  const int ways = static_cast<int>(2 * out.variables.size());
  const auto search_way = [&](int way) {
    const auto v = static_cast<std::size_t>(way / 2);
    const bool more = way % 2 == 1;
    (more ? out.windows[v].more : out.windows[v].less) =
        OneWay(held, out.variables[v], more ? 1 : -1, search, work).found();
  };
  for_each_index(work, ways, search_way, "placement windows");
  return out;
}

}  // namespace fairlead
