// One number of a layout that may come out otherwise than it was drawn. Every study turns the same handle.
#pragma once

#include <functional>
#include <vector>

#include "geometry/studies/set_out_points.hpp"

namespace fairlead {

struct Variable {
  Item item;
  std::string name;  ///< "R1 across"
  Dimension dimension{};
  std::function<void(Layout&, double by)> shift;  ///< adds so much, SI, to the number and to what goes with it
};

enum class FrameAxis { along, across, up };
const char* word_for(FrameAxis);  ///< "along"

/// A set-out point along one axis of the drawn rig's frame.
struct PointAxis {
  std::size_t point{};  ///< index into set_out_points
  FrameAxis axis{};
};

/// Every way in which a set-out point may be off: along, across and up; of the rest mark along alone. In the order of
/// set_out_points.
std::vector<PointAxis> point_axes(const std::vector<SetOutPoint>&);
std::vector<Variable> variables_of(const std::vector<SetOutPoint>&, const std::vector<PointAxis>&, const Frame&);

/// The layout with each variable off by so much; `by` in the order of the variables.
Layout shifted(Layout, const std::vector<Variable>&, const std::vector<double>& by);

}  // namespace fairlead
