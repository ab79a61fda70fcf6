// Prints tests/ACCURACY.md.
#include <cstdio>

#include "tests/accuracy/accuracy.hpp"

int main() {
  const std::string text = fairlead::accuracy::document(fairlead::accuracy::all_rows());
  std::fwrite(text.data(), 1, text.size(), stdout);
  return std::fflush(stdout) == 0 ? 0 : 1;
}
