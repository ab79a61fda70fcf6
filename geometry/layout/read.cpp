#include "geometry/layout/read.hpp"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <system_error>

#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

// A layout of a hundred items takes 20 KiB; the TOML library takes 16 bytes of memory and 85 ns for each byte.
constexpr std::size_t largest_file = std::size_t{4} * 1024 * 1024;

std::string sha256_of(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  std::string hex;
  for (const std::uint8_t byte : digest) hex += fmt::format("{:02x}", byte);
  return hex;
}

tl::unexpected<Diagnostics> refuse(const std::string& name, std::string message, std::string instead = "") {
  return tl::unexpected<Diagnostics>(
      Diagnostics{{.file = name, .message = std::move(message), .instead = std::move(instead)}});
}

std::string too_large(std::uintmax_t bytes) {
  return fmt::format("the file has {} bytes, and a layout at most {}", bytes, largest_file);
}

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == text.npos; }

}  // namespace

tl::expected<Layout, Diagnostics> read_layout_text(std::string_view toml, const std::string& name,
                                                   const std::vector<Override>& overrides) {
  if (toml.size() > largest_file) return refuse(name, too_large(toml.size()));
  if (toml.starts_with("\xFF\xFE") || toml.starts_with("\xFE\xFF"))
    return refuse(name, "the file is UTF-16", "save it as UTF-8");
  std::string_view text = toml;
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // a byte order mark says no more than that it is UTF-8
  if (is_blank(text)) return refuse(name, "the file is empty", "a starting layout is made by \"fairlead new\"");

  Errors errors(text, name, overrides);
  Layout layout;
  layout.files = {name, "command line"};
  layout.sha256 = sha256_of(toml);
  for (const Override& change : overrides) layout.changes.push_back(fmt::format("{} = {}", change.key, change.value));
  if (scan_toml(text, errors))
    if (std::optional<Node> root = parse_toml(text, errors)) {
      apply_overrides(*root, overrides, errors);
      const Ids ids(*root, errors);
      const auto unsound = read_sections(*root, ids, layout, errors);
      check_consistency(layout, unsound, errors);
    }
  if (!errors.none()) return tl::unexpected<Diagnostics>(errors.sorted());
  return layout;
}

tl::expected<Layout, Diagnostics> read_layout(const std::string& path, const std::vector<Override>& overrides) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return refuse(path, "there is no such file");
  if (std::filesystem::is_directory(status)) return refuse(path, "this is a directory", "name the layout file in it");
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
  if (!file) return refuse(path, "the file can not be opened");
  std::string text(largest_file + 1, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), file.get()));
  if (std::ferror(file.get())) return refuse(path, "the file can not be read");
  if (text.size() > largest_file) {
    const auto bytes = std::filesystem::file_size(path, error);
    const bool known = !error && std::filesystem::is_regular_file(status);
    return refuse(path, known ? too_large(bytes) : fmt::format("there are more than {} bytes in it", largest_file));
  }
  return read_layout_text(text, path, overrides);
}

}  // namespace fairlead
