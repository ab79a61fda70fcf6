// The main line's known answers. The keys are those of tests/SOURCES.md, section mainline.
#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "tests/accuracy/accuracy.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::accuracy {
namespace {

using namespace mainline;

class Rows {
 public:
  /// `ours` is called here; an unsolved case becomes NaN.
  template <class Ours>
  void add(std::string quantity, std::string source, std::string expected, std::string unit, Ours ours) {
    double value = std::numeric_limits<double>::quiet_NaN();
    try {
      value = ours();
    } catch (const tl::bad_expected_access<Unsolved>&) {
    }
    rows.push_back({"mainline", std::move(quantity), std::move(source), std::move(expected), std::move(unit), value});
  }
  std::vector<Row> rows;
};

constexpr double ft = 0.3048, lb = 0.45359237, lbf = lb * 9.80665, inch = ft / 12;

/// A line known by its bare sag, loaded where a piece of tape marked a horizontal distance while it hung bare.
struct Marked {
  Marked(Cable line, double sag_m, double mark_m, double weight_N) : cable(line) {
    cable.unstretched_m =
        length_from_sag(line.span_m, line.rise_m, line.weight_N_per_m, line.compliance_per_N, sag_m).value();
    const Shape bare = hang(cable).value();
    const LinePoint mark = line_at(cable, bare, mark_m);
    upstream_m = (bare.pieces[0].V_N + bare.pieces[0].H_N * mark.slope) / cable.weight_N_per_m;
    loaded = hang_clamped(cable, upstream_m, weight_N).value();
    down_m = mark.z_m - loaded.wheels[0].z_m;
    toward_start_m = mark_m - loaded.wheels[0].x_m;
  }
  double tension_N(bool at_start) const {
    const SupportForces f = support_forces(cable, loaded);
    return at_start ? std::hypot(f.start_x_N, f.start_z_N) : std::hypot(f.end_x_N, f.end_z_N);
  }
  Cable cable;
  Shape loaded;
  double upstream_m{}, down_m{}, toward_start_m{};
};

void point_load(Rows& rows) {
  const auto us = [] {
    const Cable line{1000 * ft, 0, 0, 3.16 * lbf / ft, 1 / (0.85 * inch * inch * 19e6 * lbf / (inch * inch))};
    return Marked(line, 100 * ft, 400 * ft, 8000 * lbf);
  };
  const std::string own = "T99, own digits";
  rows.add("point load, feet: unstretched to the load", own, "412.883803", "ft", [&] { return us().upstream_m / ft; });
  rows.add("point load, feet: unstretched beyond it", own, "613.042104", "ft",
           [&] { return (us().cable.unstretched_m - us().upstream_m) / ft; });
  rows.add("point load, feet: down", own, "18.456746", "ft", [&] { return us().down_m / ft; });
  rows.add("point load, feet: toward the near end", own, "2.819437", "ft", [&] { return us().toward_start_m / ft; });
  rows.add("point load, feet: H", own, "20107.1945", "lbf", [&] { return us().loaded.pieces[0].H_N / lbf; });
  rows.add("point load, feet: tension at the near end", own, "21116.7190", "lbf",
           [&] { return us().tension_N(true) / lbf; });
  rows.add("point load, feet: tension at the far end", own, "20670.0601", "lbf",
           [&] { return us().tension_N(false) / lbf; });

  const auto si = [] { return Marked({304.8, 0, 0, 46.12, 1 / (548.4e-6 * 131e9)}, 30.48, 121.92, 35586); };
  rows.add("point load, metres: unstretched to the load", own, "125.846982", "m", [&] { return si().upstream_m; });
  rows.add("point load, metres: unstretched beyond it", own, "186.855231", "m",
           [&] { return si().cable.unstretched_m - si().upstream_m; });
  rows.add("point load, metres: down", own, "5.625585", "m", [&] { return si().down_m; });
  rows.add("point load, metres: toward the near end", own, "0.859360", "m", [&] { return si().toward_start_m; });
  rows.add("point load, metres: H", own, "89442.876", "N", [&] { return si().loaded.pieces[0].H_N; });
  rows.add("point load, metres: published fall", "T99, from memory", "5.626", "m", [&] { return si().down_m; });
  rows.add("point load, metres: published shift", "T99, from memory", "0.859", "m",
           [&] { return si().toward_start_m; });
}

void bare_lines(Rows& rows) {
  const Cable heavy{325, 0, 325, 2844.23 * 9.81 * 2.2783e-4, 1 / (2.2783e-4 * 57e9)};
  const auto sag = [](const Cable& k) { return mid_span_sag(k, hang(k).value()); };
  rows.add("heavy elastic cable: sag", "SSNL114, read", "6.352", "m", [&] { return sag(heavy); });
  rows.add("heavy elastic cable: sag, more digits", "SSNL114, own", "6.352161", "m", [&] { return sag(heavy); });
  rows.add("heavy elastic cable: H", "SSNL114, own", "13206.239", "N",
           [&] { return hang(heavy).value().pieces[0].H_N; });

  const auto by_tension = [] {
    return Cable{100, 0, length_from_tension(100, 0, 30, 0, 5000, MeasuredAt::end).value(), 30, 0};
  };
  rows.add("known end tension: sag", "R3.08.05, read", "7.941", "m", [&] { return sag(by_tension()); });
  rows.add("known end tension: sag, more digits", "R3.08.05, own", "7.940537", "m", [&] { return sag(by_tension()); });
  rows.add("known end tension: H of the taut root", "R3.08.05, own", "4761.784", "N",
           [&] { return hang(by_tension()).value().pieces[0].H_N; });

  const Cable mooring{89.9, 59.2, 130, 881.05, 1 / 7.51e8};
  const auto ends = [&] { return support_forces(mooring, hang(mooring).value()); };
  rows.add("unequal heights: H", "MP, read", "31373.2349", "N", [&] { return ends().start_x_N; });
  rows.add("unequal heights: V at the lower end", "MP, read", "-26650.3387", "N", [&] { return ends().start_z_N; });
  rows.add("unequal heights: V at the upper end", "MP, read", "-87886.1613", "N", [&] { return ends().end_z_N; });

  rows.add("lowest point outside the span: H over w", "LOW, read, own digits", "61.917293", "m", [] {
    return hang({20, 5, 20.7, 1, 0}).value().pieces[0].H_N;
  });
  rows.add("two level spans of 105 m each over a free sheave: sag", "SSNL100, own", "13.939193", "m", [&] {
    return sag({100, 0, 105, 30, 1 / 5e7});
  });
}

struct Ride {
  double mass_kg, x_m;
  const char *slope, *tan_tau, *naive_force, *force, *naive_speed, *speed;
};
constexpr Ride rides[] = {{15, 200, "0.00358", "0.00092", "-0.53", "-0.14", "16.281", "16.250"},
                          {80, 200, "0.02116", "0.01079", "-16.6", "-8.5", "16.498", "16.368"},
                          {150, 110, "-0.06334", "-0.06345", "93.2", "93.3", "15.403", "14.953"},
                          {150, 180, "0.00074", "-0.00592", "-1.1", "8.7", "16.844", "16.537"},
                          {150, 200, "0.03326", "0.01864", "-48.9", "-27.4", "16.662", "16.470"}};

void rides_down_the_worked_line(Rows& rows) {
  const Cable line = worked_line();
  rows.add("worked line: unstretched", "WL, own", "220.351770", "m", [&] { return line.unstretched_m; });
  for (const Ride& ride : rides) {
    const Path path = path_of(line, ride.mass_kg);
    const double x = ride.x_m, weight_N = path.weight_N();
    const auto add = [&](const char* what, const char* expected, const char* unit, auto ours) {
      rows.add(fmt::format("{} kg at {} m: {}", ride.mass_kg, x, what), "WL, own", expected, unit, ours);
    };
    const auto speed = [&](double energy_J) { return std::sqrt(2 * energy_J * standard_gravity / weight_N); };
    add("slope of the path", ride.slope, "", [&] { return path.slope(x); });
    add("tan tau", ride.tan_tau, "", [&] { return std::tan(path.tau_rad(x)); });
    add("weight times the path's slope", ride.naive_force, "N", [&] { return -weight_N * path.slope(x); });
    add("driving force", ride.force, "N", [&] { return path.drive_force_N(x); });
    add("speed as on a rigid track", ride.naive_speed, "m/s",
        [&] { return speed(weight_N * (path.height_m(5) - path.height_m(x))); });
    add("speed", ride.speed, "m/s", [&] { return speed(path.potential_J(5) - path.potential_J(x)); });
  }
}

void rest_on_the_worked_line(Rows& rows) {
  const Cable line = worked_line();
  const struct {
    double mass_kg;
    const char *lowest, *rest, *drop_mm, *share;
  } riders[] = {{15, "195.8", "198.8", "38", "0.29"},
                {80, "184.2", "189.9", "30", "0.23"},
                {150, "179.4", "185.5", "24", "0.18"}};
  for (const auto& rider : riders) {
    const auto add = [&](const char* what, const char* expected, const char* unit, auto ours) {
      rows.add(fmt::format("{} kg: {}", rider.mass_kg, what), "WL, own", expected, unit, ours);
    };
    const Path path = path_of(line, rider.mass_kg);
    add("lowest point of the path", rider.lowest, "m", [&] {
      double from = 150, to = 210;
      while (to - from > 1e-9) (path.slope((from + to) / 2) < 0 ? from : to) = (from + to) / 2;
      return to;
    });
    add("where it comes to rest", rider.rest, "m", [&] { return path.rest_points_m().at(0); });
    // Had the track been switched at contact from the rider's to that of rider and brake trolley.
    const auto drop_m = [&] {
      return wheel_at(line, rider.mass_kg, 200).z_m - wheel_at(line, rider.mass_kg + 4, 200).z_m;
    };
    add("fall from switching tracks at 200 m with a trolley of 4 kg", rider.drop_mm, "mm",
        [&] { return 1e3 * drop_m(); });
    add("that fall in the kinetic energy at 16 m per s", rider.share, "%",
        [&] { return 100 * standard_gravity * drop_m() / (16.0 * 16.0 / 2); });
  }
  const Path heavy = path_of(line, 150);
  rows.add("150 kg from 195 m to 212.5 m: weight times the climb", "WL, own", "1117", "J",
           [&] { return heavy.weight_N() * (heavy.height_m(212.5) - heavy.height_m(195)); });
  rows.add("150 kg from 195 m to 212.5 m: energy", "WL, own", "646", "J",
           [&] { return heavy.potential_J(212.5) - heavy.potential_J(195); });
  // A coasting load is carried square to the bisector: the line sees m g cos2(tau) of it. 60 m is where the line
  // yields 1.9 m under 150 kg; the source does not say where it looked.
  const auto lower = [&](double share) { return wheel_at(line, 150 * share, 60).z_m; };
  rows.add("150 kg at 60 m: below the bare line", "WL, own", "1.9", "m",
           [&] { return line_at(line, hang(line).value(), 60).z_m - lower(1); });
  rows.add("150 kg at 60 m: coasting above held", "WL, own", "14", "mm",
           [&] { return 1e3 * (lower(std::pow(std::cos(wheel_at(line, 150, 60).tau_rad), 2)) - lower(1)); });
  rows.add("16 m per s against the speed of waves, squared", "WL, own", "1.8", "%",
           [&] { return 100 * 16.0 * 16.0 * 1.05 / hang(line).value().pieces[0].H_N; });
}

void flatter_line(Rows& rows) {
  const Cable line = line_hung_at_15_kN(-11);
  const auto add = [&](double x, const char* what, const char* expected, auto ours) {
    rows.add(fmt::format("falling 11 m, 120 kg and a trolley of 2.5 kg at {} m: {}", x, what), "WL, own", expected, "",
             ours);
  };
  const Path path = path_of(line, 122.5);
  const struct {
    double x_m;
    const char *tan_tau, *slope;
  } places[] = {{188, "0.0148", "0.0228"}, {195, "0.0229", "0.0336"}, {203, "0.0336", nullptr}};
  for (const auto& place : places) {
    add(place.x_m, "slope of the bisector", place.tan_tau, [&] { return std::tan(path.tau_rad(place.x_m)); });
    if (place.slope) add(place.x_m, "slope of the path", place.slope, [&] { return path.slope(place.x_m); });
  }
}

}  // namespace

std::vector<Row> mainline_rows() {
  Rows rows;
  point_load(rows);
  bare_lines(rows);
  rides_down_the_worked_line(rows);
  rest_on_the_worked_line(rows);
  flatter_line(rows);
  return rows.rows;
}

}  // namespace fairlead::accuracy
