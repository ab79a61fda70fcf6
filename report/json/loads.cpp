#include "report/json/stages.hpp"

namespace fairlead::json {
namespace {

std::string_view word_for(loads::Action action) {
  switch (action) {
    case loads::Action::at_rest:
      return "at rest";
    case loads::Action::wind:
      return "wind";
    case loads::Action::peak_tension:
      return "peak line tension";
    case loads::Action::rider_on_span:
      return "rider on span";
  }
  return "unknown";
}

void write_inputs(Writer& out, const Rig& rig) {
  if (!rig.loads.inputs) return out.null("inputs");
  const loads::Inputs& in = *rig.loads.inputs;
  const auto id = [&](int anchor) {
    return std::string_view(rig.layout.anchors.at(static_cast<std::size_t>(anchor)).id.value);
  };
  out.object("inputs", [&] {
    int i = 0;
    out.objects("anchors", in.anchors, [&](Point3 position) {
      out.text("id", id(i++));
      out.vector("position_m", position);
    });
    out.column("sheave_anchors", in.sheave_anchor, id);
    out.text("unit_anchor", id(in.unit_anchor));
    out.text("start_anchor", id(in.start_anchor));
    out.text("end_anchor", id(in.end_anchor));
    out.number("unit_weight_N", in.unit_weight_N);
  });
}

void write_case(Writer& out, const loads::LoadCase& load_case) {
  out.text("name", load_case.name);
  out.text("action", word_for(load_case.action));
  out.count("sweep", load_case.sweep);
  out.count("pose", load_case.pose);
  out.number("travel_m", load_case.travel_m);
  out.column("on_anchor_N", load_case.on_anchor_N, [](Vec3 force) { return force; });
  out.vector("out_of_balance_N", load_case.out_of_balance_N, residual_digits);
  out.vector("out_of_balance_N_m", load_case.out_of_balance_N_m, residual_digits);
  out.number("largest_N", load_case.largest_N);
}

}  // namespace

void write_loads(Writer& out, const Rig& rig) {
  static const loads::Loads nothing;
  const loads::Loads* solved = rig.loads.solved();
  const loads::Loads& loads = solved ? *solved : nothing;
  out.object("loads", [&] {
    write_unsolved(out, *rig.loads.result);
    write_inputs(out, rig);
    solved ? out.number("worst_force_residual", loads.worst_force_residual, residual_digits)
           : out.null("worst_force_residual");
    solved ? out.number("worst_moment_residual", loads.worst_moment_residual, residual_digits)
           : out.null("worst_moment_residual");
    out.objects("cases", loads.cases, [&](const loads::LoadCase& load_case) { write_case(out, load_case); });
    std::size_t i = 0;
    out.objects("demands", loads.demands, [&](const loads::Demand& demand) {
      out.text("anchor", rig.layout.anchors.at(i++).id.value);
      out.number("force_N", demand.force_N.value);
      out.number("bound_N", demand.force_N.bound);
      out.count("case", demand.force_N.pose);
    });
  });
}

}  // namespace fairlead::json
