// The demo layout, changed as a test needs it.
#pragma once

#include "tests/shipped_layouts.hpp"

namespace fairlead {

/// Reads layouts/heron_gully.toml with overrides; a diagnostic is the test's failure.
inline Layout demo_layout(const std::vector<Override>& overrides = {}) {
  return shipped_layout("heron_gully.toml", overrides);
}

}  // namespace fairlead
