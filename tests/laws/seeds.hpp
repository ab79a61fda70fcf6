// How many layouts a law is held to.
#pragma once

#include <vector>

namespace fairlead::laws {

enum class Seeds { usual, others };

/// Seeds in a row; where nothing is optimised one in four as many, every kind of reduction among them.
inline std::vector<unsigned> seeds(unsigned count, Seeds which = Seeds::usual) {
#ifndef NDEBUG
  count = (count + 3) / 4;
#endif
  const unsigned first = which == Seeds::usual ? 0 : 1000;
  std::vector<unsigned> all;
  for (unsigned i = 0; i < count; ++i) all.push_back(first + i);
  return all;
}

}  // namespace fairlead::laws
