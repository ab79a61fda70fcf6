#include "geometry/layout/differences.hpp"

#include <algorithm>

#include "geometry/layout/outline.hpp"

namespace fairlead {
namespace {

const ToldKey* find_key(const ToldPart& part, const std::string& name) {
  const auto found =
      std::find_if(part.keys.begin(), part.keys.end(), [&](const ToldKey& key) { return key.name == name; });
  return found == part.keys.end() ? nullptr : &*found;
}

std::vector<KeyChange> between(const ToldPart& was, const ToldPart& is) {
  std::vector<KeyChange> changes;
  for (const ToldKey& old : was.keys) {
    const ToldKey* now = find_key(is, old.name);
    if (!now)
      changes.push_back({old.name, old.key, old.told, std::nullopt});
    else if (!same(old.told, now->told))
      changes.push_back({old.name, old.key, old.told, now->told});
  }
  for (const ToldKey& now : is.keys)
    if (!find_key(was, now.name)) changes.push_back({now.name, now.key, std::nullopt, now.told});
  return changes;
}

/// The part of each of `others` that has the name of each of `parts`, and is as many-eth of that name.
std::vector<const ToldPart*> partners(const std::vector<ToldPart>& parts, const std::vector<ToldPart>& others) {
  std::vector<bool> taken(others.size());
  std::vector<const ToldPart*> found;
  for (const ToldPart& part : parts) {
    found.push_back(nullptr);
    for (std::size_t i = 0; i < others.size() && !found.back(); ++i) {
      if (taken[i] || others[i].section != part.section || others[i].id != part.id) continue;
      taken[i] = true;
      found.back() = &others[i];
    }
  }
  return found;
}

/// Stands at the same places; where neither has one, holds the same but for its name.
bool alike(const PartChange& gone, const PartChange& come) {
  if (gone.section != come.section || gone.id.empty()) return false;
  bool places = false, all = true;
  for (const KeyChange& old : gone.keys) {
    if (old.name == "id") continue;
    const auto now =
        std::find_if(come.keys.begin(), come.keys.end(), [&](const KeyChange& key) { return key.name == old.name; });
    const bool kept = now != come.keys.end() && same(*old.was, *now->is);
    if (old.was->form == Told::Form::place && !kept) return false;
    places = places || old.was->form == Told::Form::place;
    all = all && kept;
  }
  return places || (all && gone.keys.size() == come.keys.size() && gone.keys.size() > 1);
}

void find_renamed(std::vector<PartChange>& changes) {
  for (PartChange& gone : changes)
    for (PartChange& come : changes)
      if (gone.was && !gone.is && come.is && !come.was && gone.perhaps_renamed.empty() &&
          come.perhaps_renamed.empty() && alike(gone, come)) {
        gone.perhaps_renamed = come.id;
        come.perhaps_renamed = gone.id;
      }
}

}  // namespace

Strictness strictness(const KeyChange& change) {
  if (change.key->stricter == Stricter::not_a_limit) return Strictness::unsaid;
  if (!change.was || !change.is) {
    if (!change.key->in_place_of.empty()) return Strictness::unsaid;
    return change.was ? Strictness::loosened : Strictness::tightened;
  }
  const double was = change.was->numbers.front().si, is = change.is->numbers.front().si;
  if (is == was) return Strictness::unsaid;
  return (is < was) == (change.key->stricter == Stricter::lower) ? Strictness::tightened : Strictness::loosened;
}

std::vector<PartChange> differences(const Layout& was, const Layout& is) {
  const std::vector<ToldPart> old = told(was), now = told(is);
  const std::vector<const ToldPart*> kept = partners(old, now), known = partners(now, old);
  std::vector<PartChange> changes;
  for (std::size_t i = 0; i < old.size(); ++i) {
    PartChange change{old[i].section, old[i].id, old[i].place, std::nullopt, {}};
    if (kept[i]) change.is = kept[i]->place;
    change.keys = between(old[i], kept[i] ? *kept[i] : ToldPart{});
    if (!kept[i] || !change.keys.empty()) changes.push_back(std::move(change));
  }
  for (std::size_t i = 0; i < now.size(); ++i)
    if (!known[i]) changes.push_back({now[i].section, now[i].id, std::nullopt, now[i].place, between({}, now[i])});
  // Nested lists are told behind the section that holds them.
  const auto order = [](const PartChange& change) {
    const std::string section = change.section.substr(0, change.section.find('.'));
    const auto& all = layout_outline().keys;
    return std::find_if(all.begin(), all.end(), [&](const Outline& one) { return one.key.name == section; }) -
           all.begin();
  };
  std::stable_sort(changes.begin(), changes.end(),
                   [&](const PartChange& a, const PartChange& b) { return order(a) < order(b); });
  find_renamed(changes);
  return changes;
}

}  // namespace fairlead
