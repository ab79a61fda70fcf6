#include "report/sheets/pages.hpp"

#include <algorithm>

#include "report/sheets/furniture.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double gap_mm = 4;

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

}  // namespace

Block block_of(const Table& table, const Style& style) {
  const tables::Shown shown = tables::shown(table, style);
  std::vector<Column> columns;
  for (std::size_t c = 0; c < shown.headings.size(); ++c)
    columns.push_back({shown.headings[c], shown.numeric[c] ? Align::right : Align::left, !shown.numeric[c]});
  auto rows = shown.rows;
  for (auto& row : rows)
    for (std::string& cell : row) cell = with_minus(std::move(cell));
  std::vector<Paragraph> notes;
  for (const std::string& note : shown.notes) notes.push_back({"", note, Layer::tables});
  return block_of(Grid(capitals(shown.title), std::move(columns), std::move(rows)),
                  Paragraphs("", std::move(notes), {small_cap_mm}));
}

Pages::Pages(const Dossier& dossier, const Office& office, std::vector<Body>& out)
    : office_(office),
      out_(out),
      paper_(stationery(office.paper)),
      corner_(title_corner(paper_, dossier.judged.rig.layout)) {}

std::vector<Box> Pages::whole() const {
  const Box all = field();
  const double above = corner_.top + gap_mm;
  return {{all.left, above, all.right, all.top}, {all.left, all.bottom, corner_.left - gap_mm, above - gap_mm}};
}

void Pages::begin(Body body, std::vector<Box> free) {
  out_.push_back(std::move(body));
  free_ = std::move(free);
}

bool Pages::fits(const Block& block, const Box& box) const {
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  return block.least_width(canvas) <= box.width() && block.height(canvas, box.width()) <= box.height();
}

bool Pages::fits_somewhere(const Block& block) const {
  const auto has_room = [&](const Box& box) { return fits(block, box); };
  const auto sheet = whole();
  return std::any_of(free_.begin(), free_.end(), has_room) || std::any_of(sheet.begin(), sheet.end(), has_room);
}

void Pages::put(const Block& block) {
  auto box = std::find_if(free_.begin(), free_.end(), [&](const Box& b) { return fits(block, b); });
  if (box == free_.end()) {
    begin({out_.back().title, out_.back().document_type, "none", {}}, whole());
    box = std::find_if(free_.begin(), free_.end(), [&](const Box& b) { return fits(block, b); });
    if (box == free_.end()) box = free_.begin();
  }
  const Canvas canvas(out_.back().drawing, office_.font);
  block.draw(canvas, {box->left, box->top}, box->width());
  box->top -= block.height(canvas, box->width()) + gap_mm;
}

void Pages::put(const Table& table, const Style& style) {
  const Block whole_table = block_of(table, style);
  if (table.rows.size() < 2 || fits_somewhere(whole_table)) return put(whole_table);
  Table first = table, rest = table;
  const auto half = static_cast<std::ptrdiff_t>(table.rows.size() / 2);
  first.rows.erase(first.rows.begin() + half, first.rows.end());
  rest.rows.erase(rest.rows.begin(), rest.rows.begin() + half);
  first.notes.clear();
  if (!rest.title.ends_with(", continued")) rest.title += ", continued";
  put(first, style);
  put(rest, style);
}

}  // namespace fairlead::sheets
