#include "report/sheets/title_row.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double travel_arrow_mm = 28, name_gap_mm = 3, travel_gap_mm = 5, bar_gap_mm = 7, unit_name_mm = 6;

/// How many units a scale bar shows: the most of a round series that take no more than that.
double bar_count(double scale, BarUnit unit, double greatest_mm) {
  double count = 0.1;
  for (double next : {0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0})
    if (next * unit.metres * 1000 / scale <= greatest_mm) count = next;
  return count;
}

void direction_of_travel(const Canvas& canvas, Paper left) {
  const double ends = canvas.width("UPSTREAM", note_cap_mm);
  const Paper from = left + Paper{ends + 2, note_cap_mm / 2}, to = from + Paper{travel_arrow_mm, 0};
  canvas.text(left, "UPSTREAM", note_cap_mm, Layer::symbols);
  arrow(canvas, from, to, {medium_mm, LineType::continuous, Layer::symbols});
  canvas.text(0.5 * (from + to) + Paper{0, 0.9}, "direction of travel", small_cap_mm, Layer::symbols, Align::centre);
  canvas.text(to + Paper{2, -note_cap_mm / 2}, "LANDING", note_cap_mm, Layer::symbols);
}

}  // namespace

TitleRow::TitleRow(const Canvas& canvas, std::string view_name, double view_scale, BarUnit bar,
                   double greatest_width_mm)
    : name(std::move(view_name)), scale(fmt::format("1:{:g}", view_scale)), unit(bar) {
  name_mm = canvas.width(name, title_cap_mm);
  scale_mm = canvas.width(scale, note_cap_mm);
  travel_mm = canvas.width("UPSTREAM", note_cap_mm) + travel_arrow_mm + 4 + canvas.width("LANDING", note_cap_mm);
  constexpr double greatest_bar_mm = 60;
  count = bar_count(view_scale, unit, std::min(greatest_bar_mm, greatest_width_mm - width_mm()));
  bar_mm = count * unit.metres * 1000 / view_scale;
}

double TitleRow::width_mm() const {
  return name_mm + name_gap_mm + scale_mm + travel_gap_mm + travel_mm + bar_gap_mm + bar_mm + unit_name_mm;
}

void TitleRow::draw(const Canvas& canvas, Paper top_left, double width_mm, const View& view) const {
  const double y = top_left.y_mm - title_cap_mm - 1;
  canvas.text({top_left.x_mm, y}, name, title_cap_mm, Layer::text);
  canvas.text({top_left.x_mm + name_mm + name_gap_mm, y}, scale, note_cap_mm, Layer::text);
  const double bar_left = top_left.x_mm + width_mm - bar_mm - unit_name_mm;
  const bool by_four = count == 0.2 || count == 2 || count == 20;
  scale_bar(canvas, {bar_left, y}, view, unit, count, by_four ? 4 : 5);
  direction_of_travel(canvas, {bar_left - bar_gap_mm - travel_mm, y});
}

}  // namespace fairlead::sheets
