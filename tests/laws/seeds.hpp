// How many layouts a law is held to.
#pragma once

#include <vector>

namespace fairlead::laws {

/// The first of them; where nothing is optimised one in four, every kind of reduction among them.
inline std::vector<unsigned> seeds(unsigned count) {
#ifndef NDEBUG
  count = (count + 3) / 4;
#endif
  std::vector<unsigned> all;
  for (unsigned seed = 0; seed < count; ++seed) all.push_back(seed);
  return all;
}

}  // namespace fairlead::laws
