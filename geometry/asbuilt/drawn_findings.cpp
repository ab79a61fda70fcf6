#include "geometry/asbuilt/drawn_findings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "geometry/checks/counterpart.hpp"

namespace fairlead {
namespace {

using Normals = std::vector<double>;

/// Half of the doubt is for the count, half for what the exact draws leave of draws that are not as told.
constexpr double half_doubt = 0.025;

Normals drawn(const FindingDraws& terms, std::uint64_t draw, double width) {
  Normals normals;
  for (std::size_t i = 0; i < terms.numbers; ++i) normals.push_back(width * standard_normal(terms.seed, draw, i));
  return normals;
}

/// A number of a finding as it runs straight from where it is as measured.
struct Straight {
  double here{}, within{};
  std::vector<double> slopes;  ///< per measured number

  double at(const Normals& normals) const {
    double sum = here;
    for (std::size_t i = 0; i < slopes.size(); ++i) sum += slopes[i] * normals[i];
    return sum;
  }
};

struct Told {
  Straight value_left, bound_left;

  Verdict verdict(const Normals& normals) const {
    if (bound_left.at(normals) - bound_left.within >= 0) return Verdict::pass;
    if (value_left.at(normals) + value_left.within < 0) return Verdict::fail;
    return Verdict::undetermined;
  }
};

/// The judgements from which findings are told: as measured, each number off either way, the exact draws, the wide.
class Linear {
 public:
  Linear(const JudgeDraw& judge, const FindingDraws& terms, const Work& work) : terms_(terms) {
    at_.emplace_back(terms.numbers, 0.0);
    for (std::size_t i = 0; i < terms.numbers; ++i)
      for (const double way : {1.0, -1.0}) {
        at_.emplace_back(terms.numbers, 0.0);
        at_.back()[i] = way;
      }
    first_exact_ = at_.size();
    for (int d = 0; d < linear_exact_draws; ++d) at_.push_back(drawn(terms, static_cast<std::uint64_t>(d), 1));
    first_wide_ = at_.size();
    // Behind all that are drawn.
    for (int d = 0; d < linear_wide_draws; ++d)
      at_.push_back(
          drawn(terms, static_cast<std::uint64_t>(terms.draws) + static_cast<std::uint64_t>(d), linear_width));
    judged_.resize(at_.size());
    for_each_index(
        work, static_cast<int>(at_.size()),
        [&](int j) { judged_[static_cast<std::size_t>(j)] = judge(at_[static_cast<std::size_t>(j)]); }, "draws");
  }

  std::vector<Conformity> conformities(const Work& work) const {
    const std::size_t findings = judged_[0].size();
    std::vector<std::optional<Told>> told;
    for (std::size_t f = 0; f < findings; ++f) told.push_back(tell(f));
    const std::vector<Counts> further = count_further(told, work);
    std::vector<Conformity> out;
    for (std::size_t f = 0; f < findings; ++f) {
      const Counts exact = count_exact(f);
      if (!told[f]) {
        out.push_back(conformity(linear_exact_draws, exact.passes, exact.fails));
        continue;
      }
      Conformity one{terms_.draws, exact.passes + further[f].passes, exact.fails + further[f].fails};
      one.pass_at_least = std::max(0.0, share_at_least(one.passes, one.draws, half_doubt) - linear_doubt());
      one.fail_at_least = std::max(0.0, share_at_least(one.fails, one.draws, half_doubt) - linear_doubt());
      one.exact = linear_exact_draws;
      one.linear_within = std::max(told[f]->value_left.within, told[f]->bound_left.within);
      out.push_back(one);
    }
    return out;
  }

 private:
  struct Counts {
    int passes{}, fails{};
    void add(Verdict verdict) {
      passes += verdict == Verdict::pass ? 1 : 0;
      fails += verdict == Verdict::fail ? 1 : 0;
    }
  };

  Counts count_exact(std::size_t f) const {
    Counts counts;
    for (std::size_t j = first_exact_; j < first_wide_; ++j) counts.add(judged_[j][f].verdict);
    return counts;
  }

  std::vector<Counts> count_further(const std::vector<std::optional<Told>>& told, const Work& work) const {
    constexpr int block = 500;
    const int more = terms_.draws - linear_exact_draws, blocks = (more + block - 1) / block;
    std::vector<std::vector<Counts>> counts(static_cast<std::size_t>(blocks), std::vector<Counts>(told.size()));
    for_each_index(work, blocks, [&](int b) {
      const int end = std::min((b + 1) * block, more);
      for (int d = b * block; d < end; ++d) {
        const Normals normals = drawn(terms_, static_cast<std::uint64_t>(linear_exact_draws + d), 1);
        for (std::size_t f = 0; f < told.size(); ++f)
          if (told[f]) counts[static_cast<std::size_t>(b)][f].add(told[f]->verdict(normals));
      }
    });
    std::vector<Counts> sum(told.size());
    for (const auto& of : counts)
      for (std::size_t f = 0; f < told.size(); ++f) {
        sum[f].passes += of[f].passes;
        sum[f].fails += of[f].fails;
      }
    return sum;
  }

  Straight straight(std::size_t f, double Standing::*left) const {
    Straight line{.here = judged_[0][f].*left};
    double size = std::abs(line.here);
    for (std::size_t i = 0; i < terms_.numbers; ++i) {
      const double more = judged_[1 + 2 * i][f].*left, less = judged_[2 + 2 * i][f].*left;
      line.slopes.push_back((more - less) / 2);
      size += std::max(std::abs(more), std::abs(less));
    }
    double off = 0;
    for (std::size_t j = first_wide_; j < at_.size(); ++j)
      off = std::max(off, std::abs(judged_[j][f].*left - line.at(at_[j])));
    constexpr double rounding = 1e-12;
    line.within = off + rounding * size;
    return line;
  }

  std::optional<Told> tell(std::size_t f) const {
    for (const auto& there : judged_)
      if (!(std::isfinite(there[f].value_left) && std::isfinite(there[f].bound_left) &&
            there[f].at_least == judged_[0][f].at_least))
        return std::nullopt;
    const Told told{straight(f, &Standing::value_left), straight(f, &Standing::bound_left)};
    if (told.verdict(at_[0]) == Verdict::undetermined) return std::nullopt;
    for (std::size_t j = first_exact_; j < first_wide_; ++j) {
      const Standing& exact = judged_[j][f];
      const auto near = [&](const Straight& line, double is) { return std::abs(is - line.at(at_[j])) <= line.within; };
      if (!(near(told.value_left, exact.value_left) && near(told.bound_left, exact.bound_left))) return std::nullopt;
      const Verdict straight = told.verdict(at_[j]);
      if (straight != Verdict::undetermined && straight != exact.verdict) return std::nullopt;
    }
    return told;
  }

  const FindingDraws& terms_;
  std::vector<Normals> at_;
  std::size_t first_exact_{}, first_wide_{};
  std::vector<std::vector<Standing>> judged_;
};

}  // namespace

double linear_doubt() { return 1 - std::pow(half_doubt, 1.0 / linear_exact_draws); }

Standing standing_of(const Finding& finding) {
  Standing out{.verdict = finding.verdict};
  const std::optional<double> limit = limit_of(finding);
  if (!limit || !finding.measured) return out;
  switch (finding.verdict) {
    case Verdict::pass:
      if (finding.value == *limit) return out;  // on which side of it is not told
      out.at_least = finding.value > *limit;
      break;
    case Verdict::fail:
      out.at_least = finding.value < *limit;
      break;
    case Verdict::undetermined:
    case Verdict::not_judged:
      // What only a gap leaves open has its bound beyond the limit.
      if (!(finding.bound != finding.value)) return out;
      out.at_least = finding.bound < finding.value;
      break;
  }
  const double way = out.at_least ? -1 : 1;
  out.value_left = way * (*limit - finding.value);
  out.bound_left = way * (*limit - finding.bound);
  return out;
}

std::vector<Conformity> finding_draws(const JudgeDraw& judge, const FindingDraws& terms, const Work& work) {
  if (terms.linear && terms.draws > linear_exact_draws) return Linear(judge, terms, work).conformities(work);
  std::vector<std::vector<Standing>> judged(static_cast<std::size_t>(terms.draws));
  for_each_index(
      work, terms.draws,
      [&](int d) { judged[static_cast<std::size_t>(d)] = judge(drawn(terms, static_cast<std::uint64_t>(d), 1)); },
      "draws");
  std::vector<Conformity> out;
  for (std::size_t f = 0; !judged.empty() && f < judged[0].size(); ++f) {
    const auto count = [&](Verdict verdict) {
      return static_cast<int>(
          std::ranges::count_if(judged, [&](const auto& there) { return there[f].verdict == verdict; }));
    };
    out.push_back(conformity(terms.draws, count(Verdict::pass), count(Verdict::fail)));
  }
  return out;
}

}  // namespace fairlead
