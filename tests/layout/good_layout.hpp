// The good layout, edited; and the whole text of an error that must point into it.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "geometry/layout/read.hpp"

namespace fairlead {

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline const std::filesystem::path top = FAIRLEAD_SOURCE_DIR;

inline std::string good_text() { return file_text(top / "tests/layout/good.toml"); }

/// The good layout with the first `was` replaced.
inline std::string edited(const std::string& was, const std::string& is, std::string text = good_text()) {
  const std::size_t at = text.find(was);
  EXPECT_NE(at, std::string::npos) << was;
  return at == std::string::npos ? text : text.replace(at, was.size(), is);
}

/// What a user sees: every diagnostic printed, or "" where the text reads.
inline std::string printed_errors(const std::string& text, const std::vector<Override>& overrides = {},
                                  const std::string& name = "otter.toml", const FileSource& source = {}) {
  const auto layout = read_layout_text(text, name, overrides, source);
  std::string printed;
  if (!layout)
    for (const Diagnostic& diagnostic : layout.error()) printed += print(diagnostic);
  return printed;
}

/// A text that must read; where it does not, the test ends with its errors.
inline Layout layout_of(const std::string& text, const std::vector<Override>& overrides = {}) {
  auto layout = read_layout_text(text, "otter.toml", overrides);
  if (!layout) throw std::runtime_error(printed_errors(text, overrides));
  return std::move(*layout);
}

/// The printed form of an error that underlines the bytes [at, at + length) of the text.
inline std::string error_at(const std::string& text, std::size_t at, std::size_t length, const std::string& message,
                            const std::string& instead) {
  const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n') + 1;
  const std::size_t begin = text.rfind('\n', at) + 1;
  const std::string source = text.substr(begin, text.find('\n', begin) - begin);
  return fmt::format("otter.toml:{}:{}: error: {}\n{:>5} |   {}\n      |   {}{}{}{}\n", line, at - begin + 1, message,
                     line, source, std::string(at - begin, ' '), std::string(length, '^'), instead.empty() ? "" : " ",
                     instead);
}

/// In the good layout `was` becomes `is`. Then there is one error, at the last `underlined` up to the end of the line
/// that was changed, or else the first after it.
struct Mistake {
  std::string was, is, underlined, message, instead;
};

inline void expect_each(const std::vector<Mistake>& mistakes) {
  for (const Mistake& m : mistakes) {
    const std::string text = edited(m.was, m.is);
    const std::size_t line_end = text.find('\n', good_text().find(m.was) + m.is.size() - (m.is.empty() ? 0 : 1));
    std::size_t at = text.substr(0, line_end).rfind(m.underlined);
    if (at == std::string::npos) at = text.find(m.underlined);
    ASSERT_NE(at, std::string::npos) << m.underlined;
    EXPECT_EQ(printed_errors(text), error_at(text, at, m.underlined.size(), m.message, m.instead)) << m.is;
  }
}

}  // namespace fairlead
