#include "geometry/layout/ids.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/outline.hpp"

namespace fairlead {
namespace {

using Kind = Item::Kind;

struct NamedKind {
  std::string_view section;
  Kind kind;
};
constexpr NamedKind lists[] = {{"anchor", Kind::anchor},       {"sheave", Kind::sheave},
                               {"line", Kind::line},           {"block", Kind::block},
                               {"connector", Kind::connector}, {"support_line", Kind::support_line},
                               {"structure", Kind::structure}, {"parallel_line", Kind::parallel_line},
                               {"member", Kind::member}};

}  // namespace

Ids::Ids(const Node& root, Errors& errors)
    : items_{{"brake_trolley", {Kind::brake_trolley, 0}}, {"brake_unit", {Kind::brake_unit, 0}}},
      in_order_{"brake_trolley", "brake_unit"} {
  std::map<std::string, unsigned> lines;
  for (const auto& [section, kind] : lists) {
    const Node* list = root.find(section);
    if (!list) continue;
    for (std::size_t i = 0; i < list->items.size(); ++i) {
      const Node* id = list->items[i].find("id");
      if (!id || id->kind != Node::Kind::text) continue;
      const Item item{kind, static_cast<int>(i)};
      if (layout_outline().find(id->text)) {
        errors.add(id->place, fmt::format("\"{}\" is a word of the layout file and can be no id", id->text),
                   "give it a name of its own");
      } else if (const auto [it, fresh] = items_.emplace(id->text, item); !fresh) {
        const unsigned line = lines[id->text];
        errors.add(id->place,
                   fmt::format("the id \"{}\" is taken by {}{}", id->text, item_words(it->second.kind),
                               line > 0 ? fmt::format(" in line {}", line) : ""),
                   "give it a name of its own");
      } else {
        in_order_.push_back(id->text);
        lines[id->text] = id->place.line;
      }
    }
  }
}

std::optional<Item> Ids::find(std::string_view id) const {
  const auto found = items_.find(id);
  return found == items_.end() ? std::nullopt : std::optional(found->second);
}

std::vector<std::string> Ids::known(const std::vector<Kind>& kinds) const {
  std::vector<std::string> ids;
  for (const std::string& id : in_order_)
    if (std::find(kinds.begin(), kinds.end(), items_.find(id)->second.kind) != kinds.end()) ids.push_back(id);
  return ids;
}

std::string_view item_words(Kind kind) {
  switch (kind) {
    case Kind::layout:
      return "the layout";
    case Kind::main_line:
      return "the main line";
    case Kind::anchor:
      return "an anchor";
    case Kind::sheave:
      return "a sheave";
    case Kind::line:
      return "a line";
    case Kind::block:
      return "a block";
    case Kind::connector:
      return "a connector";
    case Kind::brake_unit:
      return "the brake unit";
    case Kind::brake_trolley:
      return "the brake trolley";
    case Kind::backup_brake:
      return "the backup brake";
    case Kind::rider:
      return "a rider";
    case Kind::landing:
      return "the landing";
    case Kind::support_line:
      return "a support line";
    case Kind::structure:
      return "a structure";
    case Kind::parallel_line:
      return "a parallel line";
    case Kind::member:
      return "a member";
  }
  return "an item";
}

const std::vector<Kind>& kinds_of(const AnchorId*) {
  static const std::vector<Kind> kinds{Kind::anchor};
  return kinds;
}
const std::vector<Kind>& kinds_of(const std::optional<AnchorId>*) {
  return kinds_of(static_cast<const AnchorId*>(nullptr));
}
const std::vector<Kind>& kinds_of(const SheaveId*) {
  static const std::vector<Kind> kinds{Kind::sheave};
  return kinds;
}
const std::vector<Kind>& kinds_of(const BlockId*) {
  static const std::vector<Kind> kinds{Kind::block};
  return kinds;
}
const std::vector<Kind>& kinds_of(const Carrier*) {
  static const std::vector<Kind> kinds{Kind::anchor, Kind::block, Kind::brake_trolley};
  return kinds;
}
const std::vector<Kind>& kinds_of(const LineEnd*) {
  static const std::vector<Kind> kinds{Kind::anchor, Kind::block, Kind::connector, Kind::brake_trolley,
                                       Kind::brake_unit};
  return kinds;
}

void point_at(Item item, AnchorId& to) { to = static_cast<AnchorId>(item.index); }
void point_at(Item item, std::optional<AnchorId>& to) { to = static_cast<AnchorId>(item.index); }
void point_at(Item item, SheaveId& to) { to = static_cast<SheaveId>(item.index); }
void point_at(Item item, BlockId& to) { to = static_cast<BlockId>(item.index); }
void point_at(Item item, Carrier& to) {
  if (item.kind == Kind::anchor) to = static_cast<AnchorId>(item.index);
  if (item.kind == Kind::block) to = static_cast<BlockId>(item.index);
  if (item.kind == Kind::brake_trolley) to = BrakeTrolleyEnd{};
}
void point_at(Item item, LineEnd& to) {
  if (item.kind == Kind::anchor) to = static_cast<AnchorId>(item.index);
  if (item.kind == Kind::block) to = static_cast<BlockId>(item.index);
  if (item.kind == Kind::connector) to = static_cast<ConnectorId>(item.index);
  if (item.kind == Kind::brake_trolley) to = BrakeTrolleyEnd{};
  if (item.kind == Kind::brake_unit) to = BrakeUnitEnd{};
}

}  // namespace fairlead
