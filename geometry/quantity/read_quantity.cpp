#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>

#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

using Read = tl::expected<double, UnitError>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool is_whole(double number) { return number == std::floor(number); }

bool same_but_for_case(std::string_view a, std::string_view b) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return small(x) == small(y); });
}

// What is left of a text read from the left; blanks at its ends do not count.
class Rest {
 public:
  explicit Rest(std::string_view text) : all_(text), left_(text) { trim(); }

  std::string_view left() const { return left_; }
  bool take(std::string_view word) {
    if (!left_.starts_with(word)) return false;
    left_.remove_prefix(word.size());
    trim();
    return true;
  }
  /// A decimal number without a sign; one too great for a double is infinite. Takes nothing where there is none.
  std::optional<double> take_number() {
    const std::string_view digits = left_.starts_with('.') ? left_.substr(1) : left_;
    if (digits.empty() || !is_digit(digits.front())) return std::nullopt;
    double number = 0;
    const auto [end, error] = std::from_chars(left_.data(), left_.data() + left_.size(), number);
    if (error == std::errc::result_out_of_range) number = std::numeric_limits<double>::infinity();
    left_.remove_prefix(static_cast<std::size_t>(end - left_.data()));
    trim();
    return number;
  }
  tl::unexpected<UnitError> refuse(std::string message, std::string instead) const {
    const auto from = left_.empty() ? 0 : static_cast<unsigned>(left_.data() - all_.data());
    const auto length = static_cast<unsigned>(left_.empty() ? all_.size() : left_.size());
    return tl::unexpected<UnitError>({std::move(message), std::move(instead), from, length});
  }

 private:
  void trim() {
    while (!left_.empty() && is_blank(left_.front())) left_.remove_prefix(1);
    while (!left_.empty() && is_blank(left_.back())) left_.remove_suffix(1);
  }
  std::string_view all_, left_;
};

std::string write_as(Dimension dimension) {
  if (dimension == Dimension::none) return "write a number without a unit";
  std::string names;
  for (const Unit& unit : all_units())
    if (unit.dimension == dimension) names += (names.empty() ? "" : ", ") + std::string(unit.name);
  return fmt::format("write {} {}in {}", dimension_words(dimension), names == "%" ? "as a number or " : "", names);
}

Read refuse_ton(const Rest& rest, double number, Dimension wanted) {
  const bool by_weight = wanted == Dimension::mass || wanted == Dimension::rating;
  return rest.refuse("\"ton\" may mean 1000 kg, 2000 lb or 2240 lb",
                     by_weight
                         ? fmt::format("write \"{} t\", \"{} lb\" or \"{} lb\"", number, 2000 * number, 2240 * number)
                         : write_as(wanted));
}

// What follows the number is no unit, or one of another dimension.
Read refuse_unit(const Rest& rest, std::string_view number_text, double number, Dimension wanted) {
  const std::string_view name = rest.left();
  for (const std::string_view ton : {"ton", "tons", "short ton", "short tons", "long ton", "long tons"})
    if (same_but_for_case(name, ton)) return refuse_ton(rest, number, wanted);
  for (const Unit& unit : all_units())
    if (unit.name == name) {
      const bool pound_force = name == "lb" && wanted == Dimension::force;
      return rest.refuse(
          fmt::format("\"{}\" is {}, and {} is wanted", name, dimension_words(unit.dimension), dimension_words(wanted)),
          pound_force ? fmt::format("write \"{} lbf\"", number_text) : write_as(wanted));
    }
  for (const Unit& unit : all_units())
    if (unit.dimension == wanted && same_but_for_case(unit.name, name))
      return rest.refuse(fmt::format("\"{}\" is no unit", name), fmt::format("did you mean \"{}\"?", unit.name));
  return rest.refuse(fmt::format("\"{}\" is no unit", name), write_as(wanted));
}

// "16,5 mm": the comma is a decimal point in half the world and a thousands mark in the other half.
std::optional<UnitError> comma_in_number(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == text.npos || comma == 0 || !is_digit(text[comma - 1])) return std::nullopt;
  std::string with_point(text), without(text);
  with_point[comma] = '.';
  without.erase(comma, 1);
  const auto after = text.substr(comma + 1);
  const auto digits = std::find_if_not(after.begin(), after.end(), is_digit) - after.begin();
  if (digits == 0) return std::nullopt;
  const bool either = digits == 3 && without.find(',') == without.npos;
  return UnitError{
      "there is a comma in the number",
      either ? fmt::format("write \"{}\" or \"{}\"", with_point, without) : fmt::format("write \"{}\"", with_point),
      static_cast<unsigned>(comma), 1};
}

bool take_feet_mark(Rest& rest) { return rest.take("ft") || rest.take("'"); }
bool take_inch_mark(Rest& rest) { return rest.take("in") || rest.take("\""); }

// The rest of inches whose first number is taken: nothing, "/2", " 1/2" or "-1/2". nullopt: no fraction below one.
std::optional<double> with_fraction(Rest& rest, double first) {
  double whole = 0, above = first;
  if (rest.left().find('/') == std::string_view::npos) return first;
  if (!rest.left().starts_with('/')) {
    whole = first;
    rest.take("-");
    const auto number = rest.take_number();
    if (!number) return std::nullopt;
    above = *number;
  }
  if (!rest.take("/")) return std::nullopt;
  const auto below = rest.take_number();
  if (!below || !(above > 0 && above < *below) || !is_whole(above) || !is_whole(*below) || !is_whole(whole))
    return std::nullopt;
  return whole + above / *below;
}

// The rest of "12 ft 6 in", "12'-6 1/2\"" or "6 1/2 in" after its first number, in metres; nullopt where the text
// begins neither way.
std::optional<Read> feet_and_inches(Rest rest, double first) {
  const double inch_m = find_unit("in", Dimension::length)->to_si;
  if (!take_feet_mark(rest)) {
    const auto inches = with_fraction(rest, first);
    if (!inches || !take_inch_mark(rest) || !rest.left().empty()) return std::nullopt;
    return *inches * inch_m;
  }
  rest.take("-");
  const auto number = rest.take_number();
  const auto inches = number ? with_fraction(rest, *number) : std::nullopt;
  if (!inches || !take_inch_mark(rest) || !rest.left().empty())
    return rest.refuse("these are no feet and inches", "write \"12 ft 6 in\" or \"12 ft 6 1/2 in\"");
  if (!is_whole(first))
    return rest.refuse("feet beside inches are a whole number", "write \"12 ft 6 in\" or \"12.5 ft\"");
  if (!(*inches < 12)) return rest.refuse("inches beside feet stay below 12", "write \"12 ft 6 in\" or \"12.5 ft\"");
  return (12 * first + *inches) * inch_m;
}

Read admit(double si, Dimension dimension) {
  if (!std::isfinite(si)) return tl::unexpected<UnitError>({"the number is not finite", write_as(dimension), 0, 0});
  if (dimension == Dimension::temperature && !(si >= 0))
    return tl::unexpected<UnitError>({"this is below absolute zero", write_as(dimension), 0, 0});
  return si;
}

}  // namespace

tl::expected<double, UnitError> read_quantity(std::string_view text, Dimension dimension) {
  if (const auto comma = comma_in_number(text)) return tl::unexpected(*comma);
  Rest rest(text);
  const double sign = rest.left().starts_with('-') ? -1 : 1;
  if (!rest.take("-")) rest.take("+");
  const std::string_view from_number = rest.left();
  const auto number = rest.take_number();
  if (!number) return Rest(text).refuse("this does not begin with a number", write_as(dimension));
  if (rest.left().empty()) return read_bare_number(sign * *number, dimension);
  if (const Unit* unit = find_unit(rest.left(), dimension))
    return admit(unit->offset + unit->to_si * (sign * *number), dimension);
  if (dimension == Dimension::length)
    if (const auto metres = feet_and_inches(rest, *number))
      return *metres ? admit(sign * **metres, dimension) : *metres;
  const auto number_text = from_number.substr(0, from_number.size() - rest.left().size());
  return refuse_unit(rest, Rest(number_text).left(), sign * *number, dimension);
}

tl::expected<double, UnitError> read_bare_number(double number, Dimension dimension) {
  if (!std::isfinite(number) || bare_number_allowed(dimension)) return admit(number, dimension);
  std::string message = "a unit is missing", instead = write_as(dimension);
  if (dimension == Dimension::angle) {
    message = fmt::format("{} without a unit could be degrees, or the {:.3g} degrees that {} radians are", number,
                          number / find_unit("deg", Dimension::angle)->to_si, number);
    instead = fmt::format("write \"{} deg\" or \"{} rad\"", number, number);
  }
  if (dimension == Dimension::temperature) {
    message = fmt::format("{} without a unit could be C, F or K", number);
    instead = fmt::format("write \"{} C\", \"{} F\" or \"{} K\"", number, number, number);
  }
  return tl::unexpected<UnitError>({std::move(message), std::move(instead), 0, 0});
}

}  // namespace fairlead
