// What the tests tell of the few inputs that a layout knows only between two ends, and what they leave open.
#pragma once

#include <array>

#include "geometry/trial/results.hpp"

namespace fairlead::trial {

enum class Input {
  brake,    ///< share of the brake's nominal magnetic tension
  rolling,  ///< resistance over normal force
  drag,     ///< drag area
  pull      ///< share of the computed pull that the reeving brings from the unit to the trolley
};
inline constexpr std::size_t inputs = 4;

struct Fitted {
  Input what{};
  double prior{}, prior_u{};  ///< middle of the layout's range, and half of it over the root of 3
  bool own_prior = false;     ///< the layout gives no range: the uncertainty is own_uncertainty of the value
  double value{}, u{};        ///< as the tests leave it; u: standard
};
/// Of an input for which the layout has one number, a share of it; own figures.
inline constexpr std::array<double, inputs> own_uncertainty{0.10, 0.15, 0.15, 0.03};

/// A way in which the inputs may change together that the tests hardly see: of the variance that the layout's ranges
/// leave it, more than `untold_share` is left.
struct Untold {
  std::array<double, inputs> direction{};  ///< unit vector, in prior uncertainties
  double left{};                           ///< of the variance, 0..1
};
inline constexpr double untold_share = 0.5;

struct FitResidual {
  std::size_t test{};  ///< index into Plan::tests
  Trialled what{};
  double over_u{};  ///< predicted with what was fitted, less measured, over its uncertainty
};

struct Fit {
  std::array<Fitted, inputs> fitted;
  std::array<std::array<double, inputs>, inputs> correlation{};
  std::vector<FitResidual> residuals;  ///< in the plan's order
  double chi_squared{};                ///< of residuals and what the inputs moved, in uncertainties
  int redundancy{};                    ///< as many as residuals: every input has a number of its own before
  double probability{};                ///< that chance alone is worse
  bool agrees = false;                 ///< it is not below unlikely_fit
  std::vector<Untold> untold;          ///< the least told first
  int iterations{};
};
inline constexpr double unlikely_fit = 0.01;

/// Least squares weighted by the uncertainties, from the layout's ranges as what was known before (Gauss and Newton;
/// the covariance is the inverse of the normal matrix at the end). Arrival speeds, stopping travels, line tensions and
/// hand pulls count; wind is fitted for every test, from what was measured or what the layout allows. What is not known
/// of the main line, temperature where it was not measured among it, adds to a number's uncertainty. Unsolved without a
/// test that counts, where a ride does not stop, and where the steps do not end.
Solved<Fit> fit(const Rig&, const Plan&, const Results&, const Work& = {});

/// The layout with what was fitted, either_way. The brake's share, with that of the reeving in it, takes the
/// tolerance's place; what is left of it hot, wet or worn stays the layout's, for a day's tests do not see it, and a
/// range of rolling resistance only grows. Unsolved where no layout can say it.
Solved<Layout> with_fitted(Layout, const Fit&);

}  // namespace fairlead::trial
