#include "report/drawing/overlap.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/squares.hpp"

namespace fairlead::drawing {

Quad text_quad(const Label& label, const Font& font, double margin_mm) {
  const Paper right = polar(1, label.angle_rad), up = left_of(right);
  const double width = font.width_mm(label.text, label.cap_mm) + margin_mm, height = label.cap_mm + margin_mm;
  const auto at = [&](double x, double y) { return label.at + x * right + y * up; };
  return {at(-margin_mm, -margin_mm), at(width, -margin_mm), at(width, height), at(-margin_mm, height)};
}

Quad quad(const Box& b) { return {Paper{b.left, b.bottom}, {b.right, b.bottom}, {b.right, b.top}, {b.left, b.top}}; }

namespace {

template <class Points>
Box bounds_of(const Points& points) {
  Box b{points[0].x_mm, points[0].y_mm, points[0].x_mm, points[0].y_mm};
  for (const Paper& p : points) {
    b.left = std::min(b.left, p.x_mm);
    b.right = std::max(b.right, p.x_mm);
    b.bottom = std::min(b.bottom, p.y_mm);
    b.top = std::max(b.top, p.y_mm);
  }
  return b;
}

Paper unit_edge(Paper from, Paper to) { return 1 / length(to - from) * (to - from); }

/// Shadows of two point sets on an axis lie apart, or only touch.
template <class A, class B>
bool apart(const A& a, const B& b, Paper axis) {
  const auto shadow = [axis](const auto& points) {
    double low = dot(points[0], axis), high = low;
    for (const Paper& p : points) {
      low = std::min(low, dot(p, axis));
      high = std::max(high, dot(p, axis));
    }
    return std::pair{low, high};
  };
  const auto [a_low, a_high] = shadow(a);
  const auto [b_low, b_high] = shadow(b);
  constexpr double touch_mm = 1e-9;  // of a millimetre: rounding of the corners
  return a_high <= b_low + touch_mm || b_high <= a_low + touch_mm;
}

}  // namespace

Box bounds(const Quad& q) { return bounds_of(q); }
Box bounds(const std::vector<Paper>& path) { return bounds_of(path); }
Box bounds(Paper a, Paper b) { return bounds_of(std::array{a, b}); }

Box bounds(const Drawing& drawing, const Font& font) {
  std::vector<Paper> all;
  for (const auto& entity : drawing.entities) {
    if (const auto* stroke = std::get_if<Stroke>(&entity))
      all.insert(all.end(), stroke->path.begin(), stroke->path.end());
    if (const auto* label = std::get_if<Label>(&entity))
      for (const Paper corner : text_quad(*label, font)) all.push_back(corner);
  }
  return all.empty() ? Box{} : bounds_of(all);
}

bool overlap(const Quad& a, const Quad& b) {
  for (const Quad* q : {&a, &b})
    for (int i = 0; i < 2; ++i)
      if (apart(a, b, unit_edge((*q)[i], (*q)[i + 1]))) return false;
  return true;
}

bool crosses(const Quad& q, Paper from, Paper to) {
  const std::array<Paper, 2> segment{from, to};
  for (int i = 0; i < 2; ++i)
    if (apart(q, segment, unit_edge(q[i], q[i + 1]))) return false;
  return from == to || !apart(q, segment, left_of(unit_edge(from, to)));
}

bool meet(Paper a, Paper b, Paper c, Paper d) {
  const Paper u = b - a, v = d - c;
  const double turn = cross(u, v);
  if (turn == 0) return false;
  const double s = cross(c - a, v) / turn, t = cross(c - a, u) / turn;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1;
}

namespace {

struct Lettered {
  const Label* label{};
  Quad quad;
  Box box;
};

void lettering_faults(const std::vector<Lettered>& all, std::vector<std::string>& out) {
  Squares squares;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (!all[i].label->pale) squares.add(all[i].box, i);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].label->pale) continue;
    std::vector<std::size_t> over;
    squares.any(all[i].box, [&](std::size_t j) {
      if (j > i && overlap(all[i].quad, all[j].quad)) over.push_back(j);
      return false;
    });
    std::sort(over.begin(), over.end());
    for (const std::size_t j : over)
      out.push_back(fmt::format("\"{}\" overlaps \"{}\"", all[i].label->text, all[j].label->text));
  }
}

/// Strokes that can be seen, by the squares their segments lie in.
class Segments {
 public:
  explicit Segments(const std::vector<const Stroke*>& strokes) {
    for (std::size_t i = 0; i < strokes.size(); ++i) {
      const auto& p = strokes[i]->path;
      if (!(strokes[i]->pen.width_mm > 0)) continue;
      for (std::size_t k = 1; k < p.size(); ++k) add({p[k - 1], p[k], i});
      if (strokes[i]->closed && p.size() > 2) add({p.back(), p.front(), i});
    }
  }
  /// Indices of the strokes that run through a text, rising.
  std::vector<std::size_t> through(const Quad& text, const Box& box) const {
    std::vector<std::size_t> found;
    squares_.any(box, [&](std::size_t i) {
      if (crosses(text, all_[i].from, all_[i].to)) found.push_back(all_[i].stroke);
      return false;
    });
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  }

 private:
  struct Segment {
    Paper from, to;
    std::size_t stroke{};
  };
  void add(const Segment& s) {
    squares_.add(bounds(s.from, s.to), all_.size());
    all_.push_back(s);
  }
  std::vector<Segment> all_;
  Squares squares_;
};

}  // namespace

std::vector<std::string> faults(const Drawing& drawing, const Font& font, const Box& frame) {
  std::vector<Lettered> labels;
  std::vector<const Stroke*> strokes;
  for (const auto& entity : drawing.entities) {
    if (const auto* label = std::get_if<Label>(&entity)) {
      const Quad quad = text_quad(*label, font);
      labels.push_back({label, quad, bounds(quad)});
    }
    if (const auto* stroke = std::get_if<Stroke>(&entity); stroke && !stroke->path.empty()) strokes.push_back(stroke);
  }
  std::vector<std::string> out;
  lettering_faults(labels, out);
  const Segments segments(strokes);
  for (const auto& [label, quad, box] : labels) {
    if (!frame.contains(box)) out.push_back(fmt::format("\"{}\" leaves the frame", label->text));
    if (label->pale) continue;
    for (const std::size_t i : segments.through(quad, box)) {
      const Box b = bounds(strokes[i]->path);
      out.push_back(fmt::format("a line of {} at ({:.1f}, {:.1f}) runs through \"{}\"",
                                layer_name(strokes[i]->pen.layer), b.left, b.bottom, label->text));
    }
  }
  for (const Stroke* stroke : strokes)
    if (const Box b = bounds(stroke->path); !frame.contains(b))
      out.push_back(fmt::format("a line of {} leaves the frame at ({:.1f}, {:.1f})", layer_name(stroke->pen.layer),
                                b.left, b.bottom));
  return out;
}

}  // namespace fairlead::drawing
