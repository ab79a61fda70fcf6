#include <fmt/format.h>

#include <cmath>

#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
std::string side_of(const Frame& frame, const TiedMark& tied, const Style& style) {
  // By the direction that tells it best.
  const double along = dot(tied.normal, frame.along), across = dot(tied.normal, frame.across),
               up = dot(tied.normal, frame.up);
  const char* side = up > 0 ? "above" : "below";
  if (std::abs(along) > std::abs(up) && std::abs(along) >= std::abs(across))
    side = along > 0 ? "downstream" : "upstream";
  else if (std::abs(across) > std::abs(up))
    side = across > 0 ? "left" : "right";
  return fmt::format("{} by {}", side, words::travel(tied.height_m, style));
}

Table ties(const Dossier& dossier, const Style& style) {
  Table table{"Tie distances",
              {"mark", "first tape", "second tape", "third tape", "side", "check tape", "at the mirror", "error x"},
              {},
              {}};
  if (!dossier.setting_out) return table;
  const SettingOut& out = *dossier.setting_out;
  const auto tape = [&](const Tie& tie) -> Cell {
    return fmt::format("{} {}", out.tape_ends.at(static_cast<std::size_t>(tie.from)),
                       words::travel(tie.distance_m, style));
  };
  std::vector<std::string> without;
  for (std::size_t i = 0; i < out.ties.size(); ++i) {
    const Solved<TiedMark>& tied = out.ties[i];
    const std::string& id = out.marks.at(i).point.id;
    if (!tied) {
      without.push_back(fmt::format("{} is not tied: {}.", id, tied.error().why));
      continue;
    }
    std::vector<Cell> row{id};
    for (const Tie& tie : tied->ties) row.push_back(tape(tie));
    row.emplace_back(side_of(dossier.judged.rig.frame, *tied, style));
    row.resize(table.headings.size());
    if (tied->check) {
      row[5] = tape(tied->check->tie);
      row[6] = words::travel(tied->check->at_mirror_m, style);
    }
    row[7] = fmt::format("{:.1f}", tied->dilution);
    table.rows.push_back(std::move(row));
  }
  table.notes = {
      fmt::format("Straight from mark to mark, no longer than {}, clear of the layout's structures.",
                  words::travel(out.longest_tape_m, style)),
      "Side: of the plane through the three marks the tapes run from, looking toward the landing, and how far off it; "
      "the same three meet at the mirror image on its other side. Check tape: a fourth; what it would read at the "
      "mirror. Error x: of the mark, over that of a tape."};
  table.notes.insert(table.notes.end(), without.begin(), without.end());
  if (!without.empty())
    table.notes.emplace_back("Pegs off the main line's plane, given in a points file, tie what its own marks can not.");
  return table;
}

}  // namespace fairlead::tables
