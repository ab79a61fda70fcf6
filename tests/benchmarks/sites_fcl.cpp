#include <fcl/fcl.h>

#include "tests/benchmarks/sites_peers.hpp"

namespace fairlead::sites::bench {

Times fcl(const std::string& path, const std::vector<Capsule>& lines) {
  using Model = ::fcl::BVHModel<::fcl::OBBRSS<double>>;
  using Vector = ::fcl::Vector3<double>;
  const auto vector = [](Point3 p) { return Vector(p.x, p.y, p.z); };
  const auto file = MappedFile::open(path, std::size_t{1} << 32);
  const auto mesh = read_mesh(file->bytes(), Format::stl);  // it has no reader of its own
  Times times;
  double before = processor_s();
  const auto lap = [&] {
    const double now = processor_s(), taken = now - before;
    before = now;
    return taken;
  };
  Model model;
  model.beginModel(static_cast<int>(mesh->items.count), 3 * static_cast<int>(mesh->items.count));
  for (std::uint32_t i = 0; i < mesh->items.count; ++i) {
    const auto corners = corners_of(mesh->items, i);
    model.addTriangle(vector(corners[0]), vector(corners[1]), vector(corners[2]));
  }
  model.endModel();
  times.build_s = lap();
  const auto still = ::fcl::Transform3<double>::Identity();
  for (const Capsule& line : lines) {
    Model one;
    one.beginModel(1, 3);
    one.addTriangle(vector(line.from), vector(line.to), vector(line.to));
    one.endModel();
    const ::fcl::DistanceRequest<double> request(true);
    ::fcl::DistanceResult<double> result;
    times.sum_m += ::fcl::distance(&model, still, &one, still, request, result);
  }
  times.queries = lines.size();
  times.query_s = lap() / static_cast<double>(lines.size());
  return times;
}

}  // namespace fairlead::sites::bench
