// What is to be bought, made and fitted.
#include "geometry/layout/member_fields.hpp"
#include "geometry/layout/rigging_fields.hpp"
#include "geometry/rig/adjuster.hpp"
#include "geometry/rig/inputs.hpp"
#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::json {
namespace {

void write_adjuster(Writer& out, const Rig& rig, int line) {
  const auto need = adjuster_need(rig, line);
  if (!need) return out.null("adjuster_need");
  out.object("adjuster_need", [&] {
    out.number("shorter_m", need->shorter_m);
    out.number("longer_m", need->longer_m);
    out.number("stretch_m", need->stretch_m);
    out.number("tolerance_m", need->tolerance_m);
    out.number("take_in_m", need->take_in_m());
    out.number("let_out_m", need->let_out_m());
    out.number("whole_m", need->whole_m());
    need->unknown.empty() ? out.null("unknown") : out.text("unknown", need->unknown);
  });
}

void write_line(Writer& out, const Rig& rig, const Line& line, int index) {
  out.text("id", line.id.value);
  out.number("unloaded_length_m", tables::unloaded_length_m(rig, {Item::Kind::line, index}));
  out.column("made_lengths_m", made_lengths_m(rig, index), [](double m) { return m; });
  out.flag("taken_up_by_unit", index == rig.braking_line);
  out.number("adjuster_m", plain(line.adjuster_m));
  write_adjuster(out, rig, index);
}

void write_rating(Writer& out, const std::optional<Real>& wll_N, const std::optional<Real>& mbs_N) {
  out.number("wll_N", plain(wll_N));
  out.number("mbs_N", plain(mbs_N));
}

void write_names(Writer& out, std::string_view key, const std::vector<std::string>& names) {
  out.column(key, names, [](const std::string& name) { return std::string_view(name); });
}

void write_sheave(Writer& out, const Rig& rig, const Sheave& sheave, int index) {
  const Line* line = tables::line_over(rig.layout, static_cast<SheaveId>(index));
  out.text("id", sheave.id.value);
  out.text("on", tables::carrier_of(rig.layout, sheave));
  out.text("mount", word_of(sheave.mount.value));
  line ? out.text("line", line->id.value) : out.null("line");
  out.number("pitch_diameter_m", sheave.pitch_diameter_m.value);
  out.number("groove_m", plain(sheave.groove_m));
  sheave.frame_m ? out.vector("frame_m", Vec3{sheave.frame_m->value.along_m, sheave.frame_m->value.across_m,
                                              sheave.frame_m->value.up_m})
                 : out.null("frame_m");
  out.number("friction", line ? friction_of(sheave, *line) : std::nullopt);
  out.number("friction_wrap_rad", plain(sheave.friction_wrap_rad));
  write_rating(out, sheave.wll_N, sheave.mbs_N);
}

void write_anchor(Writer& out, const Rig& rig, const Anchor& anchor, int index) {
  const auto i = static_cast<std::size_t>(index);
  out.text("id", anchor.id.value);
  out.vector("position_m", anchor.position.value);
  write_names(out, "holds", tables::hangs_on(rig.layout, i));
  write_names(out, "held_by", tables::held_by(rig.layout, i));
  write_rating(out, anchor.wll_N, anchor.mbs_N);
  const loads::Loads* loads = rig.loads.solved();
  loads ? write_demand(out, "force_N", loads->demands.at(i).force_N) : out.null("force_N");
}

void write_member(Writer& out, const Rig& rig, const Member& member) {
  const Anchor& anchor = rig.layout.anchors.at(static_cast<std::size_t>(member.anchor));
  out.text("id", member.id.value);
  out.text("kind", word_of(member.kind.value));
  out.text("anchor", anchor.id.value);
  out.vector("to_m", member.to.value);
  out.number("length_m", norm(member.to.value - anchor.position.value));
  out.number("pretension_N", plain(member.pretension_N));
  write_rating(out, member.wll_N, member.mbs_N);
  out.number("compression_limit_N", plain(member.compression_limit_N));
}

void write_connector(Writer& out, const Connector& connector) {
  out.text("id", connector.id.value);
  connector.size ? out.text("size", connector.size->value) : out.null("size");
  write_names(out, "joins", connector.joins);
  write_rating(out, connector.wll_N, connector.mbs_N);
}

}  // namespace

void write_schedules(Writer& out, const Rig& rig) {
  const Layout& layout = rig.layout;
  out.object("schedules", [&] {
    int i = 0;
    out.objects("lines", layout.lines, [&](const Line& line) { write_line(out, rig, line, i++); });
    i = 0;
    out.objects("sheaves", layout.sheaves, [&](const Sheave& sheave) { write_sheave(out, rig, sheave, i++); });
    i = 0;
    out.objects("anchors", layout.anchors, [&](const Anchor& anchor) { write_anchor(out, rig, anchor, i++); });
    out.objects("members", layout.members, [&](const Member& member) { write_member(out, rig, member); });
    out.objects("connectors", layout.connectors, [&](const Connector& connector) { write_connector(out, connector); });
  });
}

}  // namespace fairlead::json
