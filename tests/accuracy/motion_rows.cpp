// Known answers of the arrest from contact on. The keys are those of tests/SOURCES.md, section arrest.
#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "geometry/arrest/settle.hpp"
#include "tests/accuracy/accuracy.hpp"
#include "tests/arrest/riding.hpp"

namespace fairlead::accuracy {
namespace {

using namespace arrest;

constexpr double unsolved = std::numeric_limits<double>::quiet_NaN();

/// `of` a motion on a level line; NaN where it is not solved.
template <class Of>
double of_motion(const Bodies& b, const Unit& u, double travel_m, const Contact& contact, Of of) {
  std::vector<Instant> record;
  const auto m = solve_motion(level(travel_m, weight_N(b)), b, u, contact, &record);
  return m ? of(*m, record) : unsolved;
}

/// So heavy that the rider does not slow it, on a track that ends before it stands.
double swing_deg(double over_g) {
  const Bodies b{.rider_kg = 1, .rider_trolley_kg = 1e6, .brake_trolley_kg = 1e-6, .hanging_m = 1.3};
  return of_motion(b, steady(over_g * g * 1e6), 100, {.speed_m_per_s = 40},
                   [](const Motion& m, const auto&) { return m.swing_forward_rad.value / degree; });
}

double speed_after_contact(double lean_deg) {
  return of_motion(riding(150), no_brake(), 200,
                   {.speed_m_per_s = 10.28, .acceleration_m_per_s2 = -g * std::tan(lean_deg * degree)},
                   [](const Motion& m, const auto&) { return m.speed_after_contact_m_per_s; });
}

template <class Of>
double alone(double rider_kg, Of of) {
  return of_motion(riding(rider_kg), no_brake(), 200, {.speed_m_per_s = 10}, of);
}

/// Lanyard over three times the weight, from contact on, straight between samples.
double above_three_ms(double rider_kg) {
  return alone(rider_kg, [&](const Motion&, const std::vector<Instant>& record) {
    const auto over_N = [&](std::size_t i) { return record[i].lanyard_N - 3 * rider_kg * g; };
    std::size_t i = 0;
    while (i < record.size() && over_N(i) > 0) ++i;
    if (i == 0 || i == record.size()) return unsolved;
    return 1e3 * (record[i - 1].t_s + record_step_s * over_N(i - 1) / (over_N(i - 1) - over_N(i)));
  });
}

/// Where an empty trolley that is drawn back from 15 m comes to rest.
double drawn_back_to_m() {
  const double slope = -0.12, K = 1.09;
  const Bodies b{.brake_trolley_kg = 4, .hanging_m = 1, .rolling = 0.01};
  const auto track = Track::plain({.ratio = 2,
                                   .efficiency = 2 / (1 + K) * std::hypot(1, slope),
                                   .slope = slope,
                                   .travel_m = 15,
                                   .weight_N = 4 * g});
  return track ? settle(*track, b, unit(5, 3, reeving::EddyLaw{500, 10}), 14.999).latest_m : unsolved;
}

}  // namespace

std::vector<Row> motion_rows() {
  std::vector<Row> rows;
  const auto add = [&](std::string quantity, const char* source, const char* expected, const char* unit, double ours) {
    rows.push_back({"arrest", std::move(quantity), source, expected, unit, ours});
  };
  const Bodies lump{.rider_kg = 1e-6, .rider_trolley_kg = 100, .brake_trolley_kg = 1e-6, .hanging_m = 1.3};
  add("eddy law alone, 100 kg from 15 m/s: stop", "EDDY-STOP, own", "15.000", "m",
      of_motion(lump, unit(0, 0, reeving::EddyLaw{1000, 5}), 30, {.speed_m_per_s = 15},
                [](const Motion& m, const auto&) { return m.end_travel_m; }));
  add("sudden 0.5 g: swing", "LEAN, own", "53.130", "deg", swing_deg(0.5));
  add("sudden 0.41421 g: swing", "LEAN, own", "45.000", "deg", swing_deg(0.41421));
  add("contact leaning 6 deg: speed after", "CONTACT, own", "5.228", "m/s", speed_after_contact(6));
  add("contact upright: speed after", "CONTACT, own", "3.954", "m/s", speed_after_contact(0));
  const struct {
    double rider_kg;
    const char* swing;
  } swings[] = {{15, "56.6"}, {80, "27.3"}, {150, "20.2"}};
  for (const auto& s : swings)
    add(fmt::format("contact alone, {} kg: swing", s.rider_kg), "CONTACT, own", s.swing, "deg",
        alone(s.rider_kg, [](const Motion& m, const auto&) { return m.swing_forward_rad.value / degree; }));
  add("contact alone, 80 kg: lanyard over weight at once", "CONTACT, own", "3.970", "",
      alone(80, [](const Motion&, const std::vector<Instant>& r) { return r.front().lanyard_N / (80 * g); }));
  add("contact alone, 80 kg: greatest speed of the trolley", "CONTACT, own", "15.2", "m/s",
      alone(80, [](const Motion& m, const auto&) { return m.trolley_speed_m_per_s.value; }));
  add("contact alone, 80 kg: above 3 times the weight for", "LOAD, own", "24.0", "ms", above_three_ms(80));
  add("contact alone, 15 kg: above 3 times the weight for", "LOAD, own", "53.7", "ms", above_three_ms(15));
  add("2:1 that rubs, falling 0.12: drawn back to", "TWO, own", "3.7213", "m", drawn_back_to_m());
  return rows;
}

}  // namespace fairlead::accuracy
