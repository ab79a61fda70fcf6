#include "geometry/layout/read.hpp"

#include "geometry/layout/digest.hpp"
#include "geometry/layout/outline.hpp"
#include "geometry/layout/scans.hpp"
#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

// A layout of a hundred items takes 20 KiB; the TOML library takes 16 bytes of memory and 85 ns for each byte.
constexpr FileKind layout_kind{"a layout", "the layout file", std::size_t{4} * 1024 * 1024};
constexpr FileKind points_kind{"a points file", "the points file", largest_points_file};

tl::unexpected<Diagnostics> refuse(const std::string& name, std::string message, std::string instead = "") {
  return tl::unexpected<Diagnostics>(
      Diagnostics{{.file = name, .message = std::move(message), .instead = std::move(instead)}});
}

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == text.npos; }

// A byte order mark says no more than that it is UTF-8.
std::string_view without_mark(std::string_view toml) { return toml.substr(toml.starts_with("\xEF\xBB\xBF") ? 3 : 0); }

const Outline& outline_of(const Layout&) { return layout_outline(); }
const Outline& outline_of(const Concept&) { return concept_outline(); }

// A concept where a layout is wanted: the rest of it would be one error after the other.
bool is_the_other(const Layout&, const Node& root, Errors& errors) {
  for (const Entry& entry : root.entries)
    if (entry.key == "concept") {
      errors.add(entry.place, "this is a concept, and a layout is wanted: nothing in a concept has a place",
                 "\"fairlead arrest\" reads a concept; leave out [concept] once everything has its place");
      return true;
    }
  return false;
}
bool is_the_other(const Concept&, const Node&, Errors&) { return false; }

// All that is the same of both: `whole` is filled in, or there are errors.
template <class Whole>
tl::expected<Whole, Diagnostics> read_text(std::string_view toml, const std::string& name,
                                           const std::vector<Override>& overrides, const FileSource& source,
                                           const ScanSource& scans = {}, const Work& work = {}) {
  if (toml.size() > layout_kind.most_bytes) return refuse(name, too_large(toml.size(), layout_kind));
  if (toml.starts_with("\xFF\xFE") || toml.starts_with("\xFE\xFF"))
    return refuse(name, "the file is UTF-16", "save it as UTF-8");
  const std::string_view text = without_mark(toml);
  if (is_blank(text)) return refuse(name, "the file is empty", "a starting layout is made by \"fairlead new\"");

  Errors errors(text, name, overrides);
  Whole whole;
  std::string scanned;
  PointsTable points(name, source, errors);
  for (const Override& change : overrides) whole.changes.push_back(told(change));
  if (scan_toml(text, errors))
    if (std::optional<Node> root = parse_toml(text, errors); root && !is_the_other(whole, *root, errors)) {
      apply_overrides(*root, outline_of(whole), overrides, errors);
      const Ids ids(*root, errors);
      const auto unsound = read_sections(*root, ids, points, whole, errors);
      check_consistency(whole, unsound, errors);
      if constexpr (requires { whole.structures; }) scanned = open_scans(whole, unsound, name, scans, work, errors);
    }
  if (!errors.none()) return tl::unexpected<Diagnostics>(errors.sorted());
  whole.files = {name, "command line"};
  if constexpr (requires { whole.points; })
    if (whole.points) {
      whole.files.push_back(points.path());
      whole.points->pegs = std::make_shared<const std::vector<SurveyPoint>>(points.unnamed());
    }
  whole.sha256 = sha256_of({toml, points.bytes(), scanned});
  return whole;
}

tl::expected<std::string, Diagnostics> text_of(const std::string& path) {
  auto text = whole_file(path, layout_kind);
  if (!text) return refuse(path, text.error().message, text.error().instead);
  return std::move(*text);
}

ScanSource scan_files() {
  return [](const std::string& beside, const sites::Description& description, const Work& work) {
    return sites::Site::open(beside, description, work).map([](sites::Site site) {
      return std::make_shared<const sites::Site>(std::move(site));
    });
  };
}

FileSource points_files() {
  return [](const std::string& beside) { return whole_file(beside, points_kind); };
}

}  // namespace

tl::expected<Layout, Diagnostics> read_layout_text(std::string_view toml, const std::string& name,
                                                   const std::vector<Override>& overrides, const FileSource& source,
                                                   const ScanSource& scans, const Work& work) {
  return read_text<Layout>(toml, name, overrides, source, scans, work);
}

tl::expected<Concept, Diagnostics> read_concept_text(std::string_view toml, const std::string& name,
                                                     const std::vector<Override>& overrides) {
  return read_text<Concept>(toml, name, overrides, {});
}

tl::expected<Layout, Diagnostics> read_layout(const std::string& path, const std::vector<Override>& overrides,
                                              const Work& work) {
  const auto text = text_of(path);
  if (!text) return tl::unexpected<Diagnostics>(text.error());
  return read_layout_text(*text, path, overrides, points_files(), scan_files(), work);
}

bool is_concept(std::string_view toml) {
  const std::string_view text = without_mark(toml);
  if (toml.size() > layout_kind.most_bytes) return false;
  Errors ignored(text, "", {});
  if (!scan_toml(text, ignored)) return false;
  const std::optional<Node> root = parse_toml(text, ignored);
  return root && root->find("concept");
}

tl::expected<std::variant<Layout, Concept>, Diagnostics> read_layout_or_concept(const std::string& path,
                                                                                const std::vector<Override>& overrides,
                                                                                const Work& work) {
  using Either = std::variant<Layout, Concept>;
  const auto text = text_of(path);
  if (!text) return tl::unexpected<Diagnostics>(text.error());
  if (is_concept(*text))
    return read_concept_text(*text, path, overrides).map([](Concept idea) { return Either(std::move(idea)); });
  return read_layout_text(*text, path, overrides, points_files(), scan_files(), work).map([](Layout layout) {
    return Either(std::move(layout));
  });
}

}  // namespace fairlead
