#include <cmath>
#include <numbers>

#include "geometry/quantity/dimension.hpp"
#include "geometry/studies/calculation_parts.hpp"

namespace fairlead::calculating {
namespace {

constexpr double per_degree = 180 / std::numbers::pi;
const char* const notation = "geometry/NOTATION.md, Arrest";

const reeving::Pose* returning_pose(const reeving::Reeving& reeving, const arrest::Reset& reset) {
  for (const reeving::Sweep& sweep : reeving.sweeps) {
    if (sweep.path != reset.path || sweep.running != reeving::Running::at_rest || sweep.in_wind ||
        sweep.friction == reeving::Friction::paying_out)
      continue;
    for (const reeving::Pose& pose : sweep.poses)
      if (pose.travel_m == reset.at_travel_m) return &pose;
  }
  return nullptr;
}

/// Of the way back: 0 where the place is one at which rolling just stops it, none where it stays as it stopped.
std::optional<double> solved_balance(const arrest::FinalRest& rest, double to_m) {
  using How = arrest::FinalRest::How;
  const bool rolled = rest.how == How::rolled_back || rest.how == How::pushed_back;
  if (rolled && rest.latest_m > 0 && rest.latest_m < to_m) return 0;
  return std::nullopt;
}

}  // namespace

void add_rest(const Rig& rig, std::vector<CalculationStep>& steps) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const arrest::Arrest& arrest = *rig.arrest.solved();
  if (arrest.governing.latest_rest < 0) return;
  const arrest::CornerResult& result = arrest.corners[static_cast<std::size_t>(arrest.governing.latest_rest)];
  const auto track = arrest::track_of(in, result.corner.path, *rig.reeving.inputs, *rig.reeving.solved());
  if (!track || !result.rest) return;
  const auto state =
      static_cast<std::size_t>(rig.main_line.solved()->paths[static_cast<std::size_t>(result.corner.path)].state);
  const arrest::Bodies bodies = arrest::bodies_of(in, result.corner, in.air_kg_per_m3[state]);
  const arrest::TrackPoint at = track->at(result.rest->latest_m);
  const double first_N = in.unit.retraction_N(at.extension_m),
               tension_N = in.unit.retraction_N(at.extension_m + at.give_m_per_N * first_N);
  const double hanging_kg = bodies.rider_kg + bodies.rider_trolley_kg + bodies.brake_trolley_kg;
  const Figure Q = figure("Q", "push of weight and main line toward the landing", "reeving", at.drive_N, 1, "N"),
               D = figure("D", "push of the wind", "corner",
                          bodies.drag_kg_per_m * std::abs(bodies.wind_m_per_s) * bodies.wind_m_per_s, 1, "N"),
               T = figure("T", "retraction of the unit there", "layout", tension_N, 1, "N"),
               p = figure("p", "force along the travel per newton, paid out", "reeving", at.pull, 4, ""),
               pb = figure("pb", "the same, drawn in", "reeving", at.pull_back, 4, ""),
               m = figure("m", "rider and both trolleys", "layout", hanging_kg, 1, "kg"),
               c = figure("c", "rolling resistance over load", "corner", bodies.rolling, 4, ""),
               u = figure("u", "lift of the line on the wheels per newton", "reeving", at.lift, 4, ""),
               z = figure("z", "slope of the path there", "reeving", at.slope, 4, "");
  steps.push_back(step("Final rest, farthest: rolling resistance there",
                       figure("R", "rolling resistance", "", 0, 1, "N"),
                       "{c} * ({m} * 9.80665 - {u} * {T} * sqrt(1 + {z}^2))", {c, m, u, T, z}, std::nullopt, notation));
  const Figure R = steps.back().result;
  steps.push_back(step("Final rest, farthest: what is left to move on (below 0: it does not)",
                       figure("f", "left toward the landing", "", 0, 1, "N"), "{Q} + {D} - {p} * {T} - {R}",
                       {Q, D, p, T, R}, std::nullopt, notation));
  steps.push_back(step("Final rest, farthest: what is left against moving back (below 0: it rolls back)",
                       figure("r", "left against rolling back", "", 0, 1, "N"), "{Q} + {D} - {pb} * {T} + {R}",
                       {Q, D, pb, T, R}, solved_balance(*result.rest, track->to_m()), notation));
}

void add_reset(const Rig& rig, std::vector<CalculationStep>& steps) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const reeving::Inputs& frame = *rig.reeving.inputs;
  const arrest::Reset* worst = nullptr;
  for (const arrest::Reset& reset : rig.arrest.solved()->resets)
    if (!worst || reset.least_reserve_N < worst->least_reserve_N) worst = &reset;
  const reeving::Pose* pose = worst ? returning_pose(*rig.reeving.solved(), *worst) : nullptr;
  if (!pose) return;
  const Figure b = figure("b", "slope at the wheel, rising positive", "main line", pose->tau_rad * per_degree, 2,
                          "deg"),
               P = figure("P", "pull of the line on the trolley, along", "reeving",
                          dot(pose->pull_on_trolley_N, frame.along), 1, "N"),
               V = figure("V", "the same, upward", "reeving", dot(pose->pull_on_trolley_N, frame.up), 1, "N"),
               m = figure("mb", "brake trolley", "layout", in.brake_trolley_kg, 2, "kg"),
               c = figure("c", "rolling resistance over load, greatest", "layout", in.rolling.high, 4, ""),
               s = figure("Fs", "static resistance", "layout", in.static_N, 1, "N"),
               H = figure("H", "level force that would hold the trolley there", "reeving",
                          dot(pose->hold_N, frame.along), 1, "N");
  steps.push_back(step("Reset, where the reserve is least: what presses on the wheels",
                       figure("N", "load on the wheels", "", 0, 1, "N"),
                       "({mb} * 9.80665 - {V}) * cos({b}) + {P} * sin({b})", {m, V, P, b}, std::nullopt, notation));
  const Figure N = steps.back().result;
  steps.push_back(step("Reset: least reserve toward the mark", figure("r", "reserve", "", 0, 1, "N"),
                       "{H} * cos({b}) - {c} * {N} - {Fs}", {H, b, c, N, s}, worst->least_reserve_N, notation));
}

void add_backup(const Rig& rig, std::vector<CalculationStep>& steps) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const auto& alone = rig.arrest.solved()->backup;
  if (!alone || alone->residual_m_per_s > 0 || !(alone->compression_m > 0)) return;
  const arrest::Corner& corner = rig.arrest.solved()->corners[static_cast<std::size_t>(alone->corner)].corner;
  const mainline::StatePath& loaded = rig.main_line.solved()->paths[static_cast<std::size_t>(corner.path)];
  const arrest::Bodies bodies = arrest::bodies_of(in, corner, in.air_kg_per_m3[static_cast<std::size_t>(loaded.state)]);
  const double from_m = *in.backup_m, to_m = from_m + alone->compression_m;
  double taken_J = 0;
  // Between points of its table the force is straight: half the sum of its ends.
  double before_m = 0;
  for (const CurvePoint& point : in.backup_N->points()) {
    const double here_m = std::min(point.x, alone->compression_m);
    if (here_m > before_m) taken_J += ((*in.backup_N)(before_m) + (*in.backup_N)(here_m)) / 2 * (here_m - before_m);
    before_m = std::max(before_m, here_m);
  }
  const double beyond_m = alone->compression_m - before_m;
  if (beyond_m > 0) taken_J += ((*in.backup_N)(before_m) + (*in.backup_N)(alone->compression_m)) / 2 * beyond_m;
  steps.push_back(step("Backup brake alone, the primary lost: energy that it has to take",
                       figure("W", "taken by the backup brake", "", 0, 0, "J"),
                       "{m} * {v}^2 / 2 + {Q} - {c} * {m} * 9.80665 * {s}",
                       {figure("m", "rider and both trolleys", "layout",
                               bodies.rider_kg + bodies.rider_trolley_kg + bodies.brake_trolley_kg, 1, "kg"),
                        figure("v", "speed where it engages", "solver", alone->speed_m_per_s, 3, "m/s"),
                        figure("Q", "work of weight and main line over the compression", "main line",
                               loaded.path.potential_J(from_m) - loaded.path.potential_J(to_m), 0, "J"),
                        figure("c", "rolling resistance over load", "corner", bodies.rolling, 4, ""),
                        figure("s", "compression", "solver", alone->compression_m, 3, "m")},
                       taken_J, "energy balance; own"));
  // Air drag is left out: it takes no more than its greatest over the whole compression. The solver's speed and place
  // are those of strides of a centimetre.
  const double air = alone->speed_m_per_s + std::abs(bodies.wind_m_per_s);
  constexpr double stride_m = 0.01;
  steps.back().tolerance += bodies.drag_kg_per_m * air * air * alone->compression_m + alone->force_N * stride_m;
}

}  // namespace fairlead::calculating
