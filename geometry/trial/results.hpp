// What was measured at the tests of a plan, held against what is predicted for each as it was made.
#pragma once

#include "geometry/checks/check.hpp"
#include "geometry/trial/plan.hpp"

namespace fairlead::trial {

enum class Agreement {
  not_measured,
  not_predicted,  ///< nothing is predicted of it, or what that would take was not written down
  within,         ///< the predicted interval, widened by the uncertainty of the reading, holds it
  too_rough,      ///< it would too, but a reading as uncertain as that would agree with almost anything
  no_return,      ///< of a return that did not come about by itself: whatever was read says nothing of it
  outside
};

/// How many standard uncertainties a measured number is taken to be off either way: the two-sided 95 % of a normal
/// error (JCGM106). Against a limit it is the one-sided 95 %.
inline constexpr double either_way = 1.96, one_way = 1.645;

/// A reading tells something where either_way of its uncertainties are no more than the interval is wide, or than this
/// share of the interval's middle: own figure.
inline constexpr double telling_share = 0.05;

struct Compared {
  Expected expected;            ///< with the test as it was made
  std::optional<double> value;  ///< SI
  double uncertainty{};         ///< standard; 0 of what is counted
  unsigned line{};              ///< of the results file
  Agreement agreement{};
  /// Against the limit alone: not judged where the layout sets none of a kind that it has, pass where there is no kind.
  Verdict limit = Verdict::undetermined;
  /// The worse of both: outside the interval is a fail, not measured and too rough are undetermined.
  Verdict verdict = Verdict::undetermined;
};

/// One test of the plan.
struct Tested {
  std::size_t test{};                                   ///< index into Plan::tests
  bool made = false;                                    ///< something of it was written down
  std::vector<std::string> missing{};                   ///< of a mass: conditions without which nothing is predicted
  double mass_kg{}, release_m{};                        ///< as made; as planned where it was not written down
  std::optional<Span> wind_m_per_s{}, temperature_K{};  ///< as measured, either_way
  std::optional<std::string> ill{};                     ///< what is predicted to go wrong as it was made
  std::vector<Compared> compared;
  Verdict verdict = Verdict::undetermined;  ///< the worst; undetermined where it was not made
};

struct Results {
  std::string file;
  std::vector<TrialRow> rows;
  std::vector<Tested> tested;  ///< in the plan's order
  Verdict verdict = Verdict::undetermined;
  std::string sha256{};  ///< of the file's bytes, 64 hex digits
};

/// Refused with all that is wrong: tests that the plan does not have, quantities that are not of such a test, a release
/// off the line, a temperature the layout does not reach.
tl::expected<Results, PointsErrors> compare(const Rig&, const Plan&, std::string file, std::vector<TrialRow>,
                                            const Work& = {});

/// The worse of two: fail, undetermined, not judged, pass.
Verdict worse(Verdict, Verdict);

}  // namespace fairlead::trial
