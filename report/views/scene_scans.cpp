// What views show of scans.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "report/views/scene_parts.hpp"

namespace fairlead::views {
namespace {

constexpr double least_cell_m = 0.1;     // nothing finer shows at the scales of these views
constexpr std::size_t most_marks = 500;  // of a scan in a view
constexpr double beside_m = 1.5;         // of a cloud's points, from the plane they are shown in

using Mark = std::array<Point3, 2>;

/// One mark a cell of a grid in a plane, the first of the file's; where they get too many, of a grid twice as coarse.
class Marks {
 public:
  Marks(Vec3 right, Vec3 up) : right_(right), up_(up) {}

  void add(const Mark& mark) {
    kept_.try_emplace(cell(mark), mark);
    while (kept_.size() > most_marks) {
      cell_m_ *= 2;
      std::map<Cell, Mark> coarser;
      for (const auto& [finer, one] : kept_) coarser.try_emplace(cell(one), one);
      kept_ = std::move(coarser);
    }
  }

  /// Strokes are as long as a cell, so that those beside each other meet.
  std::vector<Mark> take() const {
    std::vector<Mark> all;
    for (const auto& [at, mark] : kept_) {
      const Vec3 way = mark[1] - mark[0];
      const Point3 middle = mark[0] + 0.5 * way;
      const Vec3 half = norm(way) > 0 ? 0.5 * cell_m_ / norm(way) * way : Vec3{};
      all.push_back({middle - half, middle + half});
    }
    return all;
  }

 private:
  using Cell = std::array<long, 2>;
  Cell cell(const Mark& mark) const {
    const Vec3 from_zero = mark[0] + 0.5 * (mark[1] - mark[0]) - Point3{};
    return {std::lround(dot(from_zero, right_) / cell_m_), std::lround(dot(from_zero, up_) / cell_m_)};
  }

  Vec3 right_, up_;
  double cell_m_ = least_cell_m;
  std::map<Cell, Mark> kept_;
};

/// Where a triangle cuts a plane, from how far in front of it its corners are.
std::optional<Mark> cut(const std::array<Point3, 3>& corners, const std::array<double, 3>& in_front_m) {
  Mark mark;
  std::size_t found = 0;
  for (std::size_t i = 0; i < 3 && found < 2; ++i) {
    const std::size_t j = (i + 1) % 3;
    if ((in_front_m[i] < 0) == (in_front_m[j] < 0)) continue;
    const double share = in_front_m[i] / (in_front_m[i] - in_front_m[j]);
    mark[found++] = corners[i] + share * (corners[j] - corners[i]);
  }
  return found == 2 && norm(mark[1] - mark[0]) > 0 ? std::optional(mark) : std::nullopt;
}

}  // namespace

ScanSeen scan_seen(const Scene& scene, int structure) {
  const sites::Site& site = *scene.rig->layout.structures[static_cast<std::size_t>(structure)].site;
  const Frame& frame = scene.rig->frame;
  const double level_m = scene.rest ? scene.rest->trolley.wheel.z : scene.reach.high_m;
  const auto shown = [&](Point3 p) {
    const double chainage = frame.chainage_m(p), across = frame.across_m(p);
    return chainage >= scene.from_m && chainage <= scene.to_m && p.z >= scene.reach.low_m &&
           p.z <= scene.reach.high_m && across >= scene.reach.right_m && across <= scene.reach.left_m;
  };
  const double section_m = scene.section_m.value_or(std::numeric_limits<double>::infinity());
  Marks elevation(frame.along, frame.up), plan(frame.along, frame.across), section(frame.across, frame.up);
  for (std::uint32_t item = 0; item < site.soundness().items; ++item) {
    const std::array<Point3, 3> corners = site.corners(item);
    if (site.is_cloud()) {
      if (!shown(corners[0])) continue;
      if (std::abs(frame.across_m(corners[0])) <= beside_m) elevation.add({corners[0], corners[0]});
      if (std::abs(corners[0].z - level_m) <= beside_m) plan.add({corners[0], corners[0]});
      if (std::abs(frame.chainage_m(corners[0]) - section_m) <= beside_m) section.add({corners[0], corners[0]});
      continue;
    }
    std::array<double, 3> beside{}, above{}, beyond{};
    for (std::size_t i = 0; i < 3; ++i) {
      beside[i] = frame.across_m(corners[i]);
      above[i] = corners[i].z - level_m;
      beyond[i] = frame.chainage_m(corners[i]) - section_m;
    }
    for (const auto& [in_front, marks] :
         {std::pair{&beside, &elevation}, std::pair{&above, &plan}, std::pair{&beyond, &section}})
      if (const auto mark = cut(corners, *in_front); mark && shown((*mark)[0] + 0.5 * ((*mark)[1] - (*mark)[0])))
        marks->add(*mark);
  }
  return {structure, elevation.take(), plan.take(), section.take()};
}

}  // namespace fairlead::views
