#include <algorithm>

#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {
namespace {

/// Of those that do not pass, and are not told here: without them the verdict would seem to come from nowhere.
std::string others_text(const std::vector<Finding>& others) {
  const auto open = std::count_if(others.begin(), others.end(), [](const Finding& finding) {
    const words::Outcome outcome = words::outcome_of(finding);
    return outcome != words::Outcome::pass && outcome != words::Outcome::waived;
  });
  if (open == 0) return "";
  return '\n' + words::wrapped("", std::to_string(open) + (open == 1 ? " finding" : " findings") +
                                       " of other checks not passed: fairlead check tells them.");
}

}  // namespace

std::string write_arrest(const Dossier& dossier, const Style& style) {
  const Judged& judged = dossier.judged;
  const std::span<const Check* const> checks = words::arrest_checks();
  std::vector<Finding> own, others;
  for (const Finding& finding : judged.findings)
    (std::find(checks.begin(), checks.end(), finding.check) != checks.end() ? own : others).push_back(finding);
  std::string text = words::headline(judged) + "\n\nARREST: predicted, untested\n" + whose(judged.rig.layout);
  text += findings_text(judged.rig.layout, own, style);
  text += others_text(others);
  for (const Table& table :
       {tables::governing(dossier, style), tables::arrivals(dossier, style), tables::dispatch(dossier, style),
        tables::resets(dossier, style), tables::corners(dossier, style)})
    text += '\n' + write_in_parts(table, style);
  return text + closing_text(dossier);
}

}  // namespace fairlead::text
