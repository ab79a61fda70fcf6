#include <algorithm>

#include "report/json/json.hpp"
#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/changes.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/revision_line.hpp"
#include "report/words/sentence.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 1;  ///< rises when a key changes its meaning or goes

constexpr Style si{Units::si};

class ChangesWriter {
 public:
  ChangesWriter(Writer& out, const Changes& changes) : out_(out), changes_(changes) {}

  void write() {
    const Difference& difference = changes_.difference;
    out_.count("format_version", format_version);
    out_.text("program", "fairlead");
    out_.text("program_version", words::program_version());
    out_.flag("changed", !difference.inputs.empty());
    side("was", changes_.was);
    side("is", changes_.is);
    out_.objects("inputs", difference.inputs, [&](const PartChange& part) { write_part(part); });
    out_.objects("moved", difference.moved, [&](const MovedPoint& point) { write_point(point); });
    write_frame(difference.frame);
    out_.objects("main_line", difference.main_line, [&](const StateChange& state) {
      out_.text("state", state.name);
      write("sag_m", state.sag_m);
      write("start_tension_N", state.start_tension_N);
      write("end_tension_N", state.end_tension_N);
    });
    out_.object("main_line_load", [&] { write_load(difference.main_line_load); });
    out_.objects("anchors", difference.anchors, [&](const AnchorChange& anchor) {
      out_.text("id", anchor.id);
      write_load(anchor);
    });
    out_.objects("lines", difference.lines, [&](const LineChange& line) { write_line(line); });
    out_.objects("sheaves", difference.sheaves, [&](const SheaveChange& sheave) {
      out_.text("id", sheave.id);
      write("fleet_rad", sheave.fleet_rad);
    });
    out_.objects("findings", difference.findings, [&](const FindingChange& finding) { write_finding(finding); });
    write_revision_line();
    out_.column("cautions", words::cautions(), [](const auto& caution) { return caution; });
  }

 private:
  void side(std::string_view key, const Judged& judged) {
    const Layout& layout = judged.rig.layout;
    out_.object(key, [&] {
      write_identity(out_, layout);
      write_date(out_, "date", layout.project.date);
      write_date(out_, "judged_on", layout.judged_on);
      out_.flag("cleared", exit_status(judged.findings) == 0);
      out_.text("headline", words::headline(judged));
      write_why("main_line_unsolved", *judged.rig.main_line.result);
      write_why("reeving_unsolved", *judged.rig.reeving.result);
      write_why("loads_unsolved", *judged.rig.loads.result);
    });
  }

  template <class T>
  void write_why(std::string_view key, const Solved<T>& result) {
    result ? out_.null(key) : out_.text(key, result.error().why);
  }

  void write(std::string_view key, const Pair& pair) {
    out_.object(key, [&] {
      out_.number("was", pair.was);
      out_.number("is", pair.is);
    });
  }

  void write_place(std::string_view key, const Layout& layout, const std::optional<Place>& place) {
    place ? out_.text(key, words::place_of(layout, *place)) : out_.null(key);
  }

  void write_part(const PartChange& part) {
    out_.text("section", part.section);
    out_.text("id", part.id);
    out_.text("change", part.was && part.is ? "changed" : part.is ? "added" : "removed");
    write_place("place_was", changes_.was.rig.layout, part.was);
    write_place("place_is", changes_.is.rig.layout, part.is);
    part.perhaps_renamed.empty() ? out_.null("perhaps_renamed") : out_.text("perhaps_renamed", part.perhaps_renamed);
    out_.objects("keys", part.keys, [&](const KeyChange& key) {
      out_.text("key", key.name);
      const std::string_view strictness = words::word_for(fairlead::strictness(key));
      strictness.empty() ? out_.null("strictness") : out_.text("strictness", strictness);
      write_told("was", changes_.was.rig.layout, key.was);
      write_told("is", changes_.is.rig.layout, key.is);
    });
  }

  void write_told(std::string_view key, const Layout& layout, const std::optional<Told>& told) {
    if (!told) return out_.null(key);
    out_.object(key, [&] {
      out_.text("shown", words::shown(*told, layout, si));
      out_.text("words", told->words);
      out_.column("numbers", told->numbers, [](const Quantity& quantity) { return quantity.si; });
      out_.column("units", told->numbers, [](const Quantity& quantity) { return words::si_unit(quantity.dimension); });
      write_place("place", layout, told->place);
    });
  }

  void write_point(const MovedPoint& point) {
    out_.text("section", point.section);
    out_.text("id", point.id);
    out_.text("key", point.key);
    out_.text("sentence", words::name_of(point) + " moved by " + words::movement(point, si));
    out_.vector("by_m", point.by_m);
    out_.number("along_m", point.along_m);
    out_.number("across_m", point.across_m);
    out_.number("up_m", point.up_m);
    out_.number("total_m", point.total_m);
  }

  void write_frame(const FrameChange& frame) {
    out_.object("frame", [&] {
      out_.flag("changed", frame.any());
      out_.vector("start_by_m", frame.start_by_m);
      out_.vector("end_by_m", frame.end_by_m);
      out_.number("turned_rad", frame.turned_rad);
      write("span_m", frame.span_m);
      write("rise_m", frame.rise_m);
    });
  }

  void write_case(std::string_view key, const Judged& side, const std::optional<int>& governing) {
    if (!governing || *governing < 0) return out_.null(key);
    const auto& cases = side.rig.loads.solved()->cases;
    out_.text(key, tables::case_name(cases.at(static_cast<std::size_t>(*governing)), si));
  }

  void write_load(const LoadChange& load) {
    write("force_N", load.force_N);
    out_.number("growth", growth(load.force_N));
    write("utilisation", load.utilisation);
    write_case("case_was", changes_.was, load.case_was);
    write_case("case_is", changes_.is, load.case_is);
  }

  void write_line(const LineChange& line) {
    out_.text("id", line.id);
    out_.text("kind", words::kind_of(line.kind));
    write("finished_length_m", line.hanging_m);
    write("unloaded_length_m", line.unloaded_m);
    write("cut_length_m", line.cut_m);
    write("rest_tension_N", line.rest_tension_N);
    write("greatest_tension_N", line.greatest_tension_N);
  }

  void write_judgement(std::string_view key, const Judged& side, const std::optional<std::size_t>& index,
                       const std::optional<double>& reserve) {
    if (!index) return out_.null(key);
    const Finding& finding = side.findings[*index];
    const Layout& layout = side.rig.layout;
    const auto measured = [&](double value) { return finding.measured ? std::optional(value) : std::nullopt; };
    out_.object(key, [&] {
      out_.text("outcome", words::word_for(words::outcome_of(finding)));
      out_.text("sentence", words::sentence(layout, finding, si));
      out_.text("unit", words::si_unit(finding.check->dimension));
      out_.number("value", measured(finding.value));
      out_.number("bound", measured(finding.bound));
      out_.number("limit", finding.limit ? std::optional(finding.limit->at.value) : std::nullopt);
      out_.number("reserve", reserve);
      out_.text("place", words::place_of(layout, finding.place));
    });
  }

  void write_finding(const FindingChange& change) {
    const Judged& side = change.is ? changes_.is : changes_.was;
    const Finding& finding = side.findings[change.is ? *change.is : *change.was];
    const auto outcome = [](const Judged& of, const std::optional<std::size_t>& index) {
      return index ? std::optional(words::outcome_of(of.findings[*index])) : std::nullopt;
    };
    out_.text("check", finding.check->name);
    out_.text("subject_kind", words::kind_of(finding.subject.kind));
    out_.text("subject", words::id_of(side.rig.layout, finding.subject));
    out_.flag("outcome_changed", outcome(changes_.was, change.was) != outcome(changes_.is, change.is));
    write_judgement("was", changes_.was, change.was, change.reserve.was);
    write_judgement("is", changes_.is, change.is, change.reserve.is);
  }

  void write_revision_line() {
    const words::RevisionLine line = words::revision_line(changes_, si);
    const std::vector<std::string> warnings = words::revision_warnings(changes_);
    out_.object("revision_line", [&] {
      out_.text("revision", line.revision);
      out_.text("change", line.change);
      line.by ? out_.text("by", *line.by) : out_.null("by");
      line.date ? out_.text("date", *line.date) : out_.null("date");
      out_.text("toml", words::toml(line));
      out_.column("warnings", warnings, [](const std::string& warning) { return std::string_view(warning); });
    });
  }

  Writer& out_;
  const Changes& changes_;
};

}  // namespace

std::string write(const Changes& changes) {
  return Writer::document([&](Writer& out) { ChangesWriter(out, changes).write(); });
}

}  // namespace fairlead::json
