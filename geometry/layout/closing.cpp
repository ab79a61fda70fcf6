// What fixes the length of every line of a reduction.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/items.hpp"
#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

/// Every line but the braking line closes on its finished length, or on a block whose place at rest is known. Each such
/// block closes one line: a line without one would have no length, and a block without one would rest where the lengths
/// of its lines do not let it.
class Closing {
 public:
  Closing(Layout& layout, Errors& errors) : layout_(layout), errors_(errors), closes_(layout.blocks.size()) {
    for (const Line& line : layout.lines) on_.push_back(blocks_on(layout, line));
  }

  void close() {
    for (std::size_t i = 0; i < layout_.lines.size(); ++i) {
      const Line& line = layout_.lines[i];
      std::vector<bool> tried(layout_.blocks.size());
      if (is_braking(line))
        braking(line);
      else if (!line.length_m && !find_block(i, tried))
        length_unknown(i);
    }
    for (std::size_t i = 0; i < layout_.blocks.size(); ++i) {
      if (closes_[i])
        layout_.lines[*closes_[i]].closed_by = static_cast<BlockId>(i);
      else if (layout_.blocks[i].rest_m)
        rest_follows(static_cast<BlockId>(i));
    }
  }

 private:
  bool at_unit(const LineEnd& end) const {
    const auto bearing = bearing_of(layout_, end);
    return bearing && std::holds_alternative<BrakeUnitEnd>(*bearing);
  }
  bool is_braking(const Line& line) const { return at_unit(line.from) || at_unit(line.to); }

  const Block& block(BlockId id) const { return layout_.blocks[static_cast<std::size_t>(id)]; }

  void braking(const Line& line) {
    if (line.length_m)
      errors_.add(line.length_m->place,
                  fmt::format("line \"{}\": it runs into the brake unit, so its length follows from \"rest_extension\"",
                              line.id.value),
                  "leave out \"length\"");
  }

  // Gives the line a block of its own, where need be by moving other lines to other blocks.
  bool find_block(std::size_t line, std::vector<bool>& tried) {
    for (const BlockId id : on_[line]) {
      const auto one = static_cast<std::size_t>(id);
      if (!block(id).rest_m || tried[one]) continue;
      tried[one] = true;
      if (closes_[one] && !find_block(*closes_[one], tried)) continue;
      closes_[one] = line;
      return true;
    }
    return false;
  }

  void length_unknown(std::size_t line) {
    const auto open = std::find_if(on_[line].begin(), on_[line].end(), [&](BlockId id) { return !block(id).rest_m; });
    errors_.add(layout_.lines[line].place,
                fmt::format("line \"{}\": its finished length is not known", layout_.lines[line].id.value),
                open == on_[line].end()
                    ? "give its \"length\""
                    : fmt::format("give its \"length\", or the \"rest\" of block \"{}\"", block(*open).id.value));
  }

  void rest_follows(BlockId id) {
    std::string instead = "leave out \"rest\"";
    for (std::size_t i = 0; i < on_.size(); ++i) {
      const bool on_it = std::find(on_[i].begin(), on_[i].end(), id) != on_[i].end();
      if (!on_it || !layout_.lines[i].length_m) continue;
      instead += fmt::format(", or the \"length\" of line \"{}\"", layout_.lines[i].id.value);
      break;
    }
    errors_.add(block(id).rest_m->place,
                fmt::format("block \"{}\": the lengths of the lines say already where it rests", block(id).id.value),
                instead);
  }

  Layout& layout_;
  Errors& errors_;
  std::vector<std::vector<BlockId>> on_;            // blocks of each line
  std::vector<std::optional<std::size_t>> closes_;  // line of each block
};

}  // namespace

void close_lines(Layout& layout, Errors& errors) { Closing(layout, errors).close(); }

}  // namespace fairlead
