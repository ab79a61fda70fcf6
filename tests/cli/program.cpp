#include "tests/cli/program.hpp"

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace fairlead::cli_test {

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void write_file(const std::string& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }

bool exists(const std::string& path) { return std::filesystem::exists(path); }

int count(const std::string& text, const std::string& what) {
  int n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++n;
  return n;
}

Ran run(const std::string& arguments, const std::string& output) {
  const Scratch scratch;
  const std::string out = output.empty() ? scratch / "out" : output, err = scratch / "err";
  const std::string command =
      "cd '" FAIRLEAD_SOURCE_DIR "' && '" FAIRLEAD_PROGRAM "' " + arguments + " >" + out + " 2>" + err;
  const int status = std::system(command.c_str());
  return {output.empty() ? read_file(out) : std::string(), read_file(err),
          WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

}  // namespace fairlead::cli_test
