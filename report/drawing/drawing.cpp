#include "report/drawing/drawing.hpp"

#include <array>
#include <numeric>

namespace fairlead::drawing {

namespace {

struct LayerStyle {
  std::string_view name;
  Colour colour;
};
constexpr std::array<LayerStyle, layer_count> layers{{{"S-LINE-MAIN", {0, 0, 0}},
                                                      {"S-LINE-BRAK", {0.05, 0.2, 0.55}},
                                                      {"S-LINE-REDU", {0.4, 0.1, 0.4}},
                                                      {"S-LINE-SUPP", {0, 0, 0}},
                                                      {"S-ANCH", {0, 0, 0}},
                                                      {"S-SHEV", {0, 0, 0}},
                                                      {"S-ENVL", {0.1, 0.35, 0.2}},
                                                      {"S-STRU", {0, 0, 0}},
                                                      {"S-LOAD", {0.65, 0.05, 0.05}},
                                                      {"S-GRID", {0.35, 0.35, 0.35}},
                                                      {"S-ANNO-DIMS", {0, 0, 0}},
                                                      {"S-ANNO-TEXT", {0, 0, 0}},
                                                      {"S-ANNO-TABL", {0, 0, 0}},
                                                      {"S-ANNO-TTLB", {0, 0, 0}},
                                                      {"S-ANNO-NOTE", {0, 0, 0}},
                                                      {"S-ANNO-SYMB", {0, 0, 0}},
                                                      {"S-ANNO-CAUT", {0.65, 0.05, 0.05}}}};

/// One period of a line type in line widths, dashes and gaps in turn.
std::vector<double> period(LineType type) {
  switch (type) {
    case LineType::continuous:
      return {};
    case LineType::dashed:
      return {12, 3};
    case LineType::dash_dot:
      return {24, 3, 0.5, 3};
    case LineType::dash_double_dot:
      return {24, 3, 0.5, 3, 0.5, 3};
    case LineType::long_dash_short_dash:
      return {24, 3, 6, 3};
  }
  return {};
}

}  // namespace

std::string_view layer_name(Layer layer) { return layers[static_cast<std::size_t>(layer)].name; }
Colour layer_colour(Layer layer) { return layers[static_cast<std::size_t>(layer)].colour; }

Colour grey_of(Colour c) {
  // Luma after ITU-R BT.601, from memory: which of the weights in use hardly matters to colours this dark.
  const double luma = 0.299 * c.red + 0.587 * c.green + 0.114 * c.blue;
  return {luma, luma, luma};
}

std::vector<double> dashes(LineType type, double width_mm, double length_mm) {
  std::vector<double> pattern = period(type);
  if (pattern.empty()) return {};
  for (double& d : pattern) d *= width_mm;
  const double first = pattern.front(), whole = std::accumulate(pattern.begin(), pattern.end(), 0.0);
  // n periods and the first dash again: the line then begins and ends with the same full dash.
  const double n = std::max(1.0, std::round((length_mm - first) / whole));
  const double stretch = length_mm / (n * whole + first);
  if (!(stretch >= 2.0 / 3)) return {};
  for (double& d : pattern) d *= stretch;
  return pattern;
}

double path_length(const std::vector<Paper>& path, bool closed) {
  double sum = 0;
  for (std::size_t i = 1; i < path.size(); ++i) sum += length(path[i] - path[i - 1]);
  if (closed && path.size() > 1) sum += length(path.front() - path.back());
  return sum;
}

}  // namespace fairlead::drawing
