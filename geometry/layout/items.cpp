#include "geometry/layout/items.hpp"

#include <algorithm>

namespace fairlead {
const std::string* given_id(const Layout& layout, Item item) {
  const auto index = static_cast<std::size_t>(item.index);
  switch (item.kind) {
    case Item::Kind::anchor:
      return &layout.anchors.at(index).id.value;
    case Item::Kind::sheave:
      return &layout.sheaves.at(index).id.value;
    case Item::Kind::line:
      return &layout.lines.at(index).id.value;
    case Item::Kind::block:
      return &layout.blocks.at(index).id.value;
    case Item::Kind::connector:
      return &layout.connectors.at(index).id.value;
    case Item::Kind::support_line:
      return &layout.support_lines.at(index).id.value;
    case Item::Kind::parallel_line:
      return &layout.parallel_lines.at(index).id.value;
    case Item::Kind::member:
      return &layout.members.at(index).id.value;
    case Item::Kind::structure:
      return &layout.structures.at(index).id.value;
    default:
      return nullptr;
  }
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
