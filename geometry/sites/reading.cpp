#include "geometry/sites/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstring>
#include <iterator>

#include "geometry/quantity/utf8.hpp"

namespace fairlead::sites {
namespace {

constexpr std::size_t most_errors = 20;

std::string_view without_plus(std::string_view word) {
  const bool plus = word.size() > 1 && word[0] == '+' && word[1] != '-' && word[1] != '+';
  return plus ? word.substr(1) : word;
}

}  // namespace

Words::Words(std::string_view text) : at_(text.data()), end_(text.data() + text.size()) {
  if (text.starts_with("\xEF\xBB\xBF")) at_ += 3;
}

std::string_view Words::rest() {
  skip_blanks();
  const auto* feed = static_cast<const char*>(at_ == end_ ? nullptr : std::memchr(at_, '\n', left()));
  const char *begin = at_, *last = feed != nullptr ? feed : end_;
  at_ = last;
  while (last != begin && is_blank(last[-1])) --last;
  return {begin, static_cast<std::size_t>(last - begin)};
}

bool Words::next_line() {
  const bool here = at_ != end_ && *at_ == '\n';
  const auto* feed = here ? at_ : static_cast<const char*>(at_ == end_ ? nullptr : std::memchr(at_, '\n', left()));
  at_ = feed != nullptr ? feed + 1 : end_;
  if (feed != nullptr) ++line_;
  return feed != nullptr;
}

std::optional<double> number_of(std::string_view word) {
  word = without_plus(word);
  double value = 0;
  const auto [end, wrong] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (end != word.data() + word.size() || word.empty()) return std::nullopt;
  if (wrong == std::errc::result_out_of_range) {
    // Too small is as good as nothing, too large is beyond all that is allowed; the value is untouched in both.
    const std::size_t exponent = word.find_first_of("eE");
    const bool small = exponent != word.npos ? word.substr(exponent + 1).starts_with('-')
                                             : word.find_first_of("123456789") > word.find('.');
    return small ? 0 : HUGE_VAL;
  }
  return wrong == std::errc() ? std::optional(value) : std::nullopt;
}

std::optional<std::int64_t> integer_of(std::string_view word) {
  word = without_plus(word);
  std::int64_t value = 0;
  const auto [end, wrong] = std::from_chars(word.data(), word.data() + word.size(), value);
  return wrong == std::errc() && end == word.data() + word.size() ? std::optional(value) : std::nullopt;
}

std::string quoted(std::string_view text) {
  constexpr std::size_t most = 40;
  std::string shown = "\"";
  std::size_t at = 0;
  for (std::size_t columns = 0; at < text.size() && columns < most; ++columns) {
    const std::size_t length = character_length(text, at);
    const bool printable = length > 1 || (length == 1 && text[at] >= ' ' && text[at] != '\x7f');
    shown += printable ? std::string(text.substr(at, length))
                       : fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
    at += std::max<std::size_t>(length, 1);
  }
  return shown + (at < text.size() ? "...\"" : "\"");
}

std::optional<std::string> wrong_with(double coordinate, const ReadLimits& limits) {
  if (std::isnan(coordinate)) return "a coordinate is not a number";
  if (std::isinf(coordinate)) return "a coordinate is infinite";
  if (!(std::abs(coordinate) <= limits.farthest))
    return fmt::format("a coordinate is {:.6g}, and the farthest that is believed {:.6g}", coordinate, limits.farthest);
  return std::nullopt;
}

void Gathering::error(std::size_t line, std::size_t offset, std::string message, std::string instead) {
  if (errors.first.size() < most_errors)
    errors.first.push_back({line, offset, std::move(message), std::move(instead)});
  else
    ++errors.more;
}

void Gathering::vertex(const std::string_view (&words)[3], std::size_t line) {
  double c[3];
  for (int i = 0; i < 3; ++i) {
    const std::optional<double> value = number_of(words[i]);
    if (!value) {
      if (words[i].empty())
        error(line, 0, "a coordinate is missing", "write three numbers: x y z");
      else
        error(line, 0, fmt::format("{} is no number", quoted(words[i])),
              words[i].find(',') != words[i].npos ? "write a decimal point" : "write three numbers: x y z");
      return;
    }
    c[i] = *value;
  }
  vertex(c, line, 0);
}

void Gathering::vertex(const double (&c)[3], std::size_t line, std::size_t offset) {
  const double far = limits.farthest;
  if (!(std::abs(c[0]) <= far && std::abs(c[1]) <= far && std::abs(c[2]) <= far)) {
    const auto wrong =
        std::find_if(std::begin(c), std::end(c), [&](double value) { return !(std::abs(value) <= far); });
    error(line, offset, *wrong_with(*wrong, limits),
          std::string(std::isfinite(*wrong) ? farthest_words : "mend the file"));
  }
  mesh.coordinates.insert(mesh.coordinates.end(), std::begin(c), std::end(c));
}

void Gathering::polygon(std::span<const std::uint32_t> corners) {
  if (corners.size() == 3) {  // most of them
    mesh.indices.insert(mesh.indices.end(), corners.begin(), corners.end());
    return;
  }
  if (corners.size() > 3) ++mesh.fanned;
  for (std::size_t i = 1; i + 1 < std::max<std::size_t>(corners.size(), 3); ++i) {
    const std::size_t last = corners.size() - 1;
    mesh.indices.insert(mesh.indices.end(), {corners[0], corners[std::min(i, last)], corners[std::min(i + 1, last)]});
  }
}

bool Gathering::within_limits(std::size_t line, std::size_t offset) {
  if (vertices() <= 3 * std::size_t{limits.most_items} && mesh.indices.size() / 3 <= limits.most_items) return true;
  error(line, offset, fmt::format("the file has more than {} triangles or points", limits.most_items),
        "thin it out, or cut away what is far from the line");
  return false;
}

ReadMesh Gathering::finish(int corners, bool indexed) {
  const std::size_t count = indexed ? mesh.indices.size() / 3 : vertices() / static_cast<std::size_t>(corners);
  if (errors.first.empty() && count > limits.most_items)
    error(0, 0, fmt::format("the file has {} triangles or points, and a site at most {}", count, limits.most_items),
          "thin it out, or cut away what is far from the line");
  if (errors.first.empty() && count == 0)
    error(0, 0, "there is neither a triangle nor a point in it", "name another file, or none");
  if (!errors.first.empty()) return tl::unexpected<ReadErrors>(std::move(errors));
  mesh.items.wide = true;
  mesh.items.corners = corners;
  mesh.items.count = static_cast<std::uint32_t>(count);
  mesh.items.coordinates = reinterpret_cast<const std::byte*>(mesh.coordinates.data());
  mesh.items.stride = sizeof(double) * 3 * (indexed ? 1 : static_cast<std::size_t>(corners));
  if (indexed) {
    mesh.items.vertices = static_cast<std::uint32_t>(vertices());
    mesh.items.indices = reinterpret_cast<const std::byte*>(mesh.indices.data());
    mesh.items.index_stride = 3 * sizeof(std::uint32_t);
    mesh.loose_vertices = loose_vertices(mesh.items);
  }
  return std::move(mesh);
}

std::uint32_t loose_vertices(const Items& items) {
  std::vector<bool> used(items.vertices, false);
  for (std::uint32_t i = 0; i < items.count; ++i)
    for (std::size_t k = 0; k < 3; ++k) {
      std::uint32_t vertex = 0;
      std::memcpy(&vertex, items.indices + items.index_stride * i + 4 * k, 4);
      used[vertex] = true;
    }
  return static_cast<std::uint32_t>(std::count(used.begin(), used.end(), false));
}

std::string site_file_too_large(std::size_t bytes, const ReadLimits& limits) {
  return fmt::format("the file has {} bytes, and a site at most {}", bytes, limits.most_bytes);
}

ReadMesh read_mesh(std::span<const std::byte> bytes, Format format, const ReadLimits& limits, const Work& work) {
  Gathering refused(limits);
  if (bytes.size() > limits.most_bytes) {
    refused.error(0, 0, site_file_too_large(bytes.size(), limits),
                  "thin it out, or cut away what is far from the line");
    return refused.finish(3, false);
  }
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    refused.error(0, 0, "the file is UTF-16 text", "save it as plain text or UTF-8");
    return refused.finish(3, false);
  }
  switch (format) {
    case Format::stl:
      return read_stl(bytes, limits, work);
    case Format::ply:
      return read_ply(bytes, limits);
    case Format::obj:
      return read_obj(text, limits);
    case Format::xyz:
      break;
  }
  return read_xyz(text, limits);
}

ReadErrors astray(const Mesh& mesh, std::span<const std::byte> bytes, const ReadLimits& limits) {
  Gathering found(limits);
  const Items& items = mesh.items;
  const std::uint32_t places = items.indices != nullptr ? items.vertices : items.count;
  for (std::uint32_t i = 0; i < places; ++i) {
    const int corners = items.indices != nullptr ? 1 : items.corners;
    Items plain = items;
    plain.indices = nullptr;
    for (int corner = 0; corner < corners; ++corner) {
      double c[3];
      read_corner(plain, i, corner, c);
      for (std::size_t k = 0; k < 3; ++k)
        if (auto wrong = wrong_with(c[k], limits))
          found.error(0,
                      static_cast<std::size_t>(corner_at(plain, i, corner) - bytes.data()) + k * (items.wide ? 8 : 4),
                      std::move(*wrong), std::string(std::isfinite(c[k]) ? farthest_words : "mend the file"));
    }
  }
  return std::move(found.errors);
}

}  // namespace fairlead::sites
