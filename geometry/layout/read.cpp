#include "geometry/layout/read.hpp"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>

#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

// A layout of a hundred items takes 20 KiB; the TOML library takes 16 bytes of memory and 85 ns for each byte.
constexpr FileKind layout_kind{"a layout", "the layout file", std::size_t{4} * 1024 * 1024};
constexpr FileKind points_kind{"a points file", "the points file", largest_points_file};

std::string sha256_of(std::initializer_list<std::string_view> files) {
  sha256_ctx context;
  sha256_init(&context);
  for (const std::string_view bytes : files)
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

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == text.npos; }

}  // namespace

tl::expected<Layout, Diagnostics> read_layout_text(std::string_view toml, const std::string& name,
                                                   const std::vector<Override>& overrides, const FileSource& source) {
  if (toml.size() > layout_kind.most_bytes) return refuse(name, too_large(toml.size(), layout_kind));
  if (toml.starts_with("\xFF\xFE") || toml.starts_with("\xFE\xFF"))
    return refuse(name, "the file is UTF-16", "save it as UTF-8");
  std::string_view text = toml;
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // a byte order mark says no more than that it is UTF-8
  if (is_blank(text)) return refuse(name, "the file is empty", "a starting layout is made by \"fairlead new\"");

  Errors errors(text, name, overrides);
  Layout layout;
  PointsTable points(name, source, errors);
  for (const Override& change : overrides) layout.changes.push_back(fmt::format("{} = {}", change.key, change.value));
  if (scan_toml(text, errors))
    if (std::optional<Node> root = parse_toml(text, errors)) {
      apply_overrides(*root, overrides, errors);
      const Ids ids(*root, errors);
      const auto unsound = read_sections(*root, ids, points, layout, errors);
      check_consistency(layout, unsound, errors);
    }
  if (!errors.none()) return tl::unexpected<Diagnostics>(errors.sorted());
  layout.files = {name, "command line"};
  if (layout.points) {
    layout.files.push_back(points.path());
    layout.points->pegs = std::make_shared<const std::vector<SurveyPoint>>(points.unnamed());
  }
  layout.sha256 = sha256_of({toml, points.bytes()});
  return layout;
}

tl::expected<Layout, Diagnostics> read_layout(const std::string& path, const std::vector<Override>& overrides) {
  const auto text = whole_file(path, layout_kind);
  if (!text) return refuse(path, text.error().message, text.error().instead);
  return read_layout_text(*text, path, overrides,
                          [](const std::string& beside) { return whole_file(beside, points_kind); });
}

}  // namespace fairlead
