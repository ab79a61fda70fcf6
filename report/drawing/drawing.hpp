// The display list: what stands on a sheet, in millimetres of paper. Back ends write it; tests measure it.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::drawing {

/// A place on the sheet, mm from its lower left corner, y up. Also a displacement: paper has no datum to confuse.
struct Paper {
  double x_mm{}, y_mm{};
  bool operator==(const Paper&) const = default;
};
constexpr Paper operator+(Paper a, Paper b) { return {a.x_mm + b.x_mm, a.y_mm + b.y_mm}; }
constexpr Paper operator-(Paper a, Paper b) { return {a.x_mm - b.x_mm, a.y_mm - b.y_mm}; }
constexpr Paper operator*(double s, Paper a) { return {s * a.x_mm, s * a.y_mm}; }
constexpr double dot(Paper a, Paper b) { return a.x_mm * b.x_mm + a.y_mm * b.y_mm; }
constexpr double cross(Paper a, Paper b) { return a.x_mm * b.y_mm - a.y_mm * b.x_mm; }
inline double length(Paper a) { return std::hypot(a.x_mm, a.y_mm); }
/// Quarter turn anticlockwise.
constexpr Paper left_of(Paper a) { return {-a.y_mm, a.x_mm}; }
inline Paper polar(double length_mm, double angle_rad) {
  return {length_mm * std::cos(angle_rad), length_mm * std::sin(angle_rad)};
}

/// What belongs together when a reader switches layers; a layer also has one colour.
enum class Layer {
  main_line,
  braking_line,
  reduction_line,
  support_line,
  anchors,
  sheaves,
  envelope,
  structure,
  loads,
  grid,
  dimensions,
  text,
  tables,
  title_block,
  notes,
  symbols,
  cautions
};
inline constexpr int layer_count = 17;

struct Colour {
  double red{}, green{}, blue{};
};
std::string_view layer_name(Layer);  ///< "S-LINE-MAIN": discipline, major, minor group
Colour layer_colour(Layer);          ///< dark enough to print in grey
Colour grey_of(Colour);              ///< as bright as it, without colour

/// Line types after ISO 128: 01 continuous, 02 dashed, 04 long dash dot, 05 long dash double dot, 08 long dash
/// short dash.
enum class LineType { continuous, dashed, dash_dot, dash_double_dot, long_dash_short_dash };

struct Pen {
  double width_mm{};
  LineType type = LineType::continuous;
  Layer layer{};
};
/// Widths of the ISO 128 series used here: line group 0.5.
inline constexpr double hair_mm = 0.18, narrow_mm = 0.25, medium_mm = 0.35, wide_mm = 0.5, extra_mm = 0.7;

/// ink: the layer's colour; tint: a light grey; paper: white, to clear a symbol's inside.
enum class Fill { none, ink, tint, paper };

/// A polyline, or an area when filled. Curves come as polylines within `curve_tolerance_mm`.
struct Stroke {
  std::vector<Paper> path;
  Pen pen;  ///< width 0: no outline, for areas
  bool closed = false;
  Fill fill = Fill::none;
};
inline constexpr double curve_tolerance_mm = 0.01;

/// One line of text; `at` is the left end of its baseline, read along angle_rad.
struct Label {
  Paper at;
  double cap_mm{};
  double angle_rad{};
  std::string text;
  Layer layer{};
  bool pale = false;  ///< in light grey behind what is drawn over it
};

/// Site to paper. Everything drawn to scale went through one, so tests and other formats can measure through it.
struct View {
  std::string name;
  Vec3 right, up;  ///< unit vectors of the site that run right and up on paper
  Point3 origin;   ///< the site point that lies at `at`
  Paper at;
  double scale = 100;  ///< 1:scale

  double mm_per_m() const { return 1000 / scale; }
  Paper of(Vec3 v) const { return mm_per_m() * Paper{fairlead::dot(v, right), fairlead::dot(v, up)}; }
  Paper of(Point3 p) const { return at + of(p - origin); }
};

/// A rectangle that leads a reader to another sheet of the set, by its index.
struct Link {
  Paper lower_left, upper_right;
  std::size_t sheet{};
};

struct Drawing {
  std::vector<std::variant<Stroke, Label>> entities;
  std::vector<View> views;
  std::vector<Link> links{};
};

struct Sheet {
  std::string title;
  double width_mm{}, height_mm{};
  Drawing drawing;
  bool grey = false;                    ///< printed without colour
  std::vector<std::string> left_out{};  ///< sentences: what found no room on its paper
};

/// Dash lengths for a line of `length_mm` so that it ends, as it began, within a dash: dash, gap, dash, gap, ...
/// Scaled by at most a third from ISO 128 (dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d). Empty: draw it continuous,
/// as its type asks or because it is too short to show the type.
std::vector<double> dashes(LineType, double width_mm, double length_mm);

double path_length(const std::vector<Paper>&, bool closed);

}  // namespace fairlead::drawing
