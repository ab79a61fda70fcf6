#include "geometry/loads/arrest_poses.hpp"

#include <fmt/format.h>

#include <array>

#include "geometry/quantity/dimension.hpp"
#include "geometry/reeving/under_load.hpp"

namespace fairlead::loads {

/// Lanyard, weight and inertia of his trolley.
Vec3 ArrestPoses::on_rider_N(const ArrestInstant& i) const {
  return i.lanyard_N - rig_->in.arrested.rider_trolley_kg * (standard_gravity * rig_->reeving_in.up + i.rider_m_per_s2);
}

Vec3 ArrestPoses::on_brake_N(const ArrestInstant& i) const {
  return -rig_->in.arrested.brake_trolley_kg * (standard_gravity * rig_->reeving_in.up + i.brake_m_per_s2);
}

Solved<ArrestPoses> ArrestPoses::solve(const Rigged& rig, const Work& work) {
  ArrestPoses poses(rig);
  const std::vector<ArrestInstant>& instants = rig.in.arrested.instants;
  /// Instants that follow each other on one path, in one direction.
  struct Passage {
    int path;
    reeving::Friction friction;
    std::vector<reeving::UnderLoad> loads;
  };
  std::vector<Passage> passages;
  for (const ArrestInstant& i : instants) {
    const int path = rig.in.arrested.corners[static_cast<std::size_t>(i.corner)].path;
    if (passages.empty() || passages.back().path != path || passages.back().friction != i.friction)
      passages.push_back({path, i.friction, {}});
    std::vector<reeving::UnderLoad>& loads = passages.back().loads;
    poses.of_.push_back({passages.size() - 1, static_cast<int>(loads.size())});
    loads.push_back({i.travel_m, i.unit_tension_N, -dot(poses.on_rider_N(i) + poses.on_brake_N(i), rig.reeving_in.up)});
  }
  std::vector<std::optional<Solved<reeving::Sweep>>> sweeps(passages.size());
  for_each_index(work, static_cast<int>(passages.size()), [&](int n) {
    const Passage& passage = passages[static_cast<std::size_t>(n)];
    sweeps[static_cast<std::size_t>(n)].emplace(
        reeving::solve_under_load(rig.reeving_in, rig.reeved, passage.path, passage.friction, passage.loads));
  });
  for (std::optional<Solved<reeving::Sweep>>& sweep : sweeps) {
    if (!*sweep) return unsolved("at an instant of an arrest: " + sweep->error().why, sweep->error().residual);
    poses.sweeps_.push_back(std::move(**sweep));
  }
  for (std::size_t i = 0; i < instants.size(); ++i)
    if (instants[i].apart && instants[i].travel_m - instants[i].rider_travel_m > together_m)
      if (auto hung = poses.hang_apart(i); !hung)
        return unsolved("with the trolleys apart in an arrest: " + hung.error().why, hung.error().residual);
  return poses;
}

tl::expected<void, Unsolved> ArrestPoses::hang_apart(std::size_t instant) {
  const ArrestInstant& i = at(instant);
  const reeving::Inputs& in = rig_->reeving_in;
  const mainline::Cable& cable = rig_->state_on(sweep_of(instant).path).cable;
  const std::array<mainline::Load, 2> loads{
      {{in.rest_m + i.rider_travel_m, -dot(on_rider_N(i), in.up)},
       {in.rest_m + i.travel_m, -dot(on_brake_N(i) + pose(instant).pull_on_trolley_N, in.up)}}};
  const auto shape = mainline::hang_rolling(cable, loads);
  if (!shape) return tl::unexpected(shape.error());
  of_[instant].two_wheels = static_cast<int>(two_wheels_.size());
  two_wheels_.push_back({*shape, forces_of(in.origin, in.along, in.up, cable, *shape)});
  return {};
}

Account ArrestPoses::account(std::size_t instant, Slip slip) const {
  const ArrestInstant& i = at(instant);
  const reeving::Pose& here = pose(instant);
  const reeving::Inputs& in = rig_->reeving_in;
  const mainline::Cable& cable = rig_->state_on(sweep_of(instant).path).cable;
  const Vec3 left_N = moving(instant).left_along_N * in.along;
  const int two = of_[instant].two_wheels;
  if (two < 0) {
    const Vec3 across_N = dot(here.hold_N, in.across) * in.across;
    const std::array<Acting, 2> on_wheels{
        {{here.trolley, on_rider_N(i)}, {here.trolley, on_brake_N(i) + left_N + across_N}}};
    return rig_->books.account(sweep_of(instant), pose_of(instant),
                               {cable, {}, here.start_support_N, here.end_support_N}, on_wheels, slip);
  }
  const HungForces& line = two_wheels_[static_cast<std::size_t>(two)].line;
  // The line's weight is told first, then what holds each wheel.
  const Point3 rider = line.acting[1].at, trolley = line.acting[2].at;
  const Vec3 across_N = -dot(here.pull_on_trolley_N, in.across) * in.across;
  const std::array<Acting, 2> on_wheels{{{rider, on_rider_N(i) + left_N}, {trolley, on_brake_N(i) + across_N}}};
  return rig_->books.account(sweep_of(instant), pose_of(instant), {cable, {}, line.on_from_N, line.on_to_N}, line,
                             trolley, on_wheels, slip);
}

Moving ArrestPoses::moving(std::size_t instant) const {
  const ArrestInstant& i = at(instant);
  const reeving::Inputs& in = rig_->reeving_in;
  const Arrested& arrested = rig_->in.arrested;
  Moving moving{
      .corner = i.corner,
      .t_s = i.t_s,
      .rider_travel_m = i.rider_travel_m,
      .unit_tension_N = i.unit_tension_N,
      .lanyard_N = i.lanyard_N,
      .inertia_N = -arrested.rider_trolley_kg * i.rider_m_per_s2 - arrested.brake_trolley_kg * i.brake_m_per_s2};
  const int two = of_[instant].two_wheels;
  const double acts_N = dot(on_rider_N(i) + on_brake_N(i), in.along);
  if (two < 0) {
    moving.left_along_N = dot(pose(instant).hold_N, in.along) - acts_N;
  } else {
    const HungForces& line = two_wheels_[static_cast<std::size_t>(two)].line;
    const Vec3 holds_N = line.acting[1].force_N + line.acting[2].force_N - pose(instant).pull_on_trolley_N;
    moving.left_along_N = dot(holds_N, in.along) - acts_N;
  }
  return moving;
}

LoadCase ArrestPoses::load_case(std::size_t instant, Slip slip) const {
  const ArrestInstant& i = at(instant);
  LoadCase load_case = with_forces(account(instant, slip).balance);
  const bool back = i.friction == reeving::Friction::returning;
  load_case.action = back ? Action::arrest_return : Action::arrest;
  load_case.name = fmt::format("{}, {}{}", back ? "drawn back after an arrest" : "arrest",
                               rig_->in.arrested.corners[static_cast<std::size_t>(i.corner)].name, words_for(slip));
  load_case.travel_m = i.travel_m;
  load_case.moving = moving(instant);
  return load_case;
}

}  // namespace fairlead::loads
