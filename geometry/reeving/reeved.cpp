#include "geometry/reeving/reeved.hpp"

#include <fmt/format.h>

#include <numbers>

namespace fairlead::reeving {
namespace {

std::string end_name(const Inputs& in, int end) {
  if (end == 0) return "the brake trolley";
  if (end > int(in.sheaves.size())) return "the brake unit";
  return fmt::format("sheave {} (counted from the brake trolley)", end);
}

Unsolved no_leg(const Inputs& in, int leg, Point3 attachment, const Tension& tension) {
  const LegEnd from = first_end(in, attachment, leg), to = second_end(in, leg);
  const Vec3 apart = to.centre - from.centre;
  const double across_circles = from.radius_m > 0 ? norm(cross(apart, from.axle)) : norm(cross(apart, to.axle));
  const std::string where = fmt::format("the leg from {} to {}", end_name(in, leg), end_name(in, leg + 1));
  if (!(across_circles > std::max(from.radius_m, to.radius_m)))
    return {fmt::format("{} does not exist: its end lies {:.3f} m from the sheave's axle, within its radius", where,
                        across_circles),
            across_circles, 0};
  return {fmt::format("{} cannot hang at {:.4g} N at the brake unit: it spans {:.3f} m at {:.3g} N/m", where,
                      tension.at_N, norm(apart), tension.weight_N_per_m),
          tension.at_N, 0};
}

}  // namespace

LegEnd first_end(const Inputs& in, Point3 attachment, int leg) {
  return leg == 0 ? point_end(attachment) : leaving(in.sheaves[leg - 1]);
}

LegEnd second_end(const Inputs& in, int leg) {
  return leg == int(in.sheaves.size()) ? point_end(in.outlet()) : arriving(in.sheaves[leg]);
}

tl::expected<void, Unsolved> reeve(const Inputs& in, Point3 attachment, double outlet_tension_N, Reeved& line) {
  const int sheaves = int(in.sheaves.size());
  const bool warm = !line.legs.empty();
  const Tension tension{outlet_tension_N, in.outlet().z, in.lines.front().weight_N_per_m};
  // Beyond the first sheave nothing but the tension matters.
  const bool beyond_holds = warm && line.tension == tension;
  line.legs.resize(sheaves + 1);
  line.legs_per_N.resize(sheaves + 1);
  line.wrap_rad.resize(sheaves);
  line.attachment = attachment;
  line.tension = tension;
  line.length_m = line.length_per_N = 0;
  double turned_before = 0;  // of the contact where the line leaves the sheave before, per newton
  for (int i = 0; i <= sheaves; ++i) {
    if (i == 0 || !beyond_holds) {
      const LegEnd from = first_end(in, attachment, i), to = second_end(in, i);
      const auto met = meet(from, to, line.tension, warm ? &line.legs[i] : nullptr);
      if (!met) {
        line.legs.clear();
        return tl::unexpected(no_leg(in, i, attachment, line.tension));
      }
      line.legs[i] = *met;
      line.legs_per_N[i] = vary(*met, from, to, {}, 1);
    }
    const MetLeg* leg = &line.legs[i];
    const MetLegChange& per_N = line.legs_per_N[i];
    line.length_m += leg->hang.length_m;
    line.length_per_N += per_N.length_m;
    if (i == 0) {
      line.pull_N = leg->hang.from_pull_N();
      line.pull_per_N = per_N.from_pull_N;
    } else {
      const Sheave& s = in.sheaves[i - 1];
      const double wrap = line.wrap_rad[i - 1] = wrap_angle(line.legs[i - 1].to_e, leg->from_e, s.axle, s.sense);
      if (!(wrap <= greatest_wrap_rad)) {
        line.legs.clear();
        return unsolved(fmt::format("the line lifts off {}: it would have to turn by {:.1f} deg there", end_name(in, i),
                                    (wrap - 2 * std::numbers::pi) * 180 / std::numbers::pi),
                        wrap);
      }
      line.length_m += s.radius_m * wrap;
      line.length_per_N += s.radius_m * s.sense * (per_N.from_turn_rad - turned_before);
    }
    turned_before = per_N.to_turn_rad;
  }
  return {};
}

ReevedChange move_attachment(const Inputs& in, const Reeved& line, Vec3 move) {
  const Sheave& first = in.sheaves.front();
  const MetLegChange change = vary(line.legs[0], point_end(line.attachment), arriving(first), move, 0);
  return {change.length_m - first.radius_m * first.sense * change.to_turn_rad, change.from_pull_N};
}

}  // namespace fairlead::reeving
