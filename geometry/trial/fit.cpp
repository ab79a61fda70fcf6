#include "geometry/trial/fit.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "geometry/survey/fit.hpp"

namespace fairlead::trial {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

const double root3 = std::sqrt(3.0);

constexpr std::size_t index(Input what) { return static_cast<std::size_t>(what); }

Fitted before(Input what, const Span& range) {
  Fitted one{.what = what, .prior = (range.low + range.high) / 2, .prior_u = (range.high - range.low) / (2 * root3)};
  if (!(one.prior_u > 0)) {
    one.own_prior = true;
    one.prior_u = own_uncertainty[index(what)] * one.prior;
  }
  return one;
}

std::array<Fitted, inputs> before(const arrest::Inputs& in) {
  return {before(Input::brake, in.brake_share), before(Input::rolling, in.rolling),
          before(Input::drag, {in.drag_area_m2, in.drag_area_m2}), before(Input::pull, {1, 1})};
}

/// One number that was read.
struct Reading {
  Trialled what{};
  double value{}, u{};
};

/// A hand pull's reading with what is predicted of it.
struct HandReading {
  std::size_t test{};
  Reading read;
  double predicted{}, model_u{};
};

/// A mass that was let go, with what counts of it.
struct Let {
  std::size_t test{};
  const TestMass* mass{};
  double release_m{};
  Span warmth{0, 1};
  int wind = -1;  ///< index among the parameters; -1: it is not uncertain
  double wind_m_per_s{}, wind_u{};
  std::vector<Reading> read;
};

/// What one ride says, with what is not known of the main line as half a width.
struct Said {
  double value{}, half{};
};

double of(const Ride& ride, Trialled what) {
  return what == Trialled::arrival_speed     ? ride.arrival_speed_m_per_s
         : what == Trialled::stopping_travel ? ride.stopping_travel_m
                                             : ride.line_tension_N;
}

class Fitting {
 public:
  Fitting(const Rig& rig, const Plan& plan, const Results& results, const Work& work)
      : rig_(rig), plan_(plan), results_(results), work_(work) {}

  Solved<Fit> run() {
    if (!rig_.arrest.solved()) return tl::unexpected(rig_.arrest.result->error());
    fit_.fitted = before(*rig_.arrest.inputs);
    if (auto bad = gather()) return tl::unexpected(*bad);
    if (lets_.empty()) return unsolved("no test mass was let go with what a fit needs written down");
    VectorXd z = VectorXd::Zero(parameters_);
    for (fit_.iterations = 1;; ++fit_.iterations) {
      if (auto bad = linearise(z)) return tl::unexpected(*bad);
      normal_ = MatrixXd::Identity(parameters_, parameters_) + J_.transpose() * J_;
      VectorXd step = -normal_.llt().solve(J_.transpose() * r_ + z);
      // Two prior uncertainties at a time: what is linear farther off nobody knows. Steps end at a thousandth of one.
      constexpr double longest = 2, closed = 1e-3;
      const double most = step.cwiseAbs().maxCoeff();
      if (!std::isfinite(most)) return unsolved("the fit leaves all numbers", most, fit_.iterations);
      if (most > longest) step *= longest / most;
      z += step;
      if (most < closed) break;
      constexpr int most_steps = 40;
      if (fit_.iterations == most_steps) return unsolved("the fit does not settle", most, fit_.iterations);
    }
    conclude(z);
    return std::move(fit_);
  }

 private:
  const TrialRow* row_of(std::size_t test, Trialled what) const {
    for (const TrialRow& row : results_.rows)
      if (row.item == plan_.tests[test].id && row.what == what) return &row;
    return nullptr;
  }

  void gather_hand(std::size_t t) {
    for (const Expected& one : plan_.tests[t].expected) {
      const TrialRow* row = row_of(t, one.what);
      if (!row || !one.predicted || (one.what != Trialled::pull_on && one.what != Trialled::let_back)) continue;
      hands_.push_back({t,
                        {one.what, row->value, row->uncertainty},
                        (one.predicted->low + one.predicted->high) / 2,
                        (one.predicted->high - one.predicted->low) / (2 * root3)});
    }
  }

  std::optional<Unsolved> gather() {
    parameters_ = inputs;
    std::vector<double> kg;
    for (const Tested& one : results_.tested) {
      if (plan_.tests[one.test].kind == Kind::hand_pull) {
        gather_hand(one.test);
        continue;
      }
      if (!one.made || !one.missing.empty()) continue;
      Let let{.test = one.test, .release_m = one.release_m};
      for (const Trialled what : {Trialled::arrival_speed, Trialled::stopping_travel, Trialled::line_tension})
        if (const TrialRow* row = row_of(one.test, what)) let.read.push_back({what, row->value, row->uncertainty});
      if (let.read.empty()) continue;
      const Site& site = rig_.layout.site;
      const double width_K = site.warmest_K - site.coldest_K;
      if (one.temperature_K && width_K > 0)
        let.warmth = {std::clamp((one.temperature_K->low - site.coldest_K) / width_K, 0.0, 1.0),
                      std::clamp((one.temperature_K->high - site.coldest_K) / width_K, 0.0, 1.0)};
      const TrialRow* wind = row_of(one.test, Trialled::wind);
      let.wind_m_per_s = wind ? wind->value : 0;
      let.wind_u = wind ? wind->uncertainty : rig_.arrest.inputs->wind_m_per_s / root3;
      if (let.wind_u > 0) let.wind = static_cast<int>(parameters_++);
      kg.push_back(one.mass_kg);
      lets_.push_back(std::move(let));
    }
    auto masses = test_masses(rig_, kg, work_);
    if (!masses) return masses.error();
    masses_ = std::move(*masses);
    for (std::size_t i = 0; i < lets_.size(); ++i) lets_[i].mass = &masses_[i];
    return std::nullopt;
  }

  double input(const VectorXd& z, Input what) const {
    const Fitted& one = fit_.fitted[index(what)];
    return one.prior + z[static_cast<Eigen::Index>(index(what))] * one.prior_u;
  }

  /// Every reading of one mass, with the parameters so.
  Solved<std::vector<Said>> said(const Let& let, const VectorXd& z) const {
    Conditions on{let.wind_m_per_s, input(z, Input::rolling), input(z, Input::brake), input(z, Input::drag),
                  input(z, Input::pull)};
    if (let.wind >= 0) on.wind_m_per_s += z[let.wind] * let.wind_u;
    if (!(on.rolling > 0 && on.brake_share > 0 && on.drag_area_m2 > 0 && on.pull_share > 0))
      return unsolved("the readings ask for a resistance below 0", on.rolling);
    std::vector<Span> spans(let.read.size(), {INFINITY, -INFINITY});
    for (const Variant& variant : let.mass->variants) {
      const auto cold = ride(rig_, *let.mass, variant.cold, let.release_m, on),
                 warm = ride(rig_, *let.mass, variant.warm, let.release_m, on);
      for (const auto* one : {&cold, &warm}) {
        if (!*one) return tl::unexpected(one->error());
        if (!(*one)->arrives || (*one)->outcome != arrest::Outcome::stops)
          return unsolved("a mass that was let go would not arrive, or not stop", let.release_m);
      }
      for (std::size_t i = 0; i < spans.size(); ++i)
        for (const double warmth : {let.warmth.low, let.warmth.high}) {
          const double a = of(*cold, let.read[i].what), b = of(*warm, let.read[i].what), v = a + warmth * (b - a);
          spans[i].low = std::min(spans[i].low, v);
          spans[i].high = greater(spans[i].high, v);
        }
    }
    std::vector<Said> all;
    for (const Span& span : spans) all.push_back({(span.low + span.high) / 2, (span.high - span.low) / 2});
    return all;
  }

  /// Residuals of one mass and how they change, by differences of a twentieth of a prior uncertainty.
  struct Part {
    std::optional<Unsolved> bad;
    std::vector<double> r;
    std::vector<std::pair<Eigen::Index, std::vector<double>>> columns;
  };
  Part part(const Let& let, const VectorXd& z) const {
    constexpr double step = 0.05;
    Part out;
    const auto here = said(let, z);
    if (!here) return {here.error(), {}, {}};
    std::vector<double> u;
    for (std::size_t i = 0; i < let.read.size(); ++i) {
      u.push_back(std::hypot(let.read[i].u, (*here)[i].half / root3));
      out.r.push_back(((*here)[i].value - let.read[i].value) / u[i]);
    }
    std::vector<Eigen::Index> moved;
    for (std::size_t p = 0; p < inputs; ++p) moved.push_back(static_cast<Eigen::Index>(p));
    if (let.wind >= 0) moved.push_back(let.wind);
    for (const Eigen::Index p : moved) {
      VectorXd up = z, down = z;
      up[p] += step, down[p] -= step;
      const auto above = said(let, up), below = said(let, down);
      if (!above) return {above.error(), {}, {}};
      if (!below) return {below.error(), {}, {}};
      auto& [at, column] = out.columns.emplace_back(p, std::vector<double>{});
      for (std::size_t i = 0; i < u.size(); ++i)
        column.push_back(((*above)[i].value - (*below)[i].value) / (2 * step * u[i]));
    }
    return out;
  }

  std::optional<Unsolved> linearise(const VectorXd& z) {
    std::vector<Part> parts(lets_.size());
    for_each_index(
        work_, static_cast<int>(lets_.size()),
        [&](int i) { parts[static_cast<std::size_t>(i)] = part(lets_[static_cast<std::size_t>(i)], z); }, "trial fit");
    std::size_t rows = hands_.size();
    for (const Part& one : parts) {
      if (one.bad) return one.bad;
      rows += one.r.size();
    }
    r_ = VectorXd::Zero(static_cast<Eigen::Index>(rows));
    J_ = MatrixXd::Zero(r_.size(), parameters_);
    fit_.residuals.clear();
    Eigen::Index row = 0;
    const double f = input(z, Input::pull), f_u = fit_.fitted[index(Input::pull)].prior_u;
    for (const HandReading& hand : hands_) {
      // What rubs takes of the pull both ways: drawn on more is felt, let back less.
      const bool on = hand.read.what == Trialled::pull_on;
      const double value = on ? hand.predicted * f : hand.predicted / f, u = std::hypot(hand.read.u, hand.model_u);
      r_[row] = (value - hand.read.value) / u;
      J_(row, static_cast<Eigen::Index>(index(Input::pull))) =
          (on ? hand.predicted : -hand.predicted / (f * f)) * f_u / u;
      fit_.residuals.push_back({hand.test, hand.read.what, r_[row++]});
    }
    for (std::size_t l = 0; l < lets_.size(); ++l)
      for (std::size_t i = 0; i < parts[l].r.size(); ++i) {
        r_[row] = parts[l].r[i];
        for (const auto& [p, column] : parts[l].columns) J_(row, p) = column[i];
        fit_.residuals.push_back({lets_[l].test, lets_[l].read[i].what, r_[row++]});
      }
    return std::nullopt;
  }

  void conclude(const VectorXd& z) {
    constexpr auto n = static_cast<Eigen::Index>(inputs);
    const MatrixXd covariance = normal_.llt().solve(MatrixXd::Identity(parameters_, parameters_));
    // In prior uncertainties; the winds are left out of it, not held.
    const MatrixXd left = covariance.topLeftCorner(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      Fitted& one = fit_.fitted[static_cast<std::size_t>(i)];
      one.value = one.prior + z[i] * one.prior_u;
      one.u = one.prior_u * std::sqrt(left(i, i));
      for (Eigen::Index j = 0; j < n; ++j)
        fit_.correlation[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] =
            left(i, j) / std::sqrt(left(i, i) * left(j, j));
    }
    const Eigen::SelfAdjointEigenSolver<MatrixXd> ways(left);
    for (Eigen::Index i = n; i-- > 0;) {
      if (!(ways.eigenvalues()[i] > untold_share)) break;
      Untold way{.left = ways.eigenvalues()[i]};
      Eigen::Index greatest = 0;
      const VectorXd along = ways.eigenvectors().col(i);
      along.cwiseAbs().maxCoeff(&greatest);
      const double sign = along[greatest] < 0 ? -1 : 1;
      for (Eigen::Index k = 0; k < n; ++k) way.direction[static_cast<std::size_t>(k)] = sign * along[k];
      fit_.untold.push_back(way);
    }
    fit_.chi_squared = r_.squaredNorm() + z.squaredNorm();
    fit_.redundancy = static_cast<int>(r_.size());
    fit_.probability = chi_squared_tail(fit_.chi_squared, fit_.redundancy);
    fit_.agrees = fit_.probability >= unlikely_fit;
  }

  const Rig& rig_;
  const Plan& plan_;
  const Results& results_;
  const Work& work_;
  Fit fit_;
  std::vector<HandReading> hands_;
  std::vector<Let> lets_;
  std::vector<TestMass> masses_;
  Eigen::Index parameters_ = 0;
  VectorXd r_;
  MatrixXd J_, normal_;
};

}  // namespace

Solved<Fit> fit(const Rig& rig, const Plan& plan, const Results& results, const Work& work) {
  return Fitting(rig, plan, results, work).run();
}

Solved<Layout> with_fitted(Layout layout, const Fit& fit) {
  const auto& [brake, rolling, drag, pull] = fit.fitted;
  const double share = brake.value * pull.value;
  const double covariance = fit.correlation[index(Input::brake)][index(Input::pull)] * brake.u * pull.u;
  const double u =
      std::sqrt(std::pow(pull.value * brake.u, 2) + std::pow(brake.value * pull.u, 2) + 2 * share * covariance);
  const double low = share - either_way * u, high = share + either_way * u;
  // A brake weaker than nominal keeps the nominal as its strong end: wider, and sayable.
  const double tolerance = std::max(0.0, high - 1);
  if (!(low > 0 && tolerance < 1)) return unsolved("the brake's share is fitted too widely for any layout", u);
  const double left = layout.brake_unit.force_left * low / (1 - tolerance);
  layout.brake_unit.tolerance.value = tolerance;
  layout.brake_unit.force_left.value = std::min(1.0, left);
  Range& range = layout.riders.rolling_resistance->value;
  const double least = rolling.value - either_way * rolling.u;
  if (!(least > 0)) return unsolved("the rolling resistance is fitted too widely for any layout", least);
  range = {std::min(range.low, least), std::max(range.high, rolling.value + either_way * rolling.u)};
  layout.riders.drag_area_m2->value = drag.value;
  return layout;
}

}  // namespace fairlead::trial
