#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/symbols.hpp"
#include "report/sheets/furniture.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr Layer layer = Layer::title_block;
constexpr double width_mm = 180, row_mm = 9, title_row_mm = 15, status_row_mm = 8;
constexpr double block_height_mm = 3 * row_mm + title_row_mm + status_row_mm;
constexpr double revision_row_mm = 5;
constexpr std::size_t most_revisions = 3;
constexpr double inset_mm = 1.2;

std::string words_or(const std::optional<Words>& words, std::string_view otherwise) {
  return words && !words->value.empty() ? words->value : std::string(otherwise);
}

/// One field: its name small in the upper left corner, what it holds below.
struct Cell {
  double width{};
  std::string_view caption;
  std::string value;
};

/// What a field's own name leaves of it.
Box under_caption(const Box& box) {
  constexpr double below_mm = 0.8, gap_mm = 0.5;
  return {box.left + inset_mm, box.bottom + below_mm, box.right - inset_mm, box.top - inset_mm - small_cap_mm - gap_mm};
}

class Block {
 public:
  Block(const Canvas& canvas, Paper lower_left) : canvas_(canvas), corner_(lower_left) {}

  /// A row of fields from the left edge at a height above the block's lower edge.
  void row(double bottom, double height, const std::vector<Cell>& cells, double cap_mm = note_cap_mm) const {
    double x = 0;
    for (const Cell& cell : cells) {
      const Box box = at({x, bottom, x + cell.width, bottom + height});
      canvas_.box(box, rule);
      field(box, cell, cap_mm);
      x += cell.width;
    }
  }

  Box at(const Box& b) const {
    return {corner_.x_mm + b.left, corner_.y_mm + b.bottom, corner_.x_mm + b.right, corner_.y_mm + b.top};
  }
  const Canvas& canvas() const { return canvas_; }

  static constexpr Pen rule{hair_mm, LineType::continuous, layer}, edge{wide_mm, LineType::continuous, layer};

 private:
  void field(const Box& box, const Cell& cell, double cap_mm) const {
    canvas_.text({box.left + inset_mm, box.top - inset_mm - caption_cap_mm}, std::string(cell.caption), caption_cap_mm,
                 Layer::title_block);
    canvas_.fill(under_caption(box), cell.value, {cap_mm, note_cap_mm, small_cap_mm}, layer);
  }
  static constexpr double caption_cap_mm = 1.8;

  const Canvas& canvas_;
  Paper corner_;
};

void draw_status(const Block& block, const Layout& layout, double bottom) {
  const Box box = block.at({0, bottom, width_mm, bottom + status_row_mm});
  block.canvas().box(box, Block::rule);
  const double baseline = box.centre().y_mm;
  if (words_or(layout.project.approver, "").empty())
    block.canvas().text({box.left + inset_mm, baseline - heading_cap_mm / 2}, "NOT FOR CONSTRUCTION", heading_cap_mm,
                        Layer::cautions);
  // In English whatever the language: it says which of the two counts.
  if (const Wording* wording = block.canvas().font().wording(); wording && wording->language() != "en")
    block.canvas().lettering({box.centre().x_mm, baseline - small_cap_mm / 2}, "Translated labels: the English governs",
                             small_cap_mm, layer, Align::centre);
  block.canvas().text({box.right - inset_mm, baseline - note_cap_mm / 2}, "Calculation aid, not an approval",
                      note_cap_mm, layer, Align::right);
}

void draw_title(const Block& block, const Layout& layout, const SheetEntries& sheet, double bottom) {
  constexpr double owner_mm = 58;
  block.row(bottom, title_row_mm, {{owner_mm, "Legal owner", layout.project.owner.value}}, heading_cap_mm);
  const Box box = block.at({owner_mm, bottom, width_mm, bottom + title_row_mm});
  const Canvas& canvas = block.canvas();
  canvas.box(box, Block::rule);
  canvas.text({box.left + inset_mm, box.top - inset_mm - small_cap_mm}, "Title, supplementary title", small_cap_mm,
              layer);
  const Box inside = under_caption(box);
  const double supplementary_mm = 4.4;
  canvas.fill({inside.left, inside.bottom + supplementary_mm, inside.right, inside.top}, layout.project.title.value,
              {heading_cap_mm, note_cap_mm, small_cap_mm}, layer);
  canvas.fill({inside.left, inside.bottom, inside.right, inside.bottom + supplementary_mm}, sheet.title,
              {note_cap_mm, small_cap_mm}, layer);
}

/// Newest on top, headings at the foot, so that the next row grows upward.
std::vector<Revision> shown_revisions(const Layout& layout) {
  std::vector<Revision> rows = layout.project.history;
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Revision& a, const Revision& b) { return a.date.value < b.date.value; });
  if (rows.size() > most_revisions) rows.erase(rows.begin(), rows.end() - most_revisions);
  return rows;
}

void draw_revisions(const Canvas& canvas, Paper corner, const Layout& layout) {
  const auto rows = shown_revisions(layout);
  if (rows.empty()) return;
  constexpr double columns[] = {0, 14, 120, 146, width_mm};
  const std::size_t left_out = layout.project.history.size() - rows.size();
  const std::string change = left_out == 0 ? "Change" : fmt::format("Change ({} earlier in the layout file)", left_out);
  const double height = static_cast<double>(rows.size() + 1) * revision_row_mm;
  const auto entry = [&](std::size_t column, double y, std::string_view text, double cap) {
    canvas.fill({corner.x_mm + columns[column] + inset_mm, y, corner.x_mm + columns[column + 1] - inset_mm,
                 y + revision_row_mm},
                text, {cap, small_cap_mm}, layer);
  };
  const std::string_view headings[] = {"Rev.", change, "Date", "By"};
  for (std::size_t c = 0; c < 4; ++c) entry(c, corner.y_mm, headings[c], small_cap_mm);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const double y = corner.y_mm + static_cast<double>(r + 1) * revision_row_mm;
    const std::string date = words::date_of(rows[r].date);
    const std::string_view entries[] = {rows[r].revision, rows[r].change, date, rows[r].by};
    for (std::size_t c = 0; c < 4; ++c) entry(c, y, entries[c], note_cap_mm);
    canvas.line({{corner.x_mm, y}, {corner.x_mm + width_mm, y}}, Block::rule);
  }
  for (std::size_t c = 1; c < 4; ++c)
    canvas.line({{corner.x_mm + columns[c], corner.y_mm}, {corner.x_mm + columns[c], corner.y_mm + height}},
                Block::rule);
  canvas.box({corner.x_mm, corner.y_mm, corner.x_mm + width_mm, corner.y_mm + height}, Block::edge);
}

}  // namespace

Box title_corner(const Stationery& s, const Layout& layout) {
  const auto rows = shown_revisions(layout).size();
  const double revisions = rows == 0 ? 0 : static_cast<double>(rows + 1) * revision_row_mm;
  return {s.frame.right - width_mm, s.frame.bottom, s.frame.right, s.frame.bottom + block_height_mm + revisions};
}

void draw_title_block(const Canvas& canvas, const Stationery& s, const Layout& layout, const SheetEntries& sheet) {
  const Paper corner{s.frame.right - width_mm, s.frame.bottom};
  const Block block(canvas, corner);
  const Project& project = layout.project;
  const std::string date = project.date ? words::date_of(*project.date) : "undated";

  const Wording* wording = canvas.font().wording();
  const std::string scale = sheet.scale == "none" ? "none" : fmt::format("{} at {}", sheet.scale, s.name);
  block.row(0, row_mm,
            {{42, "Scale", scale},
             {20, "Projection", ""},
             {38, "Identification number", project.number.value},
             {14, "Rev.", project.revision.value},
             {28, "Date of issue", date},
             {16, "Language", wording ? wording->language() : "en"},
             {22, "Sheet", fmt::format("{} / {}", sheet.number, sheet.count)}});
  // From any other sheet back to the one with the index.
  const Box number = block.at({width_mm - 22, 0, width_mm, row_mm});
  if (sheet.number > 1) canvas.drawing().links.push_back({{number.left, number.bottom}, {number.right, number.top}, 0});
  const Box sign = block.at({42, 0, 62, row_mm});
  projection_sign(canvas, {sign.left + 2, sign.bottom + 1.8, sign.right - 2, sign.bottom + 4.8}, s.first_angle, layer);
  block.row(row_mm, row_mm,
            {{48, "Document type", std::string(sheet.document_type)},
             {44, "Created by", words_or(project.creator, "—")},
             {44, "Checked by", words_or(project.checker, "—")},
             {44, "Approved by", words_or(project.approver, "—")}});
  draw_title(block, layout, sheet, 2 * row_mm);
  block.row(2 * row_mm + title_row_mm, row_mm,
            {{58, "Site", layout.site.name.value},
             {46, "Datum", words_or(layout.site.datum, "not stated")},
             {36, "Program", fmt::format("fairlead {}", words::program_version())},
             {40, "Layout SHA-256, begins", layout.sha256.substr(0, 12)}});
  draw_status(block, layout, 3 * row_mm + title_row_mm);
  canvas.box(block.at({0, 0, width_mm, block_height_mm}), Block::edge);
  draw_revisions(canvas, {corner.x_mm, corner.y_mm + block_height_mm}, layout);
}

}  // namespace fairlead::sheets
