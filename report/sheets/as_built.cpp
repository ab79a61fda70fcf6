#include "report/sheets/as_built.hpp"

#include <fmt/format.h>

#include "report/sheets/furniture.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

std::string measured_by(const std::string& what, const std::string& file, const std::string& sha256) {
  return fmt::format("{}: {}, SHA-256 {}", what, file, sha256);
}

Block beginning(const AsBuilt& as_built) {
  const Survey& survey = as_built.survey;
  std::vector<Paragraph> said;
  if (survey.terms.tapes_alone)
    said.push_back({"",
                    fmt::format("Tapes alone: {} were not measured; they are held where the layout has them, and all "
                                "else counts from them.",
                                fmt::join(survey.terms.control, ", ")),
                    Layer::notes});
  else
    said.push_back({"", measured_by("Points", survey.points_file, survey.points_sha256), Layer::notes});
  if (!survey.measurements_file.empty())
    said.push_back(
        {"", measured_by("Measurements", survey.measurements_file, survey.measurements_sha256), Layer::notes});
  if (survey.earlier)
    said.push_back(
        {"", measured_by("Compared with", survey.earlier->points_file, survey.earlier->points_sha256), Layer::notes});
  return block_of(Paragraphs(words::headline(as_built.built), std::move(said), {small_cap_mm}));
}

Block cautions() {
  std::vector<Paragraph> all;
  for (const std::string_view one : words::cautions())
    all.push_back({std::to_string(all.size() + 1) + '.', std::string(one), Layer::cautions});
  return block_of(Paragraphs("CAUTIONS", std::move(all), {small_cap_mm}));
}

void put_all(Pages& pages, const std::vector<Table>& all, const Style& style) {
  for (const Table& table : all)
    if (!table.rows.empty() || !table.notes.empty()) pages.put(table, style);
}

}  // namespace

std::vector<Sheet> compose_as_built(const AsBuilt& as_built, const Style& style, const Office& office) {
  const Dossier dossier{as_built.built};
  std::vector<Body> bodies;
  Pages pages(dossier, office, bodies);
  pages.begin({"As built: marks", "As-built record", "none", {}}, {pages.above_title_block(), pages.columns().back()});
  pages.put(beginning(as_built));
  put_all(pages,
          {tables::built_marks(as_built, style), tables::control_points(as_built, style),
           tables::tapes(as_built, style), tables::moved_since(as_built), tables::built_values(as_built, style),
           tables::resting_on_held(as_built), tables::not_measured(as_built)},
          style);
  pages.put(cautions());
  findings_sheet.compose(dossier, style, office, bodies);
  if (const Table shares = tables::built_shares(as_built); !shares.rows.empty() || !shares.notes.empty()) {
    Pages behind(dossier, office, bodies);
    behind.begin({"As built: findings over the draws", "As-built record", "none", {}}, {behind.above_title_block()});
    behind.put(shares, style);
  }
  return finished(std::move(bodies), office, as_built.built.rig.layout);
}

}  // namespace fairlead::sheets
