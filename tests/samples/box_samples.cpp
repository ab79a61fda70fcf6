// Judges a layout with all of its marks off at random inside the box that was found for them:
//     box_samples layouts/heron_gully.toml 10000
// Half of the draws are corners of the box, half lie anywhere in it. Prints what does not hold and how much of its
// reserve each check had left at least; exit status 1 where anything does not hold.
#include <fmt/format.h>

#include <charconv>
#include <cstdio>
#include <random>
#include <string_view>

#include "geometry/layout/read.hpp"
#include "geometry/studies/placement.hpp"

namespace fairlead {
namespace {

/// From the draw's own number, so that no draw depends on another: every other one a corner.
std::vector<double> drawn(int draw, const std::vector<double>& amounts) {
  std::mt19937_64 random(static_cast<unsigned>(draw));
  std::vector<double> by;
  for (const double amount : amounts) {
    const double share = 2 * (static_cast<double>(random() >> 11) * 0x1p-53) - 1;
    by.push_back(draw % 2 == 0 ? amount * share : std::copysign(amount, share));
  }
  return by;
}

int sample(const char* file, int draws) {
  auto layout = read_layout(file);
  if (!layout) {
    for (const Diagnostic& diagnostic : layout.error()) fmt::print(stderr, "{}", print(diagnostic));
    return 2;
  }
  const Work work{.threads = 2};
  const Judged design = judge(std::move(*layout), {}, work);
  const Placement placed = placement(design, false, work);
  if (!placed.box) {
    fmt::print("{}: no box: {}\n", file, placed.box.error().why);
    return 1;
  }
  const HeldFindings held(design, work);
  std::vector<Outcome> outcomes(static_cast<std::size_t>(draws));
  for_each_index(work, draws, [&](int i) {
    Layout there = shifted(held.layout(), placed.box->variables, drawn(i, placed.box->amount));
    outcomes[static_cast<std::size_t>(i)] = held.at(std::move(there), {});
  });
  long broken = 0;
  std::vector<double> least(held.findings().size(), 1);
  for (const Outcome& outcome : outcomes) {
    broken += outcome.holds ? 0 : 1;
    for (std::size_t f = 0; f < least.size(); ++f) least[f] = std::min(least[f], outcome.left[f] / held.left()[f]);
  }
  fmt::print("{}: {} of {} draws do not hold\n", file, broken, draws);
  for (std::size_t f = 0; f < least.size(); ++f)
    if (least[f] < 0.5)
      fmt::print("  {}: {:.0f} % of its reserve left\n", held.findings()[f].check->name, 100 * least[f]);
  return broken == 0 ? 0 : 1;
}

}  // namespace
}  // namespace fairlead

int main(int count, char** words) {
  int draws = 0;
  const std::string_view wanted = count == 3 ? words[2] : "";
  std::from_chars(wanted.data(), wanted.data() + wanted.size(), draws);
  if (draws <= 0) {
    std::fputs("usage: box_samples LAYOUT DRAWS\n", stderr);
    return 2;
  }
  return fairlead::sample(words[1], draws);
}
