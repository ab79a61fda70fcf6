// The language sheets are lettered in: what stands on them in place of an English text.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace fairlead::drawing {

/// A fixed text of the sheets and what stands in its place. {1}, {2} ... stand for what is put in, a number or a name:
/// the other text has each of them once, in any order.
struct Pair {
  std::string english;
  std::string other;  ///< empty: none, it stays English
};

/// Looks texts up as wholes. May be asked from several threads; what it answers does not depend on who asked before.
class Wording {
 public:
  /// `own`: texts that stay as they are whatever they read like, as names and words of the layout do.
  Wording(std::string language, std::vector<Pair> pairs, std::set<std::string, std::less<>> own);

  /// Of ISO 639: "de".
  const std::string& language() const { return language_; }
  /// What stands in the place of a text; the text itself where no pair has it. What is put into a text is looked up
  /// too, and so are a heading before its unit and the items of a list. Lives as long as this.
  std::string_view said(std::string_view english) const;

  /// The fixed texts that were looked up so far and have no pair, in the order of the pairs.
  std::vector<std::string> without_pair() const;

 private:
  struct Form {
    std::vector<std::string> between;  ///< literal text before, between and behind what is put in
    std::vector<int> order;            ///< 1 for {1}
    std::size_t literal{};
    bool beside_short{};  ///< stands beside numbers and ids alone
    std::size_t pair{};
  };
  /// What became of a text, whether it is a label or made of them, and the labels in it that have no pair.
  struct Looked {
    std::string text;
    bool known{};
    std::vector<std::size_t> without;
  };
  Looked look(std::string_view english) const;
  std::optional<Looked> look_into(const Form&, std::string_view english) const;
  /// Known where each of its items is or stands for itself, and one at least is.
  Looked list_of(std::string_view english, std::string_view separator) const;
  Looked of_pair(std::size_t pair, std::string_view english, std::string other) const;

  std::string language_;
  std::vector<Pair> pairs_;
  std::set<std::string, std::less<>> own_;
  std::map<std::string, std::size_t, std::less<>> wholes_;  ///< pairs without places
  std::vector<Form> forms_;                                 ///< the others, the most literal text first
  mutable std::mutex looking_;
  mutable std::map<std::string, std::string, std::less<>> said_;
  mutable std::set<std::size_t> without_;
};

/// A text cut at its places: "columns {1} of {2}" is "columns ", " of ", "" and 1, 2. Braces that hold no number from 1
/// to 9 are text.
struct WithPlaces {
  std::vector<std::string> between;
  std::vector<int> places;
};
WithPlaces with_places(std::string_view text);

}  // namespace fairlead::drawing
