#include "report/drawing/dimension.hpp"

#include <algorithm>
#include <numbers>

#include "report/drawing/symbols.hpp"

namespace fairlead::drawing {

namespace {

constexpr double arrow_mm = 3, feature_gap_mm = 1, overshoot_mm = 2, text_gap_mm = 1, open_mm = 5;
constexpr Pen pen{narrow_mm, LineType::continuous, Layer::dimensions};

/// One dimension in the frame of its rows: `low`..`high` along the dimension line.
struct Placed {
  const DimensionLine* what{};
  double low{}, high{}, low_feature{}, high_feature{};
  double text_width{}, text_centre{};
  bool arrows_outside{};
  int row{};

  double text_low() const { return text_centre - text_width / 2; }
  double text_high() const { return text_centre + text_width / 2; }
  double reach_low() const { return std::min(arrows_outside ? low - 2 * arrow_mm : low, text_low()); }
  double reach_high() const { return std::max(arrows_outside ? high + 2 * arrow_mm : high, text_high()); }
};

Placed measure(const Canvas& canvas, Measures measures, const DimensionLine& d) {
  const auto pair = [&](Paper p) {
    return measures == Measures::along ? std::pair{p.x_mm, p.y_mm} : std::pair{p.y_mm, p.x_mm};
  };
  auto [a, a_feature] = pair(d.from);
  auto [b, b_feature] = pair(d.to);
  if (b < a) {
    std::swap(a, b);
    std::swap(a_feature, b_feature);
  }
  Placed p{&d, a, b, a_feature, b_feature, canvas.width(d.text, note_cap_mm), (a + b) / 2, false, 0};
  const int arrows = !d.open_low + !d.open_high;
  p.arrows_outside = b - a < arrows * arrow_mm + 2;
  const double room = b - a - (p.arrows_outside ? 0 : 1);
  if (p.text_width > room) {
    p.arrows_outside = true;
    p.text_centre = d.open_high ? a - 2 * arrow_mm - 1 - p.text_width / 2 : b + 2 * arrow_mm + 1 + p.text_width / 2;
  }
  return p;
}

void assign_rows(std::vector<Placed>& all) {
  constexpr double apart_mm = 2;
  std::stable_sort(all.begin(), all.end(),
                   [](const Placed& a, const Placed& b) { return a.high - a.low < b.high - b.low; });
  for (std::size_t i = 0; i < all.size(); ++i) {
    Placed& mine = all[i];
    for (std::size_t j = 0; j < i; ++j) {
      const Placed& other = all[j];
      const bool chained =
          !mine.arrows_outside && !other.arrows_outside && (mine.low >= other.high || mine.high <= other.low);
      const bool clear =
          mine.reach_low() > other.reach_high() + apart_mm || mine.reach_high() < other.reach_low() - apart_mm;
      if (!chained && !clear) mine.row = std::max(mine.row, other.row + 1);
    }
  }
}

double line_of(const Placed& p, double edge_mm, int side) {
  return edge_mm + side * (first_row_mm + p.row * next_row_mm);
}

/// What a text covers when it is centred on a place of its line: above the line, to the left of an upright one.
Quad text_area(Measures measures, const Placed& p, double centre, double line) {
  constexpr double margin_mm = 0.4;
  const double low = centre - p.text_width / 2, high = centre + p.text_width / 2;
  const Box box = measures == Measures::along ? Box{low, line + text_gap_mm, high, line + text_gap_mm + note_cap_mm}
                                              : Box{line - text_gap_mm - note_cap_mm, low, line - text_gap_mm, high};
  return quad(box.grown(margin_mm));
}

/// Moves a text along its line off the extension lines of the rows beyond it and off what is drawn there.
void clear_texts(std::vector<Placed>& all, Measures measures, double edge_mm, int side, const Obstacles* obstacles) {
  constexpr double clear_mm = 1;
  for (Placed& mine : all) {
    const auto blocked = [&](double centre) {
      if (obstacles && !obstacles->clear(text_area(measures, mine, centre, line_of(mine, edge_mm, side)))) return true;
      const double low = centre - mine.text_width / 2, high = centre + mine.text_width / 2;
      for (const Placed& other : all) {
        if (other.row == mine.row && &other != &mine && low < other.reach_high() && high > other.reach_low())
          return true;
        if (other.row <= mine.row) continue;
        for (double line : {other.low, other.high})
          if (line > low - clear_mm && line < high + clear_mm) return true;
      }
      return false;
    };
    if (!blocked(mine.text_centre)) continue;
    const double middle = (mine.low + mine.high) / 2, room = (mine.high - mine.low - mine.text_width) / 2 - 1;
    std::vector<double> others;
    for (double off = 1; off <= room; off += 1) others.insert(others.end(), {middle - off, middle + off});
    // Beyond the arrows, on a line drawn on for it, where there is no place between them.
    // Among other things no farther than they leave room about them; by themselves past what the next rows' extension
    // lines close in.
    const double farthest_mm = obstacles ? 12 : 40;
    for (double off = 1; off <= farthest_mm; off += 1) {
      if (!mine.what->open_high) others.push_back(mine.high + 2 * arrow_mm + off + mine.text_width / 2);
      if (!mine.what->open_low) others.push_back(mine.low - 2 * arrow_mm - off - mine.text_width / 2);
    }
    const auto free = std::find_if(others.begin(), others.end(), [&](double c) { return !blocked(c); });
    if (free == others.end()) continue;
    mine.text_centre = *free;
    mine.arrows_outside = mine.arrows_outside || *free < mine.low || *free > mine.high;
  }
}

void draw(const Canvas& canvas, Measures measures, const Placed& p, double line, int side) {
  const auto at = [&](double along, double off) {
    return measures == Measures::along ? Paper{along, off} : Paper{off, along};
  };
  const auto extension = [&](double along, double feature) {
    const double from = feature + side * feature_gap_mm, to = line + side * overshoot_mm;
    if (side * (to - from) > 0) canvas.line({at(along, from), at(along, to)}, pen);
  };
  const bool open_low = p.what->open_low, open_high = p.what->open_high;
  if (!open_low) extension(p.low, p.low_feature);
  if (!open_high) extension(p.high, p.high_feature);

  const double turn = measures == Measures::along ? 0 : std::numbers::pi / 2;
  const double inward = p.arrows_outside ? 0 : std::numbers::pi;
  if (!open_low) arrowhead(canvas, at(p.low, line), turn + inward, pen.layer, arrow_mm);
  if (!open_high) arrowhead(canvas, at(p.high, line), turn + std::numbers::pi - inward, pen.layer, arrow_mm);
  const double trim = 0.9 * arrow_mm;
  // Outside, the line runs up to its arrows and under the text; at an open end a little beyond.
  const double start = p.text_centre < p.low ? p.text_low() - 1 : p.low - 2 * arrow_mm;
  const double end = p.text_centre > p.high ? p.text_high() + 1 : p.high + 2 * arrow_mm;
  const double inside = p.arrows_outside ? 0 : trim;
  if (p.arrows_outside && !open_low) canvas.line({at(start, line), at(p.low - trim, line)}, pen);
  canvas.line(
      {at(open_low ? p.low - open_mm : p.low + inside, line), at(open_high ? p.high + open_mm : p.high - inside, line)},
      pen);
  if (p.arrows_outside && !open_high) canvas.line({at(p.high + trim, line), at(end, line)}, pen);
  // Above the line: to the left of an upright one, since it is read from the right of the sheet.
  const double off = measures == Measures::along ? line + text_gap_mm : line - text_gap_mm;
  canvas.text(at(p.text_centre, off), p.what->text, note_cap_mm, pen.layer, Align::centre, turn);
}

}  // namespace

double dimension_rows(const Canvas& canvas, Measures measures, std::vector<DimensionLine> dimensions, double edge_mm,
                      int side, const Obstacles* obstacles) {
  std::vector<Placed> all;
  for (const DimensionLine& d : dimensions) all.push_back(measure(canvas, measures, d));
  assign_rows(all);
  clear_texts(all, measures, edge_mm, side, obstacles);
  double far = edge_mm;
  for (const Placed& p : all) {
    const double line = line_of(p, edge_mm, side);
    draw(canvas, measures, p, line, side);
    // The text stands on the side above (left of) the line; on the other side only the overshoot does.
    const bool text_outside = (measures == Measures::along) == (side > 0);
    const double reach = line + side * (text_outside ? text_gap_mm + note_cap_mm + 0.5 : overshoot_mm);
    far = side > 0 ? std::max(far, reach) : std::min(far, reach);
  }
  return far;
}

}  // namespace fairlead::drawing
