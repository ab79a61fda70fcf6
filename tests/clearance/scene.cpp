#include "tests/clearance/scene.hpp"

#include <algorithm>
#include <stdexcept>

#include "geometry/reeving/leg.hpp"

namespace fairlead::clearance {
namespace {

constexpr double line_weight_N_per_m = 0.37;

/// A leg under its weight and a wind.
reeving::Leg leg_between(Point3 from, Point3 to, double tension_N, Vec3 load_N_per_m) {
  reeving::Leg leg{.from = from, .to = to, .load_N_per_m = load_N_per_m};
  const double load = norm(load_N_per_m);
  const auto hung = reeving::hang_leg(to - from, tension_N, load, (-1 / load) * load_N_per_m);
  if (!hung) throw std::runtime_error("a leg of the scene does not hang");
  leg.length_m = hung->length_m;
  leg.sag_m = hung->sag_m();
  leg.from_tension_N = hung->from_tension_N();
  leg.to_tension_N = hung->to_tension_N();
  leg.H_N = hung->horizontal_N();
  leg.weight_N = line_weight_N_per_m * leg.length_m;
  return leg;
}

double apart(Point3 actual, Point3 one, Point3 other, double share) {
  return norm(actual - (one + share * (other - one)));
}

}  // namespace

Scene::Scene() {
  rig.origin = {0, 0, 30};
  rig.along = {1, 0, 0};
  rig.across = {0, 1, 0};
  rig.up = {0, 0, 1};
  rig.rest_m = 188;
  rig.travel_m = 15;
  rig.upstream_m = -5;
  rig.attachment = {-0.1, 0, 0.05};
  rig.reference.cable = {220, -11, 220.6, 1.05 * 9.80665, 1 / 11e6};
  const Vec3 axle{0, 1, 0};
  const Point3 hung{212, 0, 24.5};  // the block as drawn
  rig.sheaves = {{{186.3, 0, 19.6}, axle, 0.08, 1, reeving::on_ground},
                 {hung + Vec3{-0.2, 0, 0}, axle, 0.08, 1, 0},
                 {hung + Vec3{0, 0, 0.15}, {}, 0, 0, 0}};
  rig.lines = {{.from = {{}, reeving::on_trolley},
                .to = {{186.3, 0, 19.9}, reeving::on_ground},
                .first_sheave = 0,
                .sheaves = 2,
                .weight_N_per_m = line_weight_N_per_m,
                .diameter_m = 0.008},
               {.from = {hung + Vec3{0.2, 0, 0}, 0},
                .to = {{219, 0.1, 21.5}, reeving::on_ground},
                .first_sheave = 2,
                .sheaves = 0,
                .weight_N_per_m = line_weight_N_per_m,
                .diameter_m = 0.008},
               {.from = {{186, 0, 25}, reeving::on_ground},
                .to = {{220, 0, 25}, reeving::on_ground},
                .first_sheave = 2,
                .sheaves = 1,
                .weight_N_per_m = line_weight_N_per_m,
                .diameter_m = 0.01}};
  rig.braking = 1;
  rig.pulling = 0;
  rig.blocks = {{.drawn = hung, .centre_of_mass = hung, .weight_N = 20}};
  reeving::SweepInputs heavy;
  heavy.state = heavy.reference = rig.reference;
  heavy.trolley_weight_N = 40;
  heavy.rider_weight_N = 1200;
  heavy.running = reeving::Running::at_rest;
  rig.sweeps = {heavy};

  in.rider = Envelope{.width_m = 2.1, .length_m = 2.4, .above_m = 0.2, .below_m = 2.3};
  in.sheaves = {
      {.rim_radius_m = 0.09, .width_m = 0.02, .frame = Box{.centre = {186.3, 0, 19.65}, .half_m = {0.1, 0.03, 0.15}}},
      {.rim_radius_m = 0.09, .width_m = 0.02},
      {}};
  in.blocks = {Box{.centre = hung, .half_m = {0.35, 0.06, 0.2}}};
  in.main_line_radius_m = 0.008;
  in.hands_m = 1.5;
  in.sweeps = {0};
  in.spans = {{0, true, {}}};
}

void Scene::add_line_over(const reeving::Sheave& sheave, const SheaveBody& body) {
  rig.lines.push_back({.from = {sheave.centre + Vec3{0, 5, 5}, reeving::on_ground},
                       .to = {sheave.centre + Vec3{0, 9, 5}, reeving::on_ground},
                       .first_sheave = static_cast<int>(rig.sheaves.size()),
                       .sheaves = 1,
                       .weight_N_per_m = line_weight_N_per_m,
                       .diameter_m = 0.008});
  rig.sheaves.push_back(sheave);
  in.sheaves.push_back(body);
}

reeving::Sweep Scene::instant(const reeving::SweepInputs& given, double travel_m) const {
  reeving::Sweep sweep;
  sweep.running = given.running;
  reeving::Pose pose;
  pose.travel_m = travel_m;
  const double trolley_m = rig.rest_m + std::max(0., travel_m), rider_m = rig.rest_m + travel_m;
  const double trolley_N = given.trolley_weight_N - pull_N.z;
  const mainline::Load apart[2] = {{rider_m, given.rider_weight_N}, {trolley_m, trolley_N}};
  const mainline::Load together{trolley_m, given.rider_weight_N + trolley_N};
  pose.pull_on_trolley_N = pull_N;
  const auto shape = travel_m < 0 ? mainline::hang_rolling(given.state.cable, apart)
                                  : mainline::hang_rolling(given.state.cable, {&together, 1});
  if (!shape) throw std::runtime_error(shape.error().why);
  const auto place = [&](const mainline::Wheel& wheel) {
    return rig.origin + wheel.x_m * rig.along + wheel.z_m * rig.up;
  };
  pose.rider = place(shape->wheels[0]);
  pose.trolley = place(shape->wheels[static_cast<std::size_t>(shape->loads - 1)]);
  pose.attachment = pose.trolley + rig.attachment;
  sweep.poses = {pose};

  const double upstream_m = std::max(0., travel_m) / 2;
  const reeving::Block& drawn = rig.blocks[0];
  reeving::BlockPlace at;
  const double turn = block_turn_rad_per_m * upstream_m;
  at.placement = {drawn.drawn - upstream_m * rig.along + 0.004 * upstream_m * upstream_m * rig.up,
                  {std::cos(turn), 0, -std::sin(turn)},
                  {0, 1, 0},
                  {std::sin(turn), 0, std::cos(turn)}};
  sweep.blocks = {at};
  const auto on_block = [&](Point3 p) { return at.placement.move(p, drawn.drawn); };

  const Vec3 load = Vec3{0, 0, -line_weight_N_per_m} + wind_N_per_m;
  const Vec3 over{0, 0, rig.sheaves[0].radius_m};
  const Point3 redirect = rig.sheaves[0].centre, turns = on_block(rig.sheaves[1].centre),
               wheel = on_block(rig.sheaves[2].centre);
  sweep.legs = {leg_between(pose.attachment, redirect - over, tension_N, load),
                leg_between(redirect + over, turns - over, tension_N, load),
                leg_between(turns + over, rig.lines[0].to.at, tension_N, load),
                leg_between(on_block(rig.lines[1].from.at), rig.lines[1].to.at, 2 * tension_N, load),
                leg_between(rig.lines[2].from.at, wheel, 10 * tension_N, load),
                leg_between(wheel, rig.lines[2].to.at, 10 * tension_N, load)};
  for (std::size_t l = 3; l < rig.lines.size(); ++l) {  // lines that a test adds: over one sheave, between two anchors
    const Point3 centre = rig.sheaves[static_cast<std::size_t>(rig.lines[l].first_sheave)].centre;
    sweep.legs.push_back(leg_between(rig.lines[l].from.at, centre, tension_N, load));
    sweep.legs.push_back(leg_between(centre, rig.lines[l].to.at, tension_N, load));
  }
  return sweep;
}

reeving::Sweep Scene::sweep(const reeving::SweepInputs& given, const std::vector<double>& travels_m) const {
  reeving::Sweep sweep = instant(given, travels_m.front());
  const auto add = [](auto& all, const auto& more) { all.insert(all.end(), more.begin(), more.end()); };
  for (std::size_t i = 1; i < travels_m.size(); ++i) {
    const reeving::Sweep one = instant(given, travels_m[i - 1]), other = instant(given, travels_m[i]);
    reeving::Stray stray{.blocks_m = {0}, .legs_m = std::vector<double>(one.legs.size())};
    constexpr int samples = 16;
    for (int k = 1; k < samples; ++k) {
      const double share = double(k) / samples;
      const reeving::Sweep now = instant(given, travels_m[i - 1] + share * (travels_m[i] - travels_m[i - 1]));
      const auto take = [&](double& most, Point3 actual, Point3 a, Point3 b) {
        most = std::max(most, 1.2 * apart(actual, a, b, share));
      };
      take(stray.rider_m, now.poses[0].rider, one.poses[0].rider, other.poses[0].rider);
      take(stray.trolley_m, now.poses[0].trolley, one.poses[0].trolley, other.poses[0].trolley);
      for (const Vec3& part : {Vec3{0.5, 0, 0}, Vec3{0, 0, 0.5}, Vec3{-0.5, 0, 0}, Vec3{0, 0, -0.5}}) {
        const auto point = [&](const reeving::Sweep& s) { return s.blocks[0].placement.move(Point3{} + part, {}); };
        take(stray.blocks_m[0], point(now), point(one), point(other));
      }
      for (std::size_t leg = 0; leg < one.legs.size(); ++leg) {
        constexpr int points = 9;
        const auto a = reeving::hanging_curve(one.legs[leg], points),
                   b = reeving::hanging_curve(other.legs[leg], points),
                   c = reeving::hanging_curve(now.legs[leg], points);
        for (std::size_t p = 0; p < points; ++p) take(stray.legs_m[leg], c[p], a[p], b[p]);
      }
    }
    sweep.strays.push_back(stray);
    add(sweep.poses, other.poses);
    add(sweep.legs, other.legs);
    add(sweep.blocks, other.blocks);
    if (travels_m[i] == 0) sweep.rest_pose = static_cast<int>(i);
  }
  return sweep;
}

reeving::Reeving Scene::passage(int poses) const {
  const int before = std::max(1, poses / 4);
  std::vector<double> travels_m;
  for (int i = 0; i < before; ++i) travels_m.push_back(rig.upstream_m * (1 - double(i) / before));
  for (int i = 0; i <= poses - before; ++i) travels_m.push_back(rig.travel_m * i / (poses - before));
  reeving::Reeving reeving;
  reeving.sweeps = {sweep(rig.sweeps[0], travels_m)};
  return reeving;
}

std::vector<double> Scene::brute_force(int instants) const {
  std::vector<double> least;
  for (int i = 0; i < instants; ++i) {
    reeving::Reeving reeving;
    reeving.sweeps = {instant(rig.sweeps[0], rig.upstream_m + (rig.travel_m - rig.upstream_m) * i / (instants - 1))};
    const auto told = solve(in, rig, reeving);
    if (!told) throw std::runtime_error(told.error().why);
    least.resize(told->gaps.size(), std::numeric_limits<double>::infinity());
    for (std::size_t k = 0; k < least.size(); ++k) least[k] = std::min(least[k], told->gaps[k].least_m.value);
  }
  return least;
}

std::optional<Gap> find_gap(const Clearances& told, Thing a, Thing b) {
  for (const Gap& gap : told.gaps)
    if (gap.a == a && gap.b == b) return gap;
  return std::nullopt;
}

}  // namespace fairlead::clearance
