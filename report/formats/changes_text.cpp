#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "report/formats/text.hpp"
#include "report/tables/tables.hpp"
#include "report/words/changes.hpp"
#include "report/words/names.hpp"
#include "report/words/revision_line.hpp"
#include "report/words/sentence.hpp"
#include "report/words/version.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {
namespace {

using words::wrapped;

std::string whose(const Changes& changes) {
  std::string text;
  const auto add = [&](const char* which, const Judged& side) {
    const Layout& layout = side.rig.layout;
    const Project& project = layout.project;
    const std::string date = project.date ? " of " + words::date_of(project.date->value) : "";
    text += wrapped(which, fmt::format("{} revision {}{}, {}", project.number.value, project.revision.value, date,
                                       layout.files.front()));
    text += fmt::format("     sha256 {}\n", layout.sha256);
    text += wrapped("     ", words::headline(side));
  };
  add("was  ", changes.was);
  add("now  ", changes.is);
  return text + fmt::format("fairlead {}\n", words::program_version());
}

/// Points that moved alike stand together.
std::string moved_text(const Changes& changes, const Style& style) {
  struct Alike {
    std::string names, movement;
  };
  std::vector<Alike> all;
  for (const MovedPoint& point : changes.difference.moved) {
    const std::string movement = words::movement(point, style);
    const auto known = std::find_if(all.begin(), all.end(), [&](const Alike& a) { return a.movement == movement; });
    if (known == all.end())
      all.push_back({words::name_of(point), movement});
    else
      known->names += " and " + words::name_of(point);
  }
  std::string text;
  for (const Alike& alike : all) text += wrapped("  ", fmt::format("{} by {}", alike.names, alike.movement));
  if (const std::string frame = words::frame_change(changes, style); !frame.empty()) text += wrapped("  ", frame);
  if (text.empty()) return {};
  return "\nMOVED (seen along the old main line, toward the landing)\n" + text;
}

/// ", 12.3 % of the limit to spare", ", 4.0 % of the limit beyond it".
std::string left(const std::optional<double>& reserve) {
  if (!reserve) return "";
  return fmt::format(", {:.1f} % of the limit {}", 100 * std::abs(*reserve), *reserve < 0 ? "beyond it" : "to spare");
}

std::string_view word_of(const Judged& side, const std::optional<std::size_t>& finding) {
  return finding ? words::word_for(words::outcome_of(side.findings[*finding])) : "not there";
}

/// The finding as it is now, or as it was where it is gone.
struct Seen {
  const Finding& finding;
  const Layout& layout;
};
Seen seen(const FindingChange& change, const Changes& changes) {
  return change.is ? Seen{changes.is.findings[*change.is], changes.is.rig.layout}
                   : Seen{changes.was.findings[*change.was], changes.was.rig.layout};
}

class Verdicts {
 public:
  Verdicts(const Changes& changes, const Style& style) : changes_(changes), style_(style) {
    for (const FindingChange& change : changes.difference.findings)
      widest_ = std::max(widest_, seen(change, changes).finding.check->name.size());
  }

  std::string text() const {
    std::string text;
    for (const words::Outcome outcome : words::all_outcomes)
      text += group(fmt::format("Now {}", words::word_for(outcome)), [&](const FindingChange& change) {
        return change.is && outcome_is(change) == outcome && !(change.was && outcome_was(change) == outcome);
      });
    text += gone();
    text += reserves("Failing as before", [&](const FindingChange& change) {
      return both(change) && outcome_is(change) == words::Outcome::fail;
    });
    text += reserves("The same verdict, nearer to its limit or farther from it by a tenth of the limit or more",
                     [&](const FindingChange& change) {
                       return both(change) && outcome_is(change) != words::Outcome::fail && change.reserve.was &&
                              change.reserve.is &&
                              std::abs(*change.reserve.is - *change.reserve.was) >= notable_reserve;
                     });
    return text.empty() ? "" : "\nVERDICTS" + text;
  }

 private:
  words::Outcome outcome_was(const FindingChange& change) const {
    return words::outcome_of(changes_.was.findings[*change.was]);
  }
  words::Outcome outcome_is(const FindingChange& change) const {
    return words::outcome_of(changes_.is.findings[*change.is]);
  }
  bool both(const FindingChange& change) const {
    return change.was && change.is && outcome_was(change) == outcome_is(change);
  }

  std::string line(const FindingChange& change, const std::string& words) const {
    return wrapped(fmt::format("  {:{}}  ", seen(change, changes_).finding.check->name, widest_), words);
  }
  std::string subject(const FindingChange& change) const {
    const auto& [finding, layout] = seen(change, changes_);
    return words::name_of(layout, finding.subject);
  }

  template <class Is>
  std::string group(const std::string& title, const Is& is) const {
    std::string text;
    words::ReasonsOnce reasons;
    for (const FindingChange& change : changes_.difference.findings) {
      if (!is(change)) continue;
      const auto& [finding, layout] = seen(change, changes_);
      const std::string was =
          change.was ? fmt::format("Was: {}{}.", word_of(changes_.was, change.was), left(change.reserve.was))
                     : "Was: not there.";
      text += line(change, fmt::format("{} [{}]. {}", told(change, reasons.told(finding)),
                                       words::place_of(layout, finding.place), was));
    }
    return text.empty() ? "" : fmt::format("\n{}\n{}", title, text);
  }

  /// What fails or can not be told in full, the rest by its reason or what is left to its limit.
  std::string told(const FindingChange& change, const Finding& finding) const {
    const Layout& layout = seen(change, changes_).layout;
    const words::Outcome outcome = words::outcome_of(finding);
    if (outcome == words::Outcome::fail || outcome == words::Outcome::undetermined)
      return words::sentence(layout, finding, style_);
    if (outcome == words::Outcome::not_judged) return fmt::format("{}: {}", subject(change), finding.why);
    return fmt::format("{}: {}{}", subject(change), words::word_for(outcome), left(change.reserve.is));
  }

  std::string gone() const {
    std::string text;
    for (const FindingChange& change : changes_.difference.findings)
      if (!change.is)
        text += line(change, fmt::format("{}, {} before", subject(change), word_of(changes_.was, change.was)));
    return text.empty() ? "" : "\nNo longer there to judge\n" + text;
  }

  template <class Is>
  std::string reserves(const std::string& title, const Is& is) const {
    std::string text;
    for (const FindingChange& change : changes_.difference.findings) {
      if (!is(change)) continue;
      std::string said =
          fmt::format("{}: {}{}", subject(change), word_of(changes_.is, change.is), left(change.reserve.is));
      if (change.reserve.was) said += fmt::format(", was {:.1f} %", 100 * std::abs(*change.reserve.was));
      text += line(change, said);
    }
    return text.empty() ? "" : fmt::format("\n{}\n{}", title, text);
  }

  const Changes& changes_;
  const Style& style_;
  std::size_t widest_ = 0;
};

std::string tables_text(const Changes& changes, const Style& style) {
  std::string text;
  for (const Table& table : {tables::anchor_load_changes(changes, style), tables::main_line_changes(changes, style),
                             tables::line_changes(changes, style), tables::sheave_changes(changes, style)})
    if (!table.rows.empty() || !table.notes.empty()) text += '\n' + write(table, style);
  return text;
}

bool is_limit(const KeyChange& key) { return key.key->stricter != Stricter::not_a_limit; }

/// "mbs 60.0 kN, ...", and why it may be the same thing under another name.
std::string come_or_gone(const PartChange& part, const Changes& changes, const Style& style) {
  const std::string renamed =
      part.perhaps_renamed.empty()
          ? ""
          : fmt::format(" (perhaps renamed: {} {} the same place or values)",
                        words::part_name(part.section, part.perhaps_renamed), part.is ? "held" : "holds");
  return fmt::format("{}{}: {} {}", words::part_name(part), renamed, words::contents(part, changes, style),
                     words::places(part.was, part.is, changes));
}

std::string_view change_of(bool was, bool is) { return was && is ? "changed" : is ? "added" : "removed"; }

/// What judges, and whether it judges less than it did or more; what judges less comes first.
std::string limits_text(const Changes& changes, const Style& style) {
  std::map<Strictness, std::string> limits;
  std::string waivers;
  const auto line = [](std::string_view word, const std::string& said) {
    return wrapped(fmt::format("  {:9}  ", word), said);
  };
  for (const PartChange& part : changes.difference.inputs) {
    const std::string name = part.section == "limits" ? "" : words::part_name(part) + ", ";
    if (part.section == "waiver" && !(part.was && part.is))
      waivers += line(change_of(part.was.has_value(), part.is.has_value()), come_or_gone(part, changes, style));
    for (const KeyChange& key : part.keys) {
      const std::string said =
          fmt::format("{}{} {}", name, words::sentence(key, changes, style), words::places(key, changes));
      if (part.section == "waiver" && part.was && part.is) waivers += line("changed", said);
      if (!is_limit(key) || !(part.was && part.is)) continue;
      const Strictness strictness = fairlead::strictness(key);
      const std::string_view word = words::word_for(strictness);
      const bool one_sided = !(key.was && key.is) && !key.key->in_place_of.empty();
      limits[strictness] +=
          line(word.empty() ? change_of(key.was.has_value(), key.is.has_value()) : word,
               one_sided ? fmt::format("{}; it stands in place of {}", said, key.key->in_place_of) : said);
    }
  }
  const std::string text =
      limits[Strictness::loosened] + limits[Strictness::unsaid] + limits[Strictness::tightened] + waivers;
  return text.empty() ? "" : "\nLIMITS AND WAIVERS\n" + text;
}

std::string part_text(const PartChange& part, const Changes& changes, const Style& style) {
  if (!(part.was && part.is))
    return wrapped(fmt::format("  {:7}  ", change_of(part.was.has_value(), part.is.has_value())),
                   come_or_gone(part, changes, style));
  std::string text;
  for (const KeyChange& key : part.keys)
    if (!is_limit(key))
      text += wrapped("    ", fmt::format("{} {}", words::sentence(key, changes, style), words::places(key, changes)));
  return text.empty() ? "" : fmt::format("  {}\n{}", words::part_name(part), text);
}

/// All but limits and waivers, in the order of the sections.
std::string inputs_text(const Changes& changes, const Style& style) {
  std::string text;
  for (const PartChange& part : changes.difference.inputs)
    if (part.section != "waiver") text += part_text(part, changes, style);
  return text.empty() ? "" : "\nINPUTS\n" + text;
}

std::string revision_text(const Changes& changes, const Style& style) {
  std::string text = "\nREVISION TABLE\n";
  for (const std::string& warning : words::revision_warnings(changes)) text += wrapped("  - ", warning);
  return text + "\n" + words::toml(words::revision_line(changes, style));
}

/// ", 1 point moved"; nothing where there is none.
std::string counted(std::size_t count, std::string_view one, std::string_view several) {
  return count == 0 ? "" : fmt::format(", {} {}", count, count == 1 ? one : several);
}

std::string headline(const Changes& changes) {
  const Difference& difference = changes.difference;
  std::size_t keys = 0, loosened = 0;
  for (const PartChange& part : difference.inputs) {
    const bool stays = part.was && part.is;
    keys += stays ? part.keys.size() : 1;
    for (const KeyChange& key : part.keys) loosened += stays && strictness(key) == Strictness::loosened;
  }
  const auto newly = [&](words::Outcome outcome) {
    const auto has = [&](const Judged& side, const std::optional<std::size_t>& finding) {
      return finding && words::outcome_of(side.findings[*finding]) == outcome;
    };
    return static_cast<std::size_t>(std::count_if(
        difference.findings.begin(), difference.findings.end(),
        [&](const FindingChange& change) { return has(changes.is, change.is) && !has(changes.was, change.was); }));
  };
  const auto cleared = [](const Judged& side) { return exit_status(side.findings) == 0; };
  const bool was = cleared(changes.was), is = cleared(changes.is);
  const std::string counts = counted(keys, "input", "inputs") +
                             counted(difference.moved.size(), "point moved", "points moved") +
                             counted(loosened, "limit loosened", "limits loosened") +
                             counted(newly(words::Outcome::fail), "newly failing", "newly failing") +
                             counted(newly(words::Outcome::undetermined), "newly undetermined", "newly undetermined") +
                             counted(newly(words::Outcome::not_judged), "no longer judged", "no longer judged");
  return wrapped("", fmt::format("CHANGED, {}: {}",
                                 was && !is   ? "NO LONGER CLEARED"
                                 : !was && is ? "CLEARED NOW"
                                 : is         ? "cleared as before"
                                              : "NOT CLEARED, as before",
                                 counts.substr(2)));
}

}  // namespace

std::string write(const Changes& changes, const Style& style) {
  const bool same_bytes = changes.was.rig.layout.sha256 == changes.is.rig.layout.sha256;
  if (changes.difference.inputs.empty())
    return wrapped("",
                   fmt::format("NO CHANGE: no input differs; comments, the order of keys and how numbers are written "
                               "are not compared. The two files are {}.",
                               same_bytes ? "the same, byte for byte" : "not the same byte for byte")) +
           '\n' + whose(changes);
  std::string text = headline(changes) + '\n' + whose(changes);
  text += moved_text(changes, style);
  text += Verdicts(changes, style).text();
  text += tables_text(changes, style);
  text += limits_text(changes, style);
  text += inputs_text(changes, style);
  text += revision_text(changes, style);
  return text;
}

}  // namespace fairlead::text
