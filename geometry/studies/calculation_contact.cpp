#include <cmath>
#include <numbers>
#include <optional>
#include <utility>
#include <variant>

#include "geometry/quantity/dimension.hpp"
#include "geometry/studies/calculation_parts.hpp"

namespace fairlead::calculating {
namespace {

constexpr double per_degree = 180 / std::numbers::pi;
const char* const notation = "geometry/NOTATION.md, Arrest";

/// What one corner's contact is worked out from.
struct Contact {
  const arrest::CornerResult& result;
  const arrest::Motion& motion;
  arrest::Bodies bodies;
  arrest::Unit unit;
  arrest::TrackPoint at;
  std::vector<arrest::Instant> record;
};

Figure add_level_speed(const Figure& v, const Figure& z, std::vector<CalculationStep>& steps) {
  steps.push_back(step("Speed before contact, level part", figure("vx", "level speed", "", 0, 3, "m/s"),
                       "{v} / sqrt(1 + {z}^2)", {v, z}, std::nullopt, notation));
  return steps.back().result;
}

/// The brake trolley with the lines, blocks and rotor that it moves.
Figure add_met_mass(const Contact& c, const Figure& z, std::vector<CalculationStep>& steps) {
  const Figure mb = figure("mb", "brake trolley", "layout", c.bodies.brake_trolley_kg, 2, "kg"),
               mq = figure("mq", "lines, blocks and rotor as felt there", "reeving", c.at.inertia_kg, 3, "kg");
  steps.push_back(step("Mass that it meets", figure("mB", "mass that it meets", "", 0, 3, "kg"),
                       "{mb} * (1 + {z}^2) + {mq}", {mb, z, mq}, std::nullopt, notation));
  return steps.back().result;
}

/// What later steps go on with.
struct AfterImpact {
  Figure v1;                 ///< level speed
  Figure met, meets;         ///< masses
  std::optional<Figure> w1;  ///< swing rate; none where the lanyard gives
};

AfterImpact add_impact(const Contact& c, std::vector<CalculationStep>& steps) {
  const Figure v = figure("v", "arrival speed along the main line", "corner", c.result.arrival_speed_m_per_s, 3, "m/s"),
               z = figure("z", "slope of the path there, dz/dx", "reeving", c.at.slope, 4, ""),
               lean = figure("a", "lean of the rider at contact, forward positive", "approach",
                             c.motion.lean_rad * per_degree, 2, "deg"),
               m1 = figure("m1", "rider trolley", "layout", c.bodies.rider_trolley_kg, 2, "kg"),
               mr = figure("mr", "rider", "layout", c.bodies.rider_kg, 1, "kg"),
               mb = figure("mb", "brake trolley", "layout", c.bodies.brake_trolley_kg, 2, "kg"),
               l = figure("l", "wheel to the rider's centre of mass", "layout", c.bodies.hanging_m, 3, "m");
  const bool rigid = !(c.bodies.lanyard_N_per_m > 0);
  const Figure vx = add_level_speed(v, z, steps);
  if (rigid)
    steps.push_back(step("Mass that meets the brake trolley: the rider takes part through the leaning lanyard",
                         figure("me", "mass that meets it", "", 0, 3, "kg"),
                         "{m1} * (1 + {z}^2) + {mr} * (sin({a}) - {z} * cos({a}))^2", {m1, mr, z, lean}, std::nullopt,
                         notation));
  else
    steps.push_back(step("Mass that meets the brake trolley: the lanyard gives, so his trolley alone",
                         figure("me", "mass that meets it", "", 0, 3, "kg"), "{m1} * (1 + {z}^2)", {m1, z},
                         std::nullopt, notation));
  const Figure me = steps.back().result;
  const Figure mB = add_met_mass(c, z, steps);
  steps.push_back(step("Contact: momentum, both trolleys of one speed after it",
                       figure("v1", "level speed after contact", "", 0, 3, "m/s"), "{vx} * {me} / ({me} + {mB})",
                       {vx, me, mB}, c.motion.speed_after_contact_m_per_s, notation));
  AfterImpact after{steps.back().result, mB, me, std::nullopt};
  const Figure& v1 = after.v1;
  // Later impacts are in the solver's sum, so a sum of one is compared alone.
  steps.push_back(step("Energy lost at contact", figure("W", "energy lost", "", 0, 1, "J"),
                       "{vx}^2 / 2 * {me} * {mB} / ({me} + {mB})", {vx, me, mB},
                       c.motion.separations == 0 ? std::optional(c.motion.lost_at_contact_J) : std::nullopt, notation));
  if (rigid)
    steps.push_back(step("Swing begins", figure("w1", "swing rate after contact", "", 0, 3, "rad/s"),
                         "({vx} - {v1}) * (cos({a}) + {z} * sin({a})) / {l}", {vx, v1, lean, z, l},
                         c.motion.swing_rate_after_contact_rad_per_s, notation)),
        after.w1 = steps.back().result;
  steps.push_back(
      step("Swing from contact alone, without brake and slope: the brake adds to it",
           figure("am", "greatest lean, no brake", "", 0, 1, "deg"),
           "acos(1 - {mr} * ({m1} + {mb}) / ({mr} + {m1} + {mb}) * ({v} - {v1})^2 / (2 * {mr} * 9.80665 * {l}))",
           {mr, m1, mb, v, v1, l}, std::nullopt, "energy of pendulum and free trolley; own"));
  if (!std::isfinite(steps.back().result.value)) steps.pop_back();  // it would swing over the top
  return after;
}

/// A bumper takes nothing at once: it is pressed until both trolleys have one speed.
void add_bumper(const Contact& c, std::vector<CalculationStep>& steps) {
  const Figure v = figure("v", "arrival speed along the main line", "corner", c.result.arrival_speed_m_per_s, 3, "m/s"),
               z = figure("z", "slope of the path there, dz/dx", "reeving", c.at.slope, 4, ""),
               m1 = figure("m1", "rider trolley", "layout", c.bodies.rider_trolley_kg, 2, "kg"),
               k = figure("k", "stiffness of the bumper", "layout", c.bodies.bumper_N_per_m, 0, "N/m");
  const char* const two_masses = "two free masses on a spring, energy; own";
  const Figure vx = add_level_speed(v, z, steps);
  const Figure mB = add_met_mass(c, z, steps);
  steps.push_back(step("Push of the bumper between the two trolleys alone: rider, brake and what is lost left out",
                       figure("F", "push", "", 0, 0, "N"), "{vx} * sqrt({k} * {m1} * {mB} / ({m1} + {mB}))",
                       {vx, k, m1, mB}, std::nullopt, two_masses));
  const Figure F = steps.back().result;
  steps.push_back(step("Give of the bumper then", figure("s", "give", "", 0, 4, "m"), "{F} / {k}", {F, k}, std::nullopt,
                       two_masses));
}

/// Line tension at the unit, and what it makes of it.
struct Retarding {
  Figure T, B;
};

Retarding add_brake(const Contact& c, const Figure& v1, std::vector<CalculationStep>& steps) {
  const arrest::Instant& first = c.record.front();
  const Figure e = figure("e", "line paid out per metre of travel", "reeving",
                          c.at.pay_out + c.at.give_slope * first.unit_tension_N, 4, ""),
               k = figure("k", "share of the nominal magnetic tension", "corner", c.unit.share, 3, ""),
               p = figure("p", "force along the travel per newton at the unit", "reeving", c.at.pull, 4, ""),
               E = figure("E", "line out of the unit", "reeving", first.extension_m, 3, "m");
  steps.push_back(step("Line speed at the unit just after contact", figure("vl", "line speed", "", 0, 3, "m/s"),
                       "{v1} * {e}", {v1, e}, first.line_speed_m_per_s, notation));
  const Figure vl = steps.back().result, Tr = figure("Tr", "retraction at " + E.text() + " m of line out", "layout",
                                                     c.unit.law.retraction_N(first.extension_m), 1, "N");
  if (const auto* law = std::get_if<reeving::EddyLaw>(&c.unit.law.magnetic_N))
    steps.push_back(step("Line tension at the unit: retraction and eddy-current drag",
                         figure("T", "line tension", "", 0, 1, "N"),
                         "{Tr} + {k} * 2 * {F} * {vl} * {vc} / ({vl}^2 + {vc}^2)",
                         {Tr, k, vl, figure("F", "greatest drag", "layout", law->peak_N, 1, "N"),
                          figure("vc", "critical speed", "layout", law->critical_speed_m_per_s, 2, "m/s")},
                         first.unit_tension_N, "Wouterse, IEE Proc. B 138(4), 1991"));
  else
    steps.push_back(step("Line tension at the unit: retraction and drag", figure("T", "line tension", "", 0, 1, "N"),
                         "{Tr} + {k} * {M}",
                         {Tr, k,
                          figure("M", "drag at that line speed, from the table", "layout",
                                 c.unit.law.magnetic(first.line_speed_m_per_s), 1, "N")},
                         first.unit_tension_N, "layout's table"));
  const Figure T = steps.back().result;
  steps.push_back(step("Force that retards both trolleys", figure("B", "retarding force", "", 0, 1, "N"), "{p} * {T}",
                       {p, T}, first.line_force_N, notation));
  return {T, steps.back().result};
}

/// Just after contact: what moves both trolleys beside the brake.
struct JustAfter {
  Figure v1, z, h, a, mr, mt, S;
};

/// A lanyard that does not give carries what it takes to keep its length; what drives the rider round is put in.
std::pair<Figure, Figure> add_rigid_push(const Contact& c, const JustAfter& n, const Figure& w1,
                                         std::vector<CalculationStep>& steps) {
  const arrest::Bodies& b = c.bodies;
  const Figure l = figure("l", "wheel to the rider's centre of mass", "layout", b.hanging_m, 3, "m");
  const double air_m_per_s = c.record.front().speed_m_per_s +
                             b.hanging_m * c.motion.swing_rate_after_contact_rad_per_s * std::cos(c.motion.lean_rad) -
                             b.wind_m_per_s;
  steps.push_back(step("Drag of the rider just after contact, along the travel", figure("D", "drag", "", 0, 1, "N"),
                       air_m_per_s < 0 ? "{k} * ({v1} + {l} * {w1} * cos({a}) - {V})^2"
                                       : "(-{k}) * ({v1} + {l} * {w1} * cos({a}) - {V})^2",
                       {figure("k", "half the air's density times drag area", "layout", b.drag_kg_per_m, 4, "kg/m"),
                        n.v1, l, w1, n.a, figure("V", "wind toward the landing", "layout", b.wind_m_per_s, 2, "m/s")},
                       std::nullopt, notation));
  const Figure D = steps.back().result;
  steps.push_back(step("Push of the hanging rider on his trolley then, along the travel",
                       figure("P", "push", "", 0, 1, "N"),
                       "{mr} * ({l} * {w1}^2 * (sin({a}) - {z} * cos({a})) + (cos({a}) + {z} * sin({a})) * sin({a}) * "
                       "(9.80665 + {h} * {v1}^2))",
                       {n.mr, l, w1, n.a, n.z, n.h, n.v1}, std::nullopt, notation));
  return {D, steps.back().result};
}

Figure add_giving_push(const JustAfter& n, std::vector<CalculationStep>& steps) {
  steps.push_back(step(
      "Push of the hanging rider on his trolley then, along the travel: the lanyard's, less what "
      "the drive counts of his weight",
      figure("P", "push", "", 0, 1, "N"), "{S} * (sin({a}) - {z} * cos({a})) + {mr} * {z} * (9.80665 + {h} * {v1}^2)",
      {n.S, n.a, n.z, n.mr, n.h, n.v1}, std::nullopt, notation));
  return steps.back().result;
}

/// Of both trolleys together.
void add_deceleration(const Contact& c, const AfterImpact& after, const Retarding& retarding,
                      std::vector<CalculationStep>& steps) {
  const arrest::Instant& first = c.record.front();
  const arrest::Bodies& b = c.bodies;
  const JustAfter n{
      .v1 = after.v1,
      .z = figure("z", "slope of the path, dz/dx", "reeving", c.at.slope, 5, ""),
      .h = figure("h", "its curvature", "reeving", c.at.curvature, 6, "1/m"),
      .a = figure("a", "lean of the rider", "approach", c.motion.lean_rad * per_degree, 2, "deg"),
      .mr = figure("mr", "rider", "layout", b.rider_kg, 1, "kg"),
      .mt = figure("mt", "both trolleys", "layout", b.rider_trolley_kg + b.brake_trolley_kg, 2, "kg"),
      .S = figure("S", "lanyard", "history", first.lanyard_N, 1, "N"),
  };
  steps.push_back(
      step("Rolling resistance of both trolleys just after contact", figure("R", "rolling resistance", "", 0, 2, "N"),
           "{c} * ({mt} * (9.80665 + {h} * {v1}^2) - {u} * {T} * sqrt(1 + {z}^2) + {S} * ({z} * sin({a}) + cos({a})))",
           {figure("c", "rolling resistance over the load on the wheels", "corner", b.rolling, 4, ""), n.mt, n.h, n.v1,
            figure("u", "lift of the line's pull off the main line, per newton", "reeving", c.at.lift, 4, ""),
            retarding.T, n.z, n.S, n.a},
           std::nullopt, notation));
  const Figure R = steps.back().result;
  steps.push_back(step(
      "What the path's bend and the growing inertia take then", figure("C", "along the travel", "", 0, 1, "N"),
      "(({mt} + {mr}) * {z} * {h} + {i} / 2) * {v1}^2",
      {n.mt, n.mr, n.z, n.h,
       figure("i", "inertia of lines and rotor per metre of travel", "reeving", c.at.inertia_slope, 4, "kg/m"), n.v1},
      std::nullopt, notation));
  const Figure C = steps.back().result,
               Q = figure("Q", "drive of weight and main line there", "reeving", c.at.drive_N, 1, "N");
  const std::string title = "First deceleration: both trolleys together, just after contact";
  const Figure d = figure("d", "deceleration along the travel", "", 0, 2, "m/s2");
  if (after.w1) {
    const auto [D, P] = add_rigid_push(c, n, *after.w1, steps);
    steps.push_back(step(title, d,
                         "({B} + {R} + {C} - {Q} - {P} - {D} * (1 - cos({a}) * (cos({a}) + {z} * sin({a})))) / "
                         "({me} + {mB})",
                         {retarding.B, R, C, Q, P, D, n.a, n.z, after.meets, after.met}, -first.acceleration_m_per_s2,
                         notation));
  } else {
    const Figure P = add_giving_push(n, steps);
    steps.push_back(step(title, d, "({B} + {R} + {C} - {Q} - {P}) / ({me} + {mB})",
                         {retarding.B, R, C, Q, P, after.meets, after.met}, -first.acceleration_m_per_s2, notation));
  }
}

/// Line out where most of it is, from what the reeving says at that travel.
void add_extension(const Contact& c, const arrest::Track& track, std::vector<CalculationStep>& steps) {
  const arrest::Instant* most = &c.record.front();
  for (const arrest::Instant& instant : c.record)
    if (instant.extension_m > most->extension_m) most = &instant;
  const arrest::TrackPoint at = track.at(most->brake_travel_m);
  steps.push_back(
      step("Line out of the unit where it is most", figure("E", "line out", "", 0, 3, "m"), "{E0} + {e} * {T}",
           {figure("E0", "line out there, had the unit no tension", "reeving", at.extension_m, 3, "m"),
            figure("e", "of it, per newton of tension (sag and stretch)", "reeving", at.give_m_per_N, 6, "m/N"),
            figure("T", "line tension then", "history", most->unit_tension_N, 1, "N")},
           most->extension_m, notation));
}

/// Everything that came in and went until the swing has died out.
void add_energy(const Contact& c, const arrest::Track& track, std::vector<CalculationStep>& steps) {
  const arrest::Motion& m = c.motion;
  if (m.outcome != arrest::Outcome::stops) return;
  const bool dampers = c.bodies.bumper_N_per_m > 0 || c.bodies.lanyard_N_per_m > 0;
  steps.push_back(
      step("Energy from contact to the end of the record: what is left is the rider's swing",
           figure("R", "left", "", 0, 0, "J"), "({m1} + {mr}) * {v}^2 / 2 + {Q} - {W} - {B} - {F}",
           {figure("m1", "rider trolley", "layout", c.bodies.rider_trolley_kg, 2, "kg"),
            figure("mr", "rider", "layout", c.bodies.rider_kg, 1, "kg"),
            figure("v", "arrival speed", "corner", c.result.arrival_speed_m_per_s, 3, "m/s"),
            figure("Q", "work of weight and main line", "solver", -track.potential_J(m.end_travel_m), 1, "J"),
            figure("W", "lost in impacts", "solver", m.lost_at_contact_J, 1, "J"),
            figure("B", "taken by the brake unit", "solver", m.brake_work_J, 1, "J"),
            figure("F", dampers ? "taken by rolling, air and dampers" : "taken by rolling and air", "solver",
                   m.rolling_and_drag_J, 1, "J")},
           std::nullopt, "energy balance"));
  steps.push_back(step("Mean force of the line on the brake trolley over the stopping travel",
                       figure("Bm", "mean retarding force", "", 0, 0, "N"), "{B} / {x}",
                       {figure("B", "taken by the brake unit", "solver", m.brake_work_J, 1, "J"),
                        figure("x", "stopping travel", "solver", m.stop_travel_m, 3, "m")},
                       std::nullopt, "work over way"));
}

}  // namespace

void add_contact(const Rig& rig, int corner, std::vector<CalculationStep>& steps) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const arrest::CornerResult& result = rig.arrest.solved()->corners[static_cast<std::size_t>(corner)];
  const auto track = arrest::track_of(in, result.corner.path, *rig.reeving.inputs, *rig.reeving.solved());
  const auto record = arrest::history(in, *rig.approach.solved(), *rig.main_line.solved(), *rig.reeving.inputs,
                                      *rig.reeving.solved(), corner);
  if (!track || record.empty() || !result.motion) return;
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const auto state = static_cast<std::size_t>(main_line.paths[static_cast<std::size_t>(result.corner.path)].state);
  const Contact contact{result,
                        *result.motion,
                        arrest::bodies_of(in, result.corner, in.air_kg_per_m3[state]),
                        arrest::unit_of(in, result.corner),
                        track->at(0),
                        record};
  if (contact.bodies.bumper_N_per_m > 0) {
    add_bumper(contact, steps);
  } else {
    const AfterImpact after = add_impact(contact, steps);
    const Retarding retarding = add_brake(contact, after.v1, steps);
    add_deceleration(contact, after, retarding, steps);
  }
  add_extension(contact, *track, steps);
  add_energy(contact, *track, steps);
}

}  // namespace fairlead::calculating
