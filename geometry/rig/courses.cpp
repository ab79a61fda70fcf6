#include "geometry/rig/courses.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "geometry/layout/items.hpp"

namespace fairlead {
namespace {

std::optional<Turning> reversed(std::optional<Turning> turning) {
  if (!turning) return turning;
  return *turning == Turning::clockwise ? Turning::anticlockwise : Turning::clockwise;
}

Solved<Held> held_by(const Layout& layout, const LineEnd& end, const Line& line) {
  const auto bearing = bearing_of(layout, end);
  if (!bearing) {
    const Connector& connector = layout.connectors[static_cast<std::size_t>(std::get<ConnectorId>(end))];
    return unsolved(
        fmt::format("line \"{}\" ends at connector \"{}\", which ties it to lines only: lines joined to lines "
                    "are not solved by this version",
                    line.id.value, connector.id.value));
  }
  if (const auto* anchor = std::get_if<AnchorId>(&*bearing)) return *anchor;
  if (const auto* block = std::get_if<BlockId>(&*bearing)) return *block;
  if (std::holds_alternative<BrakeUnitEnd>(*bearing)) return BrakeUnitEnd{};
  return BrakeTrolleyEnd{};
}

/// How near an end is to the trolley in the order of the reeving: a line runs from the lesser to the greater.
int rank(const Held& held) {
  if (std::holds_alternative<BrakeTrolleyEnd>(held)) return 0;
  if (std::holds_alternative<BlockId>(held)) return 1;
  return std::holds_alternative<AnchorId>(held) ? 2 : 3;
}

Vec3 offset_of(const std::optional<Given<Vec3>>& given) { return given ? given->value : Vec3{}; }

Solved<Course> course_of(const Layout& layout, std::size_t index) {
  const Line& line = layout.lines[index];
  const auto from = held_by(layout, line.from, line), to = held_by(layout, line.to, line);
  if (!from) return tl::unexpected(from.error());
  if (!to) return tl::unexpected(to.error());
  if (rank(*from) == rank(*to) && rank(*from) != 1)
    return unsolved(
        fmt::format("line \"{}\" begins and ends at fixed points or at the same thing: it ties nothing to "
                    "the brake unit",
                    line.id.value));
  Course course{.item = {Item::Kind::line, static_cast<int>(index)}, .from = *from, .to = *to};
  course.from_offset = offset_of(line.from_offset);
  course.to_offset = offset_of(line.to_offset);
  course.closed_by = line.closed_by;
  for (const Over& over : line.route) {
    course.sheaves.push_back(static_cast<int>(over.sheave));
    course.turning.push_back(over.turning);
  }
  if (rank(*from) > rank(*to)) {
    course.reversed = true;
    std::swap(course.from, course.to);
    std::swap(course.from_offset, course.to_offset);
    std::reverse(course.sheaves.begin(), course.sheaves.end());
    std::reverse(course.turning.begin(), course.turning.end());
    for (auto& turning : course.turning) turning = reversed(turning);
  }
  return course;
}

Course course_of(const SupportLine& line, std::size_t index) {
  Course course{.item = {Item::Kind::support_line, static_cast<int>(index)}, .from = line.from, .to = line.to};
  course.sheaves = {-1};
  course.turning = {std::nullopt};
  return course;
}

/// One line a sheave, and no sheave on the trolley.
tl::expected<void, Unsolved> check_sheaves(const Layout& layout, const std::vector<Course>& courses) {
  std::vector<const Course*> over(layout.sheaves.size());
  for (const Course& course : courses)
    for (const int index : course.sheaves) {
      const Sheave& sheave = layout.sheaves[static_cast<std::size_t>(index)];
      const std::string& line = *given_id(layout, course.item);
      if (std::holds_alternative<BrakeTrolleyEnd>(sheave.on))
        return unsolved(
            fmt::format("sheave \"{}\" rides on the brake trolley, so the reduction is upside down: the brake "
                        "unit's line would run faster than the trolley; lead line \"{}\" from the trolley over "
                        "the redirect to a travelling block instead",
                        sheave.id.value, line));
      const Course*& first = over[static_cast<std::size_t>(index)];
      if (first)
        return unsolved(
            fmt::format("lines \"{}\" and \"{}\" both run over sheave \"{}\": give each groove its own "
                        "[[sheave]]",
                        *given_id(layout, first->item), line, sheave.id.value));
      first = &course;
    }
  return {};
}

}  // namespace

Solved<Courses> courses_of(const Layout& layout) {
  std::vector<Course> lines;
  for (std::size_t i = 0; i < layout.lines.size(); ++i) {
    auto course = course_of(layout, i);
    if (!course) return tl::unexpected(course.error());
    lines.push_back(std::move(*course));
  }
  if (auto sound = check_sheaves(layout, lines); !sound) return tl::unexpected(sound.error());
  const auto is_pulling = [](const Course& c) { return std::holds_alternative<BrakeTrolleyEnd>(c.from); };
  const auto is_braking = [](const Course& c) { return std::holds_alternative<BrakeUnitEnd>(c.to); };
  for (const auto& [count, what] : {std::pair{std::count_if(lines.begin(), lines.end(), is_pulling), "brake trolley"},
                                    std::pair{std::count_if(lines.begin(), lines.end(), is_braking), "brake unit"}}) {
    if (count == 0) return unsolved(fmt::format("no line ends at the {}", what));
    if (count > 1) return unsolved(fmt::format("more than one line ends at the {}", what));
  }
  const auto order = [&](const Course& c) { return is_pulling(c) ? 0 : is_braking(c) ? 2 : 1; };
  std::stable_sort(lines.begin(), lines.end(), [&](const Course& a, const Course& b) { return order(a) < order(b); });
  if (lines.front().sheaves.empty())
    return unsolved(fmt::format("line \"{}\" runs over no sheave", *given_id(layout, lines.front().item)));
  Courses all{std::move(lines), 0, 0};
  all.braking = static_cast<int>(all.courses.size()) - 1;
  if (is_braking(all.courses.front())) all.braking = 0;
  if (all.braking == 0 && all.courses.size() > 1)
    return unsolved(
        fmt::format("line \"{}\" runs straight from the brake trolley to the brake unit; line \"{}\" ties "
                    "nothing to them",
                    *given_id(layout, all.courses[0].item), *given_id(layout, all.courses[1].item)));
  for (std::size_t i = 0; i < layout.support_lines.size(); ++i)
    all.courses.push_back(course_of(layout.support_lines[i], i));
  return all;
}

std::vector<Item> bodies_of(const Layout& layout, const Courses& courses) {
  std::vector<Item> bodies;
  for (std::size_t i = 0; i < layout.blocks.size(); ++i) bodies.push_back({Item::Kind::block, static_cast<int>(i)});
  for (std::size_t i = 0; i < layout.sheaves.size(); ++i) {
    const int index = static_cast<int>(i);
    const bool used = std::any_of(courses.courses.begin(), courses.courses.end(), [&](const Course& course) {
      return std::find(course.sheaves.begin(), course.sheaves.end(), index) != course.sheaves.end();
    });
    if (used && layout.sheaves[i].mount != Mount::fixed) bodies.push_back({Item::Kind::sheave, index});
  }
  return bodies;
}

}  // namespace fairlead
