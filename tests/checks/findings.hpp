// Findings of one check, for the tests of checks.
#pragma once

#include <stdexcept>
#include <string>

#include "geometry/checks/list.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {

/// Reads layouts/<name>.toml with overrides; a diagnostic is the test's failure.
inline Layout layout_of(const std::string& name, const std::vector<Override>& overrides = {}) {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/" + name + ".toml", overrides);
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

/// Marten Ridge, 2:1 on a support line, as it stands.
inline const Rig& marten_ridge() {
  static const Rig rig = solve(layout_of("marten_ridge"));
  return rig;
}

inline std::vector<Finding> findings_of(const Check& check, const Rig& rig) {
  std::vector<Finding> findings;
  check.run(rig, findings);
  return findings;
}

/// Solved anew only where the layout differs from the demo.
inline std::vector<Finding> findings_of(const Check& check, const Layout& layout) {
  static const Rig demo = solve(demo_layout());
  return findings_of(check, solve(layout, {&demo}));
}

inline Finding only(const std::vector<Finding>& findings) {
  if (findings.size() != 1) throw std::runtime_error("not one finding but " + std::to_string(findings.size()));
  return findings[0];
}
template <class Subject>
Finding only(const Check& check, const Subject& subject) {
  return only(findings_of(check, subject));
}

inline Finding about(const std::vector<Finding>& findings, Item subject) {
  for (const Finding& finding : findings)
    if (finding.subject == subject) return finding;
  throw std::runtime_error("no finding about it");
}

inline std::string fact(const Finding& finding, std::string_view name) {
  for (const Fact& f : finding.facts)
    if (f.name == name)
      if (const auto* text = std::get_if<std::string>(&f.value)) return *text;
  return "no such fact";
}
inline double number(const Finding& finding, std::string_view name) {
  for (const Fact& f : finding.facts)
    if (f.name == name)
      if (const auto* quantity = std::get_if<Quantity>(&f.value)) return quantity->si;
  throw std::runtime_error("no such number");
}
inline Item item(const Finding& finding, std::string_view name) {
  for (const Fact& f : finding.facts)
    if (f.name == name)
      if (const auto* found = std::get_if<Item>(&f.value)) return *found;
  throw std::runtime_error("no such item");
}

inline std::optional<Limit> limit_at(double at) { return Limit{Real{at, {}}, "test"}; }

}  // namespace fairlead
