#include "geometry/reeving/wheels_between.hpp"

#include <limits>

#include "geometry/reeving/line_step.hpp"

namespace fairlead::reeving {
namespace {

template <std::size_t N>
WheelsStray stray_of(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& to,
                     const std::array<double, 2>& weights_off_N) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  WheelsStray out{{unknown, unknown}};
  LineStep<N> step(cable, from, to, {OnTheWay::Last::weight, weights_off_N});
  if (step.proven())
    for (std::size_t k = 0; k < N; ++k) out.wheel_m[k] = step.wheel_m(k);
  return out;
}

}  // namespace

WheelsStray wheels_between(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& to,
                           const std::array<double, 2>& weights_off_N) {
  if (from.loads == 2 && (to.loads == 2 || to.loads == 1)) return stray_of<2>(cable, from, to, weights_off_N);
  if (from.loads == 1 && to.loads == 1) return stray_of<1>(cable, from, to, weights_off_N);
  constexpr double unknown = std::numeric_limits<double>::infinity();
  return {{unknown, unknown}};
}

}  // namespace fairlead::reeving
