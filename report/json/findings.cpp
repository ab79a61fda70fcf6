#include "report/json/stages.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/sentence.hpp"

namespace fairlead::json {

namespace {

void write_fact(Writer& out, const Layout& layout, const Fact& fact) {
  out.text("name", fact.name);
  if (const auto* quantity = std::get_if<Quantity>(&fact.value)) {
    out.number("number", quantity->si);
    out.text("unit", words::si_unit(quantity->dimension));
  } else if (const auto* item = std::get_if<Item>(&fact.value)) {
    out.text("text", words::name_of(layout, *item));
  } else {
    out.text("text", std::get<std::string>(fact.value));
  }
}

void write_finding(Writer& out, const Layout& layout, const Finding& finding) {
  const Style si{Units::si};
  const auto measured = [&](double value) { return finding.measured ? std::optional<double>(value) : std::nullopt; };
  out.text("check", finding.check->name);
  out.text("subject_kind", words::kind_of(finding.subject.kind));
  out.text("subject", words::id_of(layout, finding.subject));
  out.text("outcome", words::word_for(words::outcome_of(finding)));
  out.text("verdict", words::word_for(finding.verdict));
  finding.waiver >= 0 ? out.count("waiver", finding.waiver) : out.null("waiver");
  out.text("sentence", words::sentence(layout, finding, si));
  out.text("remedy", words::remedy(layout, finding, si));
  out.text("why", finding.why);
  out.text("unit", words::si_unit(finding.check->dimension));
  out.number("value", measured(finding.value));
  out.number("bound", measured(finding.bound));
  out.number("limit", finding.limit ? std::optional<double>(finding.limit->at.value) : std::nullopt);
  finding.limit ? out.text("limit_basis", finding.limit->basis) : out.null("limit_basis");
  out.number("travel_m", finding.travel_m);
  finding.at ? out.vector("at_m", *finding.at) : out.null("at_m");
  out.text("place", words::place_of(layout, finding.place));
  out.objects("facts", finding.facts, [&](const Fact& fact) { write_fact(out, layout, fact); });
}

}  // namespace

void write_findings(Writer& out, const Judged& judged) {
  const Layout& layout = judged.rig.layout;
  out.objects("findings", judged.findings, [&](const Finding& finding) { write_finding(out, layout, finding); });
  out.column("checks_without_subject", words::without_subject(judged.findings),
             [](const Check* check) { return check->name; });
  out.objects("waivers", layout.waivers, [&](const Waiver& waiver) {
    out.text("check", waiver.check.value);
    waiver.subject ? out.text("subject", *waiver.subject) : out.null("subject");
    out.text("who", waiver.who);
    out.text("why", waiver.why);
    out.text("until", words::date_of(waiver.until));
  });
}

}  // namespace fairlead::json
