#include "report/sheets/list.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

#include "report/sheets/furniture.hpp"

namespace fairlead::sheets {

namespace {

constexpr const SheetKind* sheets[] = {
    &general_arrangement, &section_and_isometric_sheet, &findings_sheet,         &reeving_sheet,
    &setting_out_sheet,   &anchor_loads_sheet,          &schedules_sheet,        &main_line_sheet,
    &clearances_sheet,    &arrest_chart_sheet,          &arrest_histories_sheet, &arrest_corners_sheet,
    &arrest_reset_sheet,  &calculation_sheet,           &reductions_sheet,       &as_built_record_sheet,
    &trial_sheet,         &trial_record_sheet};

/// The words of an index, each line of them a label, and where in all of them it begins.
struct IndexLine {
  std::size_t start{};
  const drawing::Label* label{};
};
struct IndexWords {
  std::string all;
  std::vector<IndexLine> lines;
};
IndexWords index_of(const drawing::Drawing& drawing, std::string_view beginning) {
  IndexWords words;
  for (const auto& entity : drawing.entities) {
    const auto* label = std::get_if<drawing::Label>(&entity);
    if (!label || (words.all.empty() && !label->text.starts_with(beginning))) continue;
    words.lines.push_back({words.all.size(), label});
    words.all += label->text + ' ';
    if (label->text.ends_with('.')) break;
  }
  return words;
}

/// Where in an index the title of a sheet stands.
struct Listed {
  std::size_t sheet{}, from{}, to{};
};
/// The titles it lists, each by its first sheet; not that of the sheet it stands on.
std::vector<Listed> listed_in(const IndexWords& index, std::size_t carrier, const std::vector<drawing::Sheet>& set,
                              const drawing::Font& font) {
  std::vector<Listed> all;
  std::size_t behind = 0;
  for (std::size_t i = 0; i < set.size(); ++i) {
    if (i == carrier || (i > 0 && set[i].title == set[i - 1].title)) continue;
    const std::string title(font.said(set[i].title)), mark = i == 0 ? ": " : "; ";
    const std::size_t begin = index.all.find(mark + title, behind);
    if (begin == std::string::npos) continue;
    behind = begin + mark.size() + title.size();
    all.push_back({i, begin + mark.size(), behind});
  }
  return all;
}

/// Over what of a title stands on a line, if anything does.
std::optional<drawing::Link> link_on(const IndexLine& line, const Listed& title, const drawing::Font& font) {
  const drawing::Label& label = *line.label;
  const std::size_t from = std::max(title.from, line.start), to = std::min(title.to, line.start + label.text.size());
  if (from >= to) return std::nullopt;
  const auto x_mm = [&](std::size_t place) {
    return label.at.x_mm + font.width_mm(label.text.substr(0, place - line.start), label.cap_mm);
  };
  constexpr double about_mm = 0.4;
  return drawing::Link{
      {x_mm(from), label.at.y_mm - about_mm}, {x_mm(to), label.at.y_mm + label.cap_mm + about_mm}, title.sheet};
}

/// Makes every title in the index of the set lead to its first sheet, line by line where it is broken. It stands on the
/// first sheet, or on the first of those behind the views.
void link_index(std::vector<drawing::Sheet>& set, const drawing::Font& font) {
  const std::string elsewhere = std::string(font.said(index_elsewhere_beginning)) + ": ";
  for (std::size_t at = 0; at < set.size(); ++at) {
    drawing::Drawing& carrier = set[at].drawing;
    const IndexWords index = index_of(carrier, at == 0 ? font.said(index_beginning) : std::string_view(elsewhere));
    if (index.lines.empty()) continue;
    for (const Listed& title : listed_in(index, at, set, font))
      for (const IndexLine& line : index.lines)
        if (const auto link = link_on(line, title, font)) carrier.links.push_back(*link);
    return;
  }
}

}  // namespace

std::span<const SheetKind* const> all_sheets() { return sheets; }

std::vector<drawing::Sheet> finished(std::vector<Body> bodies, const Office& office, const Layout& layout) {
  const Stationery paper = stationery(office);
  const bool foot_taken = title_corner(paper, layout).left < paper.width_mm / 2;
  std::vector<drawing::Sheet> set;
  for (Body& body : bodies) {
    drawing::Sheet sheet{std::string(body.title), paper.width_mm, paper.height_mm,
                         std::move(body.drawing), office.grey,    std::move(body.left_out)};
    const drawing::Canvas canvas(sheet.drawing, office.font);
    draw_frame(canvas, paper, foot_taken);
    draw_title_block(canvas, paper, layout,
                     {body.title, body.document_type, body.scale, static_cast<int>(set.size()) + 1,
                      static_cast<int>(bodies.size())});
    set.push_back(std::move(sheet));
  }
  return set;
}

std::vector<drawing::Sheet> compose(const Dossier& dossier, const Style& style, const Office& office,
                                    std::optional<std::string_view> only) {
  // The first kind carries the index of the set, so the others are made before it.
  std::vector<Body> bodies, behind;
  Office first = office;
  const auto kinds = all_sheets().subspan(1);
  std::vector<std::vector<Body>> of_kind(kinds.size());
  for_each_index(office.work, static_cast<int>(kinds.size()), [&](int i) {
    const SheetKind& kind = *kinds[static_cast<std::size_t>(i)];
    if ((!only || *only == kind.name) && kind.applies(dossier))
      kind.compose(dossier, style, office, of_kind[static_cast<std::size_t>(i)]);
  });
  for (std::vector<Body>& one : of_kind) std::move(one.begin(), one.end(), std::back_inserter(behind));
  for (const Body& body : behind) first.more.push_back(body.title);
  if (const SheetKind& kind = *all_sheets().front(); (!only || *only == kind.name) && kind.applies(dossier))
    kind.compose(dossier, style, first, bodies);
  std::move(behind.begin(), behind.end(), std::back_inserter(bodies));

  std::vector<drawing::Sheet> set = finished(std::move(bodies), office, dossier.judged.rig.layout);
  link_index(set, office.font);
  return set;
}

}  // namespace fairlead::sheets
