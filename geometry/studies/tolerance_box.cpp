#include "geometry/studies/tolerance_box.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace fairlead {
namespace {

using Amounts = std::vector<double>;

/// What each finding loses of its reserve to each variable by itself. A finding that turns on no number loses nothing
/// while it passes and all there is where it does not.
struct Singles {
  std::vector<Amounts> less, more;  ///< [finding][variable]; negative where it gains

  double loss(std::size_t f, std::size_t v) const { return std::max({less[f][v], more[f][v], 0.0}); }
  double loss(std::size_t f) const {
    double sum = 0;
    for (std::size_t v = 0; v < less[f].size(); ++v) sum += loss(f, v);
    return sum;
  }
};

class Narrowing {
 public:
  Narrowing(const HeldFindings& held, const std::vector<Variable>& variables, const BoxSearch& search, const Work& work)
      : held_(held), variables_(variables), search_(search), work_(work) {}

  Solved<ToleranceBox> box() {
    // Every mark a little off tells which checks each of them bears on.
    const double little = search_.most / 10;
    Amounts amounts = shared_out(singles(Amounts(variables_.size(), little)), little);
    constexpr int most_rounds = 30;
    for (int round = 0; round < most_rounds; ++round) {
      for (double& amount : amounts) amount = search_.step * std::floor(amount / search_.step);
      if (std::ranges::all_of(amounts, [](double amount) { return amount == 0; })) break;
      if (narrow(amounts)) return made(amounts);
    }
    return unsolved("no box was found: a step of every mark is too much for some check");
  }

 private:
  std::vector<Outcome> judge(const std::vector<Amounts>& combinations) {
    std::vector<Outcome> outcomes(combinations.size());
    const auto judge_one = [&](int c) {
      const auto i = static_cast<std::size_t>(c);
      outcomes[i] = held_.at(shifted(held_.layout(), variables_, combinations[i]), {.stop = work_.stop});
    };
    for_each_index(work_, static_cast<int>(combinations.size()), judge_one, "box of all marks");
    judged_ += static_cast<int>(combinations.size());
    all_hold_ = all_hold_ && std::ranges::all_of(outcomes, &Outcome::holds);
    return outcomes;
  }

  double loss(const Outcome& outcome, std::size_t f) const {
    const double lost = held_.left()[f] - outcome.left[f];
    if (!std::isnan(lost)) return lost;
    return outcome.passes[f] ? 0 : std::numeric_limits<double>::infinity();
  }

  Singles singles(const Amounts& amounts) {
    std::vector<Amounts> combinations;
    for (std::size_t v = 0; v < amounts.size(); ++v)
      for (const int way : {-1, 1}) {
        combinations.emplace_back(amounts.size());
        combinations.back()[v] = way * amounts[v];
      }
    const std::vector<Outcome> outcomes = judge(combinations);
    Singles found;
    for (std::size_t f = 0; f < held_.findings().size(); ++f) {
      found.less.emplace_back();
      found.more.emplace_back();
      for (std::size_t v = 0; v < amounts.size(); ++v) {
        found.less.back().push_back(loss(outcomes[2 * v], f));
        found.more.back().push_back(loss(outcomes[2 * v + 1], f));
      }
    }
    return found;
  }

  /// All marks get the same amount until a check has used up its reserve, as far as single losses grow in proportion;
  /// then those that it is sensitive to keep theirs, and the others go on.
  Amounts shared_out(const Singles& single, double judged_at) const {
    const std::size_t findings = held_.findings().size(), variables = variables_.size();
    constexpr double shares[] = {0.9, 0.95, 0.975};  // of its reserve that a check may use, each time it is reached
    constexpr double sensitive = 0.95;               // of a check's loss, to those that are stopped by it
    std::vector<std::size_t> times(findings);
    Amounts amounts(variables);
    std::vector<char> stopped(variables);
    // What breaks a check beyond measure even when off so little gets nothing, and takes nothing from the others.
    for (std::size_t v = 0; v < variables; ++v)
      for (std::size_t f = 0; f < findings; ++f) stopped[v] = stopped[v] || std::isinf(single.loss(f, v));
    for (auto left = static_cast<std::size_t>(std::ranges::count(stopped, 0)); left > 0;) {
      double level = search_.most;
      std::size_t tight = findings;
      for (std::size_t f = 0; f < findings; ++f) {
        double used = 0, rate = 0;
        for (std::size_t v = 0; v < variables; ++v) {
          const double per = single.loss(f, v) / judged_at;
          if (!stopped[v])
            rate += per;
          else if (amounts[v] > 0)
            used += per * amounts[v];
        }
        if (!(rate > 0)) continue;
        const double reserve = std::isnan(held_.left()[f]) ? 0 : held_.left()[f];
        const double at = std::max(0.0, (shares[std::min<std::size_t>(times[f], 2)] * reserve - used) / rate);
        if (at < level) level = at, tight = f;
      }
      for (std::size_t v = 0; v < variables; ++v)
        if (!stopped[v]) amounts[v] = std::max(amounts[v], level);
      if (tight == findings) break;
      left -= stop(single, tight, times[tight]++ < 2 ? sensitive : 1, stopped);
    }
    return amounts;
  }

  /// Stops those that make up this share of a finding's loss, the most sensitive first; how many.
  static std::size_t stop(const Singles& single, std::size_t f, double share, std::vector<char>& stopped) {
    std::vector<std::size_t> going;
    double rate = 0, caught = 0;
    for (std::size_t v = 0; v < stopped.size(); ++v)
      if (!stopped[v] && single.loss(f, v) > 0) going.push_back(v), rate += single.loss(f, v);
    std::ranges::stable_sort(going,
                             [&](std::size_t a, std::size_t b) { return single.loss(f, a) > single.loss(f, b); });
    std::size_t count = 0;
    for (const std::size_t v : going) {
      if (count > 0 && caught >= share * rate) break;
      caught += single.loss(f, v);
      stopped[v] = true;
      ++count;
    }
    return count;
  }

  /// How much a finding would lose if variables off together cost it what they cost one by one.
  static double expected_loss(const Singles& single, std::size_t f, const Amounts& by) {
    double sum = 0;
    for (std::size_t v = 0; v < by.size(); ++v)
      if (by[v] != 0) sum += by[v] < 0 ? single.less[f][v] : single.more[f][v];
    return sum;
  }

  /// For every finding that single losses cost half of its reserve or more: all off the way that costs it most, and the
  /// opposite ways.
  std::vector<Amounts> worst_combinations(const Singles& single, const Amounts& amounts) const {
    std::set<Amounts> combinations;
    for (std::size_t f = 0; f < held_.findings().size(); ++f) {
      const double alone = single.loss(f), reserve = held_.left()[f];
      if (alone == 0 || alone < 0.5 * reserve) continue;
      Amounts worst, opposite;
      for (std::size_t v = 0; v < amounts.size(); ++v) {
        worst.push_back(single.less[f][v] > single.more[f][v] ? -amounts[v] : amounts[v]);
        opposite.push_back(-worst.back());
      }
      combinations.insert({worst, opposite});
    }
    return {combinations.begin(), combinations.end()};
  }

  /// True where the amounts hold; else they are made smaller.
  bool narrow(Amounts& amounts) {
    all_hold_ = true;
    const Singles single = singles(amounts);
    const std::vector<Amounts> combinations = worst_combinations(single, amounts);
    const std::vector<Outcome> outcomes = judge(combinations);
    Amounts factor(amounts.size(), 1);
    bool bounded = true;
    binding_.clear();
    for (std::size_t f = 0; f < held_.findings().size(); ++f) {
      const double reserve = held_.left()[f], alone = single.loss(f);
      double together = 0;
      for (std::size_t c = 0; c < combinations.size(); ++c)
        together = greater(together, loss(outcomes[c], f) - expected_loss(single, f, combinations[c]));
      const double all = alone + together;
      if (std::isnan(reserve) ? all == 0 : all <= reserve) {
        if (all > 0) binding_.push_back({held_.findings()[f], reserve, all, together});
        continue;
      }
      bounded = false;
      // What a smaller box loses is seldom in proportion: not more than halved at a time, and a little more than asked.
      const double by = reserve > 0 && std::isfinite(all) ? std::max(0.5, 0.98 * reserve / all) : 0.7;
      // Those that cost it little would be given up for nothing.
      double most = 0;
      for (std::size_t v = 0; v < amounts.size(); ++v) most = std::max(most, single.loss(f, v));
      for (std::size_t v = 0; v < amounts.size(); ++v)
        if (single.loss(f, v) >= 0.05 * most) factor[v] = std::min(factor[v], by);
    }
    // Something new that does not pass has no reserve to go by.
    if (bounded && !all_hold_) factor.assign(amounts.size(), 0.7);
    for (std::size_t v = 0; v < amounts.size(); ++v) amounts[v] *= factor[v];
    return bounded && all_hold_;
  }

  ToleranceBox made(const Amounts& amounts) {
    std::ranges::stable_sort(binding_, [](const Binding& a, const Binding& b) {
      return a.loss * b.reserve > b.loss * a.reserve;  // the greater share of its reserve first
    });
    return {variables_, amounts, search_.step, search_.most, judged_, std::move(binding_)};
  }

  const HeldFindings& held_;
  const std::vector<Variable>& variables_;
  const BoxSearch& search_;
  const Work& work_;
  int judged_ = 0;
  bool all_hold_ = true;  ///< every combination judged in this round
  std::vector<Binding> binding_;
};

}  // namespace

Solved<ToleranceBox> tolerance_box(const Judged& design, const HeldFindings& held, std::vector<Variable> variables,
                                   const BoxSearch& search, const Work& work) {
  const auto open = std::ranges::count_if(design.findings,
                                          [](const Finding& f) { return f.verdict != Verdict::pass && f.waiver < 0; });
  if (open > 0)
    return unsolved(fmt::format("{} finding{} not pass as drawn and {} not waived", open, open == 1 ? " does" : "s do",
                                open == 1 ? "is" : "are"));
  return Narrowing(held, variables, search, work).box();
}

}  // namespace fairlead
