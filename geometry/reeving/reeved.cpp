#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "geometry/reeving/station.hpp"

namespace fairlead::reeving {
namespace {

Point3 carried(const Inputs& in, const Reeved& lines, Body body, Point3 drawn) {
  if (body < 0) return drawn - lines.counted_from;
  const auto b = body;
  return lines.blocks[b].move(drawn, in.blocks[b].drawn);
}

LegEnd end_of(const Inputs& in, const Reeved& lines, const End& end) {
  return point_end(end.body == on_trolley ? lines.attachment : carried(in, lines, end.body, end.at));
}

Unsolved no_leg(const Inputs& in, const Reeved& lines, int line, int leg) {
  const LegEnd from = from_end(in, lines, line, leg), to = to_end(in, lines, line, leg);
  const Tension& tension = lines.leg_tension[in.legs_before(line) + leg];
  const Vec3 apart = to.centre - from.centre;
  const std::string where =
      fmt::format("the leg{} from {} to {}", of_line(in, line), end_name(in, line, leg), end_name(in, line, leg + 1));
  const double across_circles = from.radius_m > 0 ? norm(cross(apart, from.axle)) : norm(cross(apart, to.axle));
  const double radius_m = std::max(from.radius_m, to.radius_m);
  if (radius_m > 0 && !(across_circles > radius_m))
    return {fmt::format("{} does not exist: its end lies {:.3f} m from the sheave's axle, within its radius", where,
                        across_circles),
            across_circles, 0};
  return {fmt::format("{} cannot hang at {:.4g} N at {}: it spans {:.3f} m at {:.3g} N/m", where, tension.at_N,
                      line == in.braking ? "the brake unit" : "the line's end", norm(apart), tension.weight_N_per_m),
          tension.at_N, 0};
}

}  // namespace

std::string block_name(int block) { return fmt::format("travelling block {}", block + 1); }

std::string end_name(const Inputs& in, int line, int end) {
  const Line& l = in.lines[line];
  const bool first = end == 0, last = end == l.sheaves + 1;
  if (first || last) {
    const Body body = first ? l.from.body : l.to.body;
    if (body == on_trolley) return "the brake trolley";
    if (body >= 0) return block_name(body);
    return last && line == in.braking ? "the brake unit" : "its anchor";
  }
  return fmt::format("sheave {} (counted from {})", end, end_name(in, line, 0));
}

std::string of_line(const Inputs& in, int line) {
  return in.lines.size() > 1 ? fmt::format(" of line {}", line + 1) : "";
}

Sheave placed(const Inputs& in, const Reeved& lines, int sheave) {
  Sheave s = in.sheaves[sheave];
  s.centre = carried(in, lines, s.body, s.centre);
  if (s.body >= 0) s.axle = lines.blocks[s.body].turn(s.axle);
  return s;
}

LegEnd from_end(const Inputs& in, const Reeved& lines, int line, int leg_of_line) {
  const Line& l = in.lines[line];
  return leg_of_line == 0 ? end_of(in, lines, l.from) : leaving(placed(in, lines, l.first_sheave + leg_of_line - 1));
}

LegEnd to_end(const Inputs& in, const Reeved& lines, int line, int leg_of_line) {
  const Line& l = in.lines[line];
  return leg_of_line == l.sheaves ? end_of(in, lines, l.to) : arriving(placed(in, lines, l.first_sheave + leg_of_line));
}

Body from_body(const Inputs& in, int line, int leg_of_line) {
  const Line& l = in.lines[line];
  return leg_of_line == 0 ? l.from.body : in.sheaves[l.first_sheave + leg_of_line - 1].body;
}

Body to_body(const Inputs& in, int line, int leg_of_line) {
  const Line& l = in.lines[line];
  return leg_of_line == l.sheaves ? l.to.body : in.sheaves[l.first_sheave + leg_of_line].body;
}

void load(Tension& tension, Vec3 load_N_per_m, Vec3 up) {
  tension.weight_N_per_m = norm(load_N_per_m);
  tension.up = tension.weight_N_per_m > 0 ? (-1 / tension.weight_N_per_m) * load_N_per_m : up;
}

Level level_of(const Inputs& in, const Reeved& lines, int line, int leg_of_line) {
  Level level;
  const Line& l = in.lines[line];
  if (lines.tension_ratio.empty()) return level;
  for (int k = leg_of_line; k < l.sheaves; ++k) {
    const double ratio = lines.tension_ratio[l.first_sheave + k];
    level.raised_N_per_m[k] = level.carried * (ratio - 1) * lines.tension[line].weight_N_per_m;
    level.carried *= ratio;
  }
  return level;
}

double wrap_tension_N(const Inputs& in, const Reeved& lines, int line, int sheave_of_line, Point3 centre) {
  const Tension* on = &lines.leg_tension[in.legs_before(line) + sheave_of_line];
  return ((*on)(centre) + (*(on + 1))(centre)) / 2;
}

namespace {

/// The tension of every leg, from that of the last.
void set_levels(const Inputs& in, int line, Reeved& lines) {
  const Line& l = in.lines[line];
  Tension* level = &lines.leg_tension[in.legs_before(line)];
  level[l.sheaves] = lines.tension[line];
  for (int k = l.sheaves - 1; k >= 0; --k) {
    level[k] = level[k + 1];
    if (lines.tension_ratio.empty()) continue;
    const int sheave = l.first_sheave + k;
    level[k].at_N += (lines.tension_ratio[sheave] - 1) * level[k + 1](placed(in, lines, sheave).centre);
  }
}

}  // namespace

tl::expected<void, Unsolved> hang_legs(const Inputs& in, int line, Reeved& lines, double share) {
  const auto l = line;
  const Line& given = in.lines[l];
  const std::size_t first = in.legs_before(l);
  const double c = given.compliance_per_N;
  if (!(lines.tension[l].at_N > 0))
    return unsolved(fmt::format("line {} would be slack", line + 1), lines.tension[l].at_N);
  set_levels(in, line, lines);
  double length_m = 0, unstretched_m = 0;
  for (int k = 0; k <= given.sheaves; ++k) {
    MetLeg& leg = lines.legs[first + k];
    LegEnd from = from_end(in, lines, line, k), to = to_end(in, lines, line, k);
    from.radius_m *= share;
    to.radius_m *= share;
    const auto met = meet(from, to, lines.leg_tension[first + k], leg.hang.length_m > 0 ? &leg : nullptr);
    if (!met) return tl::unexpected(no_leg(in, lines, line, k));
    leg = *met;
    length_m += leg.hang.length_m;
    unstretched_m += leg.hang.length_m * (1 - c * leg.hang.mid_tension_N);
    if (k == 0) continue;
    const int sheave = given.first_sheave + k - 1;
    double& wrap = lines.wrap_rad[sheave];
    wrap = 0;
    if (from.radius_m == 0) continue;
    wrap = wrap_angle(lines.legs[first + k - 1].to_e, leg.from_e, from.axle, in.sheaves[sheave].sense);
    if (wrap > greatest_wrap_rad) wrap -= 2 * std::numbers::pi;
    length_m += from.radius_m * wrap;
    unstretched_m += from.radius_m * wrap * (1 - c * wrap_tension_N(in, lines, line, k - 1, from.centre));
  }
  lines.length_m[l] = length_m;
  lines.unstretched_m[l] = unstretched_m;
  return {};
}

tl::expected<void, Unsolved> stays_on(const Inputs& in, int line, const Reeved& lines) {
  const Line& given = in.lines[line];
  for (int k = 1; k <= given.sheaves; ++k) {
    const int sheave = given.first_sheave + k - 1;
    if (in.sheaves[sheave].radius_m > 0) {
      const double wrap = lines.wrap_rad[sheave];
      // Contacts are met to 1e-12 rad: a line that only touches its sheave may seem to leave it by that.
      constexpr double met_rad = 1e-11;
      if (wrap >= -met_rad) continue;
      return unsolved(fmt::format("the line{} lifts off {}: it would have to turn by {:.1f} deg there",
                                  of_line(in, line), end_name(in, line, k), wrap * 180 / std::numbers::pi),
                      wrap);
    }
    const std::size_t leg = in.legs_before(line) + k;
    const double borne_N = dot(lines.legs[leg - 1].hang.to_pull_N() + lines.legs[leg].hang.from_pull_N(), in.up);
    if (!(borne_N > 0))
      return unsolved(fmt::format("wheel {} of {} lifts off line {}: it pushes up with {:.4g} N", k,
                                  block_name(in.sheaves[sheave].body), line + 1, -borne_N),
                      borne_N);
  }
  return {};
}

tl::expected<void, Unsolved> hang_line(const Inputs& in, int line, Reeved& lines) {
  lines.legs.resize(in.legs());
  lines.leg_tension.resize(in.legs());
  lines.wrap_rad.resize(in.sheaves.size());
  lines.length_m.resize(in.lines.size());
  lines.unstretched_m.resize(in.lines.size());
  if (auto hung = hang_legs(in, line, lines, 1); !hung) return hung;
  return stays_on(in, line, lines);
}

}  // namespace fairlead::reeving
