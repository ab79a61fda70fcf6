#include "report/views/offset_sketch.hpp"

#include <algorithm>
#include <numbers>

#include "report/drawing/symbols.hpp"
#include "report/words/marks.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

constexpr double cap_mm = heading_cap_mm, number_cap_mm = title_cap_mm, mark_radius_mm = 1.8;
constexpr Pen bold{extra_mm, LineType::continuous, Layer::main_line},
    mark_pen{wide_mm, LineType::continuous, Layer::anchors}, thin{narrow_mm, LineType::continuous, Layer::dimensions},
    centre{narrow_mm, LineType::dash_dot, Layer::dimensions};

/// Even steps for distances in their order, counted from 0, which the main line has.
class Steps {
 public:
  template <class Distance>
  Steps(const std::vector<SketchedMark>& marks, Distance distance) {
    std::vector<double> all{0};
    for (const SketchedMark& mark : marks) all.push_back(distance(mark.offset));
    std::sort(all.begin(), all.end());
    for (const double m : all)
      if (levels_.empty() || m - levels_.back() > one_m) levels_.push_back(m);
    zero_ = index(0);
  }
  int of(double m) const { return index(m) - zero_; }
  int least() const { return -zero_; }
  int most() const { return static_cast<int>(levels_.size()) - 1 - zero_; }

 private:
  static constexpr double one_m = 5e-3;  // nearer than this two marks are one in a sketch
  int index(double m) const {
    const auto above = std::upper_bound(levels_.begin(), levels_.end(), m);
    return std::max(0, static_cast<int>(above - levels_.begin()) - 1);
  }
  std::vector<double> levels_;
  int zero_{};
};

/// Both ways between two features, its arrows outside where there is no room.
void dimension_line(const Canvas& canvas, Paper a, Paper b) {
  constexpr double head_mm = 3.5;
  const double far = length(b - a), angle = std::atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
  const bool outside = far < 3 * head_mm;
  const Paper out = outside ? polar(2 * head_mm, angle) : Paper{};
  canvas.line({a - out, b + out}, thin);
  arrowhead(canvas, a, angle + (outside ? 0 : std::numbers::pi), thin.layer, head_mm);
  arrowhead(canvas, b, angle + (outside ? std::numbers::pi : 0), thin.layer, head_mm);
}

void draw_mark(const Canvas& canvas, Paper at, bool first) {
  const double r = first ? mark_radius_mm : 0.6 * mark_radius_mm;
  const Pen pen = first ? mark_pen : Pen{medium_mm, LineType::continuous, Layer::anchors};
  canvas.circle(at, r, pen, Fill::paper);
  for (const Paper arm : {Paper{1.7 * r, 0}, Paper{0, 1.7 * r}}) canvas.line({at - arm, at + arm}, pen);
}

/// The greatest height of the lettering at which a text is no wider than its room.
double cap_for(const Canvas& canvas, const std::string& text, double room_mm) {
  return canvas.width(text, number_cap_mm) <= room_mm ? number_cap_mm : cap_mm;
}

/// Side over distance, left or right of an upright line wherever that is clear; nowhere else.
void write_beside(const Canvas& canvas, const words::Sided& words, Paper low, Paper high, const Box& within,
                  bool left_first, Obstacles& obstacles) {
  constexpr double off_mm = 2.5, pitch = 1.5;
  const double x = low.x_mm, middle = (low.y_mm + high.y_mm) / 2;
  struct Place {
    Box box;
    double cap{};
    bool left{};
  };
  std::vector<Place> places;
  for (const bool left : {left_first, !left_first}) {
    const double room = left ? x - off_mm - within.left : within.right - x - off_mm;
    const double cap = cap_for(canvas, words.distance, room), tall = (1 + pitch) * cap;
    const double wide = std::max(canvas.width(words.side, cap), canvas.width(words.distance, cap));
    for (const double shift : {0.0, 4.0, -4.0, 8.0, -8.0, 12.0, -12.0, 16.0, -16.0}) {
      const double bottom = std::clamp(middle + shift - tall / 2, within.bottom, within.top - tall);
      const double from = left ? x - off_mm - wide : x + off_mm;
      places.push_back({{from, bottom, from + wide, bottom + tall}, cap, left});
    }
  }
  const auto free = std::find_if(places.begin(), places.end(), [&](const Place& place) {
    return within.contains(place.box) && obstacles.clear(quad(place.box.grown(0.5)));
  });
  if (free == places.end()) return;
  const Place& place = *free;
  const Align align = place.left ? Align::right : Align::left;
  const double at = place.left ? place.box.right : place.box.left;
  canvas.text({at, place.box.bottom}, words.distance, place.cap, thin.layer, align);
  canvas.text({at, place.box.bottom + pitch * place.cap}, words.side, place.cap, thin.layer, align);
  obstacles.add(quad(place.box.grown(0.5)));
}

/// What a sketch is called and what its two sides are, across its top; returns what is left below.
Box headed(const Canvas& canvas, const Box& box, const char* title, const char* left, const char* right) {
  canvas.text({box.left, box.top - cap_mm}, title, cap_mm, Layer::text);
  const double y = box.top - 3 * cap_mm;
  canvas.text({box.left, y}, left, cap_mm, Layer::symbols);
  canvas.text({box.right, y}, right, cap_mm, Layer::symbols, Align::right);
  return {box.left, box.bottom, box.right, y - 2};
}

/// Room under a sketch for the dimension line and, below it, its text.
constexpr double foot_mm = 11;
void dimension_below(const Canvas& canvas, const words::Sided& words, Paper a, Paper b, const Box& box) {
  const double y = box.bottom + number_cap_mm + 3.5;
  for (const Paper& feature : {a, b})
    canvas.line({feature - Paper{0, mark_radius_mm + 1}, {feature.x_mm, y - 1}}, thin);
  if (a.x_mm != b.x_mm) dimension_line(canvas, {std::min(a.x_mm, b.x_mm), y}, {std::max(a.x_mm, b.x_mm), y});
  const std::string text = words.side + " " + words.distance;
  const double cap = cap_for(canvas, text, box.width()), half = canvas.width(text, cap) / 2;
  const double x = std::clamp((a.x_mm + b.x_mm) / 2, box.left + half, box.right - half);
  canvas.text({x, box.bottom + 1}, text, cap, thin.layer, Align::centre);
}

/// One text a place: marks that a sketch shows at one are named together.
std::vector<Callout> ids_of(const Canvas& canvas, const std::vector<SketchedMark>& marks,
                            const std::vector<Paper>& at) {
  constexpr double widest_mm = 28;
  std::vector<Callout> callouts;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const double cap = i == 0 ? number_cap_mm : cap_mm;
    const std::string id = canvas.fitted(marks[i].id, cap, widest_mm);
    const auto same = std::find_if(callouts.begin(), callouts.end(),
                                   [&](const Callout& callout) { return callout.targets.front() == at[i]; });
    if (same == callouts.end()) {
      callouts.push_back({{at[i]}, id, Layer::text, mark_radius_mm + 0.4, cap});
      continue;
    }
    const std::size_t last = same->text.rfind('\n') + 1;
    const bool fits = canvas.width(same->text.substr(last) + ", " + id, same->cap_mm) <= widest_mm;
    same->text += (fits ? ", " : ",\n") + id;
  }
  return callouts;
}

/// Where not every id has a clear place the first mark and the main line are named alone, then that mark alone: what
/// stands where is told by the numbers too, and a sketch with a key to it is none.
void write_ids(const Canvas& canvas, const std::vector<SketchedMark>& marks, const std::vector<Paper>& at,
               const Callout& line, Obstacles& obstacles, const Box& within) {
  std::vector<Callout> all = ids_of(canvas, marks, at);
  const Callout first = all.front();
  all.push_back(line);
  for (const std::vector<Callout>& callouts : {all, {first, line}, {first}}) {
    Drawing scratch;
    Obstacles before = obstacles;
    if (!place(Canvas(scratch, canvas.font()), callouts, before, within).empty()) continue;
    place(canvas, callouts, obstacles, within);
    return;
  }
}

Obstacles obstacles_of(const Canvas& canvas, std::size_t from) {
  Obstacles obstacles(canvas.font());
  obstacles.add(canvas.drawing(), from);
  return obstacles;
}

}  // namespace

void draw_section_sketch(const Canvas& canvas, const Box& box, const std::vector<SketchedMark>& marks,
                         const Style& style) {
  const std::size_t before = canvas.drawing().entities.size();
  const Box below = headed(canvas, box, "LOOKING TOWARD THE LANDING", "LEFT", "RIGHT");
  const Box area{below.left, below.bottom + foot_mm, below.right, below.top};
  const Steps up(marks, [](const LineOffset& o) { return o.up_m; });
  const Steps across(marks, [](const LineOffset& o) { return o.across_m; });

  constexpr double inset_mm = 4, greatest_step_mm = 16;
  const double rise = (area.height() - 2 * inset_mm) / std::max(1, up.most() - up.least());
  const int widest = std::max({1, across.most(), -across.least()});
  const double step = std::min(greatest_step_mm, (area.width() / 2 - inset_mm) / widest);
  const auto at = [&](double across_m, double up_m) {
    return Paper{area.centre().x_mm - step * across.of(across_m),
                 area.bottom + inset_mm + rise * (up.of(up_m) - up.least())};
  };
  const Paper line = at(0, 0);
  std::vector<Paper> places;
  for (const SketchedMark& mark : marks) places.push_back(at(mark.offset.across_m, mark.offset.up_m));
  const Paper first = places.front();

  canvas.line({{line.x_mm, area.bottom}, {line.x_mm, area.top}}, centre);
  dimension_below(canvas, words::across_of(marks.front().offset.across_m, style), line, first, below);
  // Beside the mark, on the side it is not on, so that nothing but level lines lies between.
  const bool to_left = first.x_mm > line.x_mm;
  const double x = to_left ? line.x_mm - 7 : line.x_mm + 7;
  const Paper low{x, std::min(line.y_mm, first.y_mm)}, high{x, std::max(line.y_mm, first.y_mm)};
  for (const Paper& feature : {line, first}) canvas.line({{x + (to_left ? -1 : 1), feature.y_mm}, feature}, thin);
  if (low.y_mm < high.y_mm) dimension_line(canvas, low, high);
  canvas.circle(line, 2, bold, Fill::ink);
  for (std::size_t i = marks.size(); i-- > 0;) draw_mark(canvas, places[i], i == 0);

  Obstacles obstacles = obstacles_of(canvas, before);
  write_beside(canvas, words::up_of(marks.front().offset.up_m, style), low, high, area, to_left, obstacles);
  write_ids(canvas, marks, places, {{line}, "main line", Layer::text, 2.4, cap_mm}, obstacles, area);
}

void draw_side_sketch(const Canvas& canvas, const Box& box, const std::vector<SketchedMark>& marks, bool falls,
                      const Style& style) {
  const std::size_t before = canvas.drawing().entities.size();
  const Box below = headed(canvas, box, "FROM THE RIGHT-HAND SIDE", "UPSTREAM", "LANDING");
  const Box area{below.left, below.bottom + foot_mm, below.right, below.top};
  const double between = canvas.width("UPSTREAM", cap_mm) + 4, until = canvas.width("LANDING", cap_mm) + 4;
  const double arrow_y = below.top + 2 + cap_mm / 2;
  arrow(canvas, {box.left + between, arrow_y}, {box.right - until, arrow_y},
        {medium_mm, LineType::continuous, Layer::symbols});
  const Steps up(marks, [](const LineOffset& o) { return o.up_m; });
  const Steps along(marks, [](const LineOffset& o) { return o.from_rest_m; });

  constexpr double inset_mm = 4, beside_mm = 26, slope = 0.08;
  const double sinking = (falls ? -1 : 1) * slope;
  const double run = (area.width() - 2 * beside_mm) / std::max(1, along.most() - along.least());
  const double fall = slope * area.width(),
               rise = (area.height() - 2 * inset_mm - fall) / std::max(1, up.most() - up.least());
  const auto x_of = [&](double from_rest_m) {
    return area.left + beside_mm + run * (along.of(from_rest_m) - along.least());
  };
  const double level = area.bottom + inset_mm + fall / 2 - rise * up.least();
  const auto line_at = [&](double x) { return Paper{x, level + sinking * (x - area.centre().x_mm)}; };
  const auto at = [&](const LineOffset& o) { return line_at(x_of(o.from_rest_m)) + Paper{0, rise * up.of(o.up_m)}; };
  std::vector<Paper> places;
  for (const SketchedMark& mark : marks) places.push_back(at(mark.offset));
  const Paper first = places.front(), rest = line_at(x_of(0)), under = line_at(first.x_mm);

  canvas.line({line_at(area.left), line_at(area.right)}, bold);
  dimension_below(canvas, words::from_rest_of(marks.front().offset.from_rest_m, style), rest,
                  first.y_mm < under.y_mm ? first : under, below);
  if (first.y_mm != under.y_mm) dimension_line(canvas, under, first);
  // The rest mark: a bar across the line.
  canvas.line({rest - Paper{0, 3}, rest + Paper{0, 3}}, bold);
  for (std::size_t i = marks.size(); i-- > 0;) draw_mark(canvas, places[i], i == 0);

  Obstacles obstacles = obstacles_of(canvas, before);
  write_ids(canvas, marks, places, {{rest}, "rest mark", Layer::text, 3.4, cap_mm}, obstacles, area);
  const bool to_left = first.x_mm < area.centre().x_mm;
  const Paper low{first.x_mm, std::min(first.y_mm, under.y_mm)}, high{first.x_mm, std::max(first.y_mm, under.y_mm)};
  write_beside(canvas, words::up_of(marks.front().offset.up_m, style), low, high, area, to_left, obstacles);
}

void draw_main_line_sketch(const Canvas& canvas, const Box& box, const std::vector<MarkOnLine>& marks) {
  const Box area = headed(canvas, box, "THE BARE MAIN LINE, FROM THE RIGHT-HAND SIDE", "UPSTREAM", "LANDING");
  constexpr double mast_mm = 12, text_mm = 3.4 * cap_mm, sag_mm = 5, pitch = 1.6;
  const double ground = area.bottom + text_mm, top = ground + mast_mm;
  const auto last = static_cast<double>(marks.size() - 1);
  const double inset = area.width() / (2 * (last + 1)), width = area.width() / (last + 1);
  const auto at = [&](double share) {
    return Paper{area.left + inset + share * (area.width() - 2 * inset), top - 4 * sag_mm * share * (1 - share)};
  };
  std::vector<Paper> line;
  constexpr int pieces = 60;
  for (int i = 0; i <= pieces; ++i) line.push_back(at(static_cast<double>(i) / pieces));
  canvas.line(simplified(line), bold);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const Paper place = at(static_cast<double>(i) / last);
    const bool support = i == 0 || i + 1 == marks.size();
    if (support) canvas.line({{place.x_mm, ground}, place}, mark_pen);
    if (support) draw_mark(canvas, place, true);
    if (!support) canvas.line({place - Paper{0, 3}, place + Paper{0, 3}}, bold);
    const std::string id = canvas.fitted(marks[i].id, cap_mm, width - 2),
                      words = canvas.fitted(marks[i].words, cap_mm, width - 2);
    canvas.lettering({place.x_mm, ground - pitch * cap_mm}, id, cap_mm, Layer::text, Align::centre);
    canvas.lettering({place.x_mm, ground - 2 * pitch * cap_mm}, words, cap_mm, Layer::text, Align::centre);
  }
}

}  // namespace fairlead::views
