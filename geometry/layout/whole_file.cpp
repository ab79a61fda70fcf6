#include "geometry/layout/whole_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <system_error>

namespace fairlead {

std::string too_large(std::size_t bytes, const FileKind& kind) {
  return fmt::format("the file has {} bytes, and {} at most {}", bytes, kind.what, kind.most_bytes);
}

tl::expected<std::string, FileRefused> whole_file(const std::string& path, const FileKind& kind) {
  const auto refuse = [](std::string message, std::string instead = "") {
    return tl::unexpected<FileRefused>(FileRefused{std::move(message), std::move(instead)});
  };
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return refuse("there is no such file");
  if (std::filesystem::is_directory(status))
    return refuse("this is a directory", fmt::format("name {} in it", kind.name));
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
  if (!file) return refuse("the file can not be opened");
  constexpr std::size_t step = std::size_t{1} << 20;
  std::string text;
  // Grown by doubling, a text of hundreds of megabytes would be copied and take half as much again.
  if (const auto bytes = std::filesystem::file_size(path, error); !error && bytes <= kind.most_bytes)
    text.reserve(bytes + step);
  for (std::size_t got = step; got == step && text.size() <= kind.most_bytes;) {
    const std::size_t before = text.size();
    text.resize(before + step);
    got = std::fread(text.data() + before, 1, step, file.get());
    text.resize(before + got);
  }
  if (std::ferror(file.get())) return refuse("the file can not be read");
  if (text.size() > kind.most_bytes) {
    const auto bytes = std::filesystem::file_size(path, error);
    const bool known = !error && std::filesystem::is_regular_file(status);
    return refuse(known ? too_large(bytes, kind) : fmt::format("there are more than {} bytes in it", kind.most_bytes));
  }
  return text;
}

}  // namespace fairlead
