#include "report/words/sentence.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::words {
namespace {

struct Speaker {
  const Layout& layout;
  const Finding& finding;
  const Style& style;
  Rounding at_least = Rounding::nearest;  ///< of what follows "at least": up where it is asked for, not measured
  Rounding rounding = Rounding::nearest;

  /// Value, bound and limit of one finding in one unit: millimetres where all of a length is below a metre.
  std::string number(double si) const {
    if (finding.check->dimension != Dimension::length) return shown({si, finding.check->dimension}, style, rounding);
    const double size = std::max(std::abs(finding.value), finding.limit ? std::abs(finding.limit->at) : 0.0);
    if (style.units == Units::us && rounding == Rounding::nearest)
      return Alike(greater({size, Dimension::length}, {si, Dimension::length}), style).shown(si);
    if (style.units == Units::us) return shown({si, finding.check->dimension}, style, rounding);
    return size < 1 ? fmt::format("{:.1f} mm", 1000 * si + 0.1 * raised(rounding))
                    : fmt::format("{:.3f} m", si + 0.001 * raised(rounding));
  }

  std::string operator()(const Quantity& quantity) const { return shown(quantity, style, rounding); }
  std::string operator()(const Item& item) const { return name_of(layout, item); }
  std::string operator()(const std::string& words) const { return words; }

  std::optional<std::string> word(std::string_view name) const {
    for (const Fact& fact : finding.facts)
      if (fact.name == name) return std::visit(*this, fact.value);
    if (name == "subject") return name_of(layout, finding.subject);
    if (name == "value" && finding.measured) return number(finding.value);
    if (name == "bound" && finding.measured) return number(finding.bound);
    if (name == "limit" && finding.limit) return number(finding.limit->at);
    if (name == "travel" && finding.travel_m) return travel(*finding.travel_m, style);
    return std::nullopt;
  }

  /// "3.02 deg over the limit of 1.50 deg (basis)"; without the difference where nothing is exceeded.
  std::string against_limit() const {
    const double limit = finding.limit->at;
    const std::string basis = finding.limit->basis.empty() ? "" : fmt::format(" ({})", finding.limit->basis);
    if (finding.verdict == Verdict::fail && finding.measured && std::isfinite(finding.value))
      return fmt::format("{} {} the limit of {}{}", number(std::abs(finding.value - limit)),
                         finding.value > limit ? "over" : "under", number(limit), basis);
    return fmt::format("limit {}{}", number(limit), basis);
  }
};

bool names(std::string_view text, std::string_view placeholder) {
  const auto all = placeholders(text);
  return std::find(all.begin(), all.end(), placeholder) != all.end();
}

struct Clause {
  std::string text;
  bool complete = true;
};

Clause fill(std::string_view text, Speaker speaker) {
  Clause clause;
  for (const std::string_view name : placeholders(text)) {
    const std::size_t open = text.find('{');
    speaker.rounding = text.substr(0, open).ends_with("at least ") ? speaker.at_least : Rounding::nearest;
    const std::optional<std::string> word = speaker.word(name);
    clause.complete = clause.complete && word;
    clause.text.append(text.substr(0, open)).append(word.value_or("unknown"));
    text.remove_prefix(open + name.size() + 2);
  }
  clause.text += text;
  return clause;
}

}  // namespace

std::vector<std::string_view> placeholders(std::string_view text) {
  std::vector<std::string_view> names;
  for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', open + 1)) {
    const std::size_t close = text.find('}', open);
    if (close == std::string_view::npos) break;
    names.push_back(text.substr(open + 1, close - open - 1));
  }
  return names;
}

namespace {

std::string filled(std::string_view text, const Speaker& speaker) {
  std::string known;
  for (std::string_view rest = text; !rest.empty();) {
    const std::size_t end = std::min(rest.find(';'), rest.size());
    const Clause clause = fill(rest.substr(0, end), speaker);
    if (clause.complete)
      known += known.empty() ? clause.text.substr(std::min(clause.text.find_first_not_of(' '), clause.text.size()))
                             : ";" + clause.text;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return known.empty() ? fill(text, speaker).text : known;
}

}  // namespace

std::string filled(std::string_view text, const Layout& layout, const Finding& finding, const Style& style) {
  return filled(text, Speaker{layout, finding, style});
}

std::string sentence(const Layout& layout, const Finding& finding, const Style& style) {
  const Speaker speaker{layout, finding, style};
  const bool open = finding.verdict == Verdict::undetermined || finding.verdict == Verdict::not_judged;
  const std::string_view says = finding.check->sentence;
  const bool told = !open || finding.measured;
  std::string out = told && names(says, "subject") ? "" : name_of(layout, finding.subject) + ": ";
  if (told) {
    out += filled(says, layout, finding, style);
    if (finding.measured && !names(says, "bound") && speaker.number(finding.bound) != speaker.number(finding.value))
      out += fmt::format(", {} at worst between the poses solved", speaker.number(finding.bound));
    if (finding.limit) out += ", " + speaker.against_limit();
    if (open) out += "; ";
  } else if (finding.limit) {
    out += speaker.against_limit() + "; ";
  }
  if (open)
    out += fmt::format("{}: {}", word_for(finding.verdict), finding.why.empty() ? "no reason given" : finding.why);
  if (const auto moved = speaker.word("moved")) out += "; worst with " + *moved;
  if (finding.verdict != Verdict::pass && finding.at) {
    out += (finding.at_other ? "; between " : "; at ") + shown(layout, *finding.at, style);
    if (finding.at_other) out += " and " + shown(layout, *finding.at_other, style);
  }
  return out;
}

Finding ReasonsOnce::told(Finding finding) {
  constexpr std::size_t longest_repeated = 40;
  if (const auto [first, is_new] = said_.try_emplace(finding.why, finding.check->name);
      !is_new && finding.why.size() > longest_repeated)
    finding.why = fmt::format("for the reason given at {}", first->second);
  return finding;
}

std::string remedy(const Layout& layout, const Finding& finding, const Style& style) {
  if (finding.verdict != Verdict::fail) return {};
  return filled(finding.check->remedy, Speaker{layout, finding, style, Rounding::up});
}

}  // namespace fairlead::words
