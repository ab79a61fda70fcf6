// Every layout and concept of tests/bad_layouts is refused with exactly the text that stands beside it.
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

std::string printed_concept_errors(const std::string& text, const std::string& name) {
  const auto idea = read_concept_text(text, name);
  std::string printed;
  if (!idea)
    for (const Diagnostic& diagnostic : idea.error()) printed += print(diagnostic);
  return printed;
}

TEST(BadLayouts, EachIsRefusedWithTheTextBesideIt) {
  const FileSource points_beside_it = [](const std::string& path) -> tl::expected<std::string, FileRefused> {
    if (!std::filesystem::exists(top / "tests/bad_layouts" / path))
      return tl::unexpected<FileRefused>(FileRefused{"there is no such file", ""});
    return file_text(top / "tests/bad_layouts" / path);
  };
  int layouts = 0;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(top / "tests/bad_layouts"))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    if (file.extension() != ".toml") continue;
    ++layouts;
    const auto expected = std::filesystem::path(file).replace_extension(".expected");
    const std::string text = file_text(file);
    const std::string errors = is_concept(text) ? printed_concept_errors(text, file.filename())
                                                : printed_errors(text, {}, file.filename(), points_beside_it);
    EXPECT_FALSE(errors.empty()) << file << " is read";
    EXPECT_EQ(errors, file_text(expected)) << file;
  }
  EXPECT_GE(layouts, 20);
}

}  // namespace
}  // namespace fairlead
