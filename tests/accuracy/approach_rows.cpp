// The approach's known answers. The keys are those of tests/SOURCES.md, section arrest.
#include <fmt/format.h>

#include "tests/accuracy/accuracy.hpp"
#include "tests/arrest/ride.hpp"

namespace fairlead::accuracy {

std::vector<Row> approach_rows() {
  std::vector<Row> rows;
  const auto add = [&](std::string quantity, const char* source, const char* expected, double ours) {
    rows.push_back({"arrest", std::move(quantity), source, expected, "m/s", ours});
  };
  const struct {
    double mass_kg, x_m;
    const char* speed;
  } rides[] = {
      {15, 200, "16.250"}, {80, 200, "16.368"}, {150, 110, "14.953"}, {150, 180, "16.537"}, {150, 200, "16.470"}};
  for (const auto& r : rides)
    add(fmt::format("{} kg let go at 5 m, speed at {} m", r.mass_kg, r.x_m), "WL, own", r.speed,
        arrest::ride(mainline::path_of(mainline::worked_line(), r.mass_kg, r.x_m), arrest::let_go(r.mass_kg))
            .arrival_speed_m_per_s);
  add("80 kg let go on a slope of 3 degrees, speed after 200 m", "SLOPE, own", "8.488366",
      arrest::speed_down_a_slope());
  return rows;
}

}  // namespace fairlead::accuracy
