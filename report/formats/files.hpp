// Files that are written whole or not at all.
#pragma once

#include <string>
#include <vector>

#include "report/formats/document.hpp"

namespace fairlead::formats {

struct File {
  std::string name;  ///< without a folder
  std::string bytes;
};

/// Writes a file whole or not at all: under a temporary name in the same folder, then renamed.
/// A failure leaves what was there before and names the path and the system's reason.
tl::expected<void, Refusal> write_whole(const std::string& path, const std::string& bytes);

/// True where a folder of that name may be written: there is nothing yet, or an empty folder. A sheet of an earlier
/// drawing left among new ones would be read as one of them, so a folder that holds anything is refused.
tl::expected<void, Refusal> may_become_folder(const std::string& path);

/// Writes a folder with all of its files or none of it: under a temporary name beside it, then renamed. The folder
/// above it must be there.
tl::expected<void, Refusal> write_folder(const std::string& path, const std::vector<File>&);

}  // namespace fairlead::formats
