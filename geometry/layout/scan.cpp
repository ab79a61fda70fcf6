#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/node.hpp"
#include "geometry/quantity/utf8.hpp"

namespace fairlead {
namespace {

// Deeper than any layout, and shallow enough for everything that walks the tree by recursion.
constexpr std::size_t deepest = 16;
// A measured curve of a hundred rows takes 2 KiB; an error prints its whole line.
constexpr std::size_t longest_line = std::size_t{64} * 1024;

struct Flaw {
  std::size_t at;
  std::string message, instead;
};

// Walks the text as TOML's own lexer would, knowing only comments, quotes, brackets and dotted keys.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::optional<Flaw> first_flaw() {
    while (at_ < text_.size()) {
      const std::size_t length = character_length(text_, at_);
      if (length == 0)
        return Flaw{at_, fmt::format("byte 0x{:02X} is no UTF-8 text", static_cast<unsigned char>(text_[at_])),
                    "save the file as UTF-8"};
      if (auto flaw = step(text_[at_], length)) return flaw;
      at_ += length;
    }
    return std::nullopt;
  }

 private:
  enum class Inside { nothing, comment, basic, literal, long_basic, long_literal };

  std::optional<Flaw> step(char c, std::size_t length) {
    if (c == '\n') line_start_ = at_ + 1;
    if (at_ - line_start_ > longest_line && at_ > line_start_)
      return Flaw{line_start_, fmt::format("the line is longer than {} bytes", longest_line), "break it"};
    if ((static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F)
      return Flaw{at_, fmt::format("byte 0x{:02X} is a control character", static_cast<unsigned char>(c)), "remove it"};
    switch (inside_) {
      case Inside::nothing:
        return outside(c, length);
      case Inside::comment:
        if (c == '\n') {
          inside_ = Inside::nothing;
          follow(c);
        }
        break;
      case Inside::basic:
      case Inside::literal:
        if (c == '\\' && inside_ == Inside::basic)
          skip_escaped();
        else if (c == '\n' || c == quote())
          inside_ = Inside::nothing;
        break;
      case Inside::long_basic:
      case Inside::long_literal:
        if (c == '\\' && inside_ == Inside::long_basic) {
          if (auto flaw = letter_after_backslash()) return flaw;
          skip_escaped();
        } else if (three_quotes(c))
          close_long(c);
        break;
    }
    return std::nullopt;
  }

  std::optional<Flaw> outside(char c, std::size_t length) {
    if (length > 1) {
      const std::string_view letter = text_.substr(at_, length);
      const bool curly = letter >= "\u2018" && letter <= "\u201F";  // the typographic quotes
      return Flaw{at_, fmt::format("\"{}\" stands outside quotes", letter),
                  curly ? "write a straight quote" : "put texts in quotes"};
    }
    if (c == '.') ++dots_;
    if (std::string_view("[]{},=\n#").find(c) != std::string_view::npos) dots_ = 0;
    follow(c);
    if (open_.size() > deepest || dots_ > deepest)
      return Flaw{at_, fmt::format("this is nested more than {} deep", deepest), ""};
    if (c == '#') inside_ = Inside::comment;
    if ((c == '"' || c == '\'') && !bare_) {
      const bool is_long = three_quotes(c);
      inside_ = c == '"' ? (is_long ? Inside::long_basic : Inside::basic)
                         : (is_long ? Inside::long_literal : Inside::literal);
      if (is_long) at_ += 2;
    }
    return std::nullopt;
  }

  // Follows what the library takes for keys and values. In a bare value a quote opens nothing: before it objects to
  // 12'6" the library reads on to the value's end.
  void follow(char c) {
    if (std::string_view(" \t\n]},#").find(c) != std::string_view::npos) bare_ = false;
    if (bare_) return;
    if (c == '[') {
      open_ += value_ ? '[' : ' ';  // the header of a section holds no value
    } else if (c == '{') {
      open_ += c;
      value_ = false;
    } else if (c == ']' || c == '}') {
      if (!open_.empty()) open_.pop_back();
      value_ = false;
    } else if (c == ',') {
      value_ = open_.ends_with('[');
    } else if (c == '\n') {
      value_ = value_ && !open_.empty();
    } else if (c == '=' && !value_) {
      value_ = true;
    } else if (std::string_view(" \t#\"'").find(c) == std::string_view::npos) {
      bare_ = value_;
    }
  }

  char quote() const { return inside_ == Inside::basic ? '"' : '\''; }
  bool three_quotes(char c) const {
    return (c == '"' || c == '\'') && text_.substr(at_, 3) == std::string(3, c) &&
           (inside_ != Inside::long_basic || c == '"') && (inside_ != Inside::long_literal || c == '\'');
  }
  // A backslash at the end of a line lets a long text go on in the next. The library then asks of the first letter
  // whether it is a blank, and beyond ASCII that is undefined behaviour.
  std::optional<Flaw> letter_after_backslash() const {
    const std::size_t next = std::min(text_.find_first_not_of(" \t\r\n", at_ + 1), text_.size());
    const std::size_t length = character_length(text_, next);
    if (length <= 1) return std::nullopt;
    return Flaw{next, fmt::format("\"{}\" follows a backslash", text_.substr(next, length)),
                "write the text in one line, without the backslash"};
  }
  // The escaped character is a quote or a backslash, or one that needs no care.
  void skip_escaped() {
    if (at_ + 1 < text_.size() && (text_[at_ + 1] == '\\' || text_[at_ + 1] == '"')) ++at_;
  }
  // Up to two quotes may stand inside before the three that close.
  void close_long(char c) {
    at_ += 2;
    for (int i = 0; i < 2 && at_ + 1 < text_.size() && text_[at_ + 1] == c; ++i) ++at_;
    inside_ = Inside::nothing;
  }

  std::string_view text_;
  std::size_t at_ = 0, line_start_ = 0;
  Inside inside_ = Inside::nothing;
  std::string open_;    // brackets and braces
  bool value_ = false;  // one may stand here
  bool bare_ = false;   // within one that has no quotes
  std::size_t dots_ = 0;
};

}  // namespace

bool scan_toml(std::string_view text, Errors& errors) {
  const auto flaw = Scanner(text).first_flaw();
  if (flaw) errors.add(errors.place_at(flaw->at), flaw->message, flaw->instead);
  return !flaw;
}

}  // namespace fairlead
