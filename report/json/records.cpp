#include "report/json/records.hpp"

#include "report/json/json.hpp"
#include "report/json/stages.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 1;  ///< rises when a key changes its meaning or goes

void put(Writer& out, const char* key, const std::optional<Date>& date) {
  date ? out.text(key, words::date_of(*date)) : out.null(key);
}
void put(Writer& out, const char* key, const std::string& text) { text.empty() ? out.null(key) : out.text(key, text); }

}  // namespace

std::string write(const Records& records, const Layout& layout) {
  return Writer::document([&](Writer& out) {
    out.count("format_version", format_version);
    out.text("program", "fairlead");
    out.text("program_version", words::program_version());
    out.object("layout", [&] { write_identity(out, layout); });
    put(out, "date", records.date);
    out.text("verdict", words::word_for(records.verdict));
    out.objects("findings", records.findings, [&](const RecordFinding& one) {
      out.text("part", one.part);
      out.text("what", keyword(one.kind));
      out.text("verdict", words::word_for(one.verdict));
      put(out, "why", one.why);
      one.days_left ? out.count("days_left", *one.days_left) : out.null("days_left");
      out.number("value", one.value);
      out.number("uncertainty", one.uncertainty);
      out.number("limit", one.limit);
      put(out, "limit_basis", one.basis);
      out.number("worn", one.worn);
    });
    out.objects("parts", records.input.parts, [&](const RegisteredPart& one) {
      out.text("part", one.part);
      out.text("serial", one.serial);
      put(out, "batch", one.batch);
      put(out, "in_service", one.in_service);
      put(out, "retire_by", one.retire_by);
      put(out, "inspect_by", one.inspect_by);
      out.number("cycles", one.cycles);
      out.number("most_cycles", one.most_cycles);
      out.number("baseline_m", one.baseline_m);
      out.number("least_m", one.least_m);
      put(out, "basis", one.basis);
      out.count("line", static_cast<long>(one.line));
    });
    out.objects("log", records.input.log, [&](const LoggedFinding& one) {
      out.text("id", one.id);
      put(out, "found", one.found);
      out.text("part", one.part);
      out.text("what", one.what);
      put(out, "closed", one.closed);
      put(out, "by", one.by);
      put(out, "how", one.how);
      out.count("line", static_cast<long>(one.line));
    });
    out.column("cautions", words::cautions(), [](std::string_view one) { return one; });
  });
}

}  // namespace fairlead::json
