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

}  // namespace

/// Headings alone may be broken into more lines.
constexpr double hardly = 1.1;

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

void Pages::begin(Body body, std::vector<Box> free) {
  out_.push_back(std::move(body));
  free_ = std::move(free);
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

void Pages::further(const Block& block, const Block* all) {
  Body body{out_.back().title, out_.back().document_type, "none", {}};
  const std::vector<Box> narrow = columns();
  const Box wide = above_title_block();
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
  // More hold more of what fills them and is hardly broken into more lines for it.
  for (int abreast = 4; all && abreast > 2; --abreast) {
    const std::vector<Box> many = columns(abreast);
    const Box& one = many.front();
    if (!fits(block, one) || all->least_width(canvas) > one.width() ||
        all->height(canvas, one.width()) > hardly * all->height(canvas, wide.width()) ||
        all->height(canvas, one.width()) <= (abreast - 1) * one.height())
      continue;
    begin(std::move(body), many);
    fresh_ = true;
    return;
  }
  // Two columns hold more, unless what stands in them is broken into more than twice as many lines.
  if (fits(block, narrow.front()) &&
      block.height(canvas, narrow.front().width()) <= 2 * block.height(canvas, wide.width()))
    begin(std::move(body), narrow);
  else
    begin(std::move(body), {wide, narrow.back()});
  fresh_ = true;
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

std::size_t Pages::put_behind(std::size_t first, const Block& block) {
  const auto free_from = [&](std::size_t from) {
    return std::find_if(free_.begin() + static_cast<std::ptrdiff_t>(from), free_.end(),
                        [&](const Box& b) { return fits(block, b); });
  };
  auto box = free_from(first);
  if (box == free_.end() && !fits_further(block)) {
    leave_out(block);
    return first;
  }
  if (box == free_.end()) {
    further(block);
    box = free_from(0);
  }
  fresh_ = false;
  const Canvas canvas(out_.back().drawing, office_.font);
  block.draw(canvas, {box->left, box->top}, box->width());
  box->top -= block.height(canvas, box->width()) + gap_mm;
  return static_cast<std::size_t>(box - free_.begin());
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

/// Where a table may be parted behind the row `from`, and its end: a row whose first cell is empty belongs to the row
/// before it.
std::vector<std::size_t> ends_after(const Table& table, std::size_t from) {
  std::vector<std::size_t> ends;
  for (std::size_t row = from + 1; row <= table.rows.size(); ++row)
    if (row == table.rows.size() || !std::holds_alternative<std::monostate>(table.rows[row].front()))
      ends.push_back(row);
  return ends;
}

/// The last end that fits, all before it taken to fit too; `none` where the first does not. By strides that double,
/// then halve: measuring a long table whole for every page it takes would take as long as its length squared.
template <class Fits>
std::size_t last_fitting(const std::vector<std::size_t>& ends, std::size_t none, const Fits& fits) {
  std::size_t held = 0, stride = 1;
  const auto reaches = [&] { return held + stride <= ends.size() && fits(ends[held + stride - 1]); };
  for (; reaches(); stride *= 2) held += stride;
  for (; stride > 0; stride /= 2)
    if (reaches()) held += stride;
  return held == 0 ? none : ends[held - 1];
}

/// Fewer rows of a table stand alone only where there are no more.
constexpr std::size_t least_rows = 4;

/// An earlier end for a part where too little would be left behind it: it gives of its own until both are even.
std::size_t leaving_enough(const std::vector<std::size_t>& ends, std::size_t to) {
  const auto at = std::find(ends.begin(), ends.end(), to);
  if (at == ends.end()) return to;
  const auto held = at - ends.begin() + 1, left = ends.end() - at - 1;
  constexpr auto least = static_cast<std::ptrdiff_t>(least_rows);
  if (left == 0 || left >= least) return to;
  const auto given = std::min(least - left, (held - left) / 2);
  return given > 0 ? *(at - given) : to;
}

}  // namespace

void Pages::put(const Table& table, const Style& style) {
  Drawing scratch;
  const tables::Shown whole = tables::shown(table, style);
  const auto parts = grid_of(whole).column_parts(Canvas(scratch, office_.font), above_title_block().width());
  for (std::size_t i = 0; i < parts.size(); ++i) put_rows(table, of_columns(whole, parts[i], i, parts.size()));
}

void Pages::put_rows(const Table& table, const tables::Shown& whole) {
  const std::size_t all = table.rows.size();
  if (Drawing scratch; shown_block(whole).least_width(Canvas(scratch, office_.font)) > above_title_block().width()) {
    leave_out(shown_block(whole));
    return;
  }
  // Its parts have the units of the whole, and follow one another from box to box.
  std::size_t box = 0;
  for (std::size_t from = 0;;) {
    const auto fits_in = [&](std::size_t b, std::size_t first, std::size_t to) {
      const Block rows = shown_block(part(whole, first, to));
      return fits(rows, free_[b]) && !is_squeezed(rows, free_[b]);
    };
    const std::vector<std::size_t> ends = ends_after(table, from);
    std::size_t to = from;
    bool room = false;
    for (std::size_t b = box; from == 0 && !room && b < free_.size(); ++b)
      if (fits_in(b, 0, all)) box = b, to = all, room = true;
    for (std::size_t b = box; all > least_rows && !room && b < free_.size(); ++b) {
      const std::size_t last = last_fitting(ends, from, [&](std::size_t end) { return fits_in(b, from, end); });
      if (last >= all || last >= from + least_rows) box = b, to = last, room = true;
    }
    if (!room && !fresh_) {
      const Block rest = shown_block(part(whole, from, all));
      further(shown_block(part(whole, from, std::min(all, from + least_rows))), &rest);
      box = 0;
      continue;
    }
    if (!room) to = all > least_rows ? std::min(all, from + 1) : all;
    // Few rows are left over only where they fit this sheet and more would not.
    const auto rest_fits = [&](std::size_t end) {
      for (std::size_t b = box + 1; b < free_.size(); ++b)
        if (fits_in(b, end, all)) return true;
      return false;
    };
    const std::size_t enough = leaving_enough(ends, to);
    const bool alone = enough < to && !rest_fits(enough) && !rest_fits(to);
    if (alone || (enough < to && rest_fits(enough))) to = enough;
    box = put_behind(box, shown_block(part(whole, from, to)));
    if (to >= all) return;
    from = to;
    if (alone) free_.clear();
  }
}

}  // namespace fairlead::sheets
