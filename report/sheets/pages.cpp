#include "report/sheets/pages.hpp"

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

Block shown_block(const tables::Shown& shown) {
  std::vector<Column> columns;
  for (std::size_t c = 0; c < shown.headings.size(); ++c)
    columns.push_back({shown.headings[c], shown.numeric[c] ? Align::right : Align::left, !shown.numeric[c]});
  auto rows = shown.rows;
  for (auto& row : rows)
    for (std::string& cell : row) cell = with_minus(words::keys_in_words(cell));
  std::vector<Paragraph> notes;
  for (const std::string& note : shown.notes)
    notes.push_back({"", with_minus(words::keys_in_words(note)), Layer::tables});
  return block_of(Grid(capitals(shown.title), std::move(columns), std::move(rows)),
                  Paragraphs("", std::move(notes), {small_cap_mm}));
}

}  // namespace

Block block_of(const Table& table, const Style& style) { return shown_block(tables::shown(table, style)); }

Pages::Pages(const Dossier& dossier, const Office& office, std::vector<Body>& out)
    : office_(office),
      out_(out),
      paper_(stationery(office)),
      corner_(title_corner(paper_, dossier.judged.rig.layout)) {}

Box Pages::above_title_block() const {
  const Box all = field();
  return {all.left, corner_.top + gap_mm, all.right, all.top};
}

void Pages::begin(Body body, std::vector<Box> free) {
  out_.push_back(std::move(body));
  free_ = std::move(free);
}

std::vector<Box> Pages::columns() const {
  const Box all = field(), above = above_title_block();
  const double middle = all.centre().x_mm;
  return {{all.left, above.bottom, middle - gap_mm / 2, all.top},
          {middle + gap_mm / 2, above.bottom, all.right, all.top},
          {all.left, all.bottom, corner_.left - gap_mm, above.bottom - gap_mm}};
}

void Pages::further(const Block& block) {
  Body body{out_.back().title, out_.back().document_type, "none", {}};
  const std::vector<Box> narrow = columns();
  const Box wide = above_title_block();
  Drawing scratch;
  const Canvas canvas(scratch, office_.font);
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

void Pages::put(const Block& block) { put_behind(0, block); }

std::size_t Pages::put_behind(std::size_t first, const Block& block) {
  const auto free_from = [&](std::size_t from) {
    return std::find_if(free_.begin() + static_cast<std::ptrdiff_t>(from), free_.end(),
                        [&](const Box& b) { return fits(block, b); });
  };
  auto box = free_from(first);
  if (box == free_.end()) {
    further(block);
    box = free_from(0);
    if (box == free_.end()) box = free_.begin();
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
  const std::size_t all = table.rows.size();
  // Its parts have the units of the whole, and follow one another from box to box.
  const tables::Shown whole = tables::shown(table, style);
  std::size_t box = 0;
  for (std::size_t from = 0;;) {
    const auto fits_in = [&](std::size_t b, std::size_t first, std::size_t to) {
      return fits(shown_block(part(whole, first, to)), free_[b]);
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
      further(shown_block(part(whole, from, std::min(all, from + least_rows))));
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
