#include "report/formats/text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/formats/text_parts.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/sentence.hpp"
#include "report/words/version.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {
namespace {

using words::wrapped;

std::string capitals(std::string_view word) {
  std::string out(word);
  for (char& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

/// Checks that met nothing to judge: silence would read as a pass.
std::string without_subject(const Judged& judged) {
  std::string names;
  for (const Check* check : words::without_subject(judged.findings))
    names += fmt::format("{}{}", names.empty() ? "" : ", ", check->name);
  return names.empty() ? "" : '\n' + wrapped("Nothing to judge: ", names);
}

std::string waivers_text(const Judged& judged) {
  const auto& waivers = judged.rig.layout.waivers;
  std::string text;
  for (std::size_t i = 0; i < waivers.size(); ++i) {
    const auto used = std::count_if(judged.findings.begin(), judged.findings.end(),
                                    [&](const Finding& f) { return f.waiver == static_cast<int>(i); });
    text += wrapped("  ", fmt::format("{} {}, {}; {}", waivers[i].check.value,
                                      waivers[i].subject.value_or("(every subject)"), words::terms_of(waivers[i]),
                                      used ? fmt::format("waives {}", used)
                                           : "waives nothing: no such finding, out of date, or no date to judge by"));
  }
  return text.empty() ? "" : "\nWaivers\n" + text;
}

/// Without the nearest points, and only the nearest rows: a screen is small. JSON and sheets tell all.
Table in_short(Table table) {
  constexpr std::size_t shown = 12;
  if (table.rows.empty()) return table;
  table.headings.pop_back();
  for (auto& row : table.rows) row.pop_back();
  if (table.rows.size() > shown)
    table.notes.push_back(
        fmt::format("The {} nearest of {} pairs; `--format json` tells all.", shown, table.rows.size()));
  table.rows.resize(std::min(shown, table.rows.size()));
  std::erase_if(table.notes, [](const std::string& note) { return note.starts_with("Points: "); });
  return table;
}

std::string exclusions_text(const Dossier& dossier, const Style& style) {
  const Table table = tables::exclusions(dossier, style);
  // One sentence a reason, with all pairs it holds for.
  std::vector<std::pair<std::string, std::string>> reasons;
  for (const auto& row : table.rows) {
    const auto word = [&](std::size_t column) { return std::get<std::string>(row[column]); };
    const auto found =
        std::find_if(reasons.begin(), reasons.end(), [&](const auto& reason) { return reason.first == word(3); });
    const std::string within = word(2) == "everywhere" ? "" : fmt::format(" within {}", word(2));
    const std::string pair = fmt::format("{} from {}{}", word(0), word(1), within);
    if (found == reasons.end())
      reasons.emplace_back(word(3), pair);
    else
      found->second += "; " + pair;
  }
  std::string text;
  for (const auto& [why, pairs] : reasons) text += wrapped("  - ", fmt::format("{}: {}", why, pairs));
  return text.empty() ? "" : fmt::format("\n{}\n{}", table.title, text);
}

/// What the mechanics gave, as tables; those without anything to tell are left out.
std::string tables_text(const Dossier& dossier, const Style& style) {
  std::string text;
  for (const Table& table : {tables::main_line_bare(dossier),
                             tables::main_line_loaded(dossier),
                             tables::support_lines(dossier),
                             tables::reduction(dossier, style),
                             tables::anchor_loads(dossier, style),
                             tables::members(dossier, style),
                             tables::members_lost(dossier, style),
                             tables::strength(dossier),
                             tables::sheaves(dossier, style),
                             tables::sheave_axles(dossier),
                             tables::blocks(dossier, style),
                             tables::lines(dossier),
                             tables::line_lengths(dossier),
                             tables::line_strength(dossier),
                             tables::line_tensions(dossier, style),
                             tables::stretch(dossier, style),
                             tables::rest_positions(dossier),
                             tables::legs(dossier, style),
                             tables::governing(dossier, style),
                             tables::dispatch(dossier, style),
                             tables::resets(dossier, style),
                             in_short(tables::clearances(dossier, style)),
                             in_short(tables::named_instants(dossier, style))})
    if (!table.rows.empty() || !table.notes.empty()) text += '\n' + write(table, style);
  return text;
}

}  // namespace

std::string whose(const Layout& layout) {
  const Project& project = layout.project;
  // A concept has no site yet.
  const std::string& site = layout.site.name.value;
  std::string text =
      wrapped("", fmt::format("{}: {}, {} revision {}{}{}", project.owner.value, project.title.value,
                              project.number.value, project.revision.value, site.empty() ? "" : ", ", site));
  // Two files fill a line by themselves.
  const std::string points = layout.points ? " with " + layout.files.back() + "\n" : ", ";
  text += fmt::format("{}{}sha256 {}\n", layout.files.empty() ? "" : layout.files.front(), points, layout.sha256);
  return text + fmt::format("fairlead {}\n", words::program_version());
}

std::string findings_text(const Layout& layout, const std::vector<Finding>& findings, const Style& style) {
  std::size_t widest = 0;
  for (const Finding& finding : findings) widest = std::max(widest, finding.check->name.size());
  std::string text;
  std::optional<words::Outcome> group;
  words::ReasonsOnce reasons;
  for (const std::size_t i : tables::worst_first(findings)) {
    const Finding finding = reasons.told(findings[i]);
    const words::Outcome outcome = words::outcome_of(finding);
    if (group != outcome) text += '\n' + capitals(words::word_for(outcome)) + '\n';
    group = outcome;
    text += wrapped(
        fmt::format("  {:{}}  ", finding.check->name, widest),
        fmt::format("{} [{}]", words::sentence(layout, finding, style), words::place_of(layout, finding.place)));
    const std::string further(widest + 4, ' ');
    if (finding.waiver >= 0 && outcome == words::Outcome::waived)
      text +=
          wrapped(further, "Waived " + words::terms_of(layout.waivers.at(static_cast<std::size_t>(finding.waiver))));
    if (const std::string help = words::remedy(layout, finding, style); !help.empty())
      text += wrapped(further, "What would help: " + help);
  }
  return text;
}

std::string list_text(std::string_view title, std::span<const std::string_view> sentences) {
  std::string text = fmt::format("\n{}\n", title);
  for (const std::string_view sentence : sentences) text += wrapped("  - ", sentence);
  return text;
}

std::string assumptions_text(const Dossier& dossier) {
  std::string text;
  for (const auto& row : tables::assumptions(dossier).rows) text += wrapped("  - ", std::get<std::string>(row.front()));
  return text.empty() ? "" : "\nTaken for granted\n" + text;
}

std::string closing_text(const Dossier& dossier) {
  return assumptions_text(dossier) + list_text("Not looked at by this version", words::not_checked()) +
         list_text("Cautions", words::cautions());
}

std::string write(const Dossier& dossier, const Style& style) {
  const Judged& judged = dossier.judged;
  std::string text = words::headline(judged) + "\n\n" + whose(judged.rig.layout);
  text += findings_text(judged.rig.layout, judged.findings, style);
  text += without_subject(judged);
  text += waivers_text(judged);
  text += tables_text(dossier, style);
  text += exclusions_text(dossier, style);
  return text + closing_text(dossier);
}

}  // namespace fairlead::text
