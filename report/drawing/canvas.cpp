#include "report/drawing/canvas.hpp"

#include <algorithm>
#include <iterator>
#include <numbers>
#include <optional>

namespace fairlead::drawing {

using std::numbers::pi;

std::vector<Paper> arc(Paper centre, double radius_mm, double from_rad, double to_rad) {
  // The sagitta r (1 - cos(step / 2)) stays within the tolerance.
  const double step = 2 * std::acos(std::max(0.5, 1 - curve_tolerance_mm / std::max(radius_mm, 1e-9)));
  const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(to_rad - from_rad) / step)));
  std::vector<Paper> path;
  for (int i = 0; i <= pieces; ++i)
    path.push_back(centre + polar(radius_mm, from_rad + (to_rad - from_rad) * i / pieces));
  return path;
}

namespace {

/// Distance of a point from a segment.
double off_segment(Paper p, Paper a, Paper b) {
  const Paper d = b - a;
  const double whole = dot(d, d);
  const double share = whole > 0 ? std::clamp(dot(p - a, d) / whole, 0.0, 1.0) : 0;
  return length(p - (a + share * d));
}

void keep_between(const std::vector<Paper>& path, std::size_t from, std::size_t to, std::vector<bool>& kept) {
  double farthest = curve_tolerance_mm;
  std::size_t at = from;
  for (std::size_t i = from + 1; i < to; ++i)
    if (const double off = off_segment(path[i], path[from], path[to]); off > farthest) farthest = off, at = i;
  if (at == from) return;
  kept[at] = true;
  keep_between(path, from, at, kept);
  keep_between(path, at, to, kept);
}

}  // namespace

std::vector<Paper> simplified(const std::vector<Paper>& path) {
  if (path.size() < 3) return path;
  std::vector<bool> kept(path.size());
  kept.front() = kept.back() = true;
  keep_between(path, 0, path.size() - 1, kept);
  std::vector<Paper> out;
  for (std::size_t i = 0; i < path.size(); ++i)
    if (kept[i]) out.push_back(path[i]);
  return out;
}

void Canvas::circle(Paper centre, double radius_mm, Pen pen, Fill fill) const {
  auto path = arc(centre, radius_mm, 0, 2 * pi);
  path.pop_back();
  outline(std::move(path), pen, fill);
}

void Canvas::text(Paper at, std::string_view text, double cap_mm, Layer layer, Align align, double angle_rad) const {
  lettering(at, std::string(said(text)), cap_mm, layer, align, angle_rad);
}

void Canvas::lettering(Paper at, std::string text, double cap_mm, Layer layer, Align align, double angle_rad) const {
  if (text.empty()) return;
  const double share = align == Align::left ? 0 : align == Align::centre ? 0.5 : 1;
  const Paper start = at - polar(share * font_.width_mm(text, cap_mm), angle_rad);
  drawing_.entities.push_back(Label{start, cap_mm, angle_rad, std::move(text), layer});
}

namespace {

/// Bytes of the longest beginning of a text, cut between characters, that is no wider than stated; at least one
/// character, so that a wrap always comes to an end.
std::size_t fitting_bytes(const Font& font, std::string_view text, double cap_mm, double width_mm) {
  std::size_t fits = 0;
  for (std::size_t end = 1; end <= text.size(); ++end) {
    const bool between = end == text.size() || (static_cast<unsigned char>(text[end]) & 0xC0) != 0x80;
    if (!between) continue;
    if (fits > 0 && font.width_mm(text.substr(0, end), cap_mm) > width_mm) break;
    fits = end;
  }
  return fits;
}

/// Where the first word of a text ends. A number and the unit behind it are one word.
std::size_t word_end(std::string_view text) {
  const std::size_t blank = std::min(text.find(' '), text.size());
  if (blank == 0 || blank == text.size() || text[blank - 1] < '0' || text[blank - 1] > '9') return blank;
  const std::string_view next = text.substr(blank + 1), unit = next.substr(0, next.find_first_of(" ,;:.)"));
  constexpr std::string_view units[] = {"m",   "mm",   "kN", "N",  "lbf", "kg", "deg",
                                        "m/s", "kN*m", "ft", "in", "lb",  "Hz", "s"};
  return std::find(std::begin(units), std::end(units), unit) == std::end(units)
             ? blank
             : blank + 1 + std::min(next.find(' '), next.size());
}

}  // namespace

double Canvas::word_width(std::string_view text, double cap_mm) const {
  double widest = 0;
  for (text = said(text); !text.empty();) {
    const std::size_t blank = std::min(text.find(' '), text.size());
    widest = std::max(widest, font_.width_mm(text.substr(0, blank), cap_mm));
    text.remove_prefix(std::min(blank + 1, text.size()));
  }
  return widest;
}

std::vector<std::string> Canvas::wrap(std::string_view text, double cap_mm, double width_mm) const {
  return lines(said(text), cap_mm, width_mm);
}

std::vector<std::string> Canvas::lines(std::string_view text, double cap_mm, double width_mm) const {
  std::vector<std::string> lines;
  std::string line;
  double line_em = 0;
  const auto flush = [&] {
    if (!line.empty()) lines.push_back(std::exchange(line, {}));
  };
  const auto fits = [&](double em) { return em * cap_mm / font_.cap_em() <= width_mm; };
  while (!text.empty()) {
    std::size_t blank = word_end(text);
    if (font_.width_mm(text.substr(0, blank), cap_mm) > width_mm) blank = std::min(text.find(' '), text.size());
    std::string_view word = text.substr(0, blank);
    text.remove_prefix(std::min(blank + 1, text.size()));
    const double joined_em = font_.wider_em(line.empty() ? 0 : font_.wider_em(line_em, " "), word);
    if (fits(joined_em)) {
      if (!line.empty()) line += ' ';
      line += word;
      line_em = joined_em;
      continue;
    }
    flush();
    while (font_.width_mm(word, cap_mm) > width_mm) {
      const std::size_t bytes = fitting_bytes(font_, word, cap_mm, width_mm);
      lines.emplace_back(word.substr(0, bytes));
      word.remove_prefix(bytes);
    }
    line = word;
    line_em = font_.wider_em(0, word);
  }
  flush();
  return lines;
}

std::string Canvas::fitted(std::string_view text, double cap_mm, double width_mm) const {
  return cut(said(text), cap_mm, width_mm);
}

std::string Canvas::cut(std::string_view text, double cap_mm, double width_mm) const {
  if (font_.width_mm(text, cap_mm) <= width_mm) return std::string(text);
  const double left = width_mm - font_.width_mm("…", cap_mm);
  return std::string(text.substr(0, fitting_bytes(font_, text, cap_mm, left))) + "…";
}

void Canvas::fill(const Box& box, std::string_view whole, std::initializer_list<double> caps_mm, Layer layer) const {
  constexpr double pitch = 1.4;  // of lines, in cap heights
  whole = said(whole);
  double cap_mm = 0;
  for (const double cap : caps_mm) {
    cap_mm = cap;
    if (font_.width_mm(whole, cap) <= box.width()) break;
  }
  std::vector<std::string> lines = this->lines(whole, cap_mm, box.width());
  const auto most = static_cast<std::size_t>(std::max(1.0, 1 + std::floor((box.height() / cap_mm - 1) / pitch)));
  if (lines.size() > most) {
    for (std::size_t i = most; i < lines.size(); ++i) lines[most - 1] += ' ' + lines[i];
    lines.resize(most);
    lines.back() = cut(lines.back(), cap_mm, box.width());
  }
  const double rest_mm = static_cast<double>(lines.size() - (lines.empty() ? 0 : 1)) * pitch * cap_mm;
  for (std::size_t i = 0; i < lines.size(); ++i)
    lettering({box.left, box.centre().y_mm + (rest_mm - cap_mm) / 2 - static_cast<double>(i) * pitch * cap_mm},
              lines[i], cap_mm, layer);
}

namespace {

/// The part of a segment inside a box as two parameters (Liang and Barsky, 1984).
std::optional<std::pair<double, double>> inside(Paper a, Paper b, const Box& box) {
  double enter = 0, leave = 1;
  const Paper d = b - a;
  const std::pair<double, double> sides[] = {{-d.x_mm, a.x_mm - box.left},
                                             {d.x_mm, box.right - a.x_mm},
                                             {-d.y_mm, a.y_mm - box.bottom},
                                             {d.y_mm, box.top - a.y_mm}};
  for (auto [toward, room] : sides) {
    if (toward == 0) {
      if (room < 0) return std::nullopt;
    } else if (toward < 0) {
      enter = std::max(enter, room / toward);
    } else {
      leave = std::min(leave, room / toward);
    }
  }
  if (!(enter < leave)) return std::nullopt;
  return std::pair{enter, leave};
}

}  // namespace

std::vector<std::vector<Paper>> clip(const std::vector<Paper>& path, const Box& box) {
  std::vector<std::vector<Paper>> pieces;
  bool open = false;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const auto part = inside(path[i - 1], path[i], box);
    if (!part) {
      open = false;
      continue;
    }
    const Paper d = path[i] - path[i - 1];
    if (!open || part->first > 0) pieces.push_back({path[i - 1] + part->first * d});
    pieces.back().push_back(path[i - 1] + part->second * d);
    open = part->second == 1;
  }
  return pieces;
}

}  // namespace fairlead::drawing
