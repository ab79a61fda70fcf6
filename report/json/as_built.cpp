#include "geometry/asbuilt/as_built.hpp"

#include <cmath>

#include "report/json/json.hpp"
#include "report/json/stages.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 1;  ///< rises when a key changes its meaning or goes

constexpr auto words_of = [](const std::string& text) { return std::string_view(text); };

void write_fit(Writer& out, const Placing& placing) {
  if (!placing.fit || !placing.test) return out.null("fit");
  out.object("fit", [&] {
    const Fit& fit = *placing.fit;
    const FitTest& test = *placing.test;
    out.text("kind", placing.terms.kind == FitKind::levelled ? "levelled" : "tilted");
    out.column("rotation", fit.motion.rows, [](Vec3 row) { return row; });
    out.vector("from_m", fit.motion.from);
    out.vector("to_m", fit.motion.to);
    std::size_t c = 0;
    out.objects("control", placing.control, [&](int p) {
      out.text("id", placing.points.at(static_cast<std::size_t>(p)).id);
      out.vector("off_m", -fit.residual_m.at(c++));
    });
    out.number("rms_m", fit.rms_m);
    out.number("scale", fit.scale);
    out.number("chi_squared", test.chi_squared);
    out.count("redundancy", test.redundancy);
    out.number("probability", test.probability);
    out.flag("agrees", test.agrees);
    out.flag("tells_mirror", test.tells_mirror);
    out.column("outliers", test.outliers, [&](int o) {
      return std::string_view(
          placing.points.at(static_cast<std::size_t>(placing.control.at(static_cast<std::size_t>(o)))).id);
    });
  });
}

std::optional<double> known(double number) { return std::isfinite(number) ? std::optional(number) : std::nullopt; }

void write_tapes(Writer& out, const Placing& placing) {
  if (!placing.taping) return out.null("tapes");
  out.object("tapes", [&] {
    const Taping& taping = *placing.taping;
    const Adjustment& it = taping.adjustment;
    std::size_t r = 0;
    out.objects("readings", taping.readings, [&](const SiteReading& one) {
      const Leftover& left = it.readings.at(r++);
      out.text("quantity", one.kind == NetworkReading::Kind::rise ? "rise" : "distance");
      out.text("from", one.from);
      out.text("to", one.to);
      out.count("line", static_cast<long>(one.line));
      out.number("read_m", one.value_m);
      out.number("uncertainty_m", one.uncertainty_m);
      out.number("residual_m", left.residual_m);
      out.number("redundancy", left.redundancy);
      out.number("standardised", known(left.standardised));
    });
    out.number("chi_squared", it.chi_squared);
    out.count("redundancy", it.redundancy);
    out.number("probability", it.probability);
    out.flag("agrees", it.agrees);
    it.worst_reading < 0 ? out.null("worst_reading") : out.count("worst_reading", it.worst_reading);
    it.worst_shot < 0 ? out.null("worst_point")
                      : out.text("worst_point", taping.ids.at(static_cast<std::size_t>(it.worst_shot)));
    out.number("worst_standardised", it.worst);
    out.objects("held", it.held, [&](const HeldPoint& one) {
      out.text("id", taping.ids.at(static_cast<std::size_t>(one.point)));
      out.number("shows_from_m", known(one.shows_from_m));
      out.flag("explains", one.explains);
    });
    std::vector<std::size_t> open;
    for (std::size_t p = 0; p < taping.ids.size(); ++p)
      if (!it.open.at(p).empty()) open.push_back(p);
    out.objects("open", open, [&](std::size_t p) {
      out.text("id", taping.ids.at(p));
      out.text("why", it.open.at(p));
    });
  });
}

void write_point(Writer& out, const AsBuilt& as_built, std::size_t p) {
  const PlacedPoint& point = as_built.placing.points.at(p);
  const Vec3 off = off_by(as_built, p), u = as_built.place_uncertainty_m.at(p);
  out.text("id", point.id);
  out.count("line", static_cast<long>(point.line));
  out.flag("mark", point.mark >= 0);
  out.flag("control", point.control);
  out.flag("shot", point.shot);
  out.flag("taped", point.taped);
  out.flag("held", point.held);
  out.vector("measured_m", point.measured);
  out.vector("at_m", point.at);
  point.placed ? out.vector("drawn_m", point.design) : out.null("drawn_m");
  const auto off_m = [&](double m) { return point.placed ? std::optional(m) : std::nullopt; };
  out.number("along_m", off_m(off.x));
  out.number("left_m", off_m(off.y));
  out.number("up_m", off_m(off.z));
  out.number("u_along_m", u.x);
  out.number("u_left_m", u.y);
  out.number("u_up_m", u.z);
  const auto allowed = as_built.placement && point.mark >= 0
                           ? as_built.placement->allowed_m(static_cast<std::size_t>(point.mark))
                           : std::array<std::optional<double>, 3>{};
  out.number("allowed_along_m", allowed[0]);
  out.number("allowed_across_m", allowed[1]);
  out.number("allowed_up_m", allowed[2]);
  out.text("in_box", words::word_for(in_box(as_built, p)));
}

void write_main_line(Writer& out, const AsBuilt& as_built) {
  // No bindings: clang 14 does not let a lambda have them.
  const std::optional<Solved<LineByShots>>& solved = as_built.main_line.solved;
  const std::string& doubt = as_built.main_line.doubt;
  if (!solved) return out.null("main_line_by_shots");
  out.object("main_line_by_shots", [&] {
    const bool known = solved->has_value();
    const LineByShots line = known ? **solved : LineByShots{};
    const auto number = [&](const char* key, double value) { known ? out.number(key, value) : out.null(key); };
    number("tension_N", line.tension_N);
    number("uncertainty_N", line.uncertainty_N);
    number("horizontal_N", line.horizontal_N);
    number("chi_squared", line.chi_squared);
    out.count("redundancy", line.redundancy);
    number("probability", line.probability);
    doubt.empty() ? out.null("doubt") : out.text("doubt", doubt);
    std::size_t s = 0;
    out.objects("shots", as_built.placing.line_shots, [&](const ShotOnLine& shot) {
      out.text("id", shot.id);
      out.count("line", static_cast<long>(shot.line));
      out.vector("at_m", shot.at);
      number("above_m", known ? line.above_m.at(s++) : 0);
    });
  });
}

void write_since(Writer& out, const AsBuilt& as_built) {
  if (!as_built.since) return out.null("since");
  out.object("since", [&] {
    const Since& since = *as_built.since;
    out.text("points_file", since.survey.points_file);
    out.text("points_sha256", since.survey.points_sha256);
    out.number("uncertainty_m", since.survey.uncertainty_m);
    since.placing.doubt.empty() ? out.null("doubt") : out.text("doubt", since.placing.doubt);
    out.objects("movements", since.movements, [&](const Movement& one) {
      out.text("id", one.id);
      out.count("line", static_cast<long>(one.line));
      out.count("earlier_line", static_cast<long>(one.earlier_line));
      out.flag("control", one.control);
      out.number("along_m", one.by_m.x);
      out.number("left_m", one.by_m.y);
      out.number("up_m", one.by_m.z);
      out.number("u_along_m", one.uncertainty_m.x);
      out.number("u_left_m", one.uncertainty_m.y);
      out.number("u_up_m", one.uncertainty_m.z);
      out.text("moved", keyword(one.moved));
    });
    out.column("only_now", since.only_now, words_of);
    out.column("only_then", since.only_then, words_of);
  });
}

void write_characteristics(Writer& out, const AsBuilt& as_built) {
  std::size_t c = 0;
  out.objects("characteristics", as_built.characteristics, [&](const Characteristic& one) {
    const int index = static_cast<int>(c);
    out.text("name", one.name);
    out.text("item", words::name_of(as_built.design.rig.layout, one.item));
    out.flag("held", as_built.held.at(c) != 0);
    out.flag("measured", as_built.measured.at(c++) != 0);
    const MeasuredValue* found = nullptr;
    for (const MeasuredValue& value : as_built.values)
      if (value.characteristic == index) found = &value;
    static const MeasuredValue none;
    const MeasuredValue& value = found ? *found : none;
    std::size_t v = 0;
    out.objects("values", value.value, [&](double si) {
      const MeasurandKind& kind = kind_of(one.measurands.at(v));
      out.text("quantity", kind.word);
      out.number("value", si);
      out.number("uncertainty", value.uncertainty.at(v++));
      out.text("unit", words::si_unit(kind.dimension));
    });
  });
}

void write_basis(Writer& out, const AsBuilt& as_built) {
  std::size_t f = 0;
  out.objects("basis", as_built.basis, [&](const Basis& basis) {
    const Finding& finding = as_built.built.findings.at(f++);
    out.text("check", finding.check->name);
    out.text("subject", words::id_of(as_built.built.rig.layout, finding.subject));
    out.text("as_measured", words::word_for(basis.as_measured));
    out.column("not_measured", basis.unmeasured,
               [&](int c) { return std::string_view(as_built.characteristics.at(static_cast<std::size_t>(c)).name); });
    out.column("held", basis.held,
               [&](int c) { return std::string_view(as_built.characteristics.at(static_cast<std::size_t>(c)).name); });
    if (!basis.conformity) return out.null("draws");
    out.object("draws", [&] {
      out.count("draws", basis.conformity->draws);
      out.count("passes", basis.conformity->passes);
      out.count("fails", basis.conformity->fails);
      out.number("pass_at_least", basis.conformity->pass_at_least);
      out.number("fail_at_least", basis.conformity->fail_at_least);
      out.count("exact", basis.conformity->exact);
      out.number("linear_within", basis.conformity->linear_within);
    });
  });
}

}  // namespace

std::string write(const AsBuilt& as_built) {
  const Dossier dossier{as_built.built};
  const Layout& layout = as_built.design.rig.layout;
  return Writer::document([&](Writer& out) {
    out.count("format_version", format_version);
    out.text("program", "fairlead");
    out.text("program_version", words::program_version());
    out.object("layout", [&] {
      write_identity(out, layout);
      out.flag("cleared_as_drawn", exit_status(as_built.design.findings) == 0);
    });
    out.object("survey", [&] {
      const bool shot = !as_built.survey.terms.tapes_alone;
      shot ? out.text("points_file", as_built.survey.points_file) : out.null("points_file");
      shot ? out.text("points_sha256", as_built.survey.points_sha256) : out.null("points_sha256");
      as_built.survey.measurements_file.empty() ? out.null("measurements_file")
                                                : out.text("measurements_file", as_built.survey.measurements_file);
      as_built.survey.measurements_file.empty() ? out.null("measurements_sha256")
                                                : out.text("measurements_sha256", as_built.survey.measurements_sha256);
      out.number("uncertainty_m", shot ? std::optional(as_built.survey.terms.uncertainty_m) : std::nullopt);
      out.column("held", shot ? std::vector<std::string>{} : as_built.survey.terms.control, words_of);
      out.count("draws", as_built.terms.draws);
      out.count("seed", static_cast<long>(as_built.terms.seed));
      out.flag("arrest_held", as_built.terms.hold_arrest);
      out.flag("linear", as_built.terms.linear);
    });
    write_verdict(out, dossier);
    write_fit(out, as_built.placing);
    write_tapes(out, as_built.placing);
    as_built.placing.doubt.empty() ? out.null("doubt") : out.text("doubt", as_built.placing.doubt);
    std::size_t p = 0;
    out.objects("points", as_built.placing.points, [&](const PlacedPoint&) { write_point(out, as_built, p++); });
    write_main_line(out, as_built);
    write_since(out, as_built);
    out.column("unmatched", as_built.placing.strangers, words_of);
    out.count("unmatched_more", static_cast<long>(as_built.survey.points_left_out));
    out.column("missing", as_built.placing.missing, words_of);
    write_characteristics(out, as_built);
    write_findings(out, as_built.built);
    write_basis(out, as_built);
    write_reservations(out, dossier);
  });
}

}  // namespace fairlead::json
