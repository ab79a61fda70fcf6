#include "report/sheets/fill_in.hpp"

#include <algorithm>
#include <numeric>

#include "report/sheets/pages.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double least_row_mm = 9, inset_mm = 1, line_pitch = 1.6, title_mm = 6, least_blank_mm = 16, wrapped_mm = 60;
constexpr Pen rule{narrow_mm, LineType::continuous, Layer::tables},
    edge{medium_mm, LineType::continuous, Layer::tables};

class FillIn {
 public:
  explicit FillIn(tables::Shown table) : table_(std::move(table)) {
    for (std::size_t c = 0; c < table_.headings.size(); ++c)
      blank_.push_back(std::ranges::all_of(table_.rows, [&](const auto& row) { return row[c].empty(); }));
  }

  std::size_t rows() const { return table_.rows.size(); }
  /// The rows from `from` up to `to`, with the columns as they are in the whole.
  FillIn part(std::size_t from, std::size_t to) const {
    FillIn out = *this;
    if (from > 0) out.table_.title += ", continued";
    out.table_.rows.assign(table_.rows.begin() + static_cast<std::ptrdiff_t>(from),
                           table_.rows.begin() + static_cast<std::ptrdiff_t>(to));
    return out;
  }

  double least_width(const Canvas& canvas) const {
    const std::vector<double> least = least_mm(canvas);
    return std::accumulate(least.begin(), least.end(), 0.0);
  }

  /// At which no entry wraps, and every column that is left to the pen has the least room for it.
  double unwrapped_width(const Canvas& canvas) const {
    const std::vector<double> least = least_mm(canvas);
    double sum = 0;
    for (std::size_t c = 0; c < least.size(); ++c) sum += blank_[c] ? least[c] : natural_mm(canvas, c, least[c]);
    return sum;
  }
  const std::string& title() const { return table_.title; }

  double height(const Canvas& canvas, double width_mm) const {
    const std::vector<double> widths = widths_mm(canvas, width_mm);
    double sum = title_mm + heading_mm(canvas, widths);
    for (const auto& row : table_.rows) sum += row_mm(canvas, row, widths);
    return sum;
  }

  void draw(const Canvas& canvas, Paper top_left, double width_mm) const {
    canvas.text(top_left - Paper{0, heading_cap_mm}, table_.title, heading_cap_mm, Layer::tables);
    const std::vector<double> widths = widths_mm(canvas, width_mm);
    const double top = top_left.y_mm - title_mm,
                 right = top_left.x_mm + std::accumulate(widths.begin(), widths.end(), 0.0);
    double y = top - heading_mm(canvas, widths);
    write(canvas, table_.headings, top_left.x_mm, top, widths);
    for (const auto& row : table_.rows) {
      canvas.line({{top_left.x_mm, y}, {right, y}}, rule);
      write(canvas, row, top_left.x_mm, y, widths);
      y -= row_mm(canvas, row, widths);
    }
    double x = top_left.x_mm;
    for (std::size_t c = 0; c + 1 < widths.size(); ++c) {
      x += widths[c];
      canvas.line({{x, y}, {x, top}}, rule);
    }
    canvas.box({top_left.x_mm, y, right, top}, edge);
  }

 private:
  using Lines = std::vector<std::string>;

  static Lines lines(const Canvas& canvas, const std::string& text, double width_mm) {
    return text.empty() ? Lines{} : canvas.wrap(text, small_cap_mm, width_mm - 2 * inset_mm);
  }
  static double lettered_mm(std::size_t lines) {
    return 2 * inset_mm + small_cap_mm * (1 + line_pitch * (static_cast<double>(std::max<std::size_t>(lines, 1)) - 1));
  }
  static double cells_mm(const Canvas& canvas, const Lines& cells, const std::vector<double>& widths) {
    std::size_t most = 1;
    for (std::size_t c = 0; c < cells.size(); ++c) most = std::max(most, lines(canvas, cells[c], widths[c]).size());
    return lettered_mm(most);
  }
  static double row_mm(const Canvas& canvas, const Lines& row, const std::vector<double>& widths) {
    return std::max(least_row_mm, cells_mm(canvas, row, widths));
  }
  double heading_mm(const Canvas& canvas, const std::vector<double>& widths) const {
    return cells_mm(canvas, table_.headings, widths);
  }
  static void write(const Canvas& canvas, const Lines& cells, double left, double top,
                    const std::vector<double>& widths) {
    for (std::size_t c = 0; c < cells.size(); ++c) {
      double y = top - inset_mm - small_cap_mm;
      for (const std::string& line : lines(canvas, with_minus(cells[c]), widths[c])) {
        canvas.lettering({left + inset_mm, y}, line, small_cap_mm, Layer::tables);
        y -= line_pitch * small_cap_mm;
      }
      left += widths[c];
    }
  }

  /// The widest word: none is broken.
  static double word_mm(const Canvas& canvas, const std::string& text) {
    return canvas.word_width(with_minus(text), small_cap_mm) + 2 * inset_mm;
  }
  std::vector<double> least_mm(const Canvas& canvas) const {
    std::vector<double> least;
    for (std::size_t c = 0; c < table_.headings.size(); ++c) {
      least.push_back(std::max(blank_[c] ? least_blank_mm : 0, word_mm(canvas, table_.headings[c])));
      for (const auto& row : table_.rows) least.back() = std::max(least.back(), word_mm(canvas, row[c]));
    }
    return least;
  }
  /// Of a column whose entries stand on one line each, no less than `least_mm`.
  double natural_mm(const Canvas& canvas, std::size_t column, double least_mm) const {
    double natural = least_mm;
    for (const auto& row : table_.rows)
      natural = std::max(natural, canvas.width(with_minus(row[column]), small_cap_mm) + 2 * inset_mm + 0.1);
    return natural;
  }
  std::vector<double> widths_mm(const Canvas& canvas, double width_mm) const {
    std::vector<double> widths = least_mm(canvas);
    const double least = std::accumulate(widths.begin(), widths.end(), 0.0);
    std::vector<double> wanted(widths.size());
    double more = 0, blanks = 0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      if (blank_[c]) {
        blanks += 1;
        continue;
      }
      wanted[c] = std::max(0.0, std::min(natural_mm(canvas, c, widths[c]), wrapped_mm) - widths[c]);
      more += wanted[c];
    }
    double left = std::max(0.0, width_mm - least);
    const double share = more > left && more > 0 ? left / more : 1;
    for (std::size_t c = 0; c < widths.size(); ++c) widths[c] += share * wanted[c];
    left -= share * more;
    for (std::size_t c = 0; c < widths.size(); ++c)
      if (blank_[c]) widths[c] += left / blanks;
    return widths;
  }

  tables::Shown table_;
  std::vector<bool> blank_;
};

Block block_of_form(const FillIn& form) {
  return {[form](const Canvas& canvas) { return form.least_width(canvas); },
          [form](const Canvas& canvas, double width_mm) { return form.height(canvas, width_mm); },
          [form](const Canvas& canvas, Paper top_left, double width_mm) { form.draw(canvas, top_left, width_mm); },
          form.title()};
}

}  // namespace

std::vector<Block> fill_in_blocks(const Table& table, const Style& style, const Font& font, double width_mm,
                                  double most_mm) {
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const FillIn whole(tables::shown(table, style));
  std::vector<Block> blocks;
  for (std::size_t from = 0; from < whole.rows();) {
    std::size_t to = from + 1;
    while (to < whole.rows() && whole.part(from, to + 1).height(canvas, width_mm) <= most_mm) ++to;
    blocks.push_back(block_of_form(whole.part(from, to)));
    from = to;
  }
  return blocks;
}

std::vector<Block> fill_in_parts(const Table& table, const Style& style, const Font& font, double width_mm) {
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const tables::Shown whole = tables::shown(table, style);
  std::vector<std::vector<std::size_t>> parts(1);
  for (std::size_t c = 0; c < whole.headings.size(); ++c) {
    std::vector<std::size_t> wider = parts.back();
    wider.push_back(c);
    if (c == 0 || FillIn(of_columns(whole, wider, 0, 2)).unwrapped_width(canvas) <= width_mm)
      parts.back() = std::move(wider);
    else
      parts.push_back({0, c});
  }
  std::vector<Block> blocks;
  for (std::size_t i = 0; i < parts.size(); ++i)
    blocks.push_back(block_of_form(FillIn(of_columns(whole, parts[i], i, parts.size()))));
  return blocks;
}

}  // namespace fairlead::sheets
