#include <cerrno>
#include <cstdio>
#include <cstring>

#include "cli/commands.hpp"

namespace fairlead::cli {

int new_file(const std::string& output, const std::string& text) {
  if (output.empty()) {
    print(text);
    return cleared;
  }
  // "x": somebody's layout is never written over.
  std::FILE* file = std::fopen(output.c_str(), "wx");
  if (!file) throw Unusable{"error: " + output + ": " + std::strerror(errno) + "\n"};
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  if (std::fclose(file) != 0 || !written) {
    std::remove(output.c_str());
    throw Unusable{"error: " + output + ": could not be written\n"};
  }
  return cleared;
}

}  // namespace fairlead::cli
