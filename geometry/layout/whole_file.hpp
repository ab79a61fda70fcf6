// An input file as its bytes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace fairlead {

struct FileRefused {
  std::string message, instead;
};

/// What a file is, for the words that refuse it: "a layout", "the layout file".
struct FileKind {
  std::string_view what, name;
  std::size_t most_bytes;
};

/// Reads a file. Directories, and what can not be read or is too large, are refused.
tl::expected<std::string, FileRefused> whole_file(const std::string& path, const FileKind&);

/// "the file has 5000000 bytes, and a layout at most 4194304"
std::string too_large(std::size_t bytes, const FileKind&);

}  // namespace fairlead
