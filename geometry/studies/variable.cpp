#include "geometry/studies/variable.hpp"

namespace fairlead {
namespace {

Vec3 direction(const Frame& frame, FrameAxis axis) {
  switch (axis) {
    case FrameAxis::along:
      return frame.along;
    case FrameAxis::across:
      return frame.across;
    case FrameAxis::up:
      return frame.up;
  }
  return {};
}

}  // namespace

const char* word_for(FrameAxis axis) {
  switch (axis) {
    case FrameAxis::along:
      return "along";
    case FrameAxis::across:
      return "across";
    case FrameAxis::up:
      return "up";
  }
  return "";
}

std::vector<PointAxis> point_axes(const std::vector<SetOutPoint>& points) {
  std::vector<PointAxis> axes;
  for (std::size_t p = 0; p < points.size(); ++p) {
    axes.push_back({p, FrameAxis::along});
    if (points[p].mark == Mark::rest_mark) continue;
    axes.push_back({p, FrameAxis::across});
    axes.push_back({p, FrameAxis::up});
  }
  return axes;
}

std::vector<Variable> variables_of(const std::vector<SetOutPoint>& points, const std::vector<PointAxis>& axes,
                                   const Frame& frame) {
  std::vector<Variable> variables;
  for (const PointAxis& on : axes) {
    const SetOutPoint& point = points[on.point];
    const Vec3 way = direction(frame, on.axis);
    variables.push_back({point.item, point.id + " " + word_for(on.axis), Dimension::length,
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
