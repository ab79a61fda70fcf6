// The layouts that are shipped as good ones.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "geometry/layout/read.hpp"

namespace fairlead {

inline std::vector<std::string> shipped_layouts() {
  return {"heron_gully.toml", "marten_ridge.toml", "sable_weir.toml", "larch_spur.toml"};
}

/// A diagnostic is the test's failure.
inline Layout shipped_layout(const std::string& file, const std::vector<Override>& overrides = {}) {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/" + file, overrides);
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

/// The concept that is shipped; likewise.
inline Concept shipped_concept(const std::vector<Override>& overrides = {}) {
  auto whole = read_layout_or_concept(FAIRLEAD_SOURCE_DIR "/layouts/ember_hollow_concept.toml", overrides);
  if (whole) return std::get<Concept>(std::move(*whole));
  std::string message;
  for (const Diagnostic& diagnostic : whole.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

}  // namespace fairlead
