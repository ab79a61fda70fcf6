#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/utf8.hpp"
#include "report/words/labels.hpp"

namespace fairlead::words {
namespace {

constexpr std::size_t most_errors = 200;
constexpr std::string_view heading = "[labels]";

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

/// How often a text has each of {1} ... {9}.
std::map<std::string, int> places_of(std::string_view text) {
  std::map<std::string, int> places;
  for (char digit = '1'; digit <= '9'; ++digit) {
    const std::string place{'{', digit, '}'};
    for (std::size_t at = text.find(place); at != text.npos; at = text.find(place, at + 1)) ++places[place];
  }
  return places;
}

class Reader {
 public:
  Reader(std::string_view text, const std::function<std::string(std::string_view)>& missing) : missing_(missing) {
    for (const LabelGroup& group : label_groups())
      known_.insert(known_.end(), group.labels.begin(), group.labels.end());
    if (!is_utf8(text)) {
      error(0, 0, "the file is no UTF-8 text", "save it as UTF-8");
      return;
    }
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      source_ = text.substr(0, end);
      text.remove_prefix(std::min(end + 1, text.size()));
      if (source_.ends_with('\r')) source_.remove_suffix(1);
      ++line_;
      at_ = 0;
      read_line();
    }
    if (out_.language.empty() && !language_seen_) {
      line_ = 0;
      source_ = {};
      error(0, 0, "the file names no language", "write language = \"de\", with its own code of ISO 639");
    }
  }

  tl::expected<Pairs, PointsErrors> take() {
    if (errors_.first.empty()) return std::move(out_);
    std::ranges::stable_sort(errors_.first, {}, [](const PointsError& e) { return std::pair(e.line, e.column); });
    return tl::unexpected(std::move(errors_));
  }

 private:
  /// At a byte of the line.
  void error(std::size_t from, std::size_t to, std::string message, std::string instead) {
    if (errors_.first.size() == most_errors) {
      ++errors_.more;
      return;
    }
    const unsigned column = line_ == 0 ? 0 : columns_of(source_.substr(0, from)) + 1;
    const unsigned length = std::max(1u, columns_of(source_.substr(from, to - std::min(from, to))));
    errors_.first.push_back({line_, column, length, std::move(message), std::move(instead), std::string(source_)});
  }
  void skip_blanks() {
    while (at_ < source_.size() && (source_[at_] == ' ' || source_[at_] == '\t')) ++at_;
  }
  bool ended() const { return at_ >= source_.size() || source_[at_] == '#'; }

  /// A text in double quotes; nothing, and an error, where there is none.
  std::optional<std::string> text() {
    const std::size_t from = at_;
    if (ended() || source_[at_] != '"') {
      error(from, source_.size(), "a text in double quotes is missing here",
            "a line is \"English text\" = \"its translation\"");
      return std::nullopt;
    }
    std::string out;
    for (++at_; at_ < source_.size(); ++at_) {
      const char c = source_[at_];
      if (c == '"') {
        ++at_;
        return out;
      }
      if (static_cast<unsigned char>(c) < 0x20) {
        error(at_, at_ + 1, "a control character stands in a text", "take it out");
        return std::nullopt;
      }
      if (c != '\\') {
        out += c;
        continue;
      }
      const char next = at_ + 1 < source_.size() ? source_[at_ + 1] : ' ';
      if (next != '"' && next != '\\') {
        error(at_, at_ + 2, "no sign is written so here", "write \\\" for a quote and \\\\ for a backslash");
        return std::nullopt;
      }
      out += next;
      ++at_;
    }
    error(from, source_.size(), "the text has no end", "close it with \"");
    return std::nullopt;
  }

  bool equals_sign() {
    skip_blanks();
    if (!ended() && source_[at_] == '=') {
      ++at_;
      skip_blanks();
      return true;
    }
    error(at_, source_.size(), "= is missing here", "a line is \"English text\" = \"its translation\"");
    return false;
  }

  void nothing_more() {
    skip_blanks();
    if (!ended()) error(at_, source_.size(), "nothing more may stand on this line", "begin a comment with #");
  }

  void read_line() {
    skip_blanks();
    if (ended()) return;
    const std::string_view rest = source_.substr(at_);
    if (rest.starts_with(heading)) {
      at_ += heading.size();
      nothing_more();
      return;
    }
    constexpr std::string_view language = "language";
    if (rest.starts_with(language)) {
      at_ += language.size();
      read_language();
      return;
    }
    if (rest.front() != '"') {
      error(at_, source_.size(), "this is neither a pair nor a comment",
            "a line is \"English text\" = \"its translation\"; a comment begins with #");
      return;
    }
    read_pair();
  }

  void read_language() {
    if (!equals_sign()) return;
    const std::size_t from = at_;
    const auto code = text();
    if (!code) {
      language_seen_ = true;
      return;
    }
    const bool fits = (code->size() == 2 || code->size() == 3) &&
                      std::ranges::all_of(*code, [](char c) { return c >= 'a' && c <= 'z'; });
    if (language_seen_)
      error(from, at_, "the language is named twice", "leave one of the lines out");
    else if (!fits)
      error(from, at_, "this is no code of a language", "write two or three small letters of ISO 639, as \"de\"");
    language_seen_ = true;
    out_.language = *code;
    nothing_more();
  }

  void read_pair() {
    const std::size_t english_from = at_;
    const auto english = text();
    if (!english) return;
    const std::size_t english_to = at_;
    if (!equals_sign()) return;
    const std::size_t other_from = at_;
    const auto other = text();
    if (!other) return;
    const std::size_t other_to = at_;
    nothing_more();
    if (const auto [before, is_new] = lines_.emplace(*english, line_); !is_new)
      error(english_from, english_to, fmt::format("this text has its pair in line {} already", before->second),
            "leave one of the two out");
    if (std::ranges::find(known_, *english) == known_.end()) {
      const auto near = nearest(*english, known_);
      error(english_from, english_to, "no fixed text of the sheets reads so",
            near ? "did you mean " + quoted(*near) + "?" : "fairlead new --labels writes all there are");
      return;
    }
    if (other->empty()) return;
    check_places(*english, *other, other_from, other_to);
    if (const std::string code = missing_(*other); !code.empty())
      error(other_from, other_to, "the font has no " + code, "write it otherwise, or take another --font");
    out_.pairs.emplace_back(*english, *other);
  }

  void check_places(const std::string& english, const std::string& other, std::size_t from, std::size_t to) {
    const auto wanted = places_of(english), there = places_of(other);
    for (const auto& [place, count] : wanted) {
      const auto found = there.find(place);
      if (found == there.end())
        error(from, to, place + " is lost, and what is put in there with it", "write " + place + " where it belongs");
      else if (found->second > 1)
        error(from, to, place + " stands here more than once", "leave it once");
    }
    for (const auto& [place, count] : there)
      if (!wanted.contains(place))
        error(from, to, place + " stands for nothing: the English text has none", "leave it out");
  }

  const std::function<std::string(std::string_view)>& missing_;
  std::vector<std::string> known_;
  std::map<std::string, unsigned> lines_;
  std::string_view source_;
  unsigned line_ = 0;
  std::size_t at_ = 0;
  bool language_seen_ = false;
  Pairs out_;
  PointsErrors errors_;
};

}  // namespace

tl::expected<Pairs, PointsErrors> read_pairs(std::string_view text,
                                             const std::function<std::string(std::string_view)>& missing) {
  return Reader(text, missing).take();
}

std::string pairs_template() {
  std::string out =
      "# The fixed texts of fairlead's sheets and what is to stand in their place; fairlead draw LAYOUT --labels FILE\n"
      "# letters a set with it. What is left empty stays English. {1}, {2} ... stand for what is put in: each must "
      "stand\n"
      "# once in the translation, in any order. A text in capitals stands on the sheets as it is written here.\n"
      "# The English text governs: have a translation checked by someone who knows the trade in both languages.\n\n"
      "language = \"\"  # its code of ISO 639, as \"de\"\n\n[labels]\n";
  for (const LabelGroup& group : label_groups()) {
    out += fmt::format("\n# {}\n", group.name);
    for (const std::string_view label : group.labels) out += quoted(label) + " = \"\"\n";
  }
  return out;
}

}  // namespace fairlead::words
