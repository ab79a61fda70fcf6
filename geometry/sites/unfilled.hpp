// Vectors whose elements are not written before somebody has something to write: of those that fill gigabytes each page
// is then made by the thread that fills it.
#pragma once

#include <memory>
#include <type_traits>
#include <utility>
#include <vector>

namespace fairlead::sites {

template <class T>
struct LeavesUnfilled : std::allocator<T> {
  static_assert(std::is_trivially_default_constructible_v<T>, "what is made by a constructor is always filled");
  template <class U>
  struct rebind {
    using other = LeavesUnfilled<U>;
  };
  template <class U>
  void construct(U* at) noexcept {
    ::new (static_cast<void*>(at)) U;
  }
  template <class U, class... Arguments>
  void construct(U* at, Arguments&&... arguments) {
    ::new (static_cast<void*>(at)) U(std::forward<Arguments>(arguments)...);
  }
};

/// resize() leaves new elements as the memory is: each must be written before it is read.
template <class T>
using Unfilled = std::vector<T, LeavesUnfilled<T>>;

}  // namespace fairlead::sites
