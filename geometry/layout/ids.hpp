// Who is called what in a layout. The ids of all kinds of items share one namespace.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/node.hpp"
#include "geometry/layout/rigging.hpp"

namespace fairlead {

class Ids {
 public:
  /// Gathers the ids of everything that has one; one used twice, or one that is a word of the file, is an error.
  Ids(const Node& root, Errors&);

  /// "brake_trolley" and "brake_unit" are found too.
  std::optional<Item> find(std::string_view id) const;
  /// All that may stand where a reference to one of these kinds is wanted, in the order of the file.
  std::vector<std::string> known(const std::vector<Item::Kind>&) const;

 private:
  std::map<std::string, Item, std::less<>> items_;
  std::vector<std::string> in_order_;
};

/// "an anchor", "the brake unit".
std::string_view item_words(Item::Kind);

/// What a reference of each type may point at, and pointing it there.
const std::vector<Item::Kind>& kinds_of(const AnchorId*);
const std::vector<Item::Kind>& kinds_of(const std::optional<AnchorId>*);
const std::vector<Item::Kind>& kinds_of(const SheaveId*);
const std::vector<Item::Kind>& kinds_of(const BlockId*);
const std::vector<Item::Kind>& kinds_of(const Carrier*);
const std::vector<Item::Kind>& kinds_of(const LineEnd*);
void point_at(Item, AnchorId&);
void point_at(Item, std::optional<AnchorId>&);
void point_at(Item, SheaveId&);
void point_at(Item, BlockId&);
void point_at(Item, Carrier&);
void point_at(Item, LineEnd&);

}  // namespace fairlead
