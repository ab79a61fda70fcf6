// What hangs on what.
#include <algorithm>

#include "geometry/layout/items.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

std::string anchor_at(const Layout& layout, const LineEnd& end) {
  const auto bearing = bearing_of(layout, end);
  const auto* anchor = bearing ? std::get_if<AnchorId>(&*bearing) : nullptr;
  return anchor ? layout.anchors.at(static_cast<std::size_t>(*anchor)).id.value : "";
}

}  // namespace

std::string carrier_of(const Layout& layout, const Sheave& sheave) {
  if (const auto* anchor = std::get_if<AnchorId>(&sheave.on))
    return words::id_of(layout, {Item::Kind::anchor, static_cast<int>(*anchor)});
  if (const auto* block = std::get_if<BlockId>(&sheave.on))
    return words::id_of(layout, {Item::Kind::block, static_cast<int>(*block)});
  return std::string(words::kind_of(Item::Kind::brake_trolley));
}

const Line* line_over(const Layout& layout, SheaveId sheave) {
  for (const Line& line : layout.lines)
    for (const Over& over : line.route)
      if (over.sheave == sheave) return &line;
  return nullptr;
}

std::vector<std::string> hangs_on(const Layout& layout, std::size_t index) {
  const AnchorId anchor = static_cast<AnchorId>(index);
  const std::string& id = layout.anchors.at(index).id.value;
  std::vector<std::string> all;
  const auto cable = [&](const std::string& name, const auto& line) {
    if (line.from == anchor || line.to == anchor) all.push_back(name);
  };
  cable("main line", layout.main_line);
  if (layout.main_line.from_back_anchor == anchor || layout.main_line.to_back_anchor == anchor)
    all.push_back("main line behind its saddle");
  for (const ParallelLine& line : layout.parallel_lines) cable("parallel line " + line.id.value, line);
  for (const SupportLine& line : layout.support_lines) cable("support line " + line.id.value, line);
  for (const Sheave& sheave : layout.sheaves)
    if (sheave.on == Carrier(anchor)) all.push_back("sheave " + sheave.id.value);
  for (const Line& line : layout.lines)
    if (anchor_at(layout, line.from) == id || anchor_at(layout, line.to) == id) all.push_back("line " + line.id.value);
  if (layout.brake_unit.on == anchor) all.emplace_back("brake unit");
  if (layout.backup_brake && layout.backup_brake->on == anchor) all.emplace_back("backup brake");
  return all;
}

std::vector<std::string> held_by(const Layout& layout, std::size_t index) {
  std::vector<std::string> all;
  for (const Member& member : layout.members)
    if (member.anchor == static_cast<AnchorId>(index)) all.push_back(member.id.value);
  return all;
}

}  // namespace fairlead::tables
