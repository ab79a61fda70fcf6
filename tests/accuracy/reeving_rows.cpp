// The braking line's known answers. The keys are those of tests/SOURCES.md, section reeving.
#include <limits>

#include "geometry/reeving/plane.hpp"
#include "tests/accuracy/accuracy.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::accuracy {
namespace {

using namespace reeving;

constexpr double unsolved = std::numeric_limits<double>::quiet_NaN(), degree = 3.14159265358979323846 / 180;

/// Length of a belt round discs of 1.6 and 0.5 m, 12 m apart.
double belt_m(int second_sense) {
  const Sheave a{{0, 0, 0}, {0, 1, 0}, 0.8, 1}, b{{12, 0, 0}, {0, 1, 0}, 0.25, second_sense};
  const Tension weightless{100, 0, 0};
  const auto there = meet(leaving(a), arriving(b), weightless), back = meet(leaving(b), arriving(a), weightless);
  if (!there || !back) return unsolved;
  return there->hang.length_m + back->hang.length_m +
         a.radius_m * wrap_angle(back->to_e, there->from_e, a.axle, a.sense) +
         b.radius_m * wrap_angle(there->to_e, back->from_e, b.axle, b.sense);
}

/// Load on a sheave over the tension, the parts `between_deg` apart.
double angle_factor(double between_deg) {
  const double a = between_deg * degree;
  const Vec3 k{0, 1, 0}, first{1, 0, 0}, second{std::cos(a), 0, std::sin(a)};
  Inputs in = worked_rig();
  in.lines = {{.from = {{}, on_trolley}, .sheaves = 1}};
  in.sheaves = {{{0, 0, 0}, k, 0.06, 1}};
  in.lines[0].to.at = Point3{} + 0.06 * cross(second, k) + 9 * second;
  Reeved line;
  if (!reeve(in, Point3{} - 0.06 * cross(first, k) + 7 * first, 1000, line)) return unsolved;
  return norm(line.legs[0].hang.to_pull_N() + line.legs[1].hang.from_pull_N()) / 1000;
}

Station worked_two_to_one() {
  const Inputs in = two_to_one_in_a_plane();
  const auto pose = solve_pose(in, in.sweeps[0], {{unknown_length, 1}, 800}, 0);
  Station none;
  none.pose.pull_on_trolley_N.x = none.pose.pay_out = unsolved;
  return pose ? *pose : none;
}

}  // namespace

std::vector<Row> reeving_rows() {
  std::vector<Row> rows;
  const auto add = [&](const char* quantity, const char* source, const char* expected, const char* unit, double ours) {
    rows.push_back({"reeving", quantity, source, expected, unit, ours});
  };
  const auto leg = hang_leg({100, 0, 0}, 5000, 30);
  add("leg by its end tension: sag", "R3.08.05, read", "7.941", "m", leg ? leg->sag_m() : unsolved);
  add("leg by its end tension: sag, more digits", "R3.08.05, own", "7.940537", "m", leg ? leg->sag_m() : unsolved);
  add("leg by its end tension: H of the taut root", "R3.08.05, own", "4761.784", "N",
      leg ? leg->horizontal_N() : unsolved);
  add("open belt", "BELT, read", "27.32", "m", belt_m(1));
  add("open belt, more digits", "BELT, own", "27.323885", "m", belt_m(1));
  add("crossed belt", "BELT, own", "27.390606", "m", belt_m(-1));
  add("sheave load factor, parts parallel", "AF, read", "2.00", "", angle_factor(0));
  add("sheave load factor, parts at 60 deg", "AF, read", "1.73", "", angle_factor(60));
  add("sheave load factor, parts at 90 deg", "AF, read", "1.41", "", angle_factor(90));
  add("sheave load factor, parts at 120 deg", "AF, read", "1.00", "", angle_factor(120));
  add("fleet angle of 38.188 to 1", "FA, own", "1.5000", "deg", fleet_angle({38.188, 1, 0}, {0, 1, 0}) / degree);
  const Pose two = worked_two_to_one().pose;
  add("2:1 with a floating block: pull at the trolley", "TWO, own", "399.475", "N", -two.pull_on_trolley_N.x);
  add("2:1 with a floating block: dE/dx", "TWO, own", "0.501242", "", two.pay_out);
  const std::vector<Point3> five{
      {11.5, 7, 1.1}, {18.5, 6.9, 1.03}, {4.5, 13, 1.02}, {25.5, 30, 1.03}, {11.5, 37.5, 1.02}};
  const auto plane = best_plane(five);
  add("best plane of five points: peak to valley", "PLANE, own", ".0720973", "m",
      plane ? plane->thickness_m : unsolved);
  return rows;
}

}  // namespace fairlead::accuracy
