#include <algorithm>
#include <numeric>

#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/sentence.hpp"

namespace fairlead::tables {

std::vector<std::size_t> worst_first(const std::vector<Finding>& findings) {
  std::vector<std::size_t> order(findings.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return words::outcome_of(findings[a]) < words::outcome_of(findings[b]);
  });
  return order;
}

Table findings(const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Findings", {"outcome", "check", "finding", "what would help", "place"}, {}, {}};
  for (const std::size_t i : worst_first(dossier.judged.findings)) {
    const Finding& f = dossier.judged.findings[i];
    table.rows.push_back({std::string(words::word_for(words::outcome_of(f))), std::string(f.check->name),
                          words::sentence(layout, f, style), words::remedy(layout, f, style),
                          words::place_without_folder(layout, f.place)});
  }
  return table;
}

Table judged(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"All that was judged",
              {"outcome", "check", "of", "value", "at worst", "limit", "who says so"},
              {},
              {},
              {{3, 4, 5}}};
  for (const std::size_t i : worst_first(dossier.judged.findings)) {
    const Finding& f = dossier.judged.findings[i];
    const auto number = [&](double si) { return f.measured ? cell(si, f.check->dimension) : Cell{}; };
    const std::string basis = f.limit ? f.limit->basis : "";
    table.rows.push_back({std::string(words::word_for(words::outcome_of(f))), std::string(f.check->title),
                          words::name_of(layout, f.subject), number(f.value), number(f.bound),
                          f.limit ? cell(f.limit->at.value, f.check->dimension) : Cell{}, basis});
  }
  table.notes.push_back(
      "\"At worst\" holds for every position between those that were solved; it is what was held against the limit.");
  return table;
}

}  // namespace fairlead::tables
