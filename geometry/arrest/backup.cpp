#include "geometry/arrest/backup.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

/// Speeds change smoothly over metres: a centimetre leaves a millionth of the energy.
constexpr double step_m = 0.01;

}  // namespace

Solved<BackupAlone> backup_alone(const Inputs& in, const Drive& drive, double hanging_kg, double drag_kg_per_m,
                                 double wind_m_per_s, double rolling, double arrival_speed_m_per_s) {
  if (!in.backup_m || !in.backup_N || !in.backup_stroke_m)
    return unsolved("the backup brake's force over its compression, or its stroke, is not given");
  BackupAlone alone;
  const double from_m = in.rest_m, to_m = *in.backup_m, end_m = to_m + *in.backup_stroke_m;
  double energy_J = hanging_kg * arrival_speed_m_per_s * arrival_speed_m_per_s / 2;
  const auto force_N = [&](double x_m) {
    const double speed = std::sqrt(std::max(0.0, 2 * energy_J / hanging_kg)), air = speed - wind_m_per_s;
    const double brake_N = x_m > to_m ? (*in.backup_N)(x_m - to_m) : 0;
    return drive.force_N(x_m) - rolling * hanging_kg * standard_gravity - drag_kg_per_m * std::abs(air) * air - brake_N;
  };
  const auto strides = static_cast<int>(std::ceil((end_m - from_m) / step_m));
  const double stride_m = (end_m - from_m) / strides;
  if (!(end_m <= drive.to_m))
    return unsolved("the backup brake's stroke ends beyond the main line's solved stretch", end_m);
  for (int i = 0; i < strides; ++i) {
    const double x_m = from_m + (i + 0.5) * stride_m, before_J = energy_J;
    energy_J += force_N(x_m) * stride_m;
    if (!std::isfinite(energy_J)) return unsolved("the speed toward the backup brake is not a number", energy_J);
    const double reached_m = x_m + stride_m / 2;
    if (reached_m <= to_m) alone.speed_m_per_s = std::sqrt(std::max(0.0, 2 * energy_J / hanging_kg));
    if (energy_J <= 0) {
      const double share = before_J / (before_J - energy_J);
      alone.compression_m = std::max(0.0, reached_m - (1 - share) * stride_m - to_m);
      alone.force_N = alone.compression_m > 0 ? in.backup_N->greatest(0, alone.compression_m) : 0;
      return alone;
    }
  }
  alone.compression_m = *in.backup_stroke_m;
  alone.residual_m_per_s = std::sqrt(2 * energy_J / hanging_kg);
  alone.force_N = in.backup_N->greatest(0, alone.compression_m);
  return alone;
}

}  // namespace fairlead::arrest
