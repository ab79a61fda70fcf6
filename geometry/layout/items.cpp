#include "geometry/layout/items.hpp"

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
    case Item::Kind::structure:
      return &layout.structures.at(index).id.value;
    default:
      return nullptr;
  }
}

}  // namespace fairlead
