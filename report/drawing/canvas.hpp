// The pen in the hand: puts lines, areas and lettering on a drawing.
#pragma once

#include <initializer_list>

#include "report/drawing/drawing.hpp"
#include "report/drawing/font.hpp"

namespace fairlead::drawing {

enum class Align { left, centre, right };

/// Cap heights after ISO 3098.
inline constexpr double small_cap_mm = 1.8, note_cap_mm = 2.5, heading_cap_mm = 3.5, title_cap_mm = 5;

/// An upright rectangle.
struct Box {
  double left{}, bottom{}, right{}, top{};
  double width() const { return right - left; }
  double height() const { return top - bottom; }
  Paper centre() const { return {(left + right) / 2, (bottom + top) / 2}; }
  bool contains(Paper p) const { return p.x_mm >= left && p.x_mm <= right && p.y_mm >= bottom && p.y_mm <= top; }
  bool contains(const Box& b) const { return b.left >= left && b.right <= right && b.bottom >= bottom && b.top <= top; }
  bool overlaps(const Box& b) const { return left < b.right && b.left < right && bottom < b.top && b.bottom < top; }
  Box grown(double mm) const { return {left - mm, bottom - mm, right + mm, top + mm}; }
};

class Canvas {
 public:
  Canvas(Drawing& drawing, const Font& font) : drawing_(drawing), font_(font) {}

  const Font& font() const { return font_; }
  Drawing& drawing() const { return drawing_; }

  void line(std::vector<Paper> path, Pen pen) const { drawing_.entities.push_back(Stroke{std::move(path), pen}); }
  void outline(std::vector<Paper> path, Pen pen, Fill fill = Fill::none) const {
    drawing_.entities.push_back(Stroke{std::move(path), pen, true, fill});
  }
  /// An area without outline.
  void area(std::vector<Paper> path, Layer layer, Fill fill = Fill::ink) const {
    outline(std::move(path), {0, LineType::continuous, layer}, fill);
  }
  void box(const Box& b, Pen pen, Fill fill = Fill::none) const { outline(corners(b), pen, fill); }
  void circle(Paper centre, double radius_mm, Pen pen, Fill fill = Fill::none) const;
  /// What stands on the sheet in place of an English text. Each of the following looks its text up as a whole.
  std::string_view said(std::string_view english) const { return font_.said(english); }

  /// Text whose baseline begins, is centred or ends at a place, read along angle_rad.
  void text(Paper at, std::string_view text, double cap_mm, Layer, Align = Align::left, double angle_rad = 0) const;
  /// The same of what was looked up already, as lines of a wrapped text were: alone a part of it may read as another.
  void lettering(Paper at, std::string text, double cap_mm, Layer, Align = Align::left, double angle_rad = 0) const;

  double width(std::string_view text, double cap_mm) const { return font_.width_mm(said(text), cap_mm); }
  /// Of the widest word of a text: none is broken.
  double word_width(std::string_view text, double cap_mm) const;
  /// Breaks a text at its blanks into lines no wider than stated, to be lettered; a word too wide for any line is
  /// broken.
  std::vector<std::string> wrap(std::string_view text, double cap_mm, double width_mm) const;
  /// The text, or as much of its beginning as fits before "…", to be lettered.
  std::string fitted(std::string_view text, double cap_mm, double width_mm) const;
  /// Writes a text into a box, from its left, halfway up: on one line at the first of falling cap heights at which it
  /// fits, else at the last in as many lines as there is room for. Only what then is left over is cut, before "…".
  void fill(const Box&, std::string_view text, std::initializer_list<double> caps_mm, Layer) const;

  static std::vector<Paper> corners(const Box& b) {
    return {{b.left, b.bottom}, {b.right, b.bottom}, {b.right, b.top}, {b.left, b.top}};
  }

 private:
  std::vector<std::string> lines(std::string_view lettering, double cap_mm, double width_mm) const;
  std::string cut(std::string_view lettering, double cap_mm, double width_mm) const;

  Drawing& drawing_;
  const Font& font_;
};

/// Points of a circle or arc within the curve tolerance, from one angle to the other.
std::vector<Paper> arc(Paper centre, double radius_mm, double from_rad, double to_rad);

/// The same polyline with the points left out that lie within the curve tolerance of what remains (Douglas and Peucker,
/// 1973); its ends stay.
std::vector<Paper> simplified(const std::vector<Paper>& path);

/// The parts of a polyline inside a box, in order.
std::vector<std::vector<Paper>> clip(const std::vector<Paper>& path, const Box&);

}  // namespace fairlead::drawing
