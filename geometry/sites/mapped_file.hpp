// A file's bytes, read-only and straight from the system's cache.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <tl/expected.hpp>

namespace fairlead::sites {

/// Bytes of a regular file for as long as this lives. Whoever shortens the file meanwhile ends the program (SIGBUS);
/// who writes into it changes what is read.
class MappedFile {
 public:
  struct Refused {
    std::string message, instead;
  };
  /// Directories, and what can not be read, has nothing in it or more than `most_bytes`, are refused.
  static tl::expected<MappedFile, Refused> open(const std::string& path, std::size_t most_bytes);
  MappedFile(MappedFile&&) noexcept;
  MappedFile& operator=(MappedFile&&) noexcept;
  ~MappedFile();

  std::span<const std::byte> bytes() const { return bytes_; }
  /// False where the file's length or time of writing are others than when it was opened.
  bool unchanged() const;

 private:
  MappedFile() = default;
  std::span<const std::byte> bytes_;
  int descriptor_ = -1;
  long written_s_{}, written_ns_{};
};

}  // namespace fairlead::sites
