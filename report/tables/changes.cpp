// What follows from a change, the old number beside the new.
#include <fmt/format.h>

#include "report/changes.hpp"
#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// Rows of pairs. One whose pairs all read the same is not shown but named in a note.
class Pairs {
 public:
  Pairs(Table table, const Style& style) : table_(std::move(table)), style_(style) {}

  struct Column {
    Pair pair;
    Dimension dimension{};
    bool with_growth = false;
  };

  /// False where they all read the same; else `append` sets further cells behind them.
  bool add(const std::string& name, std::initializer_list<Column> columns) {
    bool same = true;
    std::vector<Cell> row{name};
    table_.compared.clear();
    for (const auto& [pair, dimension, with_growth] : columns) {
      same = same && read(pair.was, dimension) == read(pair.is, dimension);
      table_.compared.push_back({row.size(), row.size() + 1});
      row.push_back(cell(pair.was, dimension));
      row.push_back(cell(pair.is, dimension));
      if (!with_growth) continue;
      const auto grown = growth(pair);
      row.push_back(grown ? Cell{fmt::format("{:+.1f} %", 100 * *grown)} : Cell{});
    }
    if (same)
      unchanged_ += (unchanged_.empty() ? "" : ", ") + name;
    else
      table_.rows.push_back(std::move(row));
    return !same;
  }
  void append(Cell cell) { table_.rows.back().push_back(std::move(cell)); }

  template <class T>
  void say_unsolved(const Solved<T>& was, const Solved<T>& is) {
    if (!was) table_.notes.push_back("Undetermined in the old file: " + was.error().why);
    if (!is) table_.notes.push_back("Undetermined in the new file: " + is.error().why);
  }

  Table take() {
    if (!unchanged_.empty() && !table_.rows.empty())
      table_.notes.push_back(fmt::format("As they were: {}.", unchanged_));
    return std::move(table_);
  }

 private:
  std::string read(const std::optional<double>& si, Dimension dimension) const {
    return si ? words::shown(*si, dimension, style_) : "";
  }

  Table table_;
  const Style& style_;
  std::string unchanged_;
};

}  // namespace

Table main_line_changes(const Changes& changes, const Style& style) {
  Pairs pairs({"Main line, bare", {"state", "sag was", "now", "T at start was", "now", "T at end was", "now"}, {}, {}},
              style);
  for (const StateChange& state : changes.difference.main_line)
    pairs.add(state.name, {{state.sag_m, Dimension::length},
                           {state.start_tension_N, Dimension::force},
                           {state.end_tension_N, Dimension::force}});
  pairs.say_unsolved(*changes.was.rig.main_line.result, *changes.is.rig.main_line.result);
  return pairs.take();
}

Table anchor_load_changes(const Changes& changes, const Style& style) {
  Pairs pairs({"Loads on anchors and main line",
               {"part", "load was", "now", "change", "utilisation was", "now", "case was", "now"},
               {},
               {}},
              style);
  Letters letters;
  const auto letter_of = [&](const std::optional<int>& governing, const Judged& side) -> Cell {
    if (!governing) return {};
    if (*governing < 0) return "none";
    return letters.of(case_name(side.rig.loads.solved()->cases.at(static_cast<std::size_t>(*governing)), style));
  };
  const auto add = [&](const std::string& name, const LoadChange& load) {
    if (!pairs.add(name, {{load.force_N, Dimension::force, true}, {load.utilisation, Dimension::ratio}})) return;
    pairs.append(letter_of(load.case_was, changes.was));
    pairs.append(letter_of(load.case_is, changes.is));
  };
  for (const AnchorChange& anchor : changes.difference.anchors) add("anchor " + anchor.id, anchor);
  add("main line", changes.difference.main_line_load);
  pairs.say_unsolved(*changes.was.rig.loads.result, *changes.is.rig.loads.result);
  Table table = pairs.take();
  letters.explain(table);
  return table;
}

Table line_changes(const Changes& changes, const Style& style) {
  Pairs pairs(
      {"Lines",
       {"line", "hanging length was", "now", "cut length was", "now", "at rest was", "now", "greatest was", "now"},
       {},
       {}},
      style);
  for (const LineChange& line : changes.difference.lines)
    pairs.add(line.id, {{line.hanging_m, Dimension::length},
                        {line.cut_m, Dimension::length},
                        {line.rest_tension_N, Dimension::force},
                        {line.greatest_tension_N, Dimension::force}});
  pairs.say_unsolved(*changes.was.rig.reeving.result, *changes.is.rig.reeving.result);
  Table table = pairs.take();
  if (!table.rows.empty())
    table.notes.insert(table.notes.begin(),
                       "At rest: tension at the end farther from the trolley, as measured. Greatest: tension anywhere "
                       "along the line, in any case.");
  return table;
}

Table sheave_changes(const Changes& changes, const Style& style) {
  Pairs pairs({"Sheaves", {"sheave", "worst fleet was", "now"}, {}, {}}, style);
  for (const SheaveChange& sheave : changes.difference.sheaves)
    pairs.add(sheave.id, {{sheave.fleet_rad, Dimension::angle}});
  return pairs.take();
}

}  // namespace fairlead::tables
