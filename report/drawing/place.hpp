// Finds a place for every label: clear of lines and of other lettering, as near as can be to what it names.
#pragma once

#include "report/drawing/overlap.hpp"
#include "report/drawing/squares.hpp"

namespace fairlead::drawing {

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
