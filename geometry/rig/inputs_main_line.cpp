#include <fmt/format.h>
#include <algorithm>

#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// Metal area over diameter squared, and the modulus of the rope as a whole with its spread. From memory of
/// rope makers' general tables, not read; meant for a first estimate, and said so wherever it is used.
struct ConstructionStiffness {
  RopeConstruction construction;
  const char* name;
  double area_per_d2, modulus_low_Pa, modulus_high_Pa;
};
constexpr ConstructionStiffness constructions[] = {
    {RopeConstruction::strand_1x7, "1x7 strand", 0.61, 150e9, 175e9},
    {RopeConstruction::strand_1x19, "1x19 strand", 0.60, 125e9, 150e9},
    {RopeConstruction::rope_6x19_iwrc, "6x19 IWRC", 0.42, 85e9, 115e9},
    {RopeConstruction::rope_6x36_iwrc, "6x36 IWRC", 0.42, 80e9, 110e9},
    {RopeConstruction::rope_7x19, "7x19", 0.40, 75e9, 105e9},
};

}  // namespace

Range stiffness_N(const std::string& name, const std::optional<Range>& ea_N,
                  const std::optional<Given<RopeConstruction>>& construction, double diameter_m,
                  std::vector<std::string>& assumptions) {
  if (ea_N) return *ea_N;
  const ConstructionStiffness& c =
      *std::find_if(std::begin(constructions), std::end(constructions),
                    [&](const ConstructionStiffness& known) { return known.construction == construction->value; });
  const double area_m2 = c.area_per_d2 * diameter_m * diameter_m;
  const Range ea{area_m2 * c.modulus_low_Pa, area_m2 * c.modulus_high_Pa};
  assumptions.push_back(
      fmt::format("{}: EA {:.2f} to {:.2f} MN estimated from construction {} and diameter (figures from memory)", name,
                  ea.low / 1e6, ea.high / 1e6, c.name));
  return ea;
}

mainline::MeasuredAt measured_at(TensionAt at) {
  switch (at) {
    case TensionAt::start:
      return mainline::MeasuredAt::start;
    case TensionAt::end:
      return mainline::MeasuredAt::end;
    case TensionAt::horizontal:
      return mainline::MeasuredAt::horizontal;
  }
  return mainline::MeasuredAt::horizontal;
}

Frame frame_of(const Layout& layout) {
  const Point3 start = layout.anchors[static_cast<std::size_t>(layout.main_line.from)].position;
  const Point3 end = layout.anchors[static_cast<std::size_t>(layout.main_line.to)].position;
  Frame frame;
  frame.origin = start;
  const Vec3 plan{end.x - start.x, end.y - start.y, 0};
  frame.span_m = norm(plan);
  frame.rise_m = end.z - start.z;
  frame.along = unit(plan);
  frame.across = cross(frame.up, frame.along);
  if (layout.site.chainage_zero)
    frame.chainage_of_origin_m = dot(start - layout.site.chainage_zero->value, frame.along);
  return frame;
}

Solved<mainline::Inputs> main_line_inputs(const Layout& layout, const Frame& frame,
                                          std::vector<std::string>& assumptions) {
  const MainLine& line = layout.main_line;
  mainline::Inputs in;
  in.span_m = frame.span_m;
  in.rise_m = frame.rise_m;
  in.mass_kg_per_m = line.mass_kg_per_m;
  const Range ea = stiffness_N("main_line", line.ea_N ? std::optional(line.ea_N->value) : std::nullopt,
                               line.construction, line.diameter_m, assumptions);
  in.compliance_per_N = {1 / ea.high, 1 / ea.low};
  in.expansion_per_K = line.expansion_per_K;
  const auto known = [&](mainline::Inputs::Known what, const Range& measure) {
    in.known = what;
    in.measure = {measure.low, measure.high};
  };
  if (line.unstretched_length_m) known(mainline::Inputs::Known::unstretched_length, *line.unstretched_length_m);
  if (line.sag_m) known(mainline::Inputs::Known::sag, *line.sag_m);
  if (line.tension_N) known(mainline::Inputs::Known::tension, *line.tension_N);
  in.measured_at = measured_at(line.tension_at);
  in.measured_K = line.at_temperature_K;
  in.coldest_K = layout.site.coldest_K;
  in.warmest_K = layout.site.warmest_K;
  in.empty_kg = layout.brake_trolley.mass_kg;
  const double trolleys_kg = layout.brake_trolley.mass_kg + layout.riders.trolley_mass_kg;
  in.lightest_kg = layout.riders.mass_kg.value.low + trolleys_kg;
  in.heaviest_kg = layout.riders.mass_kg.value.high + trolleys_kg;
  const double full_travel_m = layout.brake_trolley.rest_m - frame.chainage_of_origin_m + layout.brake_trolley.travel_m;
  if (!(full_travel_m < frame.span_m))
    return unsolved(fmt::format("the planned travel ends {:.3f} m beyond the main line's landing support",
                                full_travel_m - frame.span_m));
  in.path_from_m = 0.01 * frame.span_m;
  in.path_to_m = std::max(0.99 * frame.span_m, full_travel_m);
  return in;
}

}  // namespace fairlead
