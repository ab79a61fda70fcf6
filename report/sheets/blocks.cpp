#include "report/sheets/blocks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/sheets/force_panel.hpp"
#include "report/tables/parts.hpp"
#include "report/words/cautions.hpp"
#include "report/words/keys.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/sentence.hpp"
#include "report/words/trial.hpp"

namespace fairlead::sheets {

using namespace drawing;

std::string with_minus(std::string number) {
  for (std::size_t i = 0; i + 1 < number.size(); ++i) {
    const bool begins = i == 0 || number[i - 1] == '(' || number[i - 1] == ' ',
               before_digit = number[i + 1] >= '0' && number[i + 1] <= '9';
    if (number[i] == '-' && begins && before_digit) number.replace(i, 1, "−");
  }
  return number;
}

Block block_of(Paragraphs text) {
  constexpr double least_mm = 60;  // narrower columns of text read badly
  return {[](const Canvas&) { return least_mm; },
          [text](const Canvas& canvas, double width) { return text.height(canvas, width); },
          [text](const Canvas& canvas, Paper at, double width) { text.draw(canvas, at, width); }, text.heading()};
}

Block block_of(Grid grid, Paragraphs beneath) {
  constexpr double gap_mm = 2;
  return {[=](const Canvas& canvas) { return grid.least_width(canvas); },
          [=](const Canvas& canvas, double width) {
            return grid.size(canvas, width).height_mm + gap_mm + beneath.height(canvas, width);
          },
          [=](const Canvas& canvas, Paper at, double width) {
            grid.draw(canvas, at, width);
            const double taken = grid.size(canvas, width).height_mm + gap_mm;
            beneath.draw(canvas, at - Paper{0, taken}, width);
          },
          grid.title(),
          [=](const Canvas& canvas, double width) {
            std::vector<Block> blocks;
            const auto parts = grid.column_parts(canvas, width);
            for (std::size_t i = 0; i < parts.size(); ++i)
              blocks.push_back(block_of(grid.of_columns(parts[i], title_of_part(grid.title(), i, parts.size())),
                                        i + 1 < parts.size() ? Paragraphs("", {}, {}) : beneath));
            return blocks;
          }};
}

std::string title_of_part(const std::string& title, std::size_t part, std::size_t parts) {
  return parts > 1 ? fmt::format("{}, columns {} of {}", title, part + 1, parts) : title;
}

namespace {

std::string capitals(std::string_view word) {
  std::string out(word);
  for (char& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

/// Coordinates and the anchors' loads in one table: what a crew sets out and what an engineer checks there.
class PointTable {
 public:
  PointTable(const Dossier& dossier, const Style& style)
      : dossier_(dossier), rig_(dossier.judged.rig), style_(style), loads_(tables::anchor_loads(dossier)) {
    const auto& axes = rig_.layout.site.axes;
    table_.headings = {"point",        axes[0],        axes[1],        axes[2],     "CH",       "across", "case",
                       "F " + axes[0], "F " + axes[1], "F " + axes[2], "size of F", "capacity", "util.",  "verdict"};
    table_.compared = {{1, 2, 3, 4, 5}, {7, 8, 9, 10, 11}};
  }

  Block block() {
    const Layout& layout = rig_.layout;
    for (std::size_t i = 0; i < layout.anchors.size(); ++i) anchor(i);
    for (const Member& member : layout.members) row(member.id.value + " far end", member.to);
    for (const Sheave& sheave : layout.sheaves) {
      if (sheave.mount != Mount::fixed)
        row(sheave.id.value + " eye", tables::eye_of(layout, sheave));
      else if (sheave.position)
        row(sheave.id.value + " centre", *sheave.position);
    }
    for (std::size_t body = 0; body < rig_.bodies.size(); ++body) mounted(body);
    row("unit outlet", layout.brake_unit.outlet);
    return block_of(Grid("SETTING OUT AND ANCHOR LOADS", columns(), rows()), Paragraphs("", beneath(), {small_cap_mm}));
  }

 private:
  static constexpr std::size_t first_component = 7, last_component = 9;
  static bool component(std::size_t column) { return column >= first_component && column <= last_component; }

  // Components take too much room in two systems; the size, which is compared with what is marked, has both.
  tables::Shown both() const { return tables::shown(table_, style_); }
  tables::Shown single() const { return tables::shown(table_, words::single(style_)); }

  std::vector<Column> columns() const {
    const auto two = both().headings, one = single().headings;
    std::vector<Column> columns;
    for (std::size_t c = 0; c < two.size(); ++c) {
      const bool words = c == 0 || c + 1 == two.size();
      columns.push_back({component(c) ? one[c] : two[c], words ? Align::left : c == 6 ? Align::centre : Align::right});
    }
    return columns;
  }
  std::vector<std::vector<std::string>> rows() const {
    auto rows = both().rows;
    const auto one = single().rows;
    for (std::size_t r = 0; r < rows.size(); ++r)
      for (std::size_t c = first_component; c <= last_component; ++c) rows[r][c] = one[r][c];
    for (auto& row : rows)
      for (std::string& cell : row) cell = with_minus(std::move(cell));
    return rows;
  }
  std::vector<Paragraph> beneath() const {
    std::vector<Paragraph> lines;
    for (const std::string& note : loads_.notes)
      if (note.starts_with("Case ")) lines.push_back({"", with_minus(note), Layer::tables});
    for (const Sheave& sheave : rig_.layout.sheaves)
      if (sheave.mount != Mount::fixed)
        lines.push_back({"",
                         fmt::format("{} {}: its eye is set out; its centre follows the lines and is given to check it "
                                     "by, at rest tension with the trolley at its mark.",
                                     sheave.id.value, with_minus(tables::mount_of(rig_.layout, sheave, style_))),
                         Layer::tables});
    if (!rig_.loads.solved())
      lines.push_back({"Loads", "undetermined: " + rig_.loads.result->error().why, Layer::cautions});
    return lines;
  }

  std::vector<Cell> placed(std::string name, Point3 p) const {
    const auto length = [](double m) { return Cell{Quantity{m, Dimension::length}}; };
    std::vector<Cell> cells{std::move(name),
                            length(p.x),
                            length(p.y),
                            length(p.z),
                            length(rig_.frame.chainage_m(p)),
                            length(rig_.frame.across_m(p))};
    cells.resize(table_.headings.size());
    return cells;
  }
  void row(std::string name, Point3 p) { table_.rows.push_back(placed(std::move(name), p)); }

  void mounted(std::size_t body) {
    if (rig_.bodies[body].kind != Item::Kind::sheave) return;
    const std::string id = words::id_of(rig_.layout, rig_.bodies[body]);
    if (const auto centre = tables::centre_at_rest(rig_, body)) row(id + " check, at rest", *centre);
  }
  void anchor(std::size_t i) {
    const Anchor& anchor = rig_.layout.anchors[i];
    std::vector<Cell> cells = placed(anchor.id.value, anchor.position);
    if (i < loads_.rows.size()) {
      const auto& load = loads_.rows[i];  // anchor, three components, size, capacity, utilisation, case
      std::copy(load.begin() + 1, load.begin() + 5, cells.begin() + first_component);
      cells[6] = load[7];
      cells[12] = load[6];
    }
    const bool by_members = tables::rated_by_members(rig_.layout, i);
    const Finding* finding = by_members ? tables::worst_member(dossier_, i) : utilisation_of(dossier_, i);
    if (by_members)
      cells[11] = "by its members";
    else if (const auto capacity = capacity_of(finding))
      cells[11] = *capacity;
    if (finding) cells[13] = std::string(words::word_for(words::outcome_of(*finding)));
    table_.rows.push_back(std::move(cells));
  }

  const Dossier& dossier_;
  const Rig& rig_;
  const Style& style_;
  Table loads_, table_;
};

}  // namespace

Block setting_out_and_loads(const Dossier& dossier, const Style& style) { return PointTable(dossier, style).block(); }

namespace {

/// The findings of one outcome by the checks' names: "line-structure L1, L2; fleet-angle R1".
class Names {
 public:
  void add(std::string_view check, const std::string& subject) {
    auto at = std::find_if(all_.begin(), all_.end(), [&](const auto& entry) { return entry.first == check; });
    if (at == all_.end()) at = all_.insert(at, {std::string(check), {}});
    auto& subjects = at->second;
    if (std::find(subjects.begin(), subjects.end(), subject) == subjects.end()) subjects.push_back(subject);
  }
  std::string text() const {
    std::string all;
    for (const auto& [check, subjects] : all_) {
      all += (all.empty() ? "" : "; ") + check;
      for (const std::string& subject : subjects) all += (&subject == &subjects.front() ? " " : ", ") + subject;
    }
    return all;
  }

 private:
  std::vector<std::pair<std::string, std::vector<std::string>>> all_;
};

bool in_full(words::Outcome outcome, Saying saying) {
  // Who let something pass, why and until when is always said.
  if (outcome == words::Outcome::waived) return true;
  if (outcome == words::Outcome::pass || saying == Saying::by_name) return false;
  return saying == Saying::in_full || outcome != words::Outcome::not_judged;
}

bool is_adverse(words::Outcome outcome) { return outcome != words::Outcome::waived && outcome != words::Outcome::pass; }

}  // namespace

Block findings_summary(const Dossier& dossier, const Style& style, Saying saying) {
  const Judged& judged = dossier.judged;
  const Layout& layout = judged.rig.layout;
  std::vector<Paragraph> lines;
  for (const words::Outcome outcome : words::all_outcomes) {
    const std::string mark = capitals(words::word_for(outcome));
    const Layer layer = is_adverse(outcome) ? Layer::cautions : Layer::notes;
    Names names;
    for (const Finding& finding : judged.findings) {
      if (words::outcome_of(finding) != outcome) continue;
      const std::string_view name = finding.check->name;
      if (!in_full(outcome, saying)) {
        names.add(name, words::id_of(layout, finding.subject));
        continue;
      }
      std::string text = fmt::format("{}: {}", name, words::keys_in_words(words::sentence(layout, finding, style)));
      if (outcome == words::Outcome::waived)
        text += "; waived " + words::terms_of(layout.waivers[static_cast<std::size_t>(finding.waiver)]);
      lines.push_back({mark, with_minus(std::move(text)), layer});
    }
    if (std::string text = names.text(); !text.empty()) lines.push_back({mark, std::move(text), layer});
  }
  std::string nothing;
  for (const Check* check : words::without_subject(judged.findings))
    nothing += fmt::format("{}{}", nothing.empty() ? "" : "; ", check->name);
  if (!nothing.empty()) lines.push_back({"NOTHING TO JUDGE", nothing, Layer::notes});
  // The verdict stands on one line, whatever column it is given.
  const std::string headline = words::headline(dossier);
  Block block = block_of(Paragraphs(headline, lines, {small_cap_mm, heading_cap_mm}));
  block.least_width = [headline, least = block.least_width](const Canvas& canvas) {
    return std::max(least(canvas), canvas.width(headline, heading_cap_mm));
  };
  return block;
}

namespace {

Block list_of(std::string heading, std::span<const std::string_view> sentences, const Typography& type) {
  std::vector<Paragraph> lines;
  for (const std::string_view sentence : sentences) lines.push_back({"–", std::string(sentence), Layer::notes});
  return block_of(Paragraphs(std::move(heading), lines, type));
}

}  // namespace

Block cautions(const Typography& type) { return list_of("CAUTIONS", words::cautions(), type); }

Block not_looked_at(const Typography& type) {
  return list_of("NOT LOOKED AT BY THIS VERSION", words::not_checked(), type);
}

}  // namespace fairlead::sheets
