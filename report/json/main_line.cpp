#include "report/json/stages.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

using mainline::Inputs;
using mainline::Path;

std::string_view word_for(mainline::MeasuredAt at) {
  switch (at) {
    case mainline::MeasuredAt::start:
      return "start";
    case mainline::MeasuredAt::end:
      return "end";
    case mainline::MeasuredAt::horizontal:
      return "horizontal";
  }
  return "unknown";
}

void write_inputs(Writer& out, const Solved<Inputs>& inputs) {
  if (!inputs) return out.null("inputs");
  const Inputs& in = *inputs;
  const auto measure = [&](std::string_view key, Inputs::Known known) {
    in.known == known ? write_span(out, key, in.measure) : out.null(key);
  };
  out.object("inputs", [&] {
    out.number("span_m", in.span_m);
    out.number("rise_m", in.rise_m);
    out.number("mass_kg_per_m", in.mass_kg_per_m);
    write_span(out, "compliance_per_N", in.compliance_per_N);
    out.number("expansion_per_K", in.expansion_per_K);
    measure("unstretched_length_m", Inputs::Known::unstretched_length);
    measure("sag_m", Inputs::Known::sag);
    measure("tension_N", Inputs::Known::tension);
    out.text("tension_measured_at", word_for(in.measured_at));
    out.number("measured_K", in.measured_K);
    out.number("coldest_K", in.coldest_K);
    out.number("warmest_K", in.warmest_K);
    out.number("empty_kg", in.empty_kg);
    out.number("lightest_kg", in.lightest_kg);
    out.number("heaviest_kg", in.heaviest_kg);
  });
}

void write_state(Writer& out, const mainline::State& state) {
  out.text("weather", words::word_for(state.weather));
  out.flag("stiffest", state.stiff);
  out.flag("tightest", state.taut);
  out.number("temperature_K", state.temperature_K);
  write_cable(out, "cable", state.cable);
  out.number("H_N", state.bare.pieces[0].H_N);
  out.number("V_start_N", state.bare.pieces[0].V_N);
  out.number("start_tension_N", state.start_tension_N);
  out.number("end_tension_N", state.end_tension_N);
  out.number("sag_m", state.sag_m);
}

void write_path(Writer& out, const mainline::StatePath& path) {
  const auto& knots = path.path.knots();
  const auto column = [&](std::string_view key, double Path::Knot::*member) {
    out.column(key, knots, [member](const Path::Knot& knot) { return knot.*member; });
  };
  out.count("state", path.state);
  out.text("loading", words::word_for(path.loading));
  out.number("weight_N", path.path.weight_N());
  out.column("rest_points_m", path.rest_points_m, [](double x_m) { return x_m; });
  out.object("knots", [&] {
    column("x_m", &Path::Knot::x_m);
    column("z_m", &Path::Knot::z_m);
    column("slope", &Path::Knot::slope);
    column("curvature_per_m", &Path::Knot::curvature);
    column("tau_rad", &Path::Knot::tau_rad);
    column("potential_J", &Path::Knot::potential_J);
    column("H_N", &Path::Knot::H_N);
    out.column("drive_force_N", knots, [&](const Path::Knot& knot) { return path.path.drive_force_N(knot.x_m); });
  });
}

}  // namespace

void write_span(Writer& out, std::string_view key, const mainline::Span& span) {
  const double ends[] = {span.low, span.high};
  out.column(key, ends, [](double end) { return end; });
}

void write_cable(Writer& out, std::string_view key, const mainline::Cable& cable) {
  out.object(key, [&] {
    out.number("span_m", cable.span_m);
    out.number("rise_m", cable.rise_m);
    out.number("unstretched_m", cable.unstretched_m);
    out.number("weight_N_per_m", cable.weight_N_per_m);
    out.number("compliance_per_N", cable.compliance_per_N);
  });
}

void write_main_line(Writer& out, const Rig& rig) {
  static const mainline::MainLine nothing;
  const mainline::MainLine* solved = rig.main_line.solved();
  const mainline::MainLine& main_line = solved ? *solved : nothing;
  out.object("main_line", [&] {
    write_unsolved(out, *rig.main_line.result);
    write_inputs(out, rig.main_line.inputs);
    out.objects("states", main_line.states, [&](const mainline::State& state) { write_state(out, state); });
    out.objects("paths", main_line.paths, [&](const mainline::StatePath& path) { write_path(out, path); });
  });
}

}  // namespace fairlead::json
