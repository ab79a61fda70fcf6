// The main line with wheels on it in a side wind: no plane holds it any more, for the wind pushes a light line farther
// to the side than a heavy rider.
//
// Along every piece the tension is T(s) = T(0) - q s, q being weight and wind per unstretched metre, and the line runs
// along it: r' = T / |T| + T / EA. With u = T . e, e = -q / |q|, and a the part of T square to e, that integrates to
// asinh(u / a) and |T|, and once more for where the piece's middle is (as the plane catenary of Irvine's Cable
// Structures; mainline/cable.hpp). A wheel that rolls leaves the tension's size as it is. Newton's iteration finds the
// pull at the start with which the other end is met.
#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "geometry/loads/balance.hpp"
#include "geometry/loads/hung.hpp"

namespace fairlead::loads {
namespace {

/// A piece of line from where its tension is known.
class Run {
 public:
  Run(Vec3 tension_N, Vec3 load_N_per_m, double compliance_per_N)
      : tension_N_(tension_N),
        q_N_per_m_(size(load_N_per_m)),
        e_((-1 / q_N_per_m_) * load_N_per_m),
        compliance_per_N_(compliance_per_N),
        u_N_(dot(tension_N, e_)),
        across_(tension_N - u_N_ * e_),
        a_N_(size(across_)) {}

  Vec3 tension_N(double s) const { return tension_N_ + (q_N_per_m_ * s) * e_; }
  Vec3 direction(double s) const {
    const Vec3 tension_N = this->tension_N(s);
    return (1 / size(tension_N) + compliance_per_N_) * tension_N;
  }
  /// From the piece's beginning.
  Vec3 way(double s) const {
    const double u = u_N_ + q_N_per_m_ * s, q = q_N_per_m_;
    const double turned = (std::asinh(u / a_N_) - std::asinh(u_N_ / a_N_)) / q, stretched = compliance_per_N_ * s;
    // The difference of two sizes without cancellation.
    const double risen = (u - u_N_) * (u + u_N_) / (std::hypot(u, a_N_) + std::hypot(u_N_, a_N_)) / q;
    return (turned + stretched) * across_ + (risen + stretched * (u_N_ + u) / 2) * e_;
  }
  /// Its integral over the unstretched length, by Gauss over stretches that turn by no more than an eighth: what five
  /// points leave out is then beyond rounding, where the closed form would lose digits of a taut line.
  Vec3 way_integral(double s) const {
    using Gauss = boost::math::quadrature::gauss<double, 5>;
    const auto& at = Gauss::abscissa();
    const auto& weight = Gauss::weights();
    const int stretches = 1 + static_cast<int>(std::ceil(8 * q_N_per_m_ * s / a_N_));
    const double half = s / (2. * stretches);
    Vec3 sum;
    for (int i = 0; i < stretches; ++i) {
      const double middle = (2 * i + 1) * half;
      sum += (weight[0] * half) * way(middle);
      for (const std::size_t k : {1, 2})
        sum += (weight[k] * half) * (way(middle - at[k] * half) + way(middle + at[k] * half));
    }
    return sum;
  }
  /// How long it is to where it is so far along; NaN where it never comes there.
  double length_to_m(Vec3 along, double distance_m, double most_m) const {
    double s = std::clamp(distance_m, 0., most_m);
    for (int i = 0; i < 60; ++i) {
      const double off_m = dot(way(s), along) - distance_m;
      const double next = std::clamp(s - off_m / dot(direction(s), along), 0., most_m);
      if (std::abs(next - s) <= 1e-14 * most_m) return std::abs(off_m) <= 1e-9 * most_m ? next : std::nan("");
      s = next;
    }
    return std::nan("");
  }

 private:
  Vec3 tension_N_;
  double q_N_per_m_;
  Vec3 e_;
  double compliance_per_N_;
  double u_N_;
  Vec3 across_;
  double a_N_;
};

/// All of the line, of a pull at its start; where it ends. NaN where it does not come to a wheel.
struct Line {
  Point3 from;
  Vec3 along, load_N_per_m;
  const mainline::Cable& cable;
  std::span<const Borne> wheels;

  Point3 end(Vec3 pull_N, HungForces* told = nullptr) const {
    Point3 at = from;
    Vec3 tension_N = pull_N, middle;
    double left_m = cable.unstretched_m;
    const auto go = [&](const Run& run, double s) {
      if (told) middle += s * (at - from) + run.way_integral(s);
      at = at + run.way(s);
      tension_N = run.tension_N(s);
      left_m -= s;
    };
    for (const Borne& wheel : wheels) {
      const Run run(tension_N, load_N_per_m, cable.compliance_per_N);
      go(run, run.length_to_m(along, wheel.x_m - dot(at - from, along), left_m));
      const Vec3 before_N = tension_N, square_N = tension_N - dot(tension_N, along) * along - wheel.load_N;
      tension_N = square_N + std::sqrt(dot(before_N, before_N) - dot(square_N, square_N)) * along;
      if (told) told->acting.push_back({at, before_N - tension_N});
    }
    go(Run(tension_N, load_N_per_m, cable.compliance_per_N), left_m);
    if (told) {
      told->on_from_N = pull_N;
      told->on_to_N = -tension_N;
      told->tension_N = greater(size(pull_N), size(tension_N));
      told->acting.insert(told->acting.begin(),
                          {from + (1 / cable.unstretched_m) * middle, cable.unstretched_m * load_N_per_m});
    }
    return at;
  }
};

/// The pull that moves the end by `off`: a newton along each axis moves it by a column.
Vec3 answer(const Vec3 (&by)[3], Vec3 off) {
  const double det = dot(by[0], cross(by[1], by[2]));
  return (1 / det) * Vec3{dot(off, cross(by[1], by[2])), dot(off, cross(by[2], by[0])), dot(off, cross(by[0], by[1]))};
}

/// The pull at the start with which the line meets its end; by how much it does not where that is not found, in shares
/// of its length.
tl::expected<Vec3, double> pull_to(Point3 to, const Line& line, Vec3 pull_N) {
  const double unstretched_m = line.cable.unstretched_m;
  Vec3 off_m = to - line.end(pull_N);
  constexpr int most_steps = 40;
  constexpr double met = 1e-12;
  for (int i = 0; i < most_steps; ++i) {
    Vec3 by[3];
    const double step_N = 1e-6 * size(pull_N);
    const Vec3 axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (int k = 0; k < 3; ++k)
      by[k] = (0.5 / step_N) * (line.end(pull_N + step_N * axes[k]) - line.end(pull_N - step_N * axes[k]));
    const Vec3 step_by_N = answer(by, off_m);
    // Halved until it is nearer; what is not comparable is not. At the end only rounding is left and nothing is nearer.
    const double least_share = size(off_m) <= met * unstretched_m ? 1 : 1e-6;
    Vec3 next_N, next_off_m;
    double share = 1;
    do {
      next_N = pull_N + share * step_by_N;
      next_off_m = to - line.end(next_N);
      share /= 2;
    } while (!(size(next_off_m) < size(off_m)) && share >= least_share);
    if (!(size(next_off_m) < size(off_m))) break;
    pull_N = next_N;
    off_m = next_off_m;
  }
  if (!(size(off_m) <= met * unstretched_m)) return tl::unexpected(size(off_m) / unstretched_m);
  return pull_N;
}

}  // namespace

Solved<HungForces> hang_ridden(Point3 from, Point3 to, const mainline::Cable& cable, Vec3 wind_N_per_m,
                               std::span<const Borne> wheels, Vec3 near_N) {
  const Vec3 up{0, 0, 1}, chord = to - from, level{chord.x, chord.y, 0}, along = (1 / size(level)) * level;
  // A gale is let rise by and by where its line is too far from the one in still air.
  tl::expected<Vec3, double> pull_N;
  for (const int steps : {1, 8, 64}) {
    pull_N = near_N;
    for (int i = 1; i <= steps && pull_N; ++i) {
      const double share = static_cast<double>(i) / steps;
      std::vector<Borne> borne(wheels.begin(), wheels.end());
      for (Borne& wheel : borne) {
        const Vec3 weight_N = dot(wheel.load_N, up) * up;
        wheel.load_N = weight_N + share * (wheel.load_N - weight_N);
      }
      const Line line{from, along, share * wind_N_per_m - cable.weight_N_per_m * up, cable, borne};
      pull_N = pull_to(to, line, *pull_N);
      if (i < steps || !pull_N) continue;
      HungForces forces;
      line.end(*pull_N, &forces);
      return forces;
    }
  }
  return unsolved("with riders in the wind the line does not meet its end", pull_N.error());
}

}  // namespace fairlead::loads
