#include <fmt/format.h>
#include <cmath>

#include "geometry/rig/inputs.hpp"

namespace fairlead {

Solved<mainline::Cable> hung_cable(const Layout& layout, const HungCable<Real>& line, double compliance_per_N) {
  const Point3 from = layout.anchors[static_cast<std::size_t>(line.from)].position;
  const Point3 to = layout.anchors[static_cast<std::size_t>(line.to)].position;
  mainline::Cable cable;
  cable.span_m = std::hypot(to.x - from.x, to.y - from.y);
  cable.rise_m = to.z - from.z;
  cable.weight_N_per_m = line.mass_kg_per_m * standard_gravity;
  cable.compliance_per_N = compliance_per_N;
  Solved<double> unstretched_m = unsolved("not measured");
  if (line.unstretched_length_m)
    unstretched_m = line.unstretched_length_m->value;
  else if (line.sag_m)
    unstretched_m = mainline::length_from_sag(cable.span_m, cable.rise_m, cable.weight_N_per_m, cable.compliance_per_N,
                                              *line.sag_m);
  else if (line.tension_N)
    unstretched_m =
        mainline::length_from_tension(cable.span_m, cable.rise_m, cable.weight_N_per_m, cable.compliance_per_N,
                                      *line.tension_N, measured_at(line.tension_at));
  if (!unstretched_m) return tl::unexpected(unstretched_m.error());
  cable.unstretched_m = *unstretched_m;
  return cable;
}

Solved<mainline::Cable> support_cable(const Layout& layout, const SupportLine& line,
                                      std::vector<std::string>& assumptions) {
  // The softest it can be: the block then hangs lowest.
  const auto given = line.ea_N ? std::optional(Range{*line.ea_N, *line.ea_N}) : std::nullopt;
  const std::string name = fmt::format("support_line.{}", line.id.value);
  const double ea_N = stiffness_N(name, given, line.construction, line.diameter_m, assumptions).low;
  auto cable = hung_cable(layout, line, 1 / ea_N);
  if (!cable)
    return unsolved(fmt::format("support line \"{}\": {}", line.id.value, cable.error().why), cable.error().residual,
                    cable.error().iterations);
  return cable;
}

}  // namespace fairlead
