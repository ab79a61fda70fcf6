#include "report/json/json.hpp"

#include <algorithm>

#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"
#include "report/words/trial.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 2;  ///< rises when a key changes its meaning or goes

constexpr auto itself = [](const auto& value) { return value; };

void write_layout(Writer& out, const Layout& layout) {
  out.object("layout", [&] {
    out.column("files", layout.files, [](const std::string& file) { return std::string_view(file); });
    out.text("sha256", layout.sha256);
    out.text("owner", layout.project.owner.value);
    out.text("title", layout.project.title.value);
    out.text("number", layout.project.number.value);
    out.text("revision", layout.project.revision.value);
    write_date(out, "date", layout.project.date);
    write_date(out, "judged_on", layout.judged_on);
    out.text("site", layout.site.name.value);
    out.column("axes", layout.site.axes, [](const std::string& axis) { return std::string_view(axis); });
  });
}

void write_frame(Writer& out, const Frame& frame) {
  out.object("frame", [&] {
    out.vector("origin_m", frame.origin);
    out.vector("along", frame.along);
    out.vector("across", frame.across);
    out.vector("up", frame.up);
    out.number("span_m", frame.span_m);
    out.number("rise_m", frame.rise_m);
    out.number("chainage_of_origin_m", frame.chainage_of_origin_m);
  });
}

void write_line(Writer& out, const Rig& rig, Item item) {
  const auto index = static_cast<std::size_t>(item.index);
  const auto members = [&](const auto& line) {
    out.number("diameter_m", line.diameter_m.value);
    out.number("mass_kg_per_m", line.mass_kg_per_m.value);
    out.number("mbs_N", plain(line.mbs_N));
  };
  out.text("id", words::id_of(rig.layout, item));
  out.text("kind", words::kind_of(item.kind));
  const bool support = item.kind == Item::Kind::support_line;
  if (support) {
    out.null("material");
    members(rig.layout.support_lines.at(index));
  } else {
    out.text("material", words::word_for(rig.layout.lines.at(index).material.value));
    members(rig.layout.lines.at(index));
  }
  out.column("runs_over", tables::runs_over(rig.layout, item),
             [](const std::string& name) { return std::string_view(name); });
  out.number("finished_length_m", tables::finished_length_m(rig, item));
  out.number("tails_m", support ? std::nullopt : plain(rig.layout.lines.at(index).tails_m));
  out.number("cut_length_m", tables::cut_length_m(rig, item));
  out.number("rest_tension_N", tables::rest_tension_N(rig, item));
  out.number("stretch_at_rest_m", tables::stretch_at_rest_m(rig, item));
  out.number("stretch_from_rest_m", tables::stretch_from_rest_m(rig, item));
  const auto greatest_N = tables::greatest_tension_N(rig, item);
  greatest_N ? write_demand(out, "greatest_tension_N", *greatest_N) : out.null("greatest_tension_N");
}

}  // namespace

void write_identity(Writer& out, const Layout& layout) {
  out.text("file", layout.files.front());
  out.text("sha256", layout.sha256);
  out.text("number", layout.project.number.value);
  out.text("revision", layout.project.revision.value);
}

void write_verdict(Writer& out, const Dossier& dossier) {
  const std::vector<Finding>& findings = dossier.judged.findings;
  const auto count = [&](words::Outcome outcome) {
    return std::count_if(findings.begin(), findings.end(),
                         [&](const Finding& f) { return words::outcome_of(f) == outcome; });
  };
  const int status = words::exit_status(dossier);
  out.object("verdict", [&] {
    out.flag("cleared", status == 0);
    out.count("exit_status", status);
    out.text("headline", words::headline(dossier));
    out.count("fail", count(words::Outcome::fail));
    out.count("undetermined", count(words::Outcome::undetermined));
    out.count("not_judged", count(words::Outcome::not_judged));
    out.count("waived", count(words::Outcome::waived));
    out.count("pass", count(words::Outcome::pass));
  });
}

void write_reservations(Writer& out, const Dossier& dossier) {
  const Table table = tables::assumptions(dossier);
  out.column("assumptions", table.rows,
             [](const auto& row) { return std::string_view(std::get<std::string>(row.front())); });
  out.column("not_checked", words::not_checked(), itself);
  out.column("cautions", words::cautions(), itself);
}

void write_date(Writer& out, std::string_view key, const std::optional<Given<Date>>& date) {
  date ? out.text(key, words::date_of(date->value)) : out.null(key);
}

std::optional<double> plain(const std::optional<Real>& given) {
  return given ? std::optional<double>(given->value) : std::nullopt;
}

std::string write(const Dossier& dossier) {
  const Judged& judged = dossier.judged;
  const Rig& rig = judged.rig;
  return Writer::document([&](Writer& out) {
    out.count("format_version", format_version);
    out.text("program", "fairlead");
    out.text("program_version", words::program_version());
    write_layout(out, rig.layout);
    write_verdict(out, dossier);
    write_findings(out, judged);
    write_frame(out, rig.frame);
    write_main_line(out, rig);
    write_approach(out, rig);
    write_reeving(out, rig);
    write_arrest(out, rig);
    write_loads(out, rig);
    write_clearance(out, rig);
    out.objects("lines", tables::all_lines(rig.layout), [&](Item line) { write_line(out, rig, line); });
    write_schedules(out, rig);
    write_strength_left(out, rig.layout);
    write_rest_positions(out, rig);
    write_legs(out, rig);
    write_placement(out, dossier);
    write_setting_out(out, dossier);
    write_reservations(out, dossier);
  });
}

}  // namespace fairlead::json
