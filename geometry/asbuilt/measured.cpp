#include "geometry/asbuilt/measured.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "geometry/asbuilt/taping.hpp"
#include "geometry/quantity/nearest.hpp"

namespace fairlead {
namespace {

/// Cables whose sag was measured.
std::vector<std::string> sags_of(const std::vector<Measurement>& measurements) {
  std::vector<std::string> items;
  for (const Measurement& one : measurements)
    if (one.measurand == Measurand::sag) items.push_back(one.item);
  return items;
}

const Measurement* find(const std::vector<Measurement>& measurements, const std::string& item, Measurand measurand) {
  const auto found = std::ranges::find_if(
      measurements, [&](const Measurement& one) { return one.item == item && one.measurand == measurand; });
  return found == measurements.end() ? nullptr : &*found;
}

}  // namespace

tl::expected<std::vector<MeasuredValue>, PointsErrors> match(const Rig& design,
                                                             const std::vector<Measurement>& measurements,
                                                             bool main_line_shot, std::vector<Characteristic>& all) {
  all = characteristics(design, main_line_shot ? std::vector<std::string>{} : sags_of(measurements), main_line_shot);
  PointsErrors errors;
  std::vector<MeasuredValue> values;
  std::set<const Measurement*> used;
  for (std::size_t c = 0; c < all.size(); ++c) {
    const std::string item = file_word(design.layout, all[c].item);
    MeasuredValue value{.characteristic = static_cast<int>(c)};
    std::vector<const Measurement*> found;
    for (const Measurand measurand : all[c].measurands)
      if (const Measurement* one = find(measurements, item, measurand)) {
        used.insert(one);
        found.push_back(one);
        value.value.push_back(one->value);
        value.uncertainty.push_back(one->uncertainty);
      }
    if (found.empty()) continue;
    value.line = found[0]->line;
    if (found.size() == all[c].measurands.size()) {
      values.push_back(std::move(value));
      continue;
    }
    for (const Measurand measurand : all[c].measurands)
      if (!find(measurements, item, measurand))
        errors.first.push_back(error_at(*found[0], found[0]->item_at,
                                        fmt::format("the {} of \"{}\" says nothing without its {}",
                                                    kind_of(found[0]->measurand).word, item, kind_of(measurand).word),
                                        "measure both"));
  }
  for (const Measurement& one : measurements) {
    // Marks are adjusted, and wear is judged against the register of parts.
    if (used.contains(&one) || is_between_marks(one.measurand) || one.measurand == Measurand::diameter) continue;
    std::vector<std::string> items;
    std::vector<std::string_view> quantities;
    for (const Characteristic& other : all) {
      if (other.measurands.empty()) continue;
      items.push_back(file_word(design.layout, other.item));
      if (items.back() != one.item) continue;
      for (const Measurand measurand : other.measurands) quantities.push_back(kind_of(measurand).word);
    }
    if (quantities.empty()) {
      constexpr std::size_t longest_id = 80;
      const auto near = one.item.size() <= longest_id ? nearest(one.item, items) : std::nullopt;
      const std::set<std::string> known(items.begin(), items.end());
      errors.first.push_back(error_at(
          one, one.item_at, fmt::format("nothing of \"{}\" is measured here", one.item),
          near ? fmt::format("did you mean \"{}\"?", *near) : fmt::format("known: {}", fmt::join(known, ", "))));
    } else if (main_line_shot && one.item == "main_line" &&
               (one.measurand == Measurand::tension || one.measurand == Measurand::sag)) {
      errors.first.push_back(
          error_at(one, one.quantity_at,
                   fmt::format("points were shot on the main line, and they tell its {}", kind_of(one.measurand).word),
                   "give the better one alone"));
    } else if (one.measurand == Measurand::tension && find(measurements, one.item, Measurand::sag)) {
      errors.first.push_back(error_at(
          one, one.quantity_at, fmt::format("the sag of \"{}\" is given too, and either says the other", one.item),
          "give the better one alone"));
    } else {
      errors.first.push_back(error_at(one, one.quantity_at,
                                      fmt::format("\"{}\" has no {} to measure", one.item, kind_of(one.measurand).word),
                                      fmt::format("known: {}", fmt::join(quantities, ", "))));
    }
  }
  if (!errors.first.empty()) {
    std::ranges::stable_sort(errors.first, {}, &PointsError::line);
    return tl::unexpected<PointsErrors>(std::move(errors));
  }
  return values;
}

}  // namespace fairlead
