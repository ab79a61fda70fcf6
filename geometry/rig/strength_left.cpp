#include "geometry/rig/strength_left.hpp"

#include <fmt/format.h>

#include <iterator>

#include "geometry/layout/termination_fields.hpp"

namespace fairlead {
namespace {

struct Row {
  double ratio, held;
};
constexpr Row rows[] = {{1, 0.50},  {2, 0.65},  {4, 0.75},  {6, 0.79},  {8, 0.83},
                        {10, 0.86}, {15, 0.89}, {20, 0.91}, {30, 0.93}, {40, 0.95}};

class Notes {
 public:
  Notes(const Layout& layout, std::vector<std::string>& out) : layout_(layout), out_(out) {}

  template <class T>
  void ends(const std::string& name, const T& line) {
    if (!line.mbs_N) return;
    std::string absent;
    end(name, "from_end", line.from_end, line.diameter_m, absent);
    end(name, "to_end", line.to_end, line.diameter_m, absent);
    if (!absent.empty())
      out_.push_back(
          fmt::format("{}: {}: termination not given: what it takes off the strength is not counted", name, absent));
  }

  void sheaves(const std::string& name, const Line& line) {
    const auto tightest = tightest_sheave(layout_, line);
    if (!line.mbs_N || !tightest || line.sheave_strength) return;
    if (line.material != LineMaterial::steel)
      out_.push_back(name +
                     ": what its sheaves take off its strength is not counted: sheave_strength is not given, and the "
                     "table of D/d is for steel");
    else if (tightest->held)
      out_.push_back(
          fmt::format("{}: over its tightest sheave (D/d {:.1f}) it holds {:.1f} % of its strength "
                      "(published rigging tables)",
                      name, tightest->ratio, 100 * *tightest->held));
  }

 private:
  void end(const std::string& name, std::string_view key, const std::optional<Termination>& given, double diameter_m,
           std::string& absent) {
    if (!given) {
      absent += (absent.empty() ? "" : ", ") + std::string(key);
    } else if (!given->efficiency) {
      if (const auto held = published_efficiency(given->kind, diameter_m))
        out_.push_back(fmt::format("{}.{}: {} holds {:g} % of its strength (US Army TM 5-3810-305-10, table 4)", name,
                                   key, word_of(given->kind.value), 100 * *held));
    }
  }

  const Layout& layout_;
  std::vector<std::string>& out_;
};

}  // namespace

double tread_ratio(const Sheave& sheave, const Line& line) {
  return (sheave.pitch_diameter_m - line.diameter_m) / line.diameter_m;
}

std::optional<double> held_over_sheave(double ratio) {
  if (!(ratio >= rows[0].ratio)) return std::nullopt;
  for (std::size_t i = 1; i < std::size(rows); ++i) {
    const Row &low = rows[i - 1], &high = rows[i];
    if (ratio <= high.ratio)
      return low.held + (high.held - low.held) * ((ratio - low.ratio) / (high.ratio - low.ratio));
  }
  return std::rbegin(rows)->held;
}

std::optional<Tightest> tightest_sheave(const Layout& layout, const Line& line) {
  std::optional<Tightest> tightest;
  for (const Over& over : line.route) {
    const double ratio = tread_ratio(layout.sheaves[static_cast<std::size_t>(over.sheave)], line);
    if (!tightest || !(ratio >= tightest->ratio)) tightest = {over.sheave, ratio, std::nullopt};
  }
  if (!tightest) return tightest;
  if (line.sheave_strength)
    tightest->held = *line.sheave_strength;
  else if (line.material == LineMaterial::steel)
    tightest->held = held_over_sheave(tightest->ratio);
  return tightest;
}

void note_strength_left(const Layout& layout, std::vector<std::string>& assumptions) {
  Notes notes(layout, assumptions);
  notes.ends("main_line", layout.main_line);
  for (const ParallelLine& line : layout.parallel_lines) notes.ends("parallel_line." + line.id.value, line);
  for (const SupportLine& line : layout.support_lines) notes.ends("support_line." + line.id.value, line);
  for (const Line& line : layout.lines) {
    notes.ends("line." + line.id.value, line);
    notes.sheaves("line." + line.id.value, line);
  }
}

}  // namespace fairlead
