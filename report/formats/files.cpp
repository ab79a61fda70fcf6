#include "report/formats/files.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

namespace fairlead::formats {

namespace fs = std::filesystem;

namespace {

/// "set" of "set/" and of "set".
std::string without_slash(std::string path) {
  while (path.size() > 1 && path.ends_with('/')) path.pop_back();
  return path;
}

tl::unexpected<Refusal> refused(const std::string& path, const std::string& what, int reason) {
  return tl::unexpected(Refusal{fmt::format("{}: {}: {}", path, what, std::strerror(reason))});
}

}  // namespace

tl::expected<void, Refusal> write_whole(const std::string& path, const std::string& bytes) {
  const std::string temporary = fmt::format("{}.{}.part", path, ::getpid());
  const auto failed = [&](const char* what) {
    const int reason = errno;
    std::remove(temporary.c_str());
    return refused(path, what, reason);
  };
  std::FILE* file = std::fopen(temporary.c_str(), "wb");
  if (!file) return failed("cannot be created");
  const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size() && std::fflush(file) == 0 &&
                       ::fsync(::fileno(file)) == 0;
  if (std::fclose(file) != 0 || !written) return failed("cannot be written");
  if (std::rename(temporary.c_str(), path.c_str()) != 0) return failed("cannot be put in place");
  return {};
}

tl::expected<void, Refusal> may_become_folder(const std::string& path) {
  std::error_code error;
  const auto status = fs::status(path, error);
  if (!fs::exists(status)) return {};
  if (!fs::is_directory(status)) return tl::unexpected(Refusal{path + ": is a file, not a folder"});
  if (fs::is_empty(path, error) && !error) return {};
  return tl::unexpected(Refusal{
      error
          ? path + ": cannot be read: " + error.message()
          : path + ": holds files already; name a new folder, or sheets of an earlier drawing may stand among these"});
}

tl::expected<void, Refusal> write_folder(const std::string& path, const std::vector<File>& files) {
  if (auto may = may_become_folder(path); !may) return may;
  const std::string place = without_slash(path), temporary = fmt::format("{}.{}.part", place, ::getpid());
  std::error_code error, ignored;
  fs::create_directory(temporary, error);
  if (error) return refused(path, "cannot be created", error.value());
  for (const File& file : files)
    if (auto written = write_whole(temporary + "/" + file.name, file.bytes); !written) {
      fs::remove_all(temporary, ignored);
      return written;
    }
  // The system replaces an empty folder, and refuses one that was filled meanwhile.
  fs::rename(temporary, place, error);
  if (!error) return {};
  fs::remove_all(temporary, ignored);
  return refused(path, "cannot be put in place", error.value());
}

}  // namespace fairlead::formats
