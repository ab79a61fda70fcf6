// Any bytes are a site whose items are all within its box and can be searched, or are refused in words at a place of
// the file. The first byte chooses the format.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <vector>

#include "geometry/sites/site.hpp"

namespace {

using namespace fairlead;
using namespace fairlead::sites;

void require(bool holds) {
  if (!holds) std::abort();
}

void check_errors(const ReadErrors& errors, std::span<const std::byte> bytes) {
  require(!errors.first.empty() && errors.first.size() <= 20 && (errors.more == 0 || errors.first.size() == 20));
  const auto lines = static_cast<std::size_t>(std::count(bytes.begin(), bytes.end(), std::byte{'\n'})) + 1;
  for (const ReadError& error : errors.first) {
    require(!error.message.empty() && !error.instead.empty());
    require(error.line <= lines && error.offset <= bytes.size());
  }
}

void check_site(const Site& site) {
  const Soundness& soundness = site.soundness();
  require(soundness.items > 0 && soundness.flat <= soundness.items);
  const solids::Bounds box = site.bounds();
  const auto within = [](double low, double value, double high) { return low <= value && value <= high; };
  for (std::uint32_t i = 0; i < soundness.items; ++i)
    for (const Point3& p : site.corners(i))
      require(within(box.low.x, p.x, box.high.x) && within(box.low.y, p.y, box.high.y) &&
              within(box.low.z, p.z, box.high.z));
  // A line through a corner of an item meets the site; one of a hull too.
  const std::uint32_t item = soundness.items / 2;
  const Point3 corner = site.corners(item)[1];
  const auto line = site.nearest(Capsule{corner, corner + Vec3{1, 2, 3}, 0.1});
  require(line && line->meets());
  const std::vector<Point3> hull{corner, corner + Vec3{1, 0, 0}, corner + Vec3{0, 1, 0}, corner + Vec3{0, 0, 1}};
  require(site.nearest(Hull{hull, 0.1})->meets());
  // No item is nearer than the nearest; from any start.
  const Capsule away{box.high + Vec3{1, 1, 1}, box.high + Vec3{3, 2, 9}, 0};
  const auto near = site.nearest(away);
  require(near && near->distance_m >= 0 && near->item < soundness.items);
  require(site.nearest(away, {.start = item})->distance_m == near->distance_m);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto format = static_cast<Format>(data[0] % 4);
  // Of its own, so that what is read beyond its end is seen.
  const std::vector<std::byte> bytes(reinterpret_cast<const std::byte*>(data) + 1,
                                     reinterpret_cast<const std::byte*>(data) + size);
  const auto site = Site::over(bytes, {.format = format, .point_radius_m = 0.25, .most_items = 10'000});
  if (site)
    check_site(*site);
  else
    check_errors(site.error(), bytes);
  return 0;
}
