#include "geometry/checks/worst.hpp"
#include "geometry/studies/lie.hpp"
#include "report/json/stages.hpp"
#include "report/words/marks.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"

namespace fairlead::json {
namespace {

void write_offset(Writer& out, const Solved<LineOffset>& offset) {
  out.object("from_bare_main_line", [&] {
    const auto number = [&](std::string_view key, double LineOffset::*member) {
      out.number(key, offset ? std::optional((*offset).*member) : std::nullopt);
    };
    write_unsolved(out, offset);
    number("temperature_K", &LineOffset::temperature_K);
    number("from_rest_m", &LineOffset::from_rest_m);
    number("across_m", &LineOffset::across_m);
    number("up_m", &LineOffset::up_m);
    number("open_m", &LineOffset::open_m);
  });
}

void write_mark(Writer& out, const Rig& rig, const SetOut& mark) {
  const SetOutPoint& point = mark.point;
  const bool placed = point.at.has_value();
  out.text("id", point.id);
  out.text("what", words::mark_of(rig.layout, point));
  out.text("item", words::name_of(rig.layout, point.item));
  placed ? out.vector("at_m", *point.at) : out.null("at_m");
  out.number("chainage_m", placed ? std::optional(rig.frame.chainage_m(*point.at)) : std::nullopt);
  out.number("across_m", placed ? std::optional(rig.frame.across_m(*point.at)) : std::nullopt);
  out.number("above_start_m", placed ? std::optional(dot(*point.at - rig.frame.origin, rig.frame.up)) : std::nullopt);
  out.number("rise_m", mark.rise_m);
  write_offset(out, mark.from_line);
}

void write_tie(Writer& out, const SettingOut& setting_out, const Tie& tie) {
  out.text("from", setting_out.tape_ends.at(static_cast<std::size_t>(tie.from)));
  out.number("distance_m", tie.distance_m);
}

void write_ties(Writer& out, const SettingOut& setting_out) {
  out.number("longest_tape_m", setting_out.longest_tape_m);
  std::size_t i = 0;
  out.objects("ties", setting_out.ties, [&](const Solved<TiedMark>& tied) {
    static const std::array<Tie, 0> none{};
    out.text("mark", setting_out.marks.at(i++).point.id);
    write_unsolved(out, tied);
    const auto number = [&](std::string_view key, double TiedMark::*member) {
      out.number(key, tied ? std::optional((*tied).*member) : std::nullopt);
    };
    const auto tape = [&](const Tie& tie) { write_tie(out, setting_out, tie); };
    tied ? out.objects("tapes", tied->ties, tape) : out.objects("tapes", none, tape);
    number("dilution", &TiedMark::dilution);
    tied ? out.vector("side", tied->normal) : out.null("side");
    number("height_m", &TiedMark::height_m);
    tied ? out.vector("mirror_m", tied->mirror) : out.null("mirror_m");
    if (!tied || !tied->check) return out.null("check");
    out.object("check", [&] {
      write_tie(out, setting_out, tied->check->tie);
      out.number("at_mirror_m", tied->check->at_mirror_m);
      out.flag("tells_mirror", tied->check->tells_mirror);
    });
  });
}

void write_strung(Writer& out, std::string_view key, const mainline::Strung& line) {
  out.object(key, [&] {
    out.number("unstretched_m", line.cable.unstretched_m);
    out.number("horizontal_N", line.horizontal_N);
    out.number("start_tension_N", line.start_tension_N);
    out.number("end_tension_N", line.end_tension_N);
    out.number("sag_m", line.sag_m);
    out.number("greatest_sag_m", line.greatest_sag_m);
    out.number("three_returns_s", line.three_returns_s);
  });
}

template <class Row>
const std::vector<Row>& rows_of(const Solved<std::vector<Row>>& solved) {
  static const std::vector<Row> none;
  return solved ? *solved : none;
}

void write_stringing(Writer& out, const SettingOut& setting_out) {
  out.object("stringing", [&] {
    write_unsolved(out, setting_out.stringing);
    out.objects("rows", rows_of(setting_out.stringing), [&](const mainline::Stringing& row) {
      out.number("temperature_K", row.temperature_K);
      out.flag("as_measured", row.as_measured);
      write_strung(out, "tightest", row.tightest);
      write_strung(out, "slackest", row.slackest);
    });
  });
}

void write_hand_pulls(Writer& out, const Rig& rig, const SettingOut& setting_out) {
  out.object("hand_pulls", [&] {
    write_unsolved(out, setting_out.hand_pulls);
    out.objects("states", rows_of(setting_out.hand_pulls), [&](const reeving::HandPulls& pulls) {
      out.text("state", weather_of(rig, rig.reeving.solved()->rest.at(static_cast<std::size_t>(pulls.position))));
      out.text("friction", words::word_for(pulls.friction));
      out.objects("at", pulls.at, [&](const reeving::HandPull& at) {
        write_unsolved(out, at.along_N);
        out.number("travel_m", at.travel_m);
        out.number("along_N", at.along_N ? std::optional(*at.along_N) : std::nullopt);
      });
    });
  });
}

void write_axles(Writer& out, const Rig& rig) {
  out.objects("axles", rig.layout.sheaves, [&](const Sheave& sheave) {
    const bool turns = sheave.mount == Mount::free;
    const Lie lie = lie_of(rig.frame, left_end(rig.frame, sheave.axle));
    out.text("sheave", sheave.id.value);
    out.number("left_end_bearing_rad", turns ? std::nullopt : lie.bearing_rad);
    out.number("left_end_tilt_rad", turns ? std::nullopt : std::optional(lie.tilt_rad));
  });
}

}  // namespace

void write_setting_out(Writer& out, const Dossier& dossier) {
  if (!dossier.setting_out) return out.null("setting_out");
  const Rig& rig = dossier.judged.rig;
  const SettingOut& setting_out = *dossier.setting_out;
  out.object("setting_out", [&] {
    out.objects("marks", setting_out.marks, [&](const SetOut& mark) { write_mark(out, rig, mark); });
    write_ties(out, setting_out);
    setting_out.bench < 0
        ? out.null("bench_mark")
        : out.text("bench_mark", setting_out.marks[static_cast<std::size_t>(setting_out.bench)].point.id);
    out.number("platform_rise_m", setting_out.platform_rise_m);
    write_axles(out, rig);
    write_stringing(out, setting_out);
    write_hand_pulls(out, rig, setting_out);
  });
}

}  // namespace fairlead::json
