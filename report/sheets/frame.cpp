#include <cmath>
#include <string>

#include "report/sheets/furniture.hpp"

namespace fairlead::sheets {

using namespace drawing;

Stationery stationery(PaperSize paper) {
  const auto framed = [](std::string_view name, double width, double height, bool first_angle) {
    return Stationery{name, width, height, first_angle, {20, 10, width - 10, height - 10}};
  };
  switch (paper) {
    case PaperSize::a1:
      return framed("A1", 841, 594, true);
    case PaperSize::a2:
      return framed("A2", 594, 420, true);
    case PaperSize::a3:
      return framed("A3", 420, 297, true);
    case PaperSize::ansi_b:
      return framed("ANSI B", 17 * 25.4, 11 * 25.4, false);
    case PaperSize::ansi_c:
      return framed("ANSI C", 22 * 25.4, 17 * 25.4, false);
    case PaperSize::ansi_d:
      return framed("ANSI D", 34 * 25.4, 22 * 25.4, false);
    case PaperSize::a4:
      return framed("A4", 210, 297, true);
    case PaperSize::ansi_a:
      return framed("ANSI A", 8.5 * 25.4, 11 * 25.4, false);
  }
  return {};
}

Stationery stationery(const Office& office) {
  Stationery paper = stationery(office.paper);
  if (office.first_angle) paper.first_angle = *office.first_angle;
  return paper;
}

namespace {

constexpr double band_mm = 5, zone_mm = 50, zone_cap_mm = 3.5;
constexpr Layer layer = Layer::title_block;

/// Zone borders along one side: every 50 mm both ways from the centring mark. A rest too short for a zone of its own
/// belongs to its neighbour.
std::vector<double> zone_borders(double low, double high, double centre) {
  constexpr double least_mm = 20;
  std::vector<double> borders{low};
  const int first = static_cast<int>(std::ceil((low + least_mm - centre) / zone_mm));
  for (int i = first; centre + i * zone_mm <= high - least_mm; ++i) borders.push_back(centre + i * zone_mm);
  borders.push_back(high);
  return borders;
}

/// A, B, C ... without I and O, which read as one and nought.
std::string zone_letter(std::size_t row) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  return std::string(1, letters[row % letters.size()]);
}

void draw_zones(const Canvas& canvas, const Stationery& s, const Box& border) {
  const Pen rule{medium_mm, LineType::continuous, layer};
  const Box& f = s.frame;
  const double drop = zone_cap_mm / 2;
  const auto columns = zone_borders(f.left, f.right, s.width_mm / 2);
  for (std::size_t i = 0; i + 1 < columns.size(); ++i) {
    const double middle = (columns[i] + columns[i + 1]) / 2;
    for (double y : {f.bottom - band_mm / 2, f.top + band_mm / 2})
      canvas.text({middle, y - drop}, std::to_string(i + 1), zone_cap_mm, layer, Align::centre);
    if (i == 0) continue;
    canvas.line({{columns[i], border.bottom}, {columns[i], f.bottom}}, rule);
    canvas.line({{columns[i], f.top}, {columns[i], border.top}}, rule);
  }
  const auto rows = zone_borders(f.bottom, f.top, s.height_mm / 2);
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const double middle = (rows[i] + rows[i + 1]) / 2;
    for (double x : {f.left - band_mm / 2, f.right + band_mm / 2})
      canvas.text({x, middle - drop}, zone_letter(rows.size() - 2 - i), zone_cap_mm, layer, Align::centre);
    if (i == 0) continue;
    canvas.line({{border.left, rows[i]}, {f.left, rows[i]}}, rule);
    canvas.line({{f.right, rows[i]}, {border.right, rows[i]}}, rule);
  }
}

void draw_centring_marks(const Canvas& canvas, const Stationery& s, const Box& border, bool foot_taken) {
  const Pen mark{extra_mm, LineType::continuous, layer};
  const Box inside = s.frame.grown(-centring_mark_mm);
  const double x = s.width_mm / 2, y = s.height_mm / 2;
  canvas.line({{x, border.bottom}, {x, foot_taken ? s.frame.bottom : inside.bottom}}, mark);
  canvas.line({{x, border.top}, {x, inside.top}}, mark);
  canvas.line({{border.left, y}, {inside.left, y}}, mark);
  canvas.line({{border.right, y}, {inside.right, y}}, mark);
}

void draw_trimming_marks(const Canvas& canvas, const Stationery& s) {
  constexpr double length_mm = 10, width_mm = 5;
  for (double x : {0.0, s.width_mm})
    for (double y : {0.0, s.height_mm}) {
      const double in_x = x == 0 ? 1 : -1, in_y = y == 0 ? 1 : -1;
      canvas.area({{x, y},
                   {x + in_x * length_mm, y},
                   {x + in_x * length_mm, y + in_y * width_mm},
                   {x + in_x * width_mm, y + in_y * width_mm},
                   {x + in_x * width_mm, y + in_y * length_mm},
                   {x, y + in_y * length_mm}},
                  layer);
    }
}

}  // namespace

void draw_frame(const Canvas& canvas, const Stationery& s, bool foot_taken) {
  const Box border = s.frame.grown(band_mm);
  draw_trimming_marks(canvas, s);
  canvas.box(border, {medium_mm, LineType::continuous, layer});
  draw_zones(canvas, s, border);
  canvas.box(s.frame, {extra_mm, LineType::continuous, layer});
  draw_centring_marks(canvas, s, border, foot_taken);
}

}  // namespace fairlead::sheets
