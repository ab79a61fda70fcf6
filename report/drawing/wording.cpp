#include "report/drawing/wording.hpp"

#include <algorithm>
#include <cstddef>

#include "geometry/quantity/units.hpp"

namespace fairlead::drawing {

WithPlaces with_places(std::string_view text) {
  WithPlaces out;
  out.between.emplace_back();
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i + 2 < text.size() && text[i] == '{' && text[i + 2] == '}' && text[i + 1] >= '1' && text[i + 1] <= '9') {
      out.places.push_back(text[i + 1] - '0');
      out.between.emplace_back();
      i += 2;
    } else {
      out.between.back() += text[i];
    }
  }
  return out;
}

namespace {

bool is_sentence(std::string_view text) {
  return text.find(": ") != text.npos || text.find(". ") != text.npos || text.ends_with(':');
}

/// What stands at the places of a form, or nothing where the text has another. The first fit of every piece is taken:
/// what is put in never holds the words behind it.
std::optional<std::vector<std::string_view>> put_into(const std::vector<std::string>& between, std::string_view text) {
  if (!text.starts_with(between.front()) || !text.ends_with(between.back())) return std::nullopt;
  std::vector<std::string_view> in;
  std::size_t at = between.front().size();
  for (std::size_t i = 1; i < between.size(); ++i) {
    const bool last = i + 1 == between.size();
    if (at >= text.size()) return std::nullopt;
    // At least one character is put in.
    const std::size_t next = last ? text.size() - between[i].size() : text.find(between[i], at + 1);
    if (next == text.npos || next <= at || next > text.size()) return std::nullopt;
    in.push_back(text.substr(at, next - at));
    at = next + between[i].size();
  }
  return in;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool is_unit(std::string_view text) {
  const auto all = all_units();
  return text == "°C" || text == "°F" || text == "°" || text == "ft (tenths)" ||
         std::any_of(all.begin(), all.end(), [&](const Unit& unit) { return unit.name == text; });
}

/// Words of a form so few that sentences hold them too: they stand beside a name, a number or a label alone.
constexpr std::ptrdiff_t few_letters = 13;

/// A number with its unit, or an id: no word of a sentence.
bool is_short(std::string_view text) {
  constexpr std::ptrdiff_t most_letters = 2, most_capitals = 4;
  for (auto from = std::find_if(text.begin(), text.end(), is_letter); from != text.end();) {
    const auto to = std::find_if_not(from, text.end(), is_letter);
    const std::string_view word(from, to);
    const bool capital = *from >= 'A' && *from <= 'Z';
    if (to - from > (capital ? most_capitals : most_letters) && word != "tenths" && !is_unit(word)) return false;
    from = std::find_if(to, text.end(), is_letter);
  }
  return true;
}

/// The length of ", kN" or ", m (ft)" at the end of a heading; 0 where there is none.
std::size_t unit_behind(std::string_view text) {
  const std::size_t comma = text.rfind(", ");
  if (comma == text.npos || comma == 0) return 0;
  std::string_view unit = text.substr(comma + 2);
  if (is_unit(unit)) return text.size() - comma;
  const std::size_t open = unit.find(" (");
  if (open == unit.npos || !unit.ends_with(')')) return 0;
  return is_unit(unit.substr(0, open)) && is_unit(unit.substr(open + 2, unit.size() - open - 3)) ? text.size() - comma
                                                                                                 : 0;
}

}  // namespace

Wording::Wording(std::string language, std::vector<Pair> pairs, std::set<std::string, std::less<>> own)
    : language_(std::move(language)), pairs_(std::move(pairs)), own_(std::move(own)) {
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    WithPlaces cut = with_places(pairs_[i].english);
    if (cut.places.empty()) {
      wholes_.emplace(pairs_[i].english, i);
      continue;
    }
    std::size_t literal = 0;
    std::ptrdiff_t letters = 0;
    for (const std::string& text : cut.between) {
      literal += text.size();
      letters += std::count_if(text.begin(), text.end(), is_letter);
    }
    forms_.push_back({std::move(cut.between), std::move(cut.places), literal, letters > 0 && letters < few_letters, i});
  }
  std::stable_sort(forms_.begin(), forms_.end(), [](const Form& a, const Form& b) { return a.literal > b.literal; });
}

Wording::Looked Wording::of_pair(std::size_t pair, std::string_view english, std::string other) const {
  if (pairs_[pair].other.empty()) return {std::string(english), true, {pair}};
  return {std::move(other), true, {}};
}

Wording::Looked Wording::look(std::string_view english) const {
  if (own_.contains(english)) return {std::string(english), true, {}};
  if (const auto whole = wholes_.find(english); whole != wholes_.end())
    return of_pair(whole->second, english, pairs_[whole->second].other);
  if (const std::size_t unit = unit_behind(english); unit > 0) {
    const std::string_view head = english.substr(0, english.size() - unit);
    if (own_.contains(head)) return {std::string(english), true, {}};
    if (wholes_.contains(head)) {
      Looked looked = look(head);
      looked.text += english.substr(head.size());
      return looked;
    }
  }
  // A sentence is no list, though some of its parts may read as a label.
  for (const std::string_view separator : {"; ", ", "})
    if (Looked list = list_of(english, separator); list.known) return list;
  for (const Form& form : forms_)
    if (auto looked = look_into(form, english)) return std::move(*looked);
  return {std::string(english), false, {}};
}

std::optional<Wording::Looked> Wording::look_into(const Form& form, std::string_view english) const {
  const auto in = put_into(form.between, english);
  if (!in) return std::nullopt;
  // What is put in is a name, a number, a list of them or another fixed text.
  std::vector<Looked> put_in;
  for (std::size_t i = 0; i < in->size(); ++i) {
    const std::string_view text = (*in)[i];
    Looked& looked = put_in.emplace_back(look(text));
    if (looked.known || is_short(text)) continue;
    const bool bracketed = form.between[i].ends_with('(') && form.between[i + 1].starts_with(')');
    if ((form.beside_short && !bracketed) || is_sentence(text)) return std::nullopt;
    for (const std::string_view separator : {"; ", ", "})
      if (text.find(separator) != text.npos) {
        looked = list_of(text, separator);
        break;
      }
  }
  if (pairs_[form.pair].other.empty()) return of_pair(form.pair, english, {});
  const WithPlaces other = with_places(pairs_[form.pair].other);
  Looked out{other.between.front(), true, {}};
  for (std::size_t i = 0; i < other.places.size(); ++i) {
    const auto at = std::find(form.order.begin(), form.order.end(), other.places[i]) - form.order.begin();
    const Looked& put = put_in[static_cast<std::size_t>(at)];
    out.text += put.text + other.between[i + 1];
    out.without.insert(out.without.end(), put.without.begin(), put.without.end());
  }
  return out;
}

Wording::Looked Wording::list_of(std::string_view english, std::string_view separator) const {
  Looked out;
  bool all = english.find(separator) != english.npos, any = false;
  if (!all) return {std::string(english), false, {}};
  for (std::string_view rest = english;;) {
    const std::size_t end = std::min(rest.find(separator), rest.size());
    const std::string_view item = rest.substr(0, end);
    const Looked looked = look(item);
    any = any || looked.known;
    all = all && (looked.known || is_short(item));
    out.text += looked.text;
    out.without.insert(out.without.end(), looked.without.begin(), looked.without.end());
    if (end == rest.size()) break;
    out.text += separator;
    rest.remove_prefix(end + separator.size());
  }
  out.known = all && any;
  return out;
}

std::string_view Wording::said(std::string_view english) const {
  const std::scoped_lock lock(looking_);
  if (const auto before = said_.find(english); before != said_.end()) return before->second;
  Looked looked = look(english);
  // A text that is no label stays as it is.
  if (!looked.known) looked = {std::string(english), false, {}};
  without_.insert(looked.without.begin(), looked.without.end());
  return said_.emplace(std::string(english), std::move(looked.text)).first->second;
}

std::vector<std::string> Wording::without_pair() const {
  const std::scoped_lock lock(looking_);
  std::vector<std::string> all;
  for (const std::size_t i : without_) all.push_back(pairs_[i].english);
  return all;
}

}  // namespace fairlead::drawing
