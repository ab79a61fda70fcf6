#include "geometry/layout/items.hpp"

#include <algorithm>

namespace fairlead {
namespace {

/// Calls f with the list of all items of a kind; not where there is only one of it.
template <class F>
void with_list(const Layout& layout, Item::Kind kind, const F& f) {
  switch (kind) {
    case Item::Kind::anchor:
      return f(layout.anchors);
    case Item::Kind::sheave:
      return f(layout.sheaves);
    case Item::Kind::line:
      return f(layout.lines);
    case Item::Kind::block:
      return f(layout.blocks);
    case Item::Kind::connector:
      return f(layout.connectors);
    case Item::Kind::support_line:
      return f(layout.support_lines);
    case Item::Kind::parallel_line:
      return f(layout.parallel_lines);
    case Item::Kind::member:
      return f(layout.members);
    case Item::Kind::structure:
      return f(layout.structures);
    default:
      return;
  }
}

}  // namespace

const std::string* given_id(const Layout& layout, Item item) {
  const std::string* id = nullptr;
  with_list(layout, item.kind, [&](const auto& list) { id = &list.at(static_cast<std::size_t>(item.index)).id.value; });
  return id;
}

std::optional<Item> same_item(const Layout& from, Item item, const Layout& to) {
  const std::string* id = given_id(from, item);
  if (!id) return item;
  std::optional<Item> found;
  with_list(to, item.kind, [&](const auto& list) {
    for (std::size_t i = 0; i < list.size() && !found; ++i)
      if (list[i].id.value == *id) found = Item{item.kind, static_cast<int>(i)};
  });
  return found;
}

std::optional<LineEnd> bearing_of(const Layout& layout, const LineEnd& end) {
  const auto* connector = std::get_if<ConnectorId>(&end);
  return connector ? layout.connectors.at(static_cast<std::size_t>(*connector)).bearing : end;
}

std::vector<BlockId> blocks_on(const Layout& layout, const Line& line) {
  std::vector<BlockId> found;
  const auto add = [&](const auto& at) {
    const auto* id = std::get_if<BlockId>(&at);
    if (id && std::find(found.begin(), found.end(), *id) == found.end()) found.push_back(*id);
  };
  const auto add_end = [&](const LineEnd& end) {
    if (const auto bearing = bearing_of(layout, end)) add(*bearing);
  };
  add_end(line.from);
  for (const Over& over : line.route) add(layout.sheaves.at(static_cast<std::size_t>(over.sheave)).on);
  add_end(line.to);
  return found;
}

}  // namespace fairlead
