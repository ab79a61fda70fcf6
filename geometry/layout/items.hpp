// What a finding is about, looked up in its layout.
#pragma once

#include "geometry/layout/layout.hpp"

namespace fairlead {

/// The id an author gave, or null where there is only one of the kind.
const std::string* given_id(const Layout&, Item);

/// The item of `to` that has the kind and id this one has in `from`; itself where there is only one of the kind.
std::optional<Item> same_item(const Layout& from, Item, const Layout& to);

/// What the end of a line bears on: itself, or through its connector the one thing this joins that is no line.
/// nullopt: the connector joins lines only.
std::optional<LineEnd> bearing_of(const Layout&, const LineEnd&);

/// The blocks a line ends on or runs over, from its first end on, each once.
std::vector<BlockId> blocks_on(const Layout&, const Line&);

}  // namespace fairlead
