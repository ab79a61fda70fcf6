#include <fmt/format.h>

#include "report/sheets/furniture.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr Layer layer = Layer::title_block;
constexpr double cap_mm = heading_cap_mm, row_mm = 6.2, status_row_mm = 8, inset_mm = 1.5;
constexpr int rows = 4;
constexpr Pen rule{hair_mm, LineType::continuous, layer};

std::string named(std::string_view what, const std::optional<Words>& who) {
  return fmt::format("{}: {}", what, who && !who->value.empty() ? who->value : "—");
}

/// Fields of shares of a row's width, what does not fit cut visibly.
void draw_row(const Canvas& canvas, const Box& row, const std::vector<std::pair<double, std::string>>& fields) {
  double left = row.left;
  for (const auto& [share, text] : fields) {
    const Box field{left, row.bottom, left + share * row.width(), row.top};
    canvas.box(field, rule);
    canvas.lettering({field.left + inset_mm, field.centre().y_mm - cap_mm / 2},
                     canvas.fitted(text, cap_mm, field.width() - 2 * inset_mm), cap_mm, layer);
    left = field.right;
  }
}

}  // namespace

Box title_strip(const Stationery& s) {
  return {s.frame.left, s.frame.bottom, s.frame.right, s.frame.bottom + rows * row_mm + status_row_mm};
}

void draw_title_strip(const Canvas& canvas, const Stationery& s, const Layout& layout, const SheetEntries& sheet) {
  const Project& project = layout.project;
  const Box strip = title_strip(s);
  // The border between the first two fields then goes on where the centring mark at the foot ends.
  const double half = (s.width_mm / 2 - strip.left) / strip.width();
  const auto row = [&](int up) {
    return Box{strip.left, strip.bottom + up * row_mm, strip.right, strip.bottom + (up + 1) * row_mm};
  };
  draw_row(canvas, row(0),
           {{half, fmt::format("{}, rev. {}", project.number.value, project.revision.value)},
            {0.5 * (1 - half), project.date ? words::date_of(*project.date) : "undated"},
            {0.5 * (1 - half), fmt::format("Sheet {} / {}", sheet.number, sheet.count)}});
  draw_row(canvas, row(1),
           {{half, fmt::format("Layout file SHA-256 {}...", layout.sha256.substr(0, 12))},
            {0.5 * (1 - half), fmt::format("fairlead {}", words::program_version())},
            {0.5 * (1 - half), sheet.scale == "none" ? "Not to scale" : sheet.scale}});
  draw_row(canvas, row(2),
           {{0.34, named("Created", project.creator)},
            {0.33, named("Checked", project.checker)},
            {0.33, named("Approved", project.approver)}});
  draw_row(canvas, row(3),
           {{0.5, project.owner.value}, {0.5, fmt::format("{}: {}", sheet.document_type, project.title.value)}});
  const Box status{strip.left, row(3).top, strip.right, strip.top};
  canvas.box(status, rule);
  const bool approved = project.approver && !project.approver->value.empty();
  const double middle = status.centre().y_mm;
  if (!approved)
    canvas.text({status.left + inset_mm, middle - title_cap_mm / 2}, "NOT FOR CONSTRUCTION", title_cap_mm,
                Layer::cautions);
  const Wording* wording = canvas.font().wording();
  const bool translated = wording && wording->language() != "en";
  const auto at_right = [&](double lines_up, double cap) {
    return Paper{status.right - inset_mm, middle - cap / 2 + lines_up * 1.4 * cap};
  };
  const double aid_cap = translated ? note_cap_mm : cap_mm;
  canvas.text(at_right(translated ? 0.5 : 0, aid_cap), "Calculation aid, not an approval", aid_cap, layer,
              Align::right);
  // In English whatever the language: it says which of the two counts.
  if (translated)
    canvas.lettering(at_right(-0.5, note_cap_mm), "Translated labels: the English governs", note_cap_mm, layer,
                     Align::right);
  canvas.box(strip, {wide_mm, LineType::continuous, layer});
}

}  // namespace fairlead::sheets
