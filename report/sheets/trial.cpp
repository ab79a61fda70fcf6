// Unmanned tests: what came of them, where they were made, and their plan: how, in which order, when to stop.
#include <fmt/format.h>

#include "geometry/trial/trial.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/trial.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) { return dossier.trial && dossier.trial->plan; }

Block sentences(std::string heading, const std::vector<std::string>& all, Layer layer) {
  std::vector<Paragraph> paragraphs;
  for (const std::string& one : all) paragraphs.push_back({std::to_string(paragraphs.size() + 1) + '.', one, layer});
  return block_of(Paragraphs(std::move(heading), std::move(paragraphs), {small_cap_mm}));
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  const Rig& rig = dossier.judged.rig;
  if (const auto& results = dossier.trial->results) {
    pages.begin({"Unmanned tests: results", "Test results", "none", {}}, pages.columns());
    pages.put(block_of(Paragraphs(
        words::headline(dossier),
        {{"", fmt::format("What was read at the tests: {}, SHA-256 {}", results->file, results->sha256), Layer::notes}},
        {small_cap_mm})));
    for (const Table& table : {tables::trial_verdicts(dossier, style), tables::trial_results(dossier, style),
                               tables::trial_fit(dossier, style), tables::trial_findings(dossier, style)})
      if (!table.rows.empty() || !table.notes.empty()) pages.put(table, style);
  }
  pages.begin({"Unmanned tests: plan", "Test plan", "none", {}}, {pages.above_title_block(), pages.columns().back()});
  pages.put(sentences("STOP, AND FIND OUT WHY BEFORE ANYTHING ELSE IS LET GO", words::stop_criteria(rig, style),
                      Layer::cautions));
  pages.put(tables::trial_hand_pulls(dossier, style), style);
  pages.put(tables::trial_masses(dossier, style), style);
  pages.put(sentences("HOW THE TESTS ARE MADE", words::trial_steps(rig, style), Layer::notes));
  pages.put(tables::trial_acceptance(dossier, style), style);
}

}  // namespace

const SheetKind trial_sheet{"trial", applies, compose};

}  // namespace fairlead::sheets
