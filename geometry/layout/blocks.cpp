// Travelling blocks: what pulls and carries them, and how lines end on them.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "geometry/layout/items.hpp"
#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

class Blocks {
 public:
  Blocks(Layout& layout, Errors& errors) : layout_(layout), errors_(errors) {}

  void check() {
    find_bearings();
    for (const Line& line : layout_.lines) {
      offset(line, line.from, line.from_offset, "from");
      offset(line, line.to, line.to_offset, "to");
      terminations(line);
    }
    sheaves_have_lines();
    each_is_pulled();
    carried_once();
  }

 private:
  using Index = std::size_t;

  // What each connector joins lines to; where a line ends on it, to one thing only.
  void find_bearings() {
    std::map<std::string, LineEnd, std::less<>> ends{{"brake_trolley", BrakeTrolleyEnd{}},
                                                     {"brake_unit", BrakeUnitEnd{}}};
    for (Index i = 0; i < layout_.anchors.size(); ++i)
      ends.emplace(layout_.anchors[i].id.value, static_cast<AnchorId>(i));
    for (Index i = 0; i < layout_.blocks.size(); ++i) ends.emplace(block(i).id.value, static_cast<BlockId>(i));
    for (Index i = 0; i < layout_.connectors.size(); ++i) {
      Connector& connector = layout_.connectors[i];
      const bool in_use = ends_a_line(static_cast<ConnectorId>(i));
      const std::string* first = nullptr;
      for (const std::string& id : connector.joins) {
        const auto end = ends.find(id);
        if (end == ends.end()) continue;
        if (!first) {
          first = &id;
          connector.bearing = end->second;
        } else if (in_use) {
          errors_.add(connector.place,
                      fmt::format("connector \"{}\": a line ends on it, and it joins both \"{}\" and \"{}\"",
                                  connector.id.value, *first, id),
                      "let it join the line to one of them");
          break;
        }
      }
    }
  }

  bool ends_a_line(ConnectorId id) const {
    return std::any_of(layout_.lines.begin(), layout_.lines.end(),
                       [&](const Line& line) { return line.from == LineEnd(id) || line.to == LineEnd(id); });
  }

  const Block& block(Index i) const { return layout_.blocks[i]; }

  void offset(const Line& line, const LineEnd& end, const std::optional<Given<Vec3>>& given, std::string_view key) {
    const auto bearing = bearing_of(layout_, end);
    if (given && !(bearing && std::holds_alternative<BlockId>(*bearing)))
      errors_.add(given->place, fmt::format("line \"{}\": its \"{}\" is on no block", line.id.value, key),
                  fmt::format("leave out \"{}_offset\": it is counted from a block's point", key));
  }

  void terminations(const Line& line) {
    const double ends_m = (line.from_termination_m ? line.from_termination_m->value : 0) +
                          (line.to_termination_m ? line.to_termination_m->value : 0);
    if (line.length_m && !(ends_m < *line.length_m))
      errors_.add(line.length_m->place,
                  fmt::format("line \"{}\": its terminations take {:.3f} m and leave nothing of its length",
                              line.id.value, ends_m));
  }

  void sheaves_have_lines() {
    std::vector<bool> used(layout_.sheaves.size());
    for (const Line& line : layout_.lines)
      for (const Over& over : line.route) used[static_cast<Index>(over.sheave)] = true;
    for (Index i = 0; i < layout_.sheaves.size(); ++i) {
      const Sheave& sheave = layout_.sheaves[i];
      if (!used[i] && std::holds_alternative<BlockId>(sheave.on))
        errors_.add(sheave.on_place, fmt::format("sheave \"{}\": no line runs over it", sheave.id.value),
                    "name it in the \"route\" of a line, or leave it out");
    }
  }

  void each_is_pulled() {
    std::vector<bool> pulled(layout_.blocks.size());
    for (const Line& line : layout_.lines)
      for (const BlockId id : blocks_on(layout_, line)) pulled[static_cast<Index>(id)] = true;
    for (Index i = 0; i < layout_.blocks.size(); ++i)
      if (!pulled[i])
        errors_.add(block(i).place, fmt::format("block \"{}\": no line pulls it", block(i).id.value),
                    "end a line on it, or let one run over a sheave on it");
  }

  void carried_once() {
    for (Index i = 0; i < layout_.support_lines.size(); ++i) {
      const SupportLine& line = layout_.support_lines[i];
      const auto before = layout_.support_lines.begin() + static_cast<std::ptrdiff_t>(i);
      const auto first = std::find_if(layout_.support_lines.begin(), before,
                                      [&](const SupportLine& other) { return other.carries == line.carries; });
      if (first != before)
        errors_.add(line.carries_place,
                    fmt::format("support line \"{}\": block \"{}\" rides on support line \"{}\" already", line.id.value,
                                block(static_cast<Index>(line.carries)).id.value, first->id.value),
                    "a block rides on one support line");
    }
  }

  Layout& layout_;
  Errors& errors_;
};

}  // namespace

void check_blocks(Layout& layout, Errors& errors) { Blocks(layout, errors).check(); }

}  // namespace fairlead
