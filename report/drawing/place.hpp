// Finds a place for every label: clear of lines and of other lettering, as near as can be to what it names.
#pragma once

#include <algorithm>

#include "report/drawing/overlap.hpp"

namespace fairlead::drawing {

/// Boxes by the squares of paper they lie in, so that a question about one corner of a sheet does not visit the rest.
class Squares {
 public:
  void add(const Box&, std::size_t index);
  /// Calls `seen(index)` once for every box added that may overlap this one, until it returns true; true if it did.
  template <class Seen>
  bool any(const Box& box, Seen seen) const {
    const Range in = range(box);
    for (int row = in.bottom; row <= in.top; ++row)
      for (int column = in.left; column <= in.right; ++column)
        for (const Entry& e : squares_[square(column, row)]) {
          // A box in several of the squares asked for is met in the first of them only.
          if (column != std::max(in.left, e.range.left) || row != std::max(in.bottom, e.range.bottom)) continue;
          if (seen(e.index)) return true;
        }
    return false;
  }

 private:
  static constexpr double side_mm = 5;
  static constexpr int columns = 96, rows = 64;  // an A3 or ANSI B sheet; what lies beyond counts to the outermost
  struct Range {
    int left{}, bottom{}, right{}, top{};
  };
  struct Entry {
    Range range;
    std::size_t index{};
  };
  static Range range(const Box&);
  static std::size_t square(int column, int row) { return static_cast<std::size_t>(row * columns + column); }
  std::vector<std::vector<Entry>> squares_ = std::vector<std::vector<Entry>>(std::size_t{columns} * rows);
};

/// What already stands on the drawing.
class Obstacles {
 public:
  explicit Obstacles(const Font& font) : font_(&font) {}
  void add(const Drawing&, std::size_t from_entity = 0);
  void add(const Stroke&);
  void add(const Label&);
  void add(const Quad& keep_clear);

  bool clear(const Quad& text) const;           ///< of strokes and of texts
  bool clear_of_texts(const Quad& text) const;  ///< of texts only
  bool over_text(Paper from, Paper to) const;   ///< a line there would run through a text
  int crossings(Paper from, Paper to) const;    ///< strokes a line there would cross, ends on a stroke not counted

 private:
  struct Segment {
    Paper a, b;
    Box box;
  };
  struct Area {
    Quad quad;
    Box box;
  };
  const Font* font_;
  std::vector<Segment> segments_;
  std::vector<Area> texts_;
  Squares segment_squares_, text_squares_;
};

/// A text that names something on the drawing. '\n' separates its lines.
struct Callout {
  std::vector<Paper> targets;  ///< where its leader may end, the best first; at least one
  std::string text;
  Layer layer = Layer::text;
  double target_radius_mm = 0;  ///< the leader ends on this circle about the target; 0: with a dot on the target
  double cap_mm = note_cap_mm;
};

/// Draws every callout inside `within`, greedily, hardest first, then again in better orders, and keeps the best. One
/// with no free place is drawn as a numbered balloon; the
/// returned key holds the texts of the balloons in order of their numbers, which start at `first_number`.
std::vector<std::string> place(const Canvas&, const std::vector<Callout>&, Obstacles&, const Box& within,
                               int first_number = 1);

}  // namespace fairlead::drawing
