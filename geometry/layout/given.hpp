// What an author writes: a value and the place it was written.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/quantity/dimension.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead {

/// file: index into Layout::files. line 0: a stated default or a command-line option; both are listed as assumptions.
struct Place {
  unsigned short file{};
  unsigned line{}, column{};
  bool operator==(const Place&) const = default;
};

/// A value and its place travel together, also into a changed Layout; mechanics takes the plain value.
template <class T>
struct Given {
  T value{};
  Place place{};
  operator const T&() const { return value; }
};

using Real = Given<double>;
using Words = Given<std::string>;

/// A value known to lie between two ends; both equal when one value was written.
struct Range {
  double low{}, high{};
  bool operator==(const Range&) const = default;
};

/// How large a body is, whole, about its point; each of the three above zero.
struct Size {
  double along_m{}, across_m{}, up_m{};
  bool operator==(const Size&) const = default;
};

/// Three numbers of one kind along the main line, across it and up.
struct PerAxis {
  double along{}, across{}, up{};
  bool operator==(const PerAxis&) const = default;
};

/// A limit and who says so. An absent Limit makes its check "not judged".
struct Limit {
  Real at;
  std::string basis;
};

struct Date {
  int year{}, month{}, day{};
  auto operator<=>(const Date&) const = default;
};

enum class AnchorId : unsigned short {};
enum class SheaveId : unsigned short {};
enum class LineId : unsigned short {};
enum class BlockId : unsigned short {};
enum class ConnectorId : unsigned short {};

/// Whatever a finding can be about.
struct Item {
  enum class Kind {
    layout,
    main_line,
    anchor,
    sheave,
    line,
    block,
    connector,
    brake_unit,
    brake_trolley,
    backup_brake,
    rider,
    landing,
    support_line,
    structure,
    parallel_line,
    member
  };
  Kind kind{};
  int index{};
  bool operator==(const Item&) const = default;
};

}  // namespace fairlead
