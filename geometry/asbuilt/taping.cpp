#include "geometry/asbuilt/taping.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "geometry/quantity/nearest.hpp"

namespace fairlead {
namespace {

using Kind = NetworkReading::Kind;

constexpr std::string_view between = " to ";

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

struct Ends {
  std::string_view from, to;
};

/// Ids may hold the word that joins them: of all places to part the item that one is right whose ends are known.
std::optional<Ends> ends_of(std::string_view item, const std::vector<std::string>& known) {
  const auto is_known = [&](std::string_view id) { return std::ranges::find(known, id) != known.end(); };
  std::optional<Ends> first;
  for (std::size_t at = item.find(between); at != item.npos; at = item.find(between, at + 1)) {
    const Ends ends{trimmed(item.substr(0, at)), trimmed(item.substr(at + between.size()))};
    if (is_known(ends.from) && is_known(ends.to)) return ends;
    if (!first) first = ends;
  }
  return first;
}

}  // namespace

bool is_between_marks(Measurand measurand) { return measurand == Measurand::distance || measurand == Measurand::rise; }

std::vector<SiteReading> site_readings(const std::vector<Measurement>& measurements,
                                       const std::vector<std::string>& known, PointsErrors& errors) {
  std::vector<SiteReading> readings;
  const auto add = [&](const Measurement& one, std::string message, std::string instead) {
    errors.first.push_back(error_at(one, one.item_at, std::move(message), std::move(instead)));
  };
  for (const Measurement& one : measurements) {
    if (!is_between_marks(one.measurand)) continue;
    const auto ends = ends_of(one.item, known);
    if (!ends) {
      add(one,
          fmt::format("a {} is read from one mark to another, and the item names one", kind_of(one.measurand).word),
          "write both like \"P1 to A3\"");
      continue;
    }
    bool sound = true;
    for (const std::string_view end : {ends->from, ends->to}) {
      if (std::ranges::find(known, end) != known.end()) continue;
      constexpr std::size_t longest_id = 80;
      const auto near = end.size() <= longest_id ? nearest(end, known) : std::nullopt;
      add(one, fmt::format("there is no mark or peg \"{}\"", end.substr(0, longest_id)),
          near ? fmt::format("did you mean \"{}\"?", *near) : "write an id that fairlead setout lists");
      sound = false;
    }
    if (sound && ends->from == ends->to) {
      add(one, fmt::format("the {} is read from \"{}\" to itself", kind_of(one.measurand).word, ends->from),
          "name two marks");
      sound = false;
    }
    if (sound)
      readings.push_back({std::string(ends->from), std::string(ends->to),
                          one.measurand == Measurand::rise ? Kind::rise : Kind::distance, one.value, one.uncertainty,
                          one.line});
  }
  return readings;
}

std::string words_of(const SiteReading& one) {
  return fmt::format("the {} {} to {}", one.kind == Kind::rise ? "rise" : "tape", one.from, one.to);
}

std::string worst_of(const Taping& taping) {
  const Adjustment& it = taping.adjustment;
  std::string who;
  if (it.worst_reading >= 0) who = words_of(taping.readings[static_cast<std::size_t>(it.worst_reading)]);
  if (it.worst_shot >= 0)
    who += (who.empty() ? "" : " or ") + ("the point " + taping.ids[static_cast<std::size_t>(it.worst_shot)]);
  return who;
}

std::string disagreement(const Taping& taping) {
  const Adjustment& it = taping.adjustment;
  if (it.agrees) return {};
  std::string who = "none by itself shows to be off, but all together do";
  if (it.worst > rejected_beyond)
    who = fmt::format("{} is off the most, {:.1f} of its standard deviations: measure it again, or leave it out",
                      worst_of(taping), it.worst);
  std::vector<std::string> moved;
  for (const HeldPoint& one : it.held)
    if (one.explains) moved.push_back(taping.ids[static_cast<std::size_t>(one.point)]);
  if (!moved.empty())
    who += fmt::format("; that {}, held as drawn, stands elsewhere would explain it as well", fmt::join(moved, " or "));
  return fmt::format("tapes, rises and {} do not agree within the stated uncertainties: {}",
                     it.held.empty() ? "points" : "the control marks as drawn", who);
}

}  // namespace fairlead
