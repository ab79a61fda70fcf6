#include "geometry/studies/placement.hpp"

namespace fairlead {

std::array<std::optional<double>, 3> Placement::allowed_m(std::size_t point) const {
  std::array<std::optional<double>, 3> allowed;
  for (std::size_t v = 0; box && v < axes.size(); ++v)
    if (axes[v].point == point) allowed[static_cast<std::size_t>(axes[v].axis)] = box->amount[v];
  return allowed;
}

Placement placement(const Judged& design, bool with_windows, const Work& work) {
  Placement out;
  out.points = set_out_points(design.rig);
  out.axes = point_axes(out.points);
  const std::vector<Variable> variables = variables_of(out.points, out.axes, design.rig.frame);
  const HeldFindings held(design, work);
  if (with_windows) {
    out.windows = windows(held, variables, {}, work);
    for (const Finding& finding : design.findings)
      if (finding.verdict != Verdict::pass) out.windows->unwatched.push_back(finding);
  }
  out.box = tolerance_box(design, held, variables, {}, work);
  return out;
}

}  // namespace fairlead
