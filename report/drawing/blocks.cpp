#include "report/drawing/blocks.hpp"

#include <algorithm>
#include <numeric>
#include <set>

namespace fairlead::drawing {

namespace {

constexpr double line_pitch = 1.75, paragraph_pitch = 2.0, heading_pitch = 1.7, column_gap_mm = 5;
constexpr double heading_cap(double cap_mm) { return cap_mm < note_cap_mm ? note_cap_mm : heading_cap_mm; }

}  // namespace

double Paragraphs::mark_width(const Canvas& canvas) const {
  double widest = 0;
  for (const Paragraph& p : paragraphs_) widest = std::max(widest, canvas.width(p.mark, type_.cap_mm));
  return widest > 0 ? widest + 1.5 : 0;
}

double Paragraphs::column_width(double width_mm) const {
  return type_.columns == 1 ? width_mm : (width_mm - column_gap_mm) / 2;
}

std::vector<std::vector<std::string>> Paragraphs::lines(const Canvas& canvas, double width_mm) const {
  const double room = column_width(width_mm) - mark_width(canvas);
  std::vector<std::vector<std::string>> all;
  for (const Paragraph& p : paragraphs_) all.push_back(canvas.wrap(p.text, type_.cap_mm, room));
  return all;
}

/// Height of the paragraphs [from, to) one below the other.
double Paragraphs::stacked(const std::vector<std::vector<std::string>>& lines, std::size_t from, std::size_t to) const {
  double sum = 0;
  for (std::size_t i = from; i < to; ++i) {
    sum += static_cast<double>(std::max<std::size_t>(lines[i].size(), 1) - 1) * line_pitch * type_.cap_mm;
    sum += i + 1 < to ? paragraph_pitch * type_.cap_mm : type_.cap_mm;
  }
  return sum;
}

/// The paragraph that begins the second column: where both are as even as can be.
std::size_t Paragraphs::second_column(const std::vector<std::vector<std::string>>& lines) const {
  std::size_t best = lines.size();
  if (type_.columns == 1) return best;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (std::max(stacked(lines, 0, i), stacked(lines, i, lines.size())) <
        std::max(stacked(lines, 0, best), stacked(lines, best, lines.size())))
      best = i;
  return best;
}

double Paragraphs::height(const Canvas& canvas, double width_mm) const {
  const auto all = lines(canvas, width_mm);
  const std::size_t second = second_column(all);
  return (heading_.empty() ? 0 : type_.heading_mm * heading_pitch) +
         std::max(stacked(all, 0, second), stacked(all, second, all.size()));
}

void Paragraphs::draw(const Canvas& canvas, Paper top_left, double width_mm) const {
  Paper at = top_left;
  if (!heading_.empty()) {
    canvas.text(at - Paper{0, type_.heading_mm}, heading_, type_.heading_mm,
                paragraphs_.empty() ? Layer::notes : paragraphs_[0].layer);
    at.y_mm -= type_.heading_mm * heading_pitch;
  }
  const double top = at.y_mm, indent = mark_width(canvas), cap = type_.cap_mm;
  const auto all = lines(canvas, width_mm);
  const std::size_t second = second_column(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i == second) at = {top_left.x_mm + column_width(width_mm) + column_gap_mm, top};
    canvas.text(at - Paper{0, cap}, paragraphs_[i].mark, cap, paragraphs_[i].layer);
    for (std::size_t k = 0; k < all[i].size(); ++k) {
      if (k > 0) at.y_mm -= line_pitch * cap;
      canvas.lettering(at + Paper{indent, -cap}, all[i][k], cap, paragraphs_[i].layer);
    }
    at.y_mm -= paragraph_pitch * cap;
  }
}

namespace {

constexpr double cell_side_mm = 1.2;
double cell_height(std::size_t lines, double cap_mm) {
  return static_cast<double>(std::max<std::size_t>(lines, 1) - 1) * line_pitch * cap_mm + 2.1 * cap_mm;
}

}  // namespace

/// No word of a column is broken.
double Grid::least_width(const Canvas& canvas, std::size_t column) const {
  double widest = canvas.word_width(columns_[column].heading, cap_mm_);
  for (const auto& row : rows_) widest = std::max(widest, canvas.word_width(row[column], cap_mm_));
  return widest + 2 * cell_side_mm;
}

constexpr double narrow_column_mm = 18;  // a column no wider gains nothing by a second line

/// What a column takes in any part of the rows: of some of them it may be one that gains nothing.
double Grid::greatest_least_width(const Canvas& canvas, std::size_t column) const {
  const double heading = canvas.word_width(columns_[column].heading, cap_mm_) + 2 * cell_side_mm;
  double widest = 0;
  for (const auto& row : rows_) widest = std::max(widest, canvas.width(row[column], cap_mm_) + 2 * cell_side_mm);
  if (!columns_[column].wraps) return std::max(heading, widest);
  return std::max(least_width(canvas, column), std::min(std::max(heading, widest), narrow_column_mm));
}

namespace {

/// What is too much is taken from the columns that can give, by their widths, until none can or it is enough.
std::vector<double> shrunk(std::vector<double> widths, const std::vector<double>& least, double greatest_width_mm) {
  constexpr double enough_mm = 1e-6;
  for (;;) {
    const double excess = std::accumulate(widths.begin(), widths.end(), 0.0) - greatest_width_mm;
    double giving = 0;
    for (std::size_t c = 0; c < widths.size(); ++c) giving += widths[c] > least[c] ? widths[c] : 0;
    if (!(excess > enough_mm && giving > 0)) return widths;
    for (std::size_t c = 0; c < widths.size(); ++c)
      if (widths[c] > least[c]) widths[c] = std::max(least[c], widths[c] - excess * widths[c] / giving);
  }
}

}  // namespace

/// Lines that all rows take one below the other.
std::size_t Grid::lines(const Canvas& canvas, const std::vector<double>& widths,
                        const std::vector<std::vector<double>>& whole_mm) const {
  std::size_t sum = 0;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    std::size_t most = 1;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      const double room_mm = widths[c] - 2 * cell_side_mm + 0.01;
      if (whole_mm[r][c] > room_mm) most = std::max(most, canvas.wrap(rows_[r][c], cap_mm_, room_mm).size());
    }
    sum += most;
  }
  return sum;
}

std::vector<double> Grid::column_widths(const Canvas& canvas, double greatest_width_mm) const {
  std::vector<double> natural(columns_.size()), least(columns_.size());
  std::vector<std::vector<double>> whole_mm(rows_.size());
  std::vector<std::size_t> giving;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    double widest = canvas.word_width(columns_[c].heading, cap_mm_);
    for (std::size_t r = 0; r < rows_.size(); ++r)
      widest = std::max(widest, whole_mm[r].emplace_back(canvas.width(rows_[r][c], cap_mm_)));
    natural[c] = widest + 2 * cell_side_mm;
    least[c] = columns_[c].wraps && natural[c] > narrow_column_mm ? least_width(canvas, c) : natural[c];
    if (natural[c] > least[c]) giving.push_back(c);
  }
  std::vector<double> widths = shrunk(natural, least, greatest_width_mm);
  const auto total = [](const std::vector<double>& all) { return std::accumulate(all.begin(), all.end(), 0.0); };
  if (total(natural) <= greatest_width_mm || total(least) >= greatest_width_mm) return widths;
  // Slim columns are broken into lines for little: those much slimmer than the others stay whole where that costs none.
  constexpr double much = 1.25;
  std::ranges::stable_sort(giving, {}, [&](std::size_t c) { return natural[c]; });
  std::size_t fewest = lines(canvas, widths, whole_mm);
  for (std::size_t i = 0; i + 1 < giving.size(); ++i) {
    least[giving[i]] = natural[giving[i]];
    if (total(least) > greatest_width_mm) break;
    if (natural[giving[i + 1]] < much * natural[giving[i]]) continue;
    std::vector<double> other = shrunk(natural, least, greatest_width_mm);
    if (const std::size_t taken = lines(canvas, other, whole_mm); taken <= fewest)
      fewest = taken, widths = std::move(other);
  }
  return widths;
}

Grid::Measured Grid::measure(const Canvas& canvas, double greatest_width_mm) const {
  Measured m;
  m.widths = column_widths(canvas, greatest_width_mm);
  const auto add = [&](auto cell) {
    std::size_t most = 1;
    auto& row = m.lines.emplace_back();
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      row.push_back(canvas.wrap(cell(c), cap_mm_, m.widths[c] - 2 * cell_side_mm + 0.01));
      most = std::max(most, row.back().size());
    }
    m.heights.push_back(cell_height(most, cap_mm_));
  };
  // What has no rows has its title and what is said beneath it.
  if (rows_.empty()) return m;
  add([&](std::size_t c) -> const std::string& { return columns_[c].heading; });
  for (const auto& cells : rows_) add([&](std::size_t c) -> const std::string& { return cells[c]; });
  return m;
}

double Grid::least_width(const Canvas& canvas) const {
  const std::vector<double> widths = column_widths(canvas, 0);
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

Size Grid::size(const Canvas& canvas, double greatest_width_mm) const {
  const Measured m = measure(canvas, greatest_width_mm);
  const double title = title_.empty() ? 0 : heading_cap(cap_mm_) * heading_pitch;
  return {std::accumulate(m.widths.begin(), m.widths.end(), 0.0),
          title + std::accumulate(m.heights.begin(), m.heights.end(), 0.0)};
}

Grid Grid::of_columns(const std::vector<std::size_t>& which, std::string title) const {
  std::vector<Column> columns;
  for (const std::size_t c : which) columns.push_back(columns_[c]);
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : rows_) {
    auto& part = rows.emplace_back();
    for (const std::size_t c : which) part.push_back(row[c]);
  }
  return {std::move(title), std::move(columns), std::move(rows), cap_mm_};
}

std::vector<std::vector<std::size_t>> Grid::column_parts(const Canvas& canvas, double greatest_width_mm) const {
  std::vector<std::size_t> all(columns_.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  std::vector<double> widths;
  for (const std::size_t c : all) widths.push_back(greatest_least_width(canvas, c));
  const auto fits = [&](const std::vector<std::size_t>& part) {
    double sum_mm = 0;
    for (const std::size_t c : part) sum_mm += widths[c];
    return sum_mm <= greatest_width_mm;
  };
  if (all.size() < 3 || fits(all)) return {all};
  std::vector<std::size_t> leading{0};
  const auto tells_rows_apart = [&] {
    std::set<std::vector<std::string>> seen;
    for (const auto& row : rows_) {
      std::vector<std::string> key;
      for (const std::size_t c : leading) key.push_back(row[c]);
      if (!seen.insert(std::move(key)).second) return false;
    }
    return true;
  };
  constexpr std::size_t most_leading = 3;
  while (!tells_rows_apart() && leading.size() < most_leading && leading.size() + 1 < all.size())
    leading.push_back(leading.size());
  std::vector<std::vector<std::size_t>> parts;
  for (std::size_t c = leading.size(); c < all.size();) {
    std::vector<std::size_t>& part = parts.emplace_back(leading);
    part.push_back(c++);
    if (!fits(part)) return {all};
    for (; c < all.size(); ++c) {
      part.push_back(c);
      if (fits(part)) continue;
      part.pop_back();
      break;
    }
  }
  return parts;
}

void Grid::draw(const Canvas& canvas, Paper top_left, double greatest_width_mm) const {
  const Measured m = measure(canvas, greatest_width_mm);
  const double left = top_left.x_mm, right = left + std::accumulate(m.widths.begin(), m.widths.end(), 0.0);
  double y = top_left.y_mm;
  if (!title_.empty()) {
    const double cap = heading_cap(cap_mm_);
    canvas.text({left, y - cap}, title_, cap, Layer::tables);
    y -= cap * heading_pitch;
  }
  if (rows_.empty()) return;
  const double top = y;
  const Pen rule{hair_mm, LineType::continuous, Layer::tables}, edge{medium_mm, LineType::continuous, Layer::tables};
  for (std::size_t r = 0; r < m.lines.size(); ++r) {
    double x = left;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const Align align = r == 0 && columns_[c].align == Align::right ? Align::right : columns_[c].align;
      const double share = align == Align::left ? 0 : align == Align::centre ? 0.5 : 1;
      const double at = x + cell_side_mm + share * (m.widths[c] - 2 * cell_side_mm);
      const auto& lines = m.lines[r][c];
      for (std::size_t i = 0; i < lines.size(); ++i)
        canvas.lettering({at, y - 1.55 * cap_mm_ - static_cast<double>(i) * line_pitch * cap_mm_}, lines[i], cap_mm_,
                         Layer::tables, align);
      x += m.widths[c];
    }
    y -= m.heights[r];
    if (r + 1 < m.lines.size()) canvas.line({{left, y}, {right, y}}, r == 0 ? edge : rule);
  }
  double x = left;
  for (std::size_t c = 0; c + 1 < columns_.size(); ++c) {
    x += m.widths[c];
    canvas.line({{x, top}, {x, y}}, rule);
  }
  canvas.box({left, y, right, top}, edge);
}

}  // namespace fairlead::drawing
