// The demo layout, changed as a test needs it.
#pragma once

#include <stdexcept>

#include "geometry/layout/read.hpp"

namespace fairlead {

/// Reads layouts/heron_gully.toml with overrides; a diagnostic is the test's failure.
inline Layout demo_layout(const std::vector<Override>& overrides = {}) {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml", overrides);
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

}  // namespace fairlead
