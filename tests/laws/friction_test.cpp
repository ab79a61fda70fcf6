// Balance, work and order of rigs as they are hung, their redirects on swivels and links and their sheaves rubbing.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/loads/leg_forces.hpp"
#include "tests/laws/dense.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/same.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

using reeving::Friction;
using reeving::Inputs;
using reeving::Station;

constexpr Wanted as_hung{.mounts = true, .friction = true};

/// use(sweep, pose of it, body) of every body at every pose.
template <class Use>
void for_bodies(const Rig& rig, const Use& use) {
  const Inputs& in = *rig.reeving.inputs;
  for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps)
    for (std::size_t pose = 0; pose < sweep.poses.size(); ++pose)
      for (std::size_t body = 0; body < in.blocks.size(); ++body) use(sweep, pose, body);
}

/// What is left over of all forces on a body, and of their moment about its own point; and their sizes summed.
struct LeftOver {
  Vec3 force_N, moment_N_m;
  double forces_N = 0, moments_N_m = 0;

  void add(Vec3 force, Vec3 arm) {
    const Vec3 moment = cross(arm, force);
    force_N += force, moment_N_m += moment;
    forces_N += norm(force), moments_N_m += norm(arm) * norm(force);
  }
};

/// From the recorded turns, legs and places alone.
LeftOver left_over(const Inputs& in, const reeving::Sweep& sweep, std::size_t pose, std::size_t body) {
  const reeving::BlockPlace& place = sweep.blocks[pose * in.blocks.size() + body];
  const Point3 own = place.placement.at;
  LeftOver all;
  all.add(-in.blocks[body].weight_N * in.up, place.centre_of_mass - own);
  all.add(place.held_N, {});
  all.moment_N_m += place.held_couple_N_m;
  const auto is_on = [&](reeving::Body b) { return b == static_cast<int>(body); };
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) {
    if (!is_on(in.sheaves[i].body)) continue;
    const reeving::Turn& turn = sweep.turns[pose * in.sheaves.size() + i];
    const Vec3 on = turn.on_tension_N * turn.on_leg, off = turn.off_tension_N * turn.off_leg;
    all.add(on, turn.on - own);
    all.add(off, turn.off - own);
    all.add(turn.force_N - on - off, turn.wrap_centre - own);
  }
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const reeving::Leg* legs = &sweep.legs[pose * in.legs() + in.legs_before(l)];
    const reeving::Leg &first = legs[0], &last = legs[in.lines[l].sheaves];
    if (is_on(in.lines[l].from.body)) all.add(loads::forces_of(first).on_from_N, first.from - own);
    if (is_on(in.lines[l].to.body)) all.add(loads::forces_of(last).on_to_N, last.to - own);
  }
  return all;
}

TEST(HungBalance, HoldsOnEveryBodyAtEveryPoseAndOverTheWholeRigInEveryCase) {
  int bodies = 0;
  for (const unsigned seed : seeds(24)) {
    SCOPED_TRACE(seed);
    const Rig rig = solve(sensible_layout(seed, as_hung), {}, coarse);
    ASSERT_TRUE(rig.loads.solved()) << rig.loads.result->error().why;
    for_bodies(rig, [&](const reeving::Sweep& sweep, std::size_t pose, std::size_t body) {
      const LeftOver left = left_over(*rig.reeving.inputs, sweep, pose, body);
      EXPECT_LT(norm(left.force_N), 1e-9 * left.forces_N);
      EXPECT_LT(norm(left.moment_N_m), 1e-9 * left.moments_N_m);
      ++bodies;
    });
    for (const loads::LoadCase& c : rig.loads.solved()->cases) {
      EXPECT_LT(norm(c.out_of_balance_N), 1e-9 * c.largest_N) << c.name;
      EXPECT_LT(norm(c.out_of_balance_N_m), 1e-9 * c.largest_N * rig.frame.span_m) << c.name;
    }
  }
  EXPECT_GT(bodies, 0);
}

/// A rig's passage on lines that weigh and stretch nothing, its sheaves rubbing as the whole rig's do.
struct Weightless {
  Inputs in;
  reeving::SweepInputs sweep;
  reeving::Outlet outlet;

  std::optional<Station> at(double travel_m) const {
    auto pose = solve_pose(in, sweep, outlet, travel_m);
    return pose ? std::optional(std::move(*pose)) : std::nullopt;
  }
};

std::optional<Weightless> weightless(const Rig& rig, std::size_t index) {
  Weightless w{*rig.reeving.inputs, rig.reeving.inputs->sweeps[index], {}};
  for (std::size_t l = 0; l < w.in.lines.size(); ++l) {
    if (w.in.lines[l].closing == reeving::Closing::length) continue;  // a support line would be straight
    w.in.lines[l].weight_N_per_m = w.in.lines[l].compliance_per_N = 0;
  }
  w.sweep.wind_Pa = {};
  const auto outlet = reeving::rest_outlet(w.in, w.sweep.reference, w.sweep.trolley_weight_N);
  if (!outlet) return std::nullopt;
  w.outlet = *outlet;
  w.outlet.tension_ratio = rig.reeving.solved()->sweeps[index].tension_ratio;
  if (w.sweep.running == reeving::Running::paying_out) w.outlet.held_tension_N = rig.reeving.solved()->peak_tension_N;
  return w;
}

Vec3 in_body(const Inputs& in, const Station& s, int sheave, Vec3 v) {
  const int body = in.sheaves[static_cast<std::size_t>(sheave)].body;
  if (body < 0) return v;
  const reeving::Placement& p = s.lines.blocks[static_cast<std::size_t>(body)];
  return {dot(p.turned_x, v), dot(p.turned_y, v), dot(p.turned_z, v)};
}

/// What the sheaves take, per metre of travel: by friction the jump of tension times the line that passes, and where a
/// leg leaves askew T r (1 - cos f) for every radian by which its contact turns about the axle.
double taken_N(const Inputs& in, const Station& before, const Station& s, const Station& after) {
  const double over_m = after.pose.travel_m - before.pose.travel_m;
  double taken = 0;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const int sheave = in.lines[l].first_sheave + k;
      const reeving::Sheave& given = in.sheaves[static_cast<std::size_t>(sheave)];
      if (given.radius_m == 0) continue;
      const std::size_t on = in.legs_before(l) + static_cast<std::size_t>(k);
      const double on_N = s.lines.legs[on].hang.to_tension_N(), off_N = s.lines.legs[on + 1].hang.from_tension_N();
      taken += (on_N - off_N) * s.flow[static_cast<std::size_t>(sheave)];
      const auto askew = [&](Vec3 e_before, Vec3 e_after, Vec3 pull) {
        const Vec3 a = in_body(in, before, sheave, e_before), b = in_body(in, after, sheave, e_after);
        const double turned = dot(cross(a, b), given.axle) / over_m;
        const double sine = dot(unit(pull), placed(in, s.lines, sheave).axle);
        return norm(pull) * given.radius_m * (1 - std::sqrt(1 - sine * sine)) * given.sense * turned;
      };
      taken += askew(before.lines.legs[on].to_e, after.lines.legs[on].to_e, s.lines.legs[on].hang.to_pull_N());
      taken -= askew(before.lines.legs[on + 1].from_e, after.lines.legs[on + 1].from_e,
                     s.lines.legs[on + 1].hang.from_pull_N());
    }
  return taken;
}

/// The support lines' pulls on the wheels they carry, times what these move: what they store.
double into_support_lines_N(const Inputs& in, const Station& s) {
  double stored = 0;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    if (in.lines[l].closing != reeving::Closing::length || in.lines[l].from.body == reeving::on_trolley) continue;
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const std::size_t leg = in.legs_before(l) + static_cast<std::size_t>(k);
      const reeving::Sheave& wheel = in.sheaves[static_cast<std::size_t>(in.lines[l].first_sheave + k)];
      const Vec3 pull = s.lines.legs[leg].hang.to_pull_N() + s.lines.legs[leg + 1].hang.from_pull_N();
      stored -= dot(pull, s.rates.blocks[static_cast<std::size_t>(wheel.body)].shift);
    }
  }
  return stored;
}

// The trolley's work per metre of travel is the unit's, the bodies' and the support lines', and what the sheaves take.
// Contacts' turning is taken over 2 mm, good to 1e-5 of a term that is 1e-5 of the tension.
TEST(HungWork, OfTheTrolleyGoesIntoUnitWeightsAndSupportLinesAndWhatTheSheavesTake) {
  int held = 0, mounted = 0;
  double rubbed = 0;
  for (const unsigned seed : seeds(32)) {
    const Rig rig = solve(sensible_layout(seed, as_hung), {}, coarse);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    for (std::size_t i = 0; i < rig.reeving.inputs->sweeps.size(); ++i) {
      if (rig.reeving.inputs->sweeps[i].friction == Friction::none) continue;
      const auto w = weightless(rig, i);
      if (!w) continue;
      for (const double travel_m : {1.0, 4.0, 6.5}) {
        SCOPED_TRACE(fmt::format("seed {}, sweep {}, travel {}", seed, i, travel_m));
        const auto before = w->at(travel_m - 1e-3), s = w->at(travel_m), after = w->at(travel_m + 1e-3);
        if (!before || !s || !after) continue;
        const Inputs& in = w->in;
        const double done = -dot(s->pose.pull_on_trolley_N, in.along + s->rates.slope * in.up);
        const double unit_N = s->pose.outlet_tension_N * s->pose.pay_out, taken = taken_N(in, *before, *s, *after);
        double lifted_N = 0;
        for (std::size_t b = 0; b < in.blocks.size(); ++b) {
          const reeving::Placement& place = s->lines.blocks[b];
          const Vec3 arm = place.turn(in.blocks[b].centre_of_mass - in.blocks[b].drawn);
          const reeving::Move& move = s->rates.blocks[b];
          lifted_N += in.blocks[b].weight_N * dot(move.shift + cross(move.turn, arm), in.up);
          mounted += !in.blocks[b].shifts();
        }
        EXPECT_NEAR(done, unit_N + lifted_N + into_support_lines_N(in, *s) + taken, 1e-9 * s->pose.trolley_tension_N);
        rubbed = std::max(rubbed, std::abs(taken) / s->pose.trolley_tension_N);
        ++held;
      }
    }
  }
  EXPECT_GT(held, 100);
  EXPECT_GT(mounted, 0);
  EXPECT_GT(rubbed, 0.05);
}

// Of the same pull at the unit: the more every sheave rubs, the harder the trolley is held as it draws line out, and
// the less it is drawn home.
TEST(HungFriction, MorePullsHarderOutAndLessBack) {
  int compared = 0;
  for (const unsigned seed : seeds(32)) {
    const Rig rig = solve(sensible_layout(seed, as_hung), {}, coarse);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    for (std::size_t i = 0; i < rig.reeving.solved()->sweeps.size(); ++i) {
      const Passage passage(rig, i);
      if (passage.sweep.tension_ratio.empty()) continue;
      const bool out = passage.acting.friction == Friction::paying_out;
      reeving::Outlet outlet = passage.outlet;
      if (!outlet.held_tension_N) outlet.held_tension_N = passage.at(3).pose.outlet_tension_N;
      double before_N = out ? 0 : 1e9;
      for (const double power : {0.0, 0.3, 0.6, 1.0}) {
        SCOPED_TRACE(fmt::format("seed {}, sweep {}, friction to the power of {}", seed, i, power));
        for (std::size_t s = 0; s < outlet.tension_ratio.size(); ++s)
          outlet.tension_ratio[s] = std::pow(passage.sweep.tension_ratio[s], power);
        const auto s = solve_pose(passage.in, passage.acting, outlet, 3);
        ASSERT_TRUE(s) << s.error().why;
        EXPECT_TRUE(out ? s->pose.trolley_tension_N > before_N : s->pose.trolley_tension_N < before_N);
        before_N = s->pose.trolley_tension_N;
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, 100);
}

/// Greatest fleet angle at the sheaves that hang free, were everything on the lines lighter by that factor.
std::optional<double> askew_rad(const Rig& rig, const Passage& passage, double factor) {
  Inputs in = *rig.reeving.inputs;
  for (reeving::Block& b : in.blocks)
    if (!b.shifts()) b.weight_N *= factor;
  for (reeving::Line& l : in.lines)
    if (l.closing != reeving::Closing::length) l.weight_N_per_m *= factor;
  reeving::SweepInputs acting = passage.acting;
  acting.wind_Pa = factor * acting.wind_Pa;
  const auto s = solve_pose(in, acting, passage.outlet, 3);
  if (!s) return std::nullopt;
  double askew = 0;
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) {
    const int body = in.sheaves[i].body;
    if (body >= 0 && in.blocks[static_cast<std::size_t>(body)].joint == reeving::Joint::ball)
      askew = std::max(askew, s->fleet_rad[i]);
  }
  return askew;
}

// Two pulls and the link's point lie in one plane where nothing else acts, friction or not. What weight does to that is
// of the order of the weight.
TEST(HungFreely, ASheavesLegsComeIntoItsPlaneAsItsWeightVanishes) {
  int held = 0;
  double seen = 0;
  const std::vector<unsigned> drawn = seeds(32);
  for (const unsigned seed : drawn) {
    SCOPED_TRACE(seed);
    const Rig rig = solve(sensible_layout(seed, as_hung), {}, coarse);
    ASSERT_TRUE(rig.reeving.solved()) << rig.reeving.result->error().why;
    const Passage passage(rig, 1);
    const auto light = askew_rad(rig, passage, 1e-2), lighter = askew_rad(rig, passage, 1e-5);
    if (!light || !lighter || *light == 0) continue;
    EXPECT_LT(*lighter, 1.5e-3 * *light + 1e-10);
    seen = std::max(seen, *light);
    ++held;
  }
  EXPECT_GT(held, 5 * static_cast<int>(drawn.size()) / 32);
  EXPECT_GT(seen, 1e-5);
}

/// A rate at the middle of five poses an equal step apart, and by how much it may be wrong: a sixteenth of what twice
/// the step would change is its error, and poses are solved to 1e-11.
struct Rate {
  double value{}, error{};
};
template <class Of>
Rate rate_of(const std::vector<Station>& at, double step_m, const Of& of) {
  const auto slope = [&](std::size_t by) {
    return (8 * (of(at[4 + by]) - of(at[4 - by])) - (of(at[4 + 2 * by]) - of(at[4 - 2 * by]))) /
           (12 * double(by) * step_m);
  };
  return {slope(1), std::abs(slope(1) - slope(2))};
}

// Lines that weigh, so that a sheave that rubs changes the pull of a line by the height it moves to.
TEST(HungRates, AreHowPosesChangeAlongTheTravel) {
  constexpr double step_m = 0.05, solved_to = 1e-7 / step_m;
  int held = 0;
  for (const unsigned seed : seeds(32)) {
    Wanted heavy = as_hung;
    heavy.line_kg_per_m = 0.4;
    const Rig rig = solve(sensible_layout(seed, heavy), {}, coarse);
    if (!rig.reeving.solved()) continue;  // so heavy a line may touch a sheave's rim
    for (std::size_t i = 0; i < rig.reeving.solved()->sweeps.size(); i += 3) {
      const Passage passage(rig, i);
      std::vector<Station> at;
      for (int k = -4; k <= 4; ++k) at.push_back(passage.at(4 + k * step_m));
      const Station& now = at[4];
      SCOPED_TRACE(fmt::format("seed {}, sweep {}", seed, i));
      const auto expect = [&](const char* what, double rate, const Rate& seen) {
        EXPECT_NEAR(rate, seen.value, seen.error + solved_to) << what;
        ++held;
      };
      expect("extension", now.pose.pay_out, rate_of(at, step_m, [](const Station& s) { return s.pose.extension_m; }));
      expect("height", now.rates.slope, rate_of(at, step_m, [](const Station& s) { return s.pose.trolley.z; }));
      for (std::size_t l = 0; l < passage.in.lines.size(); ++l)
        expect("tension", now.rates.tension_N_per_m[l],
               rate_of(at, step_m, [&](const Station& s) { return s.lines.tension[l].at_N; }));
      for (std::size_t b = 0; b < passage.in.blocks.size(); ++b) {
        const Point3 drawn = passage.in.blocks[b].drawn, centre = passage.in.blocks[b].centre_of_mass;
        const reeving::Move& move = now.rates.blocks[b];
        const Vec3 moves = move.shift + cross(move.turn, now.lines.blocks[b].turn(centre - drawn));
        for (const Vec3 axis : {passage.in.along, passage.in.across, passage.in.up})
          expect("body", dot(moves, axis), rate_of(at, step_m, [&](const Station& s) {
                   return dot(s.lines.blocks[b].move(centre, drawn) - Point3{}, axis);
                 }));
      }
    }
  }
  EXPECT_GT(held, 300);
}

}  // namespace
}  // namespace fairlead::laws
