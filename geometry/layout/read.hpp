// Reads a layout file: all of its errors at once, or a Layout whose every reference is resolved.
#pragma once

#include <functional>
#include <string_view>
#include <variant>

#include "geometry/layout/concept.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/layout/whole_file.hpp"
#include "geometry/tasks/work.hpp"
#include "tl/expected.hpp"

namespace fairlead {

/// One error: file:line:column, what is wrong, what to write instead. `print` gives it with the source line and a
/// caret, ending in a newline. Columns are characters, a tab one of them.
struct Diagnostic {
  std::string file;
  Place place{};
  unsigned length = 1;        ///< columns the caret underlines
  std::string message{};      ///< "anchor \"A2\": \"ton\" may mean 1000 kg, 2000 lb or 2240 lb"
  std::string instead{};      ///< "write \"3 t\", \"6000 lb\" or \"6720 lb\""; may be empty
  std::string source_line{};  ///< empty for errors of no line
};
std::string print(const Diagnostic&);

/// A change from the command line: "sheave.R1.position" and a value as the file would have it.
struct Override {
  std::string key, value;
  bool absent = false;  ///< the key is taken away where it is given; no value
};
/// "brake_unit.mass = 46 kg", "brake_unit.mass left out"
std::string told(const Override&);

using Diagnostics = std::vector<Diagnostic>;

/// Gives the bytes of a file that a layout names, by its path: as written there, in the layout's directory.
using FileSource = std::function<tl::expected<std::string, FileRefused>(const std::string& path)>;

/// Opens a scan that a layout names, by its path: as written there, in the layout's directory.
using ScanSource = std::function<tl::expected<std::shared_ptr<const sites::Site>, sites::ReadErrors>(
    const std::string& path, const sites::Description&, const Work&)>;

/// Reads a file, and the points file and scans it names. Files over 4 MiB (64 MiB of points, 1 GiB of a scan),
/// directories and unreadable files are refused with one diagnostic. Scans are gone through on work.threads threads.
tl::expected<Layout, Diagnostics> read_layout(const std::string& path, const std::vector<Override>& = {},
                                              const Work& = {});
/// The same from text; `name` stands in the messages. Without a source the layout can name no file.
tl::expected<Layout, Diagnostics> read_layout_text(std::string_view toml, const std::string& name,
                                                   const std::vector<Override>& = {}, const FileSource& = {},
                                                   const ScanSource& = {}, const Work& = {});

/// The same of a concept, which names no file.
tl::expected<Concept, Diagnostics> read_concept_text(std::string_view toml, const std::string& name,
                                                     const std::vector<Override>& = {});
/// Whether a text has a section [concept], and so is none of a layout. No TOML is no concept.
bool is_concept(std::string_view toml);
/// Reads a file as what it is.
tl::expected<std::variant<Layout, Concept>, Diagnostics> read_layout_or_concept(const std::string& path,
                                                                                const std::vector<Override>& = {},
                                                                                const Work& = {});

/// What the author did not write: "main_line.expansion = 12e-6 /K, a stated default (steel; common practice, no
/// source)", "main_line.tension = 16 kN, from the command line".
std::vector<std::string> assumptions(const Layout&);
std::vector<std::string> assumptions(const Concept&);

/// JSON Schema (draft-07) of the layout file.
std::string layout_schema();
/// The same of a concept.
std::string concept_schema();
/// A starting layout: every required key with an invented value, the others in comments. It reads without an error.
std::string new_layout();
/// The same of a concept.
std::string new_concept();
/// What "sheave", "sheave.axle" or "riders.envelope.width" is and how it is written; nullopt: there is no such key.
std::optional<std::string> key_help(std::string_view key);

/// The dotted paths of all keys of this name: of "link" "sheave.link".
std::vector<std::string> paths_of(std::string_view name);

}  // namespace fairlead
