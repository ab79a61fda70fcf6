// Runs the built program as a shell would.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "tests/scratch.hpp"

namespace fairlead::cli_test {

struct Ran {
  std::string out, err;
  int status{};
};

/// `fairlead ARGUMENTS` from the project's top folder; ARGUMENTS as typed into a shell. Standard output goes to the
/// file `output` when one is given.
Ran run(const std::string& arguments, const std::string& output = {});

std::string read_file(const std::string& path);
void write_file(const std::string& path, const std::string& text);
bool exists(const std::string& path);
int count(const std::string& text, const std::string& what);

/// No line is wider than a terminal, but for those that name files, which are as long as they are.
inline void expect_narrow(const std::string& out) {
  for (std::size_t at = 0; at < out.size();) {
    const std::size_t end = out.find('\n', at);
    const std::string line = out.substr(at, end - at);
    if (line.find(", sha256 ") == std::string::npos) {
      // Of a sign of several bytes only the first is counted.
      EXPECT_LE(std::ranges::count_if(line, [](char c) { return (c & '\xC0') != '\x80'; }), 100) << line;
    }
    at = end + 1;
  }
}

}  // namespace fairlead::cli_test
