// Digests by which files are told apart.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>

#include "geometry/tasks/work.hpp"

namespace fairlead {

/// SHA-256 of the bytes one behind the other; 64 hex digits.
std::string sha256_of(std::initializer_list<std::string_view> bytes);

/// Of a large file, on work.threads threads: the SHA-256 of the SHA-256s, in hex digits, of its pieces of 8 MiB.
std::string digest_of(std::span<const std::byte> bytes, const Work&);

}  // namespace fairlead
