#include "report/json/stages.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

void write_blown(Writer& out, std::string_view key, const loads::Blown& blown) {
  out.object(key, [&] {
    write_cable(out, "cable", blown.cable);
    out.vector("wind_N_per_m", blown.wind_N_per_m);
  });
}

/// What acts on the anchors beside the passages.
void write_beside(Writer& out, const Rig& rig, const loads::Inputs& in) {
  const auto id = [&](int anchor) -> std::string_view {
    return rig.layout.anchors.at(static_cast<std::size_t>(anchor)).id.value;
  };
  const auto back = [&](std::string_view key, int anchor) {
    anchor == loads::no_anchor ? out.null(key) : out.text(key, id(anchor));
  };
  back("start_back_anchor", in.start_back_anchor);
  back("end_back_anchor", in.end_back_anchor);
  out.number("saddle_friction", in.saddle_friction);
  out.number("rescuer_weight_N", in.rescuer_N);
  if (in.backup.anchor == loads::no_anchor) {
    out.null("backup_brake");
  } else {
    out.object("backup_brake", [&] {
      out.text("anchor", id(in.backup.anchor));
      out.number("force_N", in.backup.force_N);
      out.number("engages_m", in.backup.engages_m);
    });
  }
  out.objects("parallel_lines", in.beside, [&](const loads::Beside& line) {
    out.text("from_anchor", id(line.from));
    out.text("to_anchor", id(line.to));
    out.number("rider_weight_N", line.rider_N);
    out.objects("in_state", line.in_state, [&](const mainline::Cable& cable) { write_cable(out, "cable", cable); });
  });
  out.objects("weather", in.weather, [&](const loads::Weather& weather) {
    out.text("action", words::word_for(weather.action));
    out.count("state", weather.state);
    write_blown(out, "main_line", weather.main_line);
    out.objects("parallel_lines", weather.beside, [&](const loads::Blown& blown) { write_blown(out, "line", blown); });
  });
}

void write_inputs(Writer& out, const Rig& rig) {
  if (!rig.loads.inputs) return out.null("inputs");
  const loads::Inputs& in = *rig.loads.inputs;
  const auto id = [&](int anchor) -> std::optional<std::string_view> {
    if (anchor == loads::no_anchor) return std::nullopt;
    return rig.layout.anchors.at(static_cast<std::size_t>(anchor)).id.value;
  };
  out.object("inputs", [&] {
    int i = 0;
    out.objects("anchors", in.anchors, [&](Point3 position) {
      out.text("id", *id(i++));
      out.vector("position_m", position);
    });
    out.column("sheave_anchors", in.sheave_anchor, id);
    out.column("line_from_anchors", in.line_anchors, [&](loads::LineAnchors line) { return id(line.from); });
    out.column("line_to_anchors", in.line_anchors, [&](loads::LineAnchors line) { return id(line.to); });
    out.text("unit_anchor", *id(in.unit_anchor));
    out.text("start_anchor", *id(in.start_anchor));
    out.text("end_anchor", *id(in.end_anchor));
    out.number("unit_weight_N", in.unit_weight_N);
    write_beside(out, rig, in);
    i = 0;
    out.objects("footings", in.footings, [&](const loads::Footing& footing) {
      out.text("anchor", *id(i++));
      footing.base ? out.vector("base_m", *footing.base) : out.null("base_m");
      footing.cone_axis ? out.vector("cone_axis", *footing.cone_axis) : out.null("cone_axis");
    });
    out.objects("members", in.members, [&](const loads::Member& member) {
      out.text("id", member.name);
      out.text("anchor", *id(member.anchor));
      out.vector("to_m", member.part.to);
      out.flag("pushes", member.part.pushes);
      out.number("ea_N", member.part.ea_N);
      out.number("pretension_N", member.part.pretension_N);
      out.flag("may_be_lost", member.may_be_lost);
    });
  });
}

void write_moving(Writer& out, const Rig& rig, const std::optional<loads::Moving>& moving) {
  if (!moving) return out.null("moving");
  const auto& corners = rig.loads.inputs->arrested.corners;
  out.object("moving", [&] {
    out.text("corner", corners.at(static_cast<std::size_t>(moving->corner)).name);
    out.number("t_s", moving->t_s);
    out.number("rider_travel_m", moving->rider_travel_m);
    out.number("unit_tension_N", moving->unit_tension_N);
    out.vector("lanyard_N", moving->lanyard_N);
    out.vector("inertia_N", moving->inertia_N);
    out.number("left_along_N", moving->left_along_N);
  });
}

void write_case(Writer& out, const Rig& rig, const loads::LoadCase& load_case) {
  out.text("name", load_case.name);
  out.text("action", words::word_for(load_case.action));
  out.count("sweep", load_case.sweep);
  out.count("pose", load_case.pose);
  out.number("travel_m", load_case.travel_m);
  out.column("on_anchor_N", load_case.on_anchor_N, [](Vec3 force) { return force; });
  out.column("in_member_N", load_case.in_member_N, [](double force_N) { return force_N; });
  out.column("slack_members", load_case.slack, [](int member) { return member; });
  out.count("lost_member", load_case.lost);
  write_moving(out, rig, load_case.moving);
  out.vector("out_of_balance_N", load_case.out_of_balance_N, residual_digits);
  out.vector("out_of_balance_N_m", load_case.out_of_balance_N_m, residual_digits);
  out.number("largest_N", load_case.largest_N);
}

void write_not_held(Writer& out, const std::optional<loads::NotHeld>& not_held) {
  if (!not_held) return out.null("not_held");
  out.object("not_held", [&] {
    out.text("why", not_held->why);
    out.count("case", not_held->load_case);
  });
}

void write_members(Writer& out, const Rig& rig, const loads::Loads& loads) {
  const auto id = [&](std::size_t member) { return rig.layout.members.at(member).id.value; };
  const auto write = [&](std::string_view key, const std::vector<loads::MemberDemand>& members) {
    std::size_t m = 0;
    out.objects(key, members, [&](const loads::MemberDemand& member) {
      out.text("member", id(m++));
      write_demand(out, "tension_N", member.tension_N);
      write_demand(out, "compression_N", member.compression_N);
      out.count("slack_case", member.slack_case);
    });
  };
  write("members", loads.members);
  std::size_t a = 0;
  out.objects("anchors", loads.anchors, [&](const loads::AnchorDemand& anchor) {
    out.text("anchor", rig.layout.anchors.at(a++).id.value);
    write_demand(out, "base_moment_N_m", anchor.base_moment_N_m);
    write_demand(out, "off_axis_rad", anchor.off_axis_rad);
    write_demand(out, "moved_along_m", anchor.moved_m[0]);
    write_demand(out, "moved_across_m", anchor.moved_m[1]);
    write_demand(out, "moved_up_m", anchor.moved_m[2]);
    write_demand(out, "pull_along_N", anchor.pull_N[0]);
    write_demand(out, "pull_across_N", anchor.pull_N[1]);
    write_demand(out, "pull_up_N", anchor.pull_N[2]);
    write_not_held(out, anchor.not_held);
  });
  out.objects("lost", loads.lost, [&](const loads::LostDemand& lost) {
    out.text("member", id(static_cast<std::size_t>(lost.member)));
    write("others", lost.others);
    write_not_held(out, lost.not_held);
  });
}

void write_demands(Writer& out, const Rig& rig, const loads::Loads& loads, bool solved) {
  std::size_t i = 0;
  out.objects("demands", loads.demands, [&](const loads::Demand& demand) {
    out.text("anchor", rig.layout.anchors.at(i++).id.value);
    out.number("force_N", demand.force_N.value);
    out.number("bound_N", demand.force_N.bound);
    out.count("case", demand.force_N.pose);
  });
  out.objects("lines", loads.lines, [&](const loads::LineDemand& line) {
    write_demand(out, "tension_N", line.tension_N);
    write_demand(out, "from_N", line.from_N);
    write_demand(out, "to_N", line.to_N);
  });
  out.objects("sheaves", loads.sheaves,
              [&](const loads::Demand& sheave) { write_demand(out, "force_N", sheave.force_N); });
  out.objects("blocks", loads.blocks, [&](const loads::BlockDemand& block) {
    write_demand(out, "force_N", block.force_N);
    write_demand(out, "lean_N_m", block.lean_N_m);
  });
  write_members(out, rig, loads);
  solved ? write_demand(out, "main_line_N", loads.main_line.force_N) : out.null("main_line_N");
  out.objects("parallel_lines", loads.beside,
              [&](const loads::Demand& line) { write_demand(out, "tension_N", line.force_N); });
}

}  // namespace

void write_demand(Writer& out, std::string_view key, const Extreme& demand) {
  out.object(key, [&] {
    out.number("value", demand.value);
    out.number("bound", demand.bound);
    out.count("case", demand.pose);
  });
}

void write_loads(Writer& out, const Rig& rig) {
  static const loads::Loads nothing;
  const loads::Loads* solved = rig.loads.solved();
  const loads::Loads& loads = solved ? *solved : nothing;
  const auto residual = [&](std::string_view key, double ratio) {
    solved ? out.number(key, ratio, residual_digits) : out.null(key);
  };
  out.object("loads", [&] {
    write_unsolved(out, *rig.loads.result);
    write_inputs(out, rig);
    residual("worst_force_residual", loads.worst_force_residual);
    residual("worst_moment_residual", loads.worst_moment_residual);
    residual("worst_block_residual", loads.worst_block_residual);
    residual("worst_line_residual", loads.worst_line_residual);
    residual("worst_length_residual", loads.worst_length_residual);
    loads.without_arrest.empty() ? out.null("without_arrest") : out.text("without_arrest", loads.without_arrest);
    out.objects("cases", loads.cases, [&](const loads::LoadCase& load_case) { write_case(out, rig, load_case); });
    write_demands(out, rig, loads, solved != nullptr);
  });
}

}  // namespace fairlead::json
