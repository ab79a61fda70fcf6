// How findings fare over many draws of what was measured: every draw judged exactly, or a few of them exactly and the
// rest by how each finding's numbers turn on each measured one.
#pragma once

#include <functional>
#include <limits>
#include <vector>

#include "geometry/asbuilt/draws.hpp"
#include "geometry/checks/check.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead {

/// One finding in one judgement.
struct Standing {
  Verdict verdict = Verdict::undetermined;
  /// How far value and bound stand on the passing side of its limit, in its own unit; negative beyond it. NaN where
  /// its verdict turns on no number.
  double value_left = std::numeric_limits<double>::quiet_NaN();
  double bound_left = std::numeric_limits<double>::quiet_NaN();
  bool at_least = false;  ///< its limit is a least one
};
Standing standing_of(const Finding&);

/// Judges what was measured with each number off by so many of its standard uncertainties. One Standing a finding,
/// always as many. Called by several threads at once.
using JudgeDraw = std::function<std::vector<Standing>(const std::vector<double>& normals)>;

struct FindingDraws {
  int draws{};
  std::uint64_t seed{};
  std::size_t numbers{};  ///< that a draw has
  bool linear = false;
};

/// Number i of draw d is standard_normal(seed, d, i). The same on any number of threads.
///
/// Linear: the first linear_exact_draws draws are judged exactly and count as judged. Of each finding value and bound
/// are then differenced about the measured numbers, one standard uncertainty of each either way, and told straight at
/// every further draw, to within the most by which that erred at linear_wide_draws judgements drawn linear_width times
/// as wide: measured, not proven. A draw that stands nearer to the limit than that is neither pass nor fail. A finding
/// is not told so, and has its exact draws alone, where any of these judgements gives no number or another kind of
/// limit, where it stands nearer to its limit than that as measured, or where an exact draw lies farther off the
/// straight than that, or is no pass (no fail) where the straight one is. None of e exact draws doing so, still 1 -
/// 0.025^(1/e) of all might (CP34): that much is taken off the shares shown, so that with 95 % confidence no share is
/// greater than exact draws would have it, whatever the finding does in between.
std::vector<Conformity> finding_draws(const JudgeDraw&, const FindingDraws&, const Work& = {});

inline constexpr int linear_exact_draws = 100, linear_wide_draws = 16;
inline constexpr double linear_width = 2;
/// The share of all draws that might be otherwise than told.
double linear_doubt();

}  // namespace fairlead
