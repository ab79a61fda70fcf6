#include "report/words/changes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/layout/suggest.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::words {
namespace {

/// As many decimals as asked for; as usual where that is negative.
std::string number(Quantity quantity, const Style& style, int digits) {
  if (in_tenths(quantity, style)) return words::shown(quantity, style);
  return print_quantity(quantity, in_both(quantity.dimension, style) ? Units::both : one_of(style), digits);
}

std::string shown(const Told& told, const Layout& layout, const Style& style, int digits) {
  const auto at = [&](std::size_t i) { return number(told.numbers[i], style, digits); };
  const auto& axes = layout.site.axes;
  switch (told.form) {
    case Told::Form::words:
      return told.words;
    case Told::Form::number:
      return at(0);
    case Told::Form::range:
      return at(0) == at(1) ? at(0) : fmt::format("{} to {}", at(0), at(1));
    case Told::Form::place:
      return fmt::format("{} {}, {} {}, {} {}", axes[0], at(0), axes[1], at(1), axes[2], at(2));
    case Told::Form::triple:
      return fmt::format("({}, {}, {})", at(0), at(1), at(2));
    case Told::Form::limit:
      return fmt::format("{} ({})", at(0), told.words);
    case Told::Form::curve:
      break;
  }
  std::string rows;
  for (std::size_t i = 0; i + 1 < told.numbers.size(); i += 2)
    rows += fmt::format("{}{} at {}", rows.empty() ? "" : ", ", at(i + 1), at(i));
  return rows;
}

struct Two {
  std::string was, is;
};

/// Both with digits enough to read differently. Feet and inches have no more digits: then in metres.
Two apart(const Told& was, const Told& is, const Changes& changes, const Style& style) {
  constexpr int most_digits = 12;
  for (const Style& units : {style, Style{Units::si}})
    for (int digits = -1; digits <= most_digits; digits = digits < 0 ? 4 : digits + 1) {
      Two two{shown(was, changes.was.rig.layout, units, digits), shown(is, changes.is.rig.layout, units, digits)};
      if (two.was != two.is) return two;
    }
  return {shown(was, changes.was.rig.layout, style, -1), shown(is, changes.is.rig.layout, style, -1)};
}

/// Millimetres where the whole movement is below a metre; of US units the one that suits the whole of it.
std::string amount(double m, const MovedPoint& of, const Style& style) {
  if (style.units == Units::us) return Alike({of.total_m, Dimension::length}, style).shown(m);
  return of.total_m < 1 ? fmt::format("{:.1f} mm", 1000 * m) : fmt::format("{:.3f} m", m);
}

}  // namespace

std::string part_name(const std::string& section, const std::string& id) {
  if (section == "project.history") return fmt::format("row {} of the revision table", id);
  if (section == "waiver") return "waiver of " + id;
  return id.empty() ? in_words(section) : fmt::format("{} {}", in_words(section), id);
}
std::string key_name(const std::string& name) {
  std::string words = in_words(name);
  std::replace(words.begin(), words.end(), '.', ' ');
  return words;
}
std::string part_name(const PartChange& part) { return part_name(part.section, part.id); }

std::string shown(const Told& told, const Layout& layout, const Style& style) { return shown(told, layout, style, -1); }

std::string sentence(const KeyChange& change, const Changes& changes, const Style& style) {
  const std::string name = key_name(change.name);
  if (!change.is) return fmt::format("{}: {}, now not given", name, shown(*change.was, changes.was.rig.layout, style));
  if (!change.was) return fmt::format("{}: not given, now {}", name, shown(*change.is, changes.is.rig.layout, style));
  Told was = *change.was, is = *change.is;
  if (was.form != Told::Form::limit || was.words != is.words) {
    const Two two = apart(was, is, changes, style);
    return fmt::format("{}: {}, now {}", name, two.was, two.is);
  }
  was.form = is.form = Told::Form::number;
  const Two two = apart(was, is, changes, style);
  return fmt::format("{}: {}, now {} ({})", name, two.was, two.is, is.words);
}

std::string contents(const PartChange& part, const Changes& changes, const Style& style) {
  std::string all;
  for (const KeyChange& key : part.keys) {
    if (key.name == "id") continue;
    const Told& told = key.is ? *key.is : *key.was;
    const Layout& layout = key.is ? changes.is.rig.layout : changes.was.rig.layout;
    all += fmt::format("{}{} {}", all.empty() ? "" : "; ", key_name(key.name), shown(told, layout, style));
  }
  return all;
}

std::string places(const std::optional<Place>& was, const std::optional<Place>& is, const Changes& changes) {
  std::string text;
  if (was) text = place_of(changes.was.rig.layout, *was);
  if (is) text += fmt::format("{}{}", text.empty() ? "" : ", ", place_of(changes.is.rig.layout, *is));
  return fmt::format("[{}]", text);
}

std::string places(const KeyChange& key, const Changes& changes) {
  const auto place = [](const std::optional<Told>& told) {
    return told ? std::optional<Place>(told->place) : std::nullopt;
  };
  return places(place(key.was), place(key.is), changes);
}

std::string name_of(const MovedPoint& point) {
  if (point.key == "rest_mark") return "rest mark on the main line";
  const std::string part = part_name(point.section, point.id);
  return point.key == "position" ? part : fmt::format("{}, {}", part, key_name(point.key));
}

std::string movement(const MovedPoint& point, const Style& style) {
  std::string parts;
  const auto add = [&](double by_m, const char* positive, const char* negative) {
    const std::string size = amount(std::abs(by_m), point, style);
    if (size == amount(0, point, style)) return;
    parts += fmt::format("{}{} {}", parts.empty() ? ": " : ", ", size, by_m > 0 ? positive : negative);
  };
  add(point.along_m, "downstream", "upstream");
  add(point.across_m, "to the left", "to the right");
  add(point.up_m, "up", "down");
  if (amount(point.total_m, point, style) == amount(0, point, style))
    return style.units == Units::us ? "less than 0.01 in" : "less than 0.1 mm";
  return amount(point.total_m, point, style) + parts;
}

std::string frame_change(const Changes& changes, const Style& style) {
  const FrameChange& frame = changes.difference.frame;
  if (!frame.any()) return {};
  const auto length = [&](const Pair& pair) {
    return fmt::format("{}, now {}", shown(*pair.was, Dimension::length, style),
                       shown(*pair.is, Dimension::length, style));
  };
  const std::string turned = print_quantity({std::abs(frame.turned_rad), Dimension::angle}, Units::si, 3);
  return fmt::format(
      "The main line's supports moved, and with them its own directions: it is turned by {}{}, span {}, rise {}.",
      turned,
      frame.turned_rad > 0   ? " to the left"
      : frame.turned_rad < 0 ? " to the right"
                             : "",
      length(frame.span_m), length(frame.rise_m));
}

std::string_view word_for(Strictness strictness) {
  switch (strictness) {
    case Strictness::loosened:
      return "loosened";
    case Strictness::tightened:
      return "tightened";
    case Strictness::unsaid:
      break;
  }
  return "";
}

}  // namespace fairlead::words
