// Any layout that is read is judged, told and drawn, or told why not: nothing unknown passes, and nothing that is drawn
// is not a number. Inputs grow out of layouts by changed numbers more than by changed letters.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <random>
#include <string>

#include "geometry/checks/check.hpp"
#include "geometry/layout/read.hpp"
#include "report/formats/pdf.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/sheets/sheet.hpp"

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace {

using namespace fairlead;

void require(bool holds, const std::string& what) {
  if (holds) return;
  std::fprintf(stderr, "%s\n", what.c_str());
  std::abort();
}

const drawing::Font& font() {
  static const auto opened = drawing::Font::open(drawing::default_font_path);
  require(opened.has_value(), "the font of fonts-dejavu-extra is needed");
  return *opened;
}

/// A pass stands on numbers, its value within its bound.
void check_findings(const Judged& judged) {
  for (const Finding& finding : judged.findings) {
    const std::string name(finding.check->name);
    require(finding.verdict == Verdict::pass || finding.verdict == Verdict::fail || !finding.why.empty() ||
                finding.measured,
            name + ": neither judged nor said why not");
    if (finding.verdict != Verdict::pass || !finding.measured) continue;
    require(std::isfinite(finding.value) && std::isfinite(finding.bound), name + ": something unknown passes");
    require(!finding.limit || std::isfinite(finding.limit->at.value), name + ": passes without a limit");
  }
}

void check_drawn(const Dossier& dossier) {
  const auto sheets = sheets::compose(dossier, {}, {font()});
  require(!sheets.empty(), "no sheet");
  const auto bytes = formats::pdf(sheets, font(), {});
  // A name in letters that no font here has may be refused, a number may not.
  require(bytes || bytes.error().message.find("does not have") != std::string::npos ||
              bytes.error().message.find("cannot be written") != std::string::npos,
          bytes ? "" : bytes.error().message);
}

/// Where a number is written: digits, and what may stand between them.
struct Digits {
  std::size_t from{}, to{};
};

/// Some number of a text, after a random place; none where there is none.
Digits some_number(const std::string& text, std::minstd_rand& random) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const std::size_t start = random() % (text.size() + 1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::size_t from = (start + i) % text.size();
    if (!digit(text[from]) || (from > 0 && (digit(text[from - 1]) || text[from - 1] == '.'))) continue;
    std::size_t to = from;
    while (to < text.size() && (digit(text[to]) || text[to] == '.')) ++to;
    return {from, to};
  }
  return {};
}

std::string changed_number(const std::string& number, std::minstd_rand& random) {
  const double value = std::strtod(number.c_str(), nullptr);
  constexpr std::array<double, 10> factors{0, 1e-3, 0.1, 0.5, 0.9, 1.01, 1.1, 2, 10, 1e3};
  char out[40];
  switch (random() % 3) {
    case 0:
      std::snprintf(out, sizeof out, "%.9g", value * factors[random() % factors.size()]);
      break;
    case 1:
      std::snprintf(out, sizeof out, "%.9g", value + (static_cast<double>(random() % 2001) - 1000) / 100);
      break;
    default:
      std::snprintf(out, sizeof out, "-%.9g", value);
  }
  return out;
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed) {
  std::minstd_rand random(seed);
  if (size == 0 || random() % 8 == 0) return LLVMFuzzerMutate(data, size, most);
  std::string text(reinterpret_cast<const char*>(data), size);
  const int changes = 1 + static_cast<int>(random() % 3);
  for (int i = 0; i < changes; ++i) {
    const Digits at = some_number(text, random);
    if (at.to > at.from)
      text.replace(at.from, at.to - at.from, changed_number(text.substr(at.from, at.to - at.from), random));
  }
  if (text.size() > most) return size;
  std::memcpy(data, text.data(), text.size());
  return text.size();
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  auto layout = read_layout_text({reinterpret_cast<const char*>(data), size}, "fuzz.toml");
  if (!layout) return 0;
  // As judge does, but no finer than once: the sanitizers make it slow enough.
  Judged judged{solve(std::move(*layout), {}, {0.1, 5e-3}), {}};
  for (const Check* check : all_checks()) check->run(judged.rig, judged.findings);
  const Dossier dossier{std::move(judged)};
  check_findings(dossier.judged);
  require(!text::write(dossier, {}).empty(), "nothing to say");
  require(json::write(dossier).find(": nan") == std::string::npos, "JSON knows no NaN");
  check_drawn(dossier);
  return 0;
}
