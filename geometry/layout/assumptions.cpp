#include <fmt/format.h>

#include <concepts>

#include "geometry/layout/concept_fields.hpp"
#include "geometry/layout/layout_fields.hpp"
#include "geometry/layout/read.hpp"

namespace fairlead {
namespace {

// A default as the table has it, '12e-6 /K', without its quotes.
std::string unquoted(std::string_view text) {
  std::string words(text);
  std::erase(words, '\'');
  return words;
}

class Assumptions {
 public:
  std::vector<std::string> found;

  template <class T>
  void in_table(const std::string& path, const T& table) {
    for (const Field<T>& field : fields_of<T>) {
      const bool means = !field.key.fallback.empty() && means_something(field, table);
      visit_stored(field, table, OneValue{*this, path + std::string(field.key.name), field.key, means});
    }
  }

 private:
  /// Looks at one value of a table: `means`, whether it has a default that stands for something there.
  struct OneValue {
    Assumptions& all;
    std::string path;
    const Key& key;
    bool means;
    template <class V, class... Of>
    void operator()(const V& stored, const Of&...) const {
      all.in_value(path, key, means, stored);
    }
  };

  template <class V>
  void in_value(const std::string& path, const Key& key, bool means, const V& stored) {
    if constexpr (requires { stored.has_value(); }) {
      if (stored) in_value(path, key, means, *stored);
    } else if constexpr (requires { stored.front().id; }) {
      for (const auto& item : stored) in_table(fmt::format("{}.{}.", path, item.id.value), item);
    } else if constexpr (!fields_of<V>.empty()) {
      in_table(path + ".", stored);
    } else if constexpr (requires {
                           { stored.place } -> std::convertible_to<Place>;
                         }) {
      if (stored.place == Place{} && means)
        found.push_back(fmt::format("{} = {}, a stated default ({})", path, unquoted(key.fallback), key.because));
    }
  }
};

template <class Whole>
std::vector<std::string> assumed(const Whole& whole) {
  Assumptions all;
  all.in_table("", whole);
  for (const std::string& change : whole.changes) all.found.push_back(change + ", from the command line");
  return std::move(all.found);
}

}  // namespace

std::vector<std::string> assumptions(const Layout& layout) { return assumed(layout); }
std::vector<std::string> assumptions(const Concept& idea) { return assumed(idea); }

}  // namespace fairlead
