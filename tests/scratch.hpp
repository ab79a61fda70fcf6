// A folder of a test's own. Tests run beside each other as processes, so that no two may share a name.
#pragma once

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <stdexcept>
#include <string>

namespace fairlead {

/// A new empty folder, gone with the object.
class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::path(testing::TempDir()) / "fairlead_XXXXXX").string();
    if (!mkdtemp(name.data())) throw std::runtime_error("no scratch folder");
    path_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  /// The path of what is called `name` in it.
  std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  /// Writes the file `name`, its folders with it, and returns its path.
  std::string write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << text;
    return *this / name;
  }
  /// How many things are in it.
  std::size_t files() const { return names().size(); }
  /// What is in it, or in a folder of it.
  std::set<std::string> names(const std::string& folder = "") const {
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(path_ / folder)) names.insert(entry.path().filename());
    return names;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace fairlead
