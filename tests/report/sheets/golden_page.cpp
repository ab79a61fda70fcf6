#include "tests/report/sheets/golden_page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <sstream>
#include <stdexcept>

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double unit_mm = 0.1, width_unit_mm = 0.01, angle_unit_rad = 1e-3;

long units_of(double value, double unit) { return std::lround(value / unit); }

struct Writer {
  std::string text;

  void operator()(const Stroke& stroke) {
    text +=
        fmt::format("s {} {} {} {} {}", static_cast<int>(stroke.pen.layer), static_cast<int>(stroke.pen.type),
                    units_of(stroke.pen.width_mm, width_unit_mm), stroke.closed ? 1 : 0, static_cast<int>(stroke.fill));
    for (const Paper p : stroke.path)
      text += fmt::format(" {} {}", units_of(p.x_mm, unit_mm), units_of(p.y_mm, unit_mm));
    text += '\n';
  }
  void operator()(const Label& label) {
    text += fmt::format("l {} {} {} {} {} {} {}\n", static_cast<int>(label.layer), label.pale ? 1 : 0,
                        units_of(label.cap_mm, unit_mm), units_of(label.angle_rad, angle_unit_rad),
                        units_of(label.at.x_mm, unit_mm), units_of(label.at.y_mm, unit_mm), label.text);
  }
};

Paper read_paper(std::istream& in) {
  long x = 0, y = 0;
  in >> x >> y;
  return {static_cast<double>(x) * unit_mm, static_cast<double>(y) * unit_mm};
}

Stroke read_stroke(std::istream& in) {
  int layer = 0, type = 0, closed = 0, fill = 0;
  long width = 0;
  if (!(in >> layer >> type >> width >> closed >> fill)) throw std::runtime_error("no stroke");
  Stroke stroke{{},
                {static_cast<double>(width) * width_unit_mm, static_cast<LineType>(type), static_cast<Layer>(layer)},
                closed != 0,
                static_cast<Fill>(fill)};
  while (in >> std::ws && !in.eof()) stroke.path.push_back(read_paper(in));
  return stroke;
}

Label read_label(std::istream& in) {
  int layer = 0, pale = 0;
  long cap = 0, angle = 0;
  if (!(in >> layer >> pale >> cap >> angle)) throw std::runtime_error("no label");
  Label label;
  label.at = read_paper(in);
  label.cap_mm = static_cast<double>(cap) * unit_mm;
  label.angle_rad = static_cast<double>(angle) * angle_unit_rad;
  label.layer = static_cast<Layer>(layer);
  label.pale = pale != 0;
  in.get();  // the blank before the text, which may begin with one
  std::getline(in, label.text);
  return label;
}

/// To one step of the file: a number that lies on the border of two may be rounded either way.
bool near(double a, double b, double unit) { return std::abs(a - b) < 1.5 * unit; }
bool near(Paper a, Paper b) { return near(a.x_mm, b.x_mm, unit_mm) && near(a.y_mm, b.y_mm, unit_mm); }

bool same(const Stroke& a, const Stroke& b) {
  if (a.pen.layer != b.pen.layer || a.pen.type != b.pen.type || a.closed != b.closed || a.fill != b.fill ||
      !near(a.pen.width_mm, b.pen.width_mm, width_unit_mm) || a.path.size() != b.path.size())
    return false;
  for (std::size_t i = 0; i < a.path.size(); ++i)
    if (!near(a.path[i], b.path[i])) return false;
  return true;
}
bool same(const Label& a, const Label& b) {
  return a.text == b.text && a.layer == b.layer && a.pale == b.pale && near(a.cap_mm, b.cap_mm, unit_mm) &&
         near(a.angle_rad, b.angle_rad, angle_unit_rad) && near(a.at, b.at);
}
bool same(const Stroke&, const Label&) { return false; }
bool same(const Label&, const Stroke&) { return false; }

void take(Drawing& into, const Drawing& from, Layer layer) {
  for (auto entity : from.entities) {
    if (auto* stroke = std::get_if<Stroke>(&entity)) stroke->pen.layer = layer;
    if (auto* label = std::get_if<Label>(&entity)) label->layer = layer;
    into.entities.push_back(std::move(entity));
  }
}

}  // namespace

std::string golden_text(const Sheet& sheet) {
  Writer writer;
  writer.text =
      fmt::format("{} {} {}\n", units_of(sheet.width_mm, unit_mm), units_of(sheet.height_mm, unit_mm), sheet.title);
  for (const auto& entity : sheet.drawing.entities) std::visit(writer, entity);
  return writer.text;
}

Sheet golden_sheet(const std::string& text) {
  std::istringstream lines(text);
  Sheet sheet;
  const Paper size = read_paper(lines);
  lines.get();
  std::getline(lines, sheet.title);
  sheet.width_mm = size.x_mm;
  sheet.height_mm = size.y_mm;
  for (std::string line; std::getline(lines, line);) {
    std::istringstream in(line);
    char kind = 0;
    in >> kind;
    if (kind == 's')
      sheet.drawing.entities.push_back(read_stroke(in));
    else if (kind == 'l')
      sheet.drawing.entities.push_back(read_label(in));
    else
      throw std::runtime_error("no entity: " + line);
  }
  return sheet;
}

GoldenDifference golden_difference(const Sheet& was, const Sheet& is) {
  GoldenDifference difference;
  std::vector<bool> met(was.drawing.entities.size());
  std::size_t next = 0;  // most entities follow one another as they did
  for (const auto& entity : is.drawing.entities) {
    const auto equals = [&](std::size_t i) {
      return !met[i] &&
             std::visit([](const auto& a, const auto& b) { return same(a, b); }, was.drawing.entities[i], entity);
    };
    std::size_t at = next;
    if (at >= met.size() || !equals(at))
      for (at = 0; at < met.size() && !equals(at);) ++at;
    if (at < met.size()) {
      met[at] = true;
      next = at + 1;
      difference.both.entities.push_back(entity);
    } else {
      difference.only_is.entities.push_back(entity);
    }
  }
  for (std::size_t i = 0; i < met.size(); ++i)
    if (!met[i]) difference.only_was.entities.push_back(was.drawing.entities[i]);
  return difference;
}

Sheet both_pages(const Sheet& was, const GoldenDifference& difference) {
  Sheet sheet{was.title, was.width_mm, was.height_mm, {}};
  take(sheet.drawing, difference.both, Layer::grid);
  take(sheet.drawing, difference.only_was, Layer::cautions);
  take(sheet.drawing, difference.only_is, Layer::envelope);
  return sheet;
}

}  // namespace fairlead::sheets
