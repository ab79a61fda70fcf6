// What the commands that read comma-separated files of a crew share.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "cli/options.hpp"
#include "geometry/layout/digest.hpp"
#include "geometry/layout/whole_file.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead::cli {

/// Every error at its place in a file.
std::string printed(const std::string& file, const PointsErrors&);

/// What `read` makes of a file, and the SHA-256 of its bytes; where it can not, its errors are appended to `message`.
template <class Read>
auto contents(const std::string& path, const FileKind& kind, std::string& sha256, std::string& message,
              const Read& read) {
  using Rows = typename decltype(read(std::string_view{}))::value_type;
  const auto bytes = whole_file(path, kind);
  if (!bytes) {
    message += fairlead::print({.file = path, .message = bytes.error().message, .instead = bytes.error().instead});
    return Rows{};
  }
  sha256 = sha256_of({*bytes});
  auto rows = read(std::string_view(*bytes));
  if (rows) return std::move(*rows);
  message += printed(path, rows.error());
  return Rows{};
}

}  // namespace fairlead::cli
