#include "geometry/asbuilt/as_built.hpp"

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

void write_point(Writer& out, const AsBuilt& as_built, std::size_t p) {
  const PlacedPoint& point = as_built.placing.points.at(p);
  const Vec3 off = off_by(as_built, p), u = as_built.place_uncertainty_m.at(p);
  out.text("id", point.id);
  out.count("line", static_cast<long>(point.line));
  out.flag("mark", point.mark >= 0);
  out.flag("control", point.control);
  out.vector("measured_m", point.measured);
  out.vector("at_m", point.at);
  point.placed ? out.vector("drawn_m", point.design) : out.null("drawn_m");
  const auto known = [&](double m) { return point.placed ? std::optional(m) : std::nullopt; };
  out.number("along_m", known(off.x));
  out.number("left_m", known(off.y));
  out.number("up_m", known(off.z));
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

void write_characteristics(Writer& out, const AsBuilt& as_built) {
  std::size_t c = 0;
  out.objects("characteristics", as_built.characteristics, [&](const Characteristic& one) {
    const int index = static_cast<int>(c);
    out.text("name", one.name);
    out.text("item", words::name_of(as_built.design.rig.layout, one.item));
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
    if (!basis.conformity) return out.null("draws");
    out.object("draws", [&] {
      out.count("draws", basis.conformity->draws);
      out.count("passes", basis.conformity->passes);
      out.count("fails", basis.conformity->fails);
      out.number("pass_at_least", basis.conformity->pass_at_least);
      out.number("fail_at_least", basis.conformity->fail_at_least);
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
      out.text("points_file", as_built.survey.points_file);
      out.text("points_sha256", as_built.survey.points_sha256);
      as_built.survey.measurements_file.empty() ? out.null("measurements_file")
                                                : out.text("measurements_file", as_built.survey.measurements_file);
      as_built.survey.measurements_file.empty() ? out.null("measurements_sha256")
                                                : out.text("measurements_sha256", as_built.survey.measurements_sha256);
      out.number("uncertainty_m", as_built.survey.terms.uncertainty_m);
      out.count("draws", as_built.terms.draws);
      out.count("seed", static_cast<long>(as_built.terms.seed));
      out.flag("arrest_held", as_built.terms.hold_arrest);
    });
    write_verdict(out, dossier);
    write_fit(out, as_built.placing);
    as_built.placing.doubt.empty() ? out.null("doubt") : out.text("doubt", as_built.placing.doubt);
    std::size_t p = 0;
    out.objects("points", as_built.placing.points, [&](const PlacedPoint&) { write_point(out, as_built, p++); });
    out.column("unmatched", as_built.placing.strangers, words_of);
    out.column("missing", as_built.placing.missing, words_of);
    write_characteristics(out, as_built);
    write_findings(out, as_built.built);
    write_basis(out, as_built);
    write_reservations(out, dossier);
  });
}

}  // namespace fairlead::json
