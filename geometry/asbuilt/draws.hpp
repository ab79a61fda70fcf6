// Draws from uncertainties that are the same whoever draws them first, and what a share of draws proves.
#pragma once

#include <cstdint>
#include <optional>

namespace fairlead {

/// Number `index` of draw `draw`: standard normal, from nothing but these three (a counter mixed as SPLITMIX14 mixes
/// it, then BOXMULLER58), so that no draw waits for another.
double standard_normal(std::uint64_t seed, std::uint64_t draw, std::uint64_t index);

/// How a finding fared over the draws (JCGM106: the probability that it conforms, by JCGM101's draws).
struct Conformity {
  int draws{}, passes{}, fails{};           ///< in the rest it was neither
  double pass_at_least{}, fail_at_least{};  ///< the share of all possible draws that is shown of either
  int exact{};                              ///< draws judged exactly; the rest told straight
  std::optional<double> linear_within{};    ///< to within so much of its own unit; none where all are exact
};
/// Of draws judged exactly.
Conformity conformity(int draws, int passes, int fails);

/// The share of all possible draws that `hits` of so many prove with a confidence of 1 - doubt (CP34). 0 without hits.
double share_at_least(int hits, int draws, double doubt = 0.05);

/// A verdict is given where this share of draws bears it out.
inline constexpr double asked_share = 0.95;
/// With fewer draws not even all of them prove that share.
inline constexpr int fewest_draws = 59;

}  // namespace fairlead
