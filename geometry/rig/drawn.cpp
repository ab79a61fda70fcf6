#include "geometry/rig/drawn.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "geometry/layout/items.hpp"

namespace fairlead {
namespace {

/// Where an end of a course is fixed; none on a block or the trolley.
std::optional<Point3> fixed_place(const Layout& layout, const Held& held) {
  if (const auto* anchor = std::get_if<AnchorId>(&held))
    return layout.anchors[static_cast<std::size_t>(*anchor)].position.value;
  if (std::holds_alternative<BrakeUnitEnd>(held)) return layout.brake_unit.outlet.value;
  return std::nullopt;
}

/// Where a sheave on an anchor is about: a free one hangs near its anchor.
std::optional<Point3> fixed_place(const Layout& layout, const Sheave& sheave) {
  if (sheave.position) return sheave.position->value;
  if (const auto* anchor = std::get_if<AnchorId>(&sheave.on))
    return layout.anchors[static_cast<std::size_t>(*anchor)].position.value;
  return std::nullopt;
}

std::optional<BlockId> block_of(const Held& held) {
  const auto* block = std::get_if<BlockId>(&held);
  return block ? std::optional(*block) : std::nullopt;
}

/// One thing a course passes: a block, or a fixed point.
struct Passed {
  std::optional<BlockId> block;
  std::optional<Point3> fixed;
};

std::vector<Passed> passed_by(const Layout& layout, const Course& course) {
  std::vector<Passed> passed{{block_of(course.from), fixed_place(layout, course.from)}};
  for (const int index : course.sheaves) {
    const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(index)];
    const auto* block = std::get_if<BlockId>(&sheave.on);
    passed.push_back({block ? std::optional(*block) : std::nullopt, fixed_place(layout, sheave)});
  }
  passed.push_back({block_of(course.to), fixed_place(layout, course.to)});
  return passed;
}

Point3 mean(const std::vector<Point3>& points) {
  Vec3 sum;
  for (const Point3 p : points) sum += p - points.front();
  return points.front() + (1.0 / static_cast<double>(points.size())) * sum;
}

/// The straight way a block moves along, as drawn.
struct Way {
  Point3 upstream, downstream;
  Point3 at(const Frame& frame, double along_m) const {
    const double from_m = dot(upstream - frame.origin, frame.along), to_m = dot(downstream - frame.origin, frame.along);
    return upstream + (along_m - from_m) / (to_m - from_m) * (downstream - upstream);
  }
};

Way way_of(const Layout& layout, const Frame& frame, const Courses& courses, BlockId id) {
  for (const SupportLine& support : layout.support_lines)
    if (support.carries == id) {
      const Vec3 wheel = site_vector(frame, support.wheel);
      return {layout.anchors[static_cast<std::size_t>(support.from)].position.value - wheel,
              layout.anchors[static_cast<std::size_t>(support.to)].position.value - wheel};
    }
  // A floating block hangs between the fixed points its own lines lead to; what its lines do not reach, the redirect
  // and the outlet stand for.
  const Point3 outlet = layout.brake_unit.outlet;
  const Sheave& redirect = layout.sheaves[static_cast<std::size_t>(courses.courses.front().sheaves.front())];
  const Point3 first = fixed_place(layout, redirect).value_or(outlet);
  const double middle_m = dot(mean({first, outlet}) - frame.origin, frame.along);
  std::vector<Point3> upstream, downstream;
  for (const Course& course : courses.courses) {
    if (course.item.kind == Item::Kind::support_line) continue;
    const std::vector<Passed> passed = passed_by(layout, course);
    for (std::size_t i = 0; i < passed.size(); ++i) {
      if (passed[i].block != id) continue;
      for (const std::size_t j : {i - 1, i + 1})
        if (j < passed.size() && passed[j].fixed)
          (dot(*passed[j].fixed - frame.origin, frame.along) < middle_m ? upstream : downstream)
              .push_back(*passed[j].fixed);
    }
  }
  return {upstream.empty() ? first : mean(upstream), downstream.empty() ? outlet : mean(downstream)};
}

/// Along coordinate at which the straight lengths of a course reach `length_m`, the block on its way.
double along_for_length(const Layout& layout, const Frame& frame, const Course& course, BlockId id, const Way& way,
                        double length_m) {
  double low_m = dot(way.upstream - frame.origin, frame.along),
         high_m = dot(way.downstream - frame.origin, frame.along);
  std::vector<Point3> blocks(layout.blocks.size(), way.upstream);
  const Point3 trolley = frame.origin + (layout.brake_trolley.rest_m - frame.chainage_of_origin_m) * frame.along;
  for (int i = 0; i < 50; ++i) {  // a drawn place only: millimetres are plenty
    const double at_m = (low_m + high_m) / 2;
    blocks[static_cast<std::size_t>(id)] = way.at(frame, at_m);
    const std::vector<Point3> points = drawn_points(layout, frame, course, blocks, trolley);
    double drawn_m = 0;
    for (std::size_t p = 1; p < points.size(); ++p) drawn_m += norm(points[p] - points[p - 1]);
    (drawn_m < length_m ? low_m : high_m) = at_m;
  }
  return (low_m + high_m) / 2;
}

double along_m_of(const Layout& layout, const Frame& frame, const Courses& courses, BlockId id, const Way& way) {
  const Block& block = layout.blocks[static_cast<std::size_t>(id)];
  if (block.rest_m) return *block.rest_m - frame.chainage_of_origin_m;
  for (const Course& course : courses.courses) {
    if (course.item.kind != Item::Kind::line) continue;
    const Line& line = layout.lines[static_cast<std::size_t>(course.item.index)];
    const std::vector<Passed> passed = passed_by(layout, course);
    const bool passes = std::any_of(passed.begin(), passed.end(), [&](const Passed& p) { return p.block == id; });
    if (line.length_m && passes) return along_for_length(layout, frame, course, id, way, *line.length_m);
  }
  return dot(mean({way.upstream, way.downstream}) - frame.origin, frame.along);
}

/// Solves rows of [coefficients | right side] in place, small and dense; none where they do not determine the unknowns.
std::optional<std::vector<double>> eliminate(std::vector<std::vector<double>> rows) {
  const std::size_t n = rows.size();
  for (std::size_t c = 0; c < n; ++c) {
    const auto pivot = std::max_element(rows.begin() + static_cast<std::ptrdiff_t>(c), rows.end(),
                                        [c](const auto& a, const auto& b) { return std::abs(a[c]) < std::abs(b[c]); });
    if (!(std::abs((*pivot)[c]) > 1e-9)) return std::nullopt;  // the coefficients are small whole numbers
    std::swap(rows[c], *pivot);
    for (std::size_t r = 0; r < n; ++r) {
      if (r == c) continue;
      const double by = rows[r][c] / rows[c][c];
      for (std::size_t k = c; k <= n; ++k) rows[r][k] -= by * rows[c][k];
    }
  }
  std::vector<double> x(n);
  for (std::size_t c = 0; c < n; ++c) x[c] = rows[c][n] / rows[c][c];
  return x;
}

}  // namespace

Vec3 site_vector(const Frame& frame, Vec3 rig) { return rig.x * frame.along + rig.y * frame.across + rig.z * frame.up; }

Point3 drawn_centre(const Layout& layout, const Sheave& sheave, const Frame& frame, const std::vector<Point3>& blocks) {
  if (const auto* block = std::get_if<BlockId>(&sheave.on))
    return blocks[static_cast<std::size_t>(*block)] + site_vector(frame, *sheave.offset);
  return *fixed_place(layout, sheave);
}

HungSheave hung_on_link(Point3 anchor, double link_m, Vec3 axle, Point3 before, Point3 after, Vec3 up) {
  HungSheave hung{anchor - link_m * up, axle};
  constexpr int rounds = 30;  // a drawn place only
  for (int i = 0; i < rounds; ++i) {
    const Vec3 pull = unit(before - hung.centre) + unit(after - hung.centre);
    if (!(norm(pull) > 1e-6)) break;  // a straight line pulls no way
    hung.centre = anchor + link_m * unit(pull);
  }
  const Vec3 normal = cross(before - hung.centre, after - hung.centre);
  if (norm(normal) > 0) hung.axle = std::copysign(1.0, dot(normal, axle)) * unit(normal);
  return hung;
}

std::vector<Point3> drawn_blocks(const Layout& layout, const Frame& frame, const Courses& courses) {
  std::vector<Point3> blocks;
  for (std::size_t i = 0; i < layout.blocks.size(); ++i) {
    const auto id = static_cast<BlockId>(i);
    const Way way = way_of(layout, frame, courses, id);
    blocks.push_back(way.at(frame, along_m_of(layout, frame, courses, id, way)));
  }
  return blocks;
}

std::vector<Point3> drawn_points(const Layout& layout, const Frame& frame, const Course& course,
                                 const std::vector<Point3>& blocks, Point3 attachment) {
  const auto end = [&](const Held& held, Vec3 offset) {
    if (const auto block = block_of(held)) return blocks[static_cast<std::size_t>(*block)] + site_vector(frame, offset);
    return fixed_place(layout, held).value_or(attachment);
  };
  std::vector<Point3> points{end(course.from, course.from_offset)};
  for (const int index : course.sheaves)
    if (index >= 0)
      points.push_back(drawn_centre(layout, layout.sheaves[static_cast<std::size_t>(index)], frame, blocks));
  points.push_back(end(course.to, course.to_offset));
  return points;
}

Solved<double> nominal_ratio(const Layout& layout, const Frame& frame, const Courses& courses,
                             const std::vector<Point3>& blocks, Point3 attachment) {
  // Unknown: the tension of every line but the braking line, whose is 1. One row a block.
  std::vector<std::size_t> unknown(courses.courses.size());
  std::size_t unknowns = 0;
  for (std::size_t l = 0; l < courses.courses.size(); ++l)
    if (courses.courses[l].item.kind == Item::Kind::line && static_cast<int>(l) != courses.braking)
      unknown[l] = unknowns++;
  if (unknowns != layout.blocks.size())
    return unsolved(
        fmt::format("{} lines beside the braking line, but {} travelling blocks: each block is held by one "
                    "line of its own",
                    unknowns, layout.blocks.size()));
  std::vector<std::vector<double>> rows(unknowns, std::vector<double>(unknowns + 1));
  for (std::size_t l = 0; l < courses.courses.size(); ++l) {
    const Course& course = courses.courses[l];
    if (course.item.kind != Item::Kind::line) continue;
    const std::vector<Passed> passed = passed_by(layout, course);
    const std::vector<Point3> points = drawn_points(layout, frame, course, blocks, attachment);
    for (std::size_t i = 0; i < passed.size(); ++i) {
      if (!passed[i].block) continue;
      std::vector<double>& row = rows[static_cast<std::size_t>(*passed[i].block)];
      for (const std::size_t j : {i - 1, i + 1}) {
        if (!(j < points.size())) continue;
        const double toward = std::copysign(1.0, dot(points[j] - points[i], frame.along));
        if (static_cast<int>(l) == courses.braking)
          row[unknowns] -= toward;
        else
          row[unknown[l]] += toward;
      }
    }
  }
  const auto tension = eliminate(rows);
  if (!tension)
    return unsolved("no tensions hold the travelling blocks: the lines do not tie the brake trolley to the brake unit");
  for (std::size_t l = 0; l < courses.courses.size(); ++l)
    if (courses.courses[l].item.kind == Item::Kind::line && static_cast<int>(l) != courses.braking &&
        !((*tension)[unknown[l]] > 0))
      return unsolved(
          fmt::format("line \"{}\" would have to push: the legs on a travelling block all pull the same way",
                      *given_id(layout, courses.courses[l].item)));
  return courses.braking == courses.pulling ? 1 : 1 / (*tension)[unknown[0]];
}

}  // namespace fairlead
