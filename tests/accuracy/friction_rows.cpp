// Known answers of sheaves that rub and of one that hangs free. The keys are those of tests/SOURCES.md, section
// reeving.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "tests/accuracy/accuracy.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::accuracy {
namespace {

using namespace reeving;

constexpr double unsolved = std::numeric_limits<double>::quiet_NaN(), K = 1.09;

/// With every sheave rubbing.
std::optional<Station> rubbed(const Inputs& in, const Outlet& outlet, double friction, Friction way, double travel_m) {
  SweepInputs sweep = in.sweeps[0];
  sweep.friction = way;
  auto pose = solve_pose(in, sweep, rubbing(in, sweep, outlet, friction), travel_m);
  return pose ? std::optional(std::move(*pose)) : std::nullopt;
}

double pull_along_N(Friction way) {
  const Inputs in = two_to_one_in_a_plane();
  const auto s = rubbed(in, {{unknown_length, 1}, 800}, K, way, 0);
  return s ? -s->pose.pull_on_trolley_N.x : unsolved;
}

double couple_N_m() {
  const Inputs in = two_to_one_in_a_plane();
  const auto s = rubbed(in, {{unknown_length, 1}, 800}, K, Friction::paying_out, 0);
  return s ? norm(s->held_couple_N_m[0]) : unsolved;
}

/// The trolley's line over the unit's, four parts handing over to each other; so long that they are level and parallel.
double lead_line(Friction way) {
  const Inputs in = level_parts(4, 1e5);
  const auto s = rubbed(in, outlet_of(in, 0), K, way, 15);
  return s ? s->pose.trolley_tension_N / s->pose.outlet_tension_N : unsolved;
}

/// What the first parts of a block pull with together, over the trolley's line.
std::array<double, 4> sums_of_parts(double friction) {
  const Inputs in = level_parts(4, 1e5);
  const auto s = rubbed(in, outlet_of(in, 0), friction, Friction::paying_out, 15);
  std::array<double, 4> sums;
  double sum = 0;
  for (std::size_t part = 0; part < sums.size(); ++part)
    sums[part] = sum += s ? s->lines.legs[part + 1].hang.mid_tension_N / s->pose.trolley_tension_N : unsolved;
  return sums;
}

/// Its centre; the ratio is that of the trolley's side over the other.
Point3 hanging_centre(double ratio) {
  const Inputs in = free_redirect_in_a_plane();
  SweepInputs sweep = in.sweeps[0];
  sweep.friction = ratio < 1 ? Friction::returning : Friction::paying_out;
  const auto s = solve_pose(in, sweep, {{1}, 1000, {ratio}}, 0);
  return s ? placed(in, s->lines, 0).centre : Point3{unsolved, unsolved, unsolved};
}

}  // namespace

std::vector<Row> friction_rows() {
  std::vector<Row> rows;
  const auto add = [&](std::string quantity, const char* source, const char* expected, const char* unit, double ours) {
    rows.push_back({"reeving", std::move(quantity), source, expected, unit, ours});
  };
  add("2:1 that rubs, pulled out: pull at the trolley", "TWO, own", "416.643", "N", pull_along_N(Friction::paying_out));
  add("2:1 that rubs, coming back: pull at the trolley", "TWO, own", "382.303", "N", pull_along_N(Friction::returning));
  add("2:1 that rubs, pulled out: couple on the block", "TWO, own", "1.7202", "N m", couple_N_m());
  const double out = lead_line(Friction::paying_out);
  add("lead line of four parts", "LEAD, second-hand", "0.309", "", out);
  add("lead line of four parts, more digits", "LEAD, own", "0.308669", "", out);
  add("lead line of four parts over two more sheaves", "LEAD, second-hand", "0.367", "", out * K * K);
  add("lead line of four parts, coming back", "LEAD, own", "0.200613", "", lead_line(Friction::returning));
  const struct {
    double friction;
    const char* name;
    std::array<const char*, 4> sums;
  } tables[] = {{1.02, "1.02", {"0.98", "1.94", "2.88", "3.81"}}, {1.045, "1.045", {"0.96", "1.87", "2.75", "3.59"}}};
  for (const auto& table : tables) {
    const std::array<double, 4> ours = sums_of_parts(table.friction);
    for (std::size_t part = 0; part < ours.size(); ++part)
      add(fmt::format("parts of a block, K {}: first {}", table.name, part + 1), "RATIO, read", table.sums[part], "",
          ours[part]);
  }
  const struct {
    double ratio;
    const char *way, *along, *up;
  } places[] = {{1, "without friction", "0.06926", "-0.39396"},
                {K, "pulled out", "0.10656", "-0.38555"},
                {1 / K, "coming back", "0.03168", "-0.39874"}};
  for (const auto& place : places) {
    const Point3 centre = hanging_centre(place.ratio);
    add(fmt::format("sheave that hangs free, {}: along", place.way), "HANGS, own", place.along, "m", centre.x);
    add(fmt::format("sheave that hangs free, {}: up", place.way), "HANGS, own", place.up, "m", centre.z);
  }
  return rows;
}

}  // namespace fairlead::accuracy
