#include "geometry/studies/variable.hpp"

namespace fairlead {
namespace {

Vec3 direction(const Frame& frame, Axis axis) {
  switch (axis) {
    case Axis::along:
      return frame.along;
    case Axis::across:
      return frame.across;
    case Axis::up:
      return frame.up;
  }
  return {};
}

const char* word_of(Axis axis) {
  switch (axis) {
    case Axis::along:
      return "along";
    case Axis::across:
      return "across";
    case Axis::up:
      return "up";
  }
  return "";
}

}  // namespace

std::vector<PointAxis> point_axes(const std::vector<SetOutPoint>& points) {
  std::vector<PointAxis> axes;
  for (std::size_t p = 0; p < points.size(); ++p) {
    axes.push_back({p, Axis::along});
    if (points[p].mark == Mark::rest_mark) continue;
    axes.push_back({p, Axis::across});
    axes.push_back({p, Axis::up});
  }
  return axes;
}

std::vector<Variable> variables_of(const std::vector<SetOutPoint>& points, const std::vector<PointAxis>& axes,
                                   const Frame& frame) {
  std::vector<Variable> variables;
  for (const PointAxis& on : axes) {
    const SetOutPoint& point = points[on.point];
    const Vec3 way = direction(frame, on.axis);
    variables.push_back({point.item, point.id + " " + word_of(on.axis), Dimension::length,
                         [point, way, frame](Layout& layout, double by_m) {
                           layout = moved(std::move(layout), point, frame, by_m * way);
                         }});
  }
  return variables;
}

Layout shifted(Layout layout, const std::vector<Variable>& variables, const std::vector<double>& by) {
  for (std::size_t v = 0; v < variables.size(); ++v)
    if (by[v] != 0) variables[v].shift(layout, by[v]);
  return layout;
}

}  // namespace fairlead
