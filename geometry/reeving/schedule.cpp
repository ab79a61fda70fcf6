#include "geometry/reeving/schedule.hpp"

#include <fmt/format.h>

#include <limits>

#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {
namespace {

/// On the ground at both ends: it spans, and ties nothing to the trolley.
bool is_support(const Line& line) { return line.from.body == on_ground && line.to.body == on_ground; }

/// The same rig, every travelling block held where it rests: the lengths of the lines are what is then asked for.
Solved<Inputs> held_at_rest(const Inputs& in, const Station& rest) {
  Inputs held = in;
  std::size_t places = 0, lengths = 0;
  for (std::size_t b = 0; b < held.blocks.size(); ++b) {
    Block& block = held.blocks[b];
    if (!block.shifts()) continue;
    ++places;
    block.rest_m = dot(rest.lines.blocks[b].at - in.origin, in.along);
  }
  for (std::size_t l = 0; l < held.lines.size(); ++l) {
    Line& line = held.lines[l];
    if (is_support(line) || static_cast<int>(l) == in.braking) continue;
    ++lengths;
    line.closing = Closing::block_at_rest;
  }
  if (places != lengths)
    return unsolved(fmt::format("{} blocks do not tell the length of {} lines apart", places, lengths));
  return held;
}

}  // namespace

Solved<std::vector<std::vector<double>>> lengths_needed(const Inputs& in, const Station& rest,
                                                        double trolley_weight_N) {
  const auto held = held_at_rest(in, rest);
  if (!held) return tl::unexpected(held.error());
  std::vector<std::vector<double>> needed;
  for (const State& state : in.states) {
    const auto there = solve_rest(*held, state, trolley_weight_N);
    if (!there) return tl::unexpected(there.error());
    needed.push_back(there->lines.unstretched_m);
    for (std::size_t l = 0; l < in.lines.size(); ++l)
      if (is_support(in.lines[l])) needed.back()[l] = std::numeric_limits<double>::quiet_NaN();
  }
  return needed;
}

}  // namespace fairlead::reeving
