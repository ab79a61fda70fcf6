#include "report/sheets/pages.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/sheets/furniture.hpp"
#include "report/words/keys.hpp"

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

namespace {

Grid grid_of(const tables::Shown& shown) {
  std::vector<Column> columns;
  for (std::size_t c = 0; c < shown.headings.size(); ++c)
    columns.push_back({shown.headings[c], shown.numeric[c] ? Align::right : Align::left, !shown.numeric[c]});
  auto rows = shown.rows;
  for (auto& row : rows)
    for (std::string& cell : row) cell = with_minus(words::keys_in_words(cell));
  return {capitals(shown.title), std::move(columns), std::move(rows)};
}

Block shown_block(const tables::Shown& shown) {
  std::vector<Paragraph> notes;
  for (const std::string& note : shown.notes)
    notes.push_back({"", with_minus(words::keys_in_words(note)), Layer::tables});
  return block_of(grid_of(shown), Paragraphs("", std::move(notes), {small_cap_mm}));
}

}  // namespace

tables::Shown of_columns(const tables::Shown& table, const std::vector<std::size_t>& which, std::size_t part,
                         std::size_t parts) {
  if (parts == 1) return table;
  tables::Shown out;
  out.title = title_of_part(table.title, part, parts);
  for (const std::size_t c : which) {
    out.headings.push_back(table.headings[c]);
    out.numeric.push_back(table.numeric[c]);
  }
  for (const auto& row : table.rows) {
    auto& cells = out.rows.emplace_back();
    for (const std::size_t c : which) cells.push_back(row[c]);
  }
  if (part + 1 == parts) out.notes = table.notes;
  return out;
}

Block block_of(const Table& table, const Style& style) { return shown_block(tables::shown(table, style)); }

Pages::Pages(const Dossier& dossier, const Office& office, std::vector<Body>& out)
    : office_(office),
      layout_(dossier.judged.rig.layout),
      out_(out),
      paper_(stationery(office)),
      corner_(title_corner(paper_, layout_)) {}

namespace {

Box above(const Stationery& paper, const Box& corner) {
  const Box all = paper.field();
  return {all.left, corner.top + gap_mm, all.right, all.top};
}

/// A place without room.
Box none(const Box& all) { return {all.right, all.top, all.right, all.top}; }

double area_mm2(const std::vector<Box>& boxes) {
  double all = 0;
  for (const Box& box : boxes) all += std::max(box.width(), 0.0) * std::max(box.height(), 0.0);
  return all;
}

/// Headings alone may be broken into more lines.
constexpr double hardly = 1.1;

}  // namespace

bool Pages::upright() const { return corner_.left <= field().left; }

Box Pages::above_title_block() const { return above(paper_, corner_); }

Box Pages::left_column() const {
  const Box all = field();
  return upright() ? above_title_block() : Box{all.left, all.bottom, corner_.left - gap_mm, all.top};
}

Box Pages::right_column() const {
  const Box all = field();
  return upright() ? none(all) : Box{corner_.left, corner_.top + gap_mm, all.right, all.top};
}

void Pages::make_room(Box& above, Box& beside, const std::vector<Block>& blocks, double least_mm) const {
  if (upright()) return;
  Drawing scratch;
  double wanted_mm = -beside.height();
  for (const Block& block : blocks) wanted_mm += block.height(Canvas(scratch, office_.font), beside.width()) + gap_mm;
  if (wanted_mm <= 0 || above.height() - wanted_mm < least_mm) return;
  above.bottom += wanted_mm;
  beside.top += wanted_mm;
}

void Pages::begin(Body body, std::vector<Box> free) {
  out_.push_back(std::move(body));
  free_ = std::move(free);
  earlier_.clear();
}

std::vector<Box> Pages::columns(int abreast) const {
  const Box all = field(), above = above_title_block();
  if (upright()) return {above, none(all)};
  const double width = (all.width() - (abreast - 1) * gap_mm) / abreast;
  std::vector<Box> columns;
  for (int i = 0; i < abreast; ++i) {
    const double left = all.left + i * (width + gap_mm);
    columns.push_back({left, above.bottom, left + width, all.top});
  }
  columns.push_back({all.left, all.bottom, corner_.left - gap_mm, above.bottom - gap_mm});
  return columns;
}

void Pages::begin_further(std::vector<Box> boxes) {
  for (const Box& box : free_) earlier_.push_back({out_.size() - 1, box});
  out_.push_back({out_.back().title, out_.back().document_type, "none", {}});
  free_ = std::move(boxes);
  fresh_ = true;
}

std::vector<Box> Pages::further_boxes(const Block& block) const {
  std::vector<Box> narrow = columns();
  const Box wide = above_title_block();
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  // Two columns hold more, unless what stands in them is broken into more than twice as many lines.
  if (fits(block, narrow.front()) &&
      block.height(canvas, narrow.front().width()) <= 2 * block.height(canvas, wide.width()))
    return narrow;
  return {wide, narrow.back()};
}

bool Pages::fits(const Block& block, const Box& box) const {
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  return block.least_width(canvas) <= box.width() && block.height(canvas, box.width()) <= box.height();
}

bool Pages::is_squeezed(const Block& block, const Box& box) const {
  const double column_mm = columns().front().width();
  if (box.width() >= column_mm) return false;
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  return block.height(canvas, box.width()) > hardly * block.height(canvas, column_mm);
}

bool Pages::fits_further(const Block& block) const {
  for (const Box& box : columns())
    if (fits(block, box)) return true;
  return fits(block, above_title_block());
}

void Pages::put(const Block& block) {
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  const double room_mm = above_title_block().width();
  if (!block.parted || block.least_width(canvas) <= room_mm) {
    put_behind(0, block);
    return;
  }
  for (const Block& part : block.parted(canvas, room_mm)) put_behind(0, part);
}

void Pages::leave_out(const Block& block) {
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  std::vector<std::string_view> sizes;
  for (const PaperSize size : paper_sizes) {
    const Stationery paper = stationery(size);
    const Box room = above(paper, title_corner(paper, layout_));
    if (block.least_width(canvas) <= room.width() && block.height(canvas, room.width()) <= room.height())
      sizes.push_back(paper.name);
  }
  leave_out(block.name, sizes);
}

void Pages::leave_out(const std::string& name, const std::vector<std::string_view>& sizes) {
  std::string others;
  for (const std::string_view size : sizes) others += fmt::format("{}{}", others.empty() ? "" : ", ", size);
  const std::string says = others.empty()
                               ? fmt::format("{} finds no room on any size of sheet", name)
                               : fmt::format("{} finds no room on {}: draw it on {}", name, paper_.name, others);
  put_behind(0, block_of(Paragraphs("LEFT OUT", {{"", says + ".", Layer::cautions}}, {note_cap_mm, note_cap_mm})));
  out_.back().left_out.push_back(says);
}

void Pages::draw(const Block& block, std::size_t sheet, Box& box) {
  const Canvas canvas(out_[sheet].drawing, office_.font);
  block.draw(canvas, {box.left, box.top}, box.width());
  box.top -= block.height(canvas, box.width()) + gap_mm;
}

void Pages::put_behind(std::size_t first, const Block& block) {
  const auto free_from = [&](std::size_t from) {
    return std::find_if(free_.begin() + static_cast<std::ptrdiff_t>(from), free_.end(),
                        [&](const Box& b) { return fits(block, b); });
  };
  auto box = free_from(first);
  if (box == free_.end() && !fits_further(block)) {
    leave_out(block);
    return;
  }
  if (box == free_.end()) {
    begin_further(further_boxes(block));
    box = free_from(0);
  }
  fresh_ = false;
  draw(block, out_.size() - 1, *box);
}

namespace {

/// The first rows of a table, or those behind them under its title again. Notes stand beneath the last part.
tables::Shown part(const tables::Shown& table, std::size_t from, std::size_t to) {
  tables::Shown out = table;
  if (from > 0) out.title += ", continued";
  out.rows.assign(table.rows.begin() + static_cast<std::ptrdiff_t>(from),
                  table.rows.begin() + static_cast<std::ptrdiff_t>(to));
  if (to < table.rows.size()) out.notes.clear();
  return out;
}

/// How many rows stand in boxes.
std::size_t reach(const std::vector<RowsInBox>& parts) { return parts.empty() ? 0 : parts.back().to; }

}  // namespace

void Pages::put(const Table& table, const Style& style) {
  Drawing scratch;
  const tables::Shown whole = tables::shown(table, style);
  const auto parts = grid_of(whole).column_parts(Canvas(scratch, office_.font), above_title_block().width());
  for (std::size_t i = 0; i < parts.size(); ++i)
    put_rows(table, of_columns(whole, parts[i], i, parts.size()), parts.size() == 1);
}

std::vector<RowsInBox> Pages::rows_in(const std::vector<Box>& boxes, const Table& table, const tables::Shown& whole,
                                      std::size_t from) const {
  return rows_in_boxes(table, from, boxes.size(), [&](std::size_t box, std::size_t first, std::size_t to) {
    const Block rows = shown_block(part(whole, first, to));
    return fits(rows, boxes[box]) && !is_squeezed(rows, boxes[box]);
  });
}

std::vector<Box> Pages::further_boxes(const Table& table, const tables::Shown& whole, std::size_t from) const {
  const std::size_t all = table.rows.size();
  const Block first = shown_block(part(whole, from, std::min(all, from + least_rows))),
              rest = shown_block(part(whole, from, all));
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  const double in_one_mm = rest.height(canvas, above_title_block().width());
  std::vector<Box> boxes = further_boxes(first);
  // More columns hold more of what is hardly broken into more lines for it.
  for (const int abreast : {3, 4}) {
    if (reach(rows_in(boxes, table, whole, from)) == all) break;
    const std::vector<Box> more = columns(abreast);
    const Box& one = more.front();
    if (!fits(first, one) || rest.least_width(canvas) > one.width() ||
        rest.height(canvas, one.width()) > hardly * in_one_mm)
      break;
    boxes = more;
  }
  return boxes;
}

bool Pages::put_earlier(const Block& block) {
  for (auto& [sheet, box] : earlier_)
    if (fits(block, box) && !is_squeezed(block, box)) {
      draw(block, sheet, box);
      return true;
    }
  return false;
}

bool Pages::stands_behind(const Table& table, const tables::Shown& whole, const std::vector<RowsInBox>& here) const {
  constexpr double hardly_any = 0.2;
  const double sheet_mm2 = area_mm2(columns());
  if (area_mm2(free_) > (1 - hardly_any) * sheet_mm2) return false;
  const std::size_t all = table.rows.size();
  const Block left_over = shown_block(part(whole, reach(here), all));
  const double width_mm = further_boxes(left_over).front().width();
  Drawing scratch;
  if (width_mm * left_over.height(Canvas(scratch, office_.font), width_mm) >= hardly_any * sheet_mm2) return false;
  return reach(rows_in(further_boxes(table, whole, 0), table, whole, 0)) == all;
}

void Pages::put_rows(const Table& table, const tables::Shown& whole, bool in_any_order) {
  const std::size_t all = table.rows.size();
  const Block block = shown_block(whole);
  if (Drawing scratch; block.least_width(Canvas(scratch, office_.font)) > above_title_block().width())
    return leave_out(block);
  if (all == 0) put_behind(0, block);
  // Its parts have the units of the whole, and follow one another from box to box.
  for (std::size_t from = 0; from < all;) {
    std::vector<RowsInBox> parts = rows_in(free_, table, whole, from);
    if (from == 0 && !fresh_ && reach(parts) < all) {
      if (in_any_order && put_earlier(block)) return;
      if (stands_behind(table, whole, parts)) parts.clear();
    }
    const bool none_fits = parts.empty() && fresh_;
    if (none_fits) parts.push_back({0, all > least_rows ? from + 1 : all});
    for (const auto& [box, to] : parts) {
      put_behind(box, shown_block(part(whole, from, to)));
      from = to;
    }
    if (from < all && !none_fits) begin_further(further_boxes(table, whole, from));
  }
}

}  // namespace fairlead::sheets
