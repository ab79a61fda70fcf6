#include "geometry/sites/mapped_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <utility>

namespace fairlead::sites {

tl::expected<MappedFile, MappedFile::Refused> MappedFile::open(const std::string& path, std::size_t most_bytes) {
  const auto refuse = [](std::string message, std::string instead = "") {
    return tl::unexpected<Refused>(Refused{std::move(message), std::move(instead)});
  };
  MappedFile file;
  file.descriptor_ = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);  // of a pipe nobody writes it would wait
  struct stat status {};
  if (file.descriptor_ < 0)
    return refuse(::stat(path.c_str(), &status) != 0 ? "there is no such file" : "the file can not be opened");
  if (::fstat(file.descriptor_, &status) != 0) return refuse("the file can not be read");
  if (S_ISDIR(status.st_mode)) return refuse("this is a directory", "name a file in it");
  if (!S_ISREG(status.st_mode)) return refuse("this is no file that stays as it is", "name a file on a disk");
  const auto size = static_cast<std::size_t>(status.st_size);
  if (size == 0) return refuse("the file is empty");
  if (size > most_bytes)
    return refuse(fmt::format("the file has {} bytes, and a site at most {}", size, most_bytes),
                  "thin it out, or cut away what is far from the line");
  void* bytes = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file.descriptor_, 0);
  if (bytes == MAP_FAILED) return refuse("the file can not be read");
  file.bytes_ = {static_cast<const std::byte*>(bytes), size};
  file.written_s_ = status.st_mtim.tv_sec;
  file.written_ns_ = status.st_mtim.tv_nsec;
  return file;
}

MappedFile::MappedFile(MappedFile&& other) noexcept { *this = std::move(other); }

MappedFile& MappedFile::operator=(MappedFile&& other) noexcept {
  std::swap(bytes_, other.bytes_);
  std::swap(descriptor_, other.descriptor_);
  std::swap(written_s_, other.written_s_);
  std::swap(written_ns_, other.written_ns_);
  return *this;
}

MappedFile::~MappedFile() {
  if (!bytes_.empty()) ::munmap(const_cast<std::byte*>(bytes_.data()), bytes_.size());
  if (descriptor_ >= 0) ::close(descriptor_);
}

bool MappedFile::unchanged() const {
  struct stat status {};
  return ::fstat(descriptor_, &status) == 0 && static_cast<std::size_t>(status.st_size) == bytes_.size() &&
         status.st_mtim.tv_sec == written_s_ && status.st_mtim.tv_nsec == written_ns_;
}

}  // namespace fairlead::sites
