// What a key of the layout file is, said once. A section's table of Fields stands beside its struct and drives the
// reader, the JSON Schema, the starting layout and the help on keys.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string_view>
#include <type_traits>
#include <variant>

#include "geometry/layout/given.hpp"
#include "geometry/quantity/curve.hpp"

namespace fairlead {

/// offered: optional, but written into a starting layout. Of the keys that share a group number, exactly_one or
/// at_most_one may be given; offered_one: at most one, and the first is written into a starting layout.
enum class Need { required, offered, optional, exactly_one, at_most_one, offered_one };

/// What a number may be, in SI. Every element of a range, point or limit is held to it; both columns of a curve too.
struct Bounds {
  double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
  bool least_itself = true, most_itself = true;
};
inline constexpr Bounds any_number{};
inline constexpr Bounds not_negative{.least = 0};
inline constexpr Bounds above_zero{.least = 0, .least_itself = false};
inline constexpr Bounds above_zero_to_one{.least = 0, .most = 1, .least_itself = false};
inline constexpr Bounds zero_to_one{.least = 0, .most = 1};
inline constexpr Bounds zero_to_below_one{.least = 0, .most = 1, .most_itself = false};
/// Of a cable outdoors: -89 C is the coldest weather on record, and a dark cable in the sun stays below 87 C.
inline constexpr Bounds outdoors{.least = 273.15 - 90, .most = 273.15 + 90};

/// Of a limit: which way it judges more strictly.
enum class Stricter { not_a_limit, lower, higher };

/// All that is said of a key but where its value is stored. Examples and the default are TOML, with ' for quotes; a
/// list section has one starting item for each example of its "id".
struct Key {
  std::string_view name, says;
  Need need = Need::required;
  Dimension dimension = Dimension::none;
  Bounds bounds{};
  std::array<std::string_view, 4> examples{};
  int group = 0;
  Dimension over = Dimension::none;        ///< of a curve's first column
  std::string_view fallback{}, because{};  ///< the default, and what speaks for it
  std::string_view with{};                 ///< a key without which this one means nothing
  std::string_view of{};                   ///< only a table whose "kind" is this word has the key
  Stricter stricter{};
  std::string_view in_place_of{};  ///< the limit that this one is judged in place of, "limits.fleet_angle"
};

/// A reference is stored as what it points at and the place it was written.
template <class T, class Id>
struct Pointing {
  Id T::*to;
  Place T::*place;
};

template <class T, class... Extra>
using Storage =
    std::variant<std::string T::*, std::optional<std::string> T::*, Words T::*, std::optional<Words> T::*, Real T::*,
                 std::optional<Real> T::*, Given<Range> T::*, std::optional<Given<Range>> T::*, Given<Point3> T::*,
                 std::optional<Given<Point3>> T::*, Given<Vec3> T::*, std::optional<Given<Vec3>> T::*,
                 std::optional<Given<Size>> T::*, std::optional<Given<PerAxis>> T::*, std::optional<Limit> T::*,
                 Given<Date> T::*, std::optional<Given<Date>> T::*, Extra...>;

/// Which members a table of T may name. A section that stores more than the common kinds specialises it.
template <class T>
struct StorageOf {
  using type = Storage<T>;
};

template <class T>
struct Field {
  Key key;
  typename StorageOf<T>::type member;
};

/// std::visit, but cheaper to compile.
template <class... Members, class F>
constexpr void with_member(const std::variant<Members...>& member, const F& f) {
  const auto if_it = [&](const auto* one) {
    if (one) f(*one);
  };
  (if_it(std::get_if<Members>(&member)), ...);
}

/// Calls f with the stored value; for a reference with what it points at and its place. There are sixty tables: an f
/// whose own type does not depend on T is compiled once for each kind of value, a lambda in a template once for each
/// table and kind.
template <class T, class Object, class F>
void visit_stored(const Field<T>& field, Object& object, const F& f) {
  const auto call = [&](const auto& member) {
    if constexpr (requires { member.to; })
      f(object.*member.to, object.*member.place);
    else
      f(object.*member);
  };
  with_member(field.member, call);
}

/// One table of several: of a section's own keys and of those it shares with another, in this order.
template <class T, class... Tables>
constexpr auto joined(const Tables&... tables) {
  std::array<Field<T>, (std::extent_v<Tables> + ...)> all{};
  std::size_t next = 0;
  const auto add = [&](const auto& table) {
    for (const auto& field : table) with_member(field.member, [&](auto member) { all[next++] = {field.key, member}; });
  };
  (add(tables), ...);
  return all;
}

/// The table of a section; each section's header specialises it.
template <class T>
inline constexpr std::span<const Field<T>> fields_of{};

/// Whether a value that may be absent is there; absent itself for one that may not.
struct IsGiven {
  std::optional<bool>& given;
  template <class Stored, class... Of>
  void operator()(const Stored& stored, const Of&...) const {
    if constexpr (requires { stored.has_value(); }) given = stored.has_value();
  }
};

/// False for a default that goes with a key which is not given, and so stands for nothing.
template <class T>
bool means_something(const Field<T>& field, const T& table) {
  if (field.key.with.empty()) return true;
  std::optional<bool> given;
  for (const Field<T>& other : fields_of<T>)
    if (other.key.name == field.key.with) visit_stored(other, table, IsGiven{given});
  return given.value_or(false);
}

/// The words an enumeration is written in; specialised beside the enumeration.
template <class E>
struct Choice {
  std::string_view word;
  E value;
};
template <class E>
inline constexpr std::span<const Choice<E>> choices_of{};

template <class E>
std::string_view word_of(E value) {
  for (const Choice<E>& choice : choices_of<E>)
    if (choice.value == value) return choice.word;
  return "unknown";
}

}  // namespace fairlead
